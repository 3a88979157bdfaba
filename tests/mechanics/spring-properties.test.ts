/** What holds of every spring, whatever its numbers. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { axleFit, wedgeAtBolt, type AxleFit } from '../../src/lib/mechanics/axle-fit.ts';
import {
	leafSpring,
	springMount,
	springMountMoved,
	type SpringMount,
} from '../../src/lib/mechanics/leaf-spring.ts';
import { shackleRoom } from '../../src/lib/mechanics/shackle-room.ts';
import {
	rateInPlace,
	springAfterJob,
	springAtBaseline,
	springFromTest,
} from '../../src/lib/mechanics/spring-at-rest.ts';
import {
	bearingOf,
	keptPose,
	lastPose,
	poseAt,
	upright,
	type SpringPlace,
} from '../../src/lib/mechanics/spring-pose.ts';
import { droopEnd, springAtRise } from '../../src/lib/mechanics/spring-travel.ts';
import { springWoundUp } from '../../src/lib/mechanics/spring-wind-up.ts';
import { degree, inch, pound } from './accuracy/layouts.ts';
import { orRefused } from './refused.ts';

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/**
 * Springs by where the rear eye stands and how the shackle leans, so that most can be assembled. `wild`
 * goes from what is likely to what no truck has.
 */
function springsOf(wild: number) {
	return fc
		.record({
			front: between(20 - 8 * wild, 30 + 10 * wild),
			rearShare: between(1 - 0.5 * wild, 1.4 + 0.6 * wild),
			rate: between(110 / (1 + 2 * wild), 240 * (1 + 2 * wild)),
			deflection: between(3 - 2.9 * wild, 7 + 6 * wild),
			arch: between(-1 - 5 * wild, 5 + 4 * wild),
			rise: between(-2 - 15 * wild, 2 + 15 * wild),
			shackle: between(3.5 - 2 * wild, 6 + 6 * wild),
			lean: between(-22 - 60 * wild, 22 + 60 * wild),
			stands: fc.boolean(),
			over: fc.boolean(),
			height: between(2.5 - 2.5 * wild, 4.5 + 6 * wild),
		})
		.map((drawn) => {
			const front = drawn.front * inch;
			const leaf = leafSpring(front, front * drawn.rearShare, (drawn.rate * pound) / inch);
			const arch = drawn.arch * inch;
			const chord = leaf.length - (8 * arch * arch) / (3 * leaf.length);
			const lean = drawn.lean * degree;
			const rise = drawn.rise * degree;
			const shackle = drawn.shackle * inch;
			const mount = springMount(
				Math.max(chord * Math.cos(rise) - shackle * Math.sin(lean), inch),
				chord * Math.sin(rise) + (drawn.stands ? -1 : 1) * shackle * Math.cos(lean),
				shackle,
				drawn.stands,
			);
			const fit = axleFit(drawn.over, drawn.height * inch, 0.4 * drawn.height * inch, 0, 0, 0);
			const load = drawn.rate * drawn.deflection * pound;
			return { leaf, mount, fit, arch, load };
		});
}

type Drawn = ReturnType<typeof springsOf> extends fc.Arbitrary<infer T> ? T : never;

function baseOf({ leaf, mount, fit, arch, load }: Drawn): SpringPlace {
	return springAtBaseline(leaf, mount, fit, arch, load);
}

/** Springs that stand and are not near to giving way. */
const springs = springsOf(0)
	.filter((drawn) => {
		const base = orRefused(() => baseOf(drawn));
		return base !== undefined && rateInPlace(base) > 0.7 * drawn.leaf.rate;
	})
	.map((drawn) => ({ ...drawn, base: baseOf(drawn) }));

/** What is done: inches, degrees, share of the load. */
const jobs = fc.record({
	eyeRaise: between(-1, 5),
	eyeForward: between(-0.5, 0.5),
	pivotRaise: between(-1, 2.5),
	pivotForward: between(-0.5, 0.5),
	shackleLonger: between(-0.5, 1.5),
	loadShare: between(-0.2, 0.2),
	wedge: between(-6, 6),
	frontDrop: between(0, 4),
});
type Job = typeof jobs extends fc.Arbitrary<infer T> ? T : never;

interface Changed {
	mount: SpringMount;
	fit: AxleFit;
	load: number;
	frontDrop: number;
}

/** Mount, fit and load after a share of a job. */
function changed({ mount, fit, load }: Drawn, job: Job, share: number): Changed {
	const wedge = job.wedge * degree * share;
	return {
		mount: springMountMoved(
			mount,
			job.eyeRaise * inch * share,
			job.eyeForward * inch * share,
			job.pivotRaise * inch * share,
			job.pivotForward * inch * share,
			job.shackleLonger * inch * share,
		),
		fit: { ...fit, wedge, wedgeThickness: wedgeAtBolt(wedge, 5 * inch, 0) },
		load: load * (1 + job.loadShare * share),
		frontDrop: job.frontDrop * inch * share,
	};
}

const wheelbase = 118 * inch;

function after(spring: Drawn & { base: SpringPlace }, job: Job, share = 1) {
	const { mount, fit, load, frontDrop } = changed(spring, job, share);
	const stance = { wheelbase, frontDrop, rearTyreDrop: 0 };
	return springAfterJob(spring.base, spring.leaf, mount, fit, 0, load, stance);
}

const runs = { numRuns: 300 };

/**
 * Energy of leaf and weight for two curvatures, by places written here once more: turns as angles, the
 * leaf as two arcs, the weight along a plumb that stands still.
 */
function energyOf(place: SpringPlace, front: number, rear: number): number {
	const { leaf, mount, fit, freeCurvature, frameTurn, load } = place;
	const arc = (length: number, curvature: number): [number, number] =>
		curvature === 0
			? [length, 0]
			: [
					Math.sin(curvature * length) / curvature,
					(2 * Math.sin((curvature * length) / 2) ** 2) / curvature,
				];
	const [fx, fz] = arc(leaf.front, front);
	const [rx, rz] = arc(-leaf.rear, rear);
	const chord = Math.hypot(fx - rx, fz - rz);
	const across = Math.hypot(mount.eyeX - mount.pivotX, mount.eyeZ - mount.pivotZ);
	const cosine =
		(chord * chord + across * across - mount.shackleLength ** 2) / (2 * chord * across);
	const toEye = Math.atan2(mount.eyeZ - mount.pivotZ, mount.eyeX - mount.pivotX);
	const turn = toEye + (mount.stands ? -1 : 1) * Math.acos(cosine) - Math.atan2(fz - rz, fx - rx);
	const seatX = mount.eyeX - fx * Math.cos(turn) + fz * Math.sin(turn);
	const seatZ = mount.eyeZ - fx * Math.sin(turn) - fz * Math.cos(turn);
	const pad = fit.side * (fit.seatToPad + fit.wedgeThickness);
	const rest = fit.side * (fit.seatToAxle - fit.seatToPad);
	const axleX = seatX - pad * Math.sin(turn) - rest * Math.sin(turn + fit.wedge);
	const axleZ = seatZ + pad * Math.cos(turn) + rest * Math.cos(turn + fit.wedge);
	const strain = (length: number, curvature: number): number =>
		(leaf.stiffness * length * (curvature - freeCurvature) ** 2) / 4;
	return (
		strain(leaf.front, front) +
		strain(leaf.rear, rear) -
		load * (axleX * Math.sin(frameTurn) + axleZ * Math.cos(frameTurn))
	);
}

/** Slopes and curvatures of the energy in both curvatures, by differences. */
function energySlopes(place: SpringPlace) {
	const { leaf, curvature, difference } = place;
	const front = curvature + (difference * leaf.rear) / leaf.length;
	const rear = curvature - (difference * leaf.front) / leaf.length;
	const by =
		(h: number) =>
		(a: number, b: number): number =>
			energyOf(place, front + a * h, rear + b * h);
	// Beside a shackle pulled nearly flat a step of the usual size cannot be assembled.
	const h =
		[1e-3, 1e-4, 1e-5].find((each) =>
			[-1, 1].every((a) => [-1, 1].every((b) => Number.isFinite(by(each)(a, b)))),
		) ?? 1e-3;
	const at = by(h);
	return {
		front: (at(1, 0) - at(-1, 0)) / (2 * h),
		rear: (at(0, 1) - at(0, -1)) / (2 * h),
		frontFront: (at(1, 0) + at(-1, 0) - 2 * at(0, 0)) / (h * h),
		rearRear: (at(0, 1) + at(0, -1) - 2 * at(0, 0)) / (h * h),
		frontRear: (at(1, 1) + at(-1, -1) - at(1, -1) - at(-1, 1)) / (4 * h * h),
	};
}

describe('a spring at rest', () => {
	it('stays as it was when nothing changes, to the last bit', () => {
		fc.assert(
			fc.property(springs, ({ leaf, mount, fit, load, base }) => {
				const same = springMountMoved(mount, 0, 0, 0, 0, 0);
				const level = { wheelbase, frontDrop: 0, rearTyreDrop: 0 };
				const still = springAfterJob(base, leaf, same, { ...fit }, 0, load, level);
				expect(still).toEqual({ ...base, axleRise: 0, axleForward: 0, axleTurned: 0 });
			}),
			runs,
		);
	});

	it('moves no axle by no rise and no torque, after a job too', () => {
		fc.assert(
			fc.property(springs, jobs, (spring, job) => {
				const rest = orRefused(() => after(spring, job));
				if (!rest) return;
				for (const still of [springAtRise(rest, 0), springWoundUp(rest, 0, 0.36)]) {
					expect([still.axleRise, still.axleForward, still.axleTurned]).toEqual([0, 0, 0]);
				}
			}),
			runs,
		);
	});

	it('has the least energy there is round about', () => {
		let found = 0;
		fc.assert(
			fc.property(springs, jobs, (spring, job) => {
				const rest = orRefused(() => after(spring, job));
				if (!rest) return;
				found++;
				const slopes = energySlopes(rest);
				const size = spring.leaf.stiffness;
				expect(Math.abs(slopes.front) / size).toBeLessThan(1e-5);
				expect(Math.abs(slopes.rear) / size).toBeLessThan(1e-5);
				expect(slopes.frontFront).toBeGreaterThan(0);
				expect(slopes.frontFront * slopes.rearRear).toBeGreaterThan(slopes.frontRear ** 2);
			}),
			runs,
		);
		expect(found).toBeGreaterThan(250);
	});

	it('carries its load to a part in a hundred million', () => {
		fc.assert(
			fc.property(springs, jobs, (spring, job) => {
				const rest = orRefused(() => after(spring, job));
				const { load } = changed(spring, job, 1);
				if (rest) expect(Math.abs(rest.load / load - 1)).toBeLessThan(1e-8);
			}),
			runs,
		);
	});

	it('comes to the same in two halves of a job as at once', () => {
		let found = 0;
		fc.assert(
			fc.property(springs, jobs, (spring, job) => {
				const direct = orRefused(() => after(spring, job));
				const inHalves = orRefused(() => {
					const partway = after(spring, job, 0.5);
					const { mount, fit, load, frontDrop } = changed(spring, job, 1);
					// What the axle rose by already tips the frame too.
					const stance = { wheelbase, frontDrop, rearTyreDrop: partway.axleRise };
					return springAfterJob(partway, spring.leaf, mount, fit, 0, load, stance);
				});
				if (!direct || !inHalves) return;
				found++;
				expect(Math.abs(direct.axleZ - inHalves.axleZ)).toBeLessThan(1e-9);
				expect(Math.abs(direct.axleTurn - inHalves.axleTurn)).toBeLessThan(1e-9);
				expect(Math.abs(direct.frameTurn - inHalves.frameTurn)).toBeLessThan(1e-9);
			}),
			runs,
		);
		expect(found).toBeGreaterThan(250);
	});

	it('moves a little for a little', () => {
		fc.assert(
			fc.property(springs, jobs, (spring, job) => {
				for (const share of [1e-3, 1e-5, 1e-7]) {
					const rest = after(spring, job, share);
					// A whole job moves the axle some 20 in at most.
					expect(Math.hypot(rest.axleRise, rest.axleForward)).toBeLessThan(share / 2 + 1e-11);
					expect(Math.abs(rest.axleTurned)).toBeLessThan(share / 2 + 1e-11);
				}
			}),
			runs,
		);
	});

	it('does not care where on the frame it sits', () => {
		fc.assert(
			fc.property(springs, jobs, between(-2, 2), between(-2, 2), (spring, job, ahead, up) => {
				const here = orRefused(() => after(spring, job));
				const mount = springMountMoved(spring.mount, up, ahead, up, ahead, 0);
				const shifted = { ...spring, mount };
				const there = orRefused(() => after({ ...shifted, base: baseOf(shifted) }, job));
				if (!here || !there) return;
				expect(there.axleRise).toBeCloseTo(here.axleRise, 9);
				expect(there.axleForward).toBeCloseTo(here.axleForward, 9);
				expect(there.axleTurned).toBeCloseTo(here.axleTurned, 9);
			}),
			runs,
		);
	});

	it('is the same in any unit of length and of force', () => {
		fc.assert(
			fc.property(springs, jobs, between(0.5, 3), between(0.2, 5), (spring, job, long, strong) => {
				const { leaf, mount, fit } = spring;
				const mountIn = ({ stands, ...places }: SpringMount): SpringMount => ({
					stands,
					eyeX: places.eyeX * long,
					eyeZ: places.eyeZ * long,
					pivotX: places.pivotX * long,
					pivotZ: places.pivotZ * long,
					shackleLength: places.shackleLength * long,
				});
				const fitIn = ({ side, wedge, ...distances }: AxleFit): AxleFit => ({
					side,
					wedge,
					seatToAxle: distances.seatToAxle * long,
					seatToPad: distances.seatToPad * long,
					wedgeThickness: distances.wedgeThickness * long,
				});
				const big = leafSpring(leaf.front * long, leaf.rear * long, (leaf.rate * strong) / long);
				const base = springAtBaseline(
					big,
					mountIn(mount),
					fitIn(fit),
					spring.arch * long,
					spring.load * strong,
				);
				const one = orRefused(() => after(spring, job));
				const to = changed(spring, job, 1);
				const stance = {
					wheelbase: wheelbase * long,
					frontDrop: to.frontDrop * long,
					rearTyreDrop: 0,
				};
				const other = orRefused(() =>
					springAfterJob(base, big, mountIn(to.mount), fitIn(to.fit), 0, to.load * strong, stance),
				);
				if (!one || !other) return;
				expect(other.axleRise / long).toBeCloseTo(one.axleRise, 9);
				expect(other.axleForward / long).toBeCloseTo(one.axleForward, 9);
				expect(other.axleTurned).toBeCloseTo(one.axleTurned, 9);
			}),
			runs,
		);
	});

	it('stands as its own mirror image, turned upside down with the plumb', () => {
		fc.assert(
			fc.property(springs, between(-5, 5), ({ leaf, mount, fit, base }, wedge) => {
				const wedged = { ...fit, wedge: wedge * degree };
				const image: SpringMount = {
					...mount,
					eyeZ: -mount.eyeZ,
					pivotZ: -mount.pivotZ,
					stands: !mount.stands,
				};
				const turned: AxleFit = { ...wedged, side: fit.side === 1 ? -1 : 1, wedge: -wedged.wedge };
				const { freeCurvature, curvature, difference } = base;
				const up = bearingOf(leaf, mount, wedged, freeCurvature, upright);
				if (!poseAt(up, curvature, difference)) return;
				const one = keptPose(up);
				const { work } = lastPose;
				const down = bearingOf(leaf, image, turned, -freeCurvature, { ...upright, base: -1 });
				expect(poseAt(down, -curvature, -difference)).toBe(true);
				const other = keptPose(down);
				expect(lastPose.work).toBeCloseTo(-work, 10);
				expect(other.load / one.load).toBeCloseTo(1, 9);
				expect(other.axleX).toBeCloseTo(one.axleX, 10);
				expect(other.axleZ).toBeCloseTo(-one.axleZ, 10);
				expect(other.axleTurn).toBeCloseTo(-one.axleTurn, 10);
				expect(other.arch).toBeCloseTo(-one.arch, 10);
			}),
			runs,
		);
	});
});

describe('through a flat leaf', () => {
	it('goes smoothly from bowed down to bowed up', () => {
		const leaf = leafSpring(24 * inch, 30 * inch, (160 * pound) / inch);
		const mount = springMount(53.6 * inch, 4.6 * inch, 5 * inch, false);
		const fit = axleFit(true, 3 * inch, inch, 0, 0, 0);
		const at = (arch: number) => springAtBaseline(leaf, mount, fit, arch, 850 * pound);
		const flat = at(0);
		for (const arch of [1e-2, 1e-3, 1e-4, 1e-5, 1e-6]) {
			for (const key of ['axleX', 'axleZ', 'axleTurn', 'freeCurvature', 'difference'] as const) {
				// The middle of both sides is the flat leaf, but for what falls with the square of the arch.
				const offMiddle = (at(arch)[key] + at(-arch)[key]) / 2 - flat[key];
				expect(Math.abs(offMiddle)).toBeLessThan(100 * arch * arch + 1e-11);
			}
		}
	});
});

describe('springs no truck has', () => {
	/** Every number of a record is finite, whatever it is made of. */
	function expectFinite(value: unknown): void {
		if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true);
		else if (typeof value === 'object' && value !== null)
			Object.values(value).forEach(expectFinite);
	}

	it('give finite figures or a sentence, and rests that hold', () => {
		let stood = 0;
		fc.assert(
			fc.property(
				springsOf(1),
				jobs,
				between(-12, 12),
				between(0, 800),
				between(-20000, 20000),
				(drawn, job, rise, weight, torque) => {
					const base = orRefused(() => baseOf(drawn));
					if (!base) return;
					stood++;
					expectFinite(base);
					// At the edge of where it carries it has none.
					expect(orRefused(() => rateInPlace(base)) ?? 1).toBeGreaterThan(0);
					const rest = orRefused(() => after({ ...drawn, base }, job)) ?? base;
					expectFinite(rest);
					const slopes = energySlopes(rest);
					expect(slopes.frontFront).toBeGreaterThan(0);
					const { leaf, mount, fit, arch, load } = drawn;
					expectFinite(
						orRefused(() =>
							springFromTest(leaf.front, leaf.rear, leaf.rate, mount, fit, arch, load),
						),
					);
					expectFinite(orRefused(() => springAtRise(rest, rise * inch)));
					expectFinite(orRefused(() => springWoundUp(rest, torque, 0.36)));
					const end = droopEnd(rest, weight * pound);
					expectFinite(end);
					expect(end.fall).toBeGreaterThanOrEqual(0);
					expect(end.load <= rest.load + 1e-6).toBe(true);
					const room = shackleRoom(rest);
					expectFinite(room);
					expect(Math.min(room.bumpTravel, room.droopTravel)).toBeGreaterThanOrEqual(0);
				},
			),
			// A failure among so many numbers takes minutes to make smaller.
			{ numRuns: 400, endOnFailure: true },
		);
		expect(stood).toBeGreaterThan(100);
	});
});
