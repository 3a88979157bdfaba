/**
 * The trade's functions in the worksheet language: one row each. What a row says is what the reference
 * page shows. The mechanics themselves are in ../mechanics/.
 */
import { axleOnSeat, springAtAxleRise, type AxlePlace } from '../mechanics/axle.ts';
import {
	driveshaftBetween,
	jointMoved,
	pinionJoint,
	transmissionJoint,
	type Driveshaft,
	type JointPlace,
} from '../mechanics/driveshaft.ts';
import {
	leafSpring,
	springAtArch,
	springAtLoad,
	springMount,
	springMountMoved,
	windUpStiffness,
	type LeafSpring,
	type SpringAtRest,
	type SpringMount,
	type SpringPose,
} from '../mechanics/leaf-spring.ts';
import { frameTurn } from '../mechanics/stance.ts';
import {
	greatestJointAcceleration,
	jointSpeedRatio,
	operatingAngle,
	pairSpeedRange,
} from '../mechanics/universal-joint.ts';
import { choice, quantity, record, row, type WorksheetFunction } from './function-row.ts';

const length = quantity('length');
const angle = quantity('angle');
const force = quantity('force');
const stiffness = quantity('stiffness');
const number = quantity('number');
const turningSpeed = quantity('turning speed');
const turningAcceleration = quantity('turning acceleration');
const turningStiffness = quantity('turning stiffness');

const leaf = record<LeafSpring>('leaf spring', {
	length: ['length', length, 'eye to eye along the main leaf'],
	rate: ['rate', stiffness, 'at the seat'],
});
const mount = record<SpringMount>('spring mount', {
	shackle_length: ['shackleLength', length, 'eye centre to eye centre'],
});
const poseFields = {
	arch: ['arch', length, 'of the loaded main leaf, below the line through its eyes'],
	chord: ['chord', length, 'eye to eye in a straight line'],
	seat_forward: ['seatX', length, 'seat ahead of the stock front eye'],
	seat_up: ['seatZ', length, 'seat above the stock front eye'],
	seat_turn: ['seatTurn', angle, 'of the seat in the frame, nose-up positive'],
	rear_eye_forward: ['rearEyeX', length, 'rear eye ahead of the stock front eye'],
	rear_eye_up: ['rearEyeZ', length, 'rear eye above the stock front eye'],
	shackle_lean: [
		'shackleLean',
		angle,
		'of the shackle from upright, its spring end rearward positive',
	],
} as const;
const pose = record<SpringPose>('spring in travel', poseFields);
const rest = record<SpringAtRest>('spring at rest', {
	...poseFields,
	load: ['load', force, 'at the seat'],
});
const axle = record<AxlePlace>('axle place', {
	forward: ['x', length, 'axle centre ahead of the stock front eye'],
	up: ['z', length, 'axle centre above the stock front eye'],
	turn: ['turn', angle, 'in the frame, nose-up positive'],
});
const joint = record<JointPlace>('joint centre', {
	forward: ['x', length, 'ahead of the stock front eye'],
	up: ['z', length, 'above the stock front eye'],
});
const shaft = record<Driveshaft>('driveshaft', {
	length: ['length', length, 'joint centre to joint centre'],
	slope: ['slope', angle, 'in the frame, down toward the rear positive'],
});
const range = record<{ lowest: number; highest: number }>('speed range', {
	lowest: ['lowest', number, 'slowest, as a share of the driving speed'],
	highest: ['highest', number, 'fastest, as a share of the driving speed'],
});

const springModel = 'one circular arc on its shackle; SAE HS-788 (from memory)';
const geometry = 'plane geometry';

export const mechanicsFunctions: readonly WorksheetFunction[] = [
	row({
		name: 'leaf_spring',
		about: 'One leaf spring from its two halves and its rate.',
		source: springModel,
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
		takes: [
			['mount', mount, ''],
			['eye_raise', length, 'front eye up'],
			['eye_forward', length, 'front eye forward'],
			['pivot_raise', length, 'shackle pivot up'],
			['pivot_forward', length, 'shackle pivot forward'],
			['shackle_longer', length, 'change of shackle length'],
		],
		gives: mount,
		run: springMountMoved,
	}),
	row({
		name: 'spring_at_arch',
		about: 'The spring as measured: its arch and the load on it.',
		source: springModel,
		takes: [
			['leaf', leaf, ''],
			['mount', mount, ''],
			['arch', length, 'of the loaded main leaf'],
			['load', force, 'at the seat of this one spring'],
		],
		gives: rest,
		run: springAtArch,
	}),
	row({
		name: 'spring_at_load',
		about: 'Where the same spring comes to rest on another mount or under another load.',
		source: springModel,
		takes: [
			['leaf', leaf, ''],
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
		takes: [
			['leaf', leaf, ''],
			['mount', mount, ''],
			['rest', rest, 'the spring at rest on this mount'],
			['seat_to_axle', length, 'axle centre above the seat'],
			['wedge', angle, 'nose-up positive'],
			['rise', length, 'of the axle centre from rest'],
		],
		gives: pose,
		run: springAtAxleRise,
	}),
	row({
		name: 'axle_at_rest',
		about: 'The axle on the seat of a spring at rest.',
		source: geometry,
		takes: [
			['spring', rest, ''],
			['seat_to_axle', length, 'axle centre above the seat; negative under the spring'],
			['wedge', angle, 'nose-up positive'],
		],
		gives: axle,
		run: axleOnSeat,
	}),
	row({
		name: 'axle_in_travel',
		about: 'The axle on the seat of a spring in bump or droop.',
		source: geometry,
		takes: [
			['spring', pose, ''],
			['seat_to_axle', length, 'axle centre above the seat; negative under the spring'],
			['wedge', angle, 'nose-up positive'],
		],
		gives: axle,
		run: axleOnSeat,
	}),
	row({
		name: 'pinion_joint',
		about: 'The joint centre at the pinion.',
		source: geometry,
		takes: [
			['axle', axle, ''],
			['reach', length, 'joint ahead of the axle centre, along the pinion'],
			['rise', length, 'joint above the axle centre, square to the pinion'],
			['slope', angle, 'of the pinion in the frame'],
		],
		gives: joint,
		run: pinionJoint,
	}),
	row({
		name: 'transmission_joint',
		about: 'The joint centre at the transmission, from the pinion joint and the shaft as measured.',
		source: geometry,
		takes: [
			['pinion', joint, ''],
			['length', length, 'joint centre to joint centre'],
			['slope', angle, 'of the shaft'],
		],
		gives: joint,
		run: transmissionJoint,
	}),
	row({
		name: 'joint_moved',
		about: 'A joint centre moved in the frame.',
		source: geometry,
		takes: [
			['joint', joint, ''],
			['forward', length, ''],
			['up', length, ''],
		],
		gives: joint,
		run: jointMoved,
	}),
	row({
		name: 'driveshaft_between',
		about: 'The driveshaft between two joint centres.',
		source: geometry,
		takes: [
			['transmission', joint, ''],
			['pinion', joint, ''],
		],
		gives: shaft,
		run: driveshaftBetween,
	}),
	row({
		name: 'frame_turn',
		about: 'Turn of the frame, nose-up positive, from the drop at each end.',
		source: 'ISO 8855, pitch',
		takes: [
			['front_drop', length, ''],
			['rear_drop', length, ''],
			['wheelbase', length, ''],
		],
		gives: angle,
		run: frameTurn,
	}),
	row({
		name: 'operating_angle',
		about: 'Angle between two shafts in one vertical plane.',
		source: geometry,
		takes: [
			['first', angle, 'slope of one shaft'],
			['second', angle, 'slope of the other'],
		],
		gives: angle,
		run: (first, second) => operatingAngle(first, second),
	}),
	row({
		name: 'operating_angle_in_space',
		about: 'Angle between two shafts that may also point sideways.',
		source: geometry,
		takes: [
			['first_slope', angle, ''],
			['first_plan', angle, 'its direction seen from above'],
			['second_slope', angle, ''],
			['second_plan', angle, 'its direction seen from above'],
		],
		gives: angle,
		run: (firstSlope, firstPlan, secondSlope, secondPlan) =>
			operatingAngle(firstSlope, secondSlope, firstPlan, secondPlan),
	}),
	row({
		name: 'joint_speed_ratio',
		about: 'Speed of the driven shaft over the driving one, at one place in the turn.',
		source: 'Khurmi & Gupta, Theory of Machines, Hooke’s joint (from memory)',
		takes: [
			['operating_angle', angle, ''],
			['rotation', angle, 'of the driving shaft, from the plane of the two shafts'],
		],
		gives: number,
		run: jointSpeedRatio,
	}),
	row({
		name: 'greatest_joint_acceleration',
		about: 'Greatest angular acceleration of the driven shaft over a turn.',
		source: 'Khurmi & Gupta, Theory of Machines, Hooke’s joint (from memory)',
		takes: [
			['operating_angle', angle, ''],
			['speed', turningSpeed, 'of the driving shaft'],
		],
		gives: turningAcceleration,
		run: greatestJointAcceleration,
	}),
	row({
		name: 'pair_speed_range',
		about: 'Slowest and fastest output of two joints over a turn.',
		source: 'two Hooke joints, multiplied out',
		takes: [
			['front', angle, 'operating angle of the front joint'],
			['rear', angle, 'operating angle of the rear joint'],
			['phase', angle, 'how far the yokes are out of line; 0 when set right'],
		],
		gives: range,
		run: pairSpeedRange,
	}),
	row({
		name: 'wind_up_stiffness',
		about: 'Axle torque for each angle of seat turn, one spring.',
		source: 'two cantilevers at the seat; SAE HS-788 for equal halves (from memory)',
		takes: [['leaf', leaf, '']],
		gives: turningStiffness,
		run: windUpStiffness,
	}),
];
