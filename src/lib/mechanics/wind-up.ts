/**
 * Wind-up: how far torque at the wheels turns the axle on its springs, and what that does to the joints.
 * Torque that drives the truck forward is positive and tips the pinion nose-up. SI: N·m, N, kg, m, rad.
 */
import { driveshaftBetween, pinionJoint, transmissionJoint } from './driveshaft.ts';
import { OutOfRange, plain, plainAngle, plainLength, within } from './out-of-range.ts';
import { checkDirection, operatingAngle } from './universal-joint.ts';

/** Standard gravity, m/s². NIST SP 811. */
const gravity = 9.80665;

/** Beyond this turn no leaf spring follows a straight line any more. */
const greatestClimb = Math.PI / 4;

/** The driveline with the axle wound up. Angles in radians. */
export interface WoundUp {
	/** Slopes, positive down toward the rear. */
	shaftSlope: number;
	pinionSlope: number;
	/** Operating angles. */
	front: number;
	rear: number;
	/** Rear less front. */
	mismatch: number;
}

/** The torque an axle can be made to see, and what sets it. */
export interface HardestTorque {
	/** At both wheels together, N·m. */
	torque: number;
	/** True when the tyres let go before the engine is at its end. */
	gripLimited: boolean;
}

function checkTyre(tyreRadius: number): void {
	within('The loaded tyre radius', tyreRadius, 0.1, 1.5, 'm');
}

function checkTorque(torque: number): void {
	within('The torque at the wheels', torque, -1e6, 1e6, 'N·m');
}

/**
 * Pinion climb under torque, radians, nose-up positive: torque at the wheels / (2 k_θ), both springs.
 * That is for torque alone; a truck that pulls climbs seatTorqueShare times as far.
 * @param wheelTorque at both wheels together, N·m
 * @param stiffness of one spring, N·m/rad: windUpStiffness in leaf-spring.ts
 * @throws OutOfRange beyond 45°, where the springs would be wrapped up
 */
export function pinionClimb(wheelTorque: number, stiffness: number): number {
	checkTorque(wheelTorque);
	within('The wind-up stiffness of one spring', stiffness, 1, 1e9, 'N·m/rad');
	const climb = wheelTorque / (2 * stiffness);
	if (Math.abs(climb) > greatestClimb) {
		throw new OutOfRange(
			`A torque of ${plain(wheelTorque)} N·m at the wheels would wind these springs up by ${plainAngle(climb)}, and no spring follows past ${plainAngle(greatestClimb)}. Check the torque and the leaf rate, or think of a traction bar.`,
		);
	}
	return climb;
}

/**
 * What the spring seats take of the torque at the wheels while the tyres push the truck, as a share of
 * it. Axle and wheels as one free body: the push at the floor has the whole height from floor to seat as
 * its lever about the seat, and a tyre radius of that is the torque at the wheels. So it is a fifth more
 * with the springs some 3 in over the axle, and as much less once they are under it.
 * @param tyreRadius loaded, m
 * @param seatToAxle axle centre above the seat, m; negative when the spring lies over the axle
 */
export function seatTorqueShare(tyreRadius: number, seatToAxle: number): number {
	checkTyre(tyreRadius);
	within('The distance from seat to axle centre', seatToAxle, -10, 10, 'm');
	return (tyreRadius - seatToAxle) / tyreRadius;
}

/**
 * Torque at the wheels that holds a steady speed, N·m: rolling, grade and air, times the tyre radius.
 * @param mass of the truck as driven, kg
 * @param roadSpeed m/s
 * @param tyreRadius loaded, m
 * @param rollingCoefficient rolling drag over weight; about 0.012 on a good road (from memory)
 * @param dragArea drag coefficient times frontal area, m²; about 1.2 for a pickup (from memory)
 * @param airDensity kg/m³; 1.225 by the standard atmosphere, ISO 2533, at sea level
 * @param grade rise over run, uphill positive
 */
export function roadLoadTorque(
	mass: number,
	roadSpeed: number,
	tyreRadius: number,
	rollingCoefficient: number,
	dragArea: number,
	airDensity: number,
	grade = 0,
): number {
	within('The mass of the truck', mass, 1, 100_000, 'kg');
	within('The road speed', roadSpeed, 0, 200, 'm/s');
	checkTyre(tyreRadius);
	within('The rolling coefficient', rollingCoefficient, 0, 1, 'of the weight');
	within('The drag area', dragArea, 0, 50, 'm²');
	within('The air density', airDensity, 0, 2, 'kg/m³');
	within('The grade', grade, -1, 1, 'rise over run');
	const slope = Math.atan(grade);
	const force =
		mass * gravity * (rollingCoefficient * Math.cos(slope) + Math.sin(slope)) +
		(airDensity * dragArea * roadSpeed * roadSpeed) / 2;
	return force * tyreRadius;
}

/**
 * Load on the rear axle while its tyres pull all they can, N: the truck leans back on it.
 * F = μ N, and N = N₀ + F h / wheelbase. More than the whole truck weighs means that the front wheels
 * leave the floor first; the front's weight is not asked for here.
 * @param axleLoad both rear wheels at rest, N
 * @param grip coefficient μ between tyre and road
 * @param massHeight of the truck's centre of mass above the floor, m; 0 leaves the lean out
 * @param wheelbase m
 * @throws OutOfRange when the truck would stand up on its rear wheels
 */
export function axleLoadPulling(
	axleLoad: number,
	grip: number,
	massHeight: number,
	wheelbase: number,
): number {
	within('The load on the rear axle', axleLoad, 0, 1e6, 'N');
	within('The grip of the tyres', grip, 0, 3, 'of the load');
	within('The height of the centre of mass', massHeight, 0, 5, 'm');
	within('The wheelbase', wheelbase, 0.5, 20, 'm');
	const lean = (grip * massHeight) / wheelbase;
	if (lean > 0.9) {
		throw new OutOfRange(
			`With a grip of ${plain(grip)} and the centre of mass ${plainLength(massHeight)} up on a wheelbase of ${plainLength(wheelbase)} the truck would stand up on its rear wheels. Check those three entries.`,
		);
	}
	return axleLoad / (1 - lean);
}

/**
 * Torque at which the tyres let go, N·m, both wheels.
 * @param axleLoad on both rear wheels, N: at rest, or from axleLoadPulling
 * @param grip coefficient between tyre and road
 * @param tyreRadius loaded, m
 */
export function gripTorque(axleLoad: number, grip: number, tyreRadius: number): number {
	within('The load on the rear axle', axleLoad, 0, 1e7, 'N');
	within('The grip of the tyres', grip, 0, 3, 'of the load');
	checkTyre(tyreRadius);
	return axleLoad * grip * tyreRadius;
}

/**
 * Torque of the engine as it comes to the wheels, N·m, both wheels.
 * @param engineTorque N·m
 * @param gearRatio of everything ahead of the driveshaft: first gear, and the converter's if it has one
 * @param axleRatio driveshaft turns for one of the wheels
 * @param efficiency share that arrives, 0 to 1
 */
export function engineWheelTorque(
	engineTorque: number,
	gearRatio: number,
	axleRatio: number,
	efficiency: number,
): number {
	within('The engine torque', engineTorque, 0, 20_000, 'N·m');
	within('The gear ratio', gearRatio, 0.1, 50, 'to 1');
	within('The axle ratio', axleRatio, 0.5, 20, 'to 1');
	within('The efficiency of the driveline', efficiency, 0, 1, 'of the torque');
	return engineTorque * gearRatio * axleRatio * efficiency;
}

/**
 * The hardest torque the axle sees: what the engine gives or what the tyres hold, whichever is less.
 * @param grip torque from gripTorque, N·m
 * @param engine torque from engineWheelTorque, N·m
 */
export function hardestTorque(grip: number, engine: number): HardestTorque {
	within('The torque the tyres hold', grip, 0, 1e8, 'N·m');
	within('The torque the engine gives', engine, 0, 1e8, 'N·m');
	return { torque: Math.min(grip, engine), gripLimited: grip < engine };
}

/**
 * The driveline with the pinion climbed about the axle centre and the transmission held. The pinion
 * joint rises with its nose, so the shaft's slope changes too. Left out: a leaf shorter in front also
 * lets its seat sink under torque, a b (b² − a²)/(a³ + b³) for each radian; on halves of 24 and 30 in
 * that is 0.1 in a degree.
 * @param transmissionSlope radians, positive down toward the rear, as all slopes
 * @param shaftSlope at rest
 * @param pinionSlope at rest
 * @param shaftLength joint centre to joint centre, m
 * @param pinionReach joint centre ahead of the axle centre along the pinion, m
 * @param pinionRise joint centre above the axle centre, square to the pinion, m
 * @param climb from pinionClimb, radians, nose-up positive
 */
export function drivelineUnderTorque(
	transmissionSlope: number,
	shaftSlope: number,
	pinionSlope: number,
	shaftLength: number,
	pinionReach: number,
	pinionRise: number,
	climb: number,
): WoundUp {
	for (const slope of [transmissionSlope, shaftSlope, pinionSlope]) checkDirection(slope);
	within('The driveshaft length', shaftLength, 0.01, 100, 'm');
	within('The pinion reach', pinionReach, -10, 10, 'm');
	within('The pinion rise', pinionRise, -10, 10, 'm');
	within('The pinion climb', climb, -greatestClimb, greatestClimb, 'rad');
	const axle = { x: 0, z: 0, turn: 0 };
	const before = pinionJoint(axle, pinionReach, pinionRise, pinionSlope);
	const after = pinionJoint(axle, pinionReach, pinionRise, pinionSlope + climb);
	const transmission = transmissionJoint(before, shaftLength, shaftSlope);
	// With no climb the shaft keeps its slope to the last bit.
	const shaft = climb === 0 ? { slope: shaftSlope } : driveshaftBetween(transmission, after);
	const front = operatingAngle(transmissionSlope, shaft.slope);
	const rear = operatingAngle(shaft.slope, pinionSlope + climb);
	return {
		shaftSlope: shaft.slope,
		pinionSlope: pinionSlope + climb,
		front,
		rear,
		mismatch: rear - front,
	};
}
