/** Rows of the driveshaft between its joints, and of its slip. */
import {
	driveshaftBetween,
	jointMoved,
	pinionJoint,
	transmissionJoint,
	transmissionShimmed,
	type TransmissionJoint,
} from '../../mechanics/driveshaft.ts';
import { shaftOrder, slipLeft, type ShaftOrder, type SlipLeft } from '../../mechanics/slip.ts';
import { record, row, type WorksheetFunction } from '../../language/function-row.ts';
import { angle, axle, geometry, joint, length, shaft } from './kinds.ts';

const left = record<SlipLeft>('slip left', {
	engagement_at_ride: ['engagementAtRide', length, 'spline engaged; negative: pulled out'],
	engagement_at_bump: ['engagementAtBump', length, 'spline engaged; negative: pulled out'],
	engagement_at_droop: ['engagementAtDroop', length, 'spline engaged; negative: pulled out'],
	room_at_ride: ['roomAtRide', length, 'before the yoke bottoms; negative: bottomed'],
	room_at_bump: ['roomAtBump', length, 'before the yoke bottoms; negative: bottomed'],
	room_at_droop: ['roomAtDroop', length, 'before the yoke bottoms; negative: bottomed'],
	least_engagement: ['leastEngagement', length, 'the least of the three engagements'],
	least_room: ['leastRoom', length, 'the least of the three rooms'],
});
const order = record<ShaftOrder>('shaft order', {
	length: ['length', length, 'joint centre to joint centre at ride: the length to order'],
	room_at_ride: ['roomAtRide', length, 'how far the yoke stands out from bottomed at that length'],
	bottomed_length: ['bottomedLength', length, 'joint centre to joint centre, yoke bottomed'],
	longest_length: ['longestLength', length, 'the longest the travel pulls it'],
	spline_needed: [
		'splineNeeded',
		length,
		'engaged when bottomed, so that the wanted engagement is left at the longest',
	],
});

const shimmed = record<TransmissionJoint>('joint centre', {
	forward: ['x', length, 'ahead of the stock front eye'],
	up: ['z', length, 'above the stock front eye'],
	slope: ['slope', angle, 'of the output shaft, down toward the rear positive'],
});

const rideBumpDroop = [
	['ride', length, 'shaft length at ride, joint centre to joint centre'],
	['bump', length, 'shaft length at full bump'],
	['droop', length, 'shaft length at full droop'],
] as const;

export const driveshaftFunctions: readonly WorksheetFunction[] = [
	row({
		name: 'pinion_joint',
		about: 'The joint centre at the pinion.',
		source: geometry,
		example: 'pinion_joint(an_axle, 0.24 m, 0.03 m, 0.05 rad)',
		takes: [
			['axle', axle, 'that carries the pinion'],
			['reach', length, 'joint ahead of the axle centre, along the pinion'],
			['rise', length, 'joint above the axle centre, square to the pinion'],
			['slope', angle, 'of the pinion in the frame, down toward the rear positive'],
		],
		gives: joint,
		run: pinionJoint,
	}),
	row({
		name: 'transmission_joint',
		about: 'The joint centre at the transmission, from the pinion joint and the shaft as measured.',
		source: geometry,
		example: 'transmission_joint(the_pinion, 1.35 m, 0.08 rad)',
		takes: [
			['pinion', joint, 'the joint at the pinion'],
			['length', length, 'joint centre to joint centre'],
			['slope', angle, 'of the shaft, down toward the rear positive'],
		],
		gives: joint,
		run: transmissionJoint,
	}),
	row({
		name: 'joint_moved',
		about: 'A joint centre moved in the frame.',
		source: geometry,
		example: 'joint_moved(the_pinion, 0.01 m, -0.02 m)',
		takes: [
			['joint', joint, 'as it was'],
			['forward', length, 'how far it goes forward; rearward negative'],
			['up', length, 'how far it goes up; down negative'],
		],
		gives: joint,
		run: jointMoved,
	}),
	row({
		name: 'transmission_shimmed',
		about: 'The transmission joint with a shim under the transmission mount.',
		source: 'the engine turns about its own mounts, which stay; plane geometry',
		example: 'transmission_shimmed(the_transmission, 0.08 rad, 1.3 m, 0.012 m, 0.8 m)',
		takes: [
			['joint', joint, 'as it was'],
			['slope', angle, 'of the output shaft as it was, down toward the rear positive'],
			['engine_to_joint', length, 'engine mounts to joint, along the shaft'],
			['shim', length, 'thickness put in under the transmission mount'],
			['engine_to_mount', length, 'engine mounts to transmission mount'],
		],
		gives: shimmed,
		run: transmissionShimmed,
	}),
	row({
		name: 'driveshaft_between',
		about: 'The driveshaft between two joint centres.',
		source: geometry,
		example: 'driveshaft_between(the_transmission, the_pinion)',
		takes: [
			['transmission', joint, 'its front joint'],
			['pinion', joint, 'its rear joint'],
		],
		gives: shaft,
		run: driveshaftBetween,
	}),
	row({
		name: 'slip_left',
		about: 'Spline and room left in the slip yoke at ride, in bump and in droop.',
		source: geometry,
		example: 'slip_left(1.4 m, 0.08 m, 0.03 m, 1.39 m, 1.385 m, 1.412 m)',
		takes: [
			[
				'measured_length',
				length,
				'shaft length at which engagement and room were measured, joint centre to joint centre',
			],
			['engagement', length, 'spline engaged at that length'],
			['room', length, 'how much further the yoke goes in at that length before it bottoms'],
			...rideBumpDroop,
		],
		gives: left,
		run: slipLeft,
	}),
	row({
		name: 'shaft_order',
		about: 'What to order when a shaft is made: its length at ride and the slip it has to have.',
		source: geometry,
		example: 'shaft_order(1.39 m, 1.385 m, 1.412 m, 0.012 m, 0.02 m, 0.03 m)',
		takes: [
			...rideBumpDroop,
			[
				'room_over_travel',
				length,
				'that must be left before the yoke bottoms where the travel makes the shaft shortest',
			],
			['room', length, 'wanted at ride before the yoke bottoms; an inch is common practice'],
			[
				'engagement',
				length,
				'spline wanted beyond what travel takes; an inch or more is common practice',
			],
		],
		gives: order,
		run: shaftOrder,
	}),
];
