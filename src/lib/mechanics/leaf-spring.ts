/**
 * The leaf spring on its shackle, in the side view.
 *
 * Axes: x forward, z up, fixed in the frame, origin at the stock front eye; level on the truck as it
 * stands before the job. Turn: positive nose-up. All SI: metres, radians, newtons.
 *
 * The model: one spring is two cantilevers of uniform strength clamped at the seat. With no axle
 * torque the bending moment is the same on both sides of the seat, so the loaded main leaf is one
 * circular arc, and its curvature is the single unknown. Uniform-strength leaf: SAE HS-788, Manual on Design and Application of Leaf
 * Springs (from memory). Left out: leaf friction, bushing and bracket give, anything sideways.
 */
import {
	OutOfRange,
	finite,
	plain,
	plainAngle,
	plainLength,
	positive,
	within,
} from './out-of-range.ts';
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

/** The shape and place of a spring on its mount. */
export interface SpringPose {
	/** Of the loaded main leaf, 1/m; positive bows below the line through the eyes. */
	curvature: number;
	/** Sagitta below the line through the eyes, m. */
	arch: number;
	/** Eye to eye in a straight line, m. */
	chord: number;
	/** Centre of the seat, frame axes, m. */
	seatX: number;
	seatZ: number;
	/** Turn of the seat from the frame's level, radians, positive nose-up. */
	seatTurn: number;
	rearEyeX: number;
	rearEyeZ: number;
	/**
	 * Lean of the shackle from upright, radians: positive when its spring end is rearward of its
	 * frame end.
	 */
	shackleLean: number;
}

/** A spring at rest under a known load. */
export interface SpringAtRest extends SpringPose {
	/** Load at the seat, N. */
	load: number;
	/** Curvature of the leaf with no load on it, 1/m. */
	freeCurvature: number;
}

/** The leaf bent into more than this share of a full circle is not a truck's spring any more. */
const greatestBend = Math.PI;

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

/** Places without a judgement: undefined where the parts do not meet. */
function tryPose(leaf: LeafSpring, mount: SpringMount, curvature: number): SpringPose | undefined {
	const { length } = leaf;
	const bend = (curvature * length) / 2;
	const chord = length * sinc(bend);
	// The rear eye: circle of the chord about the front eye meets circle of the shackle about the pivot.
	const acrossX = mount.pivotX - mount.eyeX;
	const acrossZ = mount.pivotZ - mount.eyeZ;
	const across = Math.hypot(acrossX, acrossZ);
	const along =
		(across * across + chord * chord - mount.shackleLength * mount.shackleLength) / (2 * across);
	const offSquared = chord * chord - along * along;
	if (!(offSquared >= 0)) return undefined;
	const off = Math.sqrt(offSquared);
	// The square to eye→pivot that points down when the pivot lies behind the eye.
	const side = mount.stands ? -1 : 1;
	const unitX = acrossX / across;
	const unitZ = acrossZ / across;
	const rearEyeX = mount.eyeX + along * unitX - side * off * unitZ;
	const rearEyeZ = mount.eyeZ + along * unitZ + side * off * unitX;
	// From front eye toward rear eye, and square to it, downward.
	const chordX = (rearEyeX - mount.eyeX) / chord;
	const chordZ = (rearEyeZ - mount.eyeZ) / chord;
	const downX = -chordZ;
	const downZ = chordX;
	// Depth and distance along the chord of the seat, at arc length `front` from the front eye.
	const tilt = curvature * (length / 2 - leaf.front);
	const middle = (bend + tilt) / 2;
	const quarter = (bend - tilt) / 2; // = curvature · front / 2
	const reach = leaf.front * sinc(quarter);
	const alongChord = reach * Math.cos(middle);
	const depth = reach * Math.sin(middle);
	return {
		curvature,
		arch: archOfCurvature(curvature, length),
		chord,
		seatX: mount.eyeX + alongChord * chordX + depth * downX,
		seatZ: mount.eyeZ + alongChord * chordZ + depth * downZ,
		seatTurn: tilt + Math.atan2(-chordZ, -chordX),
		rearEyeX,
		rearEyeZ,
		shackleLean: Math.atan2(
			mount.pivotX - rearEyeX,
			mount.stands ? rearEyeZ - mount.pivotZ : mount.pivotZ - rearEyeZ,
		),
	};
}

/** Why these parts do not meet, as a sentence. */
function cannotBeAssembled(leaf: LeafSpring, mount: SpringMount, curvature: number): OutOfRange {
	const chord = leaf.length * sinc((curvature * leaf.length) / 2);
	const across = Math.hypot(mount.pivotX - mount.eyeX, mount.pivotZ - mount.eyeZ);
	const gap = Math.abs(across - chord);
	if (mount.shackleLength > across + chord) {
		return new OutOfRange(
			`The parts cannot be assembled: from front eye to shackle pivot is ${plainLength(across)} and the leaf reaches ${plainLength(chord)}, together less than a shackle of ${plainLength(mount.shackleLength)}. The shackle is too long by ${plainLength(mount.shackleLength - across - chord)}; check its length.`,
		);
	}
	return new OutOfRange(
		across > chord + mount.shackleLength
			? `The parts cannot be assembled: from front eye to shackle pivot is ${plainLength(across)}, the leaf reaches ${plainLength(chord)} and the shackle ${plainLength(mount.shackleLength)} more. The shackle is too short by ${plainLength(gap - mount.shackleLength)}; check the eye-to-pivot distance, the leaf halves and the shackle.`
			: `The parts cannot be assembled: from front eye to shackle pivot is ${plainLength(across)}, the leaf reaches ${plainLength(chord)}, and a shackle of ${plainLength(mount.shackleLength)} cannot make up the difference of ${plainLength(gap)}. Check the eye-to-pivot distance, the leaf halves and the shackle.`,
	);
}

/**
 * The spring's place on its mount at one curvature.
 * Of the two points where the circles meet, a hanging shackle takes the lower, a standing one the upper.
 * @param curvature of the main leaf, 1/m
 * @throws OutOfRange when the shackle cannot reach
 */
export function springPose(leaf: LeafSpring, mount: SpringMount, curvature: number): SpringPose {
	within(
		'The bend of the leaf',
		(Math.abs(curvature) * leaf.length) / greatestBend,
		0,
		1.001,
		'half circles',
	);
	const pose = tryPose(leaf, mount, curvature);
	if (!pose) throw cannotBeAssembled(leaf, mount, curvature);
	return pose;
}

/**
 * Load at the seat for each newton-metre of bending moment there, 1/m. The shackle carries force along
 * itself only; its moment about the seat is the bending moment; moments about the front eye give the
 * load. Undefined where the shackle points at the seat, or the seat lies under the front eye.
 */
function loadPerMoment(mount: SpringMount, pose: SpringPose): number | undefined {
	const shackleX = (pose.rearEyeX - mount.pivotX) / mount.shackleLength;
	const shackleZ = (pose.rearEyeZ - mount.pivotZ) / mount.shackleLength;
	const aboutSeat =
		(pose.rearEyeX - pose.seatX) * shackleZ - (pose.rearEyeZ - pose.seatZ) * shackleX;
	const aboutEye =
		(pose.rearEyeX - mount.eyeX) * shackleZ - (pose.rearEyeZ - mount.eyeZ) * shackleX;
	const arm = mount.eyeX - pose.seatX;
	const perMoment = aboutEye / (aboutSeat * arm);
	return Number.isFinite(perMoment) && perMoment > 0 ? perMoment : undefined;
}

/**
 * The spring as it was measured: its arch and the load on it give what its curvature would be free.
 * @param arch of the loaded main leaf, m; positive bows below the line through the eyes
 * @param load at the seat of this one spring, N
 * @throws OutOfRange when the parts do not meet or the load is below zero
 */
export function springAtArch(
	leaf: LeafSpring,
	mount: SpringMount,
	arch: number,
	load: number,
): SpringAtRest {
	within('The load on the spring', load, 0, 1e6, 'N');
	const pose = springPose(leaf, mount, curvatureOfArch(arch, leaf.length));
	const perMoment = loadPerMoment(mount, pose);
	if (perMoment === undefined) throw shacklePointsAtSeat(pose);
	const freeCurvature = pose.curvature + load / (perMoment * leaf.stiffness);
	finite('The free curvature of the leaf, from load and rate,', freeCurvature);
	return { ...pose, load, freeCurvature };
}

function shacklePointsAtSeat(pose: SpringPose): OutOfRange {
	return new OutOfRange(
		`The shackle leans ${plainAngle(pose.shackleLean)} from upright, in line with the spring seat or past it, so the spring carries no load there. Check the shackle pivot, the shackle length and whether it hangs or stands.`,
	);
}

/** How many steps, and of what bend each, the search for an equilibrium takes to either side. */
const searchSteps = 400;
const searchBend = greatestBend / searchSteps;

/**
 * The spring at rest on another mount or under another load: the equilibrium nearest the one before.
 * @param mount where the frame carries it now
 * @param before the same spring at rest, for its free curvature and where to begin the search
 * @param load at the seat now, N
 * @returns the pose in which the spring carries just this load. With nothing changed it is `before`,
 * to the last bit.
 * @throws OutOfRange when there is none within reach
 */
export function springAtLoad(
	leaf: LeafSpring,
	mount: SpringMount,
	before: SpringAtRest,
	load: number,
): SpringAtRest {
	within('The load on the spring', load, 0, 1e6, 'N');
	const carried = (curvature: number): { pose: SpringPose; excess: number } | undefined => {
		const pose = tryPose(leaf, mount, curvature);
		const perMoment = pose && loadPerMoment(mount, pose);
		if (!pose || perMoment === undefined) return undefined;
		return {
			pose,
			excess: perMoment * leaf.stiffness * (before.freeCurvature - curvature) - load,
		};
	};
	const rest = (pose: SpringPose): SpringAtRest => ({
		...pose,
		load,
		freeCurvature: before.freeCurvature,
	});
	const start = carried(before.curvature);
	// Rounding in the last places is no change: keeps "nothing changed" exact.
	if (start && Math.abs(start.excess) <= 1e-12 * (load + leaf.rate * leaf.length)) {
		return rest(start.pose);
	}
	const step = (2 * searchBend) / leaf.length;
	const walls = [start, start];
	const closed = [false, false];
	for (let count = 1; count <= searchSteps; count++) {
		for (const side of [0, 1] as const) {
			const direction = side === 0 ? -1 : 1;
			const near = walls[side];
			const curvature = before.curvature + direction * count * step;
			if (closed[side] || Math.abs(curvature) * leaf.length > greatestBend) continue;
			const here = carried(curvature);
			walls[side] = here;
			// Beyond a place where the parts do not meet lies a rest the spring could never move to.
			if (near && !here) closed[side] = true;
			if (!here || !near) continue;
			if (here.excess > 0 === near.excess > 0 && here.excess !== 0) continue;
			// More curvature, less load: the other way round the spring would snap away from its rest.
			if (here.excess > 0 === direction > 0 && here.excess !== 0) continue;
			const found = bracketedRoot(
				// Between two poses that can be assembled and carry load lies no gap: both conditions are
				// margins that change slowly against a step of the search.
				(x) => carried(x)?.excess ?? NaN,
				near.pose.curvature,
				curvature,
				1e-15,
			);
			const pose = carried(found)?.pose;
			if (pose) return rest(pose);
		}
	}
	if (!start) {
		const pose = tryPose(leaf, mount, before.curvature);
		throw pose ? shacklePointsAtSeat(pose) : cannotBeAssembled(leaf, mount, before.curvature);
	}
	throw new OutOfRange(
		`The spring finds no rest under ${plain(load)} N on this mount: wherever its shackle can reach, it carries ${start.excess > 0 ? 'more' : 'less'} than that. Check the spring load, the leaf rate, the shackle and how far the eyes were moved.`,
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
