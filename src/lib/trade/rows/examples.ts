/** The names that the examples of function rows use: one layout and a few readings, both invented. */

/** Lines of a `derive` cell. */
export const exampleLines: readonly string[] = [
	'a_leaf = leaf_spring(0.62 m, 0.72 m, 28000 N/m)  # The spring',
	'a_mount = spring_mount(1.25 m, 0.06 m, 0.12 m, "hanging")  # Its mount',
	'a_fit = axle_fit(true, 0.07 m, 0.025 m, 0 m, 0.03 rad, 0.005 m)  # How the axle sits on it',
	'at_rest = spring_at_baseline(a_leaf, a_mount, a_fit, 0.125 m, 3800 N)  # At rest',
	'in_bump = spring_at_rise(at_rest, 0.05 m)  # In bump',
	'an_axle = axle_of(at_rest)  # The axle',
	'the_pinion = pinion_joint(an_axle, 0.24 m, 0.02 m, 0.07 rad)  # The pinion joint',
	'the_transmission = transmission_joint(the_pinion, 1.4 m, 0.06 rad)  # The transmission joint',
	'the_shaft = driveshaft_between(the_transmission, the_pinion)  # The driveshaft',
	'a_raised_pinion = joint_moved(the_pinion, 0.01 m, 0.05 m)  # The pinion joint, raised',
	'a_chain = planar_three(0.05 rad, 0.03 rad, 0.09 rad, 0.1 rad, 0.2 rad)  # Three joints',
];

/** What is entered for the lists of readings; lengths in metres, angles in radians. */
export const exampleReadings = {
	lengths: [0.851, 0.8525, 0.8495],
	angles: [0.061, 0.064, 0.0605, 0.062],
} as const;
