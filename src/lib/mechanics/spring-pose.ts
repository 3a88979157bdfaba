/**
 * The law of the leaf spring on its shackle, in the side view: where a spring of a given mean curvature
 * stands, and what it carries there.
 *
 * Axes: x forward, z up, fixed in the frame, origin at the stock front eye; level on the truck as it
 * stands before the job. Turn: positive nose-up. All SI: metres, radians, newtons.
 *
 * One spring is two cantilevers clamped at the seat, each of uniform strength, so each keeps one
 * curvature along its length: κf in front, κr behind, both κ₀ when free. Strain energy of a half of
 * length l: EI (l/4)(κ − κ₀)². The weight pushes up along the floor's plumb through the axle's centre;
 * so does what torque and thrust there add. Virtual work once in each half, the seat held, gives two
 * equations; they are worked in the mean κ = (a κf + b κr)/L and the difference d = κf − κr:
 *
 *   W = EI (L/2)(κ₀ − κ) / −(gf + gr)      gf, gr: work of a weight of one as each half curls   (1)
 *   d = (2W/EI)(gf/a − gr/b)                                                                   (2)
 *
 * Uniform-strength leaf: SAE HS-788, Manual on Design and Application of Leaf Springs (from memory).
 * Left out: leaf friction, bushing and bracket give, anything sideways.
 *
 * The solver passes here many thousand times in a search, so nothing is made anew in its loops: what
 * belongs to the pose last looked at stands in `at`.
 */
import type { AxleFit } from './axle-fit.ts';
import { greatestBend, type LeafSpring, type SpringMount } from './leaf-spring.ts';

/** A spring on its mount with the axle on it, at rest or in travel. Places in frame axes, m. */
export interface SpringPlace {
	leaf: LeafSpring;
	mount: SpringMount;
	fit: AxleFit;
	/** Mean curvature, 1/m; positive bows below the line through the eyes. */
	curvature: number;
	/** Curvature of the front half less that of the rear half, 1/m. */
	difference: number;
	/** Curvature of both halves with no load on them, 1/m. */
	freeCurvature: number;
	/** What it carries along the plumb through the axle's centre, N. */
	load: number;
	/** Turn of the frame over the floor since before the job, radians. */
	frameTurn: number;
	/** Depth of the main leaf at the centre bolt below the line through the eyes, m. */
	arch: number;
	/** Eye to eye in a straight line, m. */
	chord: number;
	/** Middle of the main leaf at the centre bolt. */
	seatX: number;
	seatZ: number;
	seatTurn: number;
	rearEyeX: number;
	rearEyeZ: number;
	/** Lean of the shackle from upright, radians: positive when its spring end is rearward. */
	shackleLean: number;
	/** Axle centre. */
	axleX: number;
	axleZ: number;
	/** Seat turn and wedge together, radians. */
	axleTurn: number;
	/** What the axle did since the spring it was worked from: its centre in the frame, m. */
	axleRise: number;
	axleForward: number;
	/** And its turn in the frame, radians, nose-up positive. */
	axleTurned: number;
}

/** Everything but its curvature that the pose of a spring hangs on. */
export interface Bearing {
	readonly leaf: LeafSpring;
	readonly mount: SpringMount;
	readonly fit: AxleFit;
	/** Where the axle's centre is in seat axes, m. */
	readonly axleAhead: number;
	readonly axleAbove: number;
	/** 1/m; of no account where the load is given. */
	readonly freeCurvature: number;
	/** The load, N, where it is given, and else not a number: it follows from the free curvature. */
	readonly givenLoad: number;
	readonly plumb: Plumb;
	/** On this one spring: nose-up, N·m, and forward along the floor at the axle's centre, N. */
	readonly torque: number;
	readonly thrust: number;
}

/**
 * Which way is up along the floor's plumb: (drop + follows · axle height, base) in frame axes. With
 * `follows` 0 it keeps its direction, with 1 the frame tips on its front axle as the rear one rises in it.
 */
export interface Plumb {
	readonly drop: number;
	readonly follows: 0 | 1;
	readonly base: number;
}

/** Up square to the frame, as the truck stood before the job. */
export const upright: Plumb = { drop: 0, follows: 0, base: 1 };

/** What a spring of this free curvature hangs on. */
export function bearingOf(
	leaf: LeafSpring,
	mount: SpringMount,
	fit: AxleFit,
	freeCurvature: number,
	plumb: Plumb,
	givenLoad = NaN,
	torque = 0,
	thrust = 0,
): Bearing {
	// The wedge's thickness stands square to the seat; beyond it the axle is turned about its pad.
	const toPad = fit.side * (fit.seatToPad + fit.wedgeThickness);
	const beyond = fit.side * (fit.seatToAxle - fit.seatToPad);
	const axleAhead = -beyond * Math.sin(fit.wedge);
	const axleAbove = toPad + beyond * Math.cos(fit.wedge);
	return {
		leaf,
		mount,
		fit,
		axleAhead,
		axleAbove,
		freeCurvature,
		givenLoad,
		plumb,
		torque,
		thrust,
	};
}

/** What a place of a spring hangs on, its frame turned as it is there, and torque and thrust added. */
export function bearingAt(
	{ leaf, mount, fit, freeCurvature, frameTurn }: SpringPlace,
	torque = 0,
	thrust = 0,
	givenLoad = NaN,
): Bearing {
	const plumb: Plumb = { drop: Math.sin(frameTurn), follows: 0, base: Math.cos(frameTurn) };
	return bearingOf(leaf, mount, fit, freeCurvature, plumb, givenLoad, torque, thrust);
}

/** The pose last looked at. Numbers from the start, so that writing one makes no new object. */
const at = {
	curvature: NaN,
	difference: NaN,
	/** What the line through the eyes is to be, where the curvature follows from it. */
	chordWanted: NaN,
	load: NaN,
	arch: NaN,
	chord: NaN,
	/** Square of the rear eye's distance from the line front eye to pivot, over that line's: 0 in line. */
	off: NaN,
	// In frame axes.
	rearEyeX: NaN,
	rearEyeZ: NaN,
	cos: NaN,
	sin: NaN,
	seatX: NaN,
	seatZ: NaN,
	axleX: NaN,
	axleZ: NaN,
	// Up along the floor's plumb.
	plumbX: NaN,
	plumbZ: NaN,
	/** Work of a weight of one as both halves curl by one: it carries where this is below zero. */
	work: NaN,
	/** What the forces' work and the leaf's strain leave over as each half curls: nothing at rest, N·m². */
	frontLeft: NaN,
	rearLeft: NaN,
	/** What equation (2) makes of the difference. */
	nextDifference: NaN,
};

/** The numbers of the pose last looked at. They hold until the next one. */
export const lastPose: Readonly<typeof at> = at;

/** How often the law was asked for a pose since the program began, and the passes that took. For a bench. */
export const posesTaken = { poses: 0, passes: 0 };

/** A spring whose halves differ by more than this over its length, radians. */
const greatestDifference = 3;
/** How near the difference must come, over the leaf's length, radians. */
const nearEnough = 1e-12;
const mostPasses = 60;

/** Below this bend of a half its sines are taken as series: the quotients lose their last places there. */
const smallBend = 0.03;

/** An eye in seat axes, and what a change of its half's curvature moves it by. */
interface EyeInSeat {
	x: number;
	z: number;
	moveX: number;
	moveZ: number;
}

// Made once and written over, as the pose is.
const frontEye: EyeInSeat = { x: NaN, z: NaN, moveX: NaN, moveZ: NaN };
const rearEye: EyeInSeat = { x: NaN, z: NaN, moveX: NaN, moveZ: NaN };

/**
 * Bends one half: e(l, κ) = (sin κl / κ, (1 − cos κl) / κ) and its slope over κ.
 * @param half signed length from the axle to its eye, forward positive, m
 */
function bendHalf(eye: EyeInSeat, half: number, curvature: number): void {
	const t = curvature * half;
	const s = t * t;
	if (Math.abs(t) < smallBend) {
		eye.x = half * (1 - s / 6 + (s * s) / 120);
		eye.z = half * t * (1 / 2 - s / 24 + (s * s) / 720);
		eye.moveX = half * half * t * (-1 / 3 + s / 30 - (s * s) / 840);
		eye.moveZ = half * half * (1 / 2 - s / 8 + (s * s) / 144);
	} else {
		const sin = Math.sin(t);
		const cos = Math.cos(t);
		eye.x = (half * sin) / t;
		eye.z = (half * (1 - cos)) / t;
		eye.moveX = (half * half * (t * cos - sin)) / s;
		eye.moveZ = (half * half * (t * sin - 1 + cos)) / s;
	}
}

function bend({ front, rear, length }: LeafSpring): void {
	bendHalf(frontEye, front, at.curvature + (at.difference * rear) / length);
	bendHalf(rearEye, -rear, at.curvature - (at.difference * front) / length);
}

/** Sets the bent leaf on its mount and the axle on the leaf. False where the parts do not meet. */
function placed({ mount, axleAhead, axleAbove }: Bearing): boolean {
	const chordX = frontEye.x - rearEye.x;
	const chordZ = frontEye.z - rearEye.z;
	const squared = chordX * chordX + chordZ * chordZ;
	at.chord = Math.sqrt(squared);
	at.arch = (frontEye.x * rearEye.z - frontEye.z * rearEye.x) / at.chord;
	// The rear eye: circle of the chord about the front eye meets circle of the shackle about the pivot.
	const acrossX = mount.pivotX - mount.eyeX;
	const acrossZ = mount.pivotZ - mount.eyeZ;
	const acrossSquared = acrossX * acrossX + acrossZ * acrossZ;
	const shackle = mount.shackleLength;
	const along = (acrossSquared + squared - shackle * shackle) / (2 * acrossSquared);
	const offSquared = squared / acrossSquared - along * along;
	at.off = offSquared;
	if (!(offSquared >= 0)) return false;
	// Square to eye→pivot, downward when the pivot lies behind the eye; a hanging shackle takes this one.
	const off = mount.stands ? -Math.sqrt(offSquared) : Math.sqrt(offSquared);
	const toEyeX = -along * acrossX + off * acrossZ;
	const toEyeZ = -along * acrossZ - off * acrossX;
	at.rearEyeX = mount.eyeX - toEyeX;
	at.rearEyeZ = mount.eyeZ - toEyeZ;
	at.cos = (chordX * toEyeX + chordZ * toEyeZ) / squared;
	at.sin = (chordX * toEyeZ - chordZ * toEyeX) / squared;
	at.seatX = mount.eyeX - (at.cos * frontEye.x - at.sin * frontEye.z);
	at.seatZ = mount.eyeZ - (at.sin * frontEye.x + at.cos * frontEye.z);
	at.axleX = at.seatX + at.cos * axleAhead - at.sin * axleAbove;
	at.axleZ = at.seatZ + at.sin * axleAhead + at.cos * axleAbove;
	return true;
}

/**
 * Work that a force at the rear eye and one at the front eye do as each half curls by one, seat held;
 * and from it the load by (1), unless it is given, and the next difference by (2).
 */
function carry(bearing: Bearing): void {
	const { leaf, mount, plumb, thrust, torque, givenLoad } = bearing;
	const lean = plumb.drop + plumb.follows * at.axleZ;
	const size = Math.sqrt(lean * lean + plumb.base * plumb.base);
	const plumbX = lean / size;
	const plumbZ = plumb.base / size;
	at.plumbX = plumbX;
	at.plumbZ = plumbZ;
	const shackleX = (mount.pivotX - at.rearEyeX) / mount.shackleLength;
	const shackleZ = (mount.pivotZ - at.rearEyeZ) / mount.shackleLength;
	const lever = (at.rearEyeX - mount.eyeX) * shackleZ - (at.rearEyeZ - mount.eyeZ) * shackleX;
	const armX = at.axleX - mount.eyeX;
	const armZ = at.axleZ - mount.eyeZ;
	// What each eye moves by in frame axes.
	const frontX = at.cos * frontEye.moveX - at.sin * frontEye.moveZ;
	const frontZ = at.sin * frontEye.moveX + at.cos * frontEye.moveZ;
	const rearX = at.cos * rearEye.moveX - at.sin * rearEye.moveZ;
	const rearZ = at.sin * rearEye.moveX + at.cos * rearEye.moveZ;
	const shackleWork = shackleX * rearX + shackleZ * rearZ;
	const shackleFront = shackleX * frontX + shackleZ * frontZ;
	// A weight of one: its moment about the front eye is held by the shackle, the rest by the front eye.
	const pull = -(armX * plumbZ - armZ * plumbX) / lever;
	const rearWork = pull * shackleWork;
	const frontWork = -pull * shackleFront - (plumbX * frontX + plumbZ * frontZ);
	at.work = frontWork + rearWork;
	// Torque and thrust; forward along the floor is the plumb turned by a quarter.
	const pull2 = -(-thrust * (armX * plumbX + armZ * plumbZ) + torque) / lever;
	const rearWork2 = pull2 * shackleWork;
	const frontWork2 = -pull2 * shackleFront - thrust * (plumbZ * frontX - plumbX * frontZ);
	const { stiffness, front, rear, length } = leaf;
	const strain = (stiffness * length * (bearing.freeCurvature - at.curvature)) / 2;
	const load = Number.isNaN(givenLoad) ? -(strain + frontWork2 + rearWork2) / at.work : givenLoad;
	const frontAll = load * frontWork + frontWork2;
	const rearAll = load * rearWork + rearWork2;
	at.load = load;
	at.nextDifference = (2 / stiffness) * (frontAll / front - rearAll / rear);
	const less = at.curvature - bearing.freeCurvature;
	at.frontLeft = (stiffness * front * (less + (at.difference * rear) / length)) / 2 - frontAll;
	at.rearLeft = (stiffness * rear * (less - (at.difference * front) / length)) / 2 - rearAll;
}

/**
 * The pose bent as `at` has it, with what it carries; false where the parts do not meet. Curvature and
 * difference are not handed over, for a number handed to a function is made anew each time.
 */
function posed(bearing: Bearing): boolean {
	bend(bearing.leaf);
	if (!placed(bearing)) return false;
	carry(bearing);
	return true;
}

/**
 * The pose at a mean curvature, left in `lastPose`: the difference that (2) gives back, by secant.
 * @param start a difference to begin at; the pose's own is kept to the last bit
 * @returns false where there is none: the parts do not meet, or nothing holds the leaf in its shape
 */
export function poseAt(bearing: Bearing, curvature: number, start: number): boolean {
	at.curvature = curvature;
	return balanced(bearing, start, false);
}

/**
 * The same at a chord: the line through the eyes is given, and the curvature follows. Near where the shackle
 * comes in line the chord hardly changes any more, and by the curvature a pose is hard to find there.
 * @param curvature near the pose's own
 */
export function poseAtChord(
	bearing: Bearing,
	chord: number,
	curvature: number,
	start: number,
): boolean {
	at.curvature = curvature;
	at.chordWanted = chord;
	return balanced(bearing, start, true);
}

/** The two above: the difference is found, with the curvature as `at` has it or to the chord wanted. */
function balanced(bearing: Bearing, start: number, toChord: boolean): boolean {
	const { leaf } = bearing;
	posesTaken.poses++;
	let difference = start;
	let before = NaN;
	let missBefore = NaN;
	for (let pass = 0; pass < mostPasses; pass++) {
		posesTaken.passes++;
		if (!(Math.abs(difference) * leaf.length <= greatestDifference)) return false;
		at.difference = difference;
		if (toChord && !bentToChord(leaf)) return false;
		if (!(Math.abs(at.curvature) * leaf.length <= greatestBend)) return false;
		if (!posed(bearing)) return false;
		const miss = at.nextDifference - difference;
		// Twice as wide at the start: what was near enough once stays so.
		if (Math.abs(miss) * leaf.length <= (pass === 0 ? 2 * nearEnough : nearEnough)) {
			return Math.abs(at.load) < Infinity;
		}
		const step = pass === 0 ? miss : (-miss * (difference - before)) / (miss - missBefore);
		before = difference;
		missBefore = miss;
		difference += step;
	}
	return false;
}

/** Bends both halves alike until the chord is the one wanted, by Newton; the difference stays. */
function bentToChord(leaf: LeafSpring): boolean {
	for (let round = 0; round < mostPasses; round++) {
		bend(leaf);
		const chordX = frontEye.x - rearEye.x;
		const chordZ = frontEye.z - rearEye.z;
		const chord = Math.sqrt(chordX * chordX + chordZ * chordZ);
		const slope =
			(chordX * (frontEye.moveX - rearEye.moveX) + chordZ * (frontEye.moveZ - rearEye.moveZ)) /
			chord;
		const step = (at.chordWanted - chord) / slope;
		if (Math.abs(step) * leaf.length <= nearEnough) return true;
		at.curvature += step;
		if (!(Math.abs(at.curvature) * leaf.length <= 2 * greatestBend)) return false;
	}
	return false;
}

/** The line through the eyes of a leaf bent so, m, wherever it stands. It costs no pose, and leaves none. */
export function chordAt(leaf: LeafSpring, curvature: number, difference: number): number {
	at.curvature = curvature;
	at.difference = difference;
	bend(leaf);
	return Math.hypot(frontEye.x - rearEye.x, frontEye.z - rearEye.z);
}

/** A little more or less bend of the whole leaf, radians. */
const littleBend = 1e-3;

/** True where both halves lead back to a place from a little off it, whichever way they are bent. */
export function holds(place: SpringPlace, torque = 0, thrust = 0): boolean {
	const { leaf } = place;
	const bearing = bearingAt(place, torque, thrust, place.load);
	const little = littleBend / leaf.length;
	/** What is left over with the halves bent a little more; false where the parts do not meet. */
	const bent = (front: number, rear: number): boolean => {
		at.curvature = place.curvature + (front * leaf.front + rear * leaf.rear) / leaf.length;
		at.difference = place.difference + front - rear;
		return posed(bearing);
	};
	if (!bent(little, 0)) return false;
	let frontByFront = at.frontLeft;
	let rearByFront = at.rearLeft;
	if (!bent(-little, 0)) return false;
	frontByFront -= at.frontLeft;
	rearByFront -= at.rearLeft;
	if (!bent(0, little)) return false;
	let frontByRear = at.frontLeft;
	let rearByRear = at.rearLeft;
	if (!bent(0, -little)) return false;
	frontByRear -= at.frontLeft;
	rearByRear -= at.rearLeft;
	return frontByFront > 0 && frontByFront * rearByRear > frontByRear * rearByFront;
}

/**
 * The pose last looked at, kept.
 * @param from the spring it was worked from; none for the first
 */
export function keptPose(bearing: Bearing, from?: SpringPlace): SpringPlace {
	const { leaf, mount, fit, freeCurvature } = bearing;
	const seatTurn = Math.atan2(at.sin, at.cos);
	const axleTurn = seatTurn + fit.wedge;
	return {
		leaf,
		mount,
		fit,
		curvature: at.curvature,
		difference: at.difference,
		freeCurvature,
		load: at.load,
		frameTurn: Math.atan2(at.plumbX, at.plumbZ),
		arch: at.arch,
		chord: at.chord,
		seatX: at.seatX,
		seatZ: at.seatZ,
		seatTurn,
		rearEyeX: at.rearEyeX,
		rearEyeZ: at.rearEyeZ,
		shackleLean: Math.atan2(
			mount.pivotX - at.rearEyeX,
			mount.stands ? at.rearEyeZ - mount.pivotZ : mount.pivotZ - at.rearEyeZ,
		),
		axleX: at.axleX,
		axleZ: at.axleZ,
		axleTurn,
		axleRise: from ? at.axleZ - from.axleZ : 0,
		axleForward: from ? at.axleX - from.axleX : 0,
		axleTurned: from ? axleTurn - from.axleTurn : 0,
	};
}
