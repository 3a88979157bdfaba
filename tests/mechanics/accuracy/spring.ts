/**
 * The accuracy of the law of the spring: against an exact leaf of uniform strength that is loaded at the
 * axle's centre, over many layouts and jobs drawn at random, and against the reference layouts of the
 * design. The tests hold the rows, the table shows them.
 */
import { axleFit, wedgeAtBolt, type AxleFit } from '../../../src/lib/mechanics/axle-fit.ts';
import {
	driveshaftBetween,
	pinionJoint,
	transmissionJoint,
} from '../../../src/lib/mechanics/driveshaft.ts';
import {
	leafSpring,
	springMount,
	springMountMoved,
	windUpStiffness,
} from '../../../src/lib/mechanics/leaf-spring.ts';
import {
	rateInPlace,
	springAfterJob,
	springAtBaseline,
} from '../../../src/lib/mechanics/spring-at-rest.ts';
import type { SpringPlace } from '../../../src/lib/mechanics/spring-pose.ts';
import { droopEnd, springAtRise } from '../../../src/lib/mechanics/spring-travel.ts';
import { springWoundUp } from '../../../src/lib/mechanics/spring-wind-up.ts';
import { operatingAngle } from '../../../src/lib/mechanics/universal-joint.ts';
import { exactAfter, exactAtArch, exactAtRise, exactLeaf, type ExactRest } from '../exact-leaf.ts';
import type { AccuracyRow } from './row.ts';
import { degree, inch, pound, truckA, truckB, type Truck } from './layouts.ts';
import { orRefused } from '../refused.ts';

/** Errors of one figure over many cases. */
export interface SpreadRow {
	figure: string;
	/** What was done. */
	kind: string;
	unit: string;
	count: number;
	rms: number;
	/** 95 of 100 errors are less. */
	most: number;
	worst: number;
}

/** Numbers that are the same each time: a linear congruential generator, Knuth's multiplier. */
export function drawing(seed: number): (low: number, high: number) => number {
	let state = BigInt(seed);
	return (low, high) => {
		state = (state * 6364136223846793005n + 1442695040888963407n) & 0xffffffffffffffffn;
		return low + (high - low) * (Number(state >> 11n) / 2 ** 53);
	};
}

/** A truck drawn at random, SI. */
export interface DrawnTruck {
	leaf: ReturnType<typeof leafSpring>;
	mount: ReturnType<typeof springMount>;
	fit: AxleFit;
	arch: number;
	load: number;
	wheelbase: number;
	base: SpringPlace;
}

/**
 * Trucks as they may be: halves of 20 to 29 in with the longer one behind, 3½ to 7 in of static
 * deflection, hanging and standing shackles of 3½ to 6 in that lean up to 25°, springs over and under.
 * Drawn by where the rear eye stands, so that all can be assembled; none that is near to giving way.
 */
export function drawnTrucks(count: number, seed: number): DrawnTruck[] {
	const draw = drawing(seed);
	const trucks: DrawnTruck[] = [];
	while (trucks.length < count) {
		const front = draw(20, 29) * inch;
		const rear = front * draw(1, 1.4);
		const rate = (draw(110, 240) * pound) / inch;
		const load = rate * draw(3.5, 7) * inch;
		const arch = draw(0.5, 5.5) * inch;
		const stands = draw(0, 1) < 0.4;
		const shackle = draw(3.5, 6) * inch;
		const lean = draw(-25, 25) * degree;
		const rise = draw(-2, 2) * degree;
		const over = draw(0, 1) < 0.7;
		const pad = draw(0.8, 1.6) * inch;
		const fit = axleFit(over, draw(2.5, 4.5) * inch, pad, 0, 0, 0);
		const leaf = leafSpring(front, rear, rate);
		const chord = leaf.length - (8 * arch * arch) / (3 * leaf.length);
		const mount = springMount(
			chord * Math.cos(rise) - shackle * Math.sin(lean),
			chord * Math.sin(rise) + (stands ? -1 : 1) * shackle * Math.cos(lean),
			shackle,
			stands,
		);
		const wheelbase = draw(105, 132) * inch;
		const base = orRefused(() => springAtBaseline(leaf, mount, fit, arch, load));
		const inPlace = base && orRefused(() => rateInPlace(base));
		if (!base || !inPlace || inPlace < 0.5 * rate) continue;
		trucks.push({ leaf, mount, fit, arch, load, wheelbase, base });
	}
	return trucks;
}

/** What is done to a truck: inches, degrees, share of the load. */
interface Job {
	kind: string;
	eyeRaise?: number;
	eyeForward?: number;
	pivotRaise?: number;
	pivotForward?: number;
	shackleLonger?: number;
	loadShare?: number;
	wedge?: number;
	frontDrop?: number;
	/** The axle goes to the other side of the spring, so far from it. */
	flipTo?: number;
}

/** Twenty-seven jobs of seven kinds. */
export function drawnJobs(draw: (low: number, high: number) => number): Job[] {
	const foreAft = (): Job =>
		draw(0, 1) < 0.5
			? { kind: 'fore or aft', eyeForward: draw(-0.75, 0.75) }
			: { kind: 'fore or aft', pivotForward: draw(-0.75, 0.75) };
	const times = (count: number, job: () => Job): Job[] => Array.from({ length: count }, job);
	return [
		...times(4, () => ({ kind: 'hanger', eyeRaise: draw(-1, 5) })),
		...times(4, () => ({ kind: 'pivot', pivotRaise: draw(-1, 3) })),
		...times(4, () => ({ kind: 'shackle', shackleLonger: draw(-1, 2) })),
		...times(4, () => ({ kind: 'load', loadShare: draw(-0.3, 0.3) })),
		...times(4, foreAft),
		...times(5, () => ({
			kind: 'combined',
			eyeRaise: draw(-1, 5),
			eyeForward: draw(-0.5, 0.5),
			pivotRaise: draw(-1, 2.5),
			pivotForward: draw(-0.5, 0.5),
			shackleLonger: draw(-0.5, 1.5),
			loadShare: draw(-0.2, 0.2),
			wedge: draw(-6, 6),
			frontDrop: draw(0, 4),
		})),
		...times(2, () => ({ kind: 'flip', flipTo: draw(2.5, 4.5), wedge: draw(-3, 3) })),
	];
}

/** A truck after a job, by the law, and what the exact solution needs of it. */
export function afterJob(truck: DrawnTruck, job: Job) {
	const mount = springMountMoved(
		truck.mount,
		(job.eyeRaise ?? 0) * inch,
		(job.eyeForward ?? 0) * inch,
		(job.pivotRaise ?? 0) * inch,
		(job.pivotForward ?? 0) * inch,
		(job.shackleLonger ?? 0) * inch,
	);
	const wedge = (job.wedge ?? 0) * degree;
	const { side, seatToAxle, seatToPad } = truck.fit;
	const fit = axleFit(
		job.flipTo === undefined ? side < 0 : side > 0,
		job.flipTo === undefined ? seatToAxle : job.flipTo * inch,
		seatToPad,
		0,
		wedge,
		wedgeAtBolt(wedge, 5 * inch, 0.08 * inch),
	);
	const load = truck.load * (1 + (job.loadShare ?? 0));
	const frontDrop = (job.frontDrop ?? 0) * inch;
	const stance = { wheelbase: truck.wheelbase, frontDrop, rearTyreDrop: 0 };
	const after = springAfterJob(truck.base, truck.leaf, mount, fit, 0, load, stance);
	return { mount, fit, load, frontDrop, after };
}

/** The same by the exact leaf. */
function exactJob(
	truck: DrawnTruck,
	before: ExactRest,
	job: ReturnType<typeof afterJob>,
): ExactRest {
	const { mount, fit, load, frontDrop } = job;
	const frame = { from: before.axleZ, wheelbase: truck.wheelbase, frontDrop };
	return exactAfter(before, mount, fit, { load, torque: 0, thrust: 0, frame });
}

function spreadOf(
	figure: string,
	kind: string,
	unit: string,
	errors: readonly number[],
): SpreadRow {
	const sizes = errors.map(Math.abs).sort((a, b) => a - b);
	const squares = sizes.reduce((sum, size) => sum + size * size, 0);
	return {
		figure,
		kind,
		unit,
		count: sizes.length,
		rms: Math.sqrt(squares / sizes.length),
		most: sizes[Math.ceil(0.95 * sizes.length) - 1] ?? NaN,
		worst: sizes.at(-1) ?? NaN,
	};
}

interface JobError {
	kind: string;
	rise: number;
	forward: number;
	turn: number;
}

/** Inches and degrees that the law is off the exact leaf by: 28 trucks, 27 jobs on each. */
function jobErrors(): JobError[] {
	const draw = drawing(7);
	return drawnTrucks(28, 1).flatMap((truck) => {
		const { leaf } = truck;
		const exact = exactLeaf(leaf.front, leaf.rear, leaf.rate);
		const before = exactAtArch(exact, truck.mount, truck.fit, truck.arch, truck.load);
		return drawnJobs(draw).flatMap((job) => {
			const done = orRefused(() => afterJob(truck, job));
			if (!done) return [];
			const truth = exactJob(truck, before, done);
			const { after } = done;
			return {
				kind: job.kind,
				rise: (after.axleRise - (truth.axleZ - before.axleZ)) / inch,
				forward: (after.axleForward - (truth.axleX - before.axleX)) / inch,
				turn: (after.axleTurned - (truth.axleTurn - before.axleTurn)) / degree,
			};
		});
	});
}

/** The same in travel: the axle held 3 in up and down, and hanging with 75 lb of its own. */
function travelErrors(): JobError[] {
	return drawnTrucks(28, 1).flatMap(({ leaf, mount, fit, arch, load, base }) => {
		const exact = exactLeaf(leaf.front, leaf.rear, leaf.rate);
		const before = exactAtArch(exact, mount, fit, arch, load);
		const error = (kind: string, moved: SpringPlace, truth: ExactRest): JobError => ({
			kind,
			rise: (moved.axleRise - (truth.axleZ - before.axleZ)) / inch,
			forward: (moved.axleForward - (truth.axleX - before.axleX)) / inch,
			turn: (moved.axleTurned - (truth.axleTurn - before.axleTurn)) / degree,
		});
		const held = [3, -3].flatMap((rise) => {
			const moved = orRefused(() => springAtRise(base, rise * inch));
			if (!moved) return [];
			return error(rise > 0 ? 'bump' : 'droop', moved, exactAtRise(before, rise * inch));
		});
		const weight = 75 * pound;
		const end = droopEnd(base, weight);
		if (end.overCentre) return held;
		const acting = { load: -weight, torque: 0, thrust: 0, frame: { turn: 0 } };
		return [...held, error('hanging', end, exactAfter(before, mount, fit, acting, 12))];
	});
}

/** Rows by kind of job, all jobs together, and travel. */
export function springSpread(): SpreadRow[] {
	const errors = jobErrors();
	const travel = travelErrors();
	const kinds = [...new Set(errors.map(({ kind }) => kind))];
	const rows = (kind: string, some: readonly JobError[]): SpreadRow[] => [
		spreadOf(
			'Rise of the axle',
			kind,
			'in',
			some.map(({ rise }) => rise),
		),
		spreadOf(
			'Axle forward',
			kind,
			'in',
			some.map(({ forward }) => forward),
		),
		spreadOf(
			'Turn of the axle',
			kind,
			'°',
			some.map(({ turn }) => turn),
		),
	];
	const ofKind = (some: readonly JobError[], wanted: string): JobError[] =>
		some.filter(({ kind }) => kind === wanted);
	return [
		...kinds.flatMap((kind) => rows(kind, ofKind(errors, kind))),
		...rows('all jobs', errors),
		// Held at its height: there is no rise to be off by.
		...rows('3 in of bump', ofKind(travel, 'bump')).slice(1),
		...rows('3 in of droop', ofKind(travel, 'droop')).slice(1),
		...rows('hanging axle', ofKind(travel, 'hanging')),
	];
}

/** Wind-up of the drawn trucks against the exact leaf under torque and thrust, as shares of its own. */
export function windUpErrors(): { climb: number[]; sinking: number[] } {
	const tyre = 0.36;
	const errors = { climb: [] as number[], sinking: [] as number[] };
	for (const truck of drawnTrucks(28, 1)) {
		const { leaf, mount, fit, load, base } = truck;
		const exact = exactLeaf(leaf.front, leaf.rear, leaf.rate);
		const before = exactAtArch(exact, mount, fit, truck.arch, load);
		for (const wheelTorque of [-1200, 400, 1200, 2000]) {
			const torque = wheelTorque / 2;
			const truth = exactAfter(before, mount, fit, {
				load,
				torque,
				thrust: torque / tyre,
				frame: { turn: 0 },
			});
			const wound = springWoundUp(base, wheelTorque, tyre);
			const climb = truth.axleTurn - before.axleTurn;
			errors.climb.push(wound.axleTurned / climb - 1);
			// A sinking of next to nothing has no share: it is held against the climb's, a foot from the centre.
			const sinking = truth.axleZ - before.axleZ;
			const size = Math.max(Math.abs(sinking), 0.3 * Math.abs(climb));
			errors.sinking.push((wound.axleRise - sinking) / size);
		}
	}
	return errors;
}

/** A reference layout before and after its job, and in travel, by the law: inches and degrees. */
export function referenceFigures(truck: Truck, job: Omit<Job, 'kind'>, travel: readonly number[]) {
	const { layout } = truck;
	const leaf = leafSpring(layout.front * inch, layout.rear * inch, (layout.rate * pound) / inch);
	const stock = springMount(
		layout.eyeToPivot * inch,
		layout.pivotUp * inch,
		layout.shackleLength * inch,
		layout.stands,
	);
	const fit = axleFit(true, -truck.seatToAxle * inch, 0, 0, 0, 0);
	const load = layout.load * pound;
	const base = springAtBaseline(leaf, stock, fit, layout.arch * inch, load);
	const wheelbase = truck.wheelbase * inch;
	const drawn = { leaf, mount: stock, fit, arch: layout.arch * inch, load, wheelbase, base };
	const { after } = afterJob({ ...drawn, wheelbase }, { kind: 'reference', ...job });
	const pinionAt = (place: SpringPlace) => {
		const slope = truck.pinionSlope * degree + place.axleTurn - base.axleTurn;
		const axle = { x: place.axleX, z: place.axleZ, turn: place.axleTurn };
		const joint = pinionJoint(axle, truck.pinionReach * inch, truck.pinionRise * inch, slope);
		return { slope, joint };
	};
	const { joint } = pinionAt(base);
	const length = truck.shaftLength * inch;
	const transmission = transmissionJoint(joint, length, truck.shaftSlope * degree);
	const jointsAt = (place: SpringPlace) => {
		const pinion = pinionAt(place);
		const shaft = driveshaftBetween(transmission, pinion.joint);
		return {
			frontJoint: operatingAngle(truck.transSlope * degree, shaft.slope) / degree,
			rearJoint: operatingAngle(shaft.slope, pinion.slope) / degree,
			shaftLength: shaft.length / inch,
		};
	};
	const ride = jointsAt(after);
	return {
		rearDrop: after.axleRise / inch,
		axleForward: after.axleForward / inch,
		pinionTurn: after.axleTurned / degree,
		rakeChange: after.frameTurn / degree,
		pinionSlope: (pinionAt(after).slope + after.frameTurn) / degree,
		transSlope: truck.transSlope + after.frameTurn / degree,
		...ride,
		arch: after.arch / inch,
		travel: travel.map((rise) => {
			const place = springAtRise(after, rise * inch);
			const there = jointsAt(place);
			return {
				frontJoint: there.frontJoint,
				rearJoint: there.rearJoint,
				shaftLonger: there.shaftLength - ride.shaftLength,
				axleForward: place.axleForward / inch,
			};
		}),
		windUp: windUpStiffness(leaf) / (pound * inch),
	};
}

/** Each reference layout as computed here, and as the design states it, solved outside the project. */
export const references = [
	{
		truck: truckA,
		computed: () => referenceFigures(truckA, { eyeRaise: 4.5 }, [3, -3]),
		stated: {
			rearDrop: 2.419844,
			axleForward: 0.685583,
			pinionTurn: 4.972973,
			rakeChange: 1.174809,
			pinionSlope: 11.147781,
			transSlope: 6.174809,
			frontJoint: 1.379785,
			rearJoint: 6.352757,
			shaftLength: 57.002462,
			arch: 3.627871,
			windUp: 109714.2857,
			travel: [
				{
					frontJoint: 4.105843,
					rearJoint: 7.661304,
					shaftLonger: 0.558757,
					axleForward: -0.676664,
				},
				{
					frontJoint: 1.506428,
					rearJoint: 4.633624,
					shaftLonger: -0.933849,
					axleForward: 1.195975,
				},
			],
		},
	},
	{
		truck: truckB,
		computed: () => referenceFigures(truckB, { pivotRaise: 2, shackleLonger: 1.5 }, [3, -3]),
		stated: {
			rearDrop: 1.569969,
			axleForward: -0.452709,
			pinionTurn: -4.076244,
			rakeChange: 0.782148,
			pinionSlope: 0.205904,
			transSlope: 4.782148,
			frontJoint: 1.125647,
			rearJoint: 5.701891,
			shaftLength: 52.445582,
			arch: 3.934224,
			windUp: 108298.3425,
			travel: [
				{
					frontJoint: 1.722421,
					rearJoint: 4.880334,
					shaftLonger: 0.166332,
					axleForward: -0.279016,
				},
				{
					frontJoint: 4.056601,
					rearJoint: 6.600058,
					shaftLonger: -0.521822,
					axleForward: 0.783373,
				},
			],
		},
	},
];

/** Largest difference of two records of numbers, keys of the second. */
function largestDifference(found: unknown, stated: unknown): number {
	if (typeof stated === 'number') return Math.abs((found as number) - stated);
	return Math.max(
		...Object.entries(stated as object).map(([key, value]) =>
			largestDifference((found as Record<string, unknown>)[key], value),
		),
	);
}

const worst = (errors: readonly number[]): number => Math.max(...errors.map(Math.abs));

/** Rows of the accuracy table that are one number each. */
export function springRows(): AccuracyRow[] {
	const wound = windUpErrors();
	const reference = worst(
		references.map(({ computed, stated }) => largestDifference(computed(), stated)),
	);
	return [
		{
			figure: 'Every figure of the job, in bump and in droop',
			against: 'reference layouts A and B',
			error: reference,
			unit: 'in, °, lbf·in/rad',
			held: 1e-4,
			aimed: 1e-4,
		},
		{
			figure: 'Climb under torque and thrust',
			against: 'exact leaf of uniform strength, 28 layouts',
			error: 100 * worst(wound.climb),
			unit: '%',
			held: 2,
			aimed: 2,
		},
		{
			figure: 'Sinking under torque and thrust',
			against: 'exact leaf of uniform strength, 28 layouts',
			error: 100 * worst(wound.sinking),
			unit: '%',
			held: 2,
			aimed: 2,
		},
	];
}
