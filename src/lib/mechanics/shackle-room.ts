/**
 * How far a shackle lets its axle go. Front eye, rear eye and shackle pivot make a triangle; it falls
 * flat where the shackle comes in line with the chord, folded back on it (a leaf too long for its mount,
 * in bump) or stretched out (in droop), and from there it may come back on the wrong side. A shackle that
 * swings toward in line also lifts or lowers the rear eye against what the leaf's bending does to the
 * seat. Where the two cancel the axle stands still whatever pushes: the spring locks, and its load runs
 * away. The room ends at whichever comes first; a leaf bent to a half circle ends the search. SI.
 */
import { bearingAt, greatestBend, keptPose, lastPose, type SpringPlace } from './spring-pose.ts';
import { carriesAt } from './spring-search.ts';
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

/** The longest step out from rest, and how near the end is told, as bends of the whole leaf, radians. */
const longestStep = 0.25;
const nearEnough = 1e-7;
/** Share of the way to where a straight line would have the end that a step goes: short of it. */
const shareOfWay = 0.9;

/**
 * Out from rest in steps, each a long one, or most of the way to where the last two poses say that the
 * spring locks or the shackle is in line, or half the way to where no pose was found.
 */
function roomToward(
	rest: SpringPlace,
	up: 1 | -1,
): { travel: number; swing: number; inLine: boolean } {
	const bearing = bearingAt(rest);
	const { length } = rest.leaf;
	carriesAt(bearing, rest.curvature, rest.difference);
	const workAtRest = lastPose.work;
	let { curvature, difference, work, off } = lastPose;
	let travel = 0;
	// In bump the leaf flattens and then bows the other way: less curvature.
	let left = greatestBend / length + up * curvature;
	const halfCircle = -up * (greatestBend / length);
	let step = longestStep / length;
	while (Math.min(step, left) * length > nearEnough) {
		const next = Math.min(step, left / 2);
		const stands = carriesAt(bearing, curvature - up * next, difference);
		const reached = up * (lastPose.axleZ - rest.axleZ);
		if (!stands || reached < travel) {
			left = next;
			continue;
		}
		const toLock = (next * lastPose.work) / (work - lastPose.work);
		const toLine = (next * lastPose.off) / (off - lastPose.off);
		step = longestStep / length;
		if (toLock > 0) step = Math.min(step, shareOfWay * toLock);
		if (toLine > 0) step = Math.min(step, shareOfWay * toLine);
		left -= next;
		travel = reached;
		({ curvature, difference, work, off } = lastPose);
	}
	carriesAt(bearing, curvature, difference);
	const swing = shackleAngle(rest.mount, keptPose(bearing)).toChord;
	return {
		travel,
		swing: Math.abs(swing - shackleAngle(rest.mount, rest).toChord),
		// Toward in line the leaf gives way more and more under a load, toward a lock less and less.
		inLine: work < workAtRest && Math.abs(curvature - halfCircle) * length > 1e-3,
	};
}
