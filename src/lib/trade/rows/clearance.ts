/** Rows of what the axle, the tyre, the shock and the hose have left to move. */
import {
	hoseSlack,
	mountToMount,
	notchRoom,
	placeOnAxle,
	roomAboveAxle,
	shaftRise,
	shockMotionRatio,
	shockOverTravel,
	shockStroke,
	tyreToFender,
	type NotchRoom,
	type RoomAboveAxle,
	type ShockStroke,
} from '../../mechanics/clearance.ts';
import { flag, record, row, type WorksheetFunction } from '../../language/function-row.ts';
import { axle, geometry, joint, length, number, shaft } from './kinds.ts';

const room = record<RoomAboveAxle>('room above axle', {
	to_bump_stop: [
		'toBumpStop',
		length,
		'axle to bump stop: the bump travel left; negative: overlap',
	],
	to_frame: ['toFrame', length, 'axle to the frame over it; negative: overlap'],
	stop_squeeze: ['stopSqueeze', length, 'how far the stop may be squeezed before the frame is met'],
	stop_met_first: ['stopMetFirst', flag, 'whether the axle meets the stop before the frame'],
});
const stroke = record<ShockStroke>('shock stroke', {
	ride: ['ride', length, 'mount to mount at ride'],
	bump: ['bump', length, 'mount to mount at full bump'],
	droop: ['droop', length, 'mount to mount at full droop'],
	closing_share: ['closingShare', number, 'share of the stroke between ride and closed'],
	opening_share: ['openingShare', number, 'share of the stroke between ride and open'],
	left_closing: ['leftClosing', length, 'stroke left at the shortest; negative: closes too soon'],
	left_opening: ['leftOpening', length, 'stroke left at the longest; negative: pulled out'],
});

const notch = record<NotchRoom>('notch room', {
	ahead: ['ahead', length, 'tube to the notch’s front edge; negative: they overlap'],
	behind: ['behind', length, 'tube to the notch’s rear edge; negative: they overlap'],
	least: ['least', length, 'the lesser of the two'],
});

const mounts = [
	['forward', length, 'frame mount ahead of the axle mount; 0 in an end view'],
	['sideways', length, 'frame mount to the side of it; 0 in a side view'],
	['up', length, 'frame mount above it'],
] as const;
const closedOpen = [
	['closed', length, 'fully closed, mount to mount'],
	['open', length, 'fully open, mount to mount'],
] as const;

export const clearanceFunctions: readonly WorksheetFunction[] = [
	row({
		name: 'room_above_axle',
		about: 'Axle to bump stop and to frame after a drop.',
		source: geometry,
		example: 'room_above_axle(0.1 m, 0.16 m, 0.09 m, 0.03 m, 0.05 m)',
		takes: [
			['to_bump_stop', length, 'axle to the end of the bump stop as it stands'],
			['to_frame', length, 'axle to the frame as it stands'],
			['axle_rise', length, 'of the axle in the frame, up positive; the drop at the axle'],
			['stop_shortened', length, 'what the bump stop was shortened or moved up by'],
			['frame_notched', length, 'depth of a notch over the axle; 0 without one'],
		],
		gives: room,
		run: roomAboveAxle,
	}),
	row({
		name: 'place_on_axle',
		about: 'Place in the frame of something bolted to the axle, wherever that stands or turns.',
		source: geometry,
		example: 'place_on_axle(an_axle, -0.08 m, 0.05 m)',
		takes: [
			['axle', axle, 'that carries it'],
			['ahead', length, 'of the axle centre, with the axle not turned'],
			['above', length, 'the axle centre, with the axle not turned'],
		],
		gives: joint,
		run: placeOnAxle,
	}),
	row({
		name: 'shaft_rise',
		about: 'How far the driveshaft comes up at a place that stays in the frame.',
		source: geometry,
		example:
			'shaft_rise(the_pinion, the_shaft, a_raised_pinion, driveshaft_between(the_transmission, a_raised_pinion), 0.4 m)',
		takes: [
			['pinion_before', joint, 'rear joint before'],
			['before', shaft, 'as it was'],
			['pinion_after', joint, 'rear joint after'],
			['after', shaft, 'as it is'],
			['ahead', length, 'the place ahead of the rear joint as it was, level'],
		],
		gives: length,
		run: shaftRise,
	}),
	row({
		name: 'notch_room',
		about: 'What an axle tube has fore and aft in a notch of the frame.',
		source: geometry,
		example: 'notch_room(0.28 m, 0.01 m, 0.07 m, 0.02 m)',
		takes: [
			['notch_length', length, 'of the notch along the rail'],
			['middle_ahead', length, 'middle of the notch ahead of the axle centre as it was'],
			['axle_tube', length, 'outside diameter of the axle tube'],
			['axle_forward', length, 'how far the axle has gone forward in the frame; rearward negative'],
		],
		gives: notch,
		run: notchRoom,
	}),
	row({
		name: 'mount_to_mount',
		about: 'Straight distance between two mounts: the length of a shock, or of a taut hose.',
		source: geometry,
		example: 'mount_to_mount(0.1 m, 0.15 m, 0.4 m)',
		takes: mounts,
		gives: length,
		run: mountToMount,
	}),
	row({
		name: 'shock_stroke',
		about: 'What is left of a shock’s stroke, from its mount-to-mount lengths.',
		source: geometry,
		example: 'shock_stroke(0.45 m, 0.38 m, 0.52 m, 0.35 m, 0.56 m)',
		takes: [
			['ride', length, 'mount to mount at ride'],
			['bump', length, 'mount to mount at full bump'],
			['droop', length, 'mount to mount at full droop'],
			...closedOpen,
		],
		gives: stroke,
		run: shockStroke,
	}),
	row({
		name: 'shock_over_travel',
		about: 'What is left of the stroke of a shock whose axle mount goes straight up and down.',
		source: geometry,
		example: 'shock_over_travel(0.1 m, 0.15 m, 0.4 m, 0.08 m, 0.09 m, 0.35 m, 0.56 m)',
		takes: [
			...mounts,
			['bump_travel', length, 'axle rise to full bump, not negative'],
			['droop_travel', length, 'axle fall to full droop, not negative'],
			...closedOpen,
		],
		gives: stroke,
		run: shockOverTravel,
	}),
	row({
		name: 'shock_motion_ratio',
		about: 'What a leaning shock shortens for each length of axle rise.',
		source: geometry,
		example: 'shock_motion_ratio(0.1 m, 0.15 m, 0.4 m)',
		takes: mounts,
		gives: number,
		run: shockMotionRatio,
	}),
	row({
		name: 'tyre_to_fender',
		about: 'Top of the tyre to the fender lip over it; negative: the tyre is in the fender.',
		source: geometry,
		example: 'tyre_to_fender(0.78 m, 0.33 m, 0.345 m, 0.06 m)',
		takes: [
			['lip_height', length, 'fender lip to floor over the wheel centre'],
			['loaded_radius', length, 'wheel centre to floor'],
			['free_radius', length, 'half the tyre’s diameter with no load'],
			['bump', length, 'rise of the axle from there; droop negative'],
		],
		gives: length,
		run: tyreToFender,
	}),
	row({
		name: 'hose_slack',
		about: 'Slack of a brake hose at droop; negative: the axle hangs on the hose.',
		source: geometry,
		example: 'hose_slack(0.45 m, 0.1 m, 0.05 m, 0.25 m, 0.09 m)',
		takes: [
			['hose_length', length, 'end to end along the hose'],
			['forward', length, 'frame end ahead of the axle end at ride'],
			['sideways', length, 'frame end to the side of it'],
			['up', length, 'frame end above it'],
			['droop_travel', length, 'fall of the axle from ride'],
		],
		gives: length,
		run: hoseSlack,
	}),
];
