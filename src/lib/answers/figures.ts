/** What a job's run comes to, in words: for the screen, the terminal and tests alike. */
import { checkResult, isWithin } from '../engine/checks.ts';
import type { Graph, Node } from '../language/graph.ts';
import type { Cell } from '../language/kinds/index.ts';
import type { CheckCell } from '../language/kinds/check.ts';
import type { Level } from '../language/levels.ts';
import { proseOf } from '../language/prose.ts';
import { shownAs, type Quantities, type Shown, type UnitSystem } from '../units/quantities.ts';
import { linked } from '../engine/reach.ts';
import type { PlusMinus } from '../engine/plus-minus.ts';
import type { Failure, Run } from '../engine/run.ts';
import { showFigure, showReading } from '../units/shown.ts';
import type { Value } from '../language/types.ts';
import { cellsOf, type Workbook } from '../language/workbook.ts';
import { isMeasured, type Reading } from '../job/reading.ts';
import { jointsOf } from './drawn-names.ts';

/** How amounts are shown. */
export interface Showing {
	readonly quantities: Quantities;
	readonly system: UnitSystem;
}

/** What is needed to show how the slots of a graph stand. */
export interface Standing extends Showing {
	readonly graph: Graph;
	readonly run: Pick<Run, 'value' | 'failure'>;
}

/** A whole run with what is needed to show it. How sure its figures are is another thing, and comes later. */
export interface Figures extends Standing {
	readonly run: Run;
}

/**
 * The ± of an input, SI: as typed with it, else the page's own, which is wider while nobody entered a value.
 * A part that is not changed is exactly nought, for nothing is measured there.
 */
export function inputPlusMinus({ input }: Node, reading: Reading | undefined): number {
	if (reading?.plusMinus !== undefined) return reading.plusMinus;
	if (!input || !('plusMinus' in input)) return 0;
	const { standing = 'missing', value } = reading ?? {};
	if (standing === 'assumed' || standing === 'missing') {
		// What follows another name has that one's ± already.
		if (input.assumedPlusMinus !== undefined) return input.assumedPlusMinus;
		if (input.startsAs !== undefined && standing === 'missing') return 0;
	}
	return input.part && value === 0 ? 0 : input.plusMinus;
}

/** Names of what a cell gives, works out for itself, or takes from others. */
export function namesIn({ gives, asks, mentions }: Cell): string[] {
	return [...gives, ...mentions].map(({ name }) => name).concat(asks.map(({ id }) => id));
}

/** How one may look at a truck: as planned, as its parts were fitted, as it was read afterwards. */
export const truckStates = ['plan', 'fitted', 'found'] as const;
export type TruckState = (typeof truckStates)[number];

/** The name that a figure of the plan has in another state; a workbook need not have it. */
export function nameInState(name: string, state: TruckState): string {
	return state === 'plan' ? name : `${name}_${state}`;
}

/**
 * Slots of all that a sheet may show with a ±: what its cells give or name, and the standing figures.
 * @param state whose standing figures are shown
 * @param also names of figures and checks that are in sight beside
 */
export function figuresInSight(
	workbook: Workbook,
	page: string,
	state: TruckState = 'plan',
	also: readonly string[] = [],
): readonly number[] {
	const cells = cellsOf(workbook).filter(
		(cell) => cell.page === page || (cell.kind === 'check' && also.includes(cell.name)),
	);
	const named = cells.flatMap(({ gives, mentions }) => [...gives, ...mentions]);
	const { byId } = workbook.graph;
	const joints = cells.flatMap((cell) =>
		cell.kind === 'drawing' && cell.detail ? jointsOf(cell.show, workbook.drawing) : [],
	);
	const names = new Set([
		...workbook.standing.map((each) => nameInState(each.name, state)),
		...also,
		...named.map(({ name }) => name),
		...joints,
	]);
	const slots = [...names].flatMap((name) => byId.get(name)?.slot ?? []);
	// A check is weighed by the ± of what its conditions look at.
	const weighed = cells.flatMap(({ kind, asks }) =>
		kind === 'check' ? asks.flatMap(({ id }) => byId.get(id)?.needs ?? []) : [],
	);
	return [...new Set([...slots, ...weighed])];
}

/** How a node's amounts are shown; undefined for what is not a quantity. */
export function shownForNode(
	node: Node,
	quantities: Quantities,
	system: UnitSystem,
): Shown | undefined {
	if (node.type?.kind !== 'quantity') return undefined;
	if (node.input && 'quantity' in node.input) return node.input.quantity.shown[system];
	return shownAs(quantities, node.type.dimension, system, node.shownIn);
}

/** A value in words. Inputs read as their rule would give them, figures in decimals. */
export function valueInWords(node: Node, value: Value, { quantities, system }: Showing): string {
	const shown = shownForNode(node, quantities, system);
	if (typeof value === 'number' && shown) {
		return node.input ? showReading(value, shown) : showFigure(value, shown);
	}
	if (typeof value === 'boolean') return value ? 'yes' : 'no';
	if (typeof value === 'object') {
		return Array.isArray(value) ? `${value.length.toString()} readings` : '';
	}
	const words = String(value);
	return node.input?.asks_for === 'choice' ? (node.input.choices[words] ?? words) : words;
}

/** The value of a name in a run, SI. */
export function valueNamed(name: string, { graph, run }: Standing): Value | undefined {
	const node = graph.byId.get(name);
	return node && run.value(node.slot);
}

/** Why those of several names that have no value have none. */
export function failuresOf(names: readonly string[], { graph, run }: Standing): Failure[] {
	return names.flatMap((name) => {
		const node = graph.byId.get(name);
		return (node && run.failure(node.slot)) ?? [];
	});
}

/** Why the first of them has none. */
export function firstFailure(names: readonly string[], figures: Standing): Failure | undefined {
	return failuresOf(names, figures)[0];
}

/** What several names wait for, all of it; or why the first that cannot be worked out is not. */
export function waitsFor(names: readonly string[], figures: Standing): Failure | undefined {
	const failures = failuresOf(names, figures);
	const [first] = failures;
	const from = [...new Set(failures.flatMap((each) => each.from))];
	return failures.find(({ why }) => why !== 'not entered') ?? (first && { ...first, from });
}

/** A figure by its name, in words; “—” when it has no value. */
export function figureInWords(name: string, figures: Standing): string {
	const node = figures.graph.byId.get(name);
	const value = valueNamed(name, figures);
	return node && value !== undefined ? valueInWords(node, value, figures) : '—';
}

/** A sentence with its live figures filled in; “—” for one that has no value. */
function filledIn(text: string, figures: Standing): string {
	return proseOf(text)
		.map((piece) => ('text' in piece ? piece.text : figureInWords(piece.figure, figures)))
		.join('');
}

/** The entries of measurements behind a figure, near and far. */
export function measurementsBehind(node: Node, graph: Graph): readonly Node[] {
	return [...linked(graph, [node.slot], 'needs')].flatMap((slot) => {
		const found = graph.nodes[slot];
		return found?.input && found !== node && isMeasured(found.input) ? [found] : [];
	});
}

/** Slots of some names, and of all that they hang on. */
export function slotsBehind(graph: Graph, names: readonly string[]): ReadonlySet<number> {
	const slots = names.flatMap((name) => graph.byId.get(name)?.slot ?? []);
	return linked(graph, slots, 'needs');
}

/** A check's answer in words, or why there is none yet. */
export type CheckAnswer =
	| {
			readonly level: Level;
			/** The levels it may come to within the ± of its figures; clear and another are “within its ±”. */
			readonly might: readonly Level[];
			readonly text: string;
			readonly do: string;
	  }
	| { readonly failure: Failure };

/** What a verdict is marked as: within where its ± leaves open if it is clear; open without an answer yet. */
export type Mark = Level | 'within' | 'open';

export function markOf(answer: CheckAnswer): Mark {
	if ('failure' in answer) return 'open';
	return isWithin(answer.might) ? 'within' : answer.level;
}

/** The word of each mark. */
export const levelWords: Readonly<Record<Mark, string>> = {
	clear: 'Clear',
	within: 'Within its ±',
	caution: 'Caution',
	stop: 'Stop',
	open: 'Not known yet',
};

/** @param plusMinus by slot; without it every figure counts as certain */
export function checkAnswer(
	cell: CheckCell,
	figures: Figures,
	plusMinus: readonly (PlusMinus | undefined)[] = [],
): CheckAnswer {
	const result = checkResult(figures.graph, figures.run, cell, plusMinus);
	if ('why' in result) return { failure: result };
	return {
		level: result.level,
		might: result.might,
		text: filledIn(result.because, figures),
		do: result.do ? filledIn(result.do, figures) : '',
	};
}
