/** Where the handles of the side elevation sit. Values in SI: metres, or radians nose-up. */
import type { Handle, HandleEntry } from '../../drafting/handle.ts';
import { axleFace, offset, padTurn, wantedEnds, type Point, type TruckState } from './truck.ts';
import { toPaper, type View } from './view.ts';

export const handleNames = [
	'frontEye',
	'pivot',
	'shackle',
	'axle',
	'wedge',
	'mountShim',
	'wanted',
] as const;
export type HandleName = (typeof handleNames)[number];

/** The entry that a handle of the truck moves. */
export type TruckHandleEntry = HandleEntry<HandleName>;
export type TruckHandle = Handle<HandleName>;

/** An angle moves its ring by at least so much for each step, so that a hand can stop on it, px. */
const leastForAStep = 5;

/** Where the ring sits in frame axes, and a second place that it moves toward when the value grows. */
function seats(name: HandleName, state: TruckState): { at: Point; toward: Point } {
	const up = (at: Point, turn = 0): { at: Point; toward: Point } => ({
		at,
		toward: offset(at, turn, 0, 1),
	});
	switch (name) {
		case 'frontEye':
			return up(state.frontEye);
		case 'pivot':
			return up(state.pivot);
		case 'shackle': {
			const end = state.shackleEnd ?? state.rearEye;
			const along = Math.atan2(end.z - state.pivot.z, end.x - state.pivot.x);
			return { at: end, toward: offset(end, along, 1, 0) };
		}
		case 'axle':
			return up(state.axle, padTurn(state));
		case 'wedge':
			return up(axleFace(state), padTurn(state));
		case 'mountShim': {
			const { joint, slope } = state.transmission;
			return up(offset(joint, slope, 0.2, -0.07), slope);
		}
		case 'wanted':
			return up(wantedEnds(state)?.[1] ?? state.axle);
	}
}

/** A handle where its part is drawn. */
export function handleOf(entry: TruckHandleEntry, state: TruckState, view: View): TruckHandle {
	const { at, toward } = seats(entry.name, state);
	const place = toPaper(view, state, at);
	const aim = toPaper(view, state, toward);
	const [right, down] = [aim.x - place.x, aim.y - place.y];
	const length = Math.hypot(right, down);
	const reach = Math.hypot(
		state.pinion.joint.x - state.axle.x,
		state.pinion.joint.z - state.axle.z,
	);
	// A wedge moves as far as it moves the pinion's nose.
	const perUnit =
		entry.name === 'wedge' ? Math.max(view.scale * reach, leastForAStep / entry.step) : view.scale;
	return { ...entry, place, direction: { x: right / length, y: down / length }, perUnit };
}
