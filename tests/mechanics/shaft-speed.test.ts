import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { OutOfRange } from '../../src/lib/mechanics/out-of-range.ts';
import {
	driveshaftSpeed,
	driveshaftSpeedFromEngine,
	engineSpeed,
	inertiaLimit,
	largestAngle,
	leastAngle,
	relativeJointLife,
	roadSpeedLimit,
	roadSpeedOfShaft,
	rollerLifeExponent,
	ruleOfThumb,
	ruleOfThumbAngle,
} from '../../src/lib/mechanics/shaft-speed.ts';
import {
	greatestAngle,
	greatestJointAcceleration,
} from '../../src/lib/mechanics/universal-joint.ts';
import { degree, revPerMin, speedRows } from './accuracy/rotating.ts';

for (const row of speedRows()) {
	test(`${row.figure}, against ${row.against}`, () => {
		expect(row.error).toBeLessThanOrEqual(row.held);
	});
}

test('road speed and shaft speed, engine and shaft, undo one another', () => {
	const shaft = driveshaftSpeed(27, 0.35, 3.55);
	expect(roadSpeedOfShaft(shaft, 0.35, 3.55)).toBeCloseTo(27, 12);
	expect(driveshaftSpeedFromEngine(engineSpeed(shaft, 0.7), 0.7)).toBeCloseTo(shaft, 12);
	expect(engineSpeed(shaft, 0.7)).toBeLessThan(shaft);
	expect(driveshaftSpeed(0, 0.35, 3.55)).toBe(0);
});

describe('largest operating angle', () => {
	test('has (β ω)² at the limit', () => {
		const angle = largestAngle(300, inertiaLimit);
		expect((angle * 300) ** 2).toBeCloseTo(inertiaLimit, 9);
	});

	test('small angles: it is the exact peak of the joint', () => {
		const angle = largestAngle(500, inertiaLimit);
		expect(Math.abs(greatestJointAcceleration(angle, 500) / inertiaLimit - 1)).toBeLessThan(0.005);
	});

	test('standing still any angle a joint turns at will do', () => {
		expect(largestAngle(0, inertiaLimit)).toBe(greatestAngle);
		expect(() => greatestJointAcceleration(largestAngle(0, inertiaLimit), 1)).not.toThrow();
	});

	test.each(ruleOfThumb)(
		'table at %d rev/min is %d° (common practice, no source)',
		(speed, angle) => {
			expect(ruleOfThumbAngle(speed * revPerMin) / degree).toBeCloseTo(angle, 10);
		},
	);

	test('the ends of the table hold for a speed that misses them in the last place', () => {
		expect(ruleOfThumbAngle(1500 * revPerMin * (1 - 1e-12)) / degree).toBeCloseTo(11.5, 9);
		expect(ruleOfThumbAngle(5000 * revPerMin * (1 + 1e-12)) / degree).toBeCloseTo(3.25, 9);
	});

	test.each([1499, 5001, 0, -3000, NaN])('the table refuses %d rev/min', (speed) => {
		expect(() => ruleOfThumbAngle(speed * revPerMin)).toThrow(OutOfRange);
	});

	test('3° or less, a smooth road shaft, is borne at every speed of the table (common practice, no source)', () => {
		for (const [speed] of ruleOfThumb) {
			expect(ruleOfThumbAngle(speed * revPerMin)).toBeGreaterThan(3 * degree);
			expect(largestAngle(speed * revPerMin, inertiaLimit)).toBeGreaterThan(3 * degree);
		}
	});

	test('half way between two rows the product of angle and speed is half way too', () => {
		for (const [row, [high, highAngle]] of ruleOfThumb.slice(1).entries()) {
			const [low, lowAngle] = ruleOfThumb[row] ?? [NaN, NaN];
			const middle = (low + high) / 2;
			const product = (ruleOfThumbAngle(middle * revPerMin) / degree) * middle;
			expect(product).toBeCloseTo((low * lowAngle + high * highAngle) / 2, 8);
		}
	});

	test('the table falls all the way', () => {
		for (let speed = 1500; speed < 5000; speed += 7) {
			const here = ruleOfThumbAngle(speed * revPerMin);
			expect(ruleOfThumbAngle((speed + 7) * revPerMin)).toBeLessThan(here);
		}
	});
});

test('at the road speed limit of an angle that angle is the largest one', () => {
	const angle = 4 * degree;
	const limit = roadSpeedLimit(angle, 0.35, 3.55, inertiaLimit);
	expect(largestAngle(driveshaftSpeed(limit, 0.35, 3.55), inertiaLimit)).toBeCloseTo(angle, 12);
	expect(() => roadSpeedLimit(0, 0.35, 3.55, inertiaLimit)).toThrow(/no road speed is too much/);
});

test('each joint runs at least half a degree (common practice, no source)', () => {
	expect(leastAngle / degree).toBeCloseTo(0.5, 14);
});

describe('life of a joint', () => {
	test('exponent 10/3 of roller bearings, ISO 281: twice the torque, a tenth of the life', () => {
		expect(rollerLifeExponent).toBeCloseTo(10 / 3, 15);
		expect(relativeJointLife(0.05, 200, 0.05, 200, 2)).toBeCloseTo(0.0992, 4);
	});

	test('hours go as one over angle and speed (from memory)', () => {
		expect(relativeJointLife(2 * degree, 200, 4 * degree, 200, 1)).toBeCloseTo(0.5, 12);
		expect(relativeJointLife(2 * degree, 200, 2 * degree, 300, 1)).toBeCloseTo(2 / 3, 12);
		expect(relativeJointLife(2 * degree, 200, 2 * degree, 200, 1)).toBe(1);
	});

	test('less than half a degree counts as half a degree', () => {
		expect(relativeJointLife(leastAngle, 200, 0, 200, 1)).toBe(1);
	});
});

test('any truck is answered', () => {
	fc.assert(
		fc.property(
			fc.double({ min: 0, max: 80, noNaN: true }),
			fc.double({ min: 0.25, max: 0.6, noNaN: true }),
			fc.double({ min: 2, max: 6, noNaN: true }),
			fc.double({ min: leastAngle, max: 0.5, noNaN: true }),
			(road, tyre, axle, angle) => {
				const shaft = driveshaftSpeed(road, tyre, axle);
				expect(largestAngle(shaft, inertiaLimit)).toBeGreaterThan(0);
				expect(roadSpeedLimit(angle, tyre, axle, inertiaLimit)).toBeGreaterThan(0);
			},
		),
	);
});
