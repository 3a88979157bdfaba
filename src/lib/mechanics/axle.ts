/**
 * The axle on its spring seat, and where it stands in bump and droop.
 * Frame axes as in leaf-spring.ts: x forward, z up; turn positive nose-up. SI.
 */
import {
	springPose,
	type LeafSpring,
	type SpringAtRest,
	type SpringMount,
	type SpringPose,
} from './leaf-spring.ts';
import { OutOfRange, finite, plainLength } from './out-of-range.ts';
import { bracketedRoot } from './root.ts';

/** Where an axle is and how far it is turned. */
export interface AxlePlace {
	/** Axle centre, frame axes, m. */
	x: number;
	z: number;
	/** Seat turn and wedge together, radians, positive nose-up. */
	turn: number;
}

/**
 * The axle on the seat of a spring: centre = seat + R(turn)·(0, seatToAxle).
 * @param seatToAxle axle centre above the seat, m; negative when the spring lies over the axle
 * @param wedge angle of the wedge between spring and axle, radians, positive nose-up
 */
export function axleOnSeat(pose: SpringPose, seatToAxle: number, wedge: number): AxlePlace {
	finite('The distance from seat to axle centre', seatToAxle);
	finite('The wedge angle', wedge);
	const turn = pose.seatTurn + wedge;
	return {
		x: pose.seatX - seatToAxle * Math.sin(turn),
		z: pose.seatZ + seatToAxle * Math.cos(turn),
		turn,
	};
}

/**
 * The spring's pose when the axle has risen from rest, by geometry alone.
 * @param rest the spring at rest on this mount
 * @param seatToAxle axle centre above the seat, m
 * @param wedge radians, positive nose-up
 * @param rise of the axle centre in the frame, m: bump positive, droop negative
 * @throws OutOfRange when leaf and shackle do not let the axle get there
 */
export function springAtAxleRise(
	leaf: LeafSpring,
	mount: SpringMount,
	rest: SpringAtRest,
	seatToAxle: number,
	wedge: number,
	rise: number,
): SpringPose {
	finite('The axle rise', rise);
	if (rise === 0) return springPose(leaf, mount, rest.curvature);
	const from = axleOnSeat(springPose(leaf, mount, rest.curvature), seatToAxle, wedge).z;
	const short = (curvature: number): number =>
		axleOnSeat(springPose(leaf, mount, curvature), seatToAxle, wedge).z - from - rise;
	// Up means a flatter leaf, then one bowed the other way. An eighth of an inch of arch or so a step.
	let step = ((rise > 0 ? -1 : 1) * Math.PI) / (100 * leaf.length);
	let near = rest.curvature;
	let reached = 0;
	// Where a step leads to parts that no longer meet, a smaller one goes on up to the very edge.
	for (let halvings = 0; halvings < 30;) {
		const curvature = near + step;
		let left: number;
		try {
			left = short(curvature);
		} catch (cause) {
			if (!(cause instanceof OutOfRange)) throw cause;
			step /= 2;
			halvings++;
			continue;
		}
		// Signs, not a product: a product of two small numbers is nothing.
		if (left === 0 || left > 0 === rise > 0) {
			return springPose(leaf, mount, bracketedRoot(short, near, curvature, 1e-15));
		}
		// Past the highest or lowest place the leaf lets the axle go.
		if (Math.abs(left + rise) < Math.abs(reached)) break;
		reached = left + rise;
		near = curvature;
	}
	throw new OutOfRange(
		`The axle cannot ${rise > 0 ? 'rise' : 'drop'} ${plainLength(Math.abs(rise))} from rest on this spring: leaf and shackle let it go about ${plainLength(Math.abs(reached))}. Check the travel, the shackle and the arch.`,
	);
}
