/**
 * A leaf spring solved exactly, to hold the one-arc model of src/lib/mechanics against. It shares
 * nothing with that model but the names of the mount's places.
 *
 * The leaf is one inextensible beam from eye to eye, free shape an arc of the free curvature. Bending
 * stiffness falls in a straight line from the seat to each eye, EI(x) = EI_seat · x / half, x from the
 * eye, but never below `floor` · EI_seat: at the eye the main leaf is still there. The seat carries a
 * vertical load and is free to turn (no axle torque), so the leaf runs through it without a kink and
 * the bending moment without a step. The front eye is pinned to the frame, the rear eye to a shackle,
 * the shackle to the frame. Rotations may be large: equilibrium is written on the bent shape.
 *
 * Seat rate. A half of length l under an eye force R bends by ∫ R x² / EI(x) dx at its eye: with the
 * straight taper R l³ / (2 EI_seat). The floor stiffens the last floor·l, where the integral is
 * (floor·l)³/(3 floor) in place of (floor·l)²·l/2, both over EI_seat: together
 *   δ = R l³ / (2 EI_seat) · (1 − floor²/3).
 * No axle torque: R_a a = R_b b, with R_a + R_b = W, so R_a = W b/L and R_b = W a/L. The seat, on the
 * straight line through the supports, sinks by y = (b δ_a + a δ_b) / L =
 * W a² b² (a + b) / (2 EI_seat L²) · (1 − floor²/3), so
 *   k = W / y = 2 EI_seat L / (a² b²) / (1 − floor²/3).
 * EI_seat is taken from the wanted rate by this.
 *
 * Solved by shooting: from the front eye with unknown slope and pin force, Runge-Kutta of the fourth
 * order along the leaf, Newton on what has to hold at the rear eye.
 */
import { Matrix, solve } from 'ml-matrix';
import type { SpringMount } from '../../src/lib/mechanics/leaf-spring.ts';

/** A leaf of two tapered halves. SI. */
export interface TaperedLeaf {
	front: number;
	rear: number;
	/** At the seat, N·m². */
	seatStiffness: number;
	/** Least stiffness, at the eyes, as a share of that at the seat. */
	floor: number;
	/** Elements in each stretch of the leaf between two kinks of its stiffness. */
	elements: number;
}

/** The leaf at rest. Places in frame axes, m; turn in radians, positive nose-up. */
export interface TaperedLeafAtRest {
	mount: SpringMount;
	load: number;
	freeCurvature: number;
	seatX: number;
	seatZ: number;
	seatTurn: number;
	/** Depth of the leaf's middle below the line through the eyes, m. */
	arch: number;
	/** Slope at the front eye, rearward and up, radians. */
	eyeSlope: number;
	/** Force of the front pin on the leaf, N. */
	pinX: number;
	pinZ: number;
	/** What is left of the equations, as shares of load and length. */
	residual: number;
}

/** Six leaves, one of which reaches the eyes, keep a sixth there. */
export const usualFloor = 1 / 6;

/** @param rate at the seat, N/m; lengths in m */
export function taperedLeaf(
	front: number,
	rear: number,
	rate: number,
	floor = usualFloor,
	elements = 40,
): TaperedLeaf {
	const seatStiffness =
		((rate * front * front * rear * rear) / (2 * (front + rear))) * (1 - (floor * floor) / 3);
	return { front, rear, seatStiffness, floor, elements };
}

interface Station {
	x: number;
	z: number;
	slope: number;
}

interface Shape {
	seat: Station;
	middle: Station;
	end: Station;
	/** Flattening moment at the rear eye, N·m: none, when in equilibrium. */
	endMoment: number;
}

/** The bent leaf for a guess of slope and pin force at the front eye. */
function bentShape(
	leaf: TaperedLeaf,
	mount: SpringMount,
	load: number,
	freeCurvature: number,
	eyeSlope: number,
	pinX: number,
	pinZ: number,
): Shape {
	const length = leaf.front + leaf.rear;
	let seat: Station | undefined;
	let middle: Station | undefined;
	let here: Station = { x: mount.eyeX, z: mount.eyeZ, slope: eyeSlope };
	const stiffness = (s: number): number =>
		leaf.seatStiffness *
		Math.max(leaf.floor, s < leaf.front ? s / leaf.front : (length - s) / leaf.rear);
	// The axle pushes up at the seat, the pin down at the eye: both flatten a leaf that bows down.
	const moment = (x: number, z: number): number =>
		-((mount.eyeX - x) * pinZ - (mount.eyeZ - z) * pinX) - (seat ? (seat.x - x) * load : 0);
	const slopes = (s: number, at: Station): Station => ({
		x: -Math.cos(at.slope),
		z: Math.sin(at.slope),
		slope: freeCurvature - moment(at.x, at.z) / stiffness(s),
	});
	const moved = (from: Station, by: Station, step: number): Station => ({
		x: from.x + by.x * step,
		z: from.z + by.z * step,
		slope: from.slope + by.slope * step,
	});
	const stops = [
		leaf.floor * leaf.front,
		leaf.front,
		length / 2,
		length - leaf.floor * leaf.rear,
		length,
	].sort((p, q) => p - q);
	let s = 0;
	for (const stop of stops) {
		const begin = s;
		const step = (stop - begin) / leaf.elements;
		for (let element = 0; element < leaf.elements; element++) {
			s = begin + element * step;
			const one = slopes(s, here);
			const two = slopes(s + step / 2, moved(here, one, step / 2));
			const three = slopes(s + step / 2, moved(here, two, step / 2));
			const four = slopes(s + step, moved(here, three, step));
			here = moved(here, one, step / 6);
			here = moved(here, two, step / 3);
			here = moved(here, three, step / 3);
			here = moved(here, four, step / 6);
		}
		s = stop;
		if (stop === leaf.front) seat = here;
		if (stop === length / 2) middle = here;
	}
	if (!seat || !middle) throw new Error('The leaf has no seat or no middle.');
	return { seat, middle, end: here, endMoment: moment(here.x, here.z) };
}

/** Depth of the leaf's middle below the line through the eyes. */
function depthOfMiddle(mount: SpringMount, shape: Shape): number {
	const x = mount.eyeX - shape.end.x;
	const z = shape.end.z - mount.eyeZ;
	const toMiddleX = mount.eyeX - shape.middle.x;
	const toMiddleZ = shape.middle.z - mount.eyeZ;
	return (z * toMiddleX - x * toMiddleZ) / Math.hypot(x, z);
}

/** Newton with central differences and halved steps. Every unknown and equation near one in size. */
function newton(equations: (unknowns: number[]) => number[], guess: number[]): number[] {
	const size = (values: number[]): number => Math.hypot(...values);
	let unknowns = guess;
	let left = equations(unknowns);
	for (let round = 0; round < 60 && size(left) > 1e-13; round++) {
		const slopes = Matrix.zeros(left.length, unknowns.length);
		for (let column = 0; column < unknowns.length; column++) {
			const shifted = (by: number): number[] =>
				equations(unknowns.map((value, index) => (index === column ? value + by : value)));
			const up = shifted(1e-5);
			const down = shifted(-1e-5);
			up.forEach((value, row) => slopes.set(row, column, (value - (down[row] ?? NaN)) / 2e-5));
		}
		const step = solve(slopes, Matrix.columnVector(left)).to1DArray();
		const ahead = (share: number): number[] =>
			unknowns.map((value, index) => value - share * (step[index] ?? NaN));
		let share = 1;
		while (!(size(equations(ahead(share))) < size(left)) && share > 1e-4) share /= 2;
		const next = ahead(share);
		const nextLeft = equations(next);
		if (!(size(nextLeft) < size(left))) break;
		unknowns = next;
		left = nextLeft;
	}
	if (!(size(left) < 1e-9)) throw new Error(`No equilibrium: ${size(left)} of the load is left.`);
	return unknowns;
}

/**
 * Equilibrium from a guess. With `arch` the free curvature is found too, without it is kept.
 */
function solved(
	leaf: TaperedLeaf,
	mount: SpringMount,
	load: number,
	guess: { eyeSlope: number; pinX: number; pinZ: number; freeCurvature: number },
	arch?: number,
): TaperedLeafAtRest {
	const length = leaf.front + leaf.rear;
	// A force and a curvature of the size that matters here.
	const force = leaf.seatStiffness / (length * length);
	const parts = (unknowns: number[]) => {
		const [eyeSlope = NaN, pinX = NaN, pinZ = NaN, free = guess.freeCurvature * length] = unknowns;
		return {
			eyeSlope,
			pinX: pinX * force,
			pinZ: pinZ * force,
			freeCurvature: free / length,
		};
	};
	const shapeOf = (unknowns: number[]): Shape => {
		const { freeCurvature, eyeSlope, pinX, pinZ } = parts(unknowns);
		return bentShape(leaf, mount, load, freeCurvature, eyeSlope, pinX, pinZ);
	};
	const equations = (unknowns: number[]): number[] => {
		const { pinX, pinZ } = parts(unknowns);
		const shape = shapeOf(unknowns);
		const shackleX = shape.end.x - mount.pivotX;
		const shackleZ = shape.end.z - mount.pivotZ;
		return [
			// No moment at the rear eye, the shackle its length, its force along itself.
			shape.endMoment / (force * length),
			(Math.hypot(shackleX, shackleZ) - mount.shackleLength) / length,
			(-pinX * shackleZ + (pinZ + load) * shackleX) / (force * length),
			...(arch === undefined ? [] : [(depthOfMiddle(mount, shape) - arch) / length]),
		];
	};
	const start = [guess.eyeSlope, guess.pinX / force, guess.pinZ / force];
	const unknowns = newton(
		equations,
		arch === undefined ? start : [...start, guess.freeCurvature * length],
	);
	const shape = shapeOf(unknowns);
	return {
		...parts(unknowns),
		mount,
		load,
		seatX: shape.seat.x,
		seatZ: shape.seat.z,
		seatTurn: -shape.seat.slope,
		arch: depthOfMiddle(mount, shape),
		residual: Math.hypot(...equations(unknowns)),
	};
}

/**
 * The leaf as measured: its free curvature from arch and load.
 * @param arch depth of the leaf's middle below the line through the eyes, m
 * @param load at the seat, N
 */
export function taperedLeafAtArch(
	leaf: TaperedLeaf,
	mount: SpringMount,
	arch: number,
	load: number,
): TaperedLeafAtRest {
	// The guess: a shallow arc, its rear eye square to the line from eye to pivot.
	const length = leaf.front + leaf.rear;
	const curvature = (8 * arch) / (length * length);
	const across = Math.hypot(mount.eyeX - mount.pivotX, mount.pivotZ - mount.eyeZ);
	const chord = length - (8 * arch * arch) / (3 * length);
	const cosine = (across ** 2 + chord ** 2 - mount.shackleLength ** 2) / (2 * across * chord);
	const aside = Math.acos(Math.max(-1, Math.min(1, cosine)));
	const toPivot = Math.atan2(mount.pivotZ - mount.eyeZ, mount.eyeX - mount.pivotX);
	const chordSlope = toPivot + (mount.stands ? aside : -aside);
	return solved(
		leaf,
		mount,
		load,
		{
			eyeSlope: chordSlope - (curvature * length) / 2,
			pinX: 0,
			pinZ: (-load * leaf.rear) / length,
			freeCurvature: curvature + (load * leaf.front * leaf.rear) / (length * leaf.seatStiffness),
		},
		arch,
	);
}

/**
 * The same leaf on another mount or under another load, followed there in small steps so that it
 * stays the same equilibrium.
 */
export function taperedLeafAtLoad(
	leaf: TaperedLeaf,
	before: TaperedLeafAtRest,
	mount: SpringMount,
	load: number,
	steps = 10,
): TaperedLeafAtRest {
	let rest = before;
	for (let step = 1; step <= steps; step++) {
		const between = (from: number, to: number): number => from + ((to - from) * step) / steps;
		const partway: SpringMount = {
			eyeX: between(before.mount.eyeX, mount.eyeX),
			eyeZ: between(before.mount.eyeZ, mount.eyeZ),
			pivotX: between(before.mount.pivotX, mount.pivotX),
			pivotZ: between(before.mount.pivotZ, mount.pivotZ),
			shackleLength: between(before.mount.shackleLength, mount.shackleLength),
			stands: mount.stands,
		};
		rest = solved(leaf, partway, between(before.load, load), rest);
	}
	return rest;
}
