/**
 * The driveshaft between the transmission joint and the pinion joint, in the side view.
 * Slope: positive where the line runs down toward the rear. Frame axes, SI.
 */
import type { AxlePlace } from './axle.ts';
import { finite, positive } from './out-of-range.ts';

/** A joint centre in frame axes, m. */
export interface JointPlace {
	x: number;
	z: number;
}

/** Refuses a place that is nowhere. */
function jointAt(x: number, z: number): JointPlace {
	finite('The place of the joint', x);
	finite('The place of the joint', z);
	return { x, z };
}

/** A driveshaft from joint centre to joint centre. */
export interface Driveshaft {
	/** m */
	length: number;
	/** radians, positive down toward the rear */
	slope: number;
}

/**
 * The pinion joint on its axle: J = A + reach·(cos δ, sin δ) + rise·(−sin δ, cos δ).
 * @param reach joint centre ahead of the axle centre along the pinion, m
 * @param rise joint centre above the axle centre, square to the pinion, m
 * @param slope δ of the pinion in frame axes, radians
 */
export function pinionJoint(
	axle: AxlePlace,
	reach: number,
	rise: number,
	slope: number,
): JointPlace {
	finite('The pinion reach', reach);
	finite('The pinion rise', rise);
	finite('The pinion slope', slope);
	const cos = Math.cos(slope);
	const sin = Math.sin(slope);
	return jointAt(axle.x + reach * cos - rise * sin, axle.z + reach * sin + rise * cos);
}

/**
 * The transmission joint, from the pinion joint and the shaft as measured.
 * @param length joint centre to joint centre, m
 * @param slope of the shaft in frame axes, radians
 */
export function transmissionJoint(pinion: JointPlace, length: number, slope: number): JointPlace {
	positive('The driveshaft length', length, 'm');
	finite('The driveshaft slope', slope);
	return jointAt(pinion.x + length * Math.cos(slope), pinion.z + length * Math.sin(slope));
}

/** A joint moved forward and up in frame axes, m. */
export function jointMoved(joint: JointPlace, forward: number, up: number): JointPlace {
	return jointAt(joint.x + forward, joint.z + up);
}

/**
 * The driveshaft that joins two joint centres.
 * @throws OutOfRange when the two centres coincide
 */
export function driveshaftBetween(transmission: JointPlace, pinion: JointPlace): Driveshaft {
	const forward = transmission.x - pinion.x;
	const up = transmission.z - pinion.z;
	const length = Math.hypot(forward, up);
	positive('The driveshaft length', length, 'm');
	return { length, slope: Math.atan2(up, forward) };
}
