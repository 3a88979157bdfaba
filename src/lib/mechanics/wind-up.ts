/**
 * The torque that winds a driven axle up: what holds a speed, what the tyres hold, what the engine gives.
 * Torque that drives the truck forward is positive. How far it winds the springs: spring-wind-up.ts.
 * SI: N·m, N, kg, m.
 */
import { OutOfRange, plain, plainLength, within } from './out-of-range.ts';

/** Standard gravity, m/s². NIST SP 811. */
const gravity = 9.80665;

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
