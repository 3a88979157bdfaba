/** Rows of the leaf spring, the axle on it and its shackle. */
import { axleOnSeat, springAtAxleRise } from '../../mechanics/axle.ts';
import {
	archOfCurvature,
	curvatureOfArch,
	leafSpring,
	springAtArch,
	springAtLoad,
	springMount,
	springMountMoved,
	springPose,
	windUpStiffness,
} from '../../mechanics/leaf-spring.ts';
import {
	shackleAngle,
	shackleLimits,
	type ShackleAngle,
	type ShackleLimits,
} from '../../mechanics/shackle.ts';
import {
	choice,
	flag,
	quantity,
	record,
	row,
	type WorksheetFunction,
} from '../../language/function-row.ts';
import {
	angle,
	axle,
	force,
	geometry,
	leaf,
	length,
	mount,
	pose,
	rest,
	springModel,
	stiffness,
	turningStiffness,
} from './kinds.ts';

const curvature = quantity('curvature');

const shackle = record<ShackleAngle>('shackle angle', {
	lean: ['lean', angle, 'from plumb on a level frame, its spring end rearward positive'],
	from_level: ['fromLevel', angle, 'up from level to the shackle, a quarter turn when upright'],
	to_chord: [
		'toChord',
		angle,
		'to the line through the eyes: 0 when folded back on it, a half turn when stretched out',
	],
});
const limits = record<ShackleLimits>('shackle limits', {
	bump_travel: ['bumpTravel', length, 'axle rise to the limit in bump'],
	bump_swing: ['bumpSwing', angle, 'what the shackle swings through until there'],
	bump_in_line: [
		'bumpInLine',
		flag,
		'whether the shackle comes in line there; no when the axle stands still before',
	],
	droop_travel: ['droopTravel', length, 'axle fall to the limit in droop'],
	droop_swing: ['droopSwing', angle, 'what the shackle swings through until there'],
	droop_in_line: [
		'droopInLine',
		flag,
		'whether the shackle comes in line there; no when the axle stands still before',
	],
});

const bend = [
	'curvature',
	curvature,
	'one over the radius; positive bows below the line through the eyes',
] as const;
const mounted = [
	['leaf', leaf, 'the spring'],
	['mount', mount, 'where the frame carries it'],
] as const;
const seatToAxle = [
	'seat_to_axle',
	length,
	'axle centre above the seat; negative under the spring',
] as const;
const wedge = ['wedge', angle, 'nose-up positive'] as const;

export const springFunctions: readonly WorksheetFunction[] = [
	row({
		name: 'leaf_spring',
		about: 'One leaf spring from its two halves and its rate.',
		source: springModel,
		example: 'leaf_spring(0.62 m, 0.72 m, 28000 N/m)',
		takes: [
			['front', length, 'front eye to centre bolt along the main leaf'],
			['rear', length, 'centre bolt to rear eye along the main leaf'],
			['rate', stiffness, 'at the seat'],
		],
		gives: leaf,
		run: leafSpring,
	}),
	row({
		name: 'spring_mount',
		about: 'Where the frame carries the spring.',
		source: geometry,
		example: 'spring_mount(1.25 m, 0.06 m, 0.12 m, "standing")',
		takes: [
			['eye_to_pivot', length, 'level, front eye to shackle pivot, rearward positive'],
			['pivot_up', length, 'pivot above the front eye'],
			['shackle_length', length, 'eye centre to eye centre'],
			[
				'shackle_stands',
				choice('hanging', 'standing'),
				'which way the shackle goes from its pivot',
			],
		],
		gives: mount,
		run: (eyeToPivot, pivotUp, shackleLength, stands) =>
			springMount(eyeToPivot, pivotUp, shackleLength, stands === 'standing'),
	}),
	row({
		name: 'mount_moved',
		about: 'The same mount with its parts moved.',
		source: geometry,
		example: 'mount_moved(a_mount, 0.02 m, 0.01 m, -0.015 m, 0.005 m, 0.025 m)',
		takes: [
			['mount', mount, 'as it was'],
			['eye_raise', length, 'front eye up'],
			['eye_forward', length, 'front eye forward'],
			['pivot_raise', length, 'shackle pivot up'],
			['pivot_forward', length, 'shackle pivot forward'],
			['shackle_longer', length, 'change of shackle length; negative when shorter'],
		],
		gives: mount,
		run: springMountMoved,
	}),
	row({
		name: 'arch_of_curvature',
		about: 'The arch of a leaf bent into an arc.',
		source: geometry,
		example: 'arch_of_curvature(0.5 / (1 m), 1.34 m)',
		takes: [bend, ['length', length, 'eye to eye along the main leaf']],
		gives: length,
		run: archOfCurvature,
	}),
	row({
		name: 'curvature_of_arch',
		about: 'The curvature of a leaf from its arch: one over the radius of its arc.',
		source: geometry,
		example: 'curvature_of_arch(0.125 m, 1.34 m)',
		takes: [
			['arch', length, 'below the line through the eyes; negative bows upward'],
			['length', length, 'eye to eye along the main leaf'],
		],
		gives: curvature,
		run: curvatureOfArch,
	}),
	row({
		name: 'spring_pose',
		about: 'The place of a spring on its mount at a given bend of its leaf.',
		source: geometry,
		example: 'spring_pose(a_leaf, a_mount, 0.5 / (1 m))',
		takes: [...mounted, bend],
		gives: pose,
		run: springPose,
	}),
	row({
		name: 'spring_at_arch',
		about: 'The spring as measured: its arch and the load on it.',
		source: springModel,
		example: 'spring_at_arch(a_leaf, a_mount, 0.11 m, 4100 N)',
		takes: [
			...mounted,
			['arch', length, 'of the loaded main leaf, below the line through its eyes positive'],
			['load', force, 'at the seat of this one spring'],
		],
		gives: rest,
		run: springAtArch,
	}),
	row({
		name: 'spring_at_load',
		about: 'Where the same spring comes to rest on another mount or under another load.',
		source: springModel,
		example: 'spring_at_load(a_leaf, a_mount, at_rest, 4600 N)',
		takes: [
			['leaf', leaf, 'the spring'],
			['mount', mount, 'as it is now'],
			['before', rest, 'the spring as measured'],
			['load', force, 'at the seat now'],
		],
		gives: rest,
		run: springAtLoad,
	}),
	row({
		name: 'spring_at_axle_rise',
		about: 'The spring with its axle risen in the frame: bump positive, droop negative.',
		source: geometry,
		example: 'spring_at_axle_rise(a_leaf, a_mount, at_rest, -0.07 m, 0.03 rad, -0.06 m)',
		takes: [
			...mounted,
			['rest', rest, 'the spring at rest on this mount'],
			seatToAxle,
			wedge,
			['rise', length, 'of the axle centre from rest; bump positive, droop negative'],
		],
		gives: pose,
		run: springAtAxleRise,
	}),
	row({
		name: 'axle_at_rest',
		about: 'The axle on the seat of a spring at rest.',
		source: geometry,
		example: 'axle_at_rest(at_rest, 0.05 m, 0.02 rad)',
		takes: [['spring', rest, 'that carries it'], seatToAxle, wedge],
		gives: axle,
		run: axleOnSeat,
	}),
	row({
		name: 'axle_in_travel',
		about: 'The axle on the seat of a spring in bump or droop.',
		source: geometry,
		example: 'axle_in_travel(in_bump, 0.05 m, 0.02 rad)',
		takes: [['spring', pose, 'that carries it'], seatToAxle, wedge],
		gives: axle,
		run: axleOnSeat,
	}),
	row({
		name: 'shackle_angle',
		about: 'The angle of the shackle of a spring at rest, in the ways it is spoken of.',
		source: geometry,
		example: 'shackle_angle(a_mount, at_rest)',
		takes: [
			['mount', mount, 'where the frame carries the spring'],
			['spring', rest, 'on this mount'],
		],
		gives: shackle,
		run: shackleAngle,
	}),
	row({
		name: 'shackle_angle_in_travel',
		about: 'The angle of the shackle of a spring in bump or droop, in the ways it is spoken of.',
		source: geometry,
		example: 'shackle_angle_in_travel(a_mount, in_bump)',
		takes: [
			['mount', mount, 'where the frame carries the spring'],
			['spring', pose, 'on this mount'],
		],
		gives: shackle,
		run: shackleAngle,
	}),
	row({
		name: 'shackle_limits',
		about: 'How far the axle may go in bump and in droop before the shackle is over centre.',
		source: geometry,
		example: 'shackle_limits(a_leaf, a_mount, at_rest, -0.07 m, 0.03 rad)',
		takes: [...mounted, ['rest', rest, 'the spring at rest on this mount'], seatToAxle, wedge],
		gives: limits,
		run: shackleLimits,
	}),
	row({
		name: 'wind_up_stiffness',
		about: 'Axle torque for each angle of seat turn, one spring.',
		source: 'two cantilevers at the seat; SAE HS-788 for equal halves (from memory)',
		example: 'wind_up_stiffness(a_leaf)',
		takes: [['leaf', leaf, 'the spring']],
		gives: turningStiffness,
		run: windUpStiffness,
	}),
];
