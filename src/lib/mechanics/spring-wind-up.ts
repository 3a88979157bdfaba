/**
 * Wind-up by the spring's own law: torque at the wheels turns the axle on its springs, and the push of
 * the tyres, at the height of its centre, bends them too. The law stands in spring-pose.ts. SI.
 */
import { greatestBend } from './leaf-spring.ts';
import { OutOfRange, plainInBoth, within } from './out-of-range.ts';
import { bearingAt, holds, keptPose, type SpringPlace } from './spring-pose.ts';
import { settle } from './spring-search.ts';

/**
 * The spring with its axle wound up under the load it stands under. `axleTurned` is the climb of the
 * pinion, `axleRise` negative where the axle sinks with it.
 * @param rest the spring at rest
 * @param wheelTorque at both wheels together, N·m: positive drives the truck forward and tips the pinion
 * nose-up, negative brakes it. Each spring takes half, and half the push wheelTorque / tyreRadius.
 * @param tyreRadius loaded, m
 * @throws OutOfRange for a torque that would wrap the springs up
 */
export function springWoundUp(
	rest: SpringPlace,
	wheelTorque: number,
	tyreRadius: number,
): SpringPlace {
	within('The torque at the wheels', wheelTorque, -1e6, 1e6, 'N·m');
	within('The loaded tyre radius', tyreRadius, 0.1, 1.5, 'm');
	const torque = wheelTorque / 2;
	const bearing = bearingAt(rest, torque, torque / tyreRadius);
	const { curvature, difference, load, leaf } = rest;
	const most = greatestBend / leaf.length;
	const wound = settle(bearing, 'load', load, curvature, difference, -most, most)
		? keptPose(bearing, rest)
		: undefined;
	if (!wound || !holds(wound, torque, torque / tyreRadius)) {
		throw new OutOfRange(
			`A torque of ${plainInBoth(wheelTorque, 'N·m')} at the wheels would wrap these springs up: they find no rest under it. Check the torque and the leaf rate, or think of a traction bar.`,
		);
	}
	return wound;
}
