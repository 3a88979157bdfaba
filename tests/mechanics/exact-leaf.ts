/**
 * A leaf spring of uniform strength solved exactly, to hold the law of src/lib/mechanics/spring-pose.ts
 * against. It shares nothing with it but the names of the mount's places.
 *
 * Each half of the leaf is one inextensible beam whose bending stiffness falls in a straight line from the
 * seat to nothing at its eye, EI · s / l, s from the eye; its free shape is an arc. Bends may be large:
 * equilibrium is written on the bent shape. The halves are clamped to the seat, to the seat the axle, and
 * on the axle's centre act the weight along the floor's plumb, a thrust along the floor and a torque. The
 * frame stands on the floor as the job tips it: by the rise of the axle's centre over the wheelbase.
 *
 * From each eye to the seat by Runge-Kutta of the fourth order. Unknown are the leaf's slope at both eyes,
 * the angle of the shackle and the force along it, and for the leaf as measured its free curvature too.
 * Newton on what has to hold at the seat: both halves end in one place with one slope, and the moments
 * come to nothing.
 */
import { Matrix, solve } from 'ml-matrix';
import type { SpringMount } from '../../src/lib/mechanics/leaf-spring.ts';

/** A leaf of two halves, m, and its bending stiffness at the seat, N·m². */
export interface ExactLeaf {
	front: number;
	rear: number;
	stiffness: number;
}

/** Where the axle is: side 1 over the spring, −1 under it; m; wedge in radians, nose-up positive. */
export interface ExactAxle {
	side: number;
	seatToAxle: number;
	seatToPad: number;
	wedge: number;
	wedgeThickness: number;
}

/** What acts on one spring. */
export interface Acting {
	/** N */
	load: number;
	/** Nose-up, N·m. */
	torque: number;
	/** Forward, N. */
	thrust: number;
	/** The frame's turn: fixed, radians, or by the rise of the axle's centre from a height, m. */
	frame: { turn: number } | { from: number; wheelbase: number; frontDrop: number };
}

/** The leaf at rest. Places in frame axes, m; turns in radians, positive nose-up. */
export interface ExactRest {
	leaf: ExactLeaf;
	mount: SpringMount;
	axle: ExactAxle;
	acting: Acting;
	freeCurvature: number;
	axleX: number;
	axleZ: number;
	axleTurn: number;
	frameTurn: number;
	/** What solves it: slopes at the eyes, angle of the shackle, force along it; free bend, and load. */
	unknowns: readonly number[];
	/** What is left of the equations, as shares of load and length. */
	residual: number;
}

/** Steps from an eye to the seat. */
const usualSteps = 12;

/** @param rate of the free beam at the seat, N/m: k = 2 EI L / (a² b²) */
export function exactLeaf(front: number, rear: number, rate: number): ExactLeaf {
	return { front, rear, stiffness: (rate * front * front * rear * rear) / (2 * (front + rear)) };
}

/** Where one half ends: place and slope of the way it was walked, from the eye. */
interface HalfEnd {
	x: number;
	z: number;
	slope: number;
}

/**
 * One half from its eye to the seat.
 * @param flexibility 1/EI at the seat
 * @param freeSlope change of slope for each metre of the free leaf; walked rearward, as the front half is,
 * a leaf that bows down has a slope that falls
 */
function half(
	eyeX: number,
	eyeZ: number,
	eyeSlope: number,
	forceX: number,
	forceZ: number,
	length: number,
	flexibility: number,
	freeSlope: number,
	steps: number,
): HalfEnd {
	let [x, z, slope] = [eyeX, eyeZ, eyeSlope];
	const step = length / steps;
	/** Change of slope: free, less the moment of the eye's force over EI s / l; at the eye its limit. */
	const turning = (s: number, atX: number, atZ: number, angle: number): number => {
		const perLength =
			s === 0
				? Math.sin(angle) * forceX - Math.cos(angle) * forceZ
				: ((eyeX - atX) * forceZ - (eyeZ - atZ) * forceX) / s;
		return freeSlope - perLength * length * flexibility;
	};
	for (let count = 0; count < steps; count++) {
		const s = count * step;
		const h = step / 2;
		const [x1, z1, t1] = [Math.cos(slope), Math.sin(slope), turning(s, x, z, slope)];
		const a2 = slope + h * t1;
		const [x2, z2] = [Math.cos(a2), Math.sin(a2)];
		const t2 = turning(s + h, x + h * x1, z + h * z1, a2);
		const a3 = slope + h * t2;
		const [x3, z3] = [Math.cos(a3), Math.sin(a3)];
		const t3 = turning(s + h, x + h * x2, z + h * z2, a3);
		const a4 = slope + step * t3;
		const [x4, z4] = [Math.cos(a4), Math.sin(a4)];
		const t4 = turning(s + step, x + step * x3, z + step * z3, a4);
		x += (step / 6) * (x1 + 2 * x2 + 2 * x3 + x4);
		z += (step / 6) * (z1 + 2 * z2 + 2 * z3 + z4);
		slope += (step / 6) * (t1 + 2 * t2 + 2 * t3 + t4);
	}
	return { x, z, slope };
}

/** What has to hold beside the equilibrium: an arch, for a free bend; a height, for a load. m */
interface Wanted {
	arch?: number;
	axleZ?: number;
}

/** The spring for a guess of its unknowns, and what is left of its equations. */
function shapeOf(
	leaf: ExactLeaf,
	mount: SpringMount,
	axle: ExactAxle,
	acting: Acting,
	unknowns: readonly number[],
	steps: number,
	wanted: Wanted,
) {
	const [frontSlope = NaN, rearSlope = NaN, shackle = NaN, pull = NaN, freeBend = NaN] = unknowns;
	const length = leaf.front + leaf.rear;
	const force = leaf.stiffness / (length * length);
	const load = wanted.axleZ === undefined ? acting.load : (unknowns[5] ?? NaN) * force;
	const free = freeBend / length;
	// Rear half, from the eye at the end of the shackle; the shackle pulls it along itself.
	const rearEyeX = mount.pivotX + mount.shackleLength * Math.cos(shackle);
	const rearEyeZ = mount.pivotZ + mount.shackleLength * Math.sin(shackle);
	const pullX = -pull * force * Math.cos(shackle);
	const pullZ = -pull * force * Math.sin(shackle);
	const soft = 1 / leaf.stiffness;
	const rear = half(rearEyeX, rearEyeZ, rearSlope, pullX, pullZ, leaf.rear, soft, free, steps);
	// The axle stands on the seat that the rear half ends in.
	const toPad = axle.side * (axle.seatToPad + axle.wedgeThickness);
	const beyond = axle.side * (axle.seatToAxle - axle.seatToPad);
	const axleTurn = rear.slope + axle.wedge;
	const armX = -toPad * Math.sin(rear.slope) - beyond * Math.sin(axleTurn);
	const armZ = toPad * Math.cos(rear.slope) + beyond * Math.cos(axleTurn);
	const axleZ = rear.z + armZ;
	const { frame, torque, thrust } = acting;
	const frameTurn =
		'turn' in frame
			? frame.turn
			: Math.atan2(axleZ - frame.from - frame.frontDrop, frame.wheelbase);
	const onX = load * Math.sin(frameTurn) + thrust * Math.cos(frameTurn);
	const onZ = load * Math.cos(frameTurn) - thrust * Math.sin(frameTurn);
	// What is left of all forces is the front eye's.
	const pinX = -(pullX + onX);
	const pinZ = -(pullZ + onZ);
	const front = half(
		mount.eyeX,
		mount.eyeZ,
		frontSlope,
		pinX,
		pinZ,
		leaf.front,
		soft,
		-free,
		steps,
	);
	const moment =
		(mount.eyeX - rear.x) * pinZ -
		(mount.eyeZ - rear.z) * pinX +
		(rearEyeX - rear.x) * pullZ -
		(rearEyeZ - rear.z) * pullX +
		armX * onZ -
		armZ * onX +
		torque;
	const left = [
		(front.x - rear.x) / length,
		(front.z - rear.z) / length,
		front.slope - rear.slope - Math.PI,
		moment / (force * length),
	];
	if (wanted.axleZ !== undefined) left.push((axleZ - wanted.axleZ) / length);
	if (wanted.arch !== undefined) {
		const chordX = mount.eyeX - rearEyeX;
		const chordZ = mount.eyeZ - rearEyeZ;
		const depth =
			((rear.x - rearEyeX) * chordZ - (rear.z - rearEyeZ) * chordX) / Math.hypot(chordX, chordZ);
		left.push((depth - wanted.arch) / length);
	}
	return { left, free, load, axleX: rear.x + armX, axleZ, axleTurn, frameTurn };
}

const sizeOf = (values: readonly number[]): number => Math.hypot(...values);

/** Newton with forward differences and halved steps, on those unknowns. All of them are near one in size. */
function newton(
	equations: (unknowns: number[]) => number[],
	guess: readonly number[],
	free: readonly number[],
): number[] {
	let unknowns = [...guess];
	let left = equations(unknowns);
	for (let round = 0; round < 40 && sizeOf(left) > 1e-12; round++) {
		const slopes = Matrix.zeros(left.length, left.length);
		free.forEach((unknown, column) => {
			const shifted = unknowns.map((value, index) => (index === unknown ? value + 1e-7 : value));
			equations(shifted).forEach((value, row) =>
				slopes.set(row, column, (value - (left[row] ?? NaN)) / 1e-7),
			);
		});
		const step = solve(slopes, Matrix.columnVector(left)).to1DArray();
		const ahead = (share: number): number[] => {
			const next = [...unknowns];
			free.forEach((unknown, column) => {
				next[unknown] = (next[unknown] ?? NaN) - share * (step[column] ?? NaN);
			});
			return next;
		};
		let share = 1;
		let next = ahead(share);
		let nextLeft = equations(next);
		while (!(sizeOf(nextLeft) < sizeOf(left)) && share > 1e-4) {
			share /= 2;
			next = ahead(share);
			nextLeft = equations(next);
		}
		if (!(sizeOf(nextLeft) < sizeOf(left))) break;
		unknowns = next;
		left = nextLeft;
	}
	if (!(sizeOf(left) < 1e-8)) throw new Error(`No equilibrium: ${sizeOf(left)} is left.`);
	return unknowns;
}

function solved(
	leaf: ExactLeaf,
	mount: SpringMount,
	axle: ExactAxle,
	acting: Acting,
	guess: readonly number[],
	steps: number,
	wanted: Wanted = {},
): ExactRest {
	const free = [0, 1, 2, 3];
	if (wanted.arch !== undefined) free.push(4);
	if (wanted.axleZ !== undefined) free.push(5);
	const unknowns = newton(
		(tried) => shapeOf(leaf, mount, axle, acting, tried, steps, wanted).left,
		guess,
		free,
	);
	const shape = shapeOf(leaf, mount, axle, acting, unknowns, steps, wanted);
	const { left, free: freeCurvature, load, ...places } = shape;
	return {
		leaf,
		mount,
		axle,
		acting: { ...acting, load },
		freeCurvature,
		...places,
		unknowns,
		residual: sizeOf(left),
	};
}

/**
 * The leaf as measured, on a level frame: its free curvature from arch and load.
 * @param arch depth of the leaf at the centre bolt below the line through the eyes, m
 * @param load along the plumb through the axle's centre, N
 */
export function exactAtArch(
	leaf: ExactLeaf,
	mount: SpringMount,
	axle: ExactAxle,
	arch: number,
	load: number,
	steps = usualSteps,
): ExactRest {
	// The guess: an arc from eye to eye, the shackle where its chord reaches to.
	const { front, rear, stiffness } = leaf;
	const length = front + rear;
	const curvature = (2 * arch) / (front * rear);
	const chord = length - (curvature * curvature * length ** 3) / 24;
	const across = Math.hypot(mount.eyeX - mount.pivotX, mount.pivotZ - mount.eyeZ);
	const cosine = (across ** 2 + chord ** 2 - mount.shackleLength ** 2) / (2 * across * chord);
	const aside = Math.acos(Math.max(-1, Math.min(1, cosine)));
	const toPivot = Math.atan2(mount.pivotZ - mount.eyeZ, mount.pivotX - mount.eyeX);
	// Hanging: below the line from eye to pivot, which from the front eye is to the left.
	const toRearEye = toPivot + (mount.stands ? -aside : aside);
	const rearEyeX = mount.eyeX + chord * Math.cos(toRearEye);
	const rearEyeZ = mount.eyeZ + chord * Math.sin(toRearEye);
	const shackle = Math.atan2(rearEyeZ - mount.pivotZ, rearEyeX - mount.pivotX);
	const forward = toRearEye - Math.PI * Math.sign(toRearEye);
	const guess = [
		forward + Math.PI + (curvature * length) / 2,
		forward - (curvature * length) / 2,
		shackle,
		(load * front * length) / (stiffness * Math.sin(shackle)),
		(curvature + (load * front * rear) / (length * stiffness)) * length,
	];
	const acting: Acting = { load, torque: 0, thrust: 0, frame: { turn: 0 } };
	return solved(leaf, mount, axle, acting, guess, steps, { arch });
}

/**
 * The same leaf on another mount, with another axle, under other forces; followed there in steps so that
 * it stays the same equilibrium. The frame tips as it will from the first step on.
 */
export function exactAfter(
	before: ExactRest,
	mount: SpringMount,
	axle: ExactAxle,
	acting: Acting,
	stages = 4,
	steps = usualSteps,
): ExactRest {
	let rest = before;
	for (let stage = 1; stage <= stages; stage++) {
		const between = (from: number, to: number): number => from + ((to - from) * stage) / stages;
		const blend = <T extends object>(from: T, to: T): T => {
			const mixed = Object.entries(to).map(([key, value]) => {
				const old: unknown = from[key as keyof T];
				const both = typeof value === 'number' && typeof old === 'number';
				return [key, both ? between(old, value) : (value as unknown)];
			});
			return Object.fromEntries(mixed) as T;
		};
		rest = solved(
			before.leaf,
			blend(before.mount, mount),
			blend(before.axle, axle),
			blend(before.acting, acting),
			rest.unknowns,
			steps,
		);
	}
	return rest;
}

/** The same leaf with its axle held so much higher, m, whatever load that takes; followed there. */
export function exactAtRise(
	before: ExactRest,
	rise: number,
	stages = 6,
	steps = usualSteps,
): ExactRest {
	const { leaf, mount, axle, acting } = before;
	const force = leaf.stiffness / (leaf.front + leaf.rear) ** 2;
	let rest: ExactRest = { ...before, unknowns: [...before.unknowns, acting.load / force] };
	for (let stage = 1; stage <= stages; stage++) {
		const wanted = { axleZ: before.axleZ + (rise * stage) / stages };
		rest = solved(leaf, mount, axle, acting, rest.unknowns, steps, wanted);
	}
	return rest;
}
