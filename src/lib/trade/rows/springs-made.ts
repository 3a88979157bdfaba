/** Rows of springs from what they are made of: leaf packs, and coils with what the wheel feels of them. */
import {
	armMotionRatio,
	beamCamber,
	coilDrop,
	coilLengthAtRide,
	coilRate,
	coilSolidLength,
	coilSpacerRise,
	coilsThere,
	naturalFrequency,
	travelToCoilBind,
	trimmedCoilFreeLength,
	trimmedCoilRate,
	wheelRate,
} from '../../mechanics/coil-spring.ts';
import { leafPackRate, leavesTakenOut, type LeavesTakenOut } from '../../mechanics/leaf-pack.ts';
import {
	choice,
	flag,
	quantity,
	record,
	row,
	type WorksheetFunction,
} from '../../language/function-row.ts';
import { angle, force, geometry, length, mass, number, pressure, stiffness } from './kinds.ts';

const takenOut = record<LeavesTakenOut>('leaves taken out', {
	rate: ['rate', stiffness, 'that is left'],
	share: ['share', number, 'what is left of the rate, as a share of it'],
	drop: ['drop', length, 'how much lower the truck stands on it'],
});

const leafSource = 'Khurmi & Gupta, Machine Design, leaf springs (from memory)';
const leaves = [
	['width', length, 'of a leaf'],
	['thickness', length, 'of a leaf'],
	['full_length', number, 'number of full-length leaves, the main leaf among them'],
	['graduated', number, 'number of shorter leaves'],
	['modulus', pressure, 'Young’s modulus; 206 GPa for spring steel, EN 13906-1 (from memory)'],
] as const;
const coilSource = 'EN 13906-1 (from memory)';
const activeCoils = ['active_coils', number, 'coils that are free to move'] as const;
const trimmed = [
	'trimmed',
	number,
	'active coils taken off; a dead end coil does not count',
] as const;
const motionRatio = [
	'motion_ratio',
	number,
	'what the spring shortens for each length the wheel rises',
] as const;
const leverage = 'virtual work';

export const springsMadeFunctions: readonly WorksheetFunction[] = [
	row({
		name: 'leaf_pack_rate',
		about: 'Rate of one leaf spring at its seat, from its leaves.',
		source: leafSource,
		example: 'leaf_pack_rate(0.57 m, 0.67 m, 0.064 m, 0.007 m, 2, 5, 200e9 Pa)',
		takes: [
			['front', length, 'front eye to the edge of the clamp'],
			['rear', length, 'rear eye to the edge of the clamp'],
			...leaves,
		],
		gives: stiffness,
		run: leafPackRate,
	}),
	row({
		name: 'leaves_taken_out',
		about: 'What taking shorter leaves out of a spring does to its rate and to the height.',
		source: leafSource,
		example: 'leaves_taken_out(28000 N/m, 3800 N, 2, 5, 1)',
		takes: [
			['rate', stiffness, 'of the whole spring at its seat'],
			['load', force, 'on the seat of one spring'],
			['full_length', number, 'number of full-length leaves, the main leaf among them'],
			['graduated', number, 'number of shorter leaves before'],
			['taken_out', number, 'how many of the shorter leaves go'],
		],
		gives: takenOut,
		run: leavesTakenOut,
	}),
	row({
		name: 'coil_rate',
		about: 'Rate of a coil spring from its wire and its coils.',
		source: coilSource,
		example: 'coil_rate(0.016 m, 0.12 m, 7.5, 80e9 Pa)',
		takes: [
			['wire', length, 'diameter of the wire'],
			['mean_diameter', length, 'of the coil: outside diameter less one wire'],
			activeCoils,
			[
				'shear_modulus',
				pressure,
				'79.5 GPa for oil-tempered spring wire, 78.5 GPa for bar wound hot; EN 13906-1 (from memory)',
			],
		],
		gives: stiffness,
		run: coilRate,
	}),
	row({
		name: 'trimmed_coil_rate',
		about: 'Rate of a coil after trimming: fewer coils, stiffer spring.',
		source: coilSource,
		example: 'trimmed_coil_rate(60000 N/m, 7.5, 0.75)',
		takes: [['rate', stiffness, 'before'], activeCoils, trimmed],
		gives: stiffness,
		run: trimmedCoilRate,
	}),
	row({
		name: 'trimmed_coil_free_length',
		about: 'Free length of a coil after trimming: each active coil takes its pitch away.',
		source: geometry,
		example: 'trimmed_coil_free_length(0.4 m, 7.5, 0.75, 0.016 m)',
		takes: [
			['free_length', length, 'before'],
			activeCoils,
			trimmed,
			['end_height', length, 'what the dead ends take of the free length; one wire for plain ends'],
		],
		gives: length,
		run: trimmedCoilFreeLength,
	}),
	row({
		name: 'coil_solid_length',
		about: 'Length of a coil with all its coils touching.',
		source: coilSource,
		example: 'coil_solid_length(0.016 m, 9, "cut")',
		takes: [
			['wire', length, 'diameter of the wire'],
			['all_coils', number, 'active and dead'],
			['ends', choice('ground', 'cut'), 'ground flat, or left as cut'],
		],
		gives: length,
		run: (wire, allCoils, ends) => coilSolidLength(wire, allCoils, ends === 'ground'),
	}),
	row({
		name: 'arm_motion_ratio',
		about: 'What a coil on a control arm shortens for each length the ball joint rises.',
		source: leverage,
		example: 'arm_motion_ratio(0.2 m, 0.36 m, 0.15 rad)',
		takes: [
			['pivot_to_spring', length, 'arm pivot to the spring’s middle, square to the pivot'],
			['pivot_to_wheel', length, 'arm pivot to the ball joint, square to the pivot'],
			['lean', angle, 'of the coil from square to the arm, either sign'],
		],
		gives: number,
		run: armMotionRatio,
	}),
	row({
		name: 'wheel_rate',
		about: 'Rate of a spring as the wheel feels it.',
		source: leverage,
		example: 'wheel_rate(60000 N/m, 0.55)',
		takes: [['rate', stiffness, 'of the spring'], motionRatio],
		gives: stiffness,
		run: wheelRate,
	}),
	row({
		name: 'coil_length_at_ride',
		about: 'Length of a coil at ride: its free length less what its load presses it.',
		source: leverage,
		example: 'coil_length_at_ride(0.4 m, 60000 N/m, 4000 N, 0.55)',
		takes: [
			['free_length', length, 'with no load'],
			['rate', stiffness, 'of the coil'],
			['wheel_load', force, 'sprung load at this wheel'],
			motionRatio,
		],
		gives: length,
		run: coilLengthAtRide,
	}),
	row({
		name: 'coil_drop',
		about:
			'How much lower the truck stands at this wheel once the coil’s length at ride has changed.',
		source: leverage,
		example: 'coil_drop(0.28 m, 0.25 m, 0.55)',
		takes: [
			['length_before', length, 'coil and spacer at ride before'],
			['length_after', length, 'coil and spacer at ride after'],
			motionRatio,
		],
		gives: length,
		run: coilDrop,
	}),
	row({
		name: 'coil_spacer_rise',
		about: 'What a coil spacer raises the truck by at this wheel.',
		source: leverage,
		example: 'coil_spacer_rise(0.012 m, 0.55)',
		takes: [['thickness', length, 'of the spacer; negative when one is taken out'], motionRatio],
		gives: length,
		run: coilSpacerRise,
	}),
	row({
		name: 'travel_to_coil_bind',
		about: 'Wheel travel from ride until the coils touch; negative when they touch already.',
		source: leverage,
		example: 'travel_to_coil_bind(0.28 m, 0.17 m, 0.55)',
		takes: [
			['length_at_ride', length, 'of the coil'],
			['solid_length', length, 'with all coils touching'],
			motionRatio,
		],
		gives: length,
		run: travelToCoilBind,
	}),
	row({
		name: 'natural_frequency',
		about: 'How often a second a sprung mass bounces on its spring.',
		source: 'one mass on one spring, undamped',
		example: 'natural_frequency(28000 N/m, 380 kg)',
		takes: [
			['rate', stiffness, 'at the wheel'],
			['mass', mass, 'carried by that wheel’s spring'],
		],
		gives: quantity('frequency'),
		run: naturalFrequency,
	}),
	row({
		name: 'coils_there',
		about: 'One, for a front that stands on coils: what is a coil’s figure is multiplied by it.',
		source: 'nothing is said of a coil that is not there',
		example: 'coils_there(true)',
		takes: [['stands', flag, 'whether the front stands on coils']],
		gives: number,
		run: coilsThere,
	}),
	row({
		name: 'beam_camber',
		about: 'Camber that a lower spring gives a wheel on a swing beam; negative leans its top in.',
		source: geometry,
		example: 'beam_camber(0.05 m, 0.86 m)',
		takes: [
			['drop', length, 'by the springs, the frame nearer to the wheel'],
			['beam_length', length, 'pivot in the frame to the middle of the wheel, level'],
		],
		gives: angle,
		run: beamCamber,
	}),
];
