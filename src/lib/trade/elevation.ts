/**
 * The side elevation of one state as lines on paper. Seen from the left, so the front is at the left and
 * slopes that run down toward the rear run down to the right. Frame axes in metres become paper places
 * with x to the right (rearward) and y down.
 */
import type { AxlePlace } from '../mechanics/axle.ts';
import type { JointPlace } from '../mechanics/driveshaft.ts';
import type { SpringMount, SpringPose } from '../mechanics/leaf-spring.ts';

/** A place on the paper, m. */
export interface Place {
	readonly x: number;
	readonly y: number;
}

/** What a state is drawn from. Places in frame axes, m; turns in radians, nose-up positive. */
export interface StateOfTruck {
	readonly mount: SpringMount;
	readonly spring: SpringPose;
	readonly axle: AxlePlace;
	readonly pinion: JointPlace;
	readonly transmission: JointPlace;
	/** Loaded radius, m. */
	readonly tyre: number;
	/** Turn of the frame on the floor. */
	readonly rake: number;
}

export interface Elevation {
	readonly frontEye: Place;
	readonly rearEye: Place;
	readonly pivot: Place;
	/** Along the main leaf, front eye to rear eye. */
	readonly leaf: readonly Place[];
	readonly seat: Place;
	readonly axle: Place;
	readonly pinion: Place;
	readonly transmission: Place;
	readonly tyre: number;
	/** Two places on the floor, the front one first. */
	readonly floor: readonly [Place, Place];
}

/** Pieces the leaf is drawn in. */
const pieces = 32;

function onPaper(x: number, z: number): Place {
	return { x: -x, y: -z };
}

/** The lines of one state. */
export function elevationOf(state: StateOfTruck): Elevation {
	const { mount, spring, axle, pinion, transmission, tyre, rake } = state;
	const { curvature, chord } = spring;
	const along = {
		x: (spring.rearEyeX - mount.eyeX) / chord,
		z: (spring.rearEyeZ - mount.eyeZ) / chord,
	};
	const half = chord / 2;
	/** How far the arc hangs below its chord, at a distance from the middle. */
	const below = (fromMiddle: number): number => {
		if (Math.abs(curvature) < 1e-9) return 0;
		const deep = (at: number): number => Math.sqrt(Math.max(0, curvature ** -2 - at * at));
		return Math.sign(curvature) * (deep(fromMiddle) - deep(half));
	};
	const leaf = Array.from({ length: pieces + 1 }, (_, piece) => {
		const at = (piece / pieces) * chord;
		const down = below(at - half);
		return onPaper(
			mount.eyeX + along.x * at - along.z * down,
			mount.eyeZ + along.z * at + along.x * down,
		);
	});
	const floorAt = (x: number): Place =>
		onPaper(x, axle.z - tyre / Math.cos(rake) - Math.tan(rake) * (x - axle.x));
	return {
		frontEye: onPaper(mount.eyeX, mount.eyeZ),
		rearEye: onPaper(spring.rearEyeX, spring.rearEyeZ),
		pivot: onPaper(mount.pivotX, mount.pivotZ),
		leaf,
		seat: onPaper(spring.seatX, spring.seatZ),
		axle: onPaper(axle.x, axle.z),
		pinion: onPaper(pinion.x, pinion.z),
		transmission: onPaper(transmission.x, transmission.z),
		tyre,
		floor: [
			floorAt(transmission.x + 0.15),
			floorAt(Math.min(mount.pivotX, spring.rearEyeX) - 0.15),
		],
	};
}

/** The paper that holds several states: its corner and size, m. */
export function extentOf(
	states: readonly Elevation[],
	margin: number,
): { x: number; y: number; width: number; height: number } {
	const places = states.flatMap((state) => [
		state.frontEye,
		state.rearEye,
		state.pivot,
		state.pinion,
		state.transmission,
		...state.leaf,
		...state.floor,
		{ x: state.axle.x - state.tyre, y: state.axle.y - state.tyre },
		{ x: state.axle.x + state.tyre, y: state.axle.y },
	]);
	const xs = places.map(({ x }) => x);
	const ys = places.map(({ y }) => y);
	const [left, top] = [Math.min(...xs) - margin, Math.min(...ys) - margin];
	return {
		x: left,
		y: top,
		width: Math.max(...xs) + margin - left,
		height: Math.max(...ys) + margin - top,
	};
}
