/** Rows of how fast the shaft turns, what angle it bears at that speed, and where its tube whirls. */
import {
	driveshaftSpeed,
	driveshaftSpeedFromEngine,
	engineSpeed,
	largestAngle,
	relativeJointLife,
	roadSpeedLimit,
	roadSpeedOfShaft,
	ruleOfThumbAngle,
} from '../../mechanics/shaft-speed.ts';
import {
	longestTube,
	tubeMaterial,
	whirlingMargin,
	whirlingSpeed,
	type TubeMaterial,
} from '../../mechanics/whirling.ts';
import { choice, record, row, type WorksheetFunction } from '../../language/function-row.ts';
import {
	angle,
	density,
	geometry,
	length,
	number,
	practice,
	pressure,
	speed,
	turningAcceleration,
	turningSpeed,
} from './kinds.ts';

const material = record<TubeMaterial>('tube material', {
	modulus: ['modulus', pressure, 'Young’s modulus along the tube'],
	density: ['density', density, 'of the wall'],
});

const shaftSpeed = ['shaft_speed', turningSpeed, 'of the driveshaft'] as const;
const road = [
	['tyre_radius', length, 'loaded, axle centre to floor'],
	['axle_ratio', number, 'driveshaft turns for one of the wheels'],
] as const;
const gear = ['gear_ratio', number, 'engine turns for one of the driveshaft'] as const;
const limit = ['limit', turningAcceleration, 'greatest let to see; 1000 rad/s² is usual'] as const;
const tube = [
	['outside', length, 'outside diameter'],
	['inside', length, 'inside diameter; 0 for a bar'],
	['modulus', pressure, 'Young’s modulus along the tube'],
	['density', density, 'of the wall'],
] as const;
const whirlingSource =
	'Roark’s Formulas for Stress and Strain; Blevins, Formulas for Natural Frequency and Mode Shape (from memory)';
const acceleration = 'angle times speed, squared, held to a limit: common practice, no source';

export const shaftSpeedFunctions: readonly WorksheetFunction[] = [
	row({
		name: 'driveshaft_speed',
		about: 'Driveshaft speed at a road speed; tyre slip is left out.',
		source: geometry,
		example: 'driveshaft_speed(29 m/s, 0.34 m, 3.55)',
		takes: [['road_speed', speed, 'of the truck'], ...road],
		gives: turningSpeed,
		run: driveshaftSpeed,
	}),
	row({
		name: 'road_speed_of_shaft',
		about: 'Road speed at a driveshaft speed; tyre slip is left out.',
		source: geometry,
		example: 'road_speed_of_shaft(300 rad/s, 0.34 m, 3.55)',
		takes: [shaftSpeed, ...road],
		gives: speed,
		run: roadSpeedOfShaft,
	}),
	row({
		name: 'engine_speed',
		about: 'Engine speed at a driveshaft speed.',
		source: geometry,
		example: 'engine_speed(300 rad/s, 1.48)',
		takes: [shaftSpeed, gear],
		gives: turningSpeed,
		run: engineSpeed,
	}),
	row({
		name: 'driveshaft_speed_from_engine',
		about: 'Driveshaft speed at an engine speed.',
		source: geometry,
		example: 'driveshaft_speed_from_engine(300 rad/s, 1.48)',
		takes: [['speed', turningSpeed, 'of the engine'], gear],
		gives: turningSpeed,
		run: driveshaftSpeedFromEngine,
	}),
	row({
		name: 'largest_angle',
		about: 'Largest operating angle at a shaft speed, by an acceleration limit.',
		source: acceleration,
		example: 'largest_angle(300 rad/s, 900 rad/s^2)',
		takes: [shaftSpeed, limit],
		gives: angle,
		run: largestAngle,
	}),
	row({
		name: 'rule_of_thumb_angle',
		about: 'Largest operating angle by the trade’s table, 1500 to 5000 rev/min.',
		source: practice,
		example: 'rule_of_thumb_angle(300 rad/s)',
		takes: [shaftSpeed],
		gives: angle,
		run: ruleOfThumbAngle,
	}),
	row({
		name: 'road_speed_limit',
		about: 'Road speed at which an operating angle becomes too much, by an acceleration limit.',
		source: acceleration,
		example: 'road_speed_limit(0.08 rad, 0.34 m, 3.55, 900 rad/s^2)',
		takes: [['angle', angle, 'operating angle, never negative'], ...road, limit],
		gives: speed,
		run: roadSpeedLimit,
	}),
	row({
		name: 'relative_joint_life',
		about: 'Life of a joint in hours after a change, as a multiple of its life before.',
		source: 'ISO 281 for torque; makers’ selection rules for angle and speed (from memory)',
		example: 'relative_joint_life(0.05 rad, 300 rad/s, 0.08 rad, 310 rad/s, 1.1)',
		takes: [
			['angle_before', angle, 'operating angle before, never negative'],
			['speed_before', turningSpeed, 'of the driveshaft before'],
			['angle_after', angle, 'operating angle after, never negative'],
			['speed_after', turningSpeed, 'of the driveshaft after'],
			['torque_ratio', number, 'torque after over torque before'],
		],
		gives: number,
		run: relativeJointLife,
	}),
	row({
		name: 'tube_material',
		about: 'Typical modulus and density of a tube by its material; its maker’s figures come first.',
		source: 'handbook figures (from memory)',
		example: 'tube_material("aluminium")',
		takes: [['material', choice('steel', 'aluminium', 'carbon'), 'what the tube is made of']],
		gives: material,
		run: tubeMaterial,
	}),
	row({
		name: 'whirling_speed',
		about: 'Speed at which a plain tube on two joints first whirls; yokes and joints lower it.',
		source: whirlingSource,
		example: 'whirling_speed(1.4 m, 0.0889 m, 0.0847 m, 205e9 Pa, 7850 kg/m^3)',
		takes: [['length', length, 'joint centre to joint centre, or to the centre bearing'], ...tube],
		gives: turningSpeed,
		run: whirlingSpeed,
	}),
	row({
		name: 'longest_tube',
		about: 'Longest plain tube that whirls no sooner than at a wanted speed.',
		source: whirlingSource,
		example: 'longest_tube(600 rad/s, 0.0889 m, 0.0847 m, 205e9 Pa, 7850 kg/m^3)',
		takes: [['whirling', turningSpeed, 'wanted whirling speed'], ...tube],
		gives: length,
		run: longestTube,
	}),
	row({
		name: 'whirling_margin',
		about:
			'How far the whirling speed lies above the top shaft speed, as a share of the top speed.',
		source: practice,
		example: 'whirling_margin(700 rad/s, 500 rad/s)',
		takes: [
			['whirling', turningSpeed, 'whirling speed'],
			['top_speed', turningSpeed, 'of the driveshaft'],
		],
		gives: number,
		run: whirlingMargin,
	}),
];
