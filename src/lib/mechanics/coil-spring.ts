/**
 * Coil springs and what the wheel feels of them. SI.
 * Motion ratio: what the spring shortens for each metre the wheel rises.
 */
import { OutOfRange, plain, plainInBoth, plainLength, within } from './out-of-range.ts';

/** Shear modulus of wound spring steel, Pa: 79.5 GPa for oil-tempered wire, EN 13906-1 (from memory). */
export const springSteelShearModulus = 79.5e9;

function checkRate(rate: number): void {
	within('The spring rate', rate, 1, 1e8, 'N/m');
}

function checkCoils(activeCoils: number): void {
	within('The number of active coils', activeCoils, 0.1, 1000, 'coils');
}

function checkMotionRatio(motionRatio: number): void {
	within('The motion ratio', motionRatio, 0.01, 10, 'm of spring for each m of wheel');
}

/**
 * Rate of a coil spring, N/m: k = G d⁴ / (8 D³ n). EN 13906-1.
 * @param wire diameter d of the wire, m
 * @param meanDiameter D of the coil, wire middle to wire middle, m: outside diameter less one wire
 * @param activeCoils n that are free to move
 * @param shearModulus G, Pa
 * @throws OutOfRange when the coil is not wider than its wire
 */
export function coilRate(
	wire: number,
	meanDiameter: number,
	activeCoils: number,
	shearModulus: number = springSteelShearModulus,
): number {
	within('The wire diameter', wire, 1e-4, 0.1, 'm');
	within('The mean coil diameter', meanDiameter, 1e-4, 2, 'm');
	checkCoils(activeCoils);
	within('The shear modulus', shearModulus, 1e9, 1e12, 'Pa');
	if (meanDiameter <= wire) {
		throw new OutOfRange(
			`The mean coil diameter is ${plainLength(meanDiameter)} and the wire ${plainLength(wire)}; a coil has to be wider than its wire. Measure the outside diameter and take one wire off.`,
		);
	}
	return (shearModulus * Math.pow(wire, 4)) / (8 * Math.pow(meanDiameter, 3) * activeCoils);
}

function checkTrim(activeCoils: number, trimmed: number): void {
	checkCoils(activeCoils);
	within('The coils trimmed off', trimmed, 0, 1000, 'coils');
	if (activeCoils - trimmed < 0.1) {
		throw new OutOfRange(
			`The coils trimmed off are ${plain(trimmed)} of ${plain(activeCoils)} active ones; some have to be left. Trim less.`,
		);
	}
}

/**
 * Rate after trimming, N/m: k·n/(n − m). Fewer coils, stiffer spring.
 * @param rate before, N/m
 * @param activeCoils n before
 * @param trimmed m, active coils taken off; a dead end coil does not count
 */
export function trimmedCoilRate(rate: number, activeCoils: number, trimmed: number): number {
	checkRate(rate);
	checkTrim(activeCoils, trimmed);
	return (rate * activeCoils) / (activeCoils - trimmed);
}

/**
 * Free length after trimming, m: each active coil takes its pitch away.
 * @param freeLength before, m
 * @param activeCoils before
 * @param trimmed active coils taken off
 * @param endHeight what the ends that do not move take of the free length, m: one wire for plain ends
 */
export function trimmedCoilFreeLength(
	freeLength: number,
	activeCoils: number,
	trimmed: number,
	endHeight: number,
): number {
	within('The free length of the coil', freeLength, 0.01, 10, 'm');
	within('The height of the dead ends', endHeight, 0, freeLength, 'm');
	checkTrim(activeCoils, trimmed);
	return freeLength - ((freeLength - endHeight) * trimmed) / activeCoils;
}

/**
 * Length with all coils touching, m. EN 13906-1 (from memory): as many wires as coils with ground ends,
 * one and a half more with ends left as cut.
 * @param wire diameter, m
 * @param allCoils active and dead
 * @param groundEnds true when the ends are ground flat
 */
export function coilSolidLength(wire: number, allCoils: number, groundEnds: boolean): number {
	within('The wire diameter', wire, 1e-4, 0.1, 'm');
	within('The number of all coils', allCoils, 0.1, 1000, 'coils');
	return wire * (groundEnds ? allCoils : allCoils + 1.5);
}

/**
 * Motion ratio of a coil on a control arm: lever to lever, times the cosine of the coil's lean.
 * @param pivotToSpring arm pivot to the spring's middle, square to the pivot, m
 * @param pivotToWheel arm pivot to the ball joint, square to the pivot, m
 * @param lean of the coil from square to the arm, radians
 */
export function armMotionRatio(pivotToSpring: number, pivotToWheel: number, lean: number): number {
	within('The distance from arm pivot to spring', pivotToSpring, 0.01, 10, 'm');
	within('The distance from arm pivot to ball joint', pivotToWheel, 0.01, 10, 'm');
	within('The lean of the coil', lean, -1.5, 1.5, 'rad');
	return (pivotToSpring / pivotToWheel) * Math.cos(lean);
}

/** Rate at the wheel, N/m: rate times motion ratio squared. */
export function wheelRate(rate: number, motionRatio: number): number {
	checkRate(rate);
	checkMotionRatio(motionRatio);
	return rate * motionRatio * motionRatio;
}

/**
 * Length of the coil at ride, m: free length less what its load presses it.
 * @param freeLength m
 * @param rate N/m
 * @param wheelLoad sprung load at this wheel, N; the coil carries it divided by the motion ratio
 * @throws OutOfRange when the load would press it to nothing
 */
export function coilLengthAtRide(
	freeLength: number,
	rate: number,
	wheelLoad: number,
	motionRatio: number,
): number {
	within('The free length of the coil', freeLength, 0.01, 10, 'm');
	checkRate(rate);
	within('The load at the wheel', wheelLoad, 0, 1e6, 'N');
	checkMotionRatio(motionRatio);
	const length = freeLength - wheelLoad / motionRatio / rate;
	if (length <= 0) {
		throw new OutOfRange(
			`The coil is ${plainLength(freeLength)} long free, and a load of ${plainInBoth(wheelLoad, 'N')} at the wheel would press it ${plainLength(freeLength - length)}. Check rate, load and motion ratio.`,
		);
	}
	return length;
}

/**
 * How much lower the truck stands at this wheel once the coil's length at ride has changed, m; negative
 * when it stands higher. A spacer counts as length.
 * @param lengthBefore coil and spacer at ride, m
 * @param lengthAfter coil and spacer at ride, m
 */
export function coilDrop(lengthBefore: number, lengthAfter: number, motionRatio: number): number {
	within('The length at ride before', lengthBefore, 0, 20, 'm');
	within('The length at ride after', lengthAfter, 0, 20, 'm');
	checkMotionRatio(motionRatio);
	return (lengthBefore - lengthAfter) / motionRatio;
}

/**
 * What a spacer raises the truck by at this wheel, m.
 * @param thickness m; negative when one is taken out
 */
export function coilSpacerRise(thickness: number, motionRatio: number): number {
	within('The thickness of the spacer', thickness, -1, 1, 'm');
	checkMotionRatio(motionRatio);
	return thickness / motionRatio;
}

/**
 * Wheel travel from ride until the coils touch, m; negative when they touch already.
 * @param lengthAtRide m
 * @param solidLength all coils touching, m
 */
export function travelToCoilBind(
	lengthAtRide: number,
	solidLength: number,
	motionRatio: number,
): number {
	within('The coil length at ride', lengthAtRide, 0, 10, 'm');
	within('The solid length of the coil', solidLength, 0, 200, 'm');
	checkMotionRatio(motionRatio);
	return (lengthAtRide - solidLength) / motionRatio;
}

/**
 * Natural frequency of a sprung mass, Hz: √(k/m) / 2π.
 * @param rate at the wheel, N/m
 * @param mass carried by that wheel's spring, kg
 */
export function naturalFrequency(rate: number, mass: number): number {
	within('The wheel rate', rate, 1e-4, 1e10, 'N/m');
	within('The sprung mass', mass, 0.1, 1e6, 'kg');
	return Math.sqrt(rate / mass) / (2 * Math.PI);
}

/**
 * One, for a front that stands on coils: what is a coil's figure is multiplied by it.
 * @param stands whether the front stands on coils
 * @throws OutOfRange where it does not, so that nothing is said of a coil that is not there
 */
export function coilsThere(stands: boolean): number {
	if (stands) return 1;
	throw new OutOfRange(
		'The front as chosen stands on 0 coils, and this figure is a coil’s. Choose a front with coils under “Which front it has”, or leave the figure alone.',
	);
}

/**
 * Camber that a lower spring gives a wheel on a swing beam, radians, negative: its top leans in. The beam
 * turns about its pivot in the frame, and the wheel with it.
 * @param drop by the springs, the frame nearer to the wheel, m; raised is negative
 * @param beamLength pivot in the frame to the middle of the wheel, level, m
 * @throws OutOfRange for a drop as long as the beam
 */
export function beamCamber(drop: number, beamLength: number): number {
	within('The length of the beam', beamLength, 0.1, 5, 'm');
	within('The drop by the springs', drop, -0.9 * beamLength, 0.9 * beamLength, 'm');
	return 0 - Math.asin(drop / beamLength);
}
