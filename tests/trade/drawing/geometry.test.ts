/** The drawn lines lie where the figures put the parts, to a tenth of a pixel and better. */
import { expect, test } from 'vitest';
import { layoutOf } from '../../../src/lib/trade/drawing/layout.ts';
import { leafPieces, onArc, type Piece } from '../../../src/lib/trade/drawing/outline.ts';
import {
	aboveFloor,
	axleFace,
	drawnOpen,
	frontWheel,
	lipTop,
	rearContact,
	springFace,
	wedgeThickness,
	type Point,
} from '../../../src/lib/trade/drawing/truck.ts';
import { crops, movement, scaleBar, toPaper } from '../../../src/lib/trade/drawing/view.ts';
import { requestOf } from './request.ts';
import {
	degree,
	finishedJob,
	inch,
	layoutA,
	layoutB,
	randomTrucks,
	springUnder,
	truck,
} from './trucks.ts';

const away = (a: Point, b: Point): number => Math.hypot(a.x - b.x, a.z - b.z);
/** A tenth of a pixel at a thousand px a metre, which no drawing of a truck reaches. */
const tenthOfPixel = 1e-4;

function ends(piece: Piece): [Point, Point] {
	if ('line' in piece) return [piece.line[0] as Point, piece.line.at(-1) as Point];
	return [onArc(piece.arc, piece.arc.from), onArc(piece.arc, piece.arc.to)];
}

test('reference layouts: the fixture that is drawn agrees with them', () => {
	const a = truck(layoutA);
	expect(a.drop / inch).toBeCloseTo(2.419844, 5);
	expect(a.shaft[1] / inch).toBeCloseTo(57.002462, 5);
	expect(Math.abs(a.front[1]) / degree).toBeCloseTo(1.379785, 5);
	expect(Math.abs(a.rear[1]) / degree).toBeCloseTo(6.352757, 5);
	const b = truck(layoutB);
	expect(b.drop / inch).toBeCloseTo(1.569969, 5);
	expect(b.shaft[1] / inch).toBeCloseTo(52.445582, 5);
	expect(Math.abs(b.rear[1]) / degree).toBeCloseTo(5.701891, 5);
});

test('the leaf: two arcs from eye to eye, as long as its halves, with no kink at the seat', () => {
	const trucks = [layoutA, layoutB, finishedJob, springUnder].map(truck);
	for (const { before, after } of [...trucks, ...randomTrucks(20, 3)]) {
		for (const state of [before, after]) {
			const [front, rear] = leafPieces(state) as [Piece, Piece];
			expect(away(ends(front)[0], state.frontEye)).toBeLessThan(tenthOfPixel);
			expect(away(ends(rear)[1], state.rearEye)).toBeLessThan(tenthOfPixel);
			expect(away(ends(front)[1], state.seat)).toBeLessThan(1e-12);
			expect(away(ends(rear)[0], state.seat)).toBeLessThan(1e-12);
			if (!('arc' in front) || !('arc' in rear)) throw new Error('A bent leaf was drawn straight.');
			for (const [{ arc }, half] of [
				[front, state.spring.front],
				[rear, state.spring.rear],
			] as const) {
				expect(Math.abs(arc.to - arc.from) * arc.radius).toBeCloseTo(half.length, 9);
			}
			// Both centres lie on one line through the seat: the arcs share their tangent there.
			const [p, q, s] = [front.arc.centre, rear.arc.centre, state.seat];
			const cross = (p.x - s.x) * (q.z - s.z) - (p.z - s.z) * (q.x - s.x);
			expect(cross / (away(p, s) * away(q, s))).toBeCloseTo(0, 9);
		}
	}
});

test('a straight half is drawn straight', () => {
	const { before } = truck(finishedJob);
	const spring = { ...before.spring, front: { length: 0.6, curvature: 0 } };
	const [front] = leafPieces({ ...before, spring });
	expect(front && 'line' in front).toBe(true);
});

test('floor, tyres and lips stand plumb on the floor, whichever way the frame is turned', () => {
	for (const rake of [-0.03, 0, 0.05]) {
		const state = { ...truck(finishedJob).after, rake };
		const plumb = { x: Math.sin(rake), z: Math.cos(rake) };
		const above = (point: Point): number =>
			(point.x - rearContact(state).x) * plumb.x + (point.z - rearContact(state).z) * plumb.z;
		expect(above(state.axle)).toBeCloseTo(state.tyres.rear, 12);
		expect(above(frontWheel(state) as Point)).toBeCloseTo(state.tyres.front as number, 12);
		expect(above(aboveFloor(state, 1.7, 0))).toBeCloseTo(0, 12);
		for (const end of ['front', 'rear'] as const) {
			const top = lipTop(state, end) as Point;
			expect(above(top)).toBeCloseTo(state.lips?.[end]?.height as number, 12);
			expect(top.x).toBeCloseTo(state.lips?.[end]?.x as number, 12);
		}
	}
});

test('a wedge is as thick at the bolt as its angle, length and thin end make it', () => {
	for (const typed of [finishedJob, springUnder]) {
		const { after } = truck(typed);
		const thick = inch / 16 + 2.5 * inch * Math.tan(Math.abs(after.wedge?.angle ?? 0));
		expect(wedgeThickness(after.wedge)).toBeCloseTo(thick, 12);
		expect(away(springFace(after), axleFace(after))).toBeCloseTo(thick, 12);
		// The axle lies on the far side of the wedge.
		expect(away(axleFace(after), after.axle)).toBeLessThan(away(springFace(after), after.axle));
	}
	expect(wedgeThickness(undefined)).toBe(0);
});

test.each(crops)('%s: every place falls on the paper by one scale, front at the left', (crop) => {
	const done = truck(finishedJob);
	for (const still of ['frame', 'floor'] as const) {
		const { view, shown } = layoutOf(
			requestOf(done, [880, 395], 'before and plan', 'metric', { crop, still }),
		);
		const turn = still === 'floor' ? shown.rake : 0;
		const paper = (point: Point) => toPaper(view, shown, point);
		const [a, b] = [shown.frontEye, shown.pinion.joint];
		// The formula written out: a turn, a mirror in both axes, a scale.
		const right = -((b.x - a.x) * Math.cos(turn) - (b.z - a.z) * Math.sin(turn)) * view.scale;
		const down = -((b.x - a.x) * Math.sin(turn) + (b.z - a.z) * Math.cos(turn)) * view.scale;
		expect(paper(b).x - paper(a).x).toBeCloseTo(right, 9);
		expect(paper(b).y - paper(a).y).toBeCloseTo(down, 9);
		expect(paper(shown.frontEye).x).toBeLessThan(paper(shown.rearEye).x);
		const moved = movement(view, shown, right, down);
		expect(moved.x).toBeCloseTo(b.x - a.x, 12);
		expect(moved.z).toBeCloseTo(b.z - a.z, 12);
	}
});

test('with the floor held still all states stand on one floor, and slopes are those of the gauge', () => {
	const done = truck(finishedJob);
	const { view } = layoutOf(
		requestOf(done, [880, 395], 'before and plan', 'metric', { crop: 'whole', still: 'floor' }),
	);
	const floors = [done.before, done.after].flatMap((state) =>
		[0, 2.5].map((forward) => toPaper(view, state, aboveFloor(state, forward, 0)).y),
	);
	for (const y of floors) expect(y).toBeCloseTo(floors[0] as number, 9);
	const [front, rear] = [done.after.transmission.joint, done.after.pinion.joint].map((point) =>
		toPaper(view, done.after, point),
	) as [{ x: number; y: number }, { x: number; y: number }];
	const slope = Math.atan2(rear.y - front.y, rear.x - front.x);
	const inFrame = done.after.transmission.slope + done.front[1];
	expect(slope).toBeCloseTo(inFrame + done.after.rake, 9);
});

test('the paths of the leaf end at the eyes, to a hundredth of a pixel', () => {
	const done = truck(finishedJob);
	const { strokes, view } = layoutOf(requestOf(done, [880, 395], 'plan', 'metric'));
	const leaf = strokes.find(({ part, kind }) => part === 'spring' && kind === 'planned');
	const numbers = (leaf?.path.match(/-?[\d.]+/g) ?? []).map(Number);
	const [from, to] = [done.after.frontEye, done.after.rearEye].map((point) =>
		toPaper(view, done.after, point),
	) as [{ x: number; y: number }, { x: number; y: number }];
	expect(numbers[0]).toBeCloseTo(from.x, 1);
	expect(numbers[1]).toBeCloseTo(from.y, 1);
	expect(numbers.at(-2)).toBeCloseTo(to.x, 1);
	expect(numbers.at(-1)).toBeCloseTo(to.y, 1);
	// Two arcs that bow below the chord, each with its true radius.
	const radii = [...(leaf?.path.matchAll(/A([\d.]+) /g) ?? [])].map(([, radius]) => Number(radius));
	const { front, rear } = done.after.spring;
	expect(radii[0]).toBeCloseTo(view.scale / Math.abs(front.curvature), 1);
	expect(radii[1]).toBeCloseTo(view.scale / Math.abs(rear.curvature), 1);
});

test('parts that do not meet: both ends on the line of the eyes, as near as they come', () => {
	const pivot = { x: -1.3, z: 0.1 };
	const across = Math.hypot(1.3, 0.1);
	const short = drawnOpen({ x: 0, z: 0 }, pivot, 1.1, 0.1);
	expect(short.gap).toBeCloseTo(across - 1.2, 12);
	const long = drawnOpen({ x: 0, z: 0 }, pivot, 1.5, 0.1);
	expect(long.gap).toBeCloseTo(1.4 - across, 12);
	for (const { rearEye, shackleEnd } of [short, long]) {
		expect(away(shackleEnd, pivot)).toBeCloseTo(0.1, 12);
		expect(rearEye.z / rearEye.x).toBeCloseTo(pivot.z / pivot.x, 12);
	}
});

test('a scale bar is a round length, true to the scale, and never longer than it may be', () => {
	for (const scale of [70, 183, 272, 410]) {
		const bar = scaleBar(scale, 112, 'inch-pound');
		expect(bar.length).toBeLessThanOrEqual(112);
		expect(bar.length / (scale * inch)).toBeCloseTo(Number(bar.text.split(' ')[0]), 9);
	}
	expect(scaleBar(272, 112, 'metric').text).toBe('200 mm');
});

test('what nobody measured is drawn thin and double-dotted, and never heavy', () => {
	const done = truck(finishedJob);
	const assumed = new Set(['spring', 'shackle', 'shaft'] as const);
	const { strokes } = layoutOf({
		...requestOf(done, [880, 395], 'plan', 'metric'),
		plan: { ...done.after, assumed },
	});
	const kinds = strokes
		.filter(({ part }) => part === 'spring' || part === 'shackle' || part === 'shaft')
		.map(({ kind }) => kind);
	expect(new Set(kinds)).toEqual(new Set(['unmeasured', 'bare']));
});
