/**
 * The trade's functions as the language has them: none is forgotten, each gives to the last bit what the
 * mechanics give, and each refuses what it does not take while the page is read.
 */
import { canRun } from '../../src/lib/engine/program.ts';
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import * as axles from '../../src/lib/mechanics/axle.ts';
import * as clearance from '../../src/lib/mechanics/clearance.ts';
import * as coil from '../../src/lib/mechanics/coil-spring.ts';
import * as shafts from '../../src/lib/mechanics/driveshaft.ts';
import * as chains from '../../src/lib/mechanics/joint-chain.ts';
import * as pack from '../../src/lib/mechanics/leaf-pack.ts';
import * as springs from '../../src/lib/mechanics/leaf-spring.ts';
import * as loads from '../../src/lib/mechanics/load.ts';
import * as measuring from '../../src/lib/mechanics/measuring.ts';
import * as shackles from '../../src/lib/mechanics/shackle.ts';
import * as shaftSpeed from '../../src/lib/mechanics/shaft-speed.ts';
import * as slip from '../../src/lib/mechanics/slip.ts';
import * as stance from '../../src/lib/mechanics/stance.ts';
import * as joints from '../../src/lib/mechanics/universal-joint.ts';
import * as whirling from '../../src/lib/mechanics/whirling.ts';
import * as windUp from '../../src/lib/mechanics/wind-up.ts';
import { mechanicsFunctions } from '../../src/lib/trade/rows/index.ts';
import type { Value } from '../../src/lib/language/types.ts';
import { fence, inputCell, runOf, smallWorkbook, valueIn } from '../language/small-workbook.ts';

const snakeCase = (name: string): string =>
	name.replace(/[A-Z]/g, (capital) => `_${capital.toLowerCase()}`);
const rowNames = mechanicsFunctions.map(({ name }) => name);

describe('every function of the mechanics', () => {
	/** Those without a row, and why. */
	const withoutRow: Readonly<Record<string, string>> = {
		OutOfRange: 'the error they all throw',
		within: 'refuses a value',
		positive: 'refuses a value',
		finite: 'refuses a value',
		plain: 'a number for a sentence',
		plainLength: 'a length for a sentence',
		plainAngle: 'an angle for a sentence',
		bracketedRoot: 'takes a function, which no formula can write',
		checkAngle: 'refuses a value',
		checkDirection: 'refuses a value',
		checkShaftSpeed: 'refuses a value',
		shaftDirection: 'a vector, which the language does not have; operating_angle_in_space uses it',
	};
	/** Those whose rows have other names: one function for two kinds of argument, or an older name. */
	const otherRows: Readonly<Record<string, readonly string[]>> = {
		springMountMoved: ['mount_moved'],
		axleOnSeat: ['axle_at_rest', 'axle_in_travel'],
		shackleAngle: ['shackle_angle', 'shackle_angle_in_travel'],
		operatingAngle: ['operating_angle', 'operating_angle_in_space'],
	};

	const folder = join(import.meta.dirname, '../../src/lib/mechanics');
	const exported = async (): Promise<string[]> => {
		const found: string[] = [];
		for (const file of readdirSync(folder)) {
			const module = (await import(join(folder, file))) as Record<string, unknown>;
			for (const [name, value] of Object.entries(module)) {
				if (typeof value === 'function') found.push(name);
			}
		}
		return found;
	};

	test('has its row, and every row has its function', async () => {
		const names = await exported();
		const withRow = names.filter((name) => !Object.hasOwn(withoutRow, name));
		const wanted = withRow.flatMap((name) => otherRows[name] ?? [snakeCase(name)]);
		expect([...rowNames].sort()).toEqual(wanted.sort());
	});

	test('that is said to have none is there', async () => {
		const names = await exported();
		for (const name of [...Object.keys(withoutRow), ...Object.keys(otherRows)]) {
			expect(names).toContain(name);
		}
	});
});

describe('what a row says', () => {
	const snake = /^[a-z][a-z0-9]*(_[a-z0-9]+)*$/;
	/** Keys of frame axes, which a page calls by their direction. */
	const directions: Readonly<Record<string, string>> = {
		x: 'forward',
		z: 'up',
		seatX: 'seat_forward',
		seatZ: 'seat_up',
		rearEyeX: 'rear_eye_forward',
		rearEyeZ: 'rear_eye_up',
	};

	test.each(mechanicsFunctions.map((row) => [row.name, row] as const))('%s', (_, row) => {
		expect(row.name).toMatch(snake);
		expect(row.about).toMatch(/^\p{Lu}.+\.$/su);
		expect(row.source.trim()).not.toBe('');
		expect(row.parameters.length).toBeGreaterThan(0);
		for (const parameter of row.parameters) {
			expect(parameter.name).toMatch(snake);
			expect(parameter.about.trim(), parameter.name).not.toBe('');
		}
		expect(new Set(row.parameters.map(({ name }) => name)).size).toBe(row.parameters.length);
		const fields = row.result?.kind === 'record' ? Object.entries(row.result.fields) : [];
		for (const [name, { key, about }] of fields) {
			expect(name).toBe(directions[key] ?? snakeCase(key));
			expect(about.trim(), name).not.toBe('');
		}
	});
});

// One layout, in SI, as a page writes it and as the mechanics take it.
const definitions = [
	'a_leaf = leaf_spring(0.62 m, 0.72 m, 28000 N/m)  # The spring',
	'a_mount = spring_mount(1.25 m, 0.06 m, 0.12 m, "hanging")  # Its mount',
	'at_rest = spring_at_arch(a_leaf, a_mount, 0.125 m, 3800 N)  # At rest',
	'in_bump = spring_at_axle_rise(a_leaf, a_mount, at_rest, -0.07 m, 0.03 rad, 0.05 m)  # In bump',
	'an_axle = axle_at_rest(at_rest, -0.07 m, 0.03 rad)  # The axle',
	'the_pinion = pinion_joint(an_axle, 0.24 m, 0.02 m, 0.07 rad)  # The pinion joint',
	'the_transmission = transmission_joint(the_pinion, 1.4 m, 0.06 rad)  # The transmission joint',
	'a_chain = planar_three(0.05 rad, 0.03 rad, 0.09 rad, 0.1 rad, 0.2 rad)  # Three joints',
];
const leaf = springs.leafSpring(0.62, 0.72, 28000);
const mount = springs.springMount(1.25, 0.06, 0.12, false);
const rest = springs.springAtArch(leaf, mount, 0.125, 3800);
const bump = axles.springAtAxleRise(leaf, mount, rest, -0.07, 0.03, 0.05);
const axle = axles.axleOnSeat(rest, -0.07, 0.03);
const pinion = shafts.pinionJoint(axle, 0.24, 0.02, 0.07);
const transmission = shafts.transmissionJoint(pinion, 1.4, 0.06);
const chain = chains.planarThree(0.05, 0.03, 0.09, 0.1, 0.2);
const lengths = [0.851, 0.8525, 0.8495];
const angles = [0.061, 0.064, 0.0605, 0.062];

/** Each row called once: its arguments as a page writes them, and the mechanics called with the same. */
const examples: Readonly<Record<string, readonly [args: readonly string[], given: unknown]>> = {
	leaf_spring: [['0.62 m', '0.72 m', '28000 N/m'], leaf],
	spring_mount: [
		['1.25 m', '0.06 m', '0.12 m', '"standing"'],
		springs.springMount(1.25, 0.06, 0.12, true),
	],
	mount_moved: [
		['a_mount', '0.02 m', '0.01 m', '-0.015 m', '0.005 m', '0.025 m'],
		springs.springMountMoved(mount, 0.02, 0.01, -0.015, 0.005, 0.025),
	],
	arch_of_curvature: [['0.5 / (1 m)', '1.34 m'], springs.archOfCurvature(0.5, 1.34)],
	curvature_of_arch: [['0.125 m', '1.34 m'], springs.curvatureOfArch(0.125, 1.34)],
	spring_pose: [['a_leaf', 'a_mount', '0.5 / (1 m)'], springs.springPose(leaf, mount, 0.5)],
	spring_at_arch: [
		['a_leaf', 'a_mount', '0.11 m', '4100 N'],
		springs.springAtArch(leaf, mount, 0.11, 4100),
	],
	spring_at_load: [
		['a_leaf', 'a_mount', 'at_rest', '4600 N'],
		springs.springAtLoad(leaf, mount, rest, 4600),
	],
	spring_at_axle_rise: [
		['a_leaf', 'a_mount', 'at_rest', '-0.07 m', '0.03 rad', '-0.06 m'],
		axles.springAtAxleRise(leaf, mount, rest, -0.07, 0.03, -0.06),
	],
	axle_at_rest: [['at_rest', '0.05 m', '0.02 rad'], axles.axleOnSeat(rest, 0.05, 0.02)],
	axle_in_travel: [['in_bump', '0.05 m', '0.02 rad'], axles.axleOnSeat(bump, 0.05, 0.02)],
	shackle_angle: [['a_mount', 'at_rest'], shackles.shackleAngle(mount, rest)],
	shackle_angle_in_travel: [['a_mount', 'in_bump'], shackles.shackleAngle(mount, bump)],
	shackle_limits: [
		['a_leaf', 'a_mount', 'at_rest', '-0.07 m', '0.03 rad'],
		shackles.shackleLimits(leaf, mount, rest, -0.07, 0.03),
	],
	wind_up_stiffness: [['a_leaf'], springs.windUpStiffness(leaf)],

	pinion_joint: [
		['an_axle', '0.24 m', '0.03 m', '0.05 rad'],
		shafts.pinionJoint(axle, 0.24, 0.03, 0.05),
	],
	transmission_joint: [
		['the_pinion', '1.35 m', '0.08 rad'],
		shafts.transmissionJoint(pinion, 1.35, 0.08),
	],
	joint_moved: [['the_pinion', '0.01 m', '-0.02 m'], shafts.jointMoved(pinion, 0.01, -0.02)],
	driveshaft_between: [
		['the_transmission', 'the_pinion'],
		shafts.driveshaftBetween(transmission, pinion),
	],
	slip_left: [
		['1.4 m', '0.08 m', '0.03 m', '1.39 m', '1.385 m', '1.412 m'],
		slip.slipLeft(1.4, 0.08, 0.03, 1.39, 1.385, 1.412),
	],
	shaft_order: [
		['1.39 m', '1.385 m', '1.412 m', '0.012 m', '0.02 m', '0.03 m'],
		slip.shaftOrder(1.39, 1.385, 1.412, 0.012, 0.02, 0.03),
	],

	operating_angle: [['0.02 rad', '0.09 rad'], joints.operatingAngle(0.02, 0.09)],
	operating_angle_in_space: [
		['0.02 rad', '0.01 rad', '0.09 rad', '0.04 rad'],
		joints.operatingAngle(0.02, 0.09, 0.01, 0.04),
	],
	joint_speed_ratio: [['0.12 rad', '0.7 rad'], joints.jointSpeedRatio(0.12, 0.7)],
	joint_acceleration: [
		['0.12 rad', '0.7 rad', '300 rad/s'],
		joints.jointAcceleration(0.12, 0.7, 300),
	],
	rotation_of_greatest_acceleration: [['0.12 rad'], joints.rotationOfGreatestAcceleration(0.12)],
	greatest_joint_acceleration: [
		['0.12 rad', '300 rad/s'],
		joints.greatestJointAcceleration(0.12, 300),
	],
	joint_rotation: [['0.12 rad', '0.7 rad'], joints.jointRotation(0.12, 0.7)],
	angle_of_fluctuation: [['0.01'], joints.angleOfFluctuation(0.01)],
	pair_speed_ratio: [
		['0.12 rad', '0.1 rad', '0.7 rad', '0.05 rad'],
		joints.pairSpeedRatio(0.12, 0.1, 0.7, 0.05),
	],
	pair_speed_range: [['0.12 rad', '0.1 rad', '0.05 rad'], joints.pairSpeedRange(0.12, 0.1, 0.05)],
	planar_pair: [['0.05 rad', '-0.06 rad', '0.1 rad'], chains.planarPair(0.05, -0.06, 0.1)],
	planar_three: [
		['0.05 rad', '-0.03 rad', '0.08 rad', '0.1 rad', '0.2 rad'],
		chains.planarThree(0.05, -0.03, 0.08, 0.1, 0.2),
	],
	pair_in_space: [
		['0.05 rad', '0.01 rad', '0.09 rad', '0.03 rad', '0.04 rad', '-0.02 rad', '0.1 rad'],
		chains.pairInSpace(0.05, 0.01, 0.09, 0.03, 0.04, -0.02, 0.1),
	],
	three_in_space: [
		[
			...['0.05 rad', '0.01 rad', '0.07 rad', '0.02 rad', '0.12 rad', '0.03 rad'],
			...['0.04 rad', '-0.02 rad', '0.1 rad', '0.2 rad'],
		],
		chains.threeInSpace(0.05, 0.01, 0.07, 0.02, 0.12, 0.03, 0.04, -0.02, 0.1, 0.2),
	],
	shaft_plan_from_offset: [
		['0.04 m', '1.4 m', '0.07 rad'],
		chains.shaftPlanFromOffset(0.04, 1.4, 0.07),
	],
	cancelling_pinion_slope: [
		['0.05 rad', '0.09 rad', '"intersecting"'],
		chains.cancellingPinionSlope(0.05, 0.09, true),
	],
	chain_speed_ratio: [['a_chain', '0.7 rad'], chains.chainSpeedRatio(chain, 0.7)],
	chain_acceleration: [
		['a_chain', '0.7 rad', '300 rad/s'],
		chains.chainAcceleration(chain, 0.7, 300),
	],
	chain_ripple: [['a_chain', '300 rad/s'], chains.chainRipple(chain, 300)],
	front_shaft_acceleration: [['a_chain', '300 rad/s'], chains.frontShaftAcceleration(chain, 300)],
	rear_shaft_acceleration: [['a_chain', '300 rad/s'], chains.rearShaftAcceleration(chain, 300)],
	best_rear_phase: [['a_chain'], chains.bestRearPhase(chain)],
	best_yoke_phases: [['a_chain'], chains.bestYokePhases(chain)],

	driveshaft_speed: [['29 m/s', '0.34 m', '3.55'], shaftSpeed.driveshaftSpeed(29, 0.34, 3.55)],
	road_speed_of_shaft: [
		['300 rad/s', '0.34 m', '3.55'],
		shaftSpeed.roadSpeedOfShaft(300, 0.34, 3.55),
	],
	engine_speed: [['300 rad/s', '1.48'], shaftSpeed.engineSpeed(300, 1.48)],
	driveshaft_speed_from_engine: [
		['300 rad/s', '1.48'],
		shaftSpeed.driveshaftSpeedFromEngine(300, 1.48),
	],
	largest_angle: [['300 rad/s', '900 rad/s^2'], shaftSpeed.largestAngle(300, 900)],
	rule_of_thumb_angle: [['300 rad/s'], shaftSpeed.ruleOfThumbAngle(300)],
	road_speed_limit: [
		['0.08 rad', '0.34 m', '3.55', '900 rad/s^2'],
		shaftSpeed.roadSpeedLimit(0.08, 0.34, 3.55, 900),
	],
	relative_joint_life: [
		['0.05 rad', '300 rad/s', '0.08 rad', '310 rad/s', '1.1'],
		shaftSpeed.relativeJointLife(0.05, 300, 0.08, 310, 1.1),
	],
	tube_material: [['"aluminium"'], whirling.tubeMaterial('aluminium')],
	whirling_speed: [
		['1.4 m', '0.0889 m', '0.0847 m', '205e9 Pa', '7850 kg/m^3'],
		whirling.whirlingSpeed(1.4, 0.0889, 0.0847, 205e9, 7850),
	],
	longest_tube: [
		['600 rad/s', '0.0889 m', '0.0847 m', '205e9 Pa', '7850 kg/m^3'],
		whirling.longestTube(600, 0.0889, 0.0847, 205e9, 7850),
	],
	whirling_margin: [['700 rad/s', '500 rad/s'], whirling.whirlingMargin(700, 500)],

	seat_torque_share: [['0.33 m', '-0.07 m'], windUp.seatTorqueShare(0.33, -0.07)],
	pinion_climb: [['2600 N m', '12500 N m/rad'], windUp.pinionClimb(2600, 12500)],
	road_load_torque: [
		['1900 kg', '29 m/s', '0.34 m', '0.012', '1.2 m^2', '1.225 kg/m^3', '0.02'],
		windUp.roadLoadTorque(1900, 29, 0.34, 0.012, 1.2, 1.225, 0.02),
	],
	axle_load_pulling: [
		['7600 N', '0.8', '0.6 m', '2.9 m'],
		windUp.axleLoadPulling(7600, 0.8, 0.6, 2.9),
	],
	grip_torque: [['7600 N', '0.8', '0.34 m'], windUp.gripTorque(7600, 0.8, 0.34)],
	engine_wheel_torque: [
		['380 N m', '3.06', '3.55', '0.85'],
		windUp.engineWheelTorque(380, 3.06, 3.55, 0.85),
	],
	hardest_torque: [['2400 N m', '3500 N m'], windUp.hardestTorque(2400, 3500)],
	driveline_under_torque: [
		['0.05 rad', '0.09 rad', '0.04 rad', '1.4 m', '0.24 m', '0.02 m', '0.06 rad'],
		windUp.drivelineUnderTorque(0.05, 0.09, 0.04, 1.4, 0.24, 0.02, 0.06),
	],

	frame_turn: [['0.05 m', '0.1 m', '2.9 m'], stance.frameTurn(0.05, 0.1, 2.9)],
	rear_drop_for_turn: [['0.02 rad', '0.05 m', '2.9 m'], stance.rearDropForTurn(0.02, 0.05, 2.9)],
	turn_of_heights: [['0.42 m', '0.47 m', '2.1 m'], stance.turnOfHeights(0.42, 0.47, 2.1)],
	rear_drop_to_level: [
		['0.42 m', '0.47 m', '2.1 m', '2.9 m'],
		stance.rearDropToLevel(0.42, 0.47, 2.1, 2.9),
	],
	headlamp_rise: [['0.015 rad', '7.62 m'], stance.headlampRise(0.015, 7.62)],
	wheelbase_after: [['2.9 m', '0.012 m', '0.3 m'], stance.wheelbaseAfter(2.9, 0.012, 0.3)],
	tyre_in_opening: [['0.08 m', '0.06 m', '0.012 m'], stance.tyreInOpening(0.08, 0.06, 0.012)],
	tyre_design_diameter: [
		['0.205 m', '0.55', '0.4064 m'],
		stance.tyreDesignDiameter(0.205, 0.55, 0.4064),
	],

	room_above_axle: [
		['0.1 m', '0.16 m', '0.09 m', '0.03 m', '0.05 m'],
		clearance.roomAboveAxle(0.1, 0.16, 0.09, 0.03, 0.05),
	],
	place_on_axle: [['an_axle', '-0.08 m', '0.05 m'], clearance.placeOnAxle(axle, -0.08, 0.05)],
	mount_to_mount: [['0.1 m', '0.15 m', '0.4 m'], clearance.mountToMount(0.1, 0.15, 0.4)],
	shock_stroke: [
		['0.45 m', '0.38 m', '0.52 m', '0.35 m', '0.56 m'],
		clearance.shockStroke(0.45, 0.38, 0.52, 0.35, 0.56),
	],
	shock_over_travel: [
		['0.1 m', '0.15 m', '0.4 m', '0.08 m', '0.09 m', '0.35 m', '0.56 m'],
		clearance.shockOverTravel(0.1, 0.15, 0.4, 0.08, 0.09, 0.35, 0.56),
	],
	shock_motion_ratio: [['0.1 m', '0.15 m', '0.4 m'], clearance.shockMotionRatio(0.1, 0.15, 0.4)],
	tyre_to_fender: [
		['0.78 m', '0.33 m', '0.345 m', '0.06 m'],
		clearance.tyreToFender(0.78, 0.33, 0.345, 0.06),
	],
	hose_slack: [
		['0.45 m', '0.1 m', '0.05 m', '0.25 m', '0.09 m'],
		clearance.hoseSlack(0.45, 0.1, 0.05, 0.25, 0.09),
	],

	leaf_pack_deflection: [
		['1900 N', '0.6 m', '0.064 m', '0.007 m', '2', '5', '206e9 Pa'],
		pack.leafPackDeflection(1900, 0.6, 0.064, 0.007, 2, 5, 206e9),
	],
	leaf_pack_rate: [
		['0.57 m', '0.67 m', '0.064 m', '0.007 m', '2', '5', '200e9 Pa'],
		pack.leafPackRate(0.57, 0.67, 0.064, 0.007, 2, 5, 200e9),
	],
	leaves_taken_out: [
		['28000 N/m', '3800 N', '2', '5', '1'],
		pack.leavesTakenOut(28000, 3800, 2, 5, 1),
	],
	coil_rate: [['0.016 m', '0.12 m', '7.5', '80e9 Pa'], coil.coilRate(0.016, 0.12, 7.5, 80e9)],
	trimmed_coil_rate: [['60000 N/m', '7.5', '0.75'], coil.trimmedCoilRate(60000, 7.5, 0.75)],
	trimmed_coil_free_length: [
		['0.4 m', '7.5', '0.75', '0.016 m'],
		coil.trimmedCoilFreeLength(0.4, 7.5, 0.75, 0.016),
	],
	coil_solid_length: [['0.016 m', '9', '"cut"'], coil.coilSolidLength(0.016, 9, false)],
	arm_motion_ratio: [['0.2 m', '0.36 m', '0.15 rad'], coil.armMotionRatio(0.2, 0.36, 0.15)],
	wheel_rate: [['60000 N/m', '0.55'], coil.wheelRate(60000, 0.55)],
	coil_length_at_ride: [
		['0.4 m', '60000 N/m', '4000 N', '0.55'],
		coil.coilLengthAtRide(0.4, 60000, 4000, 0.55),
	],
	coil_drop: [['0.28 m', '0.25 m', '0.55'], coil.coilDrop(0.28, 0.25, 0.55)],
	coil_spacer_rise: [['0.012 m', '0.55'], coil.coilSpacerRise(0.012, 0.55)],
	travel_to_coil_bind: [['0.28 m', '0.17 m', '0.55'], coil.travelToCoilBind(0.28, 0.17, 0.55)],
	natural_frequency: [['28000 N/m', '380 kg'], coil.naturalFrequency(28000, 380)],

	axle_loads: [['2500 N', '0.4 m', '2.9 m'], loads.axleLoads(2500, 0.4, 2.9)],
	spring_on_tyre_rate: [['28000 N/m', '210000 N/m'], loads.springOnTyreRate(28000, 210000)],
	settling: [
		['2500 N', '0.4 m', '2.9 m', '31000 N/m', '205000 N/m', '28000 N/m', '210000 N/m'],
		loads.settling(2500, 0.4, 2.9, 31000, 205000, 28000, 210000),
	],
	share_of_change: [['0.03 m', '0.04 m'], loads.shareOfChange(0.03, 0.04)],

	mean_reading: [['lengths'], measuring.meanReading(lengths)],
	reading_spread: [['lengths'], measuring.readingSpread(lengths)],
	repeated_readings: [['lengths', '0.9'], measuring.repeatedReadings(lengths, 0.9)],
	coverage_factor: [['3', '0.9'], measuring.coverageFactor(3, 0.9)],
	gauge_both_ways: [['0.062 rad', '0.058 rad'], measuring.gaugeBothWays(0.062, 0.058)],
	slope_of_reading: [
		['1.51 rad', '"plumb"', '"shaft"'],
		measuring.slopeOfReading(1.51, true, false),
	],
	floor_slope: [['0.012 m', '3.1 m'], measuring.floorSlope(0.012, 3.1)],
	slope_to_floor: [['0.062 rad', '0.004 rad'], measuring.slopeToFloor(0.062, 0.004)],
	slope_of_two_heights: [
		['0.41 m', '0.36 m', '1.1 m', 'false'],
		measuring.slopeOfTwoHeights(0.41, 0.36, 1.1, false),
	],
};

const readingsInputs = [
	inputCell('lengths', 'length', 'several: readings'),
	inputCell('angles', 'angle', 'several: readings'),
	inputCell('forces', 'force', 'several: readings'),
].join('\n');
const entries: Readonly<Record<string, Value>> = { lengths, angles };

/** A workbook in which each of these formulas has a name, above them the layout. */
function pageWith(formulas: Readonly<Record<string, string>>): ReturnType<typeof smallWorkbook> {
	const lines = Object.entries(formulas).map(([name, text]) => `${name} = ${text}  # ${name}`);
	return smallWorkbook({
		one: [readingsInputs, fence('derive', ...definitions), fence('derive', ...lines)].join('\n'),
	});
}

test('every row has its example', () => {
	expect(Object.keys(examples).sort()).toEqual([...rowNames].sort());
});

describe.each(mechanicsFunctions.map((row) => [row.name, row] as const))('%s', (name, row) => {
	const [args, given] = examples[name] ?? [[], undefined];
	const call = (written: readonly string[]): string => `${name}(${written.join(', ')})`;

	test('gives in a formula what the mechanics give, to the last bit', () => {
		const fields = row.result?.kind === 'record' ? Object.entries(row.result.fields) : [];
		const workbook = pageWith({
			whole: call(args),
			...Object.fromEntries(fields.map(([field]) => [`of_${field}`, `whole.${field}`])),
		});
		expect(workbook.problems).toEqual([]);
		const run = runOf(workbook, entries);
		expect(valueIn(workbook, run, 'whole')).toStrictEqual(given);
		for (const [field, { key, type }] of fields) {
			const value = valueIn(workbook, run, `of_${field}`);
			expect(value).toBe((given as Record<string, unknown>)[key]);
			expect(typeof value).toBe(type.kind === 'flag' ? 'boolean' : 'number');
		}
	});

	test('refuses another dimension, another kind and a value left out while the page is read', () => {
		const isForce = (text: string): boolean => / N$/.test(text);
		const spoilt = args.map((arg, index) =>
			call(
				args.with(
					index,
					isForce(arg) ? '2 m' : index === 0 && arg === 'lengths' ? 'forces' : '2 N',
				),
			),
		);
		const short = call(args.slice(0, -1));
		const { graph, problems } = pageWith(
			Object.fromEntries([...spoilt, short].map((text, index) => [`wrong_${index}`, text])),
		);
		expect(problems).toHaveLength(spoilt.length + 1);
		problems.forEach(({ message }, index) => {
			const parameter = row.parameters[index];
			if (parameter) expect(message).toContain(`${name}: ${parameter.name} has to be a`);
			else expect(message).toContain(`takes ${args.length} value`);
			expect(canRun(graph, graph.byId.get(`wrong_${index}`)?.slot ?? -1)).toBe(false);
		});
	});
});

describe('repeated readings', () => {
	test('of angles are angles, as those of lengths are lengths', () => {
		const workbook = pageWith({
			mean: 'mean_reading(angles) + 0 rad',
			spread: 'reading_spread(angles) + 0 rad',
			all: 'repeated_readings(angles, 0.95)',
			mean_of_all: 'all.mean + 0 rad',
			spread_of_all: 'all.spread + 0 rad',
			uncertainty: 'all.standard_uncertainty + 0 rad',
			plus_minus: 'all.plus_minus + 0 rad',
			count: 'all.count + 0',
			length_too: 'mean_reading(lengths) + repeated_readings(lengths, 0.95).plus_minus + 0 m',
		});
		expect(workbook.problems).toEqual([]);
		const run = runOf(workbook, entries);
		const all = measuring.repeatedReadings(angles, 0.95);
		expect(valueIn(workbook, run, 'all')).toStrictEqual(all);
		expect(valueIn(workbook, run, 'mean')).toBe(measuring.meanReading(angles));
		expect(valueIn(workbook, run, 'spread')).toBe(measuring.readingSpread(angles));
		expect(valueIn(workbook, run, 'plus_minus')).toBe(all.plusMinus);
		expect(valueIn(workbook, run, 'uncertainty')).toBe(all.standardUncertainty);
		expect(valueIn(workbook, run, 'count')).toBe(angles.length);
		expect(valueIn(workbook, run, 'length_too')).toBe(
			measuring.meanReading(lengths) + measuring.repeatedReadings(lengths, 0.95).plusMinus,
		);
	});

	test.each([
		['mean_reading(angles) + 0 m', 'angle + length: mean_reading(angles) + 0 m.'],
		['repeated_readings(angles, 0.95).mean + 0 m', 'angle + length: '],
		[
			'1 > 0 ? repeated_readings(angles, 0.95) : repeated_readings(lengths, 0.95)',
			'set of readings of angle : set of readings of length: ',
		],
		[
			'mean_reading(forces)',
			'mean_reading: readings has to be a list of length or list of angle; forces is a list of force.',
		],
		['repeated_readings(lengths, 0.95 m)', 'repeated_readings: coverage has to be a number'],
	])('%s is refused', (text, message) => {
		expect(pageWith({ wrong: text }).problems.map((problem) => problem.message)).toEqual([
			expect.stringContaining(message),
		]);
	});
});

describe('a choice of the trade', () => {
	test('goes the way it says', () => {
		const workbook = pageWith({
			level_shaft: 'slope_of_reading(0.1 rad, "level", "shaft")',
			level_face: 'slope_of_reading(0.1 rad, "level", "face")',
			plumb_face: 'slope_of_reading(0.1 rad, "plumb", "face")',
			parallel: 'cancelling_pinion_slope(0.05 rad, 0.09 rad, "parallel")',
			ground: 'coil_solid_length(0.016 m, 9, "ground")',
			hanging: 'spring_mount(1.25 m, 0.06 m, 0.12 m, "hanging")',
			steel: 'tube_material("steel").density',
			carbon: 'tube_material("carbon").modulus',
		});
		expect(workbook.problems).toEqual([]);
		const run = runOf(workbook, entries);
		const value = (name: string): Value | undefined => valueIn(workbook, run, name);
		expect(value('level_shaft')).toBe(0.1);
		expect(value('level_face')).toBe(Math.PI / 2 - 0.1);
		expect(value('plumb_face')).toBe(0.1);
		expect(value('parallel')).toBe(0.05);
		expect(value('ground')).toBe(0.016 * 9);
		expect(value('hanging')).toStrictEqual(mount);
		expect(value('steel')).toBe(whirling.tubeMaterials.steel.density);
		expect(value('carbon')).toBe(whirling.tubeMaterials.carbon.modulus);
	});

	test('that is none of them is refused', () => {
		expect(pageWith({ wrong: 'tube_material("brass")' }).problems[0]?.message).toContain(
			'material has to be a choice of steel, aluminium, carbon',
		);
	});
});
