/** What would explain the readings, in words: for the screen, the terminal and tests alike. */
import {
	explain,
	reconciled,
	type Cause,
	type Explained,
	type Suspect,
} from '../engine/explain.ts';
import type { PlusMinus } from '../engine/plus-minus.ts';
import type { ExplainCell, ExplainSuspect } from '../language/kinds/explain.ts';
import { showChange, showFigure, showPlusMinus, showReading } from '../units/shown.ts';
import { shownForNode, type Figures } from './figures.ts';

/** One suspect by itself. */
export interface CauseInWords {
	readonly label: string;
	readonly look: string;
	/** Names of the inputs that would be off. */
	readonly moves: readonly string[];
	/** "3.00 in ± 0.27 in, not 4 in", or where several move "+0.31° ± 0.20° each". */
	readonly amount: string;
	/** Of the misfit, the part that is left over with it: 0 to 1. */
	readonly left: number;
	/** Whether it is one of those that may be it. */
	readonly may: boolean;
}

/** A figure by the plan, as read, and by both together. */
export interface TogetherInWords {
	readonly label: string;
	readonly expected: string;
	readonly found: string;
	/** Undefined where plan and readings do not go together. */
	readonly both?: string;
}

export interface ExplainedInWords {
	readonly word: Explained['word'];
	/** One sentence. */
	readonly says: string;
	/** Least left over first; none where nothing is needed. */
	readonly causes: readonly CauseInWords[];
	readonly together: readonly TogetherInWords[];
}

type Sure = readonly (PlusMinus | undefined)[];

/** Slots of the figures whose ± it takes. */
export function slotsOfExplain({ read, together }: ExplainCell, { graph }: Figures): number[] {
	const names = [...read, ...together.flatMap(({ expected, found }) => [expected, found])];
	return names.flatMap((name) => graph.byId.get(name)?.slot ?? []);
}

/** The suspects of a cell; one whose amounts cannot be read is none. */
export function suspectsOf(
	cell: ExplainCell,
	{ graph, run }: Figures,
): ReadonlyMap<Suspect, ExplainSuspect> {
	const suspects = new Map<Suspect, ExplainSuspect>();
	for (const written of cell.suspects) {
		const inputs = written.move.flatMap((name) => graph.byId.get(name) ?? []);
		const likely = run.number(graph.byId.get(written.likely)?.slot ?? -1) ?? 0;
		if (inputs.length === written.move.length && likely > 0) {
			suspects.set({ inputs, likely }, written);
		}
	}
	return suspects;
}

/**
 * @param sure ± by slot, of the slots of slotsOfExplain at least
 */
export function explainedInWords(
	cell: ExplainCell,
	figures: Figures,
	sure: Sure,
): ExplainedInWords {
	const { graph, run } = figures;
	const suspects = suspectsOf(cell, figures);
	const read = cell.read.flatMap((name) => graph.byId.get(name)?.slot ?? []);
	const explained = explain(graph, run, sure, read, [...suspects.keys()]);
	const { word, alike, misfit } = explained;
	const causes = explained.causes.map((cause, index): CauseInWords => {
		const { label = '', look = '', move: moves = [] } = suspects.get(cause.suspect) ?? {};
		return {
			label,
			look,
			moves,
			amount: amountInWords(cause, figures),
			left: misfit > 0 ? cause.left / misfit : 0,
			may: (word === 'told' || word === 'alike') && index < alike,
		};
	});
	return {
		word,
		says: sentenceOf(explained, causes),
		causes: word === 'agrees' || word === 'open' ? [] : causes,
		together: cell.together.map((each) => togetherInWords(each, explained, figures, sure)),
	};
}

function amountInWords({ suspect, amount, plusMinus }: Cause, figures: Figures): string {
	const [input, second] = suspect.inputs;
	const shown = input && shownForNode(input, figures.quantities, figures.system);
	const entered = input && figures.run.number(input.slot);
	if (!shown || entered === undefined) return '';
	const sure = showPlusMinus(plusMinus, shown);
	return second
		? `${showChange(amount, shown)} ${sure} each`
		: `${showFigure(entered + amount, shown)} ${sure}, not ${showReading(entered, shown)}`;
}

function sentenceOf({ word, alike }: Explained, causes: readonly CauseInWords[]): string {
	switch (word) {
		case 'open':
			return 'Nothing is read yet that could be held against the plan.';
		case 'agrees':
			return 'Readings and plan agree within their ±. Nothing is needed to explain them.';
		case 'told':
			return `${causes[0]?.label ?? ''}: this alone explains it.`;
		case 'alike':
			return `These readings cannot tell which of the first ${alike.toString()} it is.`;
		case 'none':
			return 'No one cause explains it. Read again; two things may be wrong.';
	}
}

function togetherInWords(
	{ label, expected, found }: ExplainCell['together'][number],
	explained: Explained,
	{ graph, run, quantities, system }: Figures,
	sure: Sure,
): TogetherInWords {
	const words = (name: string, both: boolean): string | undefined => {
		const node = graph.byId.get(name);
		const shown = node && shownForNode(node, quantities, system);
		if (!node || !shown) return undefined;
		const value = run.number(node.slot);
		const size = sure[node.slot]?.size ?? 0;
		const of = both
			? reconciled(graph, run, sure, explained, node.slot)
			: value === undefined
				? undefined
				: { value, plusMinus: size };
		return of && `${showFigure(of.value, shown)} ${showPlusMinus(of.plusMinus, shown)}`;
	};
	const both = words(expected, true);
	return {
		label,
		expected: words(expected, false) ?? '—',
		found: words(found, false) ?? '—',
		...(both !== undefined && { both }),
	};
}
