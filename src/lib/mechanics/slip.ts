/**
 * The slip of a driveshaft: how much spline and how much room are left as the axle moves. SI: metres.
 * Lengths are joint centre to joint centre, and come from driveshaft.ts. A shaft does not always grow
 * in droop: with a pinion well below the front eye it may shorten there and grow in bump, so what is
 * left is counted at ride, bump and droop alike.
 */
import { within } from './out-of-range.ts';

/** Room a slip yoke keeps at ride before it bottoms, m: an inch. Common practice, no source. */
export const slipRoomAtRide = 0.0254;

/** Spline engaged beyond what travel takes, m: an inch or more. Common practice, no source. */
export const splineBeyondTravel = 0.0254;

/** What is left of a slip yoke over the travel, m. Negative: out of spline, or bottomed, by that much. */
export interface SlipLeft {
	engagementAtRide: number;
	engagementAtBump: number;
	engagementAtDroop: number;
	roomAtRide: number;
	roomAtBump: number;
	roomAtDroop: number;
	/** The least of the three engagements. */
	leastEngagement: number;
	/** The least of the three rooms. */
	leastRoom: number;
}

function shaftLengths(ride: number, bump: number, droop: number): void {
	within('The shaft length at ride', ride, 0.01, 100, 'm');
	within('The shaft length at bump', bump, 0.01, 100, 'm');
	within('The shaft length at droop', droop, 0.01, 100, 'm');
}

/**
 * Spline and room left at ride, bump and droop.
 * @param measuredLength shaft length at which engagement and room were measured, m; the length before
 * the job when the shaft is kept, the ride length when it was measured at ride
 * @param engagement spline engaged at that length, m
 * @param room how much further the yoke goes in at that length before it bottoms, m
 * @param ride shaft length at ride, m
 * @param bump at full bump, m
 * @param droop at full droop, m
 * @throws OutOfRange for a length that no shaft has
 */
export function slipLeft(
	measuredLength: number,
	engagement: number,
	room: number,
	ride: number,
	bump: number,
	droop: number,
): SlipLeft {
	within('The shaft length at which the yoke was measured', measuredLength, 0.01, 100, 'm');
	within('The spline engagement', engagement, 0, 10, 'm');
	within('The room before the yoke bottoms', room, 0, 10, 'm');
	shaftLengths(ride, bump, droop);
	const engagementAtRide = engagement - (ride - measuredLength);
	const engagementAtBump = engagement - (bump - measuredLength);
	const engagementAtDroop = engagement - (droop - measuredLength);
	const roomAtRide = room + (ride - measuredLength);
	const roomAtBump = room + (bump - measuredLength);
	const roomAtDroop = room + (droop - measuredLength);
	return {
		engagementAtRide,
		engagementAtBump,
		engagementAtDroop,
		roomAtRide,
		roomAtBump,
		roomAtDroop,
		leastEngagement: Math.min(engagementAtRide, engagementAtBump, engagementAtDroop),
		leastRoom: Math.min(roomAtRide, roomAtBump, roomAtDroop),
	};
}

/** What a shop is told when it makes the shaft, m. */
export interface ShaftOrder {
	/** Joint centre to joint centre at ride: the length to order. */
	length: number;
	/** How far the yoke stands out from bottomed at that length. */
	roomAtRide: number;
	/** Joint centre to joint centre with the yoke bottomed. */
	bottomedLength: number;
	/** The longest the travel pulls it. */
	longestLength: number;
	/** Spline engaged when bottomed that leaves the wanted engagement at the longest. */
	splineNeeded: number;
}

/**
 * The order for a shaft: its length at ride, and the slip it has to have.
 * @param ride shaft length at ride, m
 * @param bump at full bump, m
 * @param droop at full droop, m
 * @param room wanted at ride before the yoke bottoms, m
 * @param roomOverTravel that must be left wherever the travel makes the shaft shortest, m; where this
 * asks for more room at ride than `room`, it rules
 * @param engagement wanted beyond what travel takes, m
 * @throws OutOfRange for a length that no shaft has
 */
export function shaftOrder(
	ride: number,
	bump: number,
	droop: number,
	roomOverTravel: number,
	room: number = slipRoomAtRide,
	engagement: number = splineBeyondTravel,
): ShaftOrder {
	shaftLengths(ride, bump, droop);
	within('The room wanted at ride', room, 0, 10, 'm');
	within('The room wanted over the travel', roomOverTravel, 0, 10, 'm');
	within('The engagement wanted beyond the travel', engagement, 0, 10, 'm');
	const shortest = Math.min(ride, bump, droop);
	const longestLength = Math.max(ride, bump, droop);
	const roomAtRide = Math.max(room, ride - shortest + roomOverTravel);
	const bottomedLength = ride - roomAtRide;
	within('The shaft length with the yoke bottomed', bottomedLength, 0.001, 100, 'm');
	return {
		length: ride,
		roomAtRide,
		bottomedLength,
		longestLength,
		splineNeeded: roomAtRide + (longestLength - ride) + engagement,
	};
}
