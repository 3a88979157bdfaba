import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
	leafPackRate,
	leavesTakenOut,
	springSteelModulus,
} from '../../src/lib/mechanics/leaf-pack.ts';
import { leafSpring } from '../../src/lib/mechanics/leaf-spring.ts';
import { leafPackRows } from './accuracy/standing.ts';

const half = fc.double({ min: 0.4, max: 0.9, noNaN: true });
const full = fc.integer({ min: 1, max: 3 });
const graduated = fc.integer({ min: 0, max: 9 });

describe('leaf pack', () => {
	it.each(leafPackRows())('$figure: $against', ({ error, held }) => {
		expect(error).toBeLessThanOrEqual(held);
	});

	it('has the bending stiffness leaf-spring.ts works back to: E b t³ (2 n_g + 3 n_f) / 24', () => {
		fc.assert(
			fc.property(half, half, full, graduated, (front, rear, fullLength, shorter) => {
				const rate = leafPackRate(front, rear, 0.0635, 0.008, fullLength, shorter);
				const stiffness =
					(springSteelModulus * 0.0635 * 0.008 ** 3 * (2 * shorter + 3 * fullLength)) / 24;
				expect(leafSpring(front, rear, rate).stiffness / stiffness).toBeCloseTo(1, 10);
			}),
		);
	});

	it('does not care which half is in front, and is softest with halves alike', () => {
		fc.assert(
			fc.property(half, half, (front, rear) => {
				const rate = leafPackRate(front, rear, 0.0635, 0.008, 2, 4);
				expect(leafPackRate(rear, front, 0.0635, 0.008, 2, 4) / rate).toBeCloseTo(1, 12);
				const alike = (front + rear) / 2;
				expect(leafPackRate(alike, alike, 0.0635, 0.008, 2, 4)).toBeLessThanOrEqual(
					rate * (1 + 1e-12),
				);
			}),
		);
	});
});

describe('leaves taken out', () => {
	it('change nothing when none is', () => {
		expect(leavesTakenOut(28_000, 3800, 1, 4, 0)).toEqual({ rate: 28_000, share: 1, drop: 0 });
	});

	it('leave the rate of the pack without them', () => {
		fc.assert(
			fc.property(half, full, fc.integer({ min: 1, max: 9 }), (span, fullLength, shorter) => {
				const pack = (count: number): number =>
					leafPackRate(span, span, 0.0635, 0.008, fullLength, count);
				const left = leavesTakenOut(pack(shorter), 3800, fullLength, shorter, 1);
				expect(left.rate / pack(shorter - 1)).toBeCloseTo(1, 12);
				expect(left.drop).toBeGreaterThan(0);
				// The load goes into the softer spring by so much more.
				expect(left.drop).toBeCloseTo(3800 / pack(shorter - 1) - 3800 / pack(shorter), 10);
			}),
		);
	});

	it('come to the same one by one as together', () => {
		const first = leavesTakenOut(28_000, 3800, 1, 5, 1);
		const second = leavesTakenOut(first.rate, 3800, 1, 4, 1);
		const both = leavesTakenOut(28_000, 3800, 1, 5, 2);
		expect(second.rate).toBeCloseTo(both.rate, 8);
		expect(first.drop + second.drop).toBeCloseTo(both.drop, 12);
	});

	it('are refused when there are not so many, or not whole', () => {
		expect(() => leavesTakenOut(28_000, 3800, 1, 3, 4)).toThrow(
			/^The number of leaves taken out is 4 leaves; it has to be between 0 and 3/,
		);
		expect(() => leavesTakenOut(28_000, 3800, 0, 3, 3)).toThrow(
			/^The number of all leaves is 0 leaves/,
		);
		expect(() => leavesTakenOut(28_000, 3800, 1, 3.5, 1)).toThrow(
			/is 3.5; leaves are counted whole/,
		);
	});
});
