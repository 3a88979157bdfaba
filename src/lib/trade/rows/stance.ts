/** Rows of how the truck stands on the floor and over its wheels. */
import {
	axleSquare,
	frameTurn,
	headlampRise,
	rearDropForTurn,
	rearDropToLevel,
	turnOfHeights,
	tyreDesignDiameter,
	tyreInOpening,
	wheelbaseAfter,
	type AxleSquare,
	type TyreInOpening,
} from '../../mechanics/stance.ts';
import { record, row, type WorksheetFunction } from '../../language/function-row.ts';
import { angle, geometry, length, number } from './kinds.ts';

const opening = record<TyreInOpening>('tyre in opening', {
	ahead: ['ahead', length, 'gap in front of the tyre; negative: it is in the sheet metal'],
	behind: ['behind', length, 'gap behind it; negative: it is in the sheet metal'],
	forward_of_middle: ['forwardOfMiddle', length, 'how far the tyre stands forward of the middle'],
});
const square = record<AxleSquare>('axle square', {
	thrust_angle: [
		'thrustAngle',
		angle,
		'off straight ahead; positive: its wheels roll toward the left',
	],
	left_pin_forward: [
		'leftPinForward',
		length,
		'how much further forward the left centre pin has to go to square it',
	],
});

const wheelbase = ['wheelbase', length, 'front axle to rear axle'] as const;
const heights = [
	['front_height', length, 'to the floor, at the front of one straight part'],
	['rear_height', length, 'to the floor, at the rear of the same part'],
	['apart', length, 'between the two, along the floor'],
] as const;
const pitch = 'ISO 8855, pitch';

export const stanceFunctions: readonly WorksheetFunction[] = [
	row({
		name: 'frame_turn',
		about: 'Turn of the frame, nose-up positive, from the drop at each end.',
		source: pitch,
		example: 'frame_turn(0.05 m, 0.1 m, 2.9 m)',
		takes: [
			['front_drop', length, 'at the front axle, down positive'],
			['rear_drop', length, 'at the rear axle, down positive'],
			wheelbase,
		],
		gives: angle,
		run: frameTurn,
	}),
	row({
		name: 'rear_drop_for_turn',
		about: 'Drop at the rear, down positive, that gives the frame a wanted turn.',
		source: pitch,
		example: 'rear_drop_for_turn(0.02 rad, 0.05 m, 2.9 m)',
		takes: [
			['turn', angle, 'wanted, nose-up positive'],
			['front_drop', length, 'at the front axle, down positive'],
			wheelbase,
		],
		gives: length,
		run: rearDropForTurn,
	}),
	row({
		name: 'turn_of_heights',
		about: 'Turn of the frame, nose-up positive, from two heights of one straight part of it.',
		source: geometry,
		example: 'turn_of_heights(0.42 m, 0.47 m, 2.1 m)',
		takes: heights,
		gives: angle,
		run: turnOfHeights,
	}),
	row({
		name: 'rear_drop_to_level',
		about: 'Drop at the rear axle, down positive, that sets a straight part of the frame level.',
		source: geometry,
		example: 'rear_drop_to_level(0.42 m, 0.47 m, 2.1 m, 2.9 m)',
		takes: [...heights, wheelbase],
		gives: length,
		run: rearDropToLevel,
	}),
	row({
		name: 'headlamp_rise',
		about: 'What a turn of the frame lifts the headlamp beam by on the wall, up positive.',
		source: 'plane geometry; SAE J599 for the distance (from memory)',
		example: 'headlamp_rise(0.015 rad, 7.62 m)',
		takes: [
			['turn', angle, 'change of the frame’s turn, nose-up positive'],
			['distance', length, 'lamp to wall; 25 ft by SAE J599 (from memory)'],
		],
		gives: length,
		run: headlampRise,
	}),
	row({
		name: 'wheelbase_after',
		about: 'Wheelbase after the job, along the frame.',
		source: geometry,
		example: 'wheelbase_after(2.9 m, 0.012 m, 0.3 m)',
		takes: [
			['wheelbase', length, 'front axle to rear axle before'],
			[
				'axle_forward',
				length,
				'how far the rear axle went forward in the frame; rearward negative',
			],
			['frame_shortened', length, 'length taken out of the frame between the axles'],
		],
		gives: length,
		run: wheelbaseAfter,
	}),
	row({
		name: 'tyre_in_opening',
		about: 'Where a tyre stands in its wheel opening once the axle has moved.',
		source: geometry,
		example: 'tyre_in_opening(0.08 m, 0.06 m, 0.012 m)',
		takes: [
			['ahead', length, 'gap in front of the tyre before, at wheel-centre height'],
			['behind', length, 'gap behind it before'],
			['axle_forward', length, 'how far the axle went forward in the frame; rearward negative'],
		],
		gives: opening,
		run: tyreInOpening,
	}),
	row({
		name: 'tyre_design_diameter',
		about: 'Design diameter of a tyre from its size.',
		source: 'ISO 4000-1, size formula, unrounded',
		example: 'tyre_design_diameter(0.205 m, 0.55, 0.4064 m)',
		takes: [
			['section_width', length, '205 mm for a 205/55 R16'],
			['aspect_ratio', number, '0.55 for a 205/55 R16'],
			['rim_diameter', length, '16 in for a 205/55 R16'],
		],
		gives: length,
		run: tyreDesignDiameter,
	}),
	row({
		name: 'axle_square',
		about: 'How crooked a rear axle stands, from the wheelbase on either side.',
		source: geometry,
		example: 'axle_square(2.9 m, 2.894 m, 1.45 m, 1.05 m)',
		takes: [
			['left', length, 'wheelbase on the left side'],
			['right', length, 'wheelbase on the right side'],
			['track', length, 'between the two places measured to on the rear wheels'],
			['springs_apart', length, 'middle of one rear spring to the middle of the other'],
		],
		gives: square,
		run: axleSquare,
	}),
];
