/** Rows of what the truck may still carry. */
import { payloadLeft, tyreLoadOfIndex, type PayloadLeft } from '../../mechanics/payload.ts';
import { flag, record, row, type WorksheetFunction } from '../../language/function-row.ts';
import { force, length, number } from './kinds.ts';

const left = record<PayloadLeft>('payload left', {
	payload: ['payload', force, 'that may still be put on; negative: over by that much'],
	rear_share: ['rearShare', number, 'of what is put on, the share that the rear axle carries'],
	rear_first: ['rearFirst', flag, 'whether the rear axle is at its limit before the whole truck'],
});

export const payloadFunctions: readonly WorksheetFunction[] = [
	row({
		name: 'tyre_load_of_index',
		about: 'What one tyre may carry by the load index on its sidewall.',
		source: 'ISO 4223-1 (from memory)',
		example: 'tyre_load_of_index(98)',
		takes: [['index', number, '98 of 98T; a whole number from 70 to 130']],
		gives: force,
		run: tyreLoadOfIndex,
	}),
	row({
		name: 'payload_left',
		about: 'The most that may still be put on at one place of the bed.',
		source: 'moments about the front axle',
		example: 'payload_left(4500 N, 3800 N, 0.2 m, 2.9 m)',
		takes: [
			['gross_left', force, 'what the whole truck may still take; negative: over'],
			['rear_left', force, 'what its rear axle may still take; negative: over'],
			['ahead', length, 'middle of the load ahead of the rear axle; negative behind it'],
			['wheelbase', length, 'front axle to rear axle'],
		],
		gives: left,
		run: payloadLeft,
	}),
];
