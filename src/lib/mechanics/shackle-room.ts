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
import { bearingAt, keptPose, lastPose, poseAt, type SpringPlace } from './spring-pose.ts';
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
	const bump = roomToward(rest, 1);
	const droop = roomToward(rest, -1);
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
const stepBend = 0.4;
const nearEnough = 1e-6;
/** How much further than the end is looked for a step goes, so that the end comes to lie within it. */
const overshoot = 1.1;

/** Square of the sine of the shackle's angle to the chord, in the pose last looked at. */
function lineMargin({ pivotX, pivotZ, eyeX, eyeZ, shackleLength }: SpringMount): number {
	const across = (pivotX - eyeX) ** 2 + (pivotZ - eyeZ) ** 2;
	return lastPose.off * (across / (lastPose.chord * shackleLength)) ** 2;
}

/** Out from rest in steps until the room is at its end, and then in the last step to where it ends. */
function roomToward(
	rest: SpringPlace,
	up: 1 | -1,
): { travel: number; swing: number; inLine: boolean } {
	const bearing = bearingAt(rest);
	const { leaf, mount } = rest;
	poseAt(bearing, rest.curvature, rest.difference);
	const lockEdge = lockShare * lastPose.work;
	const lockAtRest = lastPose.work - lockEdge;
	const edge = Math.min(lineEdge, lineMargin(mount) / 4);
	const lineAtRest = lineMargin(mount) - edge;
	const toLock = (): number => (lastPose.work - lockEdge) / lockAtRest;
	const toLine = (): number => (lineMargin(mount) - edge) / lineAtRest;
	let { difference } = rest;
	// What room is left, one at rest; not a number where there is no pose.
	const roomAt = (curvature: number): number =>
		poseAt(bearing, curvature, difference) ? Math.min(toLock(), toLine()) : NaN;

	// In bump the leaf flattens and then bows the other way: less curvature.
	const halfCircle = -up * (greatestBend / leaf.length);
	let curvature = rest.curvature;
	let left = 1;
	const longest = stepBend / leaf.length;
	let step = longest;
	while (step * leaf.length > nearEnough && curvature !== halfCircle) {
		const ahead = curvature - up * step;
		const next = up * (ahead - halfCircle) > 0 ? ahead : halfCircle;
		const room = roomAt(next);
		if (room > 0) {
			// A little further than where the last two poses would have it end, so that it lies in between.
			const ends = (overshoot * step * room) / (left - room);
			step = ends > 0 ? Math.min(ends, longest) : longest;
			curvature = next;
			left = room;
			difference = lastPose.difference;
		} else if (room <= 0) {
			const tolerance = nearEnough / leaf.length;
			const end = bracketedRoot(roomAt, curvature, next, tolerance, left, room);
			if (!Number.isNaN(roomAt(end))) curvature = end;
			break;
		} else {
			step /= 2;
		}
	}
	poseAt(bearing, curvature, difference);
	const there = keptPose(bearing);
	return {
		travel: Math.max(0, up * (there.axleZ - rest.axleZ)),
		swing: Math.abs(shackleAngle(mount, there).toChord - shackleAngle(mount, rest).toChord),
		inLine: toLine() < toLock() && curvature !== halfCircle,
	};
}
