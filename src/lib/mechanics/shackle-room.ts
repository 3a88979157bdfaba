/**
 * How far a shackle lets its axle go. Front eye, rear eye and shackle pivot make a triangle; it falls
 * flat where the shackle comes in line with the chord, folded back on it (a leaf too long for its mount,
 * in bump) or stretched out (in droop), and from there it may come back on the wrong side. A shackle that
 * swings toward in line also lifts or lowers the rear eye against what the leaf's bending does to the
 * seat. Where the two cancel the axle stands still whatever pushes: the spring locks, and its load runs
 * away. The room ends at whichever comes first; a leaf bent to a half circle ends the search.
 *
 * Neither end can be reached: at the one the load is without bounds, at the other the shackle runs away
 * ever faster. So they are told a little before, where the figure is still sharp: a lock where a little
 * more bend moves the axle a tenth of what it does at rest, some hundredths of an inch short; in line at
 * 5 degrees from it, which is no more than a bushing gives. SI.
 */
import { greatestBend, type SpringMount } from './leaf-spring.ts';
import { bracketedRoot } from './root.ts';
import {
	bearingAt,
	chordAt,
	keptPose,
	lastPose,
	poseAt,
	poseAtChord,
	type Bearing,
	type SpringPlace,
} from './spring-pose.ts';
import { shackleAngle } from './shackle.ts';

/** How far axle and shackle may go from rest. */
export interface ShackleRoom {
	/** Axle rise to the end in bump, m. */
	bumpTravel: number;
	/** What the shackle's angle to the chord changes by until there, radians, not negative. */
	bumpSwing: number;
	/** True when the shackle comes in line with the chord there; false when the spring locks before. */
	bumpInLine: boolean;
	/** Axle fall to the end in droop, m. */
	droopTravel: number;
	/** As bumpSwing. */
	droopSwing: number;
	/** As bumpInLine. */
	droopInLine: boolean;
}

/**
 * How far the axle may go from a rest, in bump and in droop, before its spring locks or its shackle
 * comes in line.
 */
export function shackleRoom(rest: SpringPlace): ShackleRoom {
	const bearing = bearingAt(rest);
	poseAt(bearing, rest.curvature, rest.difference);
	const { work } = lastPose;
	const bump = roomToward(rest, bearing, work, 1);
	const droop = roomToward(rest, bearing, work, -1);
	return {
		bumpTravel: bump.travel,
		bumpSwing: bump.swing,
		bumpInLine: bump.inLine,
		droopTravel: droop.travel,
		droopSwing: droop.swing,
		droopInLine: droop.inLine,
	};
}

/** Where a lock is told, as a share of what the axle moves by at rest for the same bend. */
const lockShare = 0.1;
/** Where in line is told: the square of the sine of the shackle's angle to the chord. */
const lineEdge = Math.sin((5 * Math.PI) / 180) ** 2;
/** The longest step out from rest, and how near the end is found, as bends of the whole leaf, radians. */
const stepBend = 0.8;
const nearEnough = 1e-6;
/** A step of the search for the chord at which the shackle comes in line. */
const chordBend = 0.2;

/** Square of the sine of the shackle's angle to a chord; below nothing where they do not meet. */
function lineMargin(
	{ pivotX, pivotZ, eyeX, eyeZ, shackleLength }: SpringMount,
	chord: number,
): number {
	const across = (pivotX - eyeX) ** 2 + (pivotZ - eyeZ) ** 2;
	const cos =
		(chord * chord + shackleLength * shackleLength - across) / (2 * chord * shackleLength);
	return 1 - cos * cos;
}

/**
 * Out from rest in steps until the spring locks or the shackle comes in line. Where it comes in line the chord
 * tells, so that the last step goes there at once; a lock is then looked for within the step that passed it.
 * @param workAtRest of a weight of one, as `lastPose` has it
 */
function roomToward(
	rest: SpringPlace,
	bearing: Bearing,
	workAtRest: number,
	up: 1 | -1,
): { travel: number; swing: number; inLine: boolean } {
	const { leaf, mount } = rest;
	const edge = Math.min(lineEdge, lineMargin(mount, rest.chord) / 4);
	// In bump the leaf flattens and then bows the other way: less curvature.
	const halfCircle = -up * (greatestBend / leaf.length);
	// Toward in line the work runs away as the angle to the chord closes; the two together change evenly.
	const toLock = (): number =>
		(lastPose.work / workAtRest - lockShare) * Math.sqrt(lineMargin(mount, lastPose.chord));

	let { curvature, difference, chord } = rest;
	let left = (1 - lockShare) * Math.sqrt(lineMargin(mount, chord));
	let inLine = false;
	for (let step = stepBend; step > nearEnough;) {
		const end = lineAhead(rest, curvature, difference, edge, halfCircle);
		const line = chordAt(leaf, end, difference);
		const ahead = curvature - (up * step) / leaf.length;
		// Not past flat, where the chord begins to turn back.
		const turned = curvature * ahead < 0 ? 0 : ahead;
		const next = up * (turned - end) > 0 ? turned : end;
		let toLine = next === end && end !== halfCircle;
		let stood = toLine
			? poseAtChord(bearing, line, end, difference)
			: poseAt(bearing, next, difference);
		if (stood && !toLine && lineMargin(mount, lastPose.chord) < edge) {
			toLine = true;
			stood = poseAtChord(bearing, line, lastPose.curvature, lastPose.difference);
		}
		const room = stood ? toLock() : NaN;
		if (room <= 0 && lockBetween(bearing, chord, left, room, difference, toLock)) {
			inLine = false;
			break;
		}
		if (room > 0) {
			({ curvature, difference, chord } = lastPose);
			left = room;
			inLine = toLine;
			if (toLine || next === halfCircle) break;
		} else {
			step = (Math.abs(next - curvature) * leaf.length) / 2;
			// The pose that stood is looked at again, in case it was the last.
			poseAt(bearing, curvature, difference);
		}
	}
	const there = keptPose(bearing);
	return {
		travel: Math.max(0, up * (there.axleZ - rest.axleZ)),
		swing: Math.abs(shackleAngle(mount, there).toChord - shackleAngle(mount, rest).toChord),
		inLine,
	};
}

/**
 * The curvature ahead at which the shackle would come in line with the halves as far apart as they are now;
 * a half circle where it does not before.
 */
function lineAhead(
	{ leaf, mount }: SpringPlace,
	curvature: number,
	difference: number,
	edge: number,
	halfCircle: number,
): number {
	const margin = (bend: number): number =>
		lineMargin(mount, chordAt(leaf, bend, difference)) - edge;
	const steps = Math.ceil((Math.abs(halfCircle - curvature) * leaf.length) / chordBend);
	let near = curvature;
	let left = margin(near);
	for (let count = 1; count <= steps && left > 0; count++) {
		const next = curvature + ((halfCircle - curvature) * count) / steps;
		const room = margin(next);
		if (room <= 0) return bracketedRoot(margin, near, next, nearEnough / leaf.length, left, room);
		near = next;
		left = room;
	}
	return near;
}

/**
 * Leaves in `lastPose` the lock between a pose and the one last looked at, which is past it. The way between
 * is counted by the root of how far the chord is from in line: so it goes evenly with the shackle's angle.
 * @returns false where no pose leads there without a leap
 */
function lockBetween(
	bearing: Bearing,
	chord: number,
	left: number,
	leftThere: number,
	start: number,
	toLock: () => number,
): boolean {
	const { mount } = bearing;
	const across = Math.hypot(mount.pivotX - mount.eyeX, mount.pivotZ - mount.eyeZ);
	const { chord: there, curvature } = lastPose;
	const grows = there > chord;
	const line = grows ? across + mount.shackleLength : Math.abs(across - mount.shackleLength);
	const way = (to: number): number => Math.sqrt(Math.abs(line - to));
	let difference = start;
	const lockAt = (root: number): number => {
		const to = grows ? line - root * root : line + root * root;
		if (!poseAtChord(bearing, to, curvature, difference)) return NaN;
		({ difference } = lastPose);
		return toLock();
	};
	const root = bracketedRoot(lockAt, way(chord), way(there), nearEnough, left, leftThere);
	return Math.abs(lockAt(root)) < lockShare / 10;
}
