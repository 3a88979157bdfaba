import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
	coverageFactor,
	dialGaugeRepeat,
	floorSlope,
	gaugeBothWays,
	meanReading,
	readingSpread,
	repeatedReadings,
	slopeOfTwoHeights,
	slopeToFloor,
	tapeRepeat,
} from '../../src/lib/mechanics/measuring.ts';
import { degree, gumTemperatures, inch, measuringRows } from './accuracy/standing.ts';

// Without the negative zero, which no gauge reads.
const angle = fc.double({ min: -0.5, max: 0.5, noNaN: true }).map((value) => value + 0);
const small = fc.double({ min: -0.05, max: 0.05, noNaN: true });
const readings = fc.array(fc.double({ min: -2, max: 2, noNaN: true }), {
	minLength: 2,
	maxLength: 12,
});

describe('measuring', () => {
	it.each(measuringRows())('$figure: $against', ({ error, held }) => {
		expect(error).toBeLessThanOrEqual(held);
	});
});

describe('repeated readings', () => {
	it('have no spread when all are alike, to the last bit', () => {
		fc.assert(
			fc.property(angle, fc.integer({ min: 2, max: 20 }), (reading, count) => {
				const taken = repeatedReadings(Array.from({ length: count }, () => reading));
				expect(taken.mean).toBe(reading);
				expect(taken.spread).toBe(0);
				expect(taken.plusMinus).toBe(0);
			}),
		);
	});

	it('move with a shift and stretch with a scale', () => {
		fc.assert(
			fc.property(readings, small, (list, shift) => {
				expect(meanReading(list.map((one) => one + shift))).toBeCloseTo(
					meanReading(list) + shift,
					12,
				);
				expect(readingSpread(list.map((one) => one + shift))).toBeCloseTo(readingSpread(list), 12);
				expect(readingSpread(list.map((one) => -3 * one))).toBeCloseTo(3 * readingSpread(list), 12);
			}),
		);
	});

	it('do not care for their order', () => {
		fc.assert(
			fc.property(readings, (list) => {
				const turned = [...list].reverse();
				expect(meanReading(turned)).toBeCloseTo(meanReading(list), 13);
				expect(readingSpread(turned)).toBeCloseTo(readingSpread(list), 13);
			}),
		);
	});

	it('need the normal 1.960 when there are very many (GUM table G.2, from memory)', () => {
		expect(coverageFactor(10_000)).toBeCloseTo(1.96, 3);
		expect(coverageFactor(9999)).toBeCloseTo(1.96, 3);
	});

	it('need more the more cases are to be covered: 63.66 and 9.92 at 99 % (GUM table G.2, from memory)', () => {
		expect(coverageFactor(1, 0.99)).toBeCloseTo(63.66, 2);
		expect(coverageFactor(2, 0.99)).toBeCloseTo(9.92, 2);
		expect(repeatedReadings(gumTemperatures, 0.99).plusMinus).toBeGreaterThan(
			repeatedReadings(gumTemperatures).plusMinus,
		);
	});

	it('of a dial gauge repeat to ½–1°, of a tape to 1/16–⅛ in (common practice, no source)', () => {
		expect(dialGaugeRepeat.best / degree).toBeCloseTo(0.5, 14);
		expect(dialGaugeRepeat.worst / degree).toBeCloseTo(1, 14);
		expect(tapeRepeat.best / inch).toBeCloseTo(1 / 16, 14);
		expect(tapeRepeat.worst / inch).toBeCloseTo(1 / 8, 14);
		// Three readings as far apart as that: the ± of their mean is by t = 4.303, √3 and the spread.
		const { best } = dialGaugeRepeat;
		const taken = repeatedReadings([5 * degree - best, 5 * degree, 5 * degree + best]);
		expect(taken.plusMinus / degree).toBeCloseTo((4.303 * 0.5) / Math.sqrt(3), 3);
	});

	it('are refused when there are too few', () => {
		expect(() => repeatedReadings([1])).toThrow(/^There is 1 reading; at least 2 are needed/);
		expect(() => meanReading([])).toThrow(/^There are 0 readings; at least 1 is needed/);
	});
});

describe('gauge', () => {
	it('loses its own error when read both ways round', () => {
		fc.assert(
			fc.property(angle, small, (slope, zero) => {
				const found = gaugeBothWays(slope + zero, slope - zero);
				expect(found.slope).toBeCloseTo(slope, 14);
				expect(found.zeroError).toBeCloseTo(zero, 14);
			}),
		);
	});
});

describe('floor and heights', () => {
	it('takes the slope of the floor off, and nothing on a level one', () => {
		fc.assert(
			fc.property(angle, small, (slope, fall) => {
				expect(slopeToFloor(slope, floorSlope(0, 3))).toBe(slope);
				const floor = floorSlope(fall, 3);
				expect(slopeToFloor(slope + floor, floor)).toBeCloseTo(slope, 14);
				expect(slopeToFloor(slopeToFloor(slope, floor / 2), floor / 2)).toBeCloseTo(
					slopeToFloor(slope, floor),
					14,
				);
			}),
		);
		expect(floorSlope(0.03, 3)).toBeCloseTo(0.01, 6);
	});

	it('is the slope of a 3-4-5 triangle', () => {
		expect(slopeOfTwoHeights(3.5, 0.5, 5, false)).toBeCloseTo(Math.atan(3 / 4), 14);
		expect(slopeOfTwoHeights(3.5, 0.5, 4, true)).toBeCloseTo(Math.atan(3 / 4), 14);
		expect(slopeOfTwoHeights(0.5, 0.5, 5, false)).toBe(0);
	});

	it('refuses heights further apart than the shaft is long', () => {
		expect(() => slopeOfTwoHeights(0.9, 0.1, 0.5, false)).toThrow(
			/differ by 800 mm .* only 500 mm/,
		);
	});
});
