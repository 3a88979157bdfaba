/**
 * Wind-up by the spring's own law: torque at the wheels turns the axle on its springs, and the push of
 * the tyres, at the height of its centre, bends them too. The law stands in spring-pose.ts. SI.
 */
import { greatestBend } from './leaf-spring.ts';
import { OutOfRange, plainInBoth, within } from './out-of-range.ts';
import { bracketedRoot } from './root.ts';
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
	const wound = woundBy(rest, rest.load, torque, torque / tyreRadius);
	if (!wound || !holds(wound, torque, torque / tyreRadius)) throw wrapped(wheelTorque);
	return wound;
}

/** The spring under a load of its own, torque and thrust; undefined where it finds no rest. */
function woundBy(
	rest: SpringPlace,
	load: number,
	torque: number,
	thrust: number,
): SpringPlace | undefined {
	const bearing = bearingAt(rest, torque, thrust);
	const most = greatestBend / rest.leaf.length;
	return settle(bearing, 'load', load, rest.curvature, rest.difference, -most, most)
		? keptPose(bearing, rest)
		: undefined;
}

function wrapped(wheelTorque: number): OutOfRange {
	return new OutOfRange(
		`A torque of ${plainInBoth(wheelTorque, 'N·m')} at the wheels would wrap these springs up: they find no rest under it. Check the torque and the leaf rate, or think of a traction bar.`,
	);
}

/** A spring whose axle is held by an arm as well. */
export interface SpringHeld extends SpringPlace {
	/** What the rubber of one arm pushes down with on its end, N; negative: it pulls up. */
	armForce: number;
}

/** How near the arm's force must come, N. */
const forceEnough = 1e-6;

/**
 * As springWoundUp, with an arm fixed to the axle that reaches forward to a rubber at the frame: a traction
 * bar, a snubber over the pinion, a ladder bar. Its end rises by `axleRise + ahead · axleTurned`, to the
 * first order of the turn; where that is more than the gap the rubber pushes it down, at its rate. What the
 * rubber bears of weight and of torque the spring does not: both together are what they were.
 * @param rest the spring at rest
 * @param wheelTorque at both wheels together, N·m, as in springWoundUp
 * @param tyreRadius loaded, m
 * @param ahead of the axle's centre to the rubber, level, m
 * @param gap from the arm's end up to the rubber at rest, m
 * @param rate of the rubber of one arm, N/m; 0 where nothing holds the axle
 * @param bothWays true for an arm bolted to the frame: it pulls as well, and has no gap
 * @throws OutOfRange for a torque that would wrap the springs up all the same
 */
export function springHeld(
	rest: SpringPlace,
	wheelTorque: number,
	tyreRadius: number,
	ahead: number,
	gap: number,
	rate: number,
	bothWays: boolean,
): SpringHeld {
	within('The torque at the wheels', wheelTorque, -1e6, 1e6, 'N·m');
	within('The loaded tyre radius', tyreRadius, 0.1, 1.5, 'm');
	within('The distance of the rubber ahead of the axle', ahead, 0.05, 5, 'm');
	within('The gap to the rubber', gap, 0, 1, 'm');
	within('The rate of the rubber', rate, 0, 1e9, 'N/m');
	const torque = wheelTorque / 2;
	const thrust = torque / tyreRadius;
	const free = bothWays ? 0 : gap;
	const heldBy = (force: number): SpringPlace | undefined =>
		woundBy(rest, rest.load - force, torque - force * ahead, thrust);
	/** How far the arm's end has come past where the rubber begins; a spring that wraps up goes all the way. */
	const past = (force: number): number => {
		const place = heldBy(force);
		return place
			? place.axleRise + ahead * place.axleTurned - free
			: Math.sign(torque - force * ahead);
	};
	const left = (force: number): number => force - rate * past(force);
	/** Between none and more than the whole torque, with which the arm's end comes no nearer. */
	const forceOf = (loose: number): number => {
		const most = (Math.sign(loose) * 2 * Math.abs(torque)) / ahead;
		const end = Math.abs(rate * loose) < Math.abs(most) ? rate * loose : most;
		const [atStart, atEnd] = [-rate * loose, left(end)];
		if (atStart > 0 === atEnd > 0) throw wrapped(wheelTorque);
		return bracketedRoot(left, 0, end, forceEnough, atStart, atEnd);
	};
	const loose = rate === 0 ? 0 : past(0);
	const armForce = loose > 0 || (loose < 0 && bothWays) ? forceOf(loose) : 0;
	const held = heldBy(armForce);
	if (!held || !holds(held, torque - armForce * ahead, thrust)) throw wrapped(wheelTorque);
	return { ...held, armForce };
}
