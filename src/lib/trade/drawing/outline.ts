/**
 * The lines of one state of a truck, in frame axes and metres. What was measured lies where it was measured;
 * shapes nobody measures (castings, rail, rim) are usual sizes and drawn thin.
 */
import type { Ink, LineKind } from '../../drafting/lines.ts';
import {
	aboveFloor,
	axleFace,
	axleSide,
	frontWheel,
	lipTop,
	offset,
	padTurn,
	rearContact,
	shaftFront,
	springFace,
	type LeafHalf,
	type Part,
	type Point,
	wantedEnds,
	type TruckState,
} from './truck.ts';

/** Part of a circle, from one angle to another; angles from forward (x) toward up (z), radians. */
export interface Arc {
	readonly centre: Point;
	readonly radius: number;
	readonly from: number;
	readonly to: number;
}

export type Piece = { readonly line: readonly Point[] } | { readonly arc: Arc };

export interface Stroke {
	readonly part: Part | 'wanted';
	readonly kind: LineKind;
	/** One after the other; the next begins where the last ends, or a straight line leads there. */
	readonly pieces: readonly Piece[];
	readonly closed?: boolean;
	readonly fill?: Ink;
	/** Another ink than its kind has. */
	readonly ink?: Ink;
	/** For a circle that stands for a joint or an eye: it is never drawn smaller than this radius, px. */
	readonly least?: number;
}

/**
 * How a state is drawn: what is being looked at, what was there before, a plan under what was found, another
 * way to do it laid over.
 */
export type Role = 'shown' | 'before' | 'plan' | 'option';

/** Usual sizes, m: common practice, no source. Nobody measures them and nothing is worked out from them. */
export const usual = {
	eye: 0.019,
	joint: 0.018,
	tube: 0.04,
	housing: 0.125,
	shaftTube: 0.038,
	pad: 0.055,
	rail: 0.075,
	railAbove: 0.08,
	/** Rim to loaded tyre. */
	rim: 0.57,
	/** Free radius of a tyre to its loaded one. */
	freeTyre: 1.022,
	lip: 0.165,
} as const;

function line(...points: Point[]): Piece {
	return { line: points };
}

function circle(centre: Point, radius: number): Piece {
	return { arc: { centre, radius, from: 0, to: 2 * Math.PI } };
}

/** Bends flatter than this are drawn straight, 1/m. */
const straight = 1e-6;

/**
 * One half of the leaf, seat to eye, as its true arc.
 * @param forward 1 for the front half, −1 for the rear half
 */
export function leafPiece(seat: Point, turn: number, half: LeafHalf, forward: 1 | -1): Piece {
	const { length, curvature } = half;
	if (Math.abs(curvature) < straight) return line(seat, offset(seat, turn, forward * length, 0));
	const start = turn + (curvature > 0 ? -Math.PI / 2 : Math.PI / 2);
	return {
		arc: {
			centre: offset(seat, turn, 0, 1 / curvature),
			radius: 1 / Math.abs(curvature),
			from: start,
			to: start + curvature * length * forward,
		},
	};
}

/** The place on an arc at an angle. */
export function onArc({ centre, radius }: Arc, angle: number): Point {
	return { x: centre.x + radius * Math.cos(angle), z: centre.z + radius * Math.sin(angle) };
}

function backward(piece: Piece): Piece {
	if ('line' in piece) return { line: [...piece.line].reverse() };
	return { arc: { ...piece.arc, from: piece.arc.to, to: piece.arc.from } };
}

/** Front eye to rear eye along the main leaf. */
export function leafPieces({ seat, spring }: TruckState): Piece[] {
	return [
		backward(leafPiece(seat, spring.turn, spring.front, 1)),
		leafPiece(seat, spring.turn, spring.rear, -1),
	];
}

/** A tyre with its flat on the floor. */
function tyre(centre: Point, radius: number, rake: number): Piece[] {
	const free = radius * usual.freeTyre;
	const half = Math.acos(radius / free);
	const down = -Math.PI / 2 - rake;
	return [
		{ arc: { centre, radius: free, from: down + half, to: down + 2 * Math.PI - half } },
		line(offset(centre, down - half, free, 0), offset(centre, down + half, free, 0)),
	];
}

/** The top of a wheel opening: an arc over the wheel, its top at the lip. */
function lipPiece(top: Point, rake: number): Piece {
	const radius = 0.36;
	const half = Math.asin(usual.lip / radius);
	const up = Math.PI / 2 - rake;
	return {
		arc: { centre: offset(top, -rake, 0, -radius), radius, from: up - half, to: up + half },
	};
}

/** What the parts of one state share while they are drawn. */
interface Pen {
	readonly state: TruckState;
	readonly role: Role;
	/** Underside of the rail, m, for all states alike. */
	readonly rail: number;
	/** Reach of floor and rail along the frame, rear and front, m. */
	readonly reach: readonly [number, number];
	/** False where the front wheel is not in sight. */
	readonly front: boolean;
}

/** The line a part gets: its own when it is looked at, else that of its role; thin where it is assumed. */
function kindOf({ state, role }: Pen, part: Part, shown: LineKind): LineKind {
	if (role === 'before') return 'before';
	if (role === 'plan') return 'axis';
	const thin = state.assumed?.has(part) === true && shown !== 'axis';
	return thin ? 'unmeasured' : shown;
}

function stroke(
	pen: Pen,
	part: Part,
	shown: LineKind,
	pieces: readonly Piece[],
	more: Pick<Stroke, 'closed' | 'fill' | 'least'> = {},
): Stroke {
	return { part, kind: kindOf(pen, part, shown), pieces, ...more };
}

function floor(pen: Pen): Stroke[] {
	const { state, reach } = pen;
	const contact = rearContact(state);
	const [rear, front] = reach.map((x) => (x - contact.x) / Math.cos(state.rake)) as [
		number,
		number,
	];
	const strokes = [
		stroke(pen, 'floor', 'outline', [
			line(aboveFloor(state, front, 0), aboveFloor(state, rear, 0)),
		]),
	];
	if (pen.role !== 'shown') return strokes;
	const [apart, deep] = [0.062, 0.034];
	const count = Math.floor((front - rear - deep) / apart);
	for (let index = 0; index < count; index++) {
		const at = front - index * apart;
		const hatch = line(aboveFloor(state, at - deep, 0), aboveFloor(state, at, -deep));
		strokes.push({ part: 'floor', kind: 'edge', ink: 'soft', pieces: [hatch] });
	}
	return strokes;
}

/**
 * The rail, with the notch of the state that is shown; it is drawn once for all states.
 * @param rail its underside, m
 * @param reach rear and front end along the frame, m
 */
export function frameOf(
	state: TruckState,
	rail: number,
	reach: readonly [number, number],
): Stroke[] {
	const height = state.rail?.height ?? usual.rail;
	const kind: LineKind = state.rail ? 'outline' : 'unmeasured';
	const at = (x: number, up: number): Point => ({ x, z: rail + up });
	const [rear, front] = reach;
	const under = [at(front, 0)];
	if (state.notch) {
		const half = 0.13;
		under.push(at(state.axle.x + half, 0), at(state.axle.x + half * 0.7, state.notch));
		under.push(at(state.axle.x - half * 0.7, state.notch), at(state.axle.x - half, 0));
	}
	under.push(at(rear, 0));
	const top = line(at(front, height), at(rear, height));
	return [
		{ part: 'frame', kind, pieces: [line(...under)] },
		{ part: 'frame', kind, pieces: [top] },
	];
}

function wheels(pen: Pen): Stroke[] {
	const { state, role } = pen;
	const { axle, tyres, rake } = state;
	const front = pen.front ? frontWheel(state) : undefined;
	const strokes = [stroke(pen, 'tyres', 'edge', tyre(axle, tyres.rear, rake), { closed: true })];
	if (front && tyres.front !== undefined) {
		strokes.push(stroke(pen, 'tyres', 'edge', tyre(front, tyres.front, rake), { closed: true }));
	}
	if (role !== 'shown') return strokes;
	strokes.push(stroke(pen, 'tyres', 'edge', [circle(axle, tyres.rear * usual.rim)]));
	if (front && tyres.front !== undefined) {
		strokes.push(stroke(pen, 'tyres', 'edge', [circle(front, tyres.front * usual.rim)]));
		strokes.push(dot(front, 'tyres', 0.008));
	}
	return strokes;
}

function dot(centre: Point, part: Part, radius: number): Stroke {
	return { part, kind: 'bare', pieces: [circle(centre, radius)], fill: 'line', least: 1.6 };
}

function lips(pen: Pen): Stroke[] {
	return (pen.front ? (['front', 'rear'] as const) : (['rear'] as const)).flatMap((end) => {
		const top = lipTop(pen.state, end);
		if (!top) return [];
		return [stroke(pen, 'lips', 'outline', [lipPiece(top, pen.state.rake)])];
	});
}

/** Two legs from an eye up to the rail. */
function hanger(pen: Pen, eye: Point): Stroke[] {
	const to = (x: number): Piece => line(eye, { x: eye.x + x, z: pen.rail });
	if (eye.z >= pen.rail - usual.eye) return [];
	return [
		stroke(pen, 'hangers', 'edge', [to(0.075)]),
		stroke(pen, 'hangers', 'edge', [to(-0.055)]),
	];
}

/** Two plates side by side, seen as the edges of one. */
function shackle(pen: Pen): Stroke[] {
	const { pivot, rearEye, shackleEnd } = pen.state;
	const end = shackleEnd ?? rearEye;
	if (pen.role !== 'shown') return [stroke(pen, 'shackle', 'outline', [line(pivot, end)])];
	const along = Math.atan2(end.z - pivot.z, end.x - pivot.x);
	const plate = [-0.009, 0.009].map((aside) =>
		stroke(pen, 'shackle', 'outline', [
			line(offset(pivot, along, 0, aside), offset(end, along, 0, aside)),
		]),
	);
	return [...plate, eyeCircle(pen, pivot, 'shackle'), eyeCircle(pen, end, 'shackle')];
}

function eyeCircle(pen: Pen, centre: Point, part: Part): Stroke {
	return stroke(pen, part, 'outline', [circle(centre, usual.eye)], { fill: 'paper', least: 3.5 });
}

function spring(pen: Pen): Stroke[] {
	const leaf = stroke(pen, 'spring', 'planned', leafPieces(pen.state));
	if (pen.role !== 'shown') return [leaf];
	const { frontEye, rearEye, shackleEnd } = pen.state;
	const eyes = [eyeCircle(pen, frontEye, 'spring')];
	if (shackleEnd) eyes.push(eyeCircle(pen, rearEye, 'spring'));
	return [leaf, ...eyes];
}

/** Wedge and block as solids, the perch down to the tube, and what clamps them. */
function seat(pen: Pen): Stroke[] {
	const { state } = pen;
	const side = axleSide(state);
	const pad = padTurn(state);
	const top = springFace(state);
	const face = axleFace(state);
	const under = offset(face, pad, 0, side * (state.block ?? 0));
	const strokes: Stroke[] = [];
	const box = (from: Point, to: Point, half: number, other: number): Piece =>
		line(
			offset(from, pad, half, 0),
			offset(from, pad, -half, 0),
			offset(to, pad, -other, 0),
			offset(to, pad, other, 0),
		);
	// The leaves under the main one, as the clamp holds them.
	const pack = box(state.seat, top, usual.pad, usual.pad);
	strokes.push(stroke(pen, 'seat', 'edge', [pack], { closed: true }));
	if (state.wedge && state.wedge.angle !== 0) {
		const half = state.wedge.length / 2;
		const corners = line(
			offset(top, state.spring.turn, half, 0),
			offset(top, state.spring.turn, -half, 0),
			offset(face, pad, -half, 0),
			offset(face, pad, half, 0),
		);
		strokes.push({ part: 'seat', kind: 'bare', pieces: [corners], closed: true, fill: 'pencil' });
	}
	if (state.block) {
		strokes.push(
			stroke(pen, 'seat', 'outline', [box(face, under, usual.pad, usual.pad)], {
				closed: true,
				fill: 'soft',
			}),
		);
	}
	const perch = box(under, state.axle, usual.pad, usual.tube * 0.9);
	strokes.push(stroke(pen, 'axle', 'edge', [perch], { closed: true }));
	const [near, far] = [side * -0.04, side * (usual.tube + 0.022)];
	for (const aside of [-0.048, 0.048]) {
		const bolt = line(offset(state.seat, pad, aside, near), offset(state.axle, pad, aside, far));
		strokes.push(stroke(pen, 'seat', 'edge', [bolt]));
	}
	const plate = line(
		offset(state.axle, pad, -0.06, side * (usual.tube + 0.008)),
		offset(state.axle, pad, 0.06, side * (usual.tube + 0.008)),
	);
	strokes.push(stroke(pen, 'seat', 'edge', [plate]));
	return strokes;
}

/** The pinion's casting, from its flange back to the round of the axle. */
function pinionNose(pen: Pen): Stroke[] {
	const { axle, pinion } = pen.state;
	const { joint, slope } = pinion;
	const back = Math.max(
		0.12,
		(joint.x - axle.x) * Math.cos(slope) + (joint.z - axle.z) * Math.sin(slope),
	);
	const at = (behind: number, up: number): Point => offset(joint, slope, -behind, up);
	const upper = [at(0.045, 0.036), at(0.085, 0.042), at(back * 0.68, 0.046), at(back * 0.8, 0.075)];
	const lower = [
		at(0.045, -0.036),
		at(0.085, -0.05),
		at(back * 0.68, -0.08),
		at(back * 0.82, -0.11),
	];
	const flange = line(at(0.045, 0.036), at(0.045, -0.036));
	return [
		stroke(pen, 'pinion', 'edge', [line(...upper)]),
		stroke(pen, 'pinion', 'edge', [line(...lower)]),
		stroke(pen, 'pinion', 'outline', [flange]),
		stroke(pen, 'pinion', 'outline', [line(joint, at(0.045, 0))]),
		{ part: 'axle', kind: 'unmeasured', pieces: [circle(axle, usual.housing)] },
	];
}

function pinionAxis(pen: Pen): Stroke {
	const { axle, pinion } = pen.state;
	const past = Math.hypot(pinion.joint.x - axle.x, pinion.joint.z - axle.z) + 0.1;
	const axis = line(pinion.joint, offset(pinion.joint, pinion.slope, -past, 0));
	return stroke(pen, 'pinion', 'axis', [axis]);
}

function axle(pen: Pen): Stroke[] {
	const { axle: centre } = pen.state;
	const fill: Ink = 'paper';
	const tube = [circle(centre, usual.tube)];
	if (pen.role !== 'shown') return [stroke(pen, 'axle', 'outline', tube)];
	return [stroke(pen, 'axle', 'outline', tube, { fill }), dot(centre, 'axle', 0.006)];
}

/** The shaft, of one tube or of two. */
function shaft(pen: Pen): Stroke[] {
	const { transmission, centreJoint, pinion } = pen.state;
	const rear = tube(pen, shaftFront(pen.state), pinion.joint);
	if (!centreJoint) return rear;
	return [
		...tube(pen, transmission.joint, centreJoint),
		...centreBearing(pen, centreJoint),
		...rear,
	];
}

/** A tube with its tapered ends, joint to joint. */
function tube(pen: Pen, front: Point, rear: Point): Stroke[] {
	const slope = Math.atan2(front.z - rear.z, front.x - rear.x);
	const length = Math.hypot(front.x - rear.x, front.z - rear.z);
	const radius = usual.shaftTube;
	const at = (behind: number, up: number): Point => offset(front, slope, -behind, up);
	const stations: [number, number][] = [
		[0, 0.022],
		[0.055, 0.025],
		[0.11, radius],
		[length - 0.11, radius],
		[length - 0.055, 0.025],
		[length, 0.022],
	];
	const upper = stations.map(([behind, up]) => at(behind, up));
	const lower = stations.map(([behind, up]) => at(behind, -up)).reverse();
	if (pen.role !== 'shown') {
		return [upper, lower].map((side) => stroke(pen, 'shaft', 'outline', [line(...side)]));
	}
	const body = stroke(pen, 'shaft', 'outline', [line(...upper, ...lower)], {
		closed: true,
		fill: 'paper',
	});
	const welds = [0.11, length - 0.11].map((behind) =>
		stroke(pen, 'shaft', 'edge', [line(at(behind, radius), at(behind, -radius))]),
	);
	return [body, ...welds, ...[front, rear].flatMap((centre) => jointCircle(pen, centre))];
}

/** The bearing ahead of the centre joint, and the bracket it hangs in. Usual sizes, common practice, no source. */
function centreBearing(pen: Pen, joint: Point): Stroke[] {
	if (pen.role !== 'shown') return [];
	const { transmission } = pen.state;
	const slope = Math.atan2(transmission.joint.z - joint.z, transmission.joint.x - joint.x);
	const at = (ahead: number, up: number): Point => offset(joint, slope, ahead, up);
	const [near, far, half] = [0.075, 0.115, 0.055];
	const ring = line(at(near, half), at(far, half), at(far, -half), at(near, -half));
	const legs = line(at(near - 0.02, half + 0.02), at(far + 0.02, half + 0.02));
	return [
		stroke(pen, 'shaft', 'outline', [ring], { closed: true, fill: 'paper' }),
		stroke(pen, 'shaft', 'outline', [legs]),
	];
}

function jointCircle(pen: Pen, centre: Point): Stroke[] {
	const cross = [circle(centre, usual.joint)];
	return [
		stroke(pen, 'shaft', 'outline', cross, { fill: 'paper', least: 4 }),
		dot(centre, 'shaft', 0.006),
	];
}

/** The tail of the transmission with its slip yoke, cut off toward the front. */
function transmission(pen: Pen): Stroke[] {
	const { joint, slope } = pen.state.transmission;
	const at = (ahead: number, up: number): Point => offset(joint, slope, ahead, up);
	const axis = stroke(pen, 'transmission', 'axis', [line(joint, at(0.5, 0))]);
	if (pen.role !== 'shown') return [axis];
	const yoke = [0.02, -0.02].map((up) =>
		stroke(pen, 'transmission', 'edge', [line(at(0.02, up), at(0.11, up))]),
	);
	const tail = line(
		at(0.46, 0.085),
		at(0.24, 0.07),
		at(0.115, 0.045),
		at(0.115, -0.045),
		at(0.24, -0.062),
		at(0.46, -0.066),
	);
	return [axis, ...yoke, stroke(pen, 'transmission', 'edge', [tail])];
}

/** The rubber stop under the rail: its end lies the measured gap above the tube. */
function bumpStop(pen: Pen): Stroke[] {
	const { axle: centre, stopGap, notch } = pen.state;
	if (stopGap === undefined || pen.role !== 'shown') return [];
	const end = centre.z + usual.tube + stopGap;
	const root = pen.rail + (notch ?? 0);
	if (root - end < 0.008) return [];
	const at = (x: number, z: number): Point => ({ x: centre.x + x, z });
	const rubber = line(at(0.035, root), at(0.016, end), at(-0.016, end), at(-0.035, root));
	return [stroke(pen, 'stop', 'edge', [rubber], { closed: true, fill: 'paper' })];
}

/** Where the axle is wanted: it may be moved, so it is red. */
function wantedMark(pen: Pen): Stroke[] {
	const ends = wantedEnds(pen.state);
	return ends ? [{ part: 'wanted', kind: 'movable', pieces: [line(...ends)] }] : [];
}

/** Another way to do it: how it carries the spring and where it holds the axle. */
function option(pen: Pen): Stroke[] {
	const { frontEye, pivot, rearEye, shackleEnd, axle: centre } = pen.state;
	return [
		{ part: 'spring', kind: 'outline', pieces: leafPieces(pen.state) },
		{ part: 'shackle', kind: 'edge', pieces: [line(pivot, shackleEnd ?? rearEye)] },
		eyeCircle(pen, frontEye, 'spring'),
		eyeCircle(pen, rearEye, 'spring'),
		...(shackleEnd ? [eyeCircle(pen, shackleEnd, 'shackle')] : []),
		eyeCircle(pen, pivot, 'shackle'),
		dot(centre, 'axle', 0.01),
	];
}

/** Underside of the rail for states drawn on one another: as measured, else clear of eyes and pivots. */
export function railBottom(states: readonly TruckState[]): number {
	const measured = states.find(({ rail }) => rail)?.rail;
	if (measured) return measured.bottom;
	const highest = states.flatMap(({ frontEye, pivot, rearEye }) => [
		frontEye.z,
		pivot.z,
		rearEye.z,
	]);
	return Math.max(...highest) + usual.railAbove;
}

/**
 * The lines of one state, those under first.
 * @param rail underside of the frame rail, m
 * @param reach of floor and rail along the frame, rear and front, m
 * @param front whether the front wheel is in sight
 */
export function outlineOf(
	state: TruckState,
	role: Role,
	rail: number,
	reach: readonly [number, number],
	front: boolean,
): Stroke[] {
	const pen: Pen = { state, role, rail, reach, front };
	if (role === 'option') return option(pen);
	if (role !== 'shown') {
		return [
			...floor(pen),
			...wheels(pen),
			...lips(pen),
			...shaft(pen),
			...axle(pen),
			pinionAxis(pen),
			...spring(pen),
		];
	}
	return [
		...floor(pen),
		...wheels(pen),
		...lips(pen),
		...hanger(pen, state.frontEye),
		...hanger(pen, state.pivot),
		...bumpStop(pen),
		...transmission(pen),
		...pinionNose(pen),
		...seat(pen),
		...axle(pen),
		pinionAxis(pen),
		...shaft(pen),
		...spring(pen),
		...shackle(pen),
		...wantedMark(pen),
	];
}
