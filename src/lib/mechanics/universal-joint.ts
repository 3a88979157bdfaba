/**
 * Universal (Hooke) joints: operating angle, speed and acceleration over a turn, one joint and a pair.
 * SI: radians, rad/s, rad/s². Angles of rotation are of the driving shaft, zero where its yoke lies in
 * the plane of the two shafts.
 */
import { finite, within } from './out-of-range.ts';

/** No joint is asked to turn at more than this, radians. Near a right angle the ratio has no bound. */
export const greatestAngle = (89 * Math.PI) / 180;

/**
 * Angle between two shafts in space, radians, never negative: acos(u·v), written as
 * atan2(|u × v|, u·v) because acos loses half its figures near zero.
 * @param slopeA down toward the rear positive, radians
 * @param slopeB the same
 * @param planA direction seen from above, radians: positive where the shaft, going rearward, leads
 * toward the truck's left
 * @param planB the same
 * @throws OutOfRange for anything beyond a full turn
 */
export function operatingAngle(slopeA: number, slopeB: number, planA = 0, planB = 0): number {
	for (const angle of [slopeA, slopeB, planA, planB]) checkDirection(angle);
	// In one vertical plane it is the difference of the slopes, turned back into 0…π.
	if (planA === 0 && planB === 0) {
		return Math.abs(Math.atan2(Math.sin(slopeA - slopeB), Math.cos(slopeA - slopeB)));
	}
	const [ax, ay, az] = shaftDirection(slopeA, planA);
	const [bx, by, bz] = shaftDirection(slopeB, planB);
	const cross = Math.hypot(ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx);
	return Math.atan2(cross, ax * bx + ay * by + az * bz);
}

/** Refuses a slope or a direction in plan beyond a full turn. */
export function checkDirection(angle: number): void {
	within('The direction of a shaft', angle, -2 * Math.PI, 2 * Math.PI, 'rad');
}

/**
 * Unit vector along a shaft going rearward, in the right-handed axes rearward, left, down.
 * @param slope down toward the rear positive, radians
 * @param plan toward the left going rearward positive, radians
 * @throws OutOfRange for anything beyond a full turn
 */
export function shaftDirection(slope: number, plan: number): [number, number, number] {
	checkDirection(slope);
	checkDirection(plan);
	return [Math.cos(slope) * Math.cos(plan), Math.cos(slope) * Math.sin(plan), Math.sin(slope)];
}

/** Refuses an operating angle at which a joint does not turn at all. */
export function checkAngle(angle: number): void {
	within('The operating angle', angle, 0, greatestAngle, 'rad');
}

/** Refuses a shaft speed no driveline sees. @param speed rad/s */
export function checkShaftSpeed(speed: number): void {
	within('The shaft speed', (speed * 30) / Math.PI, 0, 100_000, 'rev/min');
}

/** 1 − sin²β cos²θ, written so that nothing cancels near a right angle. */
function below(angle: number, rotation: number): number {
	return (Math.cos(angle) * Math.cos(rotation)) ** 2 + Math.sin(rotation) ** 2;
}

/**
 * Speed ratio of one joint, driven over driving: cos β / (1 − sin²β cos²θ).
 * Source: Khurmi & Gupta, Theory of Machines, Hooke's joint (from memory).
 * @param angle β, operating angle, radians
 * @param rotation θ of the driving shaft, radians
 * @throws OutOfRange for an angle at which no joint turns
 */
export function jointSpeedRatio(angle: number, rotation: number): number {
	checkAngle(angle);
	finite('The rotation', rotation);
	return Math.cos(angle) / below(angle, rotation);
}

/**
 * Angular acceleration of the driven shaft, rad/s², with the driving shaft at steady speed:
 * −ω² cos β sin²β sin 2θ / (1 − sin²β cos²θ)². Source as above.
 * @param angle β, radians
 * @param rotation θ, radians
 * @param speed ω of the driving shaft, rad/s
 * @throws OutOfRange for an angle or a speed no joint turns at
 */
export function jointAcceleration(angle: number, rotation: number, speed: number): number {
	checkAngle(angle);
	finite('The rotation', rotation);
	checkShaftSpeed(speed);
	const sinTwice = 2 * Math.sin(rotation) * Math.cos(rotation);
	return (
		(-speed * speed * Math.cos(angle) * Math.sin(angle) ** 2 * sinTwice) /
		below(angle, rotation) ** 2
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
 * tan θ₂ = tan θ₁ / cos β with θ₁ counted from the plane of the shafts to the driving yoke and θ₂
 * from the normal of that plane to the driven yoke.
 */
export function jointRotation(angle: number, rotation: number): number {
	checkAngle(angle);
	finite('The rotation', rotation);
	const cos = Math.cos(angle);
	// Lag or lead from the driving shaft, which stays within a quarter turn.
	const lead = Math.atan2(
		2 * Math.sin(angle / 2) ** 2 * Math.sin(rotation) * Math.cos(rotation),
		cos * Math.cos(rotation) ** 2 + Math.sin(rotation) ** 2,
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
	phase: number,
): number {
	const middle = jointRotation(front, rotation);
	// The middle shaft's front yoke runs a quarter turn from the plane of the shafts, and in a shaft set
	// right its rear yoke lies in line with it.
	return jointSpeedRatio(front, rotation) * jointSpeedRatio(rear, middle + Math.PI / 2 + phase);
}

/**
 * Slowest and fastest speed ratio of a pair of joints over a turn. Arguments as pairSpeedRatio.
 * Exact: a pair turns as one joint does, with tan²(β/2) = |t₁ − t₂ e^{2iψ}| / |1 − t₁ t₂ e^{2iψ}| for
 * t = tan²(βᵢ/2) and ψ the phase. joint-chain.ts has the reason, and chains of three.
 */
export function pairSpeedRange(
	front: number,
	rear: number,
	phase: number,
): { lowest: number; highest: number } {
	checkAngle(front);
	checkAngle(rear);
	finite('The yoke phase', phase);
	const t1 = Math.tan(front / 2) ** 2;
	const t2 = Math.tan(rear / 2) ** 2;
	const cos = Math.cos(2 * (phase % Math.PI));
	const sin = Math.sin(2 * (phase % Math.PI));
	const t = Math.hypot(t1 - t2 * cos, t2 * sin) / Math.hypot(1 - t1 * t2 * cos, t1 * t2 * sin);
	return { lowest: (1 - t) / (1 + t), highest: (1 + t) / (1 - t) };
}

/**
 * Operating angle at which one joint's driven shaft swings by a given share of the driving speed,
 * radians: highest less lowest over mean is 1/cos β − cos β.
 * @param fluctuation (highest − lowest) / driving speed
 * @throws OutOfRange below zero or above 50
 */
export function angleOfFluctuation(fluctuation: number): number {
	within('The speed fluctuation', fluctuation, 0, 50, 'times the shaft speed');
	// 1/c − c = f  →  c = (√(f² + 4) − f) / 2 = 2 / (f + √(f² + 4)), and sin²β = f c.
	const cos = 2 / (fluctuation + Math.sqrt(fluctuation * fluctuation + 4));
	return Math.atan(Math.sqrt(fluctuation / cos));
}
