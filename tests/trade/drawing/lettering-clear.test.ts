/**
 * No lettering lies over other lettering or a heavy line, and none is cut off: looked at here point by point,
 * apart from the way the layout does it.
 */
import { expect, test } from 'vitest';
import { lineLooks } from '../../../src/lib/drafting/lines.ts';
import { layoutOf, type Layout } from '../../../src/lib/trade/drawing/layout.ts';
import { outlineOf, railBottom, type Piece } from '../../../src/lib/trade/drawing/outline.ts';
import type { PlacedRun } from '../../../src/lib/drafting/lettering.ts';
import type { Place } from '../../../src/lib/drafting/shapes.ts';
import { crops, toPaper, type UnitSystem } from '../../../src/lib/trade/drawing/view.ts';
import type { CalloutWords } from '../../../src/lib/trade/drawing/callouts.ts';
import { panes, requestOf, scenarios } from './request.ts';
import {
	finishedJob,
	impossible,
	inch,
	layoutA,
	layoutB,
	randomTrucks,
	springUnder,
	truck,
} from './trucks.ts';

/** Points all over the ink of a run: from base line to the height of figures. */
function pointsOf({ x, y, width, size, turn }: PlacedRun): Place[] {
	const radians = (turn * Math.PI) / 180;
	const [cos, sin] = [Math.cos(radians), Math.sin(radians)];
	const points: Place[] = [];
	const across = Math.max(2, Math.ceil(width / 3));
	for (let column = 0; column <= across; column++) {
		for (const up of [0.02, 0.25, 0.5, 0.72]) {
			const [right, over] = [(width * column) / across, size * up];
			points.push({ x: x + right * cos + over * sin, y: y + right * sin - over * cos });
		}
	}
	return points;
}

/** Whether a point lies in a run's ink. */
function inRun(point: Place, { x, y, width, size, turn }: PlacedRun): boolean {
	const radians = (turn * Math.PI) / 180;
	const [right, down] = [point.x - x, point.y - y];
	const along = right * Math.cos(radians) + down * Math.sin(radians);
	const under = down * Math.cos(radians) - right * Math.sin(radians);
	return along > 0 && along < width && under > -0.75 * size && under < 0.2 * size;
}

function awayFrom(point: Place, from: Place, to: Place): number {
	const [x, y] = [to.x - from.x, to.y - from.y];
	const share = ((point.x - from.x) * x + (point.y - from.y) * y) / (x * x + y * y || 1);
	const on = Math.max(0, Math.min(1, share));
	return Math.hypot(point.x - from.x - on * x, point.y - from.y - on * y);
}

/** Heavy lines of the state on top, taken from its outline and not from the layout. */
function heavyLines(
	{ shown, view, clip, request }: Layout,
	states: Parameters<typeof railBottom>[0],
) {
	const lines: { from: Place; to: Place; half: number }[] = [];
	const strokes = outlineOf(shown, 'shown', railBottom(states), [-3, 1], request.crop === 'whole');
	for (const { kind, pieces, part, closed } of strokes) {
		const { width } = lineLooks[kind];
		const hidden =
			request.crop === 'axle' && !['spring', 'seat', 'axle', 'pinion', 'shaft'].includes(part);
		if (width < 1.6 || part === 'floor' || part === 'lips' || hidden) continue;
		for (const piece of pieces) {
			const places = samples(piece).map((point) => toPaper(view, shown, point));
			if (closed && places[0]) places.push(places[0]);
			places.slice(1).forEach((to, index) => {
				const from = places[index] as Place;
				if (Math.max(from.y, to.y) > clip.bottom || Math.min(from.y, to.y) < clip.top) return;
				lines.push({ from, to, half: width / 2 });
			});
		}
	}
	return lines;
}

function samples(piece: Piece): { x: number; z: number }[] {
	if ('line' in piece) return [...piece.line];
	const { centre, radius, from, to } = piece.arc;
	return Array.from({ length: 61 }, (_, index) => {
		const angle = from + ((to - from) * index) / 60;
		return { x: centre.x + radius * Math.cos(angle), z: centre.z + radius * Math.sin(angle) };
	});
}

/** How far from its left end a run can reach. */
const reach = ({ width, size }: PlacedRun): number => Math.hypot(width, size);

/** Everything wrong with a layout's lettering, in words. */
function faults(layout: Layout, states: Parameters<typeof railBottom>[0]): string[] {
	const found = new Set<string>();
	const blocks = layout.lettering.map(({ runs }) => runs);
	const heavy = heavyLines(layout, states);
	// Dimensions stay on the elevation's part of the paper: what is cut off says nothing.
	for (const { path, part, kind } of layout.strokes) {
		if (part !== 'lettering' || kind !== 'edge') continue;
		const [, , , y = 0] = (path.match(/-?[\d.]+/g) ?? []).map(Number);
		if (y > layout.clip.bottom) found.add('a dimension line runs into the details');
	}
	blocks.forEach((runs, index) => {
		for (const run of runs) {
			if (run.size < 11) found.add(`${run.text} is ${String(run.size)} px`);
			const others = blocks
				.filter((_, other) => other !== index)
				.flat()
				.filter(
					(other) => Math.hypot(other.x - run.x, other.y - run.y) < reach(run) + reach(other),
				);
			const lines = heavy.filter(({ from, to }) => awayFrom(run, from, to) < reach(run) + 2);
			for (const point of pointsOf(run)) {
				const { x, y } = point;
				if (x < 0 || y < 0 || x > layout.width || y > layout.height)
					found.add(`${run.text} is cut off`);
				const over = others.find((other) => inRun(point, other));
				if (over) found.add(`${run.text} over ${over.text}`);
				if (lines.some(({ from, to, half }) => awayFrom(point, from, to) < half)) {
					found.add(`${run.text} over a heavy line`);
				}
				const ring = layout.handles.find(({ place }) => Math.hypot(place.x - x, place.y - y) < 12);
				if (ring) found.add(`${run.text} over the ring of ${ring.name}`);
			}
		}
	});
	return [...found];
}

const everyUnits: readonly UnitSystem[] = ['inch-pound', 'metric'];
const known = { layoutA, layoutB, finishedJob, springUnder };

test.each(Object.keys(known))('%s: every pane, state, unit system and crop', (name) => {
	const done = truck(known[name as keyof typeof known]);
	const wrong: string[] = [];
	let placed = 0;
	let turn = Object.keys(known).indexOf(name);
	for (const pane of panes) {
		for (const scenario of scenarios) {
			// Unit systems and crops take turns: on some truck every pane and state meets every one of them.
			const units = everyUnits[turn % 2] as UnitSystem;
			const crop = crops[turn++ % crops.length] as (typeof crops)[number];
			const still = crop === 'whole' ? 'floor' : 'frame';
			const request = requestOf(done, pane, scenario, units, { crop, still });
			const layout = layoutOf(request);
			placed += layout.lettering.length;
			const states = [request.before, request.plan, request.found].filter(
				(state) => state !== undefined,
			);
			const what = `${pane.join('×')} ${scenario} ${units} ${crop}`;
			wrong.push(...faults(layout, states).map((fault) => `${what}: ${fault}`));
		}
	}
	expect(wrong).toEqual([]);
	expect(placed).toBeGreaterThan(200);
});

test('forty trucks that nobody has drawn before', () => {
	const wrong: string[] = [];
	randomTrucks(40, 20).forEach((done, index) => {
		// Panes take turns, so that each is met by a dozen trucks.
		for (const pane of panes.filter((_, at) => (at + index) % 3 === 0)) {
			const units = everyUnits[index % 2] as UnitSystem;
			const scenario = scenarios[index % 4] as (typeof scenarios)[number];
			const request = requestOf(done, pane, scenario, units);
			const states = [request.before, request.plan, request.found].filter(
				(state) => state !== undefined,
			);
			const layout = layoutOf(request);
			wrong.push(
				...faults(layout, states).map((fault) => `${String(index)} ${pane.join('×')}: ${fault}`),
			);
		}
	});
	expect(wrong).toEqual([]);
});

const readings: readonly (CalloutWords & {
	at: 'pinion' | 'transmission' | 'shaft' | 'shackle';
})[] = [
	{
		name: 'pinion_slope',
		state: 'in hand',
		label: '3 Pinion slope',
		value: '5.0° ± 0.5',
		number: 3,
		at: 'pinion',
	},
	{
		name: 'trans_slope',
		state: 'measured',
		label: '1 Transmission slope',
		value: '5.0° ± 0.25',
		number: 1,
		at: 'transmission',
	},
	{
		name: 'shaft_slope',
		state: 'assumed',
		label: '2 Driveshaft slope',
		value: '5.7° ± 0.25',
		number: 2,
		at: 'shaft',
	},
	{
		name: 'shackle_lean',
		state: 'untouched',
		label: 'shackle lean',
		value: 'not read yet',
		number: 7,
		at: 'shackle',
	},
];

test('callouts keep clear of one another, boxes and circles alike', () => {
	const done = truck(finishedJob);
	for (const pane of [
		[360, 240],
		[836, 560],
	] as const) {
		const request = requestOf(done, pane, 'before', 'metric', {
			callouts: readings,
			details: [],
			handles: [],
			dimensions: [{ of: 'shaft' }, { of: 'leafFront' }],
		});
		const layout = layoutOf(request);
		expect(faults(layout, [done.before])).toEqual([]);
		expect(layout.callouts.map(({ name }) => name)).toEqual(readings.map(({ name }) => name));
		expect(layout.callouts.every(({ round }) => round === pane[0] < 560)).toBe(true);
		for (const a of layout.callouts) {
			for (const b of layout.callouts) {
				const apart =
					a.x + a.width <= b.x ||
					b.x + b.width <= a.x ||
					a.y + a.height <= b.y ||
					b.y + b.height <= a.y;
				expect(a === b || apart).toBe(true);
			}
		}
	}
});

test('the most important is placed where there is room for it, and what is left out is named', () => {
	const done = truck(finishedJob);
	const roomy = layoutOf(requestOf(done, [880, 395], 'before and plan', 'inch-pound'));
	expect(roomy.leftOut.map(({ kind, name }) => `${kind} ${name}`)).toEqual(['dimension stopGap']);
	const tight = layoutOf(requestOf(done, [320, 196], 'before and plan', 'metric'));
	expect(tight.leftOut.map(({ kind }) => kind)).toContain('detail');
	const named = tight.leftOut.map(({ kind, name }) => `${kind} ${name}`);
	expect(new Set(named).size).toBe(named.length);
});

test('a truck that cannot be put together is drawn open, with its gap dimensioned once', () => {
	const { before, open, gap } = impossible();
	const text = `${(gap / inch).toFixed(1)} in apart`;
	const layout = layoutOf({
		width: 880,
		height: 395,
		before,
		plan: open,
		crop: 'drive',
		still: 'frame',
		units: 'inch-pound',
		dimensions: [{ of: 'gap', text: { main: text } }],
	});
	expect(layout.leftOut).toEqual([]);
	expect(
		layout.lettering.flatMap(({ runs }) => runs).filter((run) => run.text === text),
	).toHaveLength(1);
	expect(faults(layout, [before, open])).toEqual([]);
	const [leaf, shackle] = [open.rearEye, open.shackleEnd as { x: number; z: number }].map((point) =>
		toPaper(layout.view, open, point),
	) as [Place, Place];
	expect(Math.hypot(leaf.x - shackle.x, leaf.y - shackle.y)).toBeCloseTo(
		gap * layout.view.scale,
		6,
	);
});

test('options laid over one another are told apart by letters on leaders', () => {
	const raises = [4, 4, 0, 0];
	const options = raises.map((eyeRaise, index) => ({
		letter: String(index + 1),
		state: truck({ ...finishedJob, eyeRaise, shackleLonger: index % 2 === 0 ? -1.5 : -1, wedge: 0 })
			.after,
	}));
	const { before } = truck(finishedJob);
	const layout = layoutOf({
		width: 600,
		height: 270,
		before,
		options,
		crop: 'spring',
		still: 'frame',
		units: 'inch-pound',
	});
	expect(layout.leftOut).toEqual([]);
	const letters = layout.lettering.flatMap(({ runs }) => runs).map(({ text }) => text);
	expect(letters).toEqual(expect.arrayContaining(['1', '2', '3', '4']));
	expect(faults(layout, [before, ...options.map(({ state }) => state)])).toEqual([]);
});

test('words stay where they are while a part moves a little', () => {
	const first = truck(finishedJob);
	const moved = truck({ ...finishedJob, eyeRaise: 4.125 });
	const before = layoutOf(requestOf(first, [880, 395], 'before and plan', 'inch-pound'));
	const after = layoutOf(requestOf(moved, [880, 395], 'before and plan', 'inch-pound'), before);
	expect(after.view).toEqual(before.view);
	expect(after.choices).toEqual(before.choices);
});
