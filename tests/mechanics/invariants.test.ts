import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { axleOnSeat, springAtAxleRise } from '../../src/lib/mechanics/axle.ts';
import {
	driveshaftBetween,
	pinionJoint,
	transmissionJoint,
} from '../../src/lib/mechanics/driveshaft.ts';
import {
	curvatureOfArch,
	leafSpring,
	springAtArch,
	springAtLoad,
	springMount,
	springMountMoved,
	springPose,
	type LeafSpring,
	type SpringAtRest,
	type SpringMount,
	type SpringPose,
} from '../../src/lib/mechanics/leaf-spring.ts';
import { OutOfRange } from '../../src/lib/mechanics/out-of-range.ts';
import {
	chainRipple,
	pairInSpace,
	threeInSpace,
	type JointChain,
} from '../../src/lib/mechanics/joint-chain.ts';
import * as joints from '../../src/lib/mechanics/universal-joint.ts';
import { drivelineUnderTorque, pinionClimb } from '../../src/lib/mechanics/wind-up.ts';
import { degree, figuresOfJob, inch, pound, truckA } from './accuracy/spring.ts';

/** A number in [min, max], never NaN. */
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

interface Sprung {
	leaf: LeafSpring;
	mount: SpringMount;
	rest: SpringAtRest;
}

/**
 * Plausible springs, drawn by where the rear eye stands and how the shackle leans, so that all of them
 * can be assembled: 3 to 8 in of static deflection, hanging and standing.
 */
const springs = fc
	.record({
		front: between(20, 32),
		rearShare: between(0.9, 1.45),
		rate: between(80, 320),
		deflection: between(3, 8),
		arch: between(-1, 6),
		rise: between(-3, 3),
		shackleLength: between(3, 7),
		lean: between(-25, 25),
		stands: fc.boolean(),
	})
	.map((drawn): Sprung => {
		const leaf = leafSpring(
			drawn.front * inch,
			drawn.front * drawn.rearShare * inch,
			(drawn.rate * pound) / inch,
		);
		const { chord } = springPose(
			leaf,
			springMount(leaf.length, 0, leaf.length, false),
			curvatureOfArch(drawn.arch * inch, leaf.length),
		);
		const lean = drawn.lean * degree;
		const shackle = drawn.shackleLength * inch;
		const mount = springMount(
			chord * Math.cos(drawn.rise * degree) - shackle * Math.sin(lean),
			chord * Math.sin(drawn.rise * degree) + (drawn.stands ? -1 : 1) * shackle * Math.cos(lean),
			shackle,
			drawn.stands,
		);
		const load = drawn.rate * drawn.deflection * pound;
		return { leaf, mount, rest: springAtArch(leaf, mount, drawn.arch * inch, load) };
	})
	.filter(({ leaf, mount, rest }) => stiffnessAt(leaf, mount, rest) > 0.3 * leaf.rate);

/** What is done to it: inches, and a share of load. */
const changes = fc.record({
	eyeRaise: between(-1, 5),
	eyeForward: between(-0.5, 0.5),
	pivotRaise: between(-1, 3),
	pivotForward: between(-0.5, 0.5),
	shackleLonger: between(-0.5, 2),
	loadShare: between(0.75, 1.25),
});
type Drawn = typeof changes extends fc.Arbitrary<infer T> ? T : never;

/** The mount and load after some share of a change. */
function changed({ mount, rest }: Sprung, change: Drawn, share: number) {
	return {
		mount: springMountMoved(
			mount,
			change.eyeRaise * inch * share,
			change.eyeForward * inch * share,
			change.pivotRaise * inch * share,
			change.pivotForward * inch * share,
			change.shackleLonger * inch * share,
		),
		load: rest.load * (1 + (change.loadShare - 1) * share),
	};
}

/** The result, or undefined where the mechanics refuse with their own error. */
function orRefused<T>(call: () => T): T | undefined {
	try {
		return call();
	} catch (cause) {
		if (cause instanceof OutOfRange) return undefined;
		throw cause;
	}
}

/**
 * Load a pose carries, written here once more: three forces on the leaf, along the shackle, at the
 * front eye and up at the seat, balanced by moments about the seat and about the front eye.
 */
function loadOf(leaf: LeafSpring, mount: SpringMount, pose: SpringPose, free: number): number {
	const cross = (ax: number, az: number, bx: number, bz: number): number => ax * bz - az * bx;
	const x = pose.rearEyeX - mount.pivotX;
	const z = pose.rearEyeZ - mount.pivotZ;
	const tension =
		(leaf.stiffness * (free - pose.curvature)) /
		cross(pose.rearEyeX - pose.seatX, pose.rearEyeZ - pose.seatZ, x, z);
	const aboutEye = cross(pose.rearEyeX - mount.eyeX, pose.rearEyeZ - mount.eyeZ, x, z);
	return (tension * aboutEye) / (mount.eyeX - pose.seatX);
}

/** Newtons more for each metre the seat rises: a rest holds where this is above zero. */
function stiffnessAt(leaf: LeafSpring, mount: SpringMount, rest: SpringAtRest): number {
	const at = (curvature: number) => {
		const pose = springPose(leaf, mount, curvature);
		return { load: loadOf(leaf, mount, pose, rest.freeCurvature), height: pose.seatZ };
	};
	return (
		orRefused(() => {
			const up = at(rest.curvature - 1e-5);
			const down = at(rest.curvature + 1e-5);
			return (up.load - down.load) / (up.height - down.height);
		}) ?? NaN
	);
}

const runs = { numRuns: 1000 };

describe('a spring at rest', () => {
	it('stays as it was when nothing changes', () => {
		fc.assert(
			fc.property(springs, ({ leaf, mount, rest }) => {
				const same = springAtLoad(leaf, springMountMoved(mount, 0, 0, 0, 0, 0), rest, rest.load);
				expect(same).toEqual(rest);
				const still = springAtAxleRise(leaf, mount, rest, -3 * inch, 0, 0);
				expect(still.seatZ - rest.seatZ).toBe(0);
			}),
			runs,
		);
	});

	it('carries its load, and holds', () => {
		let found = 0;
		fc.assert(
			fc.property(springs, changes, (spring, change) => {
				const after = changed(spring, change, 1);
				const rest = orRefused(() =>
					springAtLoad(spring.leaf, after.mount, spring.rest, after.load),
				);
				if (!rest) return;
				found++;
				const carried = loadOf(spring.leaf, after.mount, rest, rest.freeCurvature);
				expect(Math.abs(carried / after.load - 1)).toBeLessThan(1e-6);
				expect(stiffnessAt(spring.leaf, after.mount, rest)).toBeGreaterThan(0);
			}),
			runs,
		);
		expect(found).toBeGreaterThan(900);
	});

	it('comes to the same in two halves as at once', () => {
		let found = 0;
		fc.assert(
			fc.property(springs, changes, (spring, change) => {
				const half = changed(spring, change, 0.5);
				const whole = changed(spring, change, 1);
				const direct = orRefused(() =>
					springAtLoad(spring.leaf, whole.mount, spring.rest, whole.load),
				);
				const inHalves = orRefused(() => {
					const partway = springAtLoad(spring.leaf, half.mount, spring.rest, half.load);
					return springAtLoad(spring.leaf, whole.mount, partway, whole.load);
				});
				if (!direct || !inHalves) return;
				found++;
				expect(Math.abs(direct.curvature - inHalves.curvature)).toBeLessThan(1e-8);
				expect(Math.abs(direct.seatZ - inHalves.seatZ)).toBeLessThan(1e-8);
				expect(Math.abs(direct.seatTurn - inHalves.seatTurn)).toBeLessThan(1e-8);
			}),
			runs,
		);
		expect(found).toBeGreaterThan(900);
	});

	it('moves a little for a little', () => {
		fc.assert(
			fc.property(springs, changes, (spring, change) => {
				for (const share of [1e-3, 1e-5, 1e-7]) {
					const after = changed(spring, change, share);
					const rest = orRefused(() =>
						springAtLoad(spring.leaf, after.mount, spring.rest, after.load),
					);
					if (!rest) continue;
					// At 30 % of the rate a whole change moves the seat some 27 in at most.
					expect(
						Math.hypot(rest.seatX - spring.rest.seatX, rest.seatZ - spring.rest.seatZ),
					).toBeLessThan(share + 1e-10);
					expect(Math.abs(rest.seatTurn - spring.rest.seatTurn)).toBeLessThan(share + 1e-10);
				}
			}),
			runs,
		);
	});

	it('has the same places when the frame is shifted', () => {
		fc.assert(
			fc.property(springs, between(-2, 2), between(-2, 2), (spring, forward, up) => {
				const moved = springMountMoved(spring.mount, up, forward, up, forward, 0);
				const pose = springPose(spring.leaf, moved, spring.rest.curvature);
				expect(pose.seatX - forward).toBeCloseTo(spring.rest.seatX, 10);
				expect(pose.seatZ - up).toBeCloseTo(spring.rest.seatZ, 10);
				expect(pose.seatTurn).toBeCloseTo(spring.rest.seatTurn, 10);
			}),
			runs,
		);
	});

	it('with even halves and a shackle square to a level chord does not turn at first', () => {
		fc.assert(
			fc.property(
				between(20, 32),
				between(100, 300),
				between(1, 5),
				between(3, 7),
				fc.boolean(),
				(half, rate, arch, shackle, stands) => {
					const leaf = leafSpring(half * inch, half * inch, (rate * pound) / inch);
					const curvature = curvatureOfArch(arch * inch, leaf.length);
					const chord = (2 * Math.sin((curvature * leaf.length) / 2)) / curvature;
					const up = (stands ? -1 : 1) * shackle * inch;
					const mount = springMount(chord, up, shackle * inch, stands);
					const load = rate * 5 * pound;
					const rest = springAtArch(leaf, mount, arch * inch, load);
					expect(Math.abs(rest.seatTurn)).toBeLessThan(1e-6);
					// A quarter of the turn for half the load: the second order, and nothing of the first.
					const turnOf = (share: number): number =>
						springAtLoad(leaf, mount, rest, load * (1 + share)).seatTurn - rest.seatTurn;
					const one = turnOf(0.02);
					const half1 = turnOf(0.01);
					const even = (turnOf(0.01) + turnOf(-0.01)) / 2;
					expect(Math.abs(one)).toBeGreaterThan(0);
					expect(Math.abs(one)).toBeLessThan(1e-3);
					expect(Math.abs(one / half1 - 4)).toBeLessThan(0.5);
					expect(Math.abs(even / half1 - 1)).toBeLessThan(0.25);
				},
			),
			{ numRuns: 300 },
		);
	});

	it('stands as its own mirror image, turned upside down', () => {
		fc.assert(
			fc.property(springs, between(-3, 3), ({ leaf, mount, rest }, rise) => {
				const mirrored: SpringMount = {
					...mount,
					eyeZ: -mount.eyeZ,
					pivotZ: -mount.pivotZ,
					stands: !mount.stands,
				};
				const image = springPose(leaf, mirrored, -rest.curvature);
				expect(image.seatX).toBeCloseTo(rest.seatX, 12);
				expect(image.seatZ).toBeCloseTo(-rest.seatZ, 12);
				expect(image.seatTurn).toBeCloseTo(-rest.seatTurn, 12);
				expect(image.arch).toBeCloseTo(-rest.arch, 12);
				expect(image.shackleLean).toBeCloseTo(rest.shackleLean, 10);
				const risen = orRefused(() =>
					springAtAxleRise(leaf, mount, rest, -3 * inch, 0, rise * inch),
				);
				const fallen = orRefused(() =>
					springAtAxleRise(leaf, mirrored, { ...rest, ...image }, 3 * inch, 0, -rise * inch),
				);
				if (risen && fallen) expect(fallen.seatTurn).toBeCloseTo(-risen.seatTurn, 8);
			}),
			runs,
		);
	});
});

describe('travel', () => {
	const axles = fc.record({
		seatToAxle: between(-5, 5),
		wedge: between(-6, 6),
		rise: between(-3, 4),
	});

	it('takes the axle just there, and back', () => {
		let found = 0;
		fc.assert(
			fc.property(springs, axles, ({ leaf, mount, rest }, axle) => {
				const height = axle.seatToAxle * inch;
				const wedge = axle.wedge * degree;
				const rise = axle.rise * inch;
				const pose = orRefused(() => springAtAxleRise(leaf, mount, rest, height, wedge, rise));
				if (!pose) return;
				found++;
				const from = axleOnSeat(rest, height, wedge).z;
				expect(Math.abs(axleOnSeat(pose, height, wedge).z - from - rise)).toBeLessThan(1e-10);
				const back = springAtAxleRise(leaf, mount, { ...rest, ...pose }, height, wedge, -rise);
				expect(Math.abs(back.curvature - rest.curvature)).toBeLessThan(1e-7);
				expect(Math.abs(back.seatX - rest.seatX)).toBeLessThan(1e-8);
			}),
			runs,
		);
		expect(found).toBeGreaterThan(900);
	});

	it('keeps the leaf its length and the shackle its own', () => {
		fc.assert(
			fc.property(springs, axles, ({ leaf, mount, rest }, axle) => {
				const pose = orRefused(() =>
					springAtAxleRise(leaf, mount, rest, axle.seatToAxle * inch, 0, axle.rise * inch),
				);
				if (!pose) return;
				expect(Math.hypot(pose.rearEyeX - mount.pivotX, pose.rearEyeZ - mount.pivotZ)).toBeCloseTo(
					mount.shackleLength,
					10,
				);
				// Each half is an arc: its chord is 2 sin(κ l / 2) / κ.
				const chordOf = (part: number): number =>
					pose.curvature === 0
						? part
						: (2 * Math.sin((pose.curvature * part) / 2)) / pose.curvature;
				expect(Math.hypot(pose.seatX - mount.eyeX, pose.seatZ - mount.eyeZ)).toBeCloseTo(
					chordOf(leaf.front),
					9,
				);
				expect(Math.hypot(pose.seatX - pose.rearEyeX, pose.seatZ - pose.rearEyeZ)).toBeCloseTo(
					chordOf(leaf.rear),
					9,
				);
			}),
			runs,
		);
	});
});

describe('operating angles', () => {
	it('do not depend on rake', () => {
		fc.assert(
			fc.property(between(-4, 4), between(-6, 6), between(0, 5), (frontDrop, wedge, eyeRaise) => {
				const level = figuresOfJob(truckA, { eyeRaise }, wedge, 0);
				const raked = figuresOfJob(truckA, { eyeRaise }, wedge, frontDrop);
				expect(raked.frontJoint).toBeCloseTo(level.frontJoint, 9);
				expect(raked.rearJoint).toBeCloseTo(level.rearJoint, 9);
				expect(raked.shaftLength).toBe(level.shaftLength);
				const turned = raked.rakeChange - level.rakeChange;
				expect(raked.pinionSlope - level.pinionSlope).toBeCloseTo(turned, 9);
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

describe('the driveline under torque', () => {
	const driveline = fc.record({
		transmission: between(-2, 10),
		shaft: between(-2, 12),
		pinion: between(-2, 10),
		length: between(0.8, 2),
		reach: between(0.2, 0.4),
		rise: between(-0.1, 0.1),
		climb: between(-8, 8),
	});
	type Driveline = typeof driveline extends fc.Arbitrary<infer T> ? T : never;
	const under = (line: Driveline, climb: number, rake = 0) =>
		drivelineUnderTorque(
			(line.transmission + rake) * degree,
			(line.shaft + rake) * degree,
			(line.pinion + rake) * degree,
			line.length,
			line.reach,
			line.rise,
			climb * degree,
		);

	it('comes to the same in two halves of the torque as in the whole', () => {
		fc.assert(
			fc.property(driveline, (line) => {
				const half = under(line, line.climb / 2);
				const axle = { x: 0, z: 0, turn: 0 };
				const [before, after] = [line.pinion * degree, half.pinionSlope].map((slope) =>
					pinionJoint(axle, line.reach, line.rise, slope),
				);
				if (!before || !after) throw new Error('two joints were asked for');
				const { length } = driveshaftBetween(
					transmissionJoint(before, line.length, line.shaft * degree),
					after,
				);
				const halves = under(
					{
						...line,
						length,
						shaft: half.shaftSlope / degree,
						pinion: half.pinionSlope / degree,
					},
					line.climb / 2,
				);
				const whole = under(line, line.climb);
				for (const key of ['shaftSlope', 'pinionSlope', 'front', 'rear', 'mismatch'] as const) {
					expect(halves[key]).toBeCloseTo(whole[key], 12);
				}
				const torque = line.climb * 1000;
				expect(2 * pinionClimb(torque / 2, 50_000)).toBeCloseTo(pinionClimb(torque, 50_000), 14);
			}),
			runs,
		);
	});

	it('has operating angles that do not depend on rake', () => {
		fc.assert(
			fc.property(driveline, between(-4, 4), (line, rake) => {
				// The pinion joint turns with the frame, about the axle: reach and rise are of the pinion.
				const level = under(line, line.climb);
				const raked = under(line, line.climb, rake);
				for (const key of ['front', 'rear', 'mismatch'] as const) {
					expect(raked[key]).toBeCloseTo(level[key], 12);
				}
				expect(raked.shaftSlope - level.shaftSlope).toBeCloseTo(rake * degree, 12);
			}),
			runs,
		);
	});

	it('moves a little for a little', () => {
		fc.assert(
			fc.property(driveline, (line) => {
				const rest = under(line, 0);
				for (const share of [1e-3, 1e-5, 1e-7]) {
					const moved = under(line, line.climb * share);
					// The joint goes with its nose, 0.42 m from the axle at most, on 0.8 m of shaft at least.
					const most = Math.abs(line.climb * degree * share);
					expect(Math.abs(moved.shaftSlope - rest.shaftSlope)).toBeLessThanOrEqual(
						0.6 * most + 1e-14,
					);
					expect(Math.abs(moved.rear - rest.rear)).toBeLessThanOrEqual(1.6 * most + 1e-14);
				}
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
