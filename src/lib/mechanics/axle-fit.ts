/**
 * How the axle is fitted to its spring: on which side, how far, and what lies between. Frame axes as in
 * leaf-spring.ts; SI.
 */
import { finite, positive, within } from './out-of-range.ts';

/** Where an axle is and how far it is turned. */
export interface AxlePlace {
	/** Axle centre, frame axes, m. */
	x: number;
	z: number;
	/** Seat turn and wedge together, radians, positive nose-up. */
	turn: number;
}

/** The axle on its spring seat. */
export interface AxleFit {
	/** 1 when the axle lies over the spring, −1 when the spring lies over the axle. */
	side: 1 | -1;
	/** Middle of the main leaf at the centre bolt to axle centre, block and all, m. */
	seatToAxle: number;
	/** Middle of the main leaf to the face the axle's pad sits on, about which a wedge turns it, m. */
	seatToPad: number;
	/** Angle of the wedge between spring and axle, radians, positive nose-up. */
	wedge: number;
	/** Thickness of the wedge at the centre bolt, m: it parts axle and spring. */
	wedgeThickness: number;
}

/**
 * How an axle is fitted. A flip is a fit on the other side with a distance of its own.
 * @param springOver true with the spring over the axle, false with the axle over the spring
 * @param seatToAxle a distance, so not negative: middle of the main leaf to axle centre, m
 * @param seatToPad middle of the main leaf to pad face, m
 * @param block thickness of blocks put in, m; negative for a lift block taken out
 * @param wedge radians, positive nose-up
 * @param wedgeThickness at the centre bolt, m: from wedgeAtBolt()
 * @throws OutOfRange for a distance or an angle no truck has
 */
export function axleFit(
	springOver: boolean,
	seatToAxle: number,
	seatToPad: number,
	block: number,
	wedge: number,
	wedgeThickness: number,
): AxleFit {
	within('The distance from seat to axle centre', seatToAxle, 0, 10, 'm');
	within('The distance from seat to pad', seatToPad, 0, 10, 'm');
	within('The block', block, -10, 10, 'm');
	within('The wedge angle', wedge, -Math.PI / 2, Math.PI / 2, 'rad');
	within('The thickness of the wedge at the centre bolt', wedgeThickness, 0, 10, 'm');
	return {
		side: springOver ? -1 : 1,
		seatToAxle: seatToAxle + block,
		seatToPad,
		wedge,
		wedgeThickness,
	};
}

/** The flattest wedge that is made, radians: half a degree. Common practice, no source. */
const flattestWedge = Math.PI / 360;

/**
 * Thickness of a wedge at the centre bolt, m: thin end + (length / 2) tan |angle|. Nothing for no wedge, and
 * no wedge is made flatter than half a degree: up to there the thin end comes in evenly, so that nothing that
 * is drawn, solved or varied over the angle leaps at 0°.
 * @param angle radians, of either sign
 * @param length of the wedge along the spring, m
 * @param thinEnd its thickness at the thin end, m
 * @throws OutOfRange for a wedge that is none
 */
export function wedgeAtBolt(angle: number, length: number, thinEnd: number): number {
	finite('The wedge angle', angle);
	if (angle === 0) return 0;
	within('The wedge angle', angle, -Math.PI / 4, Math.PI / 4, 'rad');
	positive('The length of the wedge', length, 'm');
	within('The length of the wedge', length, 0, 10, 'm');
	within('The thin end of the wedge', thinEnd, 0, 1, 'm');
	const size = Math.abs(angle);
	return thinEnd * Math.min(1, size / flattestWedge) + (length / 2) * Math.tan(size);
}
