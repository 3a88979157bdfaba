/**
 * The shackle's angle, and how far it may go before it is over centre. Frame axes as in
 * leaf-spring.ts; SI.
 *
 * When a shackle is over centre. Front eye, rear eye and shackle pivot make a triangle whose sides are
 * the chord, the shackle and the eye-to-pivot distance. It falls flat in two ways, both with the
 * shackle in line with the chord:
 * - folded back on it: the chord is as long as eye-to-pivot and shackle together. A leaf longer than
 *   that, flattening in bump, pushes the shackle there and then cannot lengthen any more: it binds.
 * - stretched out in line with it: the chord is eye-to-pivot less shackle. A leaf that arches in droop
 *   pulls the shackle there, and from there it may come back on the wrong side: it has turned over.
 * A shackle swinging toward in line also lifts or lowers the rear eye, against what the leaf's bending
 * does to the seat. Where the two cancel the axle stands still: it goes no further in that direction
 * whatever pushes, and past it the shackle runs away. That comes before in line, usually in droop. The
 * limit given here is whichever comes first; the leaf bent to a half circle ends the search.
 */
import { axleOnSeat } from './axle.ts';
import { springPose, type LeafSpring, type SpringMount, type SpringPose } from './leaf-spring.ts';
import { within } from './out-of-range.ts';
import { bracketedRoot } from './root.ts';

/** A shackle's angle, radians. */
export interface ShackleAngle {
	/**
	 * Lean from plumb as a gauge on the shackle reads it on a level frame, positive when the spring
	 * end is rearward of the frame end.
	 */
	lean: number;
	/** Angle up from level to the shackle, a quarter turn when upright; never negative. */
	fromLevel: number;
	/**
	 * Between shackle and the line through the eyes, at the rear eye: zero when folded back on it, a
	 * quarter turn when square to it, a half turn when stretched out in line.
	 */
	toChord: number;
}

/**
 * The shackle's angle in a pose, in the ways it is spoken of.
 * @throws OutOfRange when the pose does not belong to a shackle at all
 */
export function shackleAngle(mount: SpringMount, pose: SpringPose): ShackleAngle {
	within('The lean of the shackle', pose.shackleLean, -Math.PI, Math.PI, 'rad');
	const toEyeX = mount.eyeX - pose.rearEyeX;
	const toEyeZ = mount.eyeZ - pose.rearEyeZ;
	const toPivotX = mount.pivotX - pose.rearEyeX;
	const toPivotZ = mount.pivotZ - pose.rearEyeZ;
	const toChord = Math.atan2(
		Math.abs(toEyeX * toPivotZ - toEyeZ * toPivotX),
		toEyeX * toPivotX + toEyeZ * toPivotZ,
	);
	within('The angle between shackle and spring', toChord, 0, Math.PI, 'rad');
	return {
		lean: pose.shackleLean,
		fromLevel: Math.abs(Math.PI / 2 - Math.abs(pose.shackleLean)),
		toChord,
	};
}

/** How far axle and shackle may go from rest before the shackle is over centre. */
export interface ShackleLimits {
	/** Axle rise to the limit in bump, m. */
	bumpTravel: number;
	/** What the shackle's angle to the chord changes by until there, radians, not negative. */
	bumpSwing: number;
	/**
	 * True when the shackle comes in line with the chord there; false when the axle stands still
	 * before, or the leaf is bent to a half circle.
	 */
	bumpInLine: boolean;
	/** Axle fall to the limit in droop, m. */
	droopTravel: number;
	/** As bumpSwing. */
	droopSwing: number;
	/** As bumpInLine. */
	droopInLine: boolean;
}

/** Curvature of a leaf bowed to this chord, 1/m, and the half circle's when it would be bent further. */
function curvatureOfChord(chord: number, length: number): number {
	if (chord >= length) return 0;
	const halfCircle = Math.PI / length;
	if (chord <= (2 * length) / Math.PI) return halfCircle;
	const tooLong = (curvature: number): number => {
		const bend = (curvature * length) / 2;
		return (bend === 0 ? length : (length * Math.sin(bend)) / bend) - chord;
	};
	return bracketedRoot(tooLong, 0, halfCircle, 1e-16);
}

/** Steps of the search to each limit. A step is then under half a degree of shackle swing. */
const searchSteps = 400;

/** How near to in line the search goes, as a share of the way: parts in line leave no rounding room. */
const nearInLine = 1e-6;

/**
 * Where the shackle goes over centre in bump and in droop, by geometry alone. See the head of this
 * file for what counts as over centre.
 * @param rest the spring at rest on this mount
 * @param seatToAxle axle centre above the seat, m
 * @param wedge radians, positive nose-up
 * @throws OutOfRange when the parts do not meet at rest
 */
export function shackleLimits(
	leaf: LeafSpring,
	mount: SpringMount,
	rest: SpringPose,
	seatToAxle: number,
	wedge: number,
): ShackleLimits {
	within('The distance from seat to axle centre', seatToAxle, -10, 10, 'm');
	within('The wedge angle', wedge, -Math.PI / 2, Math.PI / 2, 'rad');
	const here = springPose(leaf, mount, rest.curvature);
	const heightHere = axleOnSeat(here, seatToAxle, wedge).z;
	const angleHere = shackleAngle(mount, here).toChord;

	const across = Math.hypot(mount.pivotX - mount.eyeX, mount.pivotZ - mount.eyeZ);
	const flattest = curvatureOfChord(across + mount.shackleLength, leaf.length);
	const shortestChord = Math.abs(across - mount.shackleLength);
	const mostBent = curvatureOfChord(shortestChord, leaf.length);
	const bentInLine = shortestChord > (2 * leaf.length) / Math.PI;
	// With a shackle long enough for the flat leaf the leaf may bow either way; else it stays on its side.
	const passesFlat = flattest === 0;
	const bows = rest.curvature < 0 ? -1 : 1;
	const ends = {
		bump: passesFlat || bows < 0 ? -mostBent : flattest,
		droop: passesFlat || bows > 0 ? mostBent : -flattest,
	};

	const limit = (
		end: number,
		direction: 1 | -1,
		endInLine: boolean,
	): { travel: number; swing: number; inLine: boolean } => {
		// Toward in line the shackle swings with the root of what curvature is left; squaring evens it out.
		const poseAt = (way: number): SpringPose =>
			springPose(leaf, mount, end - (end - rest.curvature) * (1 - way) * (1 - way));
		const travelAt = (way: number): number =>
			direction * (axleOnSeat(poseAt(way), seatToAxle, wedge).z - heightHere);
		const last = 1 - nearInLine;
		let way = last;
		let reached = 0;
		for (let count = 1; count <= searchSteps; count++) {
			const travel = travelAt((last * count) / searchSteps);
			if (travel < reached) {
				way = highest(
					travelAt,
					(last * Math.max(count - 2, 0)) / searchSteps,
					(last * count) / searchSteps,
				);
				break;
			}
			reached = travel;
		}
		return {
			travel: Math.max(travelAt(way), 0),
			swing: Math.abs(shackleAngle(mount, poseAt(way)).toChord - angleHere),
			inLine: endInLine && way === last,
		};
	};
	const bump = limit(ends.bump, 1, ends.bump === -mostBent ? bentInLine : true);
	const droop = limit(ends.droop, -1, ends.droop === mostBent ? bentInLine : true);
	return {
		bumpTravel: bump.travel,
		bumpSwing: bump.swing,
		bumpInLine: bump.inLine,
		droopTravel: droop.travel,
		droopSwing: droop.swing,
		droopInLine: droop.inLine,
	};
}

/** Where a function with one hill between two places is highest, by golden section. */
function highest(f: (x: number) => number, low: number, high: number): number {
	const golden = (Math.sqrt(5) - 1) / 2;
	let a = low;
	let b = high;
	while (b - a > 1e-9) {
		const left = b - golden * (b - a);
		const right = a + golden * (b - a);
		if (f(left) < f(right)) a = left;
		else b = right;
	}
	return (a + b) / 2;
}
