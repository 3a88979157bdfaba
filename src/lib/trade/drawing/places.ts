/** The places of a truck that words and dimensions point at, on the paper. */
import type { Measure } from './dimension.ts';
import { onArc, leafPiece, usual } from './outline.ts';
import type { Area, Place } from '../../drafting/shapes.ts';
import {
	axleFace,
	axleSide,
	frontWheel,
	lipTop,
	offset,
	rearContact,
	shaftFront,
	springFace,
	wantedEnds,
	aboveFloor,
	type Point,
	type TruckState,
} from './truck.ts';
import { toPaper, type View } from './view.ts';

export type PlaceName =
	| 'frontEye'
	| 'pivot'
	| 'rearEye'
	| 'shackle'
	| 'leafFront'
	| 'leafRear'
	| 'seat'
	| 'wedge'
	| 'thickEnd'
	| 'axle'
	| 'pinion'
	| 'jointFront'
	| 'jointRear'
	| 'shaft'
	| 'transmission'
	| 'mount'
	| 'rail'
	| 'frontLip'
	| 'rearLip'
	| 'frontTyre'
	| 'rearTyre'
	| 'floor'
	| 'stop'
	| 'wanted';

function between(a: Point, b: Point, share = 0.5): Point {
	return { x: a.x + (b.x - a.x) * share, z: a.z + (b.z - a.z) * share };
}

function onLeaf({ seat, spring }: TruckState, end: 'front' | 'rear', share: number): Point {
	const { length, curvature } = spring[end];
	const half = { length: length * share, curvature };
	const piece = leafPiece(seat, spring.turn, half, end === 'front' ? 1 : -1);
	return 'arc' in piece ? onArc(piece.arc, piece.arc.to) : (piece.line.at(-1) ?? seat);
}

/** A place in frame axes; undefined where the state does not know it. */
function pointOf(name: PlaceName, state: TruckState, rail: number): Point | undefined {
	const { pivot, rearEye, axle, pinion, transmission, tyres, rake } = state;
	const front = shaftFront(state);
	switch (name) {
		case 'frontEye':
		case 'pivot':
		case 'rearEye':
		case 'seat':
		case 'axle':
			return state[name];
		case 'shackle':
			return between(pivot, state.shackleEnd ?? rearEye);
		case 'leafFront':
			return onLeaf(state, 'front', 0.5);
		case 'leafRear':
			return onLeaf(state, 'rear', 0.5);
		case 'wedge':
			return axleFace(state);
		case 'thickEnd': {
			const { wedge } = state;
			if (!wedge || wedge.angle === 0) return undefined;
			// A wedge that tips the nose up on a spring over the axle has its thick end to the rear.
			const sense = Math.sign(wedge.angle) * axleSide(state);
			const thick = wedge.thinEnd + wedge.length * Math.tan(Math.abs(wedge.angle));
			const top = offset(springFace(state), state.spring.turn, (sense * wedge.length) / 2, 0);
			return offset(top, state.spring.turn, 0, (axleSide(state) * thick) / 2);
		}
		case 'pinion':
			return offset(pinion.joint, pinion.slope, -0.045, 0);
		case 'jointFront':
			return front;
		case 'jointRear':
			return pinion.joint;
		case 'shaft':
			return between(front, pinion.joint);
		case 'transmission':
			return offset(transmission.joint, transmission.slope, 0.18, 0);
		case 'mount':
			return offset(transmission.joint, transmission.slope, 0.2, -0.07);
		case 'rail':
			return { x: (axle.x + pivot.x) / 2, z: rail + (state.rail?.height ?? usual.rail) };
		case 'frontLip':
			return lipTop(state, 'front');
		case 'rearLip':
			return lipTop(state, 'rear');
		case 'frontTyre': {
			const wheel = frontWheel(state);
			return wheel && offset(wheel, 0.7 - rake, tyres.front ?? 0, 0);
		}
		case 'rearTyre':
			return offset(axle, -0.7 - rake, -tyres.rear * usual.freeTyre, 0);
		case 'floor':
			return aboveFloor(state, 0.7, 0);
		case 'stop':
			if (state.stopGap === undefined) return undefined;
			return { x: axle.x - 0.02, z: axle.z + usual.tube + state.stopGap + 0.02 };
		case 'wanted':
			return wantedEnds(state)?.[1];
	}
}

/** A place on the paper. */
export function placeOf(
	name: PlaceName,
	state: TruckState,
	view: View,
	rail: number,
): Place | undefined {
	const point = pointOf(name, state, rail);
	return point && toPaper(view, state, point);
}

export const dimensionNames = [
	'drop',
	'shaft',
	'frontEye',
	'pivot',
	'miss',
	'leafFront',
	'leafRear',
	'frontLip',
	'rearLip',
	'wheelbase',
	'stopGap',
	'gap',
] as const;
/**
 * What may be dimensioned: how far the axle came up in the frame (the lip down, with the floor held still), the
 * shaft joint to joint, front eye and pivot raised, the front eye found beside its plan, leaf halves, lips above
 * the floor, wheelbase, the stop's gap, and the gap between parts that do not meet.
 */
export type DimensionName = (typeof dimensionNames)[number];

/** What dimensions are taken between. */
export interface Subject {
	readonly shown: TruckState;
	readonly before?: TruckState | undefined;
	readonly plan?: TruckState | undefined;
	readonly view: View;
	readonly rail: number;
	/** Rings on the drawing: extension lines begin outside them. */
	readonly rings: boolean;
	/** The part of the paper that dimensions may use. */
	readonly area: Area;
}

/** From best to worst: outward from a place, then inward. */
function lanes(from: number, to: number, step: number): number[] {
	const sense = Math.sign(to - from);
	const count = Math.max(0, Math.floor(Math.abs(to - from) / step) + 1);
	return Array.from({ length: count }, (_, index) => from + sense * index * step);
}

const upright: Place = { x: 0, y: -1 };
const lying: Place = { x: 1, y: 0 };

/** An upright dimension between two places, in lanes to the right of a place first, or to the left of it. */
function uprightBetween(
	a: Place | undefined,
	b: Place | undefined,
	prefer: readonly number[],
	short = 3,
): Measure | undefined {
	if (!a || !b) return undefined;
	return { from: a, to: b, along: upright, lanes: prefer, short };
}

function rise(
	of: 'frontEye' | 'pivot',
	subject: Subject,
	other = subject.before,
): Measure | undefined {
	const { shown, view, area, rings } = subject;
	if (!other) return undefined;
	const [a, b] = [toPaper(view, other, other[of]), toPaper(view, shown, shown[of])];
	const x = b.x;
	const left = lanes(Math.min(a.x, b.x) - 30, area.left + 6, 10).slice(0, 8);
	const right = lanes(Math.max(a.x, b.x) + 30, area.right - 6, 10).slice(0, 8);
	const both = of === 'pivot' ? [...right, ...left] : [...left, ...right];
	return uprightBetween(a, { x, y: b.y }, both, rings ? 15 : 8);
}

function drop({ shown, before, view, area, rings }: Subject): Measure | undefined {
	if (!before) return undefined;
	const floor = view.still === 'floor';
	const point = (state: TruckState): Place | undefined => {
		const at = floor ? lipTop(state, 'rear') : state.axle;
		return at && toPaper(view, state, at);
	};
	const tyre = shown.tyres.rear * usual.freeTyre * view.scale;
	const axle = toPaper(view, shown, shown.axle).x;
	const end = toPaper(view, shown, shown.pivot.x < shown.rearEye.x ? shown.pivot : shown.rearEye);
	const outside = floor ? axle + 60 : Math.max(axle + tyre, end.x) + 16;
	const prefer = [
		...lanes(outside, area.right - 8, 10),
		...lanes(axle + tyre + 10, outside, 10),
		...lanes(axle + 0.4 * tyre, axle + tyre, 12),
		...lanes(axle - tyre - 10, area.left + 8, 14).slice(0, 10),
	];
	const short = floor ? 4 : Math.max(rings ? 15 : 0, usual.tube * view.scale + 3);
	return uprightBetween(point(before), point(shown), prefer, short);
}

function shaft({ shown, view }: Subject): Measure {
	const from = toPaper(view, shown, shaftFront(shown));
	const to = toPaper(view, shown, shown.pinion.joint);
	const length = Math.hypot(to.x - from.x, to.y - from.y);
	const along = { x: (to.x - from.x) / length, y: (to.y - from.y) / length };
	const on = -along.y * from.x + along.x * from.y;
	const off = [...lanes(usual.shaftTube * view.scale + 28, 150, 8), ...lanes(-30, -130, 8)];
	const short = Math.max(usual.joint * view.scale, 4) + 3;
	return { from, to, along, short, lanes: off.map((by) => on + by) };
}

function leafHalf(end: 'front' | 'rear', { shown, view, rail, area }: Subject): Measure {
	const eye = toPaper(view, shown, end === 'front' ? shown.frontEye : shown.rearEye);
	const seat = toPaper(view, shown, shown.seat);
	const top = toPaper(view, shown, { x: shown.seat.x, z: rail + usual.rail }).y;
	return {
		from: eye,
		to: seat,
		along: lying,
		lanes: [...lanes(top - 8, area.top + 6, 8), ...lanes(top + 6, eye.y - 20, 6)],
	};
}

function lipHeight(end: 'front' | 'rear', { shown, view, area }: Subject): Measure | undefined {
	const top = lipTop(shown, end);
	const wheel = end === 'front' ? frontWheel(shown) : shown.axle;
	if (!top || !wheel) return undefined;
	const place = toPaper(view, shown, top);
	const floor = toPaper(
		view,
		shown,
		offset(top, -shown.rake, 0, -(shown.lips?.[end]?.height ?? 0)),
	);
	const tyre = ((end === 'front' ? shown.tyres.front : shown.tyres.rear) ?? 0) * view.scale;
	const x = toPaper(view, shown, wheel).x;
	const right = lanes(x + tyre * 1.1 + 12, area.right - 6, 12).slice(0, 40);
	const left = lanes(x - tyre * 1.1 - 12, area.left + 6, 12).slice(0, 16);
	return uprightBetween(place, floor, [...right, ...left]);
}

function wheelbase({ shown, view, area }: Subject): Measure | undefined {
	const front = frontWheel(shown);
	if (!front) return undefined;
	const from = toPaper(view, shown, offset(front, -shown.rake, 0, -(shown.tyres.front ?? 0)));
	const to = toPaper(view, shown, rearContact(shown));
	return { from, to, along: lying, lanes: lanes(Math.max(from.y, to.y) + 22, area.bottom - 4, 6) };
}

function stopGap({ shown, view, area }: Subject): Measure | undefined {
	if (shown.stopGap === undefined) return undefined;
	const tube = { x: shown.axle.x, z: shown.axle.z + usual.tube };
	const [a, b] = [tube, { x: tube.x, z: tube.z + shown.stopGap }].map((point) =>
		toPaper(view, shown, point),
	);
	if (!a || !b) return undefined;
	// A spring that lies over the axle runs through the gap, and only where it has risen is the gap open again.
	const open = lanes(a.x + 120, area.right - 6, 14);
	return uprightBetween(a, b, [
		...lanes(a.x + 24, a.x + 110, 8),
		...lanes(a.x - 24, a.x - 110, 8),
		...open,
	]);
}

/** Between the two ends that do not meet. */
function gap({ shown, view }: Subject): Measure | undefined {
	if (!shown.shackleEnd) return undefined;
	const from = toPaper(view, shown, shown.rearEye);
	const to = toPaper(view, shown, shown.shackleEnd);
	const length = Math.hypot(to.x - from.x, to.y - from.y);
	if (length === 0) return undefined;
	const along = { x: (to.x - from.x) / length, y: (to.y - from.y) / length };
	const on = -along.y * from.x + along.x * from.y;
	return {
		from,
		to,
		along,
		lanes: [...lanes(26, 90, 8), ...lanes(-26, -90, 8)].map((by) => on + by),
	};
}

/** What a dimension is taken between; undefined where the states do not know it. */
export function measureOf(name: DimensionName, subject: Subject): Measure | undefined {
	switch (name) {
		case 'drop':
			return drop(subject);
		case 'shaft':
			return shaft(subject);
		case 'frontEye':
		case 'pivot':
			return rise(name, subject);
		case 'miss':
			return rise('frontEye', subject, subject.plan);
		case 'leafFront':
			return leafHalf('front', subject);
		case 'leafRear':
			return leafHalf('rear', subject);
		case 'frontLip':
			return lipHeight('front', subject);
		case 'rearLip':
			return lipHeight('rear', subject);
		case 'wheelbase':
			return wheelbase(subject);
		case 'stopGap':
			return stopGap(subject);
		case 'gap':
			return gap(subject);
	}
}
