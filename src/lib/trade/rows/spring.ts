/** Rows of the leaf spring, the axle on it and its shackle. */
import { axleFit, wedgeAtBolt } from '../../mechanics/axle-fit.ts';
import {
	archOfCurvature,
	curvatureOfArch,
	leafSpring,
	springMount,
	springMountMoved,
	windUpStiffness,
} from '../../mechanics/leaf-spring.ts';
import { shackleAngle, type ShackleAngle } from '../../mechanics/shackle.ts';
import { shackleRoom, type ShackleRoom } from '../../mechanics/shackle-room.ts';
import {
	axleOf,
	leafSpringTimes,
	rateInPlace,
	springAfterJob,
	springAtBaseline,
	springFromTest,
	truckStance,
} from '../../mechanics/spring-at-rest.ts';
import { droopEnd, springAtRise, type DroopEnd } from '../../mechanics/spring-travel.ts';
import { springHeld, springWoundUp, type SpringHeld } from '../../mechanics/spring-wind-up.ts';
import { choice, flag, record, row, type WorksheetFunction } from '../../language/function-row.ts';
import {
	angle,
	axle,
	curvature,
	fit,
	force,
	geometry,
	leaf,
	length,
	mount,
	number,
	place,
	springModel,
	stance,
	stiffness,
	torque,
	turningStiffness,
} from './kinds.ts';

const shackle = record<ShackleAngle>('shackle angle', {
	lean: ['lean', angle, 'from plumb on a level frame, its spring end rearward positive'],
	from_level: ['fromLevel', angle, 'up from level to the shackle, a quarter turn when upright'],
	to_chord: [
		'toChord',
		angle,
		'to the line through the eyes: 0 when folded back on it, a half turn when stretched out',
	],
});
const room = record<ShackleRoom>('shackle room', {
	bump_travel: ['bumpTravel', length, 'axle rise to the limit in bump'],
	bump_swing: ['bumpSwing', angle, 'what the shackle swings through until there'],
	bump_in_line: [
		'bumpInLine',
		flag,
		'whether the shackle comes in line there; no when the spring locks before',
	],
	droop_travel: ['droopTravel', length, 'axle fall to the limit in droop'],
	droop_swing: ['droopSwing', angle, 'what the shackle swings through until there'],
	droop_in_line: [
		'droopInLine',
		flag,
		'whether the shackle comes in line there; no when the spring locks before',
	],
});

const held = record<SpringHeld>('spring in its place', {
	axle_rise: ['axleRise', length, 'of the axle in the frame, since rest'],
	axle_turned: ['axleTurned', angle, 'of the axle in the frame, since rest, nose-up positive'],
	arm_force: ['armForce', force, 'what the rubber of one arm pushes its end down with'],
});
const droopEnds = record<DroopEnd>('droop end', {
	fall: ['fall', length, 'of the axle from rest'],
	over_centre: [
		'overCentre',
		flag,
		'whether the shackle goes over centre before the spring hangs free',
	],
	shackle_lean: ['shackleLean', angle, 'of the shackle there, its spring end rearward positive'],
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
const fitted = ['fit', fit, 'of the axle'] as const;
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
		name: 'axle_fit',
		about: 'How the axle is fitted to its spring: on which side, how far, and what lies between.',
		source: geometry,
		example: 'axle_fit(false, 0.08 m, 0.03 m, -0.02 m, 0.03 rad, 0.004 m)',
		takes: [
			['spring_over', flag, 'whether the spring lies over the axle'],
			['seat_to_axle', length, 'a distance: middle of the main leaf to axle centre'],
			['seat_to_pad', length, 'middle of the main leaf to the face of the pad'],
			['block', length, 'put in between; negative for a lift block taken out'],
			wedge,
			['wedge_thickness', length, 'of the wedge at the centre bolt'],
		],
		gives: fit,
		run: axleFit,
	}),
	row({
		name: 'wedge_at_bolt',
		about: 'Thickness of a wedge at the centre bolt; nothing for no wedge.',
		source:
			'thin end and half the length times the tangent of its angle; the thin end comes in evenly up to ½°, the flattest there is (common practice, no source)',
		example: 'wedge_at_bolt(-0.06 rad, 0.127 m, 0.002 m)',
		takes: [
			['wedge', angle, 'of either sign'],
			['length', length, 'of the wedge along the spring'],
			['thin_end', length, 'its thickness there'],
		],
		gives: length,
		run: wedgeAtBolt,
	}),
	row({
		name: 'spring_at_baseline',
		about: 'The spring as it was measured: its arch and the load on it.',
		source: springModel,
		example: 'spring_at_baseline(a_leaf, a_mount, a_fit, 0.11 m, 4100 N)',
		takes: [
			...mounted,
			fitted,
			[
				'arch',
				length,
				'of the loaded main leaf at the centre bolt, below the line through its eyes',
			],
			['load', force, 'of this one spring on its axle'],
		],
		gives: place,
		run: springAtBaseline,
	}),
	row({
		name: 'spring_from_test',
		about:
			'The spring as it was measured, its rate found on the truck: weights put on, settling measured.',
		source: springModel,
		example: 'spring_from_test(0.62 m, 0.72 m, 27000 N/m, a_mount, a_fit, 0.125 m, 3800 N)',
		takes: [
			['front', length, 'front eye to centre bolt along the main leaf'],
			['rear', length, 'centre bolt to rear eye along the main leaf'],
			['rate_found', stiffness, 'on the truck, one spring'],
			['mount', mount, 'where the frame carries it'],
			fitted,
			['arch', length, 'of the loaded main leaf at the centre bolt'],
			['load', force, 'of this one spring on its axle'],
		],
		gives: place,
		run: springFromTest,
	}),
	row({
		name: 'leaf_spring_times',
		about: 'The same leaf so many times as stiff: a leaf put in or taken out.',
		source: springModel,
		example: 'leaf_spring_times(a_leaf, 0.8)',
		takes: [
			['leaf', leaf, 'the spring'],
			['times', number, 'its rate after over its rate before'],
		],
		gives: leaf,
		run: leafSpringTimes,
	}),
	row({
		name: 'rate_in_place',
		about:
			'Rate of the spring on its leaning shackle: what weights put on and a settling measured show.',
		source: springModel,
		example: 'rate_in_place(at_rest)',
		takes: [['place', place, 'the spring in its place']],
		gives: stiffness,
		run: rateInPlace,
	}),
	row({
		name: 'truck_stance',
		about: 'How the truck stands on the floor after a job, but for its rear springs.',
		source: geometry,
		example: 'truck_stance(2.9 m, 0.05 m, 0.01 m)',
		takes: [
			['wheelbase', length, 'axle to axle along the frame, less what was cut out'],
			['front_drop', length, 'of the frame over the front axle, down positive'],
			['rear_tyre_drop', length, 'of the rear axle over the floor, by a smaller tyre'],
		],
		gives: stance,
		run: truckStance,
	}),
	row({
		name: 'spring_after_job',
		about: 'Where the spring comes to rest after a job, nearest to where it was.',
		source: springModel,
		example:
			'spring_after_job(at_rest, a_leaf, mount_moved(a_mount, 0.05 m, 0 m, 0.02 m, 0 m, -0.01 m), a_fit, -0.01 m, 3600 N, truck_stance(2.9 m, 0.05 m, 0 m))',
		takes: [
			['before', place, 'the spring as it was measured'],
			['leaf', leaf, 'as it is now'],
			['mount', mount, 'as it is now'],
			['fit', fit, 'of the axle now'],
			['free_arch_change', length, 'of the leaf with no load on it'],
			['load', force, 'of this one spring on its axle now'],
			['stance', stance, 'how the truck stands now'],
		],
		gives: place,
		run: springAfterJob,
	}),
	row({
		name: 'spring_at_rise',
		about: 'The spring with its axle risen in the frame: bump positive, droop negative.',
		source: springModel,
		example: 'spring_at_rise(at_rest, -0.06 m)',
		takes: [
			['rest', place, 'the spring at rest'],
			['rise', length, 'of the axle centre from rest'],
		],
		gives: place,
		run: springAtRise,
	}),
	row({
		name: 'droop_end',
		about: 'Where droop ends: the spring carries nothing but the axle that hangs on it.',
		source: springModel,
		example: 'droop_end(at_rest, 800 N)',
		takes: [
			['rest', place, 'the spring at rest'],
			['hanging_weight', force, 'of half the axle, its wheels and brakes'],
		],
		gives: droopEnds,
		run: droopEnd,
	}),
	row({
		name: 'spring_wound_up',
		about:
			'The spring wound up by torque at the wheels and the push of the tyres, at the load it carries.',
		source: springModel,
		example: 'spring_wound_up(at_rest, 900 N m, 0.34 m)',
		takes: [
			['rest', place, 'the spring at rest'],
			['wheel_torque', torque, 'at both wheels together; driving forward positive'],
			['tyre_radius', length, 'loaded, axle centre to floor'],
		],
		gives: place,
		run: springWoundUp,
	}),
	row({
		name: 'spring_held',
		about:
			'The spring wound up with its axle held by an arm too: traction bar, snubber or ladder bar.',
		source: 'the same, what the rubber bears of weight and torque taken off the spring; statics',
		example: 'spring_held(at_rest, 900 N m, 0.34 m, 0.5 m, 0.006 m, 350000 N/m, false)',
		takes: [
			['rest', place, 'the spring at rest'],
			['wheel_torque', torque, 'at both wheels together; driving forward positive'],
			['tyre_radius', length, 'loaded, axle centre to floor'],
			['ahead', length, 'of the axle centre to the rubber, level'],
			['gap', length, 'from the arm’s end up to the rubber at rest'],
			['rate', stiffness, 'of the rubber of one arm; 0 where nothing holds the axle'],
			['both_ways', flag, 'whether the arm is bolted to the frame, and pulls as well'],
		],
		gives: held,
		run: springHeld,
	}),
	row({
		name: 'axle_of',
		about: 'The axle on a spring.',
		source: geometry,
		example: 'axle_of(in_bump)',
		takes: [['place', place, 'the spring that carries it']],
		gives: axle,
		run: axleOf,
	}),
	row({
		name: 'shackle_angle',
		about: 'The angle of the shackle of a spring, in the ways it is spoken of.',
		source: geometry,
		example: 'shackle_angle(a_mount, at_rest)',
		takes: [
			['mount', mount, 'where the frame carries the spring'],
			['place', place, 'the spring on this mount'],
		],
		gives: shackle,
		run: shackleAngle,
	}),
	row({
		name: 'shackle_room',
		about:
			'How far the axle may go in bump and in droop before its spring locks or its shackle is in line.',
		source: springModel,
		example: 'shackle_room(at_rest)',
		takes: [['rest', place, 'the spring at rest']],
		gives: room,
		run: shackleRoom,
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
