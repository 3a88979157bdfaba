/** Rows of universal joints: one, a pair, and chains of two or three. */
import {
	bestRearPhase,
	bestYokePhases,
	cancellingPinionSlope,
	chainAcceleration,
	chainRipple,
	chainSpeedRatio,
	frontShaftAcceleration,
	pairInSpace,
	planarPair,
	planarThree,
	rearShaftAcceleration,
	shaftPlanFromOffset,
	threeInSpace,
	type BestPhases,
	type ChainRipple,
	type JointChain,
	type ShaftAcceleration,
} from '../../mechanics/joint-chain.ts';
import {
	angleOfFluctuation,
	greatestJointAcceleration,
	jointAcceleration,
	jointRotation,
	jointSpeedRatio,
	operatingAngle,
	pairSpeedRange,
	pairSpeedRatio,
	rotationOfGreatestAcceleration,
} from '../../mechanics/universal-joint.ts';
import { choice, record, row, type WorksheetFunction } from '../../language/function-row.ts';
import {
	angle,
	geometry,
	hooke,
	length,
	number,
	turningAcceleration,
	turningSpeed,
} from './kinds.ts';

const range = record<{ lowest: number; highest: number }>('speed range', {
	lowest: ['lowest', number, 'slowest, as a share of the driving speed'],
	highest: ['highest', number, 'fastest, as a share of the driving speed'],
});
const chain = record<JointChain>('joint chain', {
	first: ['first', angle, 'operating angle at the transmission'],
	second: ['second', angle, 'operating angle of the next joint'],
	third: ['third', angle, 'operating angle of the last of three; 0 in a pair'],
	second_plane: ['secondPlane', angle, 'turn of the second joint’s plane from the first’s'],
	third_plane: ['thirdPlane', angle, 'turn of the third joint’s plane from the second’s'],
	front_phase: ['frontPhase', angle, 'turn of the front shaft’s rear yoke from its front yoke'],
	rear_phase: ['rearPhase', angle, 'turn of the rear shaft’s rear yoke from its front yoke'],
});
const ripple = record<ChainRipple>('chain ripple', {
	lowest: ['lowest', number, 'slowest over a turn, as a share of the driving speed'],
	highest: ['highest', number, 'fastest over a turn, as a share of the driving speed'],
	acceleration: ['acceleration', turningAcceleration, 'greatest of the last shaft over a turn'],
	equivalent_angle: ['equivalentAngle', angle, 'of the single joint that would turn the very same'],
	equivalent_angle_by_hand: [
		'equivalentAngleByHand',
		angle,
		'the same by the closed form for small angles; VDI 2722 (from memory)',
	],
});
const acceleration = record<ShaftAcceleration>('shaft acceleration', {
	drive: ['drive', turningAcceleration, 'greatest over a turn while the engine pulls'],
	coast: ['coast', turningAcceleration, 'greatest over a turn while the truck pushes'],
});
const phases = record<BestPhases>('yoke phases', {
	front_phase: ['frontPhase', angle, 'turn of the front shaft’s rear yoke from its front yoke'],
	rear_phase: ['rearPhase', angle, 'turn of the rear shaft’s rear yoke from its front yoke'],
	equivalent_angle: ['equivalentAngle', angle, 'of the single joint that they leave'],
});

const chained = 'Hooke joints one behind another, multiplied out; exact over the turn';
const oneAngle = ['operating_angle', angle, 'of the joint, never negative'] as const;
const rotation = [
	'rotation',
	angle,
	'of the driving shaft, from where its yoke lies in the plane of the two shafts',
] as const;
const pair = [
	['front', angle, 'operating angle of the front joint, never negative'],
	['rear', angle, 'operating angle of the rear joint, never negative'],
] as const;
const phase = ['phase', angle, 'how far the yokes are out of line; 0 when set right'] as const;
const aChain = ['chain', chain, 'the joints, front to rear'] as const;
const frontPhase = [
	'front_phase',
	angle,
	'turn of the front shaft’s rear yoke from its front yoke, clockwise looking rearward positive; 0 in line',
] as const;
const rearPhase = [
	'rear_phase',
	angle,
	'turn of the rear shaft’s rear yoke from its front yoke, clockwise looking rearward positive; 0 in line',
] as const;
const slopeWords = 'down toward the rear positive';
const planWords = 'its direction seen from above, toward the left going rearward positive';
const transmission = [
	['transmission_slope', angle, slopeWords],
	['transmission_plan', angle, planWords],
] as const;
const pinion = [
	['pinion_slope', angle, slopeWords],
	['pinion_plan', angle, planWords],
] as const;
const drivingSpeed = ['speed', turningSpeed, 'of the first shaft'] as const;
const steadyEndSpeed = ['speed', turningSpeed, 'of the end that turns steadily'] as const;

export const jointFunctions: readonly WorksheetFunction[] = [
	row({
		name: 'operating_angle',
		about: 'Angle between two shafts in one vertical plane.',
		source: geometry,
		example: 'operating_angle(0.02 rad, 0.09 rad)',
		takes: [
			['first', angle, 'slope of one shaft, down toward the rear positive'],
			['second', angle, 'slope of the other, down toward the rear positive'],
		],
		gives: angle,
		run: (first, second) => operatingAngle(first, second),
	}),
	row({
		name: 'operating_angle_in_space',
		about: 'Angle between two shafts that may also point sideways.',
		source: geometry,
		example: 'operating_angle_in_space(0.02 rad, 0.01 rad, 0.09 rad, 0.04 rad)',
		takes: [
			['first_slope', angle, slopeWords],
			['first_plan', angle, planWords],
			['second_slope', angle, slopeWords],
			['second_plan', angle, planWords],
		],
		gives: angle,
		run: (firstSlope, firstPlan, secondSlope, secondPlan) =>
			operatingAngle(firstSlope, secondSlope, firstPlan, secondPlan),
	}),
	row({
		name: 'joint_speed_ratio',
		about: 'Speed of the driven shaft over the driving one, at one place in the turn.',
		source: hooke,
		example: 'joint_speed_ratio(0.12 rad, 0.7 rad)',
		takes: [oneAngle, rotation],
		gives: number,
		run: jointSpeedRatio,
	}),
	row({
		name: 'joint_acceleration',
		about: 'Angular acceleration of the driven shaft at one place in the turn.',
		source: hooke,
		example: 'joint_acceleration(0.12 rad, 0.7 rad, 300 rad/s)',
		takes: [oneAngle, rotation, ['speed', turningSpeed, 'of the driving shaft']],
		gives: turningAcceleration,
		run: jointAcceleration,
	}),
	row({
		name: 'rotation_of_greatest_acceleration',
		about: 'Where in the first quarter turn the driven shaft’s acceleration is greatest.',
		source: hooke,
		example: 'rotation_of_greatest_acceleration(0.12 rad)',
		takes: [oneAngle],
		gives: angle,
		run: rotationOfGreatestAcceleration,
	}),
	row({
		name: 'greatest_joint_acceleration',
		about: 'Greatest angular acceleration of the driven shaft over a turn.',
		source: hooke,
		example: 'greatest_joint_acceleration(0.12 rad, 300 rad/s)',
		takes: [oneAngle, ['speed', turningSpeed, 'of the driving shaft']],
		gives: turningAcceleration,
		run: greatestJointAcceleration,
	}),
	row({
		name: 'joint_rotation',
		about: 'Where the driven shaft stands when the driving one has turned so far.',
		source: hooke,
		example: 'joint_rotation(0.12 rad, 0.7 rad)',
		takes: [oneAngle, rotation],
		gives: angle,
		run: jointRotation,
	}),
	row({
		name: 'angle_of_fluctuation',
		about:
			'Operating angle at which one joint’s driven shaft swings by a given share of its speed.',
		source: hooke,
		example: 'angle_of_fluctuation(0.01)',
		takes: [['fluctuation', number, 'fastest less slowest, as a share of the driving speed']],
		gives: angle,
		run: angleOfFluctuation,
	}),
	row({
		name: 'pair_speed_ratio',
		about: 'Speed of the output of two joints over the driving speed, at one place in the turn.',
		source: 'two Hooke joints, multiplied out',
		example: 'pair_speed_ratio(0.12 rad, 0.1 rad, 0.7 rad, 0.05 rad)',
		takes: [...pair, rotation, phase],
		gives: number,
		run: pairSpeedRatio,
	}),
	row({
		name: 'pair_speed_range',
		about: 'Slowest and fastest output of two joints over a turn.',
		source: 'two Hooke joints, multiplied out',
		example: 'pair_speed_range(0.12 rad, 0.1 rad, 0.05 rad)',
		takes: [...pair, phase],
		gives: range,
		run: pairSpeedRange,
	}),
	row({
		name: 'planar_pair',
		about: 'Two joints whose three shafts lie in one plane.',
		source: geometry,
		example: 'planar_pair(0.05 rad, -0.06 rad, 0.1 rad)',
		takes: [
			['front', angle, 'operating angle of the front joint in that plane, either sign'],
			['rear', angle, 'operating angle of the rear joint, either sign'],
			frontPhase,
		],
		gives: chain,
		run: planarPair,
	}),
	row({
		name: 'planar_three',
		about: 'Three joints, with a centre bearing, whose four shafts lie in one plane.',
		source: geometry,
		example: 'planar_three(0.05 rad, -0.03 rad, 0.08 rad, 0.1 rad, 0.2 rad)',
		takes: [
			['front', angle, 'operating angle at the transmission, either sign'],
			['centre', angle, 'operating angle at the centre bearing, either sign'],
			['rear', angle, 'operating angle at the pinion, either sign'],
			frontPhase,
			rearPhase,
		],
		gives: chain,
		run: planarThree,
	}),
	row({
		name: 'pair_in_space',
		about: 'Two joints anywhere in space, from the directions of transmission, shaft and pinion.',
		source: 'solid geometry',
		example: 'pair_in_space(0.05 rad, 0.01 rad, 0.09 rad, 0.03 rad, 0.04 rad, -0.02 rad, 0.1 rad)',
		takes: [
			...transmission,
			['shaft_slope', angle, slopeWords],
			['shaft_plan', angle, planWords],
			...pinion,
			frontPhase,
		],
		gives: chain,
		run: pairInSpace,
	}),
	row({
		name: 'three_in_space',
		about:
			'Three joints anywhere in space, from the directions of transmission, front shaft, rear shaft and pinion.',
		source: 'solid geometry',
		example:
			'three_in_space(0.05 rad, 0.01 rad, 0.07 rad, 0.02 rad, 0.12 rad, 0.03 rad, 0.04 rad, -0.02 rad, 0.1 rad, 0.2 rad)',
		takes: [
			...transmission,
			['front_shaft_slope', angle, slopeWords],
			['front_shaft_plan', angle, planWords],
			['rear_shaft_slope', angle, slopeWords],
			['rear_shaft_plan', angle, planWords],
			...pinion,
			frontPhase,
			rearPhase,
		],
		gives: chain,
		run: threeInSpace,
	}),
	row({
		name: 'shaft_plan_from_offset',
		about: 'Direction of a shaft seen from above, from how far its rear joint stands to the left.',
		source: geometry,
		example: 'shaft_plan_from_offset(0.04 m, 1.4 m, 0.07 rad)',
		takes: [
			['to_left', length, 'rear joint to the left of the front joint; to the right negative'],
			['length', length, 'joint centre to joint centre'],
			['slope', angle, 'of the shaft, down toward the rear positive'],
		],
		gives: angle,
		run: shaftPlanFromOffset,
	}),
	row({
		name: 'cancelling_pinion_slope',
		about:
			'The pinion slope at which two joints with their yokes in line cancel, shafts in one plane.',
		source: 'Khurmi & Gupta, Theory of Machines, double Hooke’s joint (from memory)',
		example: 'cancelling_pinion_slope(0.05 rad, 0.09 rad, "intersecting")',
		takes: [
			['transmission_slope', angle, slopeWords],
			['shaft_slope', angle, slopeWords],
			[
				'layout',
				choice('parallel', 'intersecting'),
				'whether transmission and pinion run parallel, or their lines meet between the joints',
			],
		],
		gives: angle,
		run: (transmissionSlope, shaftSlope, layout) =>
			cancellingPinionSlope(transmissionSlope, shaftSlope, layout === 'intersecting'),
	}),
	row({
		name: 'chain_speed_ratio',
		about: 'Speed of the last shaft of a chain over the first, at one place in the turn.',
		source: chained,
		example: 'chain_speed_ratio(a_chain, 0.7 rad)',
		takes: [aChain, rotation],
		gives: number,
		run: chainSpeedRatio,
	}),
	row({
		name: 'chain_acceleration',
		about: 'Angular acceleration of the last shaft of a chain at one place in the turn.',
		source: chained,
		example: 'chain_acceleration(a_chain, 0.7 rad, 300 rad/s)',
		takes: [aChain, rotation, drivingSpeed],
		gives: turningAcceleration,
		run: chainAcceleration,
	}),
	row({
		name: 'chain_ripple',
		about: 'What a chain leaves over at its output, and the single joint that would turn the same.',
		source: chained,
		example: 'chain_ripple(a_chain, 300 rad/s)',
		takes: [aChain, drivingSpeed],
		gives: ripple,
		run: chainRipple,
	}),
	row({
		name: 'front_shaft_acceleration',
		about: 'Greatest angular acceleration of the front, or only, shaft over a turn.',
		source: chained,
		example: 'front_shaft_acceleration(a_chain, 300 rad/s)',
		takes: [aChain, steadyEndSpeed],
		gives: acceleration,
		run: frontShaftAcceleration,
	}),
	row({
		name: 'rear_shaft_acceleration',
		about:
			'Greatest angular acceleration of the shaft between centre bearing and pinion over a turn.',
		source: chained,
		example: 'rear_shaft_acceleration(a_chain, 300 rad/s)',
		takes: [aChain, steadyEndSpeed],
		gives: acceleration,
		run: rearShaftAcceleration,
	}),
	row({
		name: 'best_rear_phase',
		about: 'The yoke phase of the rear shaft that cancels best with the front shaft’s kept.',
		source: chained,
		example: 'best_rear_phase(a_chain)',
		takes: [aChain],
		gives: phases,
		run: bestRearPhase,
	}),
	row({
		name: 'best_yoke_phases',
		about: 'The yoke phases that cancel best with both shafts free to be set.',
		source: chained,
		example: 'best_yoke_phases(a_chain)',
		takes: [aChain],
		gives: phases,
		run: bestYokePhases,
	}),
];
