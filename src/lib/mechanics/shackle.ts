/** The shackle's angle. Frame axes as in leaf-spring.ts; SI. */
import type { SpringMount } from './leaf-spring.ts';
import { within } from './out-of-range.ts';
import type { SpringPlace } from './spring-pose.ts';

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
 * The shackle's angle in a place of its spring, in the ways it is spoken of.
 * @throws OutOfRange when the place does not belong to a shackle at all
 */
export function shackleAngle(mount: SpringMount, place: SpringPlace): ShackleAngle {
	within('The lean of the shackle', place.shackleLean, -Math.PI, Math.PI, 'rad');
	const toEyeX = mount.eyeX - place.rearEyeX;
	const toEyeZ = mount.eyeZ - place.rearEyeZ;
	const toPivotX = mount.pivotX - place.rearEyeX;
	const toPivotZ = mount.pivotZ - place.rearEyeZ;
	const toChord = Math.atan2(
		Math.abs(toEyeX * toPivotZ - toEyeZ * toPivotX),
		toEyeX * toPivotX + toEyeZ * toPivotZ,
	);
	within('The angle between shackle and spring', toChord, 0, Math.PI, 'rad');
	return {
		lean: place.shackleLean,
		fromLevel: Math.abs(Math.PI / 2 - Math.abs(place.shackleLean)),
		toChord,
	};
}
