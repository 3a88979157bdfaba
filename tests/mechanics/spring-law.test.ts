/** The law of the spring against an exact leaf, the design's reference layouts, and itself. */
import { describe, expect, it } from 'vitest';
import { axleFit, wedgeAtBolt } from '../../src/lib/mechanics/axle-fit.ts';
import { transmissionShimmed } from '../../src/lib/mechanics/driveshaft.ts';
import { leafSpring, springMount, springMountMoved } from '../../src/lib/mechanics/leaf-spring.ts';
import { OutOfRange } from '../../src/lib/mechanics/out-of-range.ts';
import { shackleRoom } from '../../src/lib/mechanics/shackle-room.ts';
import { shackleAngle } from '../../src/lib/mechanics/shackle.ts';
import {
	leafSpringTimes,
	rateInPlace,
	springAfterJob,
	springAtBaseline,
	springFromTest,
} from '../../src/lib/mechanics/spring-at-rest.ts';
import { posesTaken } from '../../src/lib/mechanics/spring-pose.ts';
import { droopEnd, springAtRise } from '../../src/lib/mechanics/spring-travel.ts';
import { springHeld, springWoundUp } from '../../src/lib/mechanics/spring-wind-up.ts';
import {
	afterJob,
	drawing,
	drawnJobs,
	drawnTrucks,
	referenceFigures,
	springRows,
	springSpread,
} from './accuracy/spring.ts';
import {
	degree,
	inch,
	layouts,
	pound,
	truckA,
	truckB,
	type Layout,
	type Truck,
} from './accuracy/layouts.ts';
import { exactAfter, exactAtArch, exactAtRise, exactLeaf } from './exact-leaf.ts';
import { sentenceOf } from './refused.ts';

/** A reference layout at its baseline, and what it is made of. */
function standing({ layout }: { layout: Layout }) {
	const leaf = leafSpring(layout.front * inch, layout.rear * inch, (layout.rate * pound) / inch);
	const mount = springMount(
		layout.eyeToPivot * inch,
		layout.pivotUp * inch,
		layout.shackleLength * inch,
		layout.stands,
	);
	const fit = axleFit(true, 3 * inch, 1 * inch, 0, 0, 0);
	const load = layout.load * pound;
	return {
		leaf,
		mount,
		fit,
		load,
		base: springAtBaseline(leaf, mount, fit, layout.arch * inch, load),
	};
}

const level = { wheelbase: 118 * inch, frontDrop: 0, rearTyreDrop: 0 };
const trucks = drawnTrucks(28, 1);

describe('accuracy', () => {
	for (const { figure, against, error, unit, held } of springRows()) {
		it(`${figure}: within ${held} ${unit} of ${against}`, () => {
			expect(error).toBeGreaterThan(0);
			expect(error).toBeLessThanOrEqual(held);
		});
	}

	const spread = springSpread();
	const jobs = [
		'hanger',
		'pivot',
		'shackle',
		'load',
		'fore or aft',
		'combined',
		'flip',
		'all jobs',
	];
	it.each(jobs)('%s: as near to an exact leaf as the design asks', (kind) => {
		const [rise, forward, turn] = spread.filter((row) => row.kind === kind);
		if (!rise || !forward || !turn) throw new Error(`No rows of ${kind}.`);
		expect(rise.count).toBeGreaterThanOrEqual(kind === 'flip' ? 50 : 100);
		for (const length of [rise, forward]) {
			expect(length.rms).toBeLessThanOrEqual(0.006);
			expect(length.most).toBeLessThanOrEqual(0.01);
			expect(length.worst).toBeLessThanOrEqual(0.03);
		}
		expect(turn.rms).toBeLessThanOrEqual(0.008);
		expect(turn.most).toBeLessThanOrEqual(0.012);
		expect(turn.worst).toBeLessThanOrEqual(0.03);
	});

	it('counts 25 jobs on each of 28 layouts, and two flips', () => {
		expect(spread.find(({ kind }) => kind === 'all jobs')?.count).toBeGreaterThan(0.97 * 28 * 27);
	});

	it.each(['3 in of bump', '3 in of droop', 'hanging axle'])(
		'%s: a tape and a gauge less',
		(kind) => {
			const rows = spread.filter((row) => row.kind === kind);
			expect(rows.length).toBeGreaterThan(1);
			for (const row of rows) {
				expect(row.count).toBeGreaterThan(14);
				expect(row.worst).toBeLessThan(row.unit === 'in' ? 1 / 64 : 0.06);
			}
		},
	);
});

describe('the exact leaf itself', () => {
	it('has the rate it was asked for, on level supports and a long shackle', () => {
		const rate = (150 * pound) / inch;
		const mount = springMount(52 * inch, 300 * inch, 300 * inch, false);
		const axle = axleFit(true, 0, 0, 0, 0, 0);
		const leaf = exactLeaf(22 * inch, 30 * inch, rate);
		const flat = exactAtArch(leaf, mount, axle, 0, 0);
		const acting = { load: 0.1 * pound, torque: 0, thrust: 0, frame: { turn: 0 } };
		const lighter = exactAfter(flat, mount, axle, acting);
		const heavier = exactAfter(flat, mount, axle, { ...acting, load: 0.2 * pound });
		const found = (0.1 * pound) / (heavier.axleZ - lighter.axleZ);
		expect(Math.abs(found / rate - 1)).toBeLessThan(1e-5);
	});

	it('solves its equations, and no longer moves when its steps are halved', () => {
		for (const { leaf, mount, fit, arch, load } of trucks.slice(0, 8)) {
			const moved = springMountMoved(mount, 3 * inch, 0, inch, 0, inch / 2);
			const at = (steps: number) => {
				const exact = exactLeaf(leaf.front, leaf.rear, leaf.rate);
				const before = exactAtArch(exact, mount, fit, arch, load, steps);
				const acting = { load, torque: 300, thrust: 800, frame: { turn: 0.02 } };
				return exactAfter(before, moved, fit, acting, 4, steps);
			};
			const coarse = at(12);
			const fine = at(24);
			expect(fine.residual).toBeLessThan(1e-11);
			expect(Math.abs(fine.axleZ - coarse.axleZ)).toBeLessThan(1e-7);
			expect(Math.abs(fine.axleTurn - coarse.axleTurn)).toBeLessThan(1e-7);
		}
	});

	it('is an arc of its free curvature with no load on it', () => {
		const { mount, fit } = standing(truckA);
		const leaf = exactLeaf(24 * inch, 30 * inch, 28000);
		const free = exactAtArch(leaf, mount, fit, 4 * inch, 0);
		const arc = springAtBaseline(leafSpring(24 * inch, 30 * inch, 28000), mount, fit, 4 * inch, 0);
		expect(arc.difference).toBe(0);
		expect(Math.abs(free.freeCurvature - arc.freeCurvature)).toBeLessThan(1e-7);
		expect(Math.abs(free.axleX - arc.axleX)).toBeLessThan(1e-7);
		expect(Math.abs(free.axleZ - arc.axleZ)).toBeLessThan(1e-7);
		expect(Math.abs(free.axleTurn - arc.axleTurn)).toBeLessThan(1e-7);
	});
});

describe('a rate found on the truck', () => {
	it('is what weights on the exact leaf show', () => {
		for (const { leaf, mount, fit, arch, load } of trucks) {
			const base = springFromTest(leaf.front, leaf.rear, leaf.rate, mount, fit, arch, load);
			const found = base.leaf;
			const exact = exactLeaf(found.front, found.rear, found.rate);
			const before = exactAtArch(exact, mount, fit, arch, load);
			const up = exactAtRise(before, 0.1 * inch);
			const down = exactAtRise(before, -0.1 * inch);
			const shown = (up.acting.load - down.acting.load) / (0.2 * inch);
			expect(Math.abs(shown / leaf.rate - 1)).toBeLessThan(2e-3);
			expect(Math.abs(rateInPlace(base) / leaf.rate - 1)).toBeLessThan(1e-8);
			const measured = springAtBaseline(found, mount, fit, arch, load);
			expect(base.axleZ).toBeCloseTo(measured.axleZ, 9);
			expect(base.freeCurvature).toBeCloseTo(measured.freeCurvature, 8);
		}
	});

	it('is not that of the free beam: up to a tenth and more off', () => {
		const shares = trucks.map(({ base, leaf }) => rateInPlace(base) / leaf.rate);
		expect(Math.max(...shares)).toBeGreaterThan(1.05);
		expect(Math.min(...shares)).toBeLessThan(0.95);
	});
});

describe('the axle on its seat', () => {
	it('a wedge parts axle and spring by its thickness at the bolt, and more than its angle says', () => {
		expect(wedgeAtBolt(6 * degree, 5 * inch, 0.07 * inch) / inch).toBeCloseTo(0.3328, 3);
		expect(wedgeAtBolt(-6 * degree, 5 * inch, 0)).toBe(wedgeAtBolt(6 * degree, 5 * inch, 0));
		expect(wedgeAtBolt(0, 5 * inch, 0.1 * inch)).toBe(0);
		// All of its thin end from half a degree on, and no leap at nought.
		const half = 0.1 + 2.5 * Math.tan(0.5 * degree);
		expect(wedgeAtBolt(0.5 * degree, 5 * inch, 0.1 * inch) / inch).toBeCloseTo(half, 12);
		expect(wedgeAtBolt(1e-9, 5 * inch, 0.1 * inch) / inch).toBeLessThan(1e-7);
		expect(sentenceOf(() => wedgeAtBolt(0.1, 0, 0))).toMatch(/^The length of the wedge is 0 mm/);
	});

	it('lowers with the spring over the axle, raises with it under, and turns the axle', () => {
		const { leaf, mount, load, base } = standing(truckA);
		const wedge = 4 * degree;
		const thickness = wedgeAtBolt(wedge, 5 * inch, 0);
		const wedged = axleFit(true, 3 * inch, 1 * inch, 0, wedge, thickness);
		const after = springAfterJob(base, leaf, mount, wedged, 0, load, level);
		expect(after.axleTurned / degree).toBeCloseTo(4, 0);
		expect(after.axleRise).toBeLessThan(-0.9 * thickness);
		const blocked = axleFit(true, 3 * inch, 1 * inch, 2 * inch, 0, 0);
		const down = springAfterJob(base, leaf, mount, blocked, 0, load, level);
		// A block under the spring lifts the truck: the axle goes down in the frame.
		expect(down.axleRise / inch).toBeCloseTo(-2, 1);
		const out = axleFit(true, 3 * inch, 1 * inch, -1 * inch, 0, 0);
		expect(springAfterJob(base, leaf, mount, out, 0, load, level).axleRise / inch).toBeCloseTo(
			1,
			1,
		);
	});

	it('a flip lowers by both distances, nearly', () => {
		const { leaf, mount, load, base } = standing(truckA);
		const over = axleFit(false, 3.4 * inch, 1 * inch, 0, 0, 0);
		const after = springAfterJob(base, leaf, mount, over, 0, load, level);
		expect(Math.abs(after.axleRise / inch - 6.4)).toBeLessThan(0.1);
		expect(after.seatZ).toBeLessThan(after.axleZ);
	});

	it('is where rotations about seat and pad put it', () => {
		const draw = drawing(3);
		for (const truck of trucks) {
			const job = orUndefined(() => afterJob(truck, { kind: 'wedge', wedge: draw(-6, 6) }));
			if (!job) continue;
			const { after, fit } = job;
			const turned = (angle: number, up: number): [number, number] => [
				-up * Math.sin(angle),
				up * Math.cos(angle),
			];
			const [padX, padZ] = turned(after.seatTurn, fit.side * (fit.seatToPad + fit.wedgeThickness));
			const [restX, restZ] = turned(after.axleTurn, fit.side * (fit.seatToAxle - fit.seatToPad));
			expect(after.axleX).toBeCloseTo(after.seatX + padX + restX, 12);
			expect(after.axleZ).toBeCloseTo(after.seatZ + padZ + restZ, 12);
			expect(after.axleTurn).toBe(after.seatTurn + fit.wedge);
		}
	});
});

function orUndefined<T>(call: () => T): T | undefined {
	try {
		return call();
	} catch (cause) {
		if (cause instanceof OutOfRange) return undefined;
		throw cause;
	}
}

describe('the frame on the floor', () => {
	it('turns by the rise, the front drop and the tyre, and the weight with it', () => {
		const draw = drawing(9);
		for (const truck of trucks) {
			const stance = {
				wheelbase: truck.wheelbase,
				frontDrop: draw(0, 5) * inch,
				rearTyreDrop: draw(0, 2) * inch,
			};
			const { leaf, mount, fit, load, base } = truck;
			const after = orUndefined(() => springAfterJob(base, leaf, mount, fit, 0, load, stance));
			if (!after) continue;
			const drop = after.axleRise + stance.rearTyreDrop - stance.frontDrop;
			expect(after.frameTurn).toBeCloseTo(Math.atan2(drop, stance.wheelbase), 12);
			// The exact leaf with the frame held at that turn stands just there.
			const exact = exactLeaf(leaf.front, leaf.rear, leaf.rate);
			const before = exactAtArch(exact, mount, fit, truck.arch, load);
			const acting = { load, torque: 0, thrust: 0, frame: { turn: after.frameTurn } };
			const truth = exactAfter(before, mount, fit, acting);
			expect(Math.abs(after.axleRise - (truth.axleZ - before.axleZ)) / inch).toBeLessThan(0.005);
		}
	});

	it('moves case A by some 0.037 in, which a frame held level would not', () => {
		const { leaf, mount, fit, load, base } = standing(truckA);
		const moved = springMountMoved(mount, 4.5 * inch, 0, 0, 0, 0);
		const tipped = springAfterJob(base, leaf, moved, fit, 0, load, level);
		const held = springAfterJob(base, leaf, moved, fit, 0, load, { ...level, wheelbase: 100 });
		expect((held.axleRise - tipped.axleRise) / inch).toBeCloseTo(0.037, 2);
	});
});

describe('another spring', () => {
	it('of twice the stiffness under twice the load stands the same', () => {
		for (const { leaf, mount, fit, arch, load } of trucks) {
			const base = springAtBaseline(leaf, mount, fit, arch, load);
			const twice = springAfterJob(base, leafSpringTimes(leaf, 2), mount, fit, 0, 2 * load, level);
			expect(Math.abs(twice.axleRise)).toBeLessThan(1e-10);
			expect(Math.abs(twice.axleTurned)).toBeLessThan(1e-10);
		}
	});

	it('that is stiffer raises the truck, and one with less free arch lowers it', () => {
		for (const { leaf, mount, fit, load, base } of trucks) {
			const stiffer = leafSpringTimes(leaf, 1.1);
			expect(springAfterJob(base, stiffer, mount, fit, 0, load, level).axleRise).toBeLessThan(0);
			const flatter = springAfterJob(base, leaf, mount, fit, -1 * inch, load, level);
			expect(flatter.axleRise / inch).toBeGreaterThan(0.5);
			expect(flatter.axleRise / inch).toBeLessThan(2);
		}
	});

	it('with nothing on it has the free arch it was given', () => {
		const { leaf, mount, fit } = standing(truckA);
		const base = springAtBaseline(leaf, mount, fit, 3 * inch, 0);
		const after = springAfterJob(base, leaf, mount, fit, 0.5 * inch, 0, level);
		expect(after.curvature).toBeCloseTo(after.freeCurvature, 9);
		const sagitta = (1 - Math.cos((after.freeCurvature * leaf.length) / 2)) / after.freeCurvature;
		const was = (1 - Math.cos((base.freeCurvature * leaf.length) / 2)) / base.freeCurvature;
		expect((sagitta - was) / inch).toBeCloseTo(0.5, 9);
	});
});

describe('travel', () => {
	it('takes the axle just there, and tells what holds it there', () => {
		for (const { base } of trucks) {
			for (const rise of [3, 1, -1]) {
				const pose = orUndefined(() => springAtRise(base, rise * inch));
				if (!pose) continue;
				expect(Math.abs(pose.axleRise / inch - rise)).toBeLessThan(1e-8);
				expect(pose.load > base.load).toBe(rise > 0);
			}
		}
	});

	it('says how far it goes', () => {
		const { base } = standing(truckA);
		expect(sentenceOf(() => springAtRise(base, 40 * inch))).toMatch(
			/^The axle cannot rise 1016 mm \(40 in\) .* about \d+(\.\d+)? mm/,
		);
		expect(sentenceOf(() => springAtRise(base, -40 * inch))).toMatch(
			/^The axle cannot drop 1016 mm \(40 in\) .* about \d+(\.\d+)? mm/,
		);
	});

	it('droop ends where the axle hangs', () => {
		let hanging = 0;
		for (const { base } of trucks) {
			const end = droopEnd(base, 75 * pound);
			expect(end.fall).toBe(-end.axleRise);
			if (end.overCentre) continue;
			hanging++;
			expect(end.load / pound).toBeCloseTo(-75, 5);
			const there = springAtRise(base, -end.fall);
			expect(there.axleTurned).toBeCloseTo(end.axleTurned, 7);
			expect(droopEnd(base, 150 * pound).fall).toBeGreaterThan(end.fall);
		}
		expect(hanging).toBeGreaterThan(14);
	});

	it('says where the shackle goes over centre before the axle hangs', () => {
		let over = 0;
		for (const { base } of trucks) {
			const end = droopEnd(base, 75 * pound);
			if (!end.overCentre) continue;
			over++;
			// A little less fall takes more load, and so does a little more, or there is no more.
			const before = springAtRise(base, -(end.fall - 0.05 * inch));
			expect(before.load).toBeGreaterThan(end.load);
			const beyond = orUndefined(() => springAtRise(base, -(end.fall + 0.05 * inch)));
			if (beyond) expect(beyond.load).toBeGreaterThan(end.load);
		}
		expect(over).toBeGreaterThan(0);
	});
});

describe('a shackle that leans far', () => {
	it('keeps its rest until there is none any more', () => {
		// It stands, and leans forward: as its pivot goes back the leaf pulls it flat.
		const leaf = leafSpring(27 * inch, 36 * inch, (168 * pound) / inch);
		const [chord, shackle, lean] = [61.95 * inch, 4.4 * inch, -38 * degree];
		const mount = springMount(
			chord - shackle * Math.sin(lean),
			-inch - shackle * Math.cos(lean),
			shackle,
			true,
		);
		const fit = axleFit(false, 3.4 * inch, 1.4 * inch, 0, 0, 0);
		const load = 520 * pound;
		const base = springAtBaseline(leaf, mount, fit, 5 * inch, load);
		const pulled = Array.from({ length: 400 }, (_, step) =>
			orUndefined(() => {
				const back = springMountMoved(mount, 0, 0, 0, -0.01 * step * inch, 0);
				return springAfterJob(base, leaf, back, fit, 0, load, level);
			}),
		);
		const rests = pulled.filter((rest) => rest !== undefined);
		// No place without a rest lies between two that have one.
		expect(pulled.slice(0, rests.length)).toEqual(rests);
		expect(rests.at(-1)?.shackleLean).toBeLessThan(-80 * degree);
	});
});

describe('the room of the shackle', () => {
	it('is reached by travel, nearly, and no more than a little beyond', () => {
		for (const { base } of trucks) {
			const room = shackleRoom(base);
			expect(room.bumpTravel).toBeGreaterThan(0);
			expect(room.droopTravel).toBeGreaterThan(0);
			for (const [rise, inLine] of [
				[room.bumpTravel, room.bumpInLine],
				[-room.droopTravel, room.droopInLine],
			] as const) {
				const near = springAtRise(base, 0.98 * rise);
				expect(near.axleRise).toBeCloseTo(0.98 * rise, 8);
				// Toward in line the last degrees hold the last tenth of the travel, toward a lock next to none.
				const most = 1.2 * rise + Math.sign(rise) * 2 * inch;
				if (!inLine) expect(orUndefined(() => springAtRise(base, most))).toBeUndefined();
			}
		}
	});

	it('ends five degrees from in line where the shackle comes in line', () => {
		const { base, mount } = standing(truckB);
		const room = shackleRoom(base);
		expect(room.droopInLine).toBe(true);
		const there = springAtRise(base, -room.droopTravel);
		const angle = shackleAngle(mount, there).toChord / degree;
		expect(Math.min(angle, 180 - angle)).toBeCloseTo(5, 3);
		const swing = Math.abs(angle - shackleAngle(mount, base).toChord / degree);
		expect(room.droopSwing / degree).toBeCloseTo(swing, 3);
	});

	it('is the same end from wherever it is looked for', () => {
		for (const { base } of trucks) {
			const room = shackleRoom(base);
			const moved = orUndefined(() => springAtRise(base, 0.5 * inch));
			if (!moved || !room.bumpInLine || !room.droopInLine) continue;
			const from = shackleRoom(moved);
			expect(from.bumpTravel + moved.axleRise).toBeCloseTo(room.bumpTravel, 5);
			expect(from.droopTravel - moved.axleRise).toBeCloseTo(room.droopTravel, 5);
		}
	});

	it('folds a leaf that is too long back on its shackle in bump', () => {
		// Flat, 54 in of leaf reach farther than eye to pivot and shackle together.
		const { leaf, fit } = standing(truckA);
		const mount = springMount(48.9 * inch, 0, 5 * inch, true);
		const base = springAtBaseline(leaf, mount, fit, 3.5 * inch, 850 * pound);
		const room = shackleRoom(base);
		expect(room.bumpInLine).toBe(true);
		expect(room.bumpTravel / inch).toBeLessThan(3);
		expect(springAtRise(base, 0.9 * room.bumpTravel).load).toBeGreaterThan(base.load);
	});
});

describe('wind-up', () => {
	it('goes with the torque at first, brakes the other way, and with none is none', () => {
		for (const { base } of trucks) {
			expect(springWoundUp(base, 0, 0.36).axleTurned).toBe(0);
			const one = springWoundUp(base, 1, 0.36).axleTurned;
			const back = springWoundUp(base, -1, 0.36).axleTurned;
			expect(one).toBeGreaterThan(0);
			expect(back / one).toBeCloseTo(-1, 3);
			expect(springWoundUp(base, 100, 0.36).axleTurned / one).toBeCloseTo(100, -1);
		}
	});

	it('refuses a torque that would wrap the springs up', () => {
		const { base } = standing(truckA);
		expect(sentenceOf(() => springWoundUp(base, 5e4, 0.36))).toMatch(
			/^A torque of 50000 N·m \(36880 lbf ft\) at the wheels would wrap/,
		);
	});
});

describe('an axle held against winding up', () => {
	const rate = (2000 * pound) / inch;

	it('climbs as an exact leaf does under what the rubber leaves it of weight and torque', () => {
		for (const truck of [truckA, truckB]) {
			const { leaf, mount, load, base } = standing(truck);
			for (const [ahead, gap] of [
				[26 * inch, 0 * inch],
				[40 * inch, 0.25 * inch],
			] as const) {
				const bar = springHeld(base, 1400, 0.34, ahead, gap, rate, false);
				expect(bar.armForce).toBeGreaterThan(40);
				const exact = exactLeaf(leaf.front, leaf.rear, leaf.rate);
				const axle = {
					side: -1,
					seatToAxle: 3 * inch,
					seatToPad: 1 * inch,
					wedge: 0,
					wedgeThickness: 0,
				};
				const before = exactAtArch(exact, mount, axle, truck.layout.arch * inch, load);
				const after = exactAfter(before, mount, axle, {
					load: load - bar.armForce,
					torque: 700 - bar.armForce * ahead,
					thrust: 700 / 0.34,
					frame: { turn: 0 },
				});
				const turned = after.axleTurn - before.axleTurn;
				const rise = after.axleZ - before.axleZ;
				expect(Math.abs(bar.axleTurned - turned) / degree).toBeLessThan(0.02);
				expect(Math.abs(bar.axleRise - rise) / inch).toBeLessThan(0.01);
				// The rubber is squeezed by what the exact leaf's axle has come past the gap.
				const squeezed = rise + ahead * turned - gap;
				expect(Math.abs(bar.armForce / rate - squeezed) / inch).toBeLessThan(0.02);
			}
		}
	});

	it('is free until the gap is closed, and without a rubber', () => {
		for (const { base } of trucks) {
			const plain = springWoundUp(base, 900, 0.34);
			const closes = plain.axleRise + 1.1 * plain.axleTurned;
			const before = springHeld(base, 900, 0.34, 1.1, closes + 1e-6, rate, false);
			expect(before.axleTurned).toBe(plain.axleTurned);
			expect(before.armForce).toBe(0);
			expect(springHeld(base, 900, 0.34, 1.1, 0, 0, false).axleTurned).toBe(plain.axleTurned);
			const after = springHeld(base, 900, 0.34, 1.1, closes - 1e-3, rate, false);
			expect(after.armForce).toBeGreaterThan(0);
			expect(after.axleTurned).toBeLessThan(plain.axleTurned);
			// Braking turns it away from the rubber; an arm that is bolted on holds it there too.
			expect(springHeld(base, -600, 0.34, 1.1, 0, rate, false).armForce).toBe(0);
			expect(springHeld(base, -600, 0.34, 1.1, 0, rate, true).armForce).toBeLessThan(0);
		}
	});

	it('keeps the end of an arm that is all but rigid where it was', () => {
		for (const { base } of trucks) {
			const { axleRise, axleTurned } = springHeld(base, 1200, 0.34, 1.1, 0, 1e8, true);
			expect(Math.abs(axleRise + 1.1 * axleTurned)).toBeLessThan(1e-5);
			expect(axleTurned).toBeLessThan(springWoundUp(base, 1200, 0.34).axleTurned);
		}
	});

	it('holds an axle that its springs alone would let wrap up', () => {
		const { base } = standing(truckA);
		expect(() => springWoundUp(base, 12_000, 0.36)).toThrow(OutOfRange);
		const held = springHeld(base, 12_000, 0.36, 0.5, 0, (6000 * pound) / inch, false);
		expect(held.axleTurned / degree).toBeLessThan(12);
		expect(sentenceOf(() => springHeld(base, 5e5, 0.36, 0.5, 0, 1000, false))).toMatch(
			/would wrap these springs up/,
		);
	});
});

describe('a shim under the transmission mount', () => {
	it('turns engine and transmission about the engine mounts', () => {
		const slope = 5 * degree;
		const joint = { x: 0.2, z: -0.1 };
		const after = transmissionShimmed(joint, slope, 0.9, 0.012, 0.8);
		const tilt = Math.atan2(0.012, 0.8);
		expect(after.slope).toBeCloseTo(slope - tilt, 12);
		const engine = { x: joint.x + 0.9 * Math.cos(slope), z: joint.z + 0.9 * Math.sin(slope) };
		expect(Math.hypot(engine.x - after.x, engine.z - after.z)).toBeCloseTo(0.9, 12);
		const before = Math.atan2(joint.z - engine.z, joint.x - engine.x);
		expect(before - Math.atan2(after.z - engine.z, after.x - engine.x)).toBeCloseTo(tilt, 12);
		expect(after.z).toBeGreaterThan(joint.z);
		expect(transmissionShimmed(joint, slope, 0.9, 0, 0.8)).toEqual({ ...joint, slope });
	});
});

describe('sentences', () => {
	const { leaf, mount, fit, load, base } = standing(truckA);
	const at =
		(eyeToPivot: number, shackle: number, arch: number, stands = false) =>
		() =>
			springAtBaseline(
				leaf,
				springMount(eyeToPivot * inch, 0, shackle * inch, stands),
				fit,
				arch * inch,
				load,
			);

	it('say that the shackle is too short, too long, or cannot make up for the leaf', () => {
		const short = sentenceOf(at(60, 5, 0));
		expect(short).toContain('shackle is too short by 25.4 mm (1 in)');
		expect(sentenceOf(at(45, 5, 0))).toContain('difference of 228.6 mm (9 in)');
		expect(sentenceOf(at(30, 90, 0))).toContain('shackle is too long by 152.4 mm (6 in)');
	});

	it('say that the shackle points at the seat, and how it leans', () => {
		expect(sentenceOf(at(48.4, 5, 3.5, true))).toMatch(
			/^The shackle leans -?\d+(\.\d+)?°.*in line/,
		);
	});

	it('say that a spring would give way as it was entered', () => {
		expect(sentenceOf(at(48.4, 5, 3.5))).toMatch(
			/^As entered, this spring would give way under its/,
		);
	});

	it('say that a job leaves parts that do not meet', () => {
		const moved = springMountMoved(mount, 0, 8 * inch, 0, 0, 0);
		expect(sentenceOf(() => springAfterJob(base, leaf, moved, fit, 0, load, level))).toMatch(
			/^The parts cannot be assembled.*shackle is too short/,
		);
	});

	it('say that there is no rest under a load the spring cannot find', () => {
		expect(sentenceOf(() => springAfterJob(base, leaf, mount, fit, 0, 9e5, level))).toMatch(
			/finds no rest under 900000 N .*carries less than that/,
		);
	});
});

describe('a rest that would not hold', () => {
	const shortLeaf = (front: number, rear: number, rate: number) => {
		const args = [front * inch, rear * inch, (rate * pound) / inch] as const;
		return { arcs: leafSpring(...args), exact: exactLeaf(...args) };
	};
	const fit = axleFit(true, 0, 0, 0, 0, 0);
	const still = { wheelbase: 100, frontDrop: 0, rearTyreDrop: 0 };

	it('is not given to a spring that has lost its own', () => {
		// 150 lb off leaves this one no rest; far off, bowed 7 in up, it would balance on an edge, with the
		// frame 11 in lower under less load.
		const { arcs, exact } = shortLeaf(20, 22, 90);
		const mount = springMount(42 * inch, 3 * inch, 3.5 * inch, false);
		const base = springAtBaseline(arcs, mount, fit, 3 * inch, 720 * pound);
		expect(sentenceOf(() => springAfterJob(base, arcs, mount, fit, 0, 570 * pound, still))).toMatch(
			/finds no rest/,
		);
		const before = exactAtArch(exact, mount, fit, 3 * inch, 720 * pound);
		const acting = { load: 570 * pound, torque: 0, thrust: 0, frame: { turn: 0 } };
		expect(() => exactAfter(before, mount, fit, acting, 20)).toThrow('No equilibrium');
	});

	it('is not taken before the one the spring comes to', () => {
		// A quarter more load and the pivot 2 in up: the leaf gives way to about an inch of arch. Nearer, on
		// the other side, lies an arch of 4.7 in where the shackle would just balance the load.
		const { arcs, exact } = shortLeaf(19.5, 19.5, 95);
		const mount = springMount(40 * inch, 5 * inch, 3.5 * inch, false);
		const moved = springMountMoved(mount, 0, 0, 2 * inch, 0, 0);
		const base = springAtBaseline(arcs, mount, fit, 3 * inch, 570 * pound);
		const before = exactAtArch(exact, mount, fit, 3 * inch, 570 * pound);
		const acting = { load: 712.5 * pound, torque: 0, thrust: 0, frame: { turn: 0 } };
		const truth = exactAfter(before, moved, fit, acting, 20);
		const after = springAfterJob(base, arcs, moved, fit, 0, 712.5 * pound, still);
		const short = after.axleRise - (truth.axleZ - before.axleZ);
		expect(Math.abs(short) / inch).toBeLessThan(0.02);
	});
});

describe('the cost', () => {
	it('is at most ten poses for most solves from the rest before the job, in four passes or so each', () => {
		const draw = drawing(7);
		const costs: { poses: number; passes: number }[] = [];
		for (const truck of trucks) {
			for (const job of drawnJobs(draw)) {
				const { poses, passes } = posesTaken;
				if (!orUndefined(() => afterJob(truck, job))) continue;
				costs.push({ poses: posesTaken.poses - poses, passes: posesTaken.passes - passes });
			}
		}
		const poses = costs.map((cost) => cost.poses).sort((a, b) => a - b);
		const each = costs.map((cost) => cost.passes / cost.poses).sort((a, b) => a - b);
		expect(poses[Math.floor(poses.length / 2)]).toBeLessThanOrEqual(10);
		expect(poses[Math.floor(0.99 * poses.length)]).toBeLessThanOrEqual(20);
		expect(each[Math.floor(each.length / 2)]).toBeLessThanOrEqual(5);
	});
});

describe('common practice, no source', () => {
	// Invented: a leaf near 54 in, its seat ahead of the middle, a hanging shackle near upright.
	const truck = (arch: number, eyeToPivot: number): Truck => ({
		...truckA,
		layout: {
			...truckA.layout,
			front: 22,
			rear: 32,
			arch,
			eyeToPivot,
			pivotUp: 5,
			load: 900,
		},
	});

	it('a front eye raised until the rear is 3½ in lower turns the pinion about 8° nose-up', () => {
		for (const [arch, eyeToPivot] of [
			[1, 54],
			[2, 53.8],
			[3, 53.5],
		] as const) {
			const job = truck(arch, eyeToPivot);
			const figures = referenceFigures(job, { eyeRaise: 6 }, []);
			expect(figures.rearDrop).toBeGreaterThan(3.25);
			expect(figures.rearDrop).toBeLessThan(3.75);
			const toFloor = figures.pinionSlope - job.pinionSlope;
			expect(toFloor).toBeGreaterThan(7.5);
			expect(toFloor).toBeLessThan(8.5);
			expect(figures.rakeChange).toBeGreaterThan(1.5);
			expect(figures.rakeChange).toBeLessThan(2);
			const shorter = job.shaftLength - figures.shaftLength;
			expect(shorter).toBeGreaterThan(0.5);
			expect(shorter).toBeLessThan(1.25);
			const wedged = referenceFigures(job, { eyeRaise: 6, wedge: -6 }, []);
			const back = wedged.pinionSlope - job.pinionSlope;
			expect(Math.abs(back)).toBeGreaterThan(1);
			expect(Math.abs(back)).toBeLessThan(2.25);
		}
	});

	it('the front eye up tips nose-up, the rear eye up nose-down, and both lower the truck', () => {
		for (const layout of layouts) {
			const job = { ...truckA, layout };
			const front = referenceFigures(job, { eyeRaise: 2 }, []);
			expect(front.pinionTurn).toBeGreaterThan(1);
			expect(front.rearDrop).toBeGreaterThan(0.5);
			const rear = referenceFigures(job, { pivotRaise: 2 }, []);
			expect(rear.pinionTurn).toBeLessThan(-1);
			expect(rear.rearDrop).toBeGreaterThan(0.5);
		}
	});

	it('a longer standing shackle tips nose-down and lowers, a longer hanging one raises', () => {
		for (const layout of layouts) {
			const longer = referenceFigures({ ...truckA, layout }, { shackleLonger: 1.5 }, []);
			if (layout.stands) {
				expect(longer.pinionTurn).toBeLessThan(-0.5);
				expect(longer.rearDrop).toBeGreaterThan(0.25);
			} else {
				expect(longer.pinionTurn).toBeGreaterThan(0.5);
				expect(longer.rearDrop).toBeLessThan(-0.25);
			}
		}
	});
});
