import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
	axleLoads,
	settling,
	shareOfChange,
	springOnTyreRate,
} from '../../src/lib/mechanics/load.ts';
import { loadRows } from './accuracy/standing.ts';

const weight = fc.double({ min: -5000, max: 5000, noNaN: true });
const place = fc.double({ min: -2, max: 4, noNaN: true });
const rate = fc.double({ min: 10_000, max: 300_000, noNaN: true });

describe('load', () => {
	it.each(loadRows())('$figure: $against', ({ error, held }) => {
		expect(error).toBeLessThanOrEqual(held);
	});

	it('balances: forces add up to the weight, moments about the load to nothing', () => {
		fc.assert(
			fc.property(weight, place, (newtons, ahead) => {
				const { front, rear } = axleLoads(newtons, ahead, 3);
				expect(front + rear).toBeCloseTo(newtons, 8);
				expect(front * (3 - ahead) - rear * ahead).toBeCloseTo(0, 6);
			}),
		);
	});

	it('behind the rear axle lifts the front', () => {
		const { front, rear } = axleLoads(1000, -0.6, 3);
		expect(front).toBeCloseTo(-200, 10);
		expect(rear).toBeCloseTo(1200, 10);
	});

	it('over the rear axle leaves the front alone', () => {
		expect(axleLoads(1000, 0, 3)).toEqual({ front: 0, rear: 1000 });
	});

	it('of nothing settles nothing; half and half settles as the whole', () => {
		fc.assert(
			fc.property(weight, place, rate, rate, (newtons, ahead, spring, tyre) => {
				const by = (part: number): { front: number; rear: number } =>
					settling(part, ahead, 3, spring, tyre, 2 * spring, tyre);
				expect(Math.abs(by(0).front) + Math.abs(by(0).rear)).toBe(0);
				expect(2 * by(newtons / 2).rear).toBeCloseTo(by(newtons).rear, 12);
				expect(2 * by(newtons / 2).front).toBeCloseTo(by(newtons).front, 12);
			}),
		);
	});

	it('stands softer on a tyre than on either alone, halves of two alike', () => {
		fc.assert(
			fc.property(rate, rate, (spring, tyre) => {
				const both = springOnTyreRate(spring, tyre);
				expect(both).toBeLessThan(Math.min(spring, tyre));
				expect(1 / both).toBeCloseTo(1 / spring + 1 / tyre, 12);
			}),
		);
		expect(springOnTyreRate(40_000, 40_000)).toBe(20_000);
	});
});

describe('share of a measured change', () => {
	it('is what settled over what was measured, with its sign', () => {
		expect(shareOfChange(0.01, 0.04)).toBeCloseTo(0.25, 14);
		expect(shareOfChange(-0.01, 0.04)).toBeCloseTo(-0.25, 14);
		expect(shareOfChange(0, 0.04)).toBe(0);
		expect(shareOfChange(-0.01, -0.04)).toBeCloseTo(0.25, 14);
	});

	it('is refused where nothing changed', () => {
		expect(() => shareOfChange(0.01, 0)).toThrow(
			/^The measured change of height is 0 mm \(0 in\); there is no/,
		);
	});
});
