/**
 * What an edit costs a touched cell in workbooks of many sizes and shapes, beside the smallest of them,
 * beside straight-line code and beside a general signals library; and what a question costs in a large one.
 */
import { computed, signal, type ReadonlySignal } from '@preact/signals-core';
import { programOf } from '../../src/lib/engine/program.ts';
import { reachOf, type Reach } from '../../src/lib/engine/reach.ts';
import { rerun, runAll, whatIf, type Run } from '../../src/lib/engine/run.ts';
import type { Tree } from '../../src/lib/language/tree.ts';
import type { Graph, Node } from '../../src/lib/language/graph.ts';
import { arithmeticTree, graphByHand, nameTree, numberTree } from '../engine/graph-by-hand.ts';
import type { Line } from '../engine/with-units.ts';
import { quickest, times } from './quickest.ts';
import type { Row } from './row.ts';
import { straightLine } from './straight-line.ts';

/** Which earlier cells each cell of so many reads; −1 is the entry. It comes to their mean, and a quarter. */
type Shape = (count: number) => (cell: number) => readonly number[];

const lattice: Shape = (count) => {
	const wide = Math.round(Math.sqrt(count));
	return (cell) => {
		const above = cell - wide;
		if (above < 0) return [-1];
		return cell % wide === 0 ? [above] : [above, above - 1];
	};
};
const random: Shape = () => {
	// The quick generator of Numerical Recipes (from memory): the same cells every time.
	let state = 1;
	const next = (below: number): number => {
		state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
		return Math.floor((state / 2 ** 32) * below);
	};
	return (cell) => (cell === 0 ? [-1] : [...new Set([next(cell), next(cell)])]);
};
const shapes: Readonly<Record<string, Shape>> = {
	chain: () => (cell) => [cell - 1],
	'fan-out': () => () => [-1],
	lattice,
	random,
};

/** A second entry, which a cell near the end reads too: changing it touches a few. */
const late = 'late';

function nameOf(cell: number): string {
	return cell < 0 ? 'entry' : `c${cell}`;
}

/** The cells that each cell reads; −2 is the second entry. */
function readsOf(shape: Shape, count: number): (readonly number[])[] {
	const of = shape(count);
	return Array.from({ length: count }, (_, cell) =>
		cell === Math.floor(count * 0.9) ? [...of(cell), -2] : of(cell),
	);
}

function linesOf(reads: readonly (readonly number[])[]): Line[] {
	return reads.map((list, cell): Line => {
		const sum = list
			.map((each): Tree => nameTree(each === -2 ? late : nameOf(each)))
			.reduce((left, right) => arithmeticTree(left, '+', right));
		const mean = arithmeticTree(sum, '*', numberTree(1 / list.length));
		return [nameOf(cell), arithmeticTree(mean, '+', numberTree(0.25))];
	});
}

function slotIn(graph: Graph, name: string): number {
	return (graph.byId.get(name) as Node).slot;
}

/** A workbook of a shape with everything entered, and the same as signals. */
function made(shape: Shape, count: number) {
	const reads = readsOf(shape, count);
	const graph = graphByHand(['entry', late], linesOf(reads));
	const run = runAll(graph, new Map([...['entry', late].map((name) => [name, 1] as const)]));
	const entries = { entry: signal(1), late: signal(1) };
	const cells: ReadonlySignal<number>[] = [];
	for (const list of reads) {
		const from = list.map((each) =>
			each === -2 ? entries.late : each === -1 ? entries.entry : cells[each],
		) as ReadonlySignal<number>[];
		const share = 1 / list.length;
		// Written out, as a person would: a list of what is read costs more than reading it.
		const [one, two, three] = from;
		cells.push(
			computed(
				three && two
					? () => ((one?.value ?? 0) + two.value + three.value) * share + 0.25
					: two
						? () => ((one?.value ?? 0) + two.value) * share + 0.25
						: () => (one?.value ?? 0) * share + 0.25,
			),
		);
	}
	for (const cell of cells) cell.peek();
	return { graph, run, entries, cells };
}

/** A different value each time, so that nothing is seen to be as it was. */
let turn = 0;
function another(): number {
	turn = (turn + 1) % 1000;
	return 1 + turn / 1000;
}

const sizes = [100, 1_000, 10_000, 100_000];

/** Microseconds a touched cell: by edits, and by signals, of which those touched are read in order. */
function costs(shape: Shape, entry: 'entry' | 'late'): { edit: number; signals: number }[] {
	return sizes.map((size) => {
		const { graph, run, entries, cells } = made(shape, size);
		const reach: Reach = reachOf(programOf(graph), [slotIn(graph, entry)]);
		const touched = reach.nodes.map(({ id }) => cells[Number(id.slice(1))]);
		const bySignals = (): void => {
			entries[entry].value = another();
			for (const cell of touched) cell?.peek();
		};
		const often = Math.max(1, Math.round(20_000 / touched.length));
		const [edit = NaN, signals = NaN] = quickest(
			[
				times(often, () => rerun(graph, run, [[entry, another()]])),
				...(goes(bySignals) ? [times(often, bySignals)] : []),
			],
			8,
		);
		const each = often * touched.length;
		return { edit: edit / each, signals: signals / each };
	});
}

/** Signals call one another cell by cell, and a long way back is too long for them. */
function goes(work: () => void): boolean {
	try {
		work();
		return true;
	} catch (cause) {
		if (cause instanceof RangeError) return false;
		throw cause;
	}
}

function editRows(): Row[] {
	return Object.entries(shapes).flatMap(([name, shape]) =>
		(['entry', 'late'] as const).flatMap((entry): Row[] => {
			const found = costs(shape, entry);
			const what = entry === 'entry' ? 'every cell' : 'near the end';
			const against = found.flatMap(({ edit, signals }) =>
				Number.isNaN(signals) ? [] : [edit / signals],
			);
			return [
				...found.slice(1).map(({ edit }, index): Row => ({
					what: `${name}: an edit that touches ${what}, of ${sizes[index + 1]}`,
					against: 'a touched cell at 100',
					ratio: edit / (found[0]?.edit ?? NaN),
					reach: 1.5,
				})),
				{
					what: `${name}: the same, at the worst size`,
					against: 'a general signals library',
					ratio: Math.max(...against),
					reach: 1,
				},
			];
		}),
	);
}

function chainRows(): Row[] {
	const lines = linesOf(readsOf((count) => shapes.chain?.(count) ?? (() => []), 10_000));
	const graph = graphByHand(['entry', late], lines);
	const entered = new Map([
		['entry', 1],
		[late, 1],
	]);
	const run = runAll(graph, entered);
	const straight = straightLine(graph, false);
	straight.takeOver(run);
	// A function without a loop is only compiled to the end when it has been called very often.
	times(3000, straight.all)();
	const backward = graphByHand(['entry', late], [...lines].reverse());
	const backwardRun = runAll(backward, entered);
	const [edit = NaN, byHand = NaN, back = NaN, whole = NaN, nothing = NaN] = quickest(
		[
			times(5, () => rerun(graph, run, new Map([['entry', another()]]))),
			times(5, straight.all),
			times(5, () => rerun(backward, backwardRun, new Map([['entry', another()]]))),
			times(5, () => runAll(graph, entered)),
			times(5, () => runAll(graph, new Map())),
		],
		60,
	);
	return [
		{
			what: 'a chain of 10,000 lines',
			against: 'straight-line code',
			ratio: edit / byHand,
			reach: 10,
		},
		{ what: 'the same, written last line first', against: 'first line first', ratio: back / edit },
		{
			what: 'the same with nothing entered',
			against: 'one full run',
			ratio: nothing / whole,
			reach: 1,
		},
	];
}

/** Chains of 100 cells beside one another: asking what the first one's entry does touches 100. */
function questionRow(): Row {
	const workbook = (count: number): { graph: Graph; run: Run } => {
		const names = Array.from({ length: count / 100 }, (_, chain) => `entry_${chain}`);
		const lines = Array.from({ length: count }, (_, cell): Line => {
			const before = cell % 100 === 0 ? `entry_${cell / 100}` : nameOf(cell - 1);
			return [nameOf(cell), arithmeticTree(nameTree(before), '+', numberTree(0.25))];
		});
		const graph = graphByHand(names, lines);
		return { graph, run: runAll(graph, new Map(names.map((name) => [name, 1]))) };
	};
	const asked = [100_000, 200].map((count) => {
		const { graph, run } = workbook(count);
		const [entry, end] = [slotIn(graph, 'entry_0'), slotIn(graph, nameOf(99))];
		return times(50, () => whatIf(graph, run, [entry], [end])([another()]));
	});
	const [large = NaN, small = NaN] = quickest(asked, 60);
	return {
		what: 'what-if that touches 100 of 100,000 cells, asked once',
		against: 'the same on 200 cells',
		ratio: large / small,
		reach: 1.5,
	};
}

export function shapeRows(): Row[] {
	return [...chainRows(), questionRow(), ...editRows()];
}
