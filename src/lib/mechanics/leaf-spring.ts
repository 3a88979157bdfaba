/**
 * One leaf spring and where the frame carries it, in the side view. How it stands there: spring-pose.ts.
 *
 * Axes: x forward, z up, fixed in the frame, origin at the stock front eye; level on the truck as it
 * stands before the job. Turn: positive nose-up. All SI: metres, radians, newtons.
 */
import { OutOfRange, finite, plainLength, positive, within } from './out-of-range.ts';
import { bracketedRoot } from './root.ts';

/** One spring. */
export interface LeafSpring {
	/** Front eye to centre bolt along the main leaf, m. */
	front: number;
	/** Centre bolt to rear eye along the main leaf, m. */
	rear: number;
	/** Both halves together, m. */
	length: number;
	/** Rate at the seat, N/m. */
	rate: number;
	/** Bending stiffness EI that gives this rate, N·m². */
	stiffness: number;
}

/** Where the frame carries the spring. Places in frame axes, m. */
export interface SpringMount {
	eyeX: number;
	eyeZ: number;
	pivotX: number;
	pivotZ: number;
	/** Eye centre to eye centre, m. */
	shackleLength: number;
	/** True when the shackle stands on its pivot, false when it hangs from it. */
	stands: boolean;
}

/** A leaf bent into more than a half circle is not a truck's spring any more. */
export const greatestBend = Math.PI;

/** sin(x)/x, smooth through 0. */
function sinc(x: number): number {
	return Math.abs(x) < 1e-4 ? 1 - (x * x) / 6 : Math.sin(x) / x;
}

/** (1 − cos x)/x, smooth through 0. */
function versedOver(x: number): number {
	const half = x / 2;
	return Math.sin(half) * sinc(half);
}

/**
 * One spring from what a tape and a scale tell.
 * @param front front eye to centre bolt along the leaf, m
 * @param rear centre bolt to rear eye along the leaf, m
 * @param rate at the seat, N/m
 * @returns the spring with its length and bending stiffness, EI = k a² b² / (2 L). For a = b that is
 * the handbook k = 32 EI / L³ of a uniform-strength beam.
 * @throws OutOfRange for anything not above zero
 */
export function leafSpring(front: number, rear: number, rate: number): LeafSpring {
	positive('The front half of the leaf', front, 'm');
	positive('The rear half of the leaf', rear, 'm');
	positive('The leaf rate', rate, 'N/m');
	const length = front + rear;
	const stiffness = (rate * front * front * rear * rear) / (2 * length);
	positive('The bending stiffness from leaf lengths and rate', stiffness, 'N·m²');
	return { front, rear, length, rate, stiffness };
}

/**
 * The stock places of the spring's two ends.
 * @param eyeToPivot horizontal, front eye to shackle pivot, rearward positive, m
 * @param pivotUp height of the pivot above the front eye, m, up positive
 * @param shackleLength eye centre to eye centre, m
 * @param stands true when the shackle stands on its pivot
 * @throws OutOfRange when a length is not above zero
 */
export function springMount(
	eyeToPivot: number,
	pivotUp: number,
	shackleLength: number,
	stands: boolean,
): SpringMount {
	positive('The distance from front eye to shackle pivot', eyeToPivot, 'm');
	finite('The height of the shackle pivot', pivotUp);
	positive('The shackle length', shackleLength, 'm');
	return { eyeX: 0, eyeZ: 0, pivotX: -eyeToPivot, pivotZ: pivotUp, shackleLength, stands };
}

/**
 * The mount with its parts moved in frame axes.
 * @param eyeRaise front eye up, m
 * @param eyeForward front eye forward, m
 * @param pivotRaise shackle pivot up, m
 * @param pivotForward shackle pivot forward, m
 * @param shackleLonger change of shackle length, m
 * @throws OutOfRange when no shackle is left, or the pivot is not behind the front eye
 */
export function springMountMoved(
	mount: SpringMount,
	eyeRaise: number,
	eyeForward: number,
	pivotRaise: number,
	pivotForward: number,
	shackleLonger: number,
): SpringMount {
	const moved: SpringMount = {
		eyeX: mount.eyeX + eyeForward,
		eyeZ: mount.eyeZ + eyeRaise,
		pivotX: mount.pivotX + pivotForward,
		pivotZ: mount.pivotZ + pivotRaise,
		shackleLength: mount.shackleLength + shackleLonger,
		stands: mount.stands,
	};
	positive('The shackle length after the change', moved.shackleLength, 'm');
	positive('The distance from front eye to shackle pivot', moved.eyeX - moved.pivotX, 'm');
	finite('The height of the front eye', moved.eyeZ);
	finite('The height of the shackle pivot', moved.pivotZ);
	return moved;
}

/**
 * Sagitta of an arc: h = (1 − cos(κL/2)) / κ, m. Positive below the line through the ends.
 * @param curvature 1/m
 * @param length along the arc, m
 * @throws OutOfRange beyond a half circle
 */
export function archOfCurvature(curvature: number, length: number): number {
	positive('The length of the leaf', length, 'm');
	within(
		'The bend of the leaf',
		(Math.abs(curvature) * length) / greatestBend,
		0,
		1.001,
		'half circles',
	);
	return (length / 2) * versedOver((curvature * length) / 2);
}

/**
 * Curvature of the arc of this length with this sagitta, 1/m.
 * @param arch sagitta, m; negative bows upward
 * @param length along the arc, m
 * @throws OutOfRange when no arc up to a half circle has this sagitta: |arch| ≤ length/π
 */
export function curvatureOfArch(arch: number, length: number): number {
	finite('The arch', arch);
	positive('The length of the leaf', length, 'm');
	if (arch === 0) return 0;
	if (Math.abs(arch) > length / Math.PI) {
		throw new OutOfRange(
			`The arch is ${plainLength(arch)}; a leaf ${plainLength(length)} long bent into a half circle has an arch of ${plainLength(length / Math.PI)}, and no truck's leaf goes there. Measure the arch again: straight line through both eyes, down to the main leaf at the centre bolt.`,
		);
	}
	const limit = (greatestBend * 1.0001) / length;
	return bracketedRoot(
		(curvature) => archOfCurvature(curvature, length) - arch,
		-limit,
		limit,
		1e-16,
	);
}

/**
 * Wind-up stiffness of one spring, N·m/rad: axle torque for each radian of seat turn,
 * k_θ = L² · 2EI / (a³ + b³). For a = b it is k L² / 4, the figure of SAE HS-788 (from memory).
 */
export function windUpStiffness(leaf: LeafSpring): number {
	const stiffness =
		(leaf.length * leaf.length * 2 * leaf.stiffness) /
		(Math.pow(leaf.front, 3) + Math.pow(leaf.rear, 3));
	positive('The wind-up stiffness from leaf lengths and rate', stiffness, 'N·m/rad');
	return stiffness;
}
