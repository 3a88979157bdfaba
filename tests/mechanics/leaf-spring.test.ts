import { describe, expect, it } from 'vitest';
import { axleOnSeat, springAtAxleRise } from '../../src/lib/mechanics/axle.ts';
import {
	archOfCurvature,
	curvatureOfArch,
	leafSpring,
	springAtArch,
	springAtLoad,
	springMount,
	springMountMoved,
	springPose,
	windUpStiffness,
} from '../../src/lib/mechanics/leaf-spring.ts';
import { OutOfRange } from '../../src/lib/mechanics/out-of-range.ts';
import {
	figuresOfJob,
	inch,
	layouts,
	pound,
	springAfterJob,
	springOf,
	springRows,
	truckA,
	truckB,
	type Truck,
} from './accuracy/spring.ts';
import { taperedLeaf, taperedLeafAtArch, taperedLeafAtLoad } from './large-deflection-leaf.ts';

describe('accuracy', () => {
	for (const { figure, against, error, unit, held } of springRows()) {
		it(`${figure}: within ${held} ${unit} of ${against}`, () => {
			expect(error).toBeGreaterThan(0);
			expect(error).toBeLessThanOrEqual(held);
		});
	}
});

describe('the large-deflection leaf itself', () => {
	const rate = (150 * pound) / inch;
	const upright = springMount(52 * inch, 30 * inch, 30 * inch, false);

	it('has the rate it was asked for, with any floor, on level supports and a long shackle', () => {
		for (const floor of [0.02, 1 / 6, 0.4]) {
			const leaf = taperedLeaf(22 * inch, 30 * inch, rate, floor);
			const flat = taperedLeafAtArch(leaf, upright, 0, 0);
			const lighter = taperedLeafAtLoad(leaf, flat, upright, 0.1 * pound);
			const heavier = taperedLeafAtLoad(leaf, flat, upright, 0.2 * pound);
			const found = (0.1 * pound) / (heavier.seatZ - lighter.seatZ);
			expect(Math.abs(found / rate - 1)).toBeLessThan(1e-5);
		}
	});

	it('solves its equations, and no longer moves when its elements are halved', () => {
		for (const layout of layouts) {
			const solve = (elements: number) => {
				const leaf = taperedLeaf(
					layout.front * inch,
					layout.rear * inch,
					(layout.rate * pound) / inch,
					1 / 6,
					elements,
				);
				const { mount } = springOf(layout);
				const rest = taperedLeafAtArch(leaf, mount, layout.arch * inch, layout.load * pound);
				const moved = springMountMoved(mount, 4 * inch, 0, inch, 0, inch / 2);
				return taperedLeafAtLoad(leaf, rest, moved, layout.load * pound * 1.1);
			};
			const coarse = solve(20);
			const fine = solve(40);
			expect(fine.residual).toBeLessThan(1e-9);
			expect(Math.abs(fine.seatZ - coarse.seatZ)).toBeLessThan(1e-7);
			expect(Math.abs(fine.seatTurn - coarse.seatTurn)).toBeLessThan(1e-7);
		}
	});

	it('does not depend on the floor more than a tape shows', () => {
		for (const layout of layouts) {
			const travels = [0.05, 0.25].map((floor) => {
				const leaf = taperedLeaf(
					layout.front * inch,
					layout.rear * inch,
					(layout.rate * pound) / inch,
					floor,
				);
				const { mount } = springOf(layout);
				const load = layout.load * pound;
				const rest = taperedLeafAtArch(leaf, mount, layout.arch * inch, load);
				return taperedLeafAtLoad(leaf, rest, mount, load + 200 * pound).seatZ - rest.seatZ;
			});
			expect(Math.abs((travels[0] ?? NaN) - (travels[1] ?? NaN))).toBeLessThan(inch / 64);
		}
	});

	it('is the arc of its free curvature with no load on it', () => {
		const leaf = taperedLeaf(24 * inch, 30 * inch, rate);
		const mount = springMount(53.6 * inch, 4.6 * inch, 5 * inch, false);
		const free = taperedLeafAtArch(leaf, mount, 5 * inch, 0);
		const arc = springPose(
			leafSpring(24 * inch, 30 * inch, rate),
			mount,
			curvatureOfArch(5 * inch, 54 * inch),
		);
		expect(Math.abs(free.freeCurvature - arc.curvature)).toBeLessThan(1e-7);
		expect(Math.abs(free.seatX - arc.seatX)).toBeLessThan(1e-7);
		expect(Math.abs(free.seatZ - arc.seatZ)).toBeLessThan(1e-7);
		expect(Math.abs(free.seatTurn - arc.seatTurn)).toBeLessThan(1e-7);
	});
});

describe('a spring with nothing changed', () => {
	it('is what it was, to the last bit', () => {
		for (const layout of layouts) {
			const { rest } = springOf(layout);
			const after = springAfterJob(layout, {});
			expect(after.rest).toEqual(rest);
			expect(after.rest.seatX - rest.seatX).toBe(0);
			expect(after.rest.seatZ - rest.seatZ).toBe(0);
			expect(after.rest.seatTurn - rest.seatTurn).toBe(0);
			const risen = springAtAxleRise(after.leaf, after.mount, rest, -3 * inch, 0, 0);
			expect(risen.seatZ - rest.seatZ).toBe(0);
		}
		for (const truck of [truckA, truckB]) {
			const figures = figuresOfJob(truck, {});
			expect(figures.rearDrop).toBe(0);
			expect(figures.axleForward).toBe(0);
			expect(figures.pinionTurn).toBe(0);
			expect(figures.rakeChange).toBe(0);
		}
	});
});

describe('through a flat leaf', () => {
	const leaf = leafSpring(24 * inch, 30 * inch, (160 * pound) / inch);
	const mount = springMount(53.6 * inch, 4.6 * inch, 5 * inch, false);
	const small = [1e-3, 1e-4, 1e-5, 1e-6];

	it('goes smoothly from bowed down to bowed up', () => {
		const flat = springAtArch(leaf, mount, 0, 850 * pound);
		expect(flat.curvature).toBe(0);
		expect(flat.arch).toBe(0);
		expect(flat.chord).toBe(leaf.length);
		for (const arch of small) {
			const down = springAtArch(leaf, mount, arch, 850 * pound);
			const up = springAtArch(leaf, mount, -arch, 850 * pound);
			for (const key of ['seatX', 'seatZ', 'seatTurn', 'freeCurvature', 'shackleLean'] as const) {
				// The middle of both sides is the flat leaf, but for what falls with the square of the arch.
				const offMiddle = (down[key] + up[key]) / 2 - flat[key];
				expect(Math.abs(offMiddle)).toBeLessThan(100 * arch * arch + 1e-12);
				expect(Math.abs(down[key] - flat[key])).toBeLessThan(100 * arch);
			}
			expect(down.seatZ).toBeLessThan(flat.seatZ);
			expect(up.seatZ).toBeGreaterThan(flat.seatZ);
		}
	});

	it('comes to rest smoothly there too', () => {
		const after = (arch: number) => {
			const rest = springAtArch(leaf, mount, arch, 850 * pound);
			const moved = springMountMoved(mount, 2 * inch, 0, inch, 0, 0.5 * inch);
			return springAtLoad(leaf, moved, rest, 900 * pound);
		};
		const flat = after(0);
		for (const arch of small) {
			for (const key of ['seatX', 'seatZ', 'seatTurn'] as const) {
				const offMiddle = (after(arch)[key] + after(-arch)[key]) / 2 - flat[key];
				expect(Math.abs(offMiddle)).toBeLessThan(100 * arch * arch + 1e-12);
			}
		}
	});

	it('crosses flat in bump, and takes an arch bowed up', () => {
		const rest = springAtArch(leaf, mount, 1 * inch, 850 * pound);
		const bump = springAtAxleRise(leaf, mount, rest, -3 * inch, 0, 3 * inch);
		expect(bump.arch).toBeLessThan(0);
		const bowedUp = springAtArch(leaf, mount, -1.5 * inch, 850 * pound);
		expect(bowedUp.arch).toBeCloseTo(-1.5 * inch, 12);
		expect(bowedUp.curvature).toBeLessThan(0);
		expect(bowedUp.freeCurvature).toBeGreaterThan(bowedUp.curvature);
		const heavier = springAtLoad(leaf, mount, bowedUp, 950 * pound);
		expect(heavier.seatZ).toBeGreaterThan(bowedUp.seatZ);
	});

	it('has the same arch with the other sign for the other curvature', () => {
		for (const arch of [...small, 0.1, 0.3]) {
			const curvature = curvatureOfArch(arch, 1.4);
			expect(curvatureOfArch(-arch, 1.4)).toBeCloseTo(-curvature, 13);
			expect(archOfCurvature(-curvature, 1.4)).toBe(-archOfCurvature(curvature, 1.4));
			expect(archOfCurvature(curvature, 1.4)).toBeCloseTo(arch, 14);
		}
	});
});

describe('wind-up', () => {
	it('is k L² / 4 for even halves', () => {
		// SAE HS-788 (from memory).
		const leaf = leafSpring(0.66, 0.66, 28000);
		expect(windUpStiffness(leaf)).toBeCloseTo((28000 * 1.32 * 1.32) / 4, 8);
	});

	it('is what two clamped cantilevers give on the seat', () => {
		// A turn φ of the seat with its height free: eye forces R and −R, so M = R·L. Each half bends by
		// R l³ / (2 EI) as a uniform-strength cantilever, and both together make φ·L.
		const leaf = leafSpring(0.58, 0.79, 30000);
		const force = 100;
		const bent = (half: number): number => (force * half ** 3) / (2 * leaf.stiffness);
		const turn = (bent(leaf.front) + bent(leaf.rear)) / leaf.length;
		expect((force * leaf.length) / turn / windUpStiffness(leaf)).toBeCloseTo(1, 12);
	});
});

/** The sentence of the OutOfRange a call throws. */
function sentenceOf(call: () => unknown): string {
	try {
		call();
	} catch (cause) {
		if (!(cause instanceof OutOfRange)) throw cause;
		return cause.message;
	}
	throw new Error('Nothing was thrown.');
}

describe('sentences', () => {
	const leaf = leafSpring(24 * inch, 30 * inch, (160 * pound) / inch);
	const stock = springMount(53.6 * inch, 4.6 * inch, 5 * inch, false);
	const rest = springAtArch(leaf, stock, 3.5 * inch, 850 * pound);

	it('say that the shackle is too short to reach', () => {
		// 60 in from eye to pivot, 54 in of flat leaf and 5 in of shackle: 1 in is missing.
		const mount = springMount(60 * inch, 0, 5 * inch, false);
		const sentence = sentenceOf(() => springAtArch(leaf, mount, 0, 850 * pound));
		expect(sentence).toContain('shackle is too short by 25.4 mm (1 in)');
		expect(sentence).toContain('(60 in)');
		expect(sentence).toContain('(54 in)');
	});

	it('say that the shackle cannot make up for a leaf longer than eye to pivot', () => {
		const mount = springMount(45 * inch, 0, 5 * inch, false);
		const sentence = sentenceOf(() => springAtArch(leaf, mount, 0, 850 * pound));
		expect(sentence).toContain('shackle of 127 mm (5 in)');
		expect(sentence).toContain('difference of 228.6 mm (9 in)');
	});

	it('say that the shackle is too long', () => {
		// 54 in of leaf and 30 in from eye to pivot cannot close a triangle with 90 in of shackle.
		const mount = springMount(30 * inch, 0, 90 * inch, false);
		const sentence = sentenceOf(() => springAtArch(leaf, mount, 0, 850 * pound));
		expect(sentence).toContain('shackle is too long by 152.4 mm (6 in)');
		expect(sentence).toContain('(90 in)');
	});

	it('say that the shackle points at the seat, and how it leans', () => {
		const mount = springMount(58.38 * inch, 0, 5 * inch, false);
		const sentence = sentenceOf(() => springAtArch(leaf, mount, 3.5 * inch, 850 * pound));
		expect(sentence).toMatch(/^The shackle .*in line with the spring seat/);
		expect(sentence).toMatch(/-?\d+(\.\d+)?°/);
	});

	it('say that there is no rest under a load the spring cannot find', () => {
		const sentence = sentenceOf(() => springAtLoad(leaf, stock, rest, 9e5));
		expect(sentence).toMatch(/finds no rest under 900000 N .*carries less than that/);
	});

	it('say how far the axle can rise and drop', () => {
		const rise = sentenceOf(() => springAtAxleRise(leaf, stock, rest, 0, 0, 40 * inch));
		expect(rise).toMatch(/^The axle cannot rise 1016 mm \(40 in\) .* about \d+(\.\d+)? mm/);
		const drop = sentenceOf(() => springAtAxleRise(leaf, stock, rest, 0, 0, -40 * inch));
		expect(drop).toMatch(/^The axle cannot drop 1016 mm \(40 in\) .* about \d+(\.\d+)? mm/);
	});

	it('name a part and its number for what cannot be measured so', () => {
		expect(sentenceOf(() => leafSpring(-0.6, 0.7, 3e4))).toContain(
			'front half of the leaf is -600 mm (-23.62 in)',
		);
		expect(sentenceOf(() => leafSpring(0.6, 0, 3e4))).toContain('rear half of the leaf is 0 mm');
		expect(sentenceOf(() => leafSpring(0.6, 0.7, -1))).toContain('leaf rate is -1');
		expect(sentenceOf(() => springMount(1.3, 0.1, 0, false))).toContain('shackle length is 0 mm');
		expect(sentenceOf(() => springMountMoved(stock, 0, 0, 0, 0, -6 * inch))).toContain(
			'shackle length after the change is -25.4 mm (-1 in)',
		);
		expect(sentenceOf(() => curvatureOfArch(0.5, 1.4))).toContain('arch is 500 mm');
		expect(sentenceOf(() => springAtArch(leaf, stock, 0.09, -5))).toContain(
			'load on the spring is -5',
		);
	});

	it('give no less than the travel the parts allow', () => {
		// A short standing shackle: in droop it lies down until it is in line with the leaf's ends. The
		// travel to there is told to a tape's sixteenth, and any less is reached.
		const mount = springMount(54 * inch, -4 * inch, 4 * inch, true);
		const even = leafSpring(27 * inch, 28.5 * inch, (160 * pound) / inch);
		const stands = springAtArch(even, mount, 3.5 * inch, 850 * pound);
		const from = axleOnSeat(stands, -3 * inch, 0).z;
		let least = 0;
		for (let part = 1; part <= 40000; part++) {
			const curvature =
				stands.curvature + (part / 40000) * (Math.PI / even.length - stands.curvature);
			try {
				const { z } = axleOnSeat(springPose(even, mount, curvature), -3 * inch, 0);
				least = Math.min(least, z - from);
			} catch (cause) {
				expect(cause).toBeInstanceOf(OutOfRange);
				break;
			}
		}
		const sentence = sentenceOf(() =>
			springAtAxleRise(even, mount, stands, -3 * inch, 0, least - 1 * inch),
		);
		const told = Number(/about [^(]*\(([\d.]+) in\)/.exec(sentence)?.[1]);
		expect(Math.abs(told + least / inch)).toBeLessThan(1 / 16);
		const reached = springAtAxleRise(even, mount, stands, -3 * inch, 0, least + inch / 16);
		expect(axleOnSeat(reached, -3 * inch, 0).z - from).toBeCloseTo(least + inch / 16, 9);
	});
});

describe('a rest that would not hold', () => {
	const shortLeaf = (front: number, rear: number, rate: number) => {
		const args = [front * inch, rear * inch, (rate * pound) / inch] as const;
		return { arc: leafSpring(...args), tapered: taperedLeaf(...args) };
	};

	it('is not given to a spring that has lost its own', () => {
		// 150 lb off leaves this one no rest; far off, bowed 7 in up, it would balance on an edge, with the
		// frame 11 in lower under less load.
		const { arc, tapered } = shortLeaf(20, 22, 90);
		const mount = springMount(42 * inch, 3 * inch, 3.5 * inch, false);
		const rest = springAtArch(arc, mount, 3 * inch, 720 * pound);
		expect(sentenceOf(() => springAtLoad(arc, mount, rest, 570 * pound))).toMatch(/finds no rest/);
		const truth = taperedLeafAtArch(tapered, mount, 3 * inch, 720 * pound);
		expect(() => taperedLeafAtLoad(tapered, truth, mount, 570 * pound)).toThrow('No equilibrium');
	});

	it('is not taken before the one the spring comes to', () => {
		// A quarter more load and the pivot 2 in up: the leaf gives way to about an inch of arch. Nearer, on
		// the other side, lies an arch of 4.7 in where the shackle would just balance the load.
		const { arc, tapered } = shortLeaf(19.5, 19.5, 95);
		const mount = springMount(40 * inch, 5 * inch, 3.5 * inch, false);
		const moved = springMountMoved(mount, 0, 0, 2 * inch, 0, 0);
		const rest = springAtArch(arc, mount, 3 * inch, 570 * pound);
		const truth = taperedLeafAtArch(tapered, mount, 3 * inch, 570 * pound);
		const exact = taperedLeafAtLoad(tapered, truth, moved, 712.5 * pound);
		const found = springAtLoad(arc, moved, rest, 712.5 * pound);
		expect(exact.arch / inch).toBeCloseTo(0.89, 1);
		expect(Math.abs(found.arch - exact.arch) / inch).toBeLessThan(0.5);
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
			const figures = figuresOfJob(job, { eyeRaise: 6 });
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
			const wedged = figuresOfJob(job, { eyeRaise: 6 }, -6);
			const back = wedged.pinionSlope - job.pinionSlope;
			expect(Math.abs(back)).toBeGreaterThan(1);
			expect(Math.abs(back)).toBeLessThan(2.25);
		}
	});

	it('the front eye up tips nose-up, the rear eye up nose-down, and both lower the truck', () => {
		for (const layout of layouts) {
			const job = { ...truckA, layout };
			const front = figuresOfJob(job, { eyeRaise: 2 });
			expect(front.pinionTurn).toBeGreaterThan(1);
			expect(front.rearDrop).toBeGreaterThan(0.5);
			const rear = figuresOfJob(job, { pivotRaise: 2 });
			expect(rear.pinionTurn).toBeLessThan(-1);
			expect(rear.rearDrop).toBeGreaterThan(0.5);
		}
	});

	it('a longer standing shackle tips nose-down and lowers, a longer hanging one raises', () => {
		for (const layout of layouts) {
			const longer = figuresOfJob({ ...truckA, layout }, { shackleLonger: 1.5 });
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
