/** Rows of the torque at the wheels that winds the axle up. */
import {
	axleLoadPulling,
	engineWheelTorque,
	gripTorque,
	hardestTorque,
	roadLoadTorque,
	type HardestTorque,
} from '../../mechanics/wind-up.ts';
import {
	flag,
	quantity,
	record,
	row,
	type WorksheetFunction,
} from '../../language/function-row.ts';
import { density, force, length, mass, number, speed, torque } from './kinds.ts';

const hardest = record<HardestTorque>('hardest torque', {
	torque: ['torque', torque, 'at both wheels together'],
	grip_limited: ['gripLimited', flag, 'whether the tyres let go before the engine is at its end'],
});

const tyreRadius = ['tyre_radius', length, 'loaded, axle centre to floor'] as const;
const grip = ['grip', number, 'grip of tyre on road, as a share of the load on it'] as const;

export const windUpFunctions: readonly WorksheetFunction[] = [
	row({
		name: 'road_load_torque',
		about: 'Torque at the wheels that holds a steady speed against rolling, grade and air.',
		source: 'rolling, grade and air drag added up; gravity from NIST SP 811',
		example: 'road_load_torque(1900 kg, 29 m/s, 0.34 m, 0.012, 1.2 m^2, 1.225 kg/m^3, 0.02)',
		takes: [
			['mass', mass, 'of the truck as driven'],
			['road_speed', speed, 'of the truck'],
			tyreRadius,
			[
				'rolling_coefficient',
				number,
				'rolling drag over weight; about 0.012 on a good road (from memory)',
			],
			[
				'drag_area',
				quantity('area'),
				'drag coefficient times frontal area; about 1.2 m² for a pickup (from memory)',
			],
			['air_density', density, '1.225 kg/m³ at sea level by ISO 2533'],
			['grade', number, 'rise over run, uphill positive'],
		],
		gives: torque,
		run: roadLoadTorque,
	}),
	row({
		name: 'axle_load_pulling',
		about: 'Load on the rear axle while its tyres pull all they can: the truck leans back on it.',
		source: 'moments about the front wheels',
		example: 'axle_load_pulling(7600 N, 0.8, 0.6 m, 2.9 m)',
		takes: [
			['axle_load', force, 'on both rear wheels at rest'],
			grip,
			['mass_height', length, 'centre of mass above the floor; 0 leaves the lean out'],
			['wheelbase', length, 'front axle to rear axle'],
		],
		gives: force,
		run: axleLoadPulling,
	}),
	row({
		name: 'grip_torque',
		about: 'Torque at which the tyres let go, both wheels together.',
		source: 'load times grip times radius',
		example: 'grip_torque(7600 N, 0.8, 0.34 m)',
		takes: [['axle_load', force, 'on both rear wheels'], grip, tyreRadius],
		gives: torque,
		run: gripTorque,
	}),
	row({
		name: 'engine_wheel_torque',
		about: 'Torque of the engine as it comes to the wheels, both together.',
		source: 'torque times ratios times efficiency',
		example: 'engine_wheel_torque(380 N m, 3.06, 3.55, 0.85)',
		takes: [
			['engine_torque', torque, 'of the engine'],
			[
				'gear_ratio',
				number,
				'of everything ahead of the driveshaft: first gear, and the converter’s if it has one',
			],
			['axle_ratio', number, 'driveshaft turns for one of the wheels'],
			['efficiency', number, 'share that arrives, 0 to 1'],
		],
		gives: torque,
		run: engineWheelTorque,
	}),
	row({
		name: 'hardest_torque',
		about:
			'The hardest torque the axle sees: what the engine gives or the tyres hold, the less of them.',
		source: 'the less of the two',
		example: 'hardest_torque(2400 N m, 3500 N m)',
		takes: [
			['grip', torque, 'at which the tyres let go, both wheels'],
			['engine', torque, 'of the engine at the wheels, both wheels'],
		],
		gives: hardest,
		run: hardestTorque,
	}),
];
