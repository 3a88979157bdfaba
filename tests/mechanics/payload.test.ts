import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { axleLoads } from '../../src/lib/mechanics/load.ts';
import { payloadLeft, tyreLoadOfIndex } from '../../src/lib/mechanics/payload.ts';

const gravity = 9.80665;

describe('load index', () => {
	it('goes up by a factor of ten in eighty steps, 45 kg at nought, as the series it is rounded from', () => {
		for (let index = 70; index <= 130; index++) {
			// Rounded to what can be printed: up to three per cent below the series, one above.
			const series = 45 * 10 ** (index / 80);
			const share = tyreLoadOfIndex(index) / gravity / series;
			expect(share, String(index)).toBeGreaterThan(0.97);
			expect(share, String(index)).toBeLessThan(1.01);
		}
	});

	it('grows with every step, by no less than two per cent and no more than four', () => {
		for (let index = 71; index <= 130; index++) {
			const step = tyreLoadOfIndex(index) / tyreLoadOfIndex(index - 1);
			expect(step, String(index)).toBeGreaterThan(1.02);
			expect(step, String(index)).toBeLessThan(1.04);
		}
	});

	it('has what is printed beside it on a sidewall', () => {
		// 98 is 1653 lb on the sidewalls of American tyres; NIST SP 811 for the pound.
		expect(tyreLoadOfIndex(98) / gravity / 0.45359237).toBeCloseTo(1653, 0);
		expect(tyreLoadOfIndex(115) / gravity / 0.45359237).toBeCloseTo(2679, 0);
	});

	it('refuses what is not in the table', () => {
		expect(() => tyreLoadOfIndex(98.5)).toThrow(/load index is 98.5/);
		expect(() => tyreLoadOfIndex(245)).toThrow(/load index is 245/);
	});
});

describe('payload', () => {
	const some = fc.double({ min: -3000, max: 9000, noNaN: true });
	const place = fc.double({ min: -1.2, max: 1.5, noNaN: true });

	it('is the most there is: put on, one limit is met and the other kept, by the loads at both axles', () => {
		fc.assert(
			fc.property(some, some, place, (gross, rear, ahead) => {
				const { payload, rearFirst, rearShare } = payloadLeft(gross, rear, ahead, 2.9);
				const on = axleLoads(payload, ahead, 2.9);
				expect(on.rear).toBeCloseTo(payload * rearShare, 6);
				expect(on.front + on.rear).toBeLessThanOrEqual(gross + 1e-6);
				expect(on.rear).toBeLessThanOrEqual(rear + 1e-6);
				const least = rearFirst ? rear - on.rear : gross - (on.front + on.rear);
				expect(least).toBeCloseTo(0, 6);
			}),
		);
	});

	it('behind the axle counts for more than it weighs', () => {
		// 600 N may come on the rear axle; 0.58 m behind it a load of 500 N brings them.
		expect(payloadLeft(5000, 600, -0.58, 2.9).payload).toBeCloseTo(500, 9);
	});
});
