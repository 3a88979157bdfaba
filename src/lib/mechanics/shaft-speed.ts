/**
 * How fast the driveshaft turns, and what operating angle a joint bears at that speed.
 * SI: m/s, rad/s, rad/s², radians.
 */
import { OutOfRange, plain, within } from './out-of-range.ts';
import { checkAngle, checkShaftSpeed, greatestAngle } from './universal-joint.ts';

/**
 * Greatest angular acceleration a shaft's own inertia is let to see, (β ω)², rad/s².
 * Common practice, no source.
 */
export const inertiaLimit = 1000;

/** Each joint runs at least this, radians, so that its needles roll. Common practice, no source. */
export const leastAngle = (0.5 * Math.PI) / 180;

/** Exponent of the life law of roller bearings. ISO 281. */
export const rollerLifeExponent = 10 / 3;

/**
 * Largest operating angle of one joint by shaft speed, rev/min and degrees. Common practice, no source.
 */
export const ruleOfThumb: readonly (readonly [number, number])[] = [
	[1500, 11.5],
	[2000, 8.67],
	[2500, 7],
	[3000, 5.83],
	[3500, 5],
	[4000, 4.25],
	[4500, 3.67],
	[5000, 3.25],
];

function checkRoad(tyreRadius: number, axleRatio: number): void {
	within('The loaded tyre radius', tyreRadius, 0.1, 1.5, 'm');
	within('The axle ratio', axleRatio, 0.5, 20, 'to 1');
}

function checkLimit(limit: number): void {
	within('The acceleration limit', limit, 1, 100_000, 'rad/s²');
}

function checkGear(gearRatio: number): void {
	within('The gear ratio', gearRatio, 0.1, 50, 'to 1');
}

/**
 * Driveshaft speed at a road speed, rad/s. Tyre slip is left out. A tyre rolls as one of a slightly
 * greater radius than the loaded one would (from memory), so the speed is a few hundredths high.
 * @param roadSpeed m/s
 * @param tyreRadius loaded, axle centre to floor, m
 * @param axleRatio driveshaft turns for one of the wheels
 * @throws OutOfRange for figures no truck has
 */
export function driveshaftSpeed(roadSpeed: number, tyreRadius: number, axleRatio: number): number {
	within('The road speed', roadSpeed, 0, 200, 'm/s');
	checkRoad(tyreRadius, axleRatio);
	return (roadSpeed / tyreRadius) * axleRatio;
}

/**
 * Road speed at a driveshaft speed, m/s. Arguments as driveshaftSpeed.
 * @param shaftSpeed rad/s
 */
export function roadSpeedOfShaft(
	shaftSpeed: number,
	tyreRadius: number,
	axleRatio: number,
): number {
	checkShaftSpeed(shaftSpeed);
	checkRoad(tyreRadius, axleRatio);
	return (shaftSpeed / axleRatio) * tyreRadius;
}

/**
 * Engine speed at a driveshaft speed, rad/s.
 * @param shaftSpeed rad/s
 * @param gearRatio of everything ahead of the shaft: engine turns for one of the shaft
 */
export function engineSpeed(shaftSpeed: number, gearRatio: number): number {
	checkShaftSpeed(shaftSpeed);
	checkGear(gearRatio);
	return shaftSpeed * gearRatio;
}

/**
 * Driveshaft speed at an engine speed, rad/s. Arguments as engineSpeed.
 * @param speed of the engine, rad/s
 */
export function driveshaftSpeedFromEngine(speed: number, gearRatio: number): number {
	within('The engine speed', (speed * 30) / Math.PI, 0, 100_000, 'rev/min');
	checkGear(gearRatio);
	return speed / gearRatio;
}

/**
 * Largest operating angle at a shaft speed, radians: the β with (β ω)² = limit, and never more than a
 * joint turns at. (β ω)² is the peak acceleration for small β: within 1% from 1500 rev/min up with the
 * usual limit. Slower than that the joint's own stop comes first.
 * @param shaftSpeed ω, rad/s
 * @param limit rad/s²; inertiaLimit is the usual one
 */
export function largestAngle(shaftSpeed: number, limit: number): number {
	checkShaftSpeed(shaftSpeed);
	checkLimit(limit);
	// The absolute value takes the sign off a zero.
	return Math.min(greatestAngle, Math.sqrt(limit) / Math.abs(shaftSpeed));
}

/**
 * Largest operating angle by the rule of thumb, radians. Between its rows the product of angle and
 * speed runs straight: it is what the limit behind the table holds steady.
 * @param shaftSpeed rad/s
 * @throws OutOfRange outside the table, 1500 to 5000 rev/min
 */
export function ruleOfThumbAngle(shaftSpeed: number): number {
	const speed = (shaftSpeed * 30) / Math.PI;
	for (const [row, [high, highAngle]] of ruleOfThumb.entries()) {
		// A shaft speed converted from a row's own figure may miss it in the last place.
		if (Math.abs(speed - high) < 1e-9 * high) return (highAngle * Math.PI) / 180;
		const before = ruleOfThumb[row - 1];
		if (!before || !(speed > before[0] && speed < high)) continue;
		const [low, lowAngle] = before;
		const share = (speed - low) / (high - low);
		const product = low * lowAngle * (1 - share) + high * highAngle * share;
		return ((product / speed) * Math.PI) / 180;
	}
	throw new OutOfRange(
		`The shaft speed is ${plain(speed)} rev/min; the table of largest angles runs from 1500 to 5000 rev/min. Use the acceleration limit at other speeds.`,
	);
}

/**
 * Road speed at which an operating angle becomes too much, m/s. Arguments as largestAngle and
 * driveshaftSpeed.
 * @throws OutOfRange for an angle so small that no speed is too much for it
 */
export function roadSpeedLimit(
	angle: number,
	tyreRadius: number,
	axleRatio: number,
	limit: number,
): number {
	checkAngle(angle);
	checkLimit(limit);
	checkRoad(tyreRadius, axleRatio);
	if (angle < leastAngle / 10) {
		throw new OutOfRange(
			`The operating angle is ${plain((angle * 180) / Math.PI)} degrees, and no road speed is too much for that. Look at the ½° the needles need to roll instead.`,
		);
	}
	return (Math.sqrt(limit) / angle / axleRatio) * tyreRadius;
}

/**
 * Life of a joint in hours after a change, as a multiple of its life before. The needles roll through
 * the operating angle twice a turn, so hours go as 1/(speed × angle) (from memory: makers' selection
 * rules for joints), and with torque by the life law of roller bearings, exponent 10/3 (ISO 281).
 * Below ½° the needles no longer roll and the law ends; such an angle counts as ½°, which says nothing
 * good of it.
 * @param angleBefore operating angle, radians
 * @param speedBefore shaft speed, rad/s
 * @param angleAfter radians
 * @param speedAfter rad/s
 * @param torqueRatio torque after over torque before
 * @throws OutOfRange for an angle no joint turns at, or a shaft slower than 1 rev/min
 */
export function relativeJointLife(
	angleBefore: number,
	speedBefore: number,
	angleAfter: number,
	speedAfter: number,
	torqueRatio: number,
): number {
	checkAngle(angleBefore);
	checkAngle(angleAfter);
	for (const speed of [speedBefore, speedAfter]) {
		within('The shaft speed', (speed * 30) / Math.PI, 1, 100_000, 'rev/min');
	}
	within('The torque after over the torque before', torqueRatio, 0.01, 100, 'to 1');
	const rolling = (angle: number): number => Math.max(angle, leastAngle);
	return (
		((rolling(angleBefore) * speedBefore) / (rolling(angleAfter) * speedAfter)) *
		Math.pow(torqueRatio, -rollerLifeExponent)
	);
}
