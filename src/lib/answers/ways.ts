/** One truck in several ways to do a thing: each run on a copy, with what is said of it. */
import { plusMinusInSteps, type PlusMinus } from '../engine/plus-minus.ts';
import { otherwise } from '../engine/run.ts';
import type { Node } from '../language/graph.ts';
import type { CheckCell } from '../language/kinds/check.ts';
import type { WayCell, WaysCell } from '../language/kinds/ways.ts';
import { readingOf, type Reading } from '../job/reading.ts';
import type { Value } from '../language/types.ts';
import { checkAnswer, inputPlusMinus, markOf, type Figures, type Mark } from './figures.ts';

export interface Way {
	readonly label: string;
	/** What it sets, and what it leaves stock, SI. */
	readonly changed: ReadonlyMap<string, Value | undefined>;
	readonly figures: Figures;
	/** Whether the truck stands so. */
	readonly now: boolean;
	/** What is said of it, with figures in braces still to be filled in. */
	readonly say: string;
}

/** What the entries of a cell are on the stock truck. */
export function stockOf(
	{ stock }: WaysCell,
	{ graph, system }: Figures,
): Map<string, Value | undefined> {
	return new Map(
		stock.flatMap((name): [string, Value | undefined][] => {
			const input = graph.byId.get(name)?.input;
			return input ? [[name, readingOf(input, { entries: {}, system }).value]] : [];
		}),
	);
}

function holds(id: string | undefined, { graph, run }: Figures): boolean {
	const node = id === undefined ? undefined : graph.byId.get(id);
	return node !== undefined && run.value(node.slot) === true;
}

/** What a way sets. */
export function setBy({ set }: WayCell, { graph, run }: Figures): Map<string, Value | undefined> {
	return new Map(
		set.map(({ input, value }) => {
			const node = graph.byId.get(value);
			return [input, node && run.value(node.slot)];
		}),
	);
}

/** A truck with some entries changed. */
export function changedTo(
	figures: Figures,
	changed: ReadonlyMap<string, Value | undefined>,
): Figures {
	return { ...figures, run: otherwise(figures.graph, figures.run, changed) };
}

/** Every way that there is on this truck. */
export function waysOf(cell: WaysCell, figures: Figures): Way[] {
	return cell.ways
		.filter(({ shown }) => shown === undefined || holds(shown, figures))
		.map((way) => {
			const changed = new Map([...stockOf(cell, figures), ...setBy(way, figures)]);
			const its = changedTo(figures, changed);
			const said = cell.say.find(
				({ condition }) => condition === undefined || holds(condition, its),
			);
			const { label, now } = way;
			return { label, changed, figures: its, now: holds(now, figures), say: said?.say ?? '' };
		});
}

/**
 * How sure a way's figures are. It costs more than the way itself, so it is given away in steps.
 * @param slots the same list each time: what leads to them is found once
 */
export function sureOf(
	{ changed, figures: { graph, run } }: Way,
	reading: (name: string) => Reading,
	slots: readonly number[],
): Generator<undefined, readonly (PlusMinus | undefined)[]> {
	const sizeOf = (input: Node): number => {
		const value = changed.get(input.id);
		// A part that is not there has no ±, whatever was typed with the one that is.
		const asItIs = value === undefined || value !== 0;
		return inputPlusMinus(input, asItIs ? reading(input.id) : { standing: 'entered', value });
	};
	return plusMinusInSteps(graph, run, sizeOf, slots);
}

const marks: readonly Mark[] = ['clear', 'within', 'caution', 'stop', 'open'];

/** The worst answer of some checks in a way; undefined where there are none. */
export function worstMark(
	checks: readonly CheckCell[],
	{ figures }: Way,
	sure: readonly (PlusMinus | undefined)[] | undefined,
): Mark | undefined {
	const found = checks.map((check) => marks.indexOf(markOf(checkAnswer(check, figures, sure))));
	return marks[Math.max(-1, ...found)];
}
