import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { axleOnSeat, springAtAxleRise } from '../../src/lib/mechanics/axle.ts';
import {
	leafSpring,
	springAtLoad,
	springMount,
	springMountMoved,
	springPose,
} from '../../src/lib/mechanics/leaf-spring.ts';
import { OutOfRange } from '../../src/lib/mechanics/out-of-range.ts';
import { shackleAngle, shackleLimits } from '../../src/lib/mechanics/shackle.ts';
import { degree, inch, layoutA, layoutB, layoutTooLong, shackleRows } from './accuracy/standing.ts';

const layouts = [
	['A', layoutA()],
	['B', layoutB()],
	['too long a leaf', layoutTooLong()],
] as const;

describe('shackle angle', () => {
	it('is upright, a quarter turn from level, with the rear eye straight under the pivot', () => {
		const leaf = leafSpring(24 * inch, 30 * inch, 28_000);
		const flat = springPose(leaf, springMount(54 * inch, 5 * inch, 5 * inch, false), 0);
		const mount = springMount(54 * inch, 5 * inch, 5 * inch, false);
		const angle = shackleAngle(mount, flat);
		expect(angle.lean).toBeCloseTo(0, 12);
		expect(angle.fromLevel).toBeCloseTo(Math.PI / 2, 12);
		expect(angle.toChord).toBeCloseTo(Math.PI / 2, 12);
	});

	it('is what a gauge would read between the two eyes', () => {
		for (const [, { mount, rest }] of layouts) {
			const back = mount.pivotX - rest.rearEyeX;
			const up = Math.abs(mount.pivotZ - rest.rearEyeZ);
			expect(shackleAngle(mount, rest).lean).toBeCloseTo(Math.atan(back / up), 12);
			expect(shackleAngle(mount, rest).fromLevel).toBeCloseTo(Math.atan2(up, Math.abs(back)), 12);
		}
	});
});

describe('where the shackle goes over centre', () => {
	it.each(shackleRows())('$figure: $against', ({ error, held }) => {
		expect(error).toBeLessThanOrEqual(held);
	});

	it.each(layouts)(
		'lets the axle go nearly there and no further on layout %s',
		(_, { leaf, mount, rest, seatToAxle }) => {
			const limits = shackleLimits(leaf, mount, rest, seatToAxle, 0);
			for (const rise of [limits.bumpTravel, -limits.droopTravel]) {
				const near = springAtAxleRise(leaf, mount, rest, seatToAxle, 0, 0.9 * rise);
				const from = axleOnSeat(rest, seatToAxle, 0).z;
				expect(axleOnSeat(near, seatToAxle, 0).z - from).toBeCloseTo(0.9 * rise, 9);
				expect(() =>
					springAtAxleRise(leaf, mount, rest, seatToAxle, 0, rise + Math.sign(rise) * 1e-3),
				).toThrow(OutOfRange);
			}
		},
	);

	it('folds a leaf that is too long back on its shackle in bump', () => {
		const { leaf, mount, rest } = layoutTooLong();
		const limits = shackleLimits(leaf, mount, rest, 0, 0);
		expect(limits.bumpInLine).toBe(true);
		// In line is angle zero: all of what the angle is now is left to swing.
		expect(limits.bumpSwing).toBeCloseTo(shackleAngle(mount, rest).toChord, 5);
		const across = Math.hypot(mount.pivotX, mount.pivotZ);
		const folded = across + mount.shackleLength;
		expect(folded).toBeLessThan(leaf.length);
	});

	it('does not come in line where the axle stands still before', () => {
		const { leaf, mount, rest, seatToAxle } = layoutA();
		const limits = shackleLimits(leaf, mount, rest, seatToAxle, 0);
		expect(limits.droopInLine).toBe(false);
		expect(limits.droopSwing).toBeLessThan(Math.PI - shackleAngle(mount, rest).toChord);
	});

	it.each(layouts)(
		'is the same limit whatever pose it is looked for from, on layout %s',
		(_, { leaf, mount, rest, seatToAxle }) => {
			const limits = shackleLimits(leaf, mount, rest, seatToAxle, 0);
			fc.assert(
				fc.property(fc.double({ min: -0.08, max: 0.08, noNaN: true }), (rise) => {
					fc.pre(rise < 0.9 * limits.bumpTravel && -rise < 0.9 * limits.droopTravel);
					const moved = springAtAxleRise(leaf, mount, rest, seatToAxle, 0, rise);
					const from = shackleLimits(leaf, mount, moved, seatToAxle, 0);
					expect(from.bumpTravel).toBeCloseTo(limits.bumpTravel - rise, 6);
					expect(from.droopTravel).toBeCloseTo(limits.droopTravel + rise, 6);
				}),
				{ numRuns: 30 },
			);
		},
	);

	it.each(layouts)(
		'tells the swing to where the axle stands still on layout %s',
		(_, { leaf, mount, rest, seatToAxle }) => {
			const limits = shackleLimits(leaf, mount, rest, seatToAxle, 0);
			const sides = [
				{ bend: -1, inLine: limits.bumpInLine, travel: limits.bumpTravel, swing: limits.bumpSwing },
				{
					bend: 1,
					inLine: limits.droopInLine,
					travel: limits.droopTravel,
					swing: limits.droopSwing,
				},
			];
			const still = sides.filter(({ inLine }) => !inLine);
			expect(still).toHaveLength(1);
			const from = axleOnSeat(rest, seatToAxle, 0).z;
			for (const { bend, travel, swing } of still) {
				// Curvature marched in small steps until the axle comes back.
				let [farthest, there] = [0, rest];
				for (let step = 1; ; step++) {
					const pose = springPose(leaf, mount, rest.curvature + bend * step * 1e-5);
					const gone = -bend * (axleOnSeat(pose, seatToAxle, 0).z - from);
					if (gone < farthest) break;
					[farthest, there] = [gone, { ...rest, ...pose }];
				}
				expect(Math.abs(travel - farthest)).toBeLessThan(1e-9);
				const turned = shackleAngle(mount, there).toChord - shackleAngle(mount, rest).toChord;
				expect(Math.abs(swing - Math.abs(turned))).toBeLessThan(1e-4);
			}
		},
	);

	it.each(layouts)(
		'moves a little for a little on layout %s',
		(_, { leaf, mount, rest, seatToAxle }) => {
			const limits = shackleLimits(leaf, mount, rest, seatToAxle, 0);
			for (const step of [1e-3, -1e-3, 1e-4, 1e-6]) {
				const moved = springMountMoved(mount, -step, step, step, step, step);
				const there = springAtLoad(leaf, moved, rest, rest.load);
				const after = shackleLimits(leaf, moved, there, seatToAxle, 0);
				const most = 10 * Math.abs(step);
				expect(Math.abs(after.bumpTravel - limits.bumpTravel)).toBeLessThan(most);
				expect(Math.abs(after.droopTravel - limits.droopTravel)).toBeLessThan(most);
				expect([after.bumpInLine, after.droopInLine]).toEqual([
					limits.bumpInLine,
					limits.droopInLine,
				]);
			}
		},
	);

	it('does not care where on the frame the whole spring sits', () => {
		const { leaf, mount, rest, seatToAxle } = layoutB();
		const moved = springMountMoved(mount, 0.2, -0.3, 0.2, -0.3, 0);
		const here = shackleLimits(leaf, mount, rest, seatToAxle, 2 * degree);
		const there = shackleLimits(leaf, moved, rest, seatToAxle, 2 * degree);
		expect(there.bumpTravel).toBeCloseTo(here.bumpTravel, 9);
		expect(there.droopTravel).toBeCloseTo(here.droopTravel, 9);
	});

	it('names the seat and the wedge it cannot use, the angle in degrees', () => {
		const { leaf, mount, rest } = layoutA();
		expect(() => shackleLimits(leaf, mount, rest, NaN, 0)).toThrow(
			/^The distance from seat to axle centre is NaN mm/,
		);
		expect(() => shackleLimits(leaf, mount, rest, 0, 100 * degree)).toThrow(
			/^The wedge angle is 100°; it has to be between -90° and 90°\./,
		);
	});
});
