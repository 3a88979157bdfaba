import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { axleOnSeat, springAtAxleRise } from '../../src/lib/mechanics/axle.ts';
import {
	leafSpring,
	springAtArch,
	springMount,
	springMountMoved,
	springPose,
} from '../../src/lib/mechanics/leaf-spring.ts';
import { OutOfRange } from '../../src/lib/mechanics/out-of-range.ts';
import { shackleAngle, shackleLimits } from '../../src/lib/mechanics/shackle.ts';
import { withstandsAbsurdArguments } from './absurd.ts';
import { degree, inch, layoutA, layoutB, layoutTooLong, shackleRows } from './accuracy/standing.ts';

const layouts = [
	['A', layoutA()],
	['B', layoutB()],
	['too long a leaf', layoutTooLong()],
] as const;

describe('shackle angle', () => {
	it.each(layouts)('agrees with the law of cosines on layout %s', (_, { mount, rest }) => {
		const across = Math.hypot(mount.pivotX - mount.eyeX, mount.pivotZ - mount.eyeZ);
		const { chord } = rest;
		const { shackleLength } = mount;
		const cos = (chord ** 2 + shackleLength ** 2 - across ** 2) / (2 * chord * shackleLength);
		expect(shackleAngle(mount, rest).toChord).toBeCloseTo(Math.acos(cos), 10);
	});

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

	it('does not care where on the frame the whole spring sits', () => {
		const { leaf, mount, rest, seatToAxle } = layoutB();
		const moved = springMountMoved(mount, 0.2, -0.3, 0.2, -0.3, 0);
		const here = shackleLimits(leaf, mount, rest, seatToAxle, 2 * degree);
		const there = shackleLimits(leaf, moved, rest, seatToAxle, 2 * degree);
		expect(there.bumpTravel).toBeCloseTo(here.bumpTravel, 9);
		expect(there.droopTravel).toBeCloseTo(here.droopTravel, 9);
	});
});

describe('absurd arguments', () => {
	it('are withstood', () => {
		withstandsAbsurdArguments(
			(
				front = 0,
				rear = 0,
				rate = 0,
				across = 0,
				up = 0,
				shackle = 0,
				arch = 0,
				load = 0,
				seatToAxle = 0,
				wedge = 0,
			) => {
				const leaf = leafSpring(front, rear, rate);
				const mount = springMount(across, up, shackle, false);
				const rest = springAtArch(leaf, mount, arch, load);
				return {
					...shackleAngle(mount, rest),
					...shackleLimits(leaf, mount, rest, seatToAxle, wedge),
				};
			},
			[0.61, 0.76, 28_000, 1.36, 0.117, 0.127, 0.089, 3800, -0.076, 0.02],
		);
	});

	it('of the seat and the wedge are named', () => {
		const { leaf, mount, rest } = layoutA();
		expect(() => shackleLimits(leaf, mount, rest, NaN, 0)).toThrow(
			/^The distance from seat to axle centre is NaN m/,
		);
		expect(() => shackleLimits(leaf, mount, rest, 0, 1e300)).toThrow(/^The wedge angle is 1e\+300/);
	});
});
