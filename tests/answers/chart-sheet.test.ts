/** Lettering of a chart: inside the paper, over nothing, and there as far as there is room. */
import { describe, expect, test } from 'vitest';
import {
	chartSheet,
	placeOn,
	type ChartSheet,
	type DrawnChart,
} from '../../src/lib/answers/chart-sheet.ts';
import { inside, lineShape, overlap, widened } from '../../src/lib/drafting/shapes.ts';

const xs = Array.from({ length: 91 }, (_, step) => -0.4 + (step * 4) / 90);
/** The two joints of a lowered truck, with the mark at a drop. */
function joints(mark: number): DrawnChart {
	const front = (x: number): number => 1.9 - 1.44 * x;
	const rear = (x: number): number => 7.2 - 3.25 * x;
	const line = (name: string, at: (x: number) => number, before: number) => ({
		name: `${name} joint`,
		points: xs.map((x) => ({ x, y: at(x) })),
		sure: xs.map(() => 0.7),
		now: { x: mark, y: at(mark), words: `${name} ${Math.abs(at(mark)).toFixed(2)}°` },
		before: { x: 0, y: before },
	});
	const [equal, opposite] = [5.3 / 1.81, 9.1 / 4.69];
	return {
		lines: [line('front', front, 0.7), line('rear', rear, 0.9)],
		bands: [
			{ from: 0.5, to: 3, label: 'smooth, bent one way' },
			{ from: -3, to: -0.5, label: 'smooth, bent the other way' },
		],
		meetings: [
			{ at: [{ x: equal, y: front(equal) }], words: ['parallel at 2.9 in, both 2.3°', 'parallel'] },
			{
				at: [front(opposite), -front(opposite)].map((y) => ({ x: opposite, y })),
				words: ['meeting under the shaft at 1.9 in', 'meeting under the shaft'],
			},
		],
		nought: '0: joint straight, needles do not roll',
		bottom: 'rear drop, in',
		sideUnit: '°',
		mark,
	};
}
const flat: DrawnChart = {
	lines: [{ name: 'rate', points: xs.map((x) => ({ x, y: 300 + x })) }],
	bands: [],
	bottom: 'coils trimmed',
	sideUnit: 'lbf/in',
};
const kits: DrawnChart = {
	lines: ['front', 'rear'].map((name, row) => ({
		name,
		points: [],
		kits: [0.2, 0.5, 1.7, 2.4].map((x, index) => ({
			number: index + 1,
			x,
			y: 1 + row - 0.8 * x,
			sure: { x: 0.1, y: 0.7 },
		})),
		now: { x: 2.4, y: 1 + row - 0.8 * 2.4 },
	})),
	bands: [],
	bottom: 'rear drop, in',
	sideUnit: '°',
};

function faultsOf(drawn: DrawnChart, sheet: ChartSheet): string[] {
	const { letters, width, height, area } = sheet;
	const paper = { left: 0, right: width, top: 0, bottom: height };
	const place = placeOn(sheet);
	const heavy = drawn.lines.flatMap(({ points }) => {
		const places = points.map(place).filter(({ y }) => y >= area.top && y <= area.bottom);
		return places.slice(1).map((to, index) => lineShape(places[index] ?? to, to, 2.6));
	});
	if (sheet.mark) heavy.push(lineShape({ x: sheet.mark.x, y: area.top }, sheet.mark, 2));
	return letters.flatMap(({ text, shape, size }, index) => [
		...(size < 11 ? [`“${text}” is too small`] : []),
		...(inside(shape, paper) ? [] : [`“${text}” leaves the paper`]),
		...(heavy.some((line) => overlap(line, shape)) ? [`“${text}” lies over a line`] : []),
		...letters
			.slice(index + 1)
			.filter((other) => overlap(other.shape, shape))
			.map((other) => `“${text}” lies over “${other.text}”`),
		...sheet.leaders
			.filter(([from, to]) => overlap(lineShape(from, to, 0.5), shape))
			.map(() => `a leader crosses “${text}”`),
	]);
}

const widths = Array.from({ length: 11 }, (_, index) => 300 + 70 * index);

describe.each(widths)('%i px wide', (width) => {
	test.each([200, 260])('and %i high nothing lies over anything else', (height) => {
		for (let mark = -0.3; mark <= 3.6; mark += 0.3) {
			const drawn = joints(mark);
			expect(faultsOf(drawn, chartSheet(drawn, width, height))).toEqual([]);
		}
		for (const drawn of [flat, kits]) {
			expect(faultsOf(drawn, chartSheet(drawn, width, height))).toEqual([]);
		}
	});
});

test.each([
	// On a phone a mark far up a steep line leaves the bands little height.
	[360, 0.9],
	[640, -0.3],
	[860, -0.3],
])('%i px are enough for all words that matter', (width, first) => {
	for (let mark = first; mark <= 3.6; mark += 0.3) {
		const drawn = joints(mark);
		const words = chartSheet(drawn, width, 240).letters.map(({ text }) => text);
		for (const line of drawn.lines) {
			expect(words, `at ${mark}`).toContain(line.now?.words);
			expect(words, `at ${mark}`).toContain(line.name);
		}
		expect(words.some((text) => text.startsWith('parallel'))).toBe(true);
		expect(words.filter((text) => text.startsWith('smooth'))).toHaveLength(2);
	}
});

test('the bands say how far a chart reaches, not the steepest line', () => {
	const { low, high } = chartSheet(joints(2.4), 800, 240);
	expect(high.y).toBeLessThan(5);
	expect(low.y).toBeGreaterThan(-5);
	expect(high.y).toBeGreaterThan(3);
});

test('a figure beyond the bands is still on the paper', () => {
	const drawn = joints(0);
	const { high } = chartSheet(drawn, 800, 240);
	expect(high.y).toBeGreaterThan(7.2);
});

test('no number up the side is without its unit', () => {
	const words = chartSheet(flat, 800, 240).letters.map(({ text }) => text);
	expect(words.filter((text) => text.endsWith(' lbf/in'))).toHaveLength(1);
	const degrees = chartSheet(joints(2), 800, 240).letters.map(({ text }) => text);
	expect(degrees.filter((text) => /^−?\d°$/.test(text)).length).toBeGreaterThan(3);
});

test('words that speak of different things keep apart where there is room', () => {
	for (let mark = 0.9; mark <= 3.6; mark += 0.3) {
		const { letters, area } = chartSheet(joints(mark), 860, 240);
		const within = letters.filter(({ shape }) => inside(shape, area));
		const close = within.flatMap(({ text, shape }, index) =>
			within
				.slice(index + 1)
				.filter((other) => overlap(widened(shape, 3), widened(other.shape, 3)))
				.map((other) => `${text} / ${other.text}`),
		);
		expect(close, `at ${mark}`).toEqual([]);
	}
});

test('a leader crosses no line where words can stand otherwise, or it seems to speak of that line', () => {
	const line = (name: string, high: number) => ({
		name,
		points: Array.from({ length: 31 }, (_, x) => ({ x: 2 * x, y: high - 1.1 * x })),
		now: { x: 0, y: high, words: `${name} ${String(high)} mm` },
	});
	const drawn: DrawnChart = {
		lines: [line('axle to bump stop', 49), line('axle to frame', 96), line('bump travel left', 61)],
		...{ bands: [], bottom: 'front eye up, mm', sideUnit: 'mm', mark: 0 },
	};
	const sheet = chartSheet(drawn, 827, 190);
	const place = placeOn(sheet);
	// From its words on; where it ends it lies beside the line that it speaks of.
	const leaders = sheet.leaders.map(([from, to]) =>
		lineShape(from, { x: from.x + (to.x - from.x) * 0.7, y: from.y + (to.y - from.y) * 0.7 }, 0.5),
	);
	const crossed = drawn.lines.flatMap(({ name, points }) =>
		points.slice(1).flatMap((to, index) => {
			const piece = lineShape(place(points[index] ?? to), place(to), 2.6);
			return leaders.some((leader) => overlap(leader, piece)) ? [name] : [];
		}),
	);
	expect(leaders.length).toBeGreaterThan(0);
	expect(crossed).toEqual([]);
	const words = sheet.letters.map(({ text }) => text);
	expect(words).toEqual(expect.arrayContaining(drawn.lines.map(({ now }) => now?.words)));
});

test('two lines that nearly lie on one another both have their names', () => {
	const line = (name: string, least: number) => ({
		name,
		points: xs.map((x) => ({ x, y: 2 + 30 / (x + 3) + least * (x - 1) })),
		now: { x: 1, y: 9.5, words: `${name} 9.50°` },
	});
	const drawn: DrawnChart = {
		lines: [line('largest angle by the limit', 0), line('largest angle by the shop table', -0.05)],
		...{ bands: [], bottom: 'cruising speed, km/h', sideUnit: '°', mark: 1 },
	};
	for (const width of [340, 480, 700, 1100]) {
		const words = chartSheet(drawn, width, 220).letters.map(({ text }) => text);
		for (const { name } of drawn.lines) {
			expect(words.filter((text) => text.startsWith(name)).length, `${width} px`).toBeGreaterThan(
				0,
			);
		}
	}
});

test('a low chart has more than one number up its side', () => {
	const degrees = chartSheet(joints(2), 800, 180).letters.filter(({ text }) =>
		/^−?\d°$/.test(text),
	);
	expect(degrees.length).toBeGreaterThan(2);
});

test('with nothing to draw there is a paper still', () => {
	const { letters } = chartSheet({ lines: [], bands: [], bottom: 'x', sideUnit: '' }, 300, 200);
	expect(letters.length).toBeGreaterThan(0);
});
