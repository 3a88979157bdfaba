/** What a chart draws: from where to where, where lines meet, and what the mark types. */
import { describe, expect, test } from 'vitest';
import { typedAt, typedByKey } from '../../src/lib/answers/chart-mark.ts';
import {
	entryAt,
	nameOf,
	plotOf,
	reachOf,
	shortNames,
	sureAlong,
} from '../../src/lib/answers/charts.ts';
import type { Figures } from '../../src/lib/answers/figures.ts';
import { plusMinusOfAll } from '../../src/lib/engine/plus-minus.ts';
import { runAll } from '../../src/lib/engine/run.ts';
import type { ChartCell } from '../../src/lib/language/kinds/chart.ts';
import { cellsOf } from '../../src/lib/language/workbook.ts';
import { shipped } from '../language/shipped.ts';
import { fence, inputCell, smallWorkbook } from '../language/small-workbook.ts';
import { jobFromScenario } from '../../src/lib/job/job.ts';
import { inputsOf, readingsOf } from '../../src/lib/job/reading.ts';
import { waysOf } from '../../src/lib/answers/ways.ts';

const inch = 0.0254;
const degree = Math.PI / 180;

/** Two joints: one falls by a degree an inch from 2°, the other by two from 5°; they meet at 3 in with −1°. */
const workbook = smallWorkbook({
	one: [
		inputCell('raise', 'length', 'default: 0 in', 'part: true', 'limits: -3 in to 9 in'),
		inputCell('read', 'length', 'default: 1 in', 'plus_minus: 1/8 in'),
		fence(
			'derive',
			'drop = raise / 2 + read - 1 in  # Drop at the lip, down positive',
			'front = 2 deg - raise * 1 deg / in  # Front joint, signed',
			'rear = 5 deg - raise * 2 deg / in + (read - 1 in) * 4 deg / in  # Rear joint, signed',
			'was = 1 deg * read / in  # Front joint before',
		),
		fence(
			'chart',
			'name: joints',
			'title: Joints',
			'sweep: [{ input: raise, from: -2 in, to: 8 in }, { input: read, from: 0 in, to: 3 in }]',
			'bottom: drop',
			'draw: [front, rear]',
			'before: [was, was]',
			'nought: "0: straight, needles stand"',
			'equal: parallel',
			'opposite: meeting',
			'bands: [{ from: 0.5 deg, to: 3 deg, label: smooth }]',
		),
	].join('\n'),
});
const [cell] = cellsOf(workbook).filter((each): each is ChartCell => each.kind === 'chart');
if (!cell) throw new Error('no chart');
const { graph } = workbook;

function figuresAt(raise: number, read = 1): Figures {
	const inputs = new Map([
		['raise', raise * inch],
		['read', read * inch],
	]);
	const { quantities } = workbook;
	return { graph, quantities, system: 'inch-pound', run: runAll(graph, inputs) };
}
const plotAt = (raise: number, read = 1) => {
	const plot = plotOf(cell, cell.sweeps[0], figuresAt(raise, read));
	if (!plot) throw new Error('no plot');
	return plot;
};

test('the cells are read without a problem', () => expect(workbook.problems).toEqual([]));

describe('the reach of a sweep', () => {
	const reachIn = (raise: number): number[] => {
		const reach = reachOf(cell, cell.sweeps[0], figuresAt(raise));
		return [reach?.from, reach?.to].map((value) => Math.round((value ?? NaN) / inch / 1e-6) * 1e-6);
	};
	test('goes half as far again as is planned, by round amounts', () => {
		expect(reachIn(4)).toEqual([-0.75, 6]);
		expect(reachIn(3.9)).toEqual([-0.75, 6]);
	});
	test('shows a quarter of the page’s range where nothing is planned', () => {
		expect(reachIn(0)).toEqual([-2, 3]);
	});
	test('keeps within the page’s range, and still holds a plan beyond it', () => {
		expect(reachIn(7)).toEqual([-2, 8]);
		expect(reachIn(8.5)).toEqual([-2, 8.5]);
		expect(reachIn(-2)).toEqual([-2, 0.375]);
	});
	test('is the page’s own where a reading is swept', () => {
		const reach = reachOf(cell, cell.sweeps[1], figuresAt(4));
		expect(reach?.from).toBeCloseTo(0, 12);
		expect(reach?.to).toBeCloseTo(3 * inch, 12);
	});
	test('always holds what is planned', () => {
		for (let raise = -3; raise <= 9; raise += 1 / 8) {
			const [from = NaN, to = NaN] = reachIn(raise);
			expect(from).toBeLessThanOrEqual(raise);
			expect(to).toBeGreaterThanOrEqual(raise);
			expect(to - from).toBeGreaterThan(2);
		}
	});
});

test('where lines meet below nought, the place says so and the size does not', () => {
	// 2 − r = 1 − 2r at r = −1, which is a drop of −1.5 in.
	const [equal] = plotAt(0, 0).meetings;
	expect(equal?.words[0]).toBe('parallel at −1.5 in, both 3.0°');
});

test('lines that are equal, or equal and opposite, meet where they should', () => {
	const { meetings } = plotAt(4);
	const [equal, opposite] = meetings;
	expect(meetings).toHaveLength(2);
	// 2 − r = 5 − 2r at r = 3, which is a drop of 1.5 in; 2 − r = −(5 − 2r) at r = 7/3.
	expect(equal?.at[0]?.x).toBeCloseTo(1.5, 9);
	expect(equal?.at[0]?.y).toBeCloseTo(-1, 9);
	expect(equal?.words).toEqual(['parallel at 1.5 in, both 1.0°', 'parallel at 1.5 in', 'parallel']);
	expect(opposite?.at.map(({ y }) => y)).toEqual([
		expect.closeTo(-1 / 3, 9),
		expect.closeTo(1 / 3, 9),
	]);
	expect(opposite?.words[0]).toBe('meeting at 1.2 in, each 0.3°');
});

test('a meeting beyond what is drawn is none', () => {
	expect(plotAt(0).meetings.map(({ words }) => words[2])).toEqual(['parallel', 'meeting']);
	// Taken higher by 40° the rear line is nowhere as low as the front one.
	expect(plotAt(0, 11).meetings).toEqual([]);
});

test('names, what is written at the mark, and what was before', () => {
	const { lines, now } = plotAt(4);
	expect(now).toBeCloseTo(2, 12);
	expect(lines.map(({ name }) => name)).toEqual(['front joint', 'rear joint']);
	// The side of nought is told by the place, so the size is written.
	expect(lines.map((line) => line.now?.words)).toEqual(['front 2.00°', 'rear 3.00°']);
	expect(lines.map((line) => line.now?.y)).toEqual([expect.closeTo(-2, 9), expect.closeTo(-3, 9)]);
	expect(lines[0]?.before).toEqual({ x: 0, y: expect.closeTo(1, 9) as number });
	expect(nameOf('U-joint angle, signed')).toBe('U-joint angle');
	expect(shortNames(['rear drop'])).toEqual(['rear drop']);
	expect(shortNames(['rear drop', 'rear rise'])).toEqual(['rear drop', 'rear rise']);
});

test('the ± along the sweep is that of the figures', () => {
	const figures = figuresAt(4);
	const plusMinusOf = ({ id }: { id: string }): number => (id === 'read' ? inch / 8 : 0);
	const reach = reachOf(cell, cell.sweeps[0], figures);
	if (!reach) throw new Error('no reach');
	const way = sureAlong(cell, cell.sweeps[0], figures, reach, plusMinusOf);
	let step = way.next();
	while (!step.done) step = way.next();
	const sure = step.value;
	const all = plusMinusOfAll(graph, figures.run, plusMinusOf);
	const rear = graph.byId.get('rear')?.slot ?? NaN;
	expect(sure[0]?.every((size) => size === 0)).toBe(true);
	for (const size of sure[1] ?? []) expect(size).toBeCloseTo(all[rear]?.size ?? NaN, 12);
	const plot = plotOf(cell, cell.sweeps[0], figures, reach, sure);
	expect(plot?.lines[1]?.sure?.[40]).toBeCloseTo(0.5, 9);
});

describe('the mark', () => {
	test('types the step nearest to where it is drawn to', () => {
		const plot = plotAt(4);
		const figures = figuresAt(4);
		expect(entryAt(plot, 1.3, 4 * inch)).toBeCloseTo(2.6 * inch, 9);
		expect(typedAt(plot, 1.3, figures)).toBe('2 5/8');
		expect(typedAt(plot, -9, figures)).toBe('-3/4');
		expect(typedAt(plot, 99, figures)).toBe('6');
	});
	test('goes by a step at a key, and no further than may be entered', () => {
		const plot = plotAt(4);
		const figures = figuresAt(4);
		expect(typedByKey(plot, 'ArrowRight', false, figures)).toBe('4 1/16');
		expect(typedByKey(plot, 'ArrowDown', true, figures)).toBe('3 3/4');
		expect(typedByKey(plot, 'End', false, figures)).toBe('9');
		expect(typedByKey(plot, 'a', false, figures)).toBeUndefined();
		expect(typedByKey(plotAt(9), 'ArrowUp', false, figuresAt(9))).toBeUndefined();
	});
	test('finds the way back where the bottom turns round', () => {
		const plot = plotAt(4);
		const folded = { ...plot, along: plot.swept.at.map((at) => Math.abs(at - 2 * inch)) };
		expect(entryAt(folded, 1, 4 * inch)).toBeCloseTo(3 * inch, 6);
		expect(entryAt(folded, 1, 0)).toBeCloseTo(1 * inch, 6);
	});
	test('left goes left where more stands farther to the left', () => {
		const plot = plotAt(4);
		const turned = { ...plot, along: [...plot.along].reverse() };
		expect(typedByKey(turned, 'ArrowLeft', false, figuresAt(4))).toBe('4 1/16');
		expect(typedByKey(turned, 'ArrowUp', false, figuresAt(4))).toBe('4 1/16');
	});
});

test('an angle is drawn in degrees', () => {
	const [line] = plotAt(4).lines;
	expect(line?.values[0]).toBeCloseTo((line?.points[0]?.y ?? NaN) * degree, 12);
});

test('no two lines of a chart have the same name beside them', () => {
	const charts = cellsOf(shipped).filter((cell) => cell.kind === 'chart');
	expect(charts.length).toBeGreaterThan(5);
	for (const { name, draw } of charts) {
		const names = draw.map((each) => nameOf(shipped.graph.byId.get(each)?.label ?? ''));
		expect(new Set(names).size, `${name}: ${names.join('; ')}`).toBe(names.length);
	}
});

test('every way on the wedge’s chart is in sight, named, and on its own figures', () => {
	const { graph, quantities, scenarios } = shipped;
	const cell = cellsOf(shipped).find(({ name }) => name === 'joints_against_wedge');
	const fitting = cellsOf(shipped).find(({ name }) => name === 'wedge_ways');
	const [scenario] = scenarios;
	if (cell?.kind !== 'chart' || fitting?.kind !== 'ways' || !scenario) throw new Error('No wedge.');
	expect(cell.ways).toBe(fitting.name);
	const job = jobFromScenario(shipped, scenario, new Date(0));
	const run = runAll(graph, inputsOf(readingsOf(graph, job)));
	const figures: Figures = { graph, run, quantities, system: job.system };
	const ways = waysOf(fitting, figures);
	const reach = reachOf(
		cell,
		cell.sweeps[0],
		figures,
		ways.map((way) => way.figures),
	);
	const plot = plotOf(cell, cell.sweeps[0], figures, reach, undefined, ways);
	expect(plot?.ways.map(({ words }) => words)).toEqual([
		'none',
		'thick end forward',
		'thick end to the rear',
	]);
	expect(plot?.ways.map(({ x }) => x.toFixed(2))).toEqual(['0.00', '-3.50', '3.50']);
	for (const { x } of plot?.ways ?? []) {
		expect(x * degree).toBeGreaterThan(reach?.from ?? NaN);
		expect(x * degree).toBeLessThan(reach?.to ?? NaN);
	}
	const node = graph.byId.get('rear_joint_signed');
	const rear = plot?.lines.find((line) => line.node === node);
	expect(rear?.ways?.map(({ y }) => y * degree)).toEqual(
		ways.map((way) => expect.closeTo(way.figures.run.number(node?.slot ?? -1) ?? NaN, 9) as number),
	);
});
