/**
 * What a side elevation is drawn from: plain numbers of one state of one truck, and the few places that
 * follow from them by drawing alone.
 *
 * Frame axes: x forward, z up, metres, origin at the stock front eye. Turns in radians, nose-up positive;
 * slopes in radians, positive where a line runs down toward the rear.
 */

/** A place in frame axes, m. */
export interface Point {
	readonly x: number;
	readonly z: number;
}

/** A part that may be drawn without having been measured. */
export type Part =
	| 'frame'
	| 'floor'
	| 'spring'
	| 'hangers'
	| 'shackle'
	| 'seat'
	| 'axle'
	| 'pinion'
	| 'shaft'
	| 'transmission'
	| 'tyres'
	| 'lips'
	| 'stop';

/** One half of the main leaf, from the seat to its eye. */
export interface LeafHalf {
	/** Along the leaf, m. */
	readonly length: number;
	/** 1/m; positive curls up from the seat, so that the leaf bows below the line through its eyes. */
	readonly curvature: number;
}

/** The edge of a wheel opening right above the wheel. */
export interface Lip {
	/** Where along the frame, m. It moves with the body, so it is the same in every state. */
	readonly x: number;
	/** Above the floor, m. */
	readonly height: number;
}

export interface TruckState {
	readonly frontEye: Point;
	/** Where the shackle hangs on the frame or stands on it. */
	readonly pivot: Point;
	readonly rearEye: Point;
	/**
	 * The shackle's free end, only where the parts cannot be assembled: it and the rear eye do not meet, and
	 * the truck is drawn open.
	 */
	readonly shackleEnd?: Point;
	readonly seat: Point;
	readonly spring: {
		readonly front: LeafHalf;
		readonly rear: LeafHalf;
		/** Of the leaf at the seat. */
		readonly turn: number;
		/** Where the spring lies: on top of the axle or under it. */
		readonly side: 'over' | 'under';
	};
	/** Middle of the main leaf to the face of the pad at the centre bolt, m. */
	readonly seatToPad?: number;
	/** Height of a block between spring and axle, m. */
	readonly block?: number;
	readonly wedge?: {
		/** Nose-up positive. */
		readonly angle: number;
		readonly length: number;
		readonly thinEnd: number;
	};
	readonly axle: Point;
	readonly pinion: { readonly joint: Point; readonly slope: number };
	readonly transmission: { readonly joint: Point; readonly slope: number };
	/** Of a shaft in two pieces the joint behind its centre bearing, where the rear piece begins. */
	readonly centreJoint?: Point;
	/** Loaded radii, m. */
	readonly tyres: { readonly front?: number; readonly rear: number };
	/** Along the floor, m. */
	readonly wheelbase?: number;
	readonly lips?: { readonly front?: Lip; readonly rear?: Lip };
	/** Turn of the frame on the floor. */
	readonly rake: number;
	/** Axle tube to bump stop, m. */
	readonly stopGap?: number;
	/** Depth of a notch in the frame over the axle, m. */
	readonly notch?: number;
	/** How far its axle would have to go up in the frame for what is wanted, m. */
	readonly wanted?: number;
	/** Underside and height of the frame rail in frame axes, m, where they were measured. */
	readonly rail?: { readonly bottom: number; readonly height: number };
	/** What nobody measured: drawn thin and double-dotted. */
	readonly assumed?: ReadonlySet<Part>;
}

/** The point a distance forward and up from another, in axes turned nose-up by `turn`. */
export function offset(from: Point, turn: number, forward: number, up: number): Point {
	return {
		x: from.x + forward * Math.cos(turn) - up * Math.sin(turn),
		z: from.z + forward * Math.sin(turn) + up * Math.cos(turn),
	};
}

/** From the axle's middle, m: across the tube at one end, clear of the axles and their letters at the other. */
const wantedLine = { ahead: 0.1, behind: 0.34 } as const;

/** The line at which the axle is wanted, from front to rear; undefined where nothing is wanted of it. */
export function wantedEnds({ axle, wanted }: TruckState): readonly [Point, Point] | undefined {
	if (wanted === undefined) return undefined;
	const z = axle.z + wanted;
	return [
		{ x: axle.x + wantedLine.ahead, z },
		{ x: axle.x - wantedLine.behind, z },
	];
}

/** Where the shaft begins that moves with the axle: at the transmission, or behind a centre bearing. */
export function shaftFront({ transmission, centreJoint }: TruckState): Point {
	return centreJoint ?? transmission.joint;
}

export function distance(a: Point, b: Point): number {
	return Math.hypot(a.x - b.x, a.z - b.z);
}

/** Seat to pad where it was not measured: half of a pack of four leaves, m. Common practice, no source. */
const usualSeatToPad = 0.018;

/** Which way from the seat the axle lies: down under a spring that is over it. */
export function axleSide(state: TruckState): -1 | 1 {
	return state.spring.side === 'over' ? -1 : 1;
}

/** Turn of the axle's pad: that of the seat and the wedge together. */
export function padTurn(state: TruckState): number {
	return state.spring.turn + (state.wedge?.angle ?? 0);
}

/** The middle of the wedge's or block's face toward the spring. */
export function springFace(state: TruckState): Point {
	const toPad = state.seatToPad ?? usualSeatToPad;
	return offset(state.seat, state.spring.turn, 0, axleSide(state) * toPad);
}

/** Thickness of a wedge at the centre bolt, m: thin end + (length/2)·tan|w|. */
export function wedgeThickness(wedge: TruckState['wedge']): number {
	if (!wedge || wedge.angle === 0) return 0;
	return wedge.thinEnd + (wedge.length / 2) * Math.tan(Math.abs(wedge.angle));
}

/** The middle of the wedge's face toward the axle; the face of the spring where there is no wedge. */
export function axleFace(state: TruckState): Point {
	const thickness = wedgeThickness(state.wedge);
	return offset(springFace(state), state.spring.turn, 0, axleSide(state) * thickness);
}

/** The floor right under the rear axle. */
export function rearContact({ axle, rake, tyres }: TruckState): Point {
	return offset(axle, -rake, 0, -tyres.rear);
}

/** A place on the floor, so far forward of the rear contact and so far above the floor. */
export function aboveFloor(state: TruckState, forward: number, up: number): Point {
	return offset(rearContact(state), -state.rake, forward, up);
}

/** Centre of the front wheel; undefined where wheelbase or tyre are not known. */
export function frontWheel(state: TruckState): Point | undefined {
	const { tyres, wheelbase } = state;
	if (tyres.front === undefined || wheelbase === undefined) return undefined;
	return aboveFloor(state, wheelbase, tyres.front);
}

/** The top of a lip in frame axes. */
export function lipTop(state: TruckState, end: 'front' | 'rear'): Point | undefined {
	const lip = state.lips?.[end];
	if (!lip) return undefined;
	const contact = rearContact(state);
	// Along the floor until its height, square to the floor, stands over the lip's place along the frame.
	const forward = (lip.x - contact.x - lip.height * Math.sin(state.rake)) / Math.cos(state.rake);
	return aboveFloor(state, forward, lip.height);
}

/**
 * Where the ends of leaf and shackle stand when they cannot be bolted together: both on the line from
 * front eye to pivot, as near to one another as they come.
 * @param chord front eye to rear eye in a straight line, m
 * @param shackle eye centre to eye centre, m
 */
export function drawnOpen(
	frontEye: Point,
	pivot: Point,
	chord: number,
	shackle: number,
): { rearEye: Point; shackleEnd: Point; gap: number } {
	const across = distance(frontEye, pivot);
	const along = Math.atan2(pivot.z - frontEye.z, pivot.x - frontEye.x);
	const rearEye = offset(frontEye, along, chord, 0);
	const ahead = offset(frontEye, along, across - shackle, 0);
	const behind = offset(frontEye, along, across + shackle, 0);
	const shackleEnd = distance(rearEye, ahead) <= distance(rearEye, behind) ? ahead : behind;
	return { rearEye, shackleEnd, gap: distance(rearEye, shackleEnd) };
}
