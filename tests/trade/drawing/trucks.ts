/**
 * Trucks to draw, worked out here by the law of two arcs and virtual work, apart from the program: reference
 * layouts A and B, the invented truck of the finished job, and any number of seeded ones. Inches, pounds and
 * degrees in; SI out.
 */
import { drawnOpen, type Point, type TruckState } from '../../../src/lib/trade/drawing/truck.ts';

export const inch = 0.0254;
export const degree = Math.PI / 180;
const pound = 4.4482216152605;

/** A truck and what is done to it, as typed. */
export interface Typed {
	leafFront: number;
	leafRear: number;
	/** lbf/in, of the free beam. */
	rate: number;
	arch: number;
	eyeToPivot: number;
	pivotUp: number;
	shackle: number;
	stands: boolean;
	/** lbf */
	load: number;
	/** Axle's centre from the seat, away from the spring. */
	depth: number;
	side: 'over' | 'under';
	reach: number;
	rise: number;
	wheelbase: number;
	transSlope: number;
	pinionSlope: number;
	shaftSlope: number;
	shaftLength: number;
	tyre: number;
	frontLip: number;
	rearLip: number;
	eyeRaise?: number;
	pivotRaise?: number;
	shackleLonger?: number;
	loadChange?: number;
	frontDrop?: number;
	block?: number;
	wedge?: number;
}

type Pair = [number, number];
const cross = (a: Pair, b: Pair): number => a[0] * b[1] - a[1] * b[0];
const dot = (a: Pair, b: Pair): number => a[0] * b[0] + a[1] * b[1];
const turned = ([x, z]: Pair, t: number): Pair => [
	x * Math.cos(t) - z * Math.sin(t),
	x * Math.sin(t) + z * Math.cos(t),
];
const plus = (a: Pair, b: Pair): Pair => [a[0] + b[0], a[1] + b[1]];
const minus = (a: Pair, b: Pair): Pair => [a[0] - b[0], a[1] - b[1]];

/** Where an eye lies from the seat, and how that changes with the curvature. */
function eye(l: number, k: number): { at: Pair; change: Pair } {
	const t = k * l;
	if (Math.abs(t) < 1e-3) {
		const at: Pair = [l * (1 - (t * t) / 6), l * (t / 2 - t ** 3 / 24)];
		return { at, change: [l * l * (-t / 3 + t ** 3 / 30), l * l * (0.5 - (t * t) / 8)] };
	}
	return {
		at: [Math.sin(t) / k, (1 - Math.cos(t)) / k],
		change: [
			(l * l * (t * Math.cos(t) - Math.sin(t))) / t ** 2,
			(l * l * (t * Math.sin(t) - 1 + Math.cos(t))) / t ** 2,
		],
	};
}

interface Mount {
	f: Pair;
	p: Pair;
	s: number;
	wedge: number;
	block: number;
	rake: number;
}

/** Everything at one mean curvature and difference of the halves. */
function placed(typed: Typed, mount: Mount, k: number, d: number) {
	const [a, b] = [typed.leafFront * inch, typed.leafRear * inch];
	const kf = k + (d * b) / (a + b);
	const kr = k - (d * a) / (a + b);
	const [ef, er] = [eye(a, kf), eye(-b, kr)];
	const chord = Math.hypot(...minus(ef.at, er.at));
	const toPivot = minus(mount.p, mount.f);
	const across = Math.hypot(...toPivot);
	const cos = (chord ** 2 + across ** 2 - mount.s ** 2) / (2 * chord * across);
	if (Math.abs(cos) > 1) return { chord };
	// Looking from front eye to pivot, up lies to the right of the way: clockwise.
	const along = Math.atan2(toPivot[1], toPivot[0]) + Math.acos(cos) * (typed.stands ? -1 : 1);
	const rear = plus(mount.f, [chord * Math.cos(along), chord * Math.sin(along)]);
	const back = minus(mount.f, rear);
	const own = minus(ef.at, er.at);
	const turn = Math.atan2(back[1], back[0]) - Math.atan2(own[1], own[0]);
	const seat = minus(mount.f, turned(ef.at, turn));
	const sigma = typed.side === 'over' ? -1 : 1;
	const thick = mount.wedge === 0 ? 0 : inch / 16 + 2.5 * inch * Math.tan(Math.abs(mount.wedge));
	const axle = plus(
		plus(seat, turned([0, sigma * thick], turn)),
		turned([0, sigma * (typed.depth * inch + mount.block)], turn + mount.wedge),
	);
	const n: Pair = [Math.sin(mount.rake), Math.cos(mount.rake)];
	const u = minus(mount.p, rear).map((x) => x / mount.s) as Pair;
	const pull = -cross(minus(axle, mount.f), n) / cross(minus(rear, mount.f), u);
	const r: Pair = [u[0] * pull, u[1] * pull];
	const f: Pair = [-r[0] - n[0], -r[1] - n[1]];
	const gf = dot(f, turned(ef.change, turn));
	const gr = dot(r, turned(er.change, turn));
	const arch = -cross(own, minus([0, 0], er.at)) / chord;
	return { chord, pose: { kf, kr, rear, turn, seat, axle, gf, gr, arch, a, b } };
}

function stiffness({ leafFront, leafRear, rate }: Typed): number {
	const [a, b] = [leafFront * inch, leafRear * inch];
	return ((rate * pound) / inch) * ((a * a * b * b) / (2 * (a + b)));
}

/** The pose at a mean curvature, the halves in balance under a load, or under the one that this bend carries. */
function balanced(typed: Typed, mount: Mount, k: number, load?: number, free = 0) {
	const ei = stiffness(typed);
	let d = 0;
	for (let pass = 0; pass < 60; pass++) {
		const { pose } = placed(typed, mount, k, d);
		if (!pose) return undefined;
		const { gf, gr, a, b } = pose;
		const w = load ?? (ei * ((a + b) / 2) * (free - k)) / -(gf + gr);
		const next = ((2 * w) / ei) * (gf / a - gr / b);
		if (Math.abs(next - d) < 1e-13) return { pose, w };
		d = next;
	}
	return undefined;
}

function root(f: (x: number) => number, low: number, high: number): number {
	let [a, b] = [low, high];
	const fa = f(a);
	for (let pass = 0; pass < 80; pass++) {
		const middle = (a + b) / 2;
		if (f(middle) > 0 === fa > 0) a = middle;
		else b = middle;
	}
	return (a + b) / 2;
}

const point = ([x, z]: Pair): Point => ({ x, z });

type Pose = NonNullable<ReturnType<typeof placed>['pose']>;

function stateOf(typed: Typed, mount: Mount, pose: Pose, more: Partial<TruckState>): TruckState {
	const slope = typed.pinionSlope * degree + pose.turn + mount.wedge + 0;
	return {
		frontEye: point(mount.f),
		pivot: point(mount.p),
		rearEye: point(pose.rear),
		seat: point(pose.seat),
		spring: {
			front: { length: pose.a, curvature: pose.kf },
			rear: { length: pose.b, curvature: pose.kr },
			turn: pose.turn,
			side: typed.side,
		},
		axle: point(pose.axle),
		pinion: { joint: point(pose.axle), slope },
		transmission: { joint: { x: 0, z: 0 }, slope: typed.transSlope * degree },
		tyres: { front: typed.tyre * inch, rear: typed.tyre * inch },
		wheelbase: typed.wheelbase * inch,
		rake: mount.rake,
		...(mount.block > 0 ? { block: mount.block } : {}),
		...(mount.wedge === 0
			? {}
			: { wedge: { angle: mount.wedge, length: 5 * inch, thinEnd: inch / 16 } }),
		...more,
	};
}

/** Both states with the figures that a drawing letters. */
export interface Worked {
	before: TruckState;
	after: TruckState;
	/** Rise of the axle, m; joints signed, radians; shaft lengths, m. */
	drop: number;
	shaft: [number, number];
	front: [number, number];
	rear: [number, number];
}

/** Slopes and lengths of the shaft between the joints of a state. */
function shaftOf({ transmission, pinion }: TruckState): { length: number; slope: number } {
	const x = transmission.joint.x - pinion.joint.x;
	const z = transmission.joint.z - pinion.joint.z;
	return { length: Math.hypot(x, z), slope: Math.atan2(z, x) };
}

/** Works a truck out; undefined where its parts do not go together. */
export function worked(typed: Typed): Worked | undefined {
	const stock: Mount = {
		f: [0, 0],
		p: [-typed.eyeToPivot * inch, typed.pivotUp * inch],
		s: typed.shackle * inch,
		wedge: 0,
		block: 0,
		rake: 0,
	};
	const load = typed.load * pound;
	const archAt = (k: number): number =>
		(balanced(typed, stock, k, load)?.pose.arch ?? NaN) - typed.arch * inch;
	const guess = (8 * typed.arch) / inch / (typed.leafFront + typed.leafRear) ** 2;
	const k = root(archAt, guess - 0.25, guess + 0.25);
	const first = balanced(typed, stock, k, load);
	if (!first || !Number.isFinite(archAt(k)) || Math.abs(archAt(k)) > 1e-6) return undefined;
	const total = first.pose.a + first.pose.b;
	const free = k - (load * (first.pose.gf + first.pose.gr) * 2) / (stiffness(typed) * total);
	const turnBefore = first.pose.turn;
	const rear = plus(first.pose.axle, [-typed.wheelbase * inch * 0, 0]);
	const slope = typed.pinionSlope * degree;
	const jointAt = (axle: Pair, pinion: number): Pair =>
		plus(axle, turned([typed.reach * inch, typed.rise * inch], pinion));
	const j = jointAt(first.pose.axle, slope);
	const t = plus(j, turned([typed.shaftLength * inch, 0], typed.shaftSlope * degree));
	const lips = (state: Pose, mount: Mount, raised: boolean): Partial<TruckState> => ({
		pinion: {
			joint: point(jointAt(state.axle, slope + state.turn - turnBefore + mount.wedge)),
			slope: slope + state.turn - turnBefore + mount.wedge,
		},
		transmission: { joint: point(t), slope: typed.transSlope * degree },
		lips: {
			front: {
				x: rear[0] + typed.wheelbase * inch,
				height: (typed.frontLip - (raised ? (typed.frontDrop ?? 0) : 0)) * inch,
			},
			rear: {
				x: rear[0],
				height: typed.rearLip * inch - (raised ? state.axle[1] - rear[1] : 0),
			},
		},
	});
	const before = stateOf(typed, stock, first.pose, lips(first.pose, stock, false));
	let mount: Mount = {
		f: [0, (typed.eyeRaise ?? 0) * inch],
		p: plus(stock.p, [0, (typed.pivotRaise ?? 0) * inch]),
		s: stock.s + (typed.shackleLonger ?? 0) * inch,
		wedge: (typed.wedge ?? 0) * degree,
		block: (typed.block ?? 0) * inch,
		rake: 0,
	};
	const wanted = (typed.load + (typed.loadChange ?? 0)) * pound;
	for (let pass = 0; pass < 6; pass++) {
		const excess = (x: number): number =>
			(balanced(typed, mount, x, undefined, free)?.w ?? NaN) - wanted;
		const x = root(excess, k - 0.3, free - 1e-6);
		const after = balanced(typed, mount, x, undefined, free);
		if (!after || !(Math.abs(excess(x)) < 1)) return undefined;
		const drop = after.pose.axle[1] - first.pose.axle[1];
		if (pass < 5) {
			const rake = Math.atan2(drop - (typed.frontDrop ?? 0) * inch, typed.wheelbase * inch);
			mount = { ...mount, rake };
			continue;
		}
		const state = stateOf(typed, mount, after.pose, lips(after.pose, mount, true));
		const [old, now] = [shaftOf(before), shaftOf(state)];
		return {
			before,
			after: state,
			drop,
			shaft: [old.length, now.length],
			front: [old.slope - before.transmission.slope, now.slope - state.transmission.slope],
			rear: [old.slope - before.pinion.slope, now.slope - state.pinion.slope],
		};
	}
	return undefined;
}

const common = {
	stands: false,
	side: 'over',
	tyre: 13.125,
	frontLip: 33.5,
	rearLip: 35.75,
} as const;

/** Reference layout A: front hanger only. */
export const layoutA: Typed = {
	...common,
	leafFront: 24,
	leafRear: 30,
	rate: 160,
	arch: 3.5,
	eyeToPivot: 53.6,
	pivotUp: 4.6,
	shackle: 5,
	load: 850,
	depth: 3,
	reach: 12,
	rise: -1.5,
	wheelbase: 118,
	transSlope: 5,
	pinionSlope: 5,
	shaftSlope: 7,
	shaftLength: 58,
	eyeRaise: 4.5,
};

/** Reference layout B: pivot and standing shackle. */
export const layoutB: Typed = {
	...common,
	leafFront: 22,
	leafRear: 30,
	rate: 180,
	arch: 4,
	eyeToPivot: 50.2,
	pivotUp: -4,
	shackle: 4.5,
	stands: true,
	load: 900,
	depth: 3.25,
	reach: 11.5,
	rise: -1.25,
	wheelbase: 115,
	transSlope: 4,
	pinionSlope: 3.5,
	shaftSlope: 6,
	shaftLength: 52,
	pivotRaise: 2,
	shackleLonger: 1.5,
};

/** The invented truck of the finished job: hanger up front, shackle up behind. */
export const finishedJob: Typed = {
	...common,
	leafFront: 24,
	leafRear: 30,
	rate: 150,
	arch: 3.25,
	eyeToPivot: 53.75,
	pivotUp: 4.75,
	shackle: 5,
	load: 690,
	depth: 2.75,
	reach: 12.25,
	rise: -1.5,
	wheelbase: 117.5,
	transSlope: 5,
	pinionSlope: 4.8,
	shaftSlope: 5.7,
	shaftLength: 56.25,
	eyeRaise: 4,
	shackleLonger: -1.5,
	loadChange: -30,
	frontDrop: 2,
	wedge: -3.5,
};

/** An axle carried under its spring, put over it by a block the other way: the same truck, other side. */
export const springUnder: Typed = {
	...finishedJob,
	side: 'under',
	pivotUp: 5.5,
	wedge: 2.5,
	eyeRaise: 1,
	shackleLonger: 0,
	block: 2,
};

export function truck(typed: Typed): Worked {
	const done = worked(typed);
	if (!done) throw new Error('This truck cannot be put together.');
	return done;
}

/** Numbers that look random and are the same every time (mulberry32). */
export function seeded(seed: number): () => number {
	let state = seed;
	return () => {
		state = (state + 0x6d2b79f5) | 0;
		let t = Math.imul(state ^ (state >>> 15), 1 | state);
		t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
		return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
	};
}

/** Trucks of all shapes that go together. */
export function randomTrucks(count: number, seed: number): Worked[] {
	const random = seeded(seed);
	const from = (low: number, high: number): number => low + (high - low) * random();
	const trucks: Worked[] = [];
	while (trucks.length < count) {
		const leafFront = from(20, 28);
		const leafRear = leafFront + from(0, 9);
		const stands = random() < 0.3;
		const shackle = from(3, 6);
		const typed: Typed = {
			leafFront,
			leafRear,
			rate: from(90, 260),
			arch: from(1, 6),
			eyeToPivot: leafFront + leafRear - from(-0.4, 2),
			pivotUp: (stands ? -1 : 1) * (shackle - from(0, 1.5)),
			shackle,
			stands,
			load: from(400, 1100),
			depth: from(2, 4),
			side: random() < 0.6 ? 'over' : 'under',
			reach: from(9, 15),
			rise: from(-3, 1),
			wheelbase: from(100, 150),
			transSlope: from(1, 7),
			pinionSlope: from(-1, 8),
			shaftSlope: from(2, 9),
			shaftLength: from(36, 64),
			tyre: from(12, 16.5),
			frontLip: from(30, 38),
			rearLip: from(31, 40),
			eyeRaise: random() < 0.6 ? from(-2, 5) : 0,
			pivotRaise: random() < 0.3 ? from(-1, 3) : 0,
			shackleLonger: random() < 0.5 ? from(-1.5, 2) : 0,
			loadChange: from(-80, 80),
			frontDrop: from(0, 4),
			block: random() < 0.3 ? from(1, 4) : 0,
			wedge: random() < 0.6 ? from(-6, 6) : 0,
		};
		const done = worked(typed);
		if (done) trucks.push(done);
	}
	return trucks;
}

/** A shackle bought far too short: leaf and shackle do not meet, and the truck is drawn open. */
export function impossible(): { before: TruckState; open: TruckState; gap: number } {
	const { before } = truck(finishedJob);
	const frontEye = { x: 0, z: 9 * inch };
	const chord = Math.hypot(before.rearEye.x, before.rearEye.z);
	const open = drawnOpen(frontEye, before.pivot, chord, 1.2 * inch);
	const turn =
		before.spring.turn +
		Math.atan2(frontEye.z - open.rearEye.z, frontEye.x - open.rearEye.x) -
		Math.atan2(-before.rearEye.z, -before.rearEye.x);
	const [x, z] = turned([-before.seat.x, -before.seat.z], turn - before.spring.turn);
	const seat = { x: frontEye.x - x, z: frontEye.z - z };
	const [ax, az] = turned(
		[before.axle.x - before.seat.x, before.axle.z - before.seat.z],
		turn - before.spring.turn,
	);
	const state: TruckState = {
		...before,
		frontEye,
		rearEye: open.rearEye,
		shackleEnd: open.shackleEnd,
		seat,
		spring: { ...before.spring, turn },
		axle: { x: seat.x + ax, z: seat.z + az },
		pinion: {
			slope: before.pinion.slope + turn - before.spring.turn,
			joint: {
				x: before.pinion.joint.x + seat.x + ax - before.axle.x,
				z: before.pinion.joint.z + seat.z + az - before.axle.z,
			},
		},
	};
	return { before, open: state, gap: open.gap };
}
