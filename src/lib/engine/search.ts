/**
 * Every combination of listed sizes tried, all else as it is: those that can be worked out and that hold
 * are kept. The same numbers come out wherever it runs, in the order of the lists, the last one fastest.
 */
import type { Graph, Node } from '../language/graph.ts';
import type { SearchCell } from '../language/kinds/search.ts';
import { whatIf, type Failure, type Run } from './run.ts';

/** More than this is not begun. */
export const mostCombinations = 500_000;

/** What is to be tried. */
export interface SearchPlan {
	readonly inputs: readonly Node[];
	/** For each input its sizes, SI, each once, in the order they were typed. */
	readonly sizes: readonly (readonly number[])[];
	readonly conditions: readonly Node[];
	readonly figures: readonly Node[];
	/** How many combinations there are. */
	readonly total: number;
}

/** What came of it: `total` is the sum of `failed`, all `turnedAway` and `kept`. */
export interface SearchAnswer {
	readonly total: number;
	/** Combinations that cannot be worked out. */
	readonly failed: number;
	/** Why the first of them cannot. */
	readonly failure?: Failure;
	/** For each condition how many it turned away, each counted at the first it did not meet. */
	readonly turnedAway: readonly number[];
	readonly kept: number;
	/** Row after row of those kept, SI: the value of each input, then each figure. */
	readonly rows: Float64Array<ArrayBuffer>;
}

/**
 * What a search cell asks for with the entries of a run, or why that cannot be begun.
 * @param without ids of the conditions that need not hold
 */
export function planSearch(
	graph: Graph,
	base: Run,
	cell: SearchCell,
	without: readonly string[] = [],
): SearchPlan | Failure {
	const named = (names: readonly string[]): Node[] =>
		names.flatMap((name) => graph.byId.get(name) ?? []);
	const lists = named(cell.over.map(({ sizes }) => sizes));
	const failures = lists.map(({ slot }) => base.failure(slot));
	const failure = failures.find((each) => each !== undefined);
	if (failure) return failure;
	const sizes = lists.map(({ slot }) => [...new Set(base.value(slot) as readonly number[])]);
	const plan: SearchPlan = {
		inputs: named(cell.over.map(({ input }) => input)),
		sizes,
		conditions: named(
			cell.hold.flatMap(({ condition }) => (without.includes(condition) ? [] : [condition])),
		),
		figures: named(cell.figures),
		total: sizes.reduce((total, list) => total * list.length, 1),
	};
	// What is missing for the first is missing for all; what cannot be assembled is its own affair.
	const wanted = wantedBy(plan);
	const ask = whatIf(graph, base, slotsOf(plan.inputs), wanted);
	const first = ask(sizes.map(([size]) => size as number));
	return (
		wanted.map((slot) => first.failure(slot)).find((each) => each && each.why !== 'out of range') ??
		plan
	);
}

function slotsOf(nodes: readonly Node[]): number[] {
	return nodes.map(({ slot }) => slot);
}

/** Slots of all that is looked at. */
function wantedBy({ conditions, figures }: SearchPlan): number[] {
	return slotsOf([...conditions, ...figures]);
}

/** Tries them one by one; each step is how many are done. */
export function* searching(
	graph: Graph,
	base: Run,
	plan: SearchPlan,
): Generator<number, SearchAnswer, undefined> {
	const { inputs, sizes, conditions, figures, total } = plan;
	const ask = whatIf(graph, base, slotsOf(inputs), wantedBy(plan));
	const values = inputs.map(() => 0);
	const turnedAway = conditions.map(() => 0);
	const rows: number[] = [];
	let [kept, failed] = [0, 0];
	let failure: Failure | undefined;

	const take = (run: Run): void => {
		for (const [index, { slot }] of conditions.entries()) {
			if (run.value(slot) === true) continue;
			if (run.fails(slot)) fail(run, slot);
			else turnedAway[index] = (turnedAway[index] ?? 0) + 1;
			return;
		}
		const missing = figures.find(({ slot }) => run.fails(slot));
		if (missing) {
			fail(run, missing.slot);
			return;
		}
		rows.push(...values, ...figures.map(({ slot }) => run.number(slot) as number));
		kept++;
	};
	const fail = (run: Run, slot: number): void => {
		failed++;
		failure ??= run.failure(slot);
	};

	for (let index = 0; index < total; index++) {
		// The place in each list, as the wheels of a counter stand.
		let rest = index;
		for (let wheel = sizes.length - 1; wheel >= 0; wheel--) {
			const list = sizes[wheel] ?? [];
			values[wheel] = list[rest % list.length] as number;
			rest = Math.floor(rest / list.length);
		}
		take(ask(values));
		yield index + 1;
	}
	return {
		total,
		failed,
		...(failure && { failure }),
		turnedAway,
		kept,
		rows: new Float64Array(rows),
	};
}

/** Tries them all at once. */
export function searchAll(graph: Graph, base: Run, plan: SearchPlan): SearchAnswer {
	const steps = searching(graph, base, plan);
	for (;;) {
		const step = steps.next();
		if (step.done) return step.value;
	}
}

/** One row of an answer: the value of each input, then each figure, SI. */
export function rowOf({ rows, kept }: SearchAnswer, index: number): Float64Array<ArrayBuffer> {
	const width = rows.length / kept;
	return rows.subarray(index * width, (index + 1) * width);
}

/** The rows in order of one column, equal ones as they were tried. */
export function ranked(
	{ rows, kept }: SearchAnswer,
	column: number,
	first: 'low' | 'high',
): Uint32Array {
	const width = rows.length / kept;
	const sign = first === 'low' ? 1 : -1;
	const value = (row: number): number => rows[row * width + column] ?? 0;
	return new Uint32Array(kept)
		.map((_, row) => row)
		.sort((a, b) => sign * (value(a) - value(b)) || a - b);
}
