import fc from 'fast-check';
import { vec3 } from 'gl-matrix';
import { describe, expect, test } from 'vitest';
import { OutOfRange } from '../../src/lib/mechanics/out-of-range.ts';
import {
	angleOfFluctuation,
	greatestAngle,
	greatestJointAcceleration,
	jointAcceleration,
	jointRotation,
	jointSpeedRatio,
	operatingAngle,
	pairSpeedRange,
	pairSpeedRatio,
	rotationOfGreatestAcceleration,
} from '../../src/lib/mechanics/universal-joint.ts';
import { degree, jointRows, rigidShaft } from './accuracy/rotating.ts';

const anyAngle = fc.double({ min: 0, max: greatestAngle, noNaN: true });
const anyTurn = fc.double({ min: -20, max: 20, noNaN: true });

for (const row of jointRows()) {
	test(`${row.figure}, against ${row.against}`, () => {
		expect(row.error).toBeLessThanOrEqual(row.held);
	});
}

describe('operating angle', () => {
	test('in one plane is the difference of the slopes', () => {
		expect(operatingAngle(7 * degree, 5 * degree) / degree).toBeCloseTo(2, 12);
		expect(operatingAngle(-3 * degree, 4 * degree) / degree).toBeCloseTo(7, 12);
		expect(operatingAngle(0.1, 0.1, 0.3, 0.3)).toBe(0);
	});

	test('keeps its figures where a cosine would lose them', () => {
		expect(operatingAngle(1e-9, 0, 0.2, 0.2) / 1e-9).toBeCloseTo(1, 6);
	});

	test('in space agrees with the angle between vectors turned by quaternions (gl-matrix)', () => {
		fc.assert(
			fc.property(anyTurn, anyTurn, anyTurn, anyTurn, (slopeA, slopeB, planA, planB) => {
				// On slopes beyond a full turn the function refuses: 6 rad is within.
				const [a, b, c, d] = [slopeA, slopeB, planA, planB].map((angle) => (angle * 6) / 20);
				const [sa = 0, sb = 0, pa = 0, pb = 0] = [a, b, c, d];
				const wanted = vec3.angle(rigidShaft(sa, pa), rigidShaft(sb, pb));
				// gl-matrix takes an arc cosine, which near 0° and 180° keeps half the figures.
				expect(Math.abs(operatingAngle(sa, sb, pa, pb) - wanted)).toBeLessThan(1e-7);
			}),
		);
	});
});

test('rotation and speed ratio belong together: the one is the slope of the other', () => {
	fc.assert(
		fc.property(fc.double({ min: 0, max: 0.8, noNaN: true }), anyTurn, (angle, rotation) => {
			const wide = (h: number): number =>
				(jointRotation(angle, rotation + h) - jointRotation(angle, rotation - h)) / (2 * h);
			const slope = (4 * wide(1e-3) - wide(2e-3)) / 3;
			expect(Math.abs(slope - jointSpeedRatio(angle, rotation))).toBeLessThan(1e-9);
		}),
	);
});

test('acceleration is the slope of the speed ratio', () => {
	fc.assert(
		fc.property(fc.double({ min: 0, max: 0.8, noNaN: true }), anyTurn, (angle, rotation) => {
			const wide = (h: number): number =>
				(jointSpeedRatio(angle, rotation + h) - jointSpeedRatio(angle, rotation - h)) / (2 * h);
			const slope = (4 * wide(1e-3) - wide(2e-3)) / 3;
			expect(Math.abs(slope - jointAcceleration(angle, rotation, 1))).toBeLessThan(1e-8);
		}),
	);
});

test('no rotation gives more than the greatest acceleration', () => {
	fc.assert(
		fc.property(anyAngle, anyTurn, (angle, rotation) => {
			const peak = greatestJointAcceleration(angle, 100);
			expect(Math.abs(jointAcceleration(angle, rotation, 100))).toBeLessThanOrEqual(
				peak * (1 + 1e-9),
			);
		}),
	);
	expect(rotationOfGreatestAcceleration(0)).toBe(Math.PI / 4);
});

test('the ratio runs between cos β and 1/cos β', () => {
	fc.assert(
		fc.property(anyAngle, anyTurn, (angle, rotation) => {
			const ratio = jointSpeedRatio(angle, rotation);
			expect(ratio).toBeGreaterThanOrEqual(Math.cos(angle) * (1 - 1e-12));
			expect(ratio).toBeLessThanOrEqual((1 / Math.cos(angle)) * (1 + 1e-12));
		}),
	);
	expect(jointSpeedRatio(0.3, 0)).toBeCloseTo(1 / Math.cos(0.3), 14);
	expect(jointSpeedRatio(0.3, Math.PI / 2)).toBeCloseTo(Math.cos(0.3), 14);
});

test('a pair with equal angles and yokes in line turns steadily', () => {
	fc.assert(
		fc.property(fc.double({ min: 0, max: 1, noNaN: true }), anyTurn, (angle, rotation) => {
			expect(pairSpeedRatio(angle, angle, rotation, 0)).toBeCloseTo(1, 12);
		}),
	);
	expect(pairSpeedRange(0.1, 0.1, 0)).toEqual({ lowest: 1, highest: 1 });
});

test('the range of a pair is what a fine grid over the turn finds', () => {
	const small = fc.double({ min: 0, max: 0.5, noNaN: true });
	fc.assert(
		fc.property(small, small, anyTurn, (front, rear, phase) => {
			const range = pairSpeedRange(front, rear, phase);
			const grid = Array.from({ length: 1000 }, (_, step) =>
				pairSpeedRatio(front, rear, (step * Math.PI) / 1000, phase),
			);
			const found = { lowest: Math.min(...grid), highest: Math.max(...grid) };
			// The grid can only fall short, by the square of half its step.
			expect(found.lowest).toBeGreaterThanOrEqual(range.lowest - 1e-12);
			expect(found.highest).toBeLessThanOrEqual(range.highest + 1e-12);
			expect(found.lowest - range.lowest).toBeLessThan(3e-6);
			expect(range.highest - found.highest).toBeLessThan(3e-6);
		}),
		{ numRuns: 50 },
	);
});

test('the angle of a fluctuation has that fluctuation', () => {
	fc.assert(
		fc.property(fc.double({ min: 1e-12, max: 50, noNaN: true }), (fluctuation) => {
			const angle = angleOfFluctuation(fluctuation);
			// sin β tan β is 1/cos β − cos β without the cancelling.
			expect((Math.sin(angle) * Math.tan(angle)) / fluctuation).toBeCloseTo(1, 9);
		}),
	);
});

test('every fair angle is answered, up to the last one', () => {
	expect(jointSpeedRatio(greatestAngle, 0)).toBeCloseTo(1 / Math.cos(greatestAngle), 6);
	expect(() => jointSpeedRatio(90 * degree, 0)).toThrow(OutOfRange);
	expect(() => jointSpeedRatio(-0.1, 0)).toThrow(/operating angle/);
});
