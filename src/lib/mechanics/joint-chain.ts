/**
 * Chains of universal joints: two on a one-piece shaft, three with a centre bearing, with any yoke
 * phase and with the joints' planes anywhere in space. Exact over the turn; no grid is searched.
 *
 * How: count a shaft's rotation as the direction of a complex number z. A joint at angle β whose
 * driving yoke lies in the plane of its shafts at z = 1 sends z to z − t z̄ with t = tan²(β/2), which is
 * tan θ₂ = tan θ₁ / cos β. Between joints z is only turned. So a whole chain sends z to p z + q z̄, and
 * that is again one joint, turned at both ends, at the angle tan²(β/2) = |q| / |p|. Its speed ratio is
 * (|p|² − |q|²) / |p z + q z̄|².
 *
 * SI: radians, rad/s, rad/s². Slopes and plans of shafts as in universal-joint.ts. Turns about a shaft
 * are positive clockwise, looking rearward along it. A yoke is the same yoke after half a turn, so
 * planes and phases are counted within ±90°.
 */
import { OutOfRange, finite, plainAngle, plainLength, within } from './out-of-range.ts';
import {
	checkAngle,
	checkDirection,
	checkShaftSpeed,
	greatestAngle,
	greatestJointAcceleration,
	operatingAngle,
	shaftDirection,
} from './universal-joint.ts';

/**
 * Two or three joints in a row, front to rear. A third joint at angle 0 is no joint: a pair is a chain
 * whose `third` is 0.
 */
export interface JointChain {
	/** Operating angles, radians. */
	first: number;
	second: number;
	third: number;
	/**
	 * Turn of the plane of the second joint from that of the first, about the shaft between them. The
	 * plane of a joint is the one its two shafts lie in.
	 */
	secondPlane: number;
	/** The same from the second joint to the third. */
	thirdPlane: number;
	/** Turn of the rear yoke of the front (or only) shaft from its front yoke; 0 when in line. */
	frontPhase: number;
	/** The same of the rear shaft; means nothing in a pair. */
	rearPhase: number;
}

/** What a chain leaves over at its output. */
export interface ChainRipple {
	/** Lowest and highest speed ratio over a turn, last shaft over first. */
	lowest: number;
	highest: number;
	/** Peak angular acceleration of the last shaft with the first at steady speed, rad/s². */
	acceleration: number;
	/** Angle of the single joint that would turn the very same, radians. */
	equivalentAngle: number;
	/** The closed form beside it, radians: √|Σ ± βᵢ² e^{2iψᵢ}|. */
	equivalentAngleByHand: number;
}

/** Peak angular acceleration of a shaft between joints, rad/s². */
export interface ShaftAcceleration {
	/** With the transmission at steady speed: the engine pulls. */
	drive: number;
	/** With the pinion at steady speed: the truck pushes. */
	coast: number;
}

/** Yoke phases that cancel best, and the single-joint angle they leave, radians. */
export interface BestPhases {
	frontPhase: number;
	rearPhase: number;
	equivalentAngle: number;
}

/** Guide limit for the equivalent angle of a chain: 3°. VDI 2722 (from memory). */
export const equivalentAngleLimit = (3 * Math.PI) / 180;

/** An angle that means the same after half a turn, brought into (−90°, 90°]. */
function withinHalfTurn(angle: number): number {
	const rest = angle % Math.PI;
	if (rest > Math.PI / 2) return rest - Math.PI;
	return rest <= -Math.PI / 2 ? rest + Math.PI : rest;
}

/**
 * A pair of joints with all three shafts in one plane.
 * @param front operating angle of the front joint in that plane, radians, either sign
 * @param rear of the rear joint. Opposite signs make the parallel (Z) layout, equal signs the
 * intersecting (W) one; half a turn between the two planes, which no yoke can tell.
 * @param frontPhase turn of the shaft's rear yoke from its front yoke, radians
 * @throws OutOfRange for an angle at which no joint turns
 */
export function planarPair(front: number, rear: number, frontPhase: number): JointChain {
	return planarThree(front, rear, 0, frontPhase, 0);
}

/**
 * Three joints with all four shafts in one plane. Arguments as planarPair.
 * @param front operating angle at the transmission, radians, either sign
 * @param centre at the centre bearing
 * @param rear at the pinion
 * @param frontPhase turn of the front shaft's rear yoke from its front yoke, radians
 * @param rearPhase of the rear shaft's
 */
export function planarThree(
	front: number,
	centre: number,
	rear: number,
	frontPhase: number,
	rearPhase: number,
): JointChain {
	return checkedChain({
		first: Math.abs(front),
		second: Math.abs(centre),
		third: Math.abs(rear),
		secondPlane: 0,
		thirdPlane: 0,
		frontPhase,
		rearPhase,
	});
}

/**
 * The pinion slope at which a pair with its yokes in line cancels, shafts in one plane, radians:
 * parallel (Z), the transmission's own slope; intersecting (W), as far beyond the shaft's slope.
 * @param transmissionSlope radians, positive down toward the rear
 * @param shaftSlope the same
 * @param intersecting true for the W layout
 */
export function cancellingPinionSlope(
	transmissionSlope: number,
	shaftSlope: number,
	intersecting: boolean,
): number {
	checkDirection(transmissionSlope);
	checkDirection(shaftSlope);
	return intersecting ? 2 * shaftSlope - transmissionSlope : transmissionSlope;
}

/**
 * Direction of a shaft seen from above, radians, from how far its rear end stands to the left of its
 * front end.
 * @param toLeft sideways, rear joint left of front joint positive, m
 * @param length joint centre to joint centre, m
 * @param slope radians, positive down toward the rear
 * @throws OutOfRange when the shaft is too short to reach so far sideways
 */
export function shaftPlanFromOffset(toLeft: number, length: number, slope: number): number {
	within('The shaft length', length, 0.01, 100, 'm');
	finite('The sideways offset', toLeft);
	checkDirection(slope);
	const reach = length * Math.cos(slope);
	if (!(Math.abs(toLeft) < reach)) {
		throw new OutOfRange(
			`The joints are offset ${plainLength(Math.abs(toLeft))} sideways; a shaft ${plainLength(length)} long at a slope of ${plainAngle(slope)} does not reach that far. Check the offset and the shaft length.`,
		);
	}
	return Math.asin(toLeft / reach);
}

/**
 * A pair of joints anywhere in space, from the directions of transmission, shaft and pinion.
 * Slopes: positive down toward the rear. Plans: positive toward the left going rearward. Radians.
 * @param frontPhase turn of the shaft's rear yoke from its front yoke
 * @throws OutOfRange for an angle at which no joint turns
 */
export function pairInSpace(
	transmissionSlope: number,
	transmissionPlan: number,
	shaftSlope: number,
	shaftPlan: number,
	pinionSlope: number,
	pinionPlan: number,
	frontPhase: number,
): JointChain {
	return threeInSpace(
		transmissionSlope,
		transmissionPlan,
		shaftSlope,
		shaftPlan,
		pinionSlope,
		pinionPlan,
		pinionSlope,
		pinionPlan,
		frontPhase,
		0,
	);
}

/**
 * Three joints anywhere in space, from the directions of transmission, front shaft, rear shaft and
 * pinion. Arguments as pairInSpace.
 */
export function threeInSpace(
	transmissionSlope: number,
	transmissionPlan: number,
	frontShaftSlope: number,
	frontShaftPlan: number,
	rearShaftSlope: number,
	rearShaftPlan: number,
	pinionSlope: number,
	pinionPlan: number,
	frontPhase: number,
	rearPhase: number,
): JointChain {
	const first = operatingAngle(
		transmissionSlope,
		frontShaftSlope,
		transmissionPlan,
		frontShaftPlan,
	);
	const second = operatingAngle(frontShaftSlope, rearShaftSlope, frontShaftPlan, rearShaftPlan);
	const third = operatingAngle(rearShaftSlope, pinionSlope, rearShaftPlan, pinionPlan);
	const transmission = shaftDirection(transmissionSlope, transmissionPlan);
	const front = shaftDirection(frontShaftSlope, frontShaftPlan);
	const rear = shaftDirection(rearShaftSlope, rearShaftPlan);
	const pinion = shaftDirection(pinionSlope, pinionPlan);
	const normals = [cross(transmission, front), cross(front, rear), cross(rear, pinion)] as const;
	// A straight joint has no plane of its own and keeps that of the joint ahead.
	const straight = 1e-9;
	const lastPlane = second < straight ? normals[0] : normals[1];
	return checkedChain({
		first,
		second,
		third,
		secondPlane:
			first < straight || second < straight ? 0 : turnAbout(front, normals[0], normals[1]),
		thirdPlane:
			third < straight || (first < straight && second < straight)
				? 0
				: turnAbout(rear, lastPlane, normals[2]),
		frontPhase,
		rearPhase,
	});
}

type Vector = readonly [number, number, number];

function cross(a: Vector, b: Vector): Vector {
	return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

function dot(a: Vector, b: Vector): number {
	return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

/** Turn from one normal to another about an axis square to both, within half a turn. */
function turnAbout(axis: Vector, from: Vector, to: Vector): number {
	return withinHalfTurn(Math.atan2(dot(axis, cross(from, to)), dot(from, to)));
}

function checkedChain(chain: JointChain): JointChain {
	checkAngle(chain.first);
	checkAngle(chain.second);
	checkAngle(chain.third);
	finite('The plane of the second joint', chain.secondPlane);
	finite('The plane of the third joint', chain.thirdPlane);
	finite('The yoke phase of the front shaft', chain.frontPhase);
	finite('The yoke phase of the rear shaft', chain.rearPhase);
	return chain;
}

/** z → p z + q z̄, up to a scale. See the head of the file. */
interface Motion {
	pRe: number;
	pIm: number;
	qRe: number;
	qIm: number;
}

/** What a motion becomes behind one more joint, whose driving yoke is at z = 1 in the joint's plane. */
function throughJoint(motion: Motion, angle: number): Motion {
	const t = Math.tan(angle / 2) ** 2;
	return {
		pRe: motion.pRe - t * motion.qRe,
		pIm: motion.pIm + t * motion.qIm,
		qRe: motion.qRe - t * motion.pRe,
		qIm: motion.qIm + t * motion.pIm,
	};
}

/**
 * What a motion becomes along a shaft: its front yoke runs a quarter turn from the plane of the joint
 * ahead, its rear yoke stands turned by the phase, and the next plane lies turned by its own turn.
 */
function alongShaft(motion: Motion, phase: number, plane: number): Motion {
	const turn = withinHalfTurn(phase) - withinHalfTurn(plane);
	const cos = -Math.sin(turn);
	const sin = Math.cos(turn);
	return {
		pRe: motion.pRe * cos - motion.pIm * sin,
		pIm: motion.pRe * sin + motion.pIm * cos,
		qRe: motion.qRe * cos - motion.qIm * sin,
		qIm: motion.qRe * sin + motion.qIm * cos,
	};
}

const steady: Motion = { pRe: 1, pIm: 0, qRe: 0, qIm: 0 };

/** The motion of the shaft behind the second joint. */
function throughTwo(chain: JointChain): Motion {
	return throughJoint(
		alongShaft(throughJoint(steady, chain.first), chain.frontPhase, chain.secondPlane),
		chain.second,
	);
}

function throughAll(chain: JointChain): Motion {
	return throughJoint(
		alongShaft(throughTwo(chain), chain.rearPhase, chain.thirdPlane),
		chain.third,
	);
}

/** The one joint that would turn as a motion does, whether there is such a joint or not, radians. */
function likeJointAt(motion: Motion): number {
	return (
		2 *
		Math.atan(Math.sqrt(Math.hypot(motion.qRe, motion.qIm) / Math.hypot(motion.pRe, motion.pIm)))
	);
}

/** The one joint that turns as a motion does, radians. */
function angleOf(motion: Motion): number {
	const angle = likeJointAt(motion);
	if (!(angle <= greatestAngle)) {
		throw new OutOfRange(
			`The joints together swing the pinion as one joint at ${plainAngle(angle)} would, and none turns at that. Check the operating angles and the yoke phase.`,
		);
	}
	return angle;
}

/**
 * Speed ratio of a chain at one rotation, last shaft over first.
 * @param chain as made by planarPair, planarThree, pairInSpace or threeInSpace
 * @param rotation of the first shaft, radians, from where its yoke lies in the first joint's plane
 * @throws OutOfRange for an angle at which no joint turns
 */
export function chainSpeedRatio(chain: JointChain, rotation: number): number {
	checkedChain(chain);
	finite('The rotation', rotation);
	const { pRe, pIm, qRe, qIm } = throughAll(chain);
	const cos = Math.cos(rotation);
	const sin = Math.sin(rotation);
	const re = (pRe + qRe) * cos + (qIm - pIm) * sin;
	const im = (pIm + qIm) * cos + (pRe - qRe) * sin;
	return (pRe * pRe + pIm * pIm - qRe * qRe - qIm * qIm) / (re * re + im * im);
}

/**
 * Angular acceleration of the last shaft at one rotation, rad/s², with the first at steady speed.
 * @param speed of the first shaft, rad/s
 */
export function chainAcceleration(chain: JointChain, rotation: number, speed: number): number {
	checkShaftSpeed(speed);
	const ratio = chainSpeedRatio(chain, rotation);
	const { pRe, pIm, qRe, qIm } = throughAll(chain);
	// |p z + q z̄|² = |p|² + |q|² + 2 Re(p q̄ z²), whose derivative is −4 Im(p q̄ z²).
	const re = pRe * qRe + pIm * qIm;
	const im = pIm * qRe - pRe * qIm;
	const cos = Math.cos(rotation);
	const sin = Math.sin(rotation);
	const slope = -4 * (2 * re * sin * cos + im * (cos * cos - sin * sin));
	const scale = pRe * pRe + pIm * pIm - qRe * qRe - qIm * qIm;
	return (-speed * speed * slope * ratio * ratio) / scale;
}

/**
 * What a chain leaves over at its output: speed, acceleration, and the single joint that turns the same.
 * @param speed of the first shaft, rad/s
 * @returns the closed form after VDI 2722 (from memory) beside the exact angle: signs alternate from
 * joint to joint, ψ is how far planes and yokes stand from where they would cancel. It is the exact
 * angle for small β.
 * @throws OutOfRange when the angles do not let the chain turn
 */
export function chainRipple(chain: JointChain, speed: number): ChainRipple {
	checkedChain(chain);
	const equivalentAngle = angleOf(throughAll(chain));
	const twoTurns = (phase: number, plane: number): number =>
		2 * (withinHalfTurn(phase) - withinHalfTurn(plane));
	const second = twoTurns(chain.frontPhase, chain.secondPlane);
	const third = second + twoTurns(chain.rearPhase, chain.thirdPlane);
	return {
		lowest: Math.cos(equivalentAngle),
		highest: 1 / Math.cos(equivalentAngle),
		acceleration: greatestJointAcceleration(equivalentAngle, speed),
		equivalentAngle,
		equivalentAngleByHand: Math.sqrt(
			Math.hypot(
				chain.first ** 2 -
					chain.second ** 2 * Math.cos(second) +
					chain.third ** 2 * Math.cos(third),
				-(chain.second ** 2) * Math.sin(second) + chain.third ** 2 * Math.sin(third),
			),
		),
	};
}

/**
 * Peak acceleration of the front shaft, or the only one, by which its own inertia shakes the driveline.
 * @param speed of the end that turns steadily, rad/s
 */
export function frontShaftAcceleration(chain: JointChain, speed: number): ShaftAcceleration {
	checkedChain(chain);
	// Driven from the rear, the joints behind the shaft are all that stand between it and the pinion.
	const behind = throughJoint(
		alongShaft(throughJoint(steady, chain.second), chain.rearPhase, chain.thirdPlane),
		chain.third,
	);
	return {
		drive: greatestJointAcceleration(chain.first, speed),
		coast: greatestJointAcceleration(angleOf(behind), speed),
	};
}

/**
 * Peak acceleration of the rear shaft of a chain of three, between centre bearing and pinion. In a pair
 * that place is the pinion's own.
 * @param speed of the end that turns steadily, rad/s
 */
export function rearShaftAcceleration(chain: JointChain, speed: number): ShaftAcceleration {
	checkedChain(chain);
	return {
		drive: greatestJointAcceleration(angleOf(throughTwo(chain)), speed),
		coast: greatestJointAcceleration(chain.third, speed),
	};
}

/** Two equivalent angles no further apart than this differ by rounding alone, radians. */
const rounding = 3e-8;

/** The chain itself where another setting of its yokes gains nothing: no yoke is turned for rounding. */
function better(chain: JointChain, other: JointChain): JointChain {
	const gain = likeJointAt(throughAll(chain)) - likeJointAt(throughAll(other));
	return gain > rounding ? other : chain;
}

/** The chain with its rear shaft's rear yoke set to cancel best what comes to it, all ahead kept. */
function withBestRear(chain: JointChain): JointChain {
	const { pRe, pIm, qRe, qIm } = throughTwo(chain);
	// With A = i e^{iψ}, q becomes A q − t conj(A p); the two are in line when ψ = −arg(−p q) / 2.
	const re = -(pRe * qRe - pIm * qIm);
	const im = -(pRe * qIm + pIm * qRe);
	const rearPhase = withinHalfTurn(withinHalfTurn(chain.thirdPlane) - Math.atan2(im, re) / 2);
	return better(chain, { ...chain, rearPhase });
}

function phasesOf(chain: JointChain): BestPhases {
	return {
		frontPhase: withinHalfTurn(chain.frontPhase),
		rearPhase: withinHalfTurn(chain.rearPhase),
		equivalentAngle: angleOf(throughAll(chain)),
	};
}

/**
 * The rear shaft's yoke phase that cancels best with the front shaft's kept. For chains of three.
 * Where no phase gains anything the present one stays.
 */
export function bestRearPhase(chain: JointChain): BestPhases {
	return phasesOf(withBestRear(checkedChain(chain)));
}

/**
 * The yoke phases that cancel best with both shafts free to be set; in a pair, the one phase.
 * The first two joints are set to leave just what the third takes away, or as near as they come. Of two
 * such settings it is the one with less turning of the front shaft's yoke; the present one stays where
 * it does as well.
 */
export function bestYokePhases(chain: JointChain): BestPhases {
	checkedChain(chain);
	// With e^{−η} = cos β two joints compose as cosh η = cosh η₁ cosh η₂ − sinh η₁ sinh η₂ cos 2ψ, which
	// for η = η₃ gives sin²ψ = sinh((η₃ + η₁ − η₂)/2) sinh((η₃ − η₁ + η₂)/2) / (sinh η₁ sinh η₂).
	const eta = (angle: number): number => -Math.log1p(-(Math.sin(angle) ** 2)) / 2;
	const [eta1, eta2, eta3] = [eta(chain.first), eta(chain.second), eta(chain.third)];
	const both = Math.sinh(eta1) * Math.sinh(eta2);
	const sinSquared =
		both === 0
			? 0
			: (Math.sinh((eta3 + eta1 - eta2) / 2) * Math.sinh((eta3 - eta1 + eta2) / 2)) / both;
	const turn = Math.asin(Math.sqrt(Math.min(1, Math.max(0, sinSquared))));
	const plane = withinHalfTurn(chain.secondPlane);
	const settings = [withinHalfTurn(plane + turn), withinHalfTurn(plane - turn)] as const;
	const turning = (phase: number): number =>
		Math.abs(withinHalfTurn(phase - withinHalfTurn(chain.frontPhase)));
	const frontPhase = turning(settings[1]) < turning(settings[0]) ? settings[1] : settings[0];
	return phasesOf(better(withBestRear(chain), withBestRear({ ...chain, frontPhase })));
}
