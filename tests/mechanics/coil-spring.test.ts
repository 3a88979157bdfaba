import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
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
} from '../../src/lib/mechanics/coil-spring.ts';
import { coilRows, inch, pound, poundForce } from './accuracy/standing.ts';

const rate = fc.double({ min: 20_000, max: 200_000, noNaN: true });
const ratio = fc.double({ min: 0.4, max: 1, noNaN: true });
const coils = fc.double({ min: 5, max: 12, noNaN: true });
const trim = fc.double({ min: 0, max: 2, noNaN: true });

describe('coil spring', () => {
	it.each(coilRows())('$figure: $against', ({ error, held }) => {
		expect(error).toBeLessThanOrEqual(held);
	});

	it('trims to the rate of a spring wound with fewer coils', () => {
		fc.assert(
			fc.property(coils, trim, (active, off) => {
				expect(
					trimmedCoilRate(coilRate(0.016, 0.13, active), active, off) /
						coilRate(0.016, 0.13, active - off),
				).toBeCloseTo(1, 12);
			}),
		);
	});

	it('trims in two cuts as in one, and not at all by nothing', () => {
		fc.assert(
			fc.property(rate, coils, trim, (stock, active, off) => {
				expect(trimmedCoilRate(stock, active, 0)).toBeCloseTo(stock, 8);
				expect(trimmedCoilFreeLength(0.4, active, 0, 0.016)).toBe(0.4);
				const once = trimmedCoilRate(stock, active, off / 2);
				expect(
					trimmedCoilRate(once, active - off / 2, off / 2) / trimmedCoilRate(stock, active, off),
				).toBeCloseTo(1, 12);
				const shorter = trimmedCoilFreeLength(0.4, active, off / 2, 0.016);
				expect(trimmedCoilFreeLength(shorter, active - off / 2, off / 2, 0.016)).toBeCloseTo(
					trimmedCoilFreeLength(0.4, active, off, 0.016),
					12,
				);
			}),
		);
	});

	it('keeps its pitch when trimmed', () => {
		const before = (0.4 - 0.016) / 8;
		const after = (trimmedCoilFreeLength(0.4, 8, 1.5, 0.016) - 0.016) / 6.5;
		expect(after).toBeCloseTo(before, 14);
	});

	it('refuses a trim that leaves no coil and a coil no wider than its wire', () => {
		expect(() => trimmedCoilRate(60_000, 7, 7)).toThrow(/^The coils trimmed off are 7 of 7 active/);
		expect(() => coilRate(0.016, 0.012, 7)).toThrow(/mean coil diameter is 12 mm .* wire 16 mm/);
	});

	it('stands solid on all its coils (EN 13906-1, from memory)', () => {
		expect(coilSolidLength(0.016, 9, true)).toBeCloseTo(0.144, 14);
		expect(coilSolidLength(0.016, 9, false)).toBeCloseTo(0.168, 14);
	});
});

describe('coil at the wheel', () => {
	it('has the wheel rate a small change of load shows, by difference', () => {
		fc.assert(
			fc.property(rate, ratio, (stock, motion) => {
				const sinks = coilDrop(
					coilLengthAtRide(0.4, stock, 1500, motion),
					coilLengthAtRide(0.4, stock, 1501, motion),
					motion,
				);
				expect(wheelRate(stock, motion) * sinks).toBeCloseTo(1, 8);
			}),
		);
	});

	it('sinks by free length and rate together when trimmed', () => {
		const before = coilLengthAtRide(0.4, 60_000, 5000, 0.58);
		const stiffer = trimmedCoilRate(60_000, 8, 1);
		const shorter = trimmedCoilFreeLength(0.4, 8, 1, 0.016);
		const after = coilLengthAtRide(shorter, stiffer, 5000, 0.58);
		// A coil pressed shorter has so much less height in the coil cut off: its pitch under load.
		const pressedPitch = (before - 0.016) / 8;
		expect(before - after).toBeCloseTo(pressedPitch, 12);
		expect(coilDrop(before, after, 0.58)).toBeCloseTo(pressedPitch / 0.58, 12);
	});

	it('is raised by a spacer as by as much more coil', () => {
		fc.assert(
			fc.property(ratio, trim, (motion, thick) => {
				expect(coilSpacerRise(thick / 40, motion)).toBeCloseTo(
					-coilDrop(0.3, 0.3 + thick / 40, motion),
					12,
				);
			}),
		);
		expect(coilDrop(0.3, 0.3, 0.6)).toBe(0);
	});

	it('binds after the travel that presses it solid', () => {
		const travel = travelToCoilBind(0.26, 0.16, 0.5);
		expect(travel).toBeCloseTo(0.2, 14);
		expect(coilDrop(0.26, 0.16, 0.5)).toBeCloseTo(travel, 14);
		expect(travelToCoilBind(0.15, 0.16, 0.5)).toBeLessThan(0);
	});

	it('swings as its static deflection says, in pounds and inches (units: NIST SP 811)', () => {
		// 100 lb on 100 lbf/in sinks an inch of standard gravity: f = √(g / 1 in) / 2π.
		const frequency = naturalFrequency((100 * poundForce) / inch, 100 * pound);
		expect(frequency).toBeCloseTo(Math.sqrt(9.80665 / 0.0254) / (2 * Math.PI), 12);
	});

	it('refuses a load that would press it to nothing', () => {
		expect(() => coilLengthAtRide(0.1, 20_000, 5000, 0.5)).toThrow(
			/^The coil is 100 mm .* load of 5000 N \(1124 lbf\) at the wheel would press it 500 mm/,
		);
	});
});

describe('other fronts', () => {
	it('leans a wheel on a swing beam as the beam turns, point by point', () => {
		for (const drop of [-0.04, 0.02, 0.05, 0.1]) {
			// Pivot at the origin, a beam of 0.86 m turned until its wheel stands higher by the drop.
			let turn = 0;
			while (Math.abs(0.86 * Math.sin(turn) - drop) > 1e-9) {
				turn += (drop - 0.86 * Math.sin(turn)) / 0.86;
			}
			// Two places of the wheel's upright, one above the other before, both carried round with the beam.
			const carried = (x: number, z: number) => ({
				x: x * Math.cos(turn) - z * Math.sin(turn),
				z: x * Math.sin(turn) + z * Math.cos(turn),
			});
			const [low, high] = [carried(0.86, -0.3), carried(0.86, 0.3)];
			// Outward is +x: a top that has come in leans by a negative camber.
			const camber = Math.atan2(high.x - low.x, high.z - low.z);
			expect(beamCamber(drop, 0.86)).toBeCloseTo(camber, 8);
		}
	});

	it('says nothing of a coil that is not there', () => {
		expect(coilsThere(true)).toBe(1);
		expect(() => coilsThere(false)).toThrow(/stands on 0 coils/);
	});
});
