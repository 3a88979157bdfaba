/** Rows of what a load put on, or taken off, does to the axles and to the heights. */
import {
	axleLoads,
	settling,
	shareOfChange,
	springOnTyreRate,
	type AxleLoads,
	type Settling,
} from '../../mechanics/load.ts';
import { record, row, type WorksheetFunction } from '../../language/function-row.ts';
import { force, length, number, stiffness } from './kinds.ts';

const loads = record<AxleLoads>('axle loads', {
	front: ['front', force, 'added to the front axle, both wheels together'],
	rear: ['rear', force, 'added to the rear axle, both wheels together'],
});
const settled = record<Settling>('settling', {
	front: ['front', length, 'over the front axle, down positive'],
	rear: ['rear', length, 'over the rear axle, down positive'],
});

const aLoad = [
	['weight', force, 'of the load; negative when taken off'],
	['ahead', length, 'of the rear axle; negative behind it, where a load lifts the front'],
	['wheelbase', length, 'front axle to rear axle'],
] as const;
const moments = 'moments about either axle';
const series = 'springs one on another';

export const loadFunctions: readonly WorksheetFunction[] = [
	row({
		name: 'axle_loads',
		about: 'What a load adds to each axle.',
		source: moments,
		example: 'axle_loads(2500 N, 0.4 m, 2.9 m)',
		takes: aLoad,
		gives: loads,
		run: axleLoads,
	}),
	row({
		name: 'spring_on_tyre_rate',
		about: 'Rate of a spring standing on a tyre.',
		source: series,
		example: 'spring_on_tyre_rate(28000 N/m, 210000 N/m)',
		takes: [
			['spring', stiffness, 'at the wheel'],
			['tyre', stiffness, 'of the tyre'],
		],
		gives: stiffness,
		run: springOnTyreRate,
	}),
	row({
		name: 'settling',
		about: 'How far a load settles the truck at each axle, springs and tyres together.',
		source: `${moments}; ${series}`,
		example: 'settling(2500 N, 0.4 m, 2.9 m, 31000 N/m, 205000 N/m, 28000 N/m, 210000 N/m)',
		takes: [
			...aLoad,
			['front_spring', stiffness, 'of one front wheel, at the wheel'],
			['front_tyre', stiffness, 'of one front tyre'],
			['rear_spring', stiffness, 'of one rear spring'],
			['rear_tyre', stiffness, 'of the tyre or tyres of one rear wheel'],
		],
		gives: settled,
		run: settling,
	}),
	row({
		name: 'share_of_change',
		about: 'How much of a measured change of height something accounts for; 1 for all of it.',
		source: 'one over the other',
		example: 'share_of_change(0.03 m, 0.04 m)',
		takes: [
			['settled', length, 'what it moves the height by'],
			['measured', length, 'change of height, the same way positive'],
		],
		gives: number,
		run: shareOfChange,
	}),
];
