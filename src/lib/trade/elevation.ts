/**
 * The side elevation of one state as lines on paper. Seen from the left, so the front is at the left and
 * slopes that run down toward the rear run down to the right. Frame axes in metres become paper places
 * with x to the right (rearward) and y down.
 */
import type { AxlePlace } from '../mechanics/axle-fit.ts';
import type { JointPlace } from '../mechanics/driveshaft.ts';
import type { SpringMount } from '../mechanics/leaf-spring.ts';
import type { SpringPlace } from '../mechanics/spring-pose.ts';
import type {
	Scene,
	SceneCircle,
	ScenePlace,
	SceneState,
	SceneStroke,
	TradeDrawing,
} from '../language/trade.ts';
import type { Value } from '../language/types.ts';

/** A place on the paper, m. */
export type Place = ScenePlace;

/** What a state is drawn from. Places in frame axes, m; turns in radians, nose-up positive. */
export interface StateOfTruck {
	readonly mount: SpringMount;
	readonly spring: SpringPlace;
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

/** Pieces a half of the leaf is drawn in. */
const pieces = 16;

function onPaper(x: number, z: number): Place {
	return { x: -x, y: -z };
}

/** The lines of one state. */
export function elevationOf(state: StateOfTruck): Elevation {
	const { mount, spring, axle, pinion, transmission, tyre, rake } = state;
	const { leaf: halves, curvature, difference, seatTurn } = spring;
	const ahead = curvature + (difference * halves.rear) / halves.length;
	const behind = curvature - (difference * halves.front) / halves.length;
	/** The main leaf so far ahead of the seat along it, or behind. */
	const leafAt = (along: number): Place => {
		const bend = (along > 0 ? ahead : behind) * along;
		// Too little bend to divide by: the leaf is straight there.
		const x = Math.abs(bend) < 1e-9 ? along : (along * Math.sin(bend)) / bend;
		const z = Math.abs(bend) < 1e-9 ? 0 : (along * (1 - Math.cos(bend))) / bend;
		return onPaper(
			spring.seatX + x * Math.cos(seatTurn) - z * Math.sin(seatTurn),
			spring.seatZ + x * Math.sin(seatTurn) + z * Math.cos(seatTurn),
		);
	};
	const leaf = Array.from({ length: 2 * pieces + 1 }, (_, piece) => {
		const share = 1 - piece / pieces;
		return leafAt(share * (share > 0 ? halves.front : halves.rear));
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

/** The elevation of both states, with the drop dimensioned behind the tyre. */
export const elevation: TradeDrawing = {
	parts: {
		mount: 'spring mount',
		spring: 'spring in its place',
		axle: 'axle place',
		pinion: 'joint centre',
		transmission: 'joint centre',
		tyre: '',
	},
	write: ['drop', 'shaft', 'front_joint', 'rear_joint'],
	about:
		'To scale, seen from the left; before dashed, after drawn full. Frame held still, so the floor tilts instead.',
	inWords:
		'The axle rises {drop} in the frame; driveshaft {shaft} joint to joint; front joint {front_joint}, rear joint {rear_joint}.',
	scene: (before, after, rake) =>
		sceneOf(elevationOf(stateOf(before, 0)), elevationOf(stateOf(after, rake))),
};

/** The reader of pages has made sure that each part is a record of its kind. */
function stateOf(parts: Readonly<Record<string, Value>>, rake: number): StateOfTruck {
	return { ...(parts as unknown as Omit<StateOfTruck, 'rake'>), rake };
}

/** Lines of lettering across the paper: so few that it can be read when drawn small. */
const steps = 44;
/** What an axle tube looks like from its end, m; common practice, no source. */
const hubRadius = 0.038;

function sceneOf(before: Elevation, after: Elevation): Scene {
	const paper = extentOf([before, after], 0.12);
	const step = paper.width / steps;
	const { transmission, pinion } = after;
	const turn = Math.atan2(pinion.y - transmission.y, pinion.x - transmission.x);
	const beyond = Math.max(before.axle.x + before.tyre, after.axle.x + after.tyre, after.pivot.x);
	const level: SceneStroke = {
		points: [
			{ x: paper.x + step, y: before.frontEye.y },
			{ x: paper.x + paper.width - step, y: before.frontEye.y },
		],
		state: 'was',
		weight: 'axis',
	};
	return {
		// The drop is lettered at the right.
		extent: { ...paper, width: paper.width + 4 * step },
		step,
		strokes: [level, ...strokesOf(before, 'was'), ...strokesOf(after, 'will')],
		circles: [...circlesOf(before, 'was', step), ...circlesOf(after, 'will', step)],
		notes: [
			{
				write: 'shaft',
				at: {
					x: (transmission.x + pinion.x) / 2 + 0.6 * step * Math.sin(turn),
					y: (transmission.y + pinion.y) / 2 - 0.6 * step * Math.cos(turn),
				},
				turn,
			},
			{ write: 'front_joint', at: { x: transmission.x, y: transmission.y - 0.9 * step } },
			{ write: 'rear_joint', at: { x: pinion.x, y: pinion.y + 1.6 * step } },
		],
		dimensions: [
			{
				write: 'drop',
				from: before.axle,
				to: after.axle,
				along: 'y',
				at: beyond + 1.2 * step,
			},
		],
	};
}

function strokesOf(drawn: Elevation, state: SceneState): SceneStroke[] {
	const outline = (...points: Place[]): SceneStroke => ({ points, state, weight: 'outline' });
	return [
		{ points: drawn.floor, state, weight: 'thin' },
		outline(...drawn.leaf),
		outline(drawn.pivot, drawn.rearEye),
		outline(drawn.seat, drawn.axle),
		outline(drawn.axle, drawn.pinion),
		{ points: [drawn.transmission, drawn.pinion], state, weight: 'heavy' },
	];
}

function circlesOf(drawn: Elevation, state: SceneState, step: number): SceneCircle[] {
	const eye = (at: Place, radius: number): SceneCircle => ({
		at,
		radius,
		state,
		weight: 'outline',
		filled: true,
	});
	const { frontEye, pivot, rearEye, transmission, pinion } = drawn;
	return [
		{ at: drawn.axle, radius: drawn.tyre, state, weight: 'thin' },
		...[frontEye, pivot, rearEye, transmission, pinion].map((at) => eye(at, step * 0.28)),
		eye(drawn.axle, hubRadius),
	];
}
