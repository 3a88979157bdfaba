/**
 * What the axle, the tyre, the shock and the hose have left to move. SI: metres.
 * Axle rise: of the axle centre in the frame, up positive; a drop of the truck is a rise of the axle.
 */
import type { AxlePlace } from './axle-fit.ts';
import type { Driveshaft, JointPlace } from './driveshaft.ts';
import { OutOfRange, plainLength, within } from './out-of-range.ts';

/** Room above the axle after a drop, m. Negative: the parts overlap by that much. */
export interface RoomAboveAxle {
	/** Axle to the end of the bump stop: the bump travel that is left. */
	toBumpStop: number;
	/** Axle to the frame over it. */
	toFrame: number;
	/** How far the stop may be squeezed before axle and frame meet. */
	stopSqueeze: number;
	/** True when the axle meets the stop before the frame. */
	stopMetFirst: boolean;
}

/**
 * Axle to bump stop and to frame after a drop.
 * @param toBumpStop axle to the end of the bump stop as it stands, m
 * @param toFrame axle to the frame as it stands, m
 * @param axleRise of the axle in the frame, m; the drop at the axle
 * @param stopShortened what the bump stop was shortened or moved up by, m
 * @param frameNotched depth of a notch over the axle, m
 */
export function roomAboveAxle(
	toBumpStop: number,
	toFrame: number,
	axleRise: number,
	stopShortened: number,
	frameNotched: number,
): RoomAboveAxle {
	within('The distance from axle to bump stop', toBumpStop, -10, 10, 'm');
	within('The distance from axle to frame', toFrame, -10, 10, 'm');
	within('The axle rise', axleRise, -10, 10, 'm');
	within('What the bump stop is shortened by', stopShortened, -10, 10, 'm');
	within('The depth of the notch', frameNotched, 0, 10, 'm');
	const stop = toBumpStop - axleRise + stopShortened;
	const frame = toFrame - axleRise + frameNotched;
	return {
		toBumpStop: stop,
		toFrame: frame,
		stopSqueeze: frame - stop,
		stopMetFirst: stop < frame,
	};
}

/**
 * Place in frame axes of something bolted to the axle, m, wherever the axle stands and however it is
 * turned.
 * @param ahead of the axle centre with the axle not turned, m
 * @param above the axle centre with the axle not turned, m
 */
export function placeOnAxle(
	axle: AxlePlace,
	ahead: number,
	above: number,
): { x: number; z: number } {
	within('The place of the axle along the frame', axle.x, -100, 100, 'm');
	within('The height of the axle in the frame', axle.z, -100, 100, 'm');
	within('The turn of the axle', axle.turn, -Math.PI, Math.PI, 'rad');
	within('The distance ahead of the axle centre', ahead, -10, 10, 'm');
	within('The distance above the axle centre', above, -10, 10, 'm');
	const cos = Math.cos(axle.turn);
	const sin = Math.sin(axle.turn);
	return { x: axle.x + ahead * cos - above * sin, z: axle.z + ahead * sin + above * cos };
}

/** What lies over the shaft stays in the frame. The steepest shaft that has a place over it, radians. */
const steepest = (80 * Math.PI) / 180;

/**
 * How far the shaft's centre line comes up at a place that stays in the frame, m: what the gap over the
 * shaft loses and the gap under it gains. Both lines are straight, joint to joint.
 * @param pinionBefore rear joint before, frame axes
 * @param before the shaft before
 * @param pinionAfter rear joint after, the same axes
 * @param after the shaft after
 * @param ahead how far the place lies ahead of the rear joint as it was before, level, m
 * @throws OutOfRange for a place that lies beyond the shaft's front joint
 */
export function shaftRise(
	pinionBefore: JointPlace,
	before: Driveshaft,
	pinionAfter: JointPlace,
	after: Driveshaft,
	ahead: number,
): number {
	within('The distance ahead of the rear joint', ahead, 0, 10, 'm');
	for (const joint of [pinionBefore, pinionAfter]) {
		within('The place of the joint along the frame', joint.x, -100, 100, 'm');
		within('The height of the joint in the frame', joint.z, -100, 100, 'm');
	}
	for (const { slope, length } of [before, after]) {
		within('The slope of the driveshaft', slope, -steepest, steepest, 'rad');
		within('The driveshaft length', length, 1e-6, 100, 'm');
	}
	const reach = before.length * Math.cos(before.slope);
	if (ahead > reach) {
		throw new OutOfRange(
			`The place lies ${plainLength(ahead)} ahead of the rear joint, and the shaft ends after ${plainLength(reach)}. Measure a place over the shaft itself.`,
		);
	}
	const away = pinionBefore.x + ahead - pinionAfter.x;
	return (
		pinionAfter.z + away * Math.tan(after.slope) - (pinionBefore.z + ahead * Math.tan(before.slope))
	);
}

/** What an axle tube has fore and aft in a notch, m. Negative: it meets the notch's edge. */
export interface NotchRoom {
	ahead: number;
	behind: number;
	/** The lesser of the two. */
	least: number;
}

/**
 * An axle tube in a notch of the frame, seen from the side.
 * @param length of the notch along the rail, m
 * @param middleAhead middle of the notch ahead of the axle centre as it was before, m
 * @param tube outside diameter of the axle tube, m
 * @param axleForward how far the axle has gone forward in the frame where it stands in the notch, m
 */
export function notchRoom(
	length: number,
	middleAhead: number,
	tube: number,
	axleForward: number,
): NotchRoom {
	within('The length of the notch', length, 0, 10, 'm');
	within('The distance of the notch ahead of the axle', middleAhead, -10, 10, 'm');
	within('The diameter of the axle tube', tube, 0, 2, 'm');
	within('The distance the axle moves forward', axleForward, -10, 10, 'm');
	const each = (length - tube) / 2;
	const off = axleForward - middleAhead;
	return { ahead: each - off, behind: each + off, least: each - Math.abs(off) };
}

/**
 * Straight distance between two mounts, m: the length of a shock, or of a taut hose. In side view
 * leave `sideways` at 0, in end view leave `forward` at 0.
 * @param forward frame mount ahead of the axle mount, m
 * @param sideways frame mount to the side of it, m
 * @param up frame mount above it, m
 */
export function mountToMount(forward: number, sideways: number, up: number): number {
	within('The distance forward between the mounts', forward, -10, 10, 'm');
	within('The distance sideways between the mounts', sideways, -10, 10, 'm');
	within('The height between the mounts', up, -10, 10, 'm');
	return Math.hypot(forward, sideways, up);
}

/** A shock's lengths and what is left of its stroke. Lengths m, shares of the whole stroke. */
export interface ShockStroke {
	ride: number;
	bump: number;
	droop: number;
	/** Share of the stroke between ride and closed. */
	closingShare: number;
	/** Share of the stroke between ride and open. */
	openingShare: number;
	/** Stroke left when the shock is shortest over the travel, m; negative: it closes too soon. */
	leftClosing: number;
	/** Stroke left when the shock is longest over the travel, m; negative: it is pulled out. */
	leftOpening: number;
}

/**
 * What is left of a shock's stroke, from its mount-to-mount lengths.
 * @param ride length at ride, m
 * @param bump at full bump, m
 * @param droop at full droop, m
 * @param closed fully closed, m
 * @param open fully open, m
 * @throws OutOfRange when the shock is not longer open than closed
 */
export function shockStroke(
	ride: number,
	bump: number,
	droop: number,
	closed: number,
	open: number,
): ShockStroke {
	within('The shock length at ride', ride, 0, 30, 'm');
	within('The shock length at bump', bump, 0, 30, 'm');
	within('The shock length at droop', droop, 0, 30, 'm');
	within('The closed length of the shock', closed, 0, 10, 'm');
	within('The open length of the shock', open, 0, 10, 'm');
	const stroke = open - closed;
	if (stroke < 1e-6) {
		throw new OutOfRange(
			`The shock is ${plainLength(open)} open and ${plainLength(closed)} closed; it has to be longer open than closed. Check the two lengths.`,
		);
	}
	return {
		ride,
		bump,
		droop,
		closingShare: (ride - closed) / stroke,
		openingShare: (open - ride) / stroke,
		leftClosing: Math.min(ride, bump, droop) - closed,
		leftOpening: open - Math.max(ride, bump, droop),
	};
}

/**
 * A shock whose axle mount goes straight up and down.
 * @param forward frame mount ahead of the axle mount at ride, m
 * @param sideways frame mount to the side of it, m
 * @param up frame mount above it, m
 * @param bumpTravel axle rise to full bump, m
 * @param droopTravel axle fall to full droop, m
 * @param closed fully closed, m
 * @param open fully open, m
 * @throws OutOfRange when the shock is not longer open than closed
 */
export function shockOverTravel(
	forward: number,
	sideways: number,
	up: number,
	bumpTravel: number,
	droopTravel: number,
	closed: number,
	open: number,
): ShockStroke {
	within('The bump travel', bumpTravel, 0, 10, 'm');
	within('The droop travel', droopTravel, 0, 10, 'm');
	return shockStroke(
		mountToMount(forward, sideways, up),
		mountToMount(forward, sideways, up - bumpTravel),
		mountToMount(forward, sideways, up + droopTravel),
		closed,
		open,
	);
}

/**
 * Motion ratio of a leaning shock: what it shortens for each metre of axle rise, the cosine of its
 * lean from upright. Negative when its frame mount is the lower one.
 * @param forward frame mount ahead of the axle mount, m
 * @param sideways frame mount to the side of it, m
 * @param up frame mount above it, m
 * @throws OutOfRange when the two mounts coincide
 */
export function shockMotionRatio(forward: number, sideways: number, up: number): number {
	const length = mountToMount(forward, sideways, up);
	within('The distance between the shock mounts', length, 1e-6, 30, 'm');
	return up / length;
}

/**
 * Top of the tyre to the fender lip over it, m. A loaded tyre is flat at the floor only, so its top
 * stands a loaded and an unloaded radius above the floor. Negative: the tyre is in the fender.
 * @param lipHeight fender lip to floor over the wheel centre, m
 * @param loadedRadius wheel centre to floor, m
 * @param freeRadius half the tyre's diameter with no load, m
 * @param bump rise of the axle from there, m
 */
export function tyreToFender(
	lipHeight: number,
	loadedRadius: number,
	freeRadius: number,
	bump: number,
): number {
	within('The height of the fender lip', lipHeight, 0, 10, 'm');
	within('The loaded tyre radius', loadedRadius, 0.05, 10, 'm');
	within('The free tyre radius', freeRadius, 0.05, 10, 'm');
	within('The bump travel', bump, -10, 10, 'm');
	return lipHeight - loadedRadius - freeRadius - bump;
}

/**
 * Slack of a brake hose at droop, m: its length less the straight distance between its two ends.
 * Negative: the axle hangs on the hose.
 * @param hoseLength end to end along the hose, m
 * @param forward frame end ahead of the axle end at ride, m
 * @param sideways frame end to the side of it, m
 * @param up frame end above it, m
 * @param droopTravel fall of the axle from ride, m; with the job's drop, from the new ride height
 */
export function hoseSlack(
	hoseLength: number,
	forward: number,
	sideways: number,
	up: number,
	droopTravel: number,
): number {
	within('The hose length', hoseLength, 0.01, 10, 'm');
	within('The distance forward between the hose ends', forward, -10, 10, 'm');
	within('The distance sideways between the hose ends', sideways, -10, 10, 'm');
	within('The height between the hose ends', up, -10, 10, 'm');
	within('The droop travel', droopTravel, -10, 10, 'm');
	return hoseLength - Math.hypot(forward, sideways, up + droopTravel);
}
