/**
 * What a load put on, or taken off, does to the axles and to the heights. SI.
 * A load is a weight in newtons, put on positive, taken off negative.
 */
import { OutOfRange, plainLength, within } from './out-of-range.ts';

/** What a load adds to each axle, both wheels together, N. */
export interface AxleLoads {
	front: number;
	rear: number;
}

/**
 * Moments about either axle: the front takes weight·ahead/wheelbase, the rear the rest.
 * @param weight N; negative when taken off
 * @param ahead of the rear axle, m; negative behind it, where a load lifts the front
 * @param wheelbase m
 */
export function axleLoads(weight: number, ahead: number, wheelbase: number): AxleLoads {
	within('The weight of the load', weight, -1e6, 1e6, 'N');
	within('The distance of the load ahead of the rear axle', ahead, -100, 100, 'm');
	within('The wheelbase', wheelbase, 0.1, 100, 'm');
	const front = (weight * ahead) / wheelbase;
	return { front, rear: weight - front };
}

/**
 * Rate of a spring standing on a tyre, N/m: 1/(1/a + 1/b).
 * @param spring at the wheel, N/m
 * @param tyre N/m
 */
export function springOnTyreRate(spring: number, tyre: number): number {
	within('The rate of the spring at the wheel', spring, 1, 1e9, 'N/m');
	within('The rate of the tyre', tyre, 1, 1e9, 'N/m');
	return (spring * tyre) / (spring + tyre);
}

/** How far a load settles each end, over its axle, m, down positive. */
export interface Settling {
	front: number;
	rear: number;
}

/**
 * How far a load settles the truck at each axle, springs and tyres in series.
 * @param weight N; negative when taken off
 * @param ahead of the rear axle, m
 * @param wheelbase m
 * @param frontSpring of one front wheel, N/m at the wheel
 * @param frontTyre of one front tyre, N/m
 * @param rearSpring of one rear spring, N/m
 * @param rearTyre of one rear wheel's tyre or tyres, N/m
 */
export function settling(
	weight: number,
	ahead: number,
	wheelbase: number,
	frontSpring: number,
	frontTyre: number,
	rearSpring: number,
	rearTyre: number,
): Settling {
	const added = axleLoads(weight, ahead, wheelbase);
	return {
		front: added.front / (2 * springOnTyreRate(frontSpring, frontTyre)),
		rear: added.rear / (2 * springOnTyreRate(rearSpring, rearTyre)),
	};
}

/**
 * How much of a measured change of height something accounts for: its share, 1 for all of it. Above 1:
 * it should have moved the truck further than was measured; below 0: the other way.
 * @param settled what it moves the height by, m
 * @param measured change of height, m, the same way positive
 * @throws OutOfRange when nothing changed
 */
export function shareOfChange(settled: number, measured: number): number {
	within('The settling', settled, -1e9, 1e9, 'm');
	within('The measured change of height', measured, -10, 10, 'm');
	if (Math.abs(measured) < 1e-9) {
		throw new OutOfRange(
			`The measured change of height is ${plainLength(measured)}; there is no change to account for. Check both heights.`,
		);
	}
	return settled / measured;
}
