/** What a truck may still carry: what a tyre bears, and what plate, axle and place of the load leave. SI. */
import { OutOfRange, plain, within } from './out-of-range.ts';

/** Standard gravity, m/s². NIST SP 811. */
const gravity = 9.80665;

const firstIndex = 70;
/** What one tyre may carry by its load index, kg, from index 70 on. ISO 4223-1 (from memory). */
const byIndex: readonly number[] = [
	...[335, 345, 355, 365, 375, 387, 400, 412, 425, 437],
	...[450, 462, 475, 487, 500, 515, 530, 545, 560, 580],
	...[600, 615, 630, 650, 670, 690, 710, 730, 750, 775],
	...[800, 825, 850, 875, 900, 925, 950, 975, 1000, 1030],
	...[1060, 1090, 1120, 1150, 1180, 1215, 1250, 1285, 1320, 1360],
	...[1400, 1450, 1500, 1550, 1600, 1650, 1700, 1750, 1800, 1850],
	1900,
];

/**
 * What one tyre may carry by the load index on its sidewall, N, at the pressure that goes with it.
 * @param index a whole number from 70 to 130, 98 of 98T
 * @throws OutOfRange for an index that is not in the table
 */
export function tyreLoadOfIndex(index: number): number {
	const mass = byIndex[index - firstIndex];
	if (mass === undefined) {
		throw new OutOfRange(
			`The load index is ${plain(index)}; the table has whole numbers from ${plain(firstIndex)} to ${plain(firstIndex + byIndex.length - 1)}. Read the sidewall again, or enter the load it states.`,
		);
	}
	return mass * gravity;
}

/** What may still be put on. */
export interface PayloadLeft {
	/** N; negative: over by that much already. */
	payload: number;
	/** Of what is put on, the share that the rear axle carries. */
	rearShare: number;
	/** True when the rear axle is at its limit before the whole truck is. */
	rearFirst: boolean;
}

/**
 * The most that may be put on at one place: the whole truck and its rear axle each keep within theirs.
 * Moments about the front axle: the rear takes 1 − ahead/wheelbase of it.
 * @param grossLeft what the whole truck may still take, N; negative: over
 * @param rearLeft what its rear axle may still take, N; negative: over
 * @param ahead middle of the load ahead of the rear axle, m; negative behind it
 * @param wheelbase m
 * @throws OutOfRange for a load as far forward as the front axle
 */
export function payloadLeft(
	grossLeft: number,
	rearLeft: number,
	ahead: number,
	wheelbase: number,
): PayloadLeft {
	within('What the whole truck may still take', grossLeft, -1e6, 1e6, 'N');
	within('What the rear axle may still take', rearLeft, -1e6, 1e6, 'N');
	within('The wheelbase', wheelbase, 0.5, 20, 'm');
	within('The distance of the load ahead of the rear axle', ahead, -10, 0.9 * wheelbase, 'm');
	const rearShare = 1 - ahead / wheelbase;
	const byRear = rearLeft / rearShare;
	return { payload: Math.min(grossLeft, byRear), rearShare, rearFirst: byRear < grossLeft };
}
