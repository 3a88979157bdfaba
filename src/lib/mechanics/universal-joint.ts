/**
 * Universal (Hooke) joints: operating angle, speed and acceleration over a turn, one joint and a pair.
 * SI: radians, rad/s, rad/s². Angles of rotation are of the driving shaft, zero where its yoke lies in
 * the plane of the two shafts.
 */
import { finite, within } from './out-of-range.ts';

/**
 * Angle between two shafts in space, radians, never negative: acos(u·v), written as
 * atan2(|u × v|, u·v) because acos loses half its figures near zero.
 * @param slopeA down toward the rear positive, radians
 * @param slopeB the same
 * @param planA direction seen from above: toward the left going rearward positive, radians
 * @param planB the same
 */
export function operatingAngle(slopeA: number, slopeB: number, planA = 0, planB = 0): number {
	for (const angle of [slopeA, slopeB, planA, planB]) finite('The slope of a shaft', angle);
	if (planA === planB) {
		// In one vertical plane it is the difference of the slopes, turned back into 0…π.
		if (planA === 0) return Math.abs(Math.atan2(Math.sin(slopeA - slopeB), Math.cos(slopeA - slopeB)));
	}
	const direction = (slope: number, plan: number): [number, number, number] => [
		Math.cos(slope) * Math.cos(plan),
		Math.cos(slope) * Math.sin(plan),
		Math.sin(slope)
	];
	const [ax, ay, az] = direction(slopeA, planA);
	const [bx, by, bz] = direction(slopeB, planB);
	const cross = Math.hypot(ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx);
	return Math.atan2(cross, ax * bx + ay * by + az * bz);
}

/** The range in which a joint turns at all. */
function checkAngle(angle: number): void {
	within('The operating angle', (angle * 180) / Math.PI, 0, 89, 'degrees');
}

/**
 * Speed ratio of one joint, driven over driving: cos β / (1 − sin²β cos²θ).
 * Source: Khurmi & Gupta, Theory of Machines, Hooke's joint (from memory).
 * @param angle β, operating angle, radians
 * @param rotation θ of the driving shaft, radians
 */
export function jointSpeedRatio(angle: number, rotation: number): number {
	checkAngle(angle);
	finite('The rotation', rotation);
	const sin = Math.sin(angle);
	const cos = Math.cos(rotation);
	return Math.cos(angle) / (1 - sin * sin * cos * cos);
}

/**
 * Angular acceleration of the driven shaft, rad/s², with the driving shaft at steady speed:
 * −ω² cos β sin²β sin 2θ / (1 − sin²β cos²θ)². Source as above.
 * @param angle β, radians
 * @param rotation θ, radians
 * @param speed ω of the driving shaft, rad/s
 */
export function jointAcceleration(angle: number, rotation: number, speed: number): number {
	checkAngle(angle);
	finite('The rotation', rotation);
	finite('The shaft speed', speed);
	const sinSquared = Math.sin(angle) ** 2;
	const below = 1 - sinSquared * Math.cos(rotation) ** 2;
	return (
		(-speed * speed * Math.cos(angle) * sinSquared * Math.sin(2 * rotation)) / (below * below)
	);
}

/**
 * Rotation at which the driven shaft's acceleration is greatest, radians, in the first quarter turn.
 * From d/dθ of the acceleration = 0: with s = sin²β, s·c² + (2 − s)·c − 2s = 0 for c = cos 2θ, which
 * gives cos 2θ = (−(2 − s) + √((2 − s)² + 8 s²)) / (2 s).
 */
export function rotationOfGreatestAcceleration(angle: number): number {
	checkAngle(angle);
	const s = Math.sin(angle) ** 2;
	if (s === 0) return Math.PI / 4;
	const b = 2 - s;
	// The same root written so that nothing cancels when s is small.
	const cosTwice = (4 * s) / (b + Math.sqrt(b * b + 8 * s * s));
	return Math.acos(cosTwice) / 2;
}

/** Greatest angular acceleration of the driven shaft over a turn, rad/s², not negative. */
export function greatestJointAcceleration(angle: number, speed: number): number {
	return Math.abs(jointAcceleration(angle, rotationOfGreatestAcceleration(angle), speed));
}

/**
 * Rotation of the driven shaft for a rotation of the driving one, radians, continuous over turns:
 * tan θ₂ = tan θ₁ / cos β with θ counted from the plane of the shafts.
 */
export function jointRotation(angle: number, rotation: number): number {
	checkAngle(angle);
	finite('The rotation', rotation);
	const cos = Math.cos(angle);
	// Lag or lead from the driving shaft, which stays within a quarter turn.
	const lead = Math.atan2(
		(1 - cos) * Math.sin(rotation) * Math.cos(rotation),
		cos * Math.cos(rotation) ** 2 + Math.sin(rotation) ** 2
	);
	return rotation + lead;
}

/**
 * Speed ratio of a pair of joints, last shaft over first.
 * @param front operating angle of the first joint, radians
 * @param rear of the second
 * @param rotation of the first shaft from the plane of the first joint, radians
 * @param phase how far the second joint's driving yoke stands from where it would cancel: 0 when the
 * two yokes of the middle shaft lie in one plane and so do all three shafts, π/2 when set wrongly
 */
export function pairSpeedRatio(
	front: number,
	rear: number,
	rotation: number,
	phase: number
): number {
	const middle = jointRotation(front, rotation);
	// The second joint's driving yoke stands square to the first's driven one in a shaft set right,
	// so it enters a quarter turn on.
	return (
		jointSpeedRatio(front, rotation) * jointSpeedRatio(rear, middle + Math.PI / 2 + phase)
	);
}

/** Slowest and fastest speed ratio of a pair of joints over a turn. Arguments as pairSpeedRatio. */
export function pairSpeedRange(
	front: number,
	rear: number,
	phase: number
): { lowest: number; highest: number } {
	let lowest = Infinity;
	let highest = -Infinity;
	const consider = (rotation: number): void => {
		const ratio = pairSpeedRatio(front, rear, rotation, phase);
		lowest = Math.min(lowest, ratio);
		highest = Math.max(highest, ratio);
	};
	// The ratio repeats every half turn. A grid finds the hills; its error falls with the square of the
	// step: at 10° angles 0.5° gives the extremes to 1e-6.
	for (let step = 0; step < 720; step++) consider((Math.PI * step) / 720);
	return { lowest, highest };
}

/**
 * Operating angle at which one joint's driven shaft swings by a given share of the driving speed,
 * radians: highest less lowest over mean is 1/cos β − cos β.
 * @param fluctuation (highest − lowest) / driving speed
 */
export function angleOfFluctuation(fluctuation: number): number {
	within('The speed fluctuation', fluctuation, 0, 50, 'of the shaft speed');
	// 1/c − c = f  →  c = (−f + √(f² + 4)) / 2
	return Math.acos((-fluctuation + Math.sqrt(fluctuation * fluctuation + 4)) / 2);
}
