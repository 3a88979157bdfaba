/**
 * The spring in bump and droop, with the frame turned as it is at rest. The law stands in
 * spring-pose.ts, axes and signs too. SI.
 */
import { greatestBend } from './leaf-spring.ts';
import { OutOfRange, plainLength, within } from './out-of-range.ts';
import { bracketedRoot } from './root.ts';
import { shackleRoom } from './shackle-room.ts';
import { bearingAt, keptPose, lastPose, type Bearing, type SpringPlace } from './spring-pose.ts';
import { carriesAt, settle, settleQuickly } from './spring-search.ts';

/**
 * The spring with its axle risen in the frame.
 * @param rest the spring at rest
 * @param rise of the axle's centre, m: bump positive, droop negative
 * @returns the pose, what the axle did, and as `load` what it takes to hold it there
 * @throws OutOfRange when leaf and shackle do not let the axle get there
 */
export function springAtRise(rest: SpringPlace, rise: number): SpringPlace {
	within('The rise of the axle', rise, -10, 10, 'm');
	const bearing = bearingAt(rest);
	const { curvature, difference } = rest;
	const most = greatestBend / rest.leaf.length;
	const [low, high] = rise > 0 ? [-most, curvature] : [curvature, most];
	if (!settle(bearing, 'axleZ', rest.axleZ + rise, curvature, difference, low, high)) {
		const room = shackleRoom(rest);
		const travel = rise > 0 ? room.bumpTravel : room.droopTravel;
		throw new OutOfRange(
			`The axle cannot ${rise > 0 ? 'rise' : 'drop'} ${plainLength(Math.abs(rise))} from rest on this spring: leaf and shackle let it go about ${plainLength(travel)}. Check the travel, the shackle and the arch.`,
		);
	}
	return keptPose(bearing, rest);
}

/** Where droop ends. */
export interface DroopEnd extends SpringPlace {
	/** How far the axle's centre falls from rest, m. */
	fall: number;
	/**
	 * True where the spring cannot come to hang its axle: on the way its shackle goes over centre. The
	 * pose is then the last that holds.
	 */
	overCentre: boolean;
}

/**
 * Where droop ends: the frame is lifted until the spring carries nothing but the axle that hangs on it.
 * @param hangingWeight of half the axle, its wheels and brakes, N: it pulls the spring down
 */
export function droopEnd(rest: SpringPlace, hangingWeight: number): DroopEnd {
	within('The weight that hangs on the spring', hangingWeight, 0, 1e6, 'N');
	const bearing = bearingAt(rest);
	const { curvature, difference } = rest;
	const most = greatestBend / rest.leaf.length;
	const hangs =
		settleQuickly(bearing, 'load', -hangingWeight, curvature, difference, curvature, most) ||
		hangsBefore(bearing, rest, hangingWeight);
	const end = keptPose(bearing, rest);
	return { ...end, fall: 0 - end.axleRise, overCentre: !hangs };
}

/** A step of the search below, as a bend of the whole leaf, and when it has come near enough. */
const stepBend = 0.1;
const nearEnough = 1e-6;
/** Half of the stretch over which the load is seen to fall or to rise. */
const slopeBend = 1e-3;

/**
 * Finds the pose in which the load is at its least: from there the spring would give way by itself. Steps
 * as long as the load falls, shorter ones up to where the parts no longer meet.
 * @returns true, and the pose that hangs, where the load came down to that on the way
 */
function hangsBefore(bearing: Bearing, rest: SpringPlace, hangingWeight: number): boolean {
	const { length } = rest.leaf;
	let { curvature, difference, load } = rest;
	let before = curvature;
	let step = stepBend / length;
	while (step * length > nearEnough) {
		const next = curvature + step;
		if (!carriesAt(bearing, next, difference)) {
			step /= 2;
			continue;
		}
		if (lastPose.load <= -hangingWeight) {
			return settle(bearing, 'load', -hangingWeight, curvature, difference, curvature, next);
		}
		if (lastPose.load >= load) {
			const least = leastLoad(bearing, before, next, difference);
			if (carriesAt(bearing, least, difference) && lastPose.load < load) return false;
			break;
		}
		before = curvature;
		curvature = next;
		({ difference, load } = lastPose);
	}
	carriesAt(bearing, curvature, difference);
	return false;
}

/** The curvature between two at which the load stops falling. */
function leastLoad(bearing: Bearing, low: number, high: number, difference: number): number {
	const half = slopeBend / bearing.leaf.length;
	const rising = (curvature: number): number => {
		const before = carriesAt(bearing, curvature - half, difference) ? lastPose.load : Infinity;
		return (carriesAt(bearing, curvature + half, difference) ? lastPose.load : Infinity) - before;
	};
	// Both ends fall or rise the same way only where the least load is at one of them.
	if (!(rising(low) < 0)) return low;
	if (!(rising(high) > 0)) return high;
	return bracketedRoot(rising, low, high, nearEnough / bearing.leaf.length);
}
