/** How the truck stands on the floor and over its wheels. SI; turn positive nose-up. */
import { positive, within } from './out-of-range.ts';

/**
 * Turn of the frame from a drop at each end: atan2(rear − front, wheelbase), radians, nose-up positive.
 * ISO 8855 calls this the pitch angle, with the sign turned round.
 * @param frontDrop m, down positive
 * @param rearDrop m, down positive
 * @param wheelbase m
 * @throws OutOfRange when the wheelbase is not above zero, or a drop is a kilometre
 */
export function frameTurn(frontDrop: number, rearDrop: number, wheelbase: number): number {
	positive('The wheelbase', wheelbase, 'm');
	within('The front drop', frontDrop, -1000, 1000, 'm');
	within('The rear drop', rearDrop, -1000, 1000, 'm');
	return Math.atan2(rearDrop - frontDrop, wheelbase);
}

/**
 * Drop at the rear that gives the frame a turn, m, down positive: frameTurn the other way round.
 * @param turn wanted, radians, nose-up positive, less than 45°
 * @param frontDrop m, down positive
 * @param wheelbase m
 */
export function rearDropForTurn(turn: number, frontDrop: number, wheelbase: number): number {
	within('The turn of the frame', turn, -Math.PI / 4, Math.PI / 4, 'rad');
	within('The front drop', frontDrop, -10, 10, 'm');
	within('The wheelbase', wheelbase, 0.1, 100, 'm');
	return frontDrop + wheelbase * Math.tan(turn);
}

/** Refuses heights and distances no truck has. */
function heights(frontHeight: number, rearHeight: number, apart: number): void {
	within('The front height', frontHeight, 0, 10, 'm');
	within('The rear height', rearHeight, 0, 10, 'm');
	within('The distance between the two heights', apart, 0.1, 100, 'm');
}

/**
 * Turn of the frame from two heights of one straight part of it, radians, nose-up positive. From two
 * fender lips it is no angle of the frame by itself; the change between two such figures still is.
 * @param frontHeight to the floor, m
 * @param rearHeight to the floor, m
 * @param apart along the floor, m
 */
export function turnOfHeights(frontHeight: number, rearHeight: number, apart: number): number {
	heights(frontHeight, rearHeight, apart);
	return Math.atan2(frontHeight - rearHeight, apart);
}

/**
 * Drop at the rear axle that sets the part level, m; negative: raise it. The front axle stays.
 * @param frontHeight of one straight part of the frame to the floor, m
 * @param rearHeight to the floor, m
 * @param apart along the floor, m
 * @param wheelbase m
 */
export function rearDropToLevel(
	frontHeight: number,
	rearHeight: number,
	apart: number,
	wheelbase: number,
): number {
	heights(frontHeight, rearHeight, apart);
	within('The wheelbase', wheelbase, 0.1, 100, 'm');
	return ((rearHeight - frontHeight) * wheelbase) / apart;
}

/** Distance from lamp to wall at which headlamps are aimed, m: 25 ft. SAE J599 (from memory). */
export const headlampAimDistance = 25 * 0.3048;

/**
 * What a turn of the frame does to the headlamp beam on the wall, m against the lamp's own height;
 * positive: the beam goes up.
 * @param turn change of the frame's turn, radians, nose-up positive, less than 45°
 * @param distance lamp to wall, m
 */
export function headlampRise(turn: number, distance: number = headlampAimDistance): number {
	within('The turn of the frame', turn, -Math.PI / 4, Math.PI / 4, 'rad');
	within('The distance from lamp to wall', distance, 0, 1000, 'm');
	return distance * Math.tan(turn);
}

/**
 * Wheelbase after the job, m, along the frame.
 * @param wheelbase before, m
 * @param axleForward how far the rear axle went forward in the frame, m
 * @param frameShortened length taken out of the frame between the axles, m
 * @throws OutOfRange when nothing is left of it
 */
export function wheelbaseAfter(
	wheelbase: number,
	axleForward: number,
	frameShortened: number,
): number {
	within('The wheelbase', wheelbase, 0.1, 100, 'm');
	within('The distance the axle moves forward', axleForward, -10, 10, 'm');
	within('The length taken out of the frame', frameShortened, -10, 10, 'm');
	const after = wheelbase - axleForward - frameShortened;
	within('The wheelbase after the job', after, 0.1, 120, 'm');
	return after;
}

/** A tyre in its wheel opening, m. */
export interface TyreInOpening {
	/** Gap in front of the tyre at wheel-centre height; negative: it is in the sheet metal. */
	ahead: number;
	/** Gap behind it. */
	behind: number;
	/** How far the tyre stands forward of the middle; as much seat shift rearward centres it. */
	forwardOfMiddle: number;
}

/**
 * Where a tyre stands in its wheel opening once the axle has moved.
 * @param ahead gap in front of the tyre before, at wheel-centre height, m
 * @param behind gap behind it before, m
 * @param axleForward how far the axle went forward in the frame, m
 */
export function tyreInOpening(ahead: number, behind: number, axleForward: number): TyreInOpening {
	within('The gap in front of the tyre', ahead, -10, 10, 'm');
	within('The gap behind the tyre', behind, -10, 10, 'm');
	within('The distance the axle moves forward', axleForward, -10, 10, 'm');
	return {
		ahead: ahead - axleForward,
		behind: behind + axleForward,
		forwardOfMiddle: (behind - ahead) / 2 + axleForward,
	};
}

/**
 * Design diameter of a tyre from its size, m: rim + 2 · section width · aspect ratio. ISO 4000-1 size
 * formula, unrounded: the tables round the section height to a whole millimetre first.
 * @param sectionWidth m; 0.205 for a 205/55 R16
 * @param aspectRatio 0.55 for a 205/55 R16
 * @param rimDiameter m; 16 in for a 205/55 R16
 */
export function tyreDesignDiameter(
	sectionWidth: number,
	aspectRatio: number,
	rimDiameter: number,
): number {
	within('The section width of the tyre', sectionWidth, 0.05, 2, 'm');
	within('The aspect ratio of the tyre', aspectRatio, 0.1, 1.5, 'of the section width');
	within('The rim diameter', rimDiameter, 0.1, 2, 'm');
	return rimDiameter + 2 * sectionWidth * aspectRatio;
}

/** How a rear axle stands, seen from above. */
export interface AxleSquare {
	/** Off straight ahead, radians; positive: its wheels roll toward the left. */
	thrustAngle: number;
	/** How much further forward the left centre pin has to go than the right one to square it, m. */
	leftPinForward: number;
}

/**
 * A crooked rear axle from the wheelbase on either side. ISO 8855 has y to the left.
 * @param left wheelbase on the left side, hub to hub, m
 * @param right on the right side, m
 * @param track between the two places on the rear wheels that were measured to, m
 * @param springsApart middle of one rear spring to the middle of the other, m
 * @throws OutOfRange when one side is longer by as much as the axle is wide
 */
export function axleSquare(
	left: number,
	right: number,
	track: number,
	springsApart: number,
): AxleSquare {
	within('The wheelbase on the left', left, 0.1, 100, 'm');
	within('The wheelbase on the right', right, 0.1, 100, 'm');
	within('The track', track, 0.3, 5, 'm');
	within('The distance between the springs', springsApart, 0.1, 5, 'm');
	const apart = left - right;
	within('The difference of the two sides', apart, -track / 2, track / 2, 'm');
	return {
		thrustAngle: Math.asin(apart / track),
		leftPinForward: (apart * springsApart) / track,
	};
}
