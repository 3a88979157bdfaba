/**
 * The rotating half of the mechanics against truths from outside: published examples, joints turned as
 * rigid bodies, and beams put together from finite elements. The library's own formulas appear here
 * only on the side that is judged.
 */
import fc from 'fast-check';
import { glMatrix, quat, vec3 } from 'gl-matrix';
import { EigenvalueDecomposition, Matrix, solve } from 'ml-matrix';
import {
	bestRearPhase,
	bestYokePhases,
	chainAcceleration,
	chainRipple,
	chainSpeedRatio,
	frontShaftAcceleration,
	rearShaftAcceleration,
	pairInSpace,
	planarThree,
	threeInSpace,
} from '../../../src/lib/mechanics/joint-chain.ts';
import { leafSpring, windUpStiffness } from '../../../src/lib/mechanics/leaf-spring.ts';
import { bracketedRoot } from '../../../src/lib/mechanics/root.ts';
import {
	driveshaftSpeed,
	inertiaLimit,
	largestAngle,
	ruleOfThumb,
	ruleOfThumbAngle,
} from '../../../src/lib/mechanics/shaft-speed.ts';
import {
	angleOfFluctuation,
	greatestJointAcceleration,
	jointAcceleration,
	jointSpeedRatio,
	operatingAngle,
	pairSpeedRange,
} from '../../../src/lib/mechanics/universal-joint.ts';
import { longestTube, tubeMaterials, whirlingSpeed } from '../../../src/lib/mechanics/whirling.ts';
import { axleLoadPulling, roadLoadTorque } from '../../../src/lib/mechanics/wind-up.ts';
import type { AccuracyRow } from './row.ts';

// Plain arrays hold doubles; the library's own default is single precision.
glMatrix.setMatrixArrayType(Array);

export const degree = Math.PI / 180;
export const revPerMin = Math.PI / 30;

/** The largest of some errors; not a number if any of them is not. */
function largest(errors: readonly number[]): number {
	return Math.max(...errors.map(Math.abs));
}

/** Shafts and yokes as rigid bodies: directions in space, and the phase of each shaft between joints. */
export interface RigidChain {
	shafts: readonly vec3[];
	phases: readonly number[];
}

/** A shaft turned out of the straight rearward direction; axes rearward, left, down. */
export function rigidShaft(slope: number, plan: number): vec3 {
	const turn = quat.setAxisAngle(quat.create(), [0, 0, 1], plan);
	quat.multiply(turn, turn, quat.setAxisAngle(quat.create(), [0, 1, 0], -slope));
	return vec3.transformQuat(vec3.create(), [1, 0, 0], turn);
}

/** Angle between two directions; gl-matrix has it by an arc cosine, which near 0° keeps half the figures. */
export function angleBetween(a: vec3, b: vec3): number {
	return Math.atan2(vec3.length(vec3.cross(vec3.create(), a, b)), vec3.dot(a, b));
}

function turned(arm: vec3, axis: vec3, angle: number): vec3 {
	return vec3.transformQuat(vec3.create(), arm, quat.setAxisAngle(quat.create(), axis, angle));
}

function unitCross(a: vec3, b: vec3): vec3 {
	const product = vec3.cross(vec3.create(), a, b);
	return vec3.normalize(product, product);
}

function pick<T>(list: readonly T[], index: number): T {
	const item = list[index];
	if (item === undefined) throw new Error(`nothing at ${index}`);
	return item;
}

/**
 * Where the last shaft's front yoke points. Each cross holds its two arms square to one another, and
 * each arm stands square to its own shaft: nothing else is used.
 */
function lastArm(chain: RigidChain, rotation: number): vec3 {
	const first = pick(chain.shafts, 0);
	const normal = unitCross(first, pick(chain.shafts, 1));
	let arm = turned(unitCross(normal, first), first, rotation);
	for (const [joint, shaft] of chain.shafts.slice(1).entries()) {
		arm = unitCross(shaft, arm);
		if (joint + 2 < chain.shafts.length) arm = turned(arm, shaft, pick(chain.phases, joint));
	}
	return arm;
}

function swept(chain: RigidChain, from: number, to: number): number {
	const axis = pick(chain.shafts, chain.shafts.length - 1);
	const a = lastArm(chain, from);
	const b = lastArm(chain, to);
	return Math.atan2(vec3.dot(axis, vec3.cross(vec3.create(), a, b)), vec3.dot(a, b));
}

/** Speed ratio by differences of the rigid bodies' rotation, fourth order. */
export function rigidRatio(chain: RigidChain, rotation: number): number {
	const wide = (h: number): number => swept(chain, rotation - h, rotation + h) / (2 * h);
	return (4 * wide(1e-3) - wide(2e-3)) / 3;
}

/** Acceleration at unit speed by second differences of the same, fourth order. */
export function rigidAcceleration(chain: RigidChain, rotation: number): number {
	const bend = (h: number): number =>
		(swept(chain, rotation, rotation + h) - swept(chain, rotation - h, rotation)) / (h * h);
	return (4 * bend(3e-3) - bend(6e-3)) / 3;
}

/** The greatest of a smooth function over a half turn: a grid, then finer ones about the best. */
function greatestOver(f: (rotation: number) => number): number {
	let best = 0;
	let width = Math.PI / 2;
	let middle = width;
	for (let round = 0; round < 4; round++) {
		let bestAt = middle;
		best = -Infinity;
		for (let step = -20; step <= 20; step++) {
			const rotation = middle + (width * step) / 20;
			const value = f(rotation);
			if (value > best) [best, bestAt] = [value, rotation];
		}
		middle = bestAt;
		width /= 10;
	}
	return best;
}

export function rigidPeakAcceleration(chain: RigidChain): number {
	return greatestOver((rotation) => Math.abs(rigidAcceleration(chain, rotation)));
}

/** Highest less lowest speed ratio over a turn. */
function rigidSwing(chain: RigidChain): number {
	return (
		greatestOver((rotation) => rigidRatio(chain, rotation)) +
		greatestOver((rotation) => -rigidRatio(chain, rotation))
	);
}

/** The least swing there is over all phases of the last shaft, by a grid and a golden section. */
function leastSwing(chain: RigidChain): number {
	const swing = (phase: number): number =>
		rigidSwing({ ...chain, phases: [...chain.phases.slice(0, -1), phase] });
	const grid = Array.from({ length: 12 }, (_, step) => (step * Math.PI) / 12);
	const swings = grid.map(swing);
	const nearest = pick(grid, swings.indexOf(Math.min(...swings)));
	let [low, high] = [nearest - Math.PI / 12, nearest + Math.PI / 12];
	const golden = (Math.sqrt(5) - 1) / 2;
	while (high - low > 1e-7) {
		const left = high - golden * (high - low);
		const right = low + golden * (high - low);
		if (swing(left) < swing(right)) high = right;
		else low = left;
	}
	return swing((low + high) / 2);
}

/** The same chain driven from its other end. */
function reversed(chain: RigidChain): RigidChain {
	return {
		shafts: [...chain.shafts].reverse(),
		// Seen from the far yoke of the same shaft, about the same axis, the near yoke is turned back.
		phases: [...chain.phases].reverse().map((phase) => -phase),
	};
}

/** The first shafts of a chain. */
function ahead(chain: RigidChain, shafts: number): RigidChain {
	return { shafts: chain.shafts.slice(0, shafts), phases: chain.phases.slice(0, shafts - 2) };
}

/**
 * Slopes and plans of four shafts, and two phases, as a truck may have them and well beyond. No two
 * shafts in line: rotation is counted from the plane of a joint, and a straight one has none.
 */
const layouts = fc.sample(
	fc
		.record({
			slopes: fc.array(fc.double({ min: -20, max: 20, noNaN: true }), {
				minLength: 4,
				maxLength: 4,
			}),
			plans: fc.array(fc.double({ min: -15, max: 15, noNaN: true }), {
				minLength: 4,
				maxLength: 4,
			}),
			phases: fc.array(fc.double({ min: -90, max: 90, noNaN: true }), {
				minLength: 2,
				maxLength: 2,
			}),
			rotation: fc.double({ min: -7, max: 7, noNaN: true }),
		})
		.filter(({ slopes, plans }) =>
			[0, 1, 2].every(
				(index) =>
					Math.hypot(
						pick(slopes, index) - pick(slopes, index + 1),
						pick(plans, index) - pick(plans, index + 1),
					) > 0.5,
			),
		),
	{ seed: 20, numRuns: 60 },
);

interface Layout {
	pair: ReturnType<typeof pairInSpace>;
	three: ReturnType<typeof threeInSpace>;
	rigidPair: RigidChain;
	rigidThree: RigidChain;
	rotation: number;
}

function laidOut(layout: (typeof layouts)[number]): Layout {
	const slope = (index: number): number => pick(layout.slopes, index) * degree;
	const plan = (index: number): number => pick(layout.plans, index) * degree;
	const phases = layout.phases.map((phase) => phase * degree);
	const shafts = [0, 1, 2, 3].map((index) => rigidShaft(slope(index), plan(index)));
	const rigidThree = { shafts, phases };
	const [s0, s1, s2, s3] = [slope(0), slope(1), slope(2), slope(3)];
	const [p0, p1, p2, p3] = [plan(0), plan(1), plan(2), plan(3)];
	const [front, rear] = [pick(phases, 0), pick(phases, 1)];
	return {
		pair: pairInSpace(s0, p0, s1, p1, s2, p2, front),
		three: threeInSpace(s0, p0, s1, p1, s2, p2, s3, p3, front, rear),
		rigidPair: ahead(rigidThree, 3),
		rigidThree,
		rotation: layout.rotation,
	};
}

const rigidBodies = 'rigid bodies turned by quaternions (gl-matrix)';
const hooke = "Khurmi & Gupta, Theory of Machines, Hooke's joint (from memory)";

/** One joint, and the published examples. */
export function jointRows(): AccuracyRow[] {
	const peak = greatestJointAcceleration(20 * degree, 1500 * revPerMin);
	const even = bracketedRoot(
		(rotation) => jointSpeedRatio(18 * degree, rotation) - 1,
		0,
		Math.PI / 2,
		1e-15,
	);
	const swing = angleOfFluctuation(100 / 1200);
	const crossed = pairSpeedRange(10 * degree, 10 * degree, Math.PI / 2);
	const inSpace = layouts.map(({ slopes, plans }) => {
		const [s0, s1] = [pick(slopes, 0) * degree, pick(slopes, 1) * degree];
		const [p0, p1] = [pick(plans, 0) * degree, pick(plans, 1) * degree];
		return operatingAngle(s0, s1, p0, p1) - angleBetween(rigidShaft(s0, p0), rigidShaft(s1, p1));
	});
	const single: number[] = [];
	const acceleration: number[] = [];
	const greatest: number[] = [];
	for (let angle = 1; angle <= 45; angle += 4) {
		const chain = { shafts: [rigidShaft(0, 0), rigidShaft(angle * degree, 0)], phases: [] };
		for (let step = 0; step < 24; step++) {
			const rotation = (step * Math.PI) / 12 + 0.1;
			single.push(jointSpeedRatio(angle * degree, rotation) - rigidRatio(chain, rotation));
			acceleration.push(
				jointAcceleration(angle * degree, rotation, 1) - rigidAcceleration(chain, rotation),
			);
		}
		greatest.push(greatestJointAcceleration(angle * degree, 1) - rigidPeakAcceleration(chain));
	}
	return [
		{
			figure: 'Greatest acceleration, one joint at 20°, 1500 rev/min',
			against: `${hooke}, example, exact`,
			error: Math.abs(peak - 3083.4),
			unit: 'rad/s²',
			held: 0.05,
			aimed: 0.05,
		},
		{
			figure: 'Greatest acceleration, the same',
			against: `${hooke}, by the book's rounding, 3090`,
			error: Math.abs(peak - 3090),
			unit: 'rad/s²',
			held: 10,
			aimed: 10,
		},
		{
			figure: 'Torque on 12 kg at 100 mm radius of gyration, the same',
			against: `${hooke}, example, exact`,
			error: Math.abs(12 * 0.1 ** 2 * peak - 370),
			unit: 'N·m',
			held: 0.05,
			aimed: 0.05,
		},
		{
			figure: 'Torque, the same',
			against: `${hooke}, by the book's rounding, 371`,
			error: Math.abs(12 * 0.1 ** 2 * peak - 371),
			unit: 'N·m',
			held: 1,
			aimed: 1,
		},
		{
			figure: 'Rotation at which a joint at 18° runs at ratio 1',
			against: `${hooke}, example`,
			error: Math.abs(even / degree - 44.3),
			unit: '°',
			held: 0.05,
			aimed: 0.05,
		},
		{
			figure: 'Angle for 100 rev/min of fluctuation at 1200 rev/min',
			against: `${hooke}, example`,
			error: Math.abs(swing / degree - 16.4),
			unit: '°',
			held: 0.05,
			aimed: 0.05,
		},
		{
			figure: 'Highest and lowest speed, the same',
			against: `${hooke}, example`,
			error: largest([
				1200 * jointSpeedRatio(swing, 0) - 1251,
				1200 * jointSpeedRatio(swing, Math.PI / 2) - 1151,
			]),
			unit: 'rev/min',
			held: 0.5,
			aimed: 0.5,
		},
		{
			figure: 'Highest and lowest speed, two joints at 10° with crossed yokes, 500 rev/min',
			against: `${hooke}, example`,
			error: largest([500 * crossed.highest - 515.5, 500 * crossed.lowest - 484.9]),
			unit: 'rev/min',
			held: 0.05,
			aimed: 0.05,
		},
		{
			figure: 'Operating angle of two shafts in space',
			against: rigidBodies,
			error: largest(inSpace) / degree,
			unit: '°',
			held: 1e-12,
			aimed: 1e-9,
		},
		{
			figure: 'Speed ratio of one joint, up to 45°',
			against: rigidBodies,
			error: largest(single),
			unit: 'of the shaft speed',
			held: 1e-9,
			aimed: 1e-9,
		},
		{
			figure: 'Acceleration of one joint, up to 45°',
			against: rigidBodies,
			error: largest(acceleration),
			unit: 'of the speed squared',
			held: 1e-8,
			aimed: 1e-8,
		},
		{
			figure: 'Greatest acceleration of one joint, up to 45°',
			against: rigidBodies,
			error: largest(greatest),
			unit: 'of the speed squared',
			held: 1e-8,
			aimed: 1e-8,
		},
	];
}

/** Chains of two and three. */
export function chainRows(): AccuracyRow[] {
	const ratio: number[] = [];
	const acceleration: number[] = [];
	const peak: number[] = [];
	const ends: number[] = [];
	const shafts: number[] = [];
	for (const [index, layout] of layouts.map(laidOut).entries()) {
		const { pair, three, rigidPair, rigidThree, rotation } = layout;
		for (const [chain, rigid] of [[pair, rigidPair] as const, [three, rigidThree] as const]) {
			ratio.push(chainSpeedRatio(chain, rotation) - rigidRatio(rigid, rotation));
			acceleration.push(chainAcceleration(chain, rotation, 1) - rigidAcceleration(rigid, rotation));
			if (index >= 12) continue;
			const ripple = chainRipple(chain, 1);
			peak.push(ripple.acceleration - rigidPeakAcceleration(rigid));
			ends.push(ripple.highest - greatestOver((at) => rigidRatio(rigid, at)));
			ends.push(ripple.lowest + greatestOver((at) => -rigidRatio(rigid, at)));
		}
		if (index >= 12) continue;
		const front = frontShaftAcceleration(three, 1);
		const rear = rearShaftAcceleration(three, 1);
		shafts.push(
			front.drive - rigidPeakAcceleration(ahead(rigidThree, 2)),
			front.coast - rigidPeakAcceleration(ahead(reversed(rigidThree), 3)),
			rear.drive - rigidPeakAcceleration(ahead(rigidThree, 3)),
			rear.coast - rigidPeakAcceleration(ahead(reversed(rigidThree), 2)),
		);
	}
	const best = layouts
		.slice(0, 4)
		.map(laidOut)
		.flatMap(({ pair, three, rigidPair, rigidThree }) => {
			const pairSet = chainRipple({ ...pair, ...bestYokePhases(pair) }, 1);
			const rearSet = chainRipple({ ...three, ...bestRearPhase(three) }, 1);
			return [
				pairSet.highest - pairSet.lowest - leastSwing(rigidPair),
				rearSet.highest - rearSet.lowest - leastSwing(rigidThree),
			];
		});
	const byHand = fc
		.sample(fc.array(fc.double({ min: 0, max: 7, noNaN: true }), { minLength: 3, maxLength: 3 }), {
			seed: 21,
			numRuns: 200,
		})
		.flatMap(([first = 0, centre = 0, rear = 0]) =>
			[0, 20, 45, 70, 90].map((phase) => {
				const ripple = chainRipple(
					planarThree(
						first * degree,
						centre * degree,
						rear * degree,
						phase * degree,
						phase * degree,
					),
					1,
				);
				// In squares, which is where the law adds: near cancelling a root would blow up what is left.
				return (ripple.equivalentAngle ** 2 - ripple.equivalentAngleByHand ** 2) / degree ** 2;
			}),
		);
	return [
		{
			figure: 'Speed ratio of two and three joints, out of plane, any yoke phase',
			against: rigidBodies,
			error: largest(ratio),
			unit: 'of the shaft speed',
			held: 1e-9,
			aimed: 1e-9,
		},
		{
			figure: 'Acceleration behind two and three joints, the same',
			against: rigidBodies,
			error: largest(acceleration),
			unit: 'of the speed squared',
			held: 1e-8,
			aimed: 1e-8,
		},
		{
			figure: 'Peak acceleration behind two and three joints, the same',
			against: rigidBodies,
			error: largest(peak),
			unit: 'of the speed squared',
			held: 1e-8,
			aimed: 1e-8,
		},
		{
			figure: 'Lowest and highest speed behind two and three joints, the same',
			against: rigidBodies,
			error: largest(ends),
			unit: 'of the shaft speed',
			held: 1e-8,
			aimed: 1e-8,
		},
		{
			figure: 'Peak acceleration of the shafts between three joints, drive and coast',
			against: rigidBodies,
			error: largest(shafts),
			unit: 'of the speed squared',
			held: 1e-8,
			aimed: 1e-8,
		},
		{
			figure: 'Speed swing left by the best yoke phase, of a pair and of the rear shaft of three',
			against: 'every phase tried, rigid bodies (gl-matrix)',
			error: largest(best),
			unit: 'of the shaft speed',
			held: 1e-7,
			aimed: 1e-6,
		},
		{
			figure: 'Square of the equivalent angle, exact, three joints up to 7°',
			against: 'resultant angle after VDI 2722 (from memory)',
			error: largest(byHand),
			unit: '°²',
			held: 0.3,
			aimed: 0.3,
		},
	];
}

/** Shaft speed and what it allows. */
export function speedRows(): AccuracyRow[] {
	const law = ruleOfThumb.map(
		([speed, angle]) => largestAngle(speed * revPerMin, inertiaLimit) / degree - angle,
	);
	const peaks = ruleOfThumb.map(([speed]) => {
		const angle = largestAngle(speed * revPerMin, inertiaLimit);
		const peak = rigidPeakAcceleration({
			shafts: [rigidShaft(0, 0), rigidShaft(angle, 0)],
			phases: [],
		});
		return (100 * peak * (speed * revPerMin) ** 2) / inertiaLimit - 100;
	});
	const between: number[] = [];
	for (let speed = 1500; speed <= 5000; speed += 10) {
		between.push(
			(ruleOfThumbAngle(speed * revPerMin) - largestAngle(speed * revPerMin, inertiaLimit)) /
				degree,
		);
	}
	return [
		{
			figure: 'Largest operating angle by the 1000 rad/s² limit, row by row',
			against: 'table of common practice, no source',
			error: largest(law),
			unit: '°',
			held: 0.25,
			aimed: 0.25,
		},
		{
			figure: 'Peak acceleration at the largest angle of that limit, 1500 to 5000 rev/min',
			against: 'rigid bodies turned by quaternions (gl-matrix), 1000 rad/s²',
			error: largest(peaks),
			unit: '%',
			held: 0.8,
			aimed: 1,
		},
		{
			figure: 'Largest operating angle by the table, between its rows',
			against: 'the 1000 rad/s² limit',
			error: largest(between),
			unit: '°',
			held: 0.25,
			aimed: 0.25,
		},
		{
			figure: 'Driveshaft speed at 60 mph, 28 in tyres, axle ratio 3.73',
			against: 'mph × ratio × 336.13 / diameter in inches (common practice, no source)',
			error: Math.abs(
				driveshaftSpeed(60 * 0.44704, 14 * 0.0254, 3.73) / revPerMin - (60 * 3.73 * 336.13) / 28,
			),
			unit: 'rev/min',
			held: 0.1,
			aimed: 0.1,
		},
	];
}

/** A beam's matrix put together from its elements, each of which shares a node with the next. */
function assembled(size: number, element: (index: number) => number[][]): Matrix {
	const matrix = Matrix.zeros(size, size);
	for (let index = 0; 2 * index + 4 <= size; index++) {
		for (const [row, line] of element(index).entries()) {
			for (const [column, value] of line.entries()) {
				const at = [2 * index + row, 2 * index + column] as const;
				matrix.set(...at, matrix.get(...at) + value);
			}
		}
	}
	return matrix;
}

/** Stiffness of a beam element of two nodes, deflection and turn at each. */
function beamStiffness(bending: number, length: number): number[][] {
	const l = length;
	return [
		[12, 6 * l, -12, 6 * l],
		[6 * l, 4 * l * l, -6 * l, 2 * l * l],
		[-12, -6 * l, 12, -6 * l],
		[6 * l, 2 * l * l, -6 * l, 4 * l * l],
	].map((line) => line.map((value) => (value * bending) / l ** 3));
}

/** Its consistent mass. */
function beamMass(massPerLength: number, length: number): number[][] {
	const l = length;
	return [
		[156, 22 * l, 54, -13 * l],
		[22 * l, 4 * l * l, 13 * l, -3 * l * l],
		[54, 13 * l, 156, -22 * l],
		[-13 * l, -3 * l * l, -22 * l, 4 * l * l],
	].map((line) => line.map((value) => (value * massPerLength * l) / 420));
}

/** A matrix without the rows and columns of what is held. */
function freed(matrix: Matrix, held: readonly number[]): Matrix {
	const free = [...Array(matrix.rows).keys()].filter((index) => !held.includes(index));
	return matrix.selection(free, free);
}

/** First natural frequency of a tube on pinned ends, rad/s, from beam elements. */
export function beamFrequency(
	length: number,
	outside: number,
	inside: number,
	modulus: number,
	density: number,
): number {
	const elements = 24;
	const size = 2 * (elements + 1);
	const bending = (modulus * Math.PI * (outside ** 4 - inside ** 4)) / 64;
	const mass = (density * Math.PI * (outside ** 2 - inside ** 2)) / 4;
	const pinned = [0, size - 2];
	const stiffness = freed(
		assembled(size, () => beamStiffness(bending, length / elements)),
		pinned,
	);
	const inertia = freed(
		assembled(size, () => beamMass(mass, length / elements)),
		pinned,
	);
	// The largest eigenvalue of K⁻¹M is the slowest mode, and comes out with the most figures.
	const values = new EigenvalueDecomposition(solve(stiffness, inertia)).realEigenvalues;
	return 1 / Math.sqrt(Math.max(...values));
}

/** Whirling. */
export function whirlingRows(): AccuracyRow[] {
	const errors = [
		[1.35, 0.0889, 0.0847, tubeMaterials.steel],
		[1.6, 0.1016, 0.0952, tubeMaterials.aluminium],
		[1.9, 0.095, 0.088, tubeMaterials.carbon],
		[0.9, 0.05, 0, tubeMaterials.steel],
	] as const;
	const { modulus, density } = tubeMaterials.steel;
	const [length, outside, inside] = [1.35, 0.0889, 0.0847];
	const perCoefficient =
		Math.sqrt(
			(modulus * (outside ** 4 - inside ** 4)) / (density * 16 * (outside ** 2 - inside ** 2)),
		) /
		length ** 2;
	return [
		{
			figure: 'First whirling speed of four tubes',
			against: 'beam of 24 finite elements, solved by general linear algebra (ml-matrix)',
			error: largest(
				errors.map(([tube, wide, bore, material]) => {
					const arguments_ = [tube, wide, bore, material.modulus, material.density] as const;
					return whirlingSpeed(...arguments_) / beamFrequency(...arguments_) - 1;
				}),
			),
			unit: 'of the speed',
			held: 1e-6,
			aimed: 1e-6,
		},
		{
			figure: 'Longest tube that whirls no sooner than at 6000 rev/min',
			against: 'the beam of finite elements, its length halved in on',
			error: largest(
				errors.map(([, wide, bore, { modulus: stiff, density: heavy }]) => {
					const wanted = 6000 * revPerMin;
					const found = bracketedRoot(
						(tube) => beamFrequency(tube, wide, bore, stiff, heavy) / wanted - 1,
						0.5,
						3,
						1e-9,
					);
					return (longestTube(wanted, wide, bore, stiff, heavy) - found) * 1000;
				}),
			),
			unit: 'mm',
			held: 1e-3,
			aimed: 1,
		},
		{
			figure: 'First mode coefficient of a pinned-pinned uniform beam',
			against: 'π² = 9.8696, tables of Roark and of Blevins',
			error: Math.abs(
				whirlingSpeed(length, outside, inside, modulus, density) / perCoefficient - 9.8696,
			),
			unit: '',
			held: 1e-5,
			aimed: 1e-5,
		},
	];
}

/**
 * Torque for each radian of seat turn of a leaf of uniform strength on two pinned eyes, N·m/rad, from
 * beam elements: bending stiffness runs straight from nothing at the eyes to its whole at the seat.
 */
export function beamWindUp(front: number, rear: number, bending: number): number {
	const elements = 150;
	const size = 2 * (2 * elements + 1);
	const matrix = assembled(size, (index) => {
		const ahead = index < elements;
		const share = ahead ? (index + 0.5) / elements : (2 * elements - index - 0.5) / elements;
		return beamStiffness(bending * share, (ahead ? front : rear) / elements);
	});
	const stiffness = freed(matrix, [0, size - 2]);
	const load = Matrix.zeros(size - 2, 1);
	// Row of the seat's turn, one less for the front eye that is gone.
	const seatTurn = 2 * elements;
	load.set(seatTurn, 0, 1);
	return 1 / solve(stiffness, load).get(seatTurn, 0);
}

/** Shares by which the rear axle's load misses the balance of the whole truck, front, rear and pull unknown. */
function pullingErrors(): number[] {
	return [
		[18_000, 1.3, 0.7, 3, 0.8],
		[15_000, 1.1, 0.6, 2.7, 1.1],
		[22_000, 2, 0.9, 3.4, 0.4],
	].map(([weight = NaN, behindFront = NaN, height = NaN, wheelbase = NaN, grip = NaN]) => {
		// Up and down; grip; moments about where the rear tyres stand.
		const truck = new Matrix([
			[1, 1, 0],
			[0, grip, -1],
			[wheelbase, 0, height],
		]);
		const asked = Matrix.columnVector([weight, 0, weight * (wheelbase - behindFront)]);
		const atRest = (weight * behindFront) / wheelbase;
		const rear = solve(truck, asked).get(1, 0);
		return axleLoadPulling(atRest, grip, height, wheelbase) / rear - 1;
	});
}

/** Shares by which the road load misses the balance of level and upright forces, floor and pull unknown. */
function roadLoadErrors(): number[] {
	return [-0.08, 0, 0.06, 0.2].map((grade) => {
		const [mass, speed, radius, rolling, area, air] = [1800, 27, 0.35, 0.012, 1.2, 1.225];
		const along = [1 / Math.hypot(1, grade), grade / Math.hypot(1, grade)] as const;
		const drag = (air * area * speed ** 2) / 2;
		// The floor pushes square to itself and, by the rolling drag, back along itself.
		const floor = new Matrix([
			[-along[1] - rolling * along[0], along[0]],
			[along[0] - rolling * along[1], along[1]],
		]);
		const asked = Matrix.columnVector([drag * along[0], mass * 9.80665 + drag * along[1]]);
		const pull = solve(floor, asked).get(1, 0);
		return roadLoadTorque(mass, speed, radius, rolling, area, air, grade) / (pull * radius) - 1;
	});
}

/** Wind-up. */
export function windUpRows(): AccuracyRow[] {
	const pairs = [
		[0.66, 0.66],
		[0.6096, 0.762],
		[0.5588, 0.762],
	] as const;
	const symmetric = leafSpring(0.7, 0.7, 28000);
	const inch = 0.0254;
	const pound = 4.4482216152605;
	/** Halves of the leaf in inches, rate in lbf/in, wind-up stiffness in lbf·in/rad. */
	const references = [
		[24, 30, 160, 109714.2857],
		[22, 30, 180, 108298.3425],
	] as const;
	return [
		{
			figure: 'Wind-up stiffness of three leaf springs',
			against: 'tapered beam of 300 finite elements (ml-matrix)',
			error: largest(
				pairs.map(([front, rear]) => {
					const leaf = leafSpring(front, rear, 28000);
					return windUpStiffness(leaf) / beamWindUp(front, rear, leaf.stiffness) - 1;
				}),
			),
			unit: 'of the stiffness',
			held: 1e-4,
			aimed: 1e-4,
		},
		{
			figure: 'Wind-up stiffness of one spring, reference layouts A and B',
			against: 'solved independently of this project',
			error: largest(
				references.map(
					([front, rear, rate, wanted]) =>
						windUpStiffness(leafSpring(front * inch, rear * inch, (rate * pound) / inch)) /
							(pound * inch) -
						wanted,
				),
			),
			unit: 'lbf·in/rad',
			held: 1e-4,
			aimed: 1e-4,
		},
		{
			figure: 'Load on the rear axle of a truck that pulls all it can',
			against: 'forces and moments of the whole truck, solved together (ml-matrix)',
			error: largest(pullingErrors()),
			unit: 'of the load',
			held: 1e-12,
			aimed: 1e-6,
		},
		{
			figure: 'Torque at the wheels that holds a speed, on the flat and on grades',
			against: 'forces along and up, solved together (ml-matrix)',
			error: largest(roadLoadErrors()),
			unit: 'of the torque',
			held: 1e-12,
			aimed: 1e-6,
		},
		{
			figure: 'Wind-up stiffness of symmetric leaves',
			against: 'k L² / 4, SAE HS-788 (from memory)',
			error: Math.abs(windUpStiffness(symmetric) / ((28000 * 1.4 * 1.4) / 4) - 1),
			unit: 'of the stiffness',
			held: 1e-12,
			aimed: 1e-12,
		},
	];
}

/** Every line of the accuracy table for joints, shafts and wind-up. */
export function rotatingRows(): AccuracyRow[] {
	return [...jointRows(), ...chainRows(), ...speedRows(), ...whirlingRows(), ...windUpRows()];
}
