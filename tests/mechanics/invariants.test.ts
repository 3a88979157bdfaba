import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
	chainRipple,
	pairInSpace,
	threeInSpace,
	type JointChain,
} from '../../src/lib/mechanics/joint-chain.ts';
import * as joints from '../../src/lib/mechanics/universal-joint.ts';

/** A number in [min, max], never NaN. */
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const runs = { numRuns: 1000 };

describe('operating angles', () => {
	it('do not depend on rake', () => {
		const angle = between(-0.6, 0.6);
		fc.assert(
			fc.property(angle, angle, angle, (slopeA, slopeB, rake) => {
				expect(joints.operatingAngle(slopeA + rake, slopeB + rake)).toBeCloseTo(
					joints.operatingAngle(slopeA, slopeB),
					12,
				);
			}),
			runs,
		);
	});

	it('are the difference of two slopes in one plane, and the dot product in space', () => {
		const angle = between(-1, 1);
		fc.assert(
			fc.property(angle, angle, angle, angle, (slopeA, slopeB, planA, planB) => {
				expect(joints.operatingAngle(slopeA, slopeB)).toBeCloseTo(Math.abs(slopeA - slopeB), 12);
				const dot =
					Math.cos(slopeA) * Math.cos(slopeB) * Math.cos(planA - planB) +
					Math.sin(slopeA) * Math.sin(slopeB);
				expect(Math.cos(joints.operatingAngle(slopeA, slopeB, planA, planB))).toBeCloseTo(dot, 12);
			}),
			runs,
		);
	});
});

describe('chains of joints', () => {
	const slope = between(-0.35, 0.35);
	const plan = between(-0.25, 0.25);
	const line = fc.array(fc.tuple(slope, plan), { minLength: 4, maxLength: 4 });
	type Line = readonly (readonly [number, number])[];
	const chainOf = (shafts: Line, front: number, rear: number): JointChain => {
		const [s0 = NaN, p0 = NaN, s1 = NaN, p1 = NaN, s2 = NaN, p2 = NaN, s3 = NaN, p3 = NaN] =
			shafts.flat();
		return threeInSpace(s0, p0, s1, p1, s2, p2, s3, p3, front, rear);
	};
	const phase = between(-1.5, 1.5);

	it('do not notice one more joint that is straight', () => {
		fc.assert(
			fc.property(line, phase, fc.nat(2), (shafts, front, at) => {
				const [s0 = NaN, p0 = NaN, s1 = NaN, p1 = NaN, s2 = NaN, p2 = NaN] = shafts.flat();
				const pair = chainRipple(pairInSpace(s0, p0, s1, p1, s2, p2, front), 1);
				// One of the three shafts in two lengths. The middle one keeps its phase over both, less the
				// quarter turn between the two yokes on the new joint's cross.
				const longer = shafts.slice(0, 3);
				longer.splice(at, 0, longer[at] ?? [NaN, NaN]);
				const phases = [
					[0, front],
					[front - 0.4 + Math.PI / 2, 0.4],
					[front, 0],
				][at] ?? [NaN, NaN];
				const three = chainRipple(chainOf(longer, phases[0] ?? NaN, phases[1] ?? NaN), 1);
				expect(three.acceleration).toBeCloseTo(pair.acceleration, 13);
				expect(three.highest).toBeCloseTo(pair.highest, 13);
				expect(three.equivalentAngleByHand ** 2).toBeCloseTo(pair.equivalentAngleByHand ** 2, 13);
			}),
			runs,
		);
	});

	it('do not depend on rake', () => {
		fc.assert(
			fc.property(line, phase, phase, between(-0.1, 0.1), (shafts, front, rear, rake) => {
				const raked = shafts.map(([down, aside]): [number, number] => {
					const [back, left, fall] = joints.shaftDirection(down, aside);
					const turnedBack = back * Math.cos(rake) - fall * Math.sin(rake);
					return [
						Math.asin(back * Math.sin(rake) + fall * Math.cos(rake)),
						Math.atan2(left, turnedBack),
					];
				});
				const level = chainOf(shafts, front, rear);
				const turned = chainOf(raked, front, rear);
				for (const joint of ['first', 'second', 'third'] as const) {
					expect(turned[joint]).toBeCloseTo(level[joint], 12);
				}
				const [one, other] = [chainRipple(level, 1), chainRipple(turned, 1)];
				expect(other.acceleration).toBeCloseTo(one.acceleration, 12);
				expect(other.highest).toBeCloseTo(one.highest, 12);
			}),
			runs,
		);
	});

	it('leave the same ripple driven from the other end', () => {
		fc.assert(
			fc.property(line, phase, phase, (shafts, front, rear) => {
				// Seen from behind a shaft's near yoke is turned back from its far one. The other end's axes
				// are turned half round about the upright, which swaps the signs of slopes and keeps plans.
				const back = [...shafts].reverse().map(([down, aside]): [number, number] => [-down, aside]);
				const one = chainRipple(chainOf(shafts, front, rear), 1);
				const other = chainRipple(chainOf(back, rear, front), 1);
				expect(other.equivalentAngle ** 2).toBeCloseTo(one.equivalentAngle ** 2, 12);
			}),
			runs,
		);
	});

	it('change a little for a little, through straight joints too', () => {
		const maybeStraight = fc.oneof(
			line,
			line.map((shafts) => shafts.map(() => shafts[0] ?? ([NaN, NaN] as [number, number]))),
			line.map((shafts) => shafts.map((shaft, at) => shafts[at < 2 ? 0 : 3] ?? shaft)),
		);
		fc.assert(
			fc.property(maybeStraight, line, phase, phase, (shafts, toward, front, rear) => {
				const rest = chainRipple(chainOf(shafts, front, rear), 1);
				for (const share of [1e-3, 1e-5, 1e-7]) {
					const moved = shafts.map(([down, aside], at): [number, number] => [
						down + share * (toward[at]?.[0] ?? NaN),
						aside + share * (toward[at]?.[1] ?? NaN),
					]);
					const ripple = chainRipple(chainOf(moved, front + share, rear - share), 1);
					expect(Math.abs(ripple.acceleration - rest.acceleration)).toBeLessThan(20 * share);
					expect(Math.abs(ripple.highest - rest.highest)).toBeLessThan(20 * share);
				}
			}),
			runs,
		);
	});
});
