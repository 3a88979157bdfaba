/**
 * The driveshaft between the transmission joint and the pinion joint, in the side view.
 * Slope: positive where the line runs down toward the rear. Frame axes, SI.
 */
import type { AxlePlace } from './axle-fit.ts';
import { finite, positive, within } from './out-of-range.ts';

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

/** The joint at the back of the transmission, and the slope of its output shaft. */
export interface TransmissionJoint extends JointPlace {
	/** radians, positive down toward the rear */
	slope: number;
}

/**
 * The transmission with a shim under its mount. It turns with the engine about the engine's mounts, which
 * stay, by τ = atan2(shim, engineToMount): the joint comes up and its slope falls by τ.
 * @param joint of the transmission before
 * @param slope of its output shaft before, radians, positive down toward the rear
 * @param engineToJoint engine mounts to joint along that shaft, m
 * @param shim thickness under the transmission's mount, m; negative for one taken out
 * @param engineToMount engine mounts to transmission mount, m
 * @throws OutOfRange for a distance that is none
 */
export function transmissionShimmed(
	joint: JointPlace,
	slope: number,
	engineToJoint: number,
	shim: number,
	engineToMount: number,
): TransmissionJoint {
	within('The slope of the transmission', slope, -Math.PI / 2, Math.PI / 2, 'rad');
	within('The distance from engine mounts to transmission joint', engineToJoint, 0, 10, 'm');
	within('The shim under the transmission mount', shim, -1, 1, 'm');
	positive('The distance from engine mounts to transmission mount', engineToMount, 'm');
	const after = shim === 0 ? slope : slope - Math.atan2(shim, engineToMount);
	const forward = shim === 0 ? 0 : engineToJoint * (Math.cos(slope) - Math.cos(after));
	const up = shim === 0 ? 0 : engineToJoint * (Math.sin(slope) - Math.sin(after));
	// Written out: taken over as a whole a joint costs more than all the rest of this.
	const { x, z } = jointMoved(joint, forward, up);
	return { x, z, slope: after };
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
