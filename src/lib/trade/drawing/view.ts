/**
 * From the truck to the paper: the part of it that is shown, the scale, and which of frame and floor is held
 * still. Seen from the left, so the front is at the left and what runs down toward the rear runs down to the
 * right. Paper: px, x to the right, y down.
 */
import { isHeavy } from '../../drafting/lines.ts';
import { px, type PaperStroke } from '../../drafting/paper.ts';
import { usual, onArc, type Arc, type Piece, type Stroke } from './outline.ts';
import { lineShape, type Area, type Place, type Shape } from '../../drafting/shapes.ts';
import {
	frontWheel,
	lipTop,
	rearContact,
	shaftFront,
	type Point,
	type TruckState,
} from './truck.ts';

export const crops = ['whole', 'drive', 'spring', 'joints', 'axle'] as const;
/**
 * What is in sight: both wheels; transmission to shackle; the spring with its wheel; joint to joint; the seat
 * with the pinion.
 */
export type Crop = (typeof crops)[number];

/** What does not move between states. */
export type Still = 'frame' | 'floor';

/** A scale with the place of the frame's origin on the paper. */
export interface View {
	/** px for a metre. */
	readonly scale: number;
	/** Where the frame's origin lies when nothing is turned, px. */
	readonly x: number;
	readonly y: number;
	readonly still: Still;
	/** With the floor held still: what the floor is level with, m above the frame's origin turned level. */
	readonly level: number;
}

/** Turned level on the floor, m: forward and up from the frame's origin. */
function levelled({ x, z }: Point, rake: number): Point {
	const [cos, sin] = [Math.cos(rake), Math.sin(rake)];
	return { x: x * cos - z * sin, z: x * sin + z * cos };
}

/** A place of a state before it is scaled: in frame axes, or above the floor that all states share. */
function seen(point: Point, state: TruckState, still: Still, level: number): Point {
	if (still === 'frame') return point;
	const turned = levelled(point, state.rake);
	const floor = levelled(rearContact(state), state.rake).z;
	return { x: turned.x, z: turned.z - floor + level };
}

/** Where a place of a state lies on the paper. */
export function toPaper(view: View, state: TruckState, point: Point): Place {
	const { x, z } = seen(point, state, view.still, view.level);
	return { x: view.x - view.scale * x, y: view.y - view.scale * z };
}

/** How far a movement on the paper goes in frame axes, m forward and up. */
export function movement(view: View, state: TruckState, right: number, down: number): Point {
	const turn = view.still === 'floor' ? state.rake : 0;
	return levelled({ x: -right / view.scale, z: -down / view.scale }, -turn);
}

/** The places that a crop has to show of one state; what lies outside them is cut off by the edge. */
function placesOf(state: TruckState, crop: Crop, rail: number, lips: boolean): Point[] {
	const { frontEye, pivot, rearEye, axle, pinion, transmission, tyres, seat } = state;
	const railTop = rail + (state.rail?.height ?? usual.rail) + 0.01;
	const around = (centre: Point, by: number): Point[] => [
		{ x: centre.x - by, z: centre.z - by },
		{ x: centre.x + by, z: centre.z + by },
	];
	const top = (point: Point): Point => ({ x: point.x, z: railTop });
	const ends = [...around(frontEye, 0.06), ...around(pivot, 0.06), ...around(rearEye, 0.06)];
	const wheel = around(axle, tyres.rear * usual.freeTyre + 0.03);
	const lip = [lipTop(state, 'rear')].flatMap((at) => (at ? [{ x: at.x, z: at.z + 0.02 }] : []));
	const tail = { x: transmission.joint.x + 0.3, z: transmission.joint.z };
	switch (crop) {
		case 'whole': {
			const front = frontWheel(state);
			const frontLip = lipTop(state, 'front');
			return [
				...ends,
				...wheel,
				...lip,
				...(front ? around(front, (tyres.front ?? 0) * usual.freeTyre + 0.03) : [tail]),
				...(frontLip ? [{ x: frontLip.x, z: frontLip.z + 0.02 }] : []),
			];
		}
		case 'drive':
			return [...ends, ...wheel, ...(lips ? lip : []), tail, top(pivot)];
		case 'spring':
			return [
				...ends,
				top(frontEye),
				{ x: axle.x, z: axle.z - tyres.rear - 0.05 },
				{ x: axle.x, z: axle.z + tyres.rear * usual.freeTyre + 0.02 },
			];
		case 'joints':
			return [
				...around(shaftFront(state), 0.14),
				...around(pinion.joint, 0.14),
				{ x: pinion.joint.x, z: Math.min(axle.z - tyres.rear - 0.04, pinion.joint.z) },
				top(pinion.joint),
			];
		case 'axle':
			return [
				...around(pinion.joint, 0.09),
				...around(axle, 0.17),
				{ x: axle.x - 0.25, z: axle.z },
				...around(seat, 0.08),
			];
	}
}

/**
 * The largest scale at which all states fit into a part of the paper, in its middle.
 * @param rail underside of the frame rail, m
 * @param lips whether the drive line's crop has to show the lip, which stands high above all that turns
 */
export function viewOf(
	states: readonly TruckState[],
	crop: Crop,
	still: Still,
	area: Area,
	rail: number,
	lips: boolean,
): View {
	const first = states[0];
	const level = first ? levelled(rearContact(first), first.rake).z : 0;
	const places = states.flatMap((state) =>
		placesOf(state, crop, rail, lips).map((point) => seen(point, state, still, level)),
	);
	const [xs, zs] = [places.map(({ x }) => x), places.map(({ z }) => z)];
	const [front, rear] = [Math.max(...xs), Math.min(...xs)];
	const [high, low] = [Math.max(...zs), Math.min(...zs)];
	const scale = Math.min(
		(area.right - area.left) / (front - rear),
		(area.bottom - area.top) / (high - low),
	);
	return {
		scale,
		x: (area.left + area.right) / 2 + (scale * (front + rear)) / 2,
		y: (area.top + area.bottom) / 2 + (scale * (high + low)) / 2,
		still,
		level,
	};
}

/** How finely an arc is flattened where only its place matters, radians. */
const flat = Math.PI / 24;

function flattened(piece: Piece, place: (point: Point) => Place): Place[] {
	if ('line' in piece) return piece.line.map(place);
	const { from, to } = piece.arc;
	// A leaf is a small part of a very large circle: it is cut by its share too.
	const count = Math.max(Math.abs(to - from) < 1.2 ? 10 : 2, Math.ceil(Math.abs(to - from) / flat));
	return Array.from({ length: count + 1 }, (_, index) =>
		place(onArc(piece.arc, from + ((to - from) * index) / count)),
	);
}

/** An arc in SVG's words. Frame axes and paper are a half turn apart, so an arc keeps its sense. */
function arcPath(arc: Arc, radius: number, place: (point: Point) => Place): string {
	const sweep = arc.to > arc.from ? '1' : '0';
	const span = Math.abs(arc.to - arc.from);
	const to = (angle: number, large: boolean): string => {
		const { x, y } = place(onArc(arc, angle));
		return `A${px(radius)} ${px(radius)} 0 ${large ? '1' : '0'} ${sweep} ${px(x)} ${px(y)}`;
	};
	// A full circle has no end of its own to draw to: it is drawn in two halves.
	if (span > 1.99 * Math.PI) return to((arc.from + arc.to) / 2, false) + to(arc.to, false);
	return to(arc.to, span > Math.PI);
}

/** A stroke on the paper, and where it lies for lettering that has to keep clear of it. */
export interface Drawn {
	readonly stroke: PaperStroke;
	readonly heavy: boolean;
	/** Its lines as boxes; made only when somebody asks. */
	readonly shapes: () => Shape[];
}

/** Lettering keeps so far from the edge of a heavy line, px. */
const clearOfHeavy = 1.6;

export function drawn(stroke: Stroke, view: View, state: TruckState): Drawn {
	const { part, kind, pieces, closed, fill, ink, least = 0 } = stroke;
	const place = (point: Point): Place => toPaper(view, state, point);
	const shown = pieces.map((piece) => enlarged(piece, least / view.scale));
	const path = shown.map((piece, index) => piecePath(piece, index === 0, view, place)).join('');
	const heavy = isHeavy(kind) || (fill !== undefined && fill !== 'paper');
	const shapes = (): Shape[] =>
		shown.flatMap((piece) => {
			const places = flattened(piece, place);
			const [first] = places;
			if (closed && pieces.length === 1 && first) places.push(first);
			return places.slice(1).map((to, index) => {
				const from = places[index] as Place;
				return heavy ? lineShape(from, to, 2.6, clearOfHeavy) : lineShape(from, to, 1);
			});
		});
	return {
		stroke: {
			path: closed ? `${path}Z` : path,
			kind,
			part,
			...(fill ? { fill } : {}),
			...(ink ? { ink } : {}),
		},
		heavy,
		shapes,
	};
}

/** A piece in SVG's words, led to by a straight line where it is not the first. */
function piecePath(
	piece: Piece,
	first: boolean,
	view: View,
	place: (point: Point) => Place,
): string {
	const to = (letter: string, { x, y }: Place): string => `${letter}${px(x)} ${px(y)}`;
	const start = first ? 'M' : 'L';
	if ('line' in piece) {
		return piece.line.map((point, index) => to(index === 0 ? start : 'L', place(point))).join('');
	}
	const { arc } = piece;
	return to(start, place(onArc(arc, arc.from))) + arcPath(arc, arc.radius * view.scale, place);
}

/** A circle that stands for a part, made large enough to be seen. */
function enlarged(piece: Piece, least: number): Piece {
	if (!('arc' in piece) || piece.arc.radius >= least) return piece;
	return { arc: { ...piece.arc, radius: least } };
}

export type UnitSystem = 'inch-pound' | 'metric';

/** Lengths a scale bar may have, in the unit it is lettered in. */
const barLengths: Readonly<
	Record<UnitSystem, { unit: string; metres: number; lengths: readonly number[] }>
> = {
	'inch-pound': { unit: 'in', metres: 0.0254, lengths: [1, 2, 4, 6, 12, 24, 48] },
	metric: { unit: 'mm', metres: 0.001, lengths: [20, 50, 100, 200, 500, 1000] },
};

/** The longest round length that takes no more than so many px at a scale. */
export function scaleBar(
	scale: number,
	most: number,
	units: UnitSystem,
): { length: number; text: string } {
	const { unit, metres, lengths } = barLengths[units];
	const fitting = lengths.filter((length) => length * metres * scale <= most);
	const chosen = fitting.at(-1) ?? lengths[0] ?? 1;
	return { length: chosen * metres * scale, text: `${String(chosen)} ${unit}` };
}
