/** The columns of a comparison: the stock truck, the plan as it is, and each option, run on copies. */
import type { CompareCell } from '../language/kinds/compare.ts';
import { otherwise, type Run } from '../engine/run.ts';
import type { Value } from '../language/types.ts';
import { shownForNode, valueNamed, type Figures } from './figures.ts';
import type { KitOption } from '../job/job.ts';
import { readingOf, type Reading } from '../job/reading.ts';
import { showChange, showFigure } from '../units/shown.ts';

export interface OptionColumn {
	/** “stock”, “plan”, or the option's id. */
	readonly id: string;
	readonly name: string;
	/** Undefined for the stock truck and the plan, which are not typed here. */
	readonly option?: KitOption;
	/** How each input that options set stands in it; none for the plan, which is typed elsewhere. */
	readonly readings: ReadonlyMap<string, Reading>;
	readonly figures: Figures;
}

/**
 * All columns, the stock truck first.
 * @param options of the job
 * @param figures of the job as it is
 * @param before columns as they were: one stays while neither its option nor the figures are others
 */
export function optionColumns(
	cell: CompareCell,
	options: readonly KitOption[],
	figures: Figures,
	before: readonly OptionColumn[] = [],
): OptionColumn[] {
	const { graph, system } = figures;
	const inputs = cell.set.flatMap((name) => graph.byId.get(name)?.input ?? []);
	const same = figures === before[1]?.figures;
	const column = (
		id: string,
		name: string,
		entries: KitOption['entries'],
		option?: KitOption,
	): OptionColumn => {
		const kept = same && before.find((each) => each.id === id && each.option === option);
		if (kept) return kept;
		const readings = new Map(
			inputs.map((input): [string, Reading] => [input.name, readingOf(input, { entries, system })]),
		);
		return {
			id,
			name,
			...(option && { option }),
			readings,
			figures: { ...figures, run: runWith(readings, figures) },
		};
	};
	return [
		column('stock', 'Stock parts', {}),
		// The plan is what the job has been run with already.
		{ id: 'plan', name: 'The plan', readings: new Map(), figures },
		...options.map((option) => column(option.id, option.name, option.entries, option)),
	];
}

/** A run with some inputs read otherwise. */
function runWith(readings: ReadonlyMap<string, Reading>, { graph, run }: Figures): Run {
	const changed = new Map<string, Value | undefined>();
	for (const [input, { value }] of readings) changed.set(input, value);
	return otherwise(graph, run, changed);
}

/** A figure's difference to another run, in words with its sign; empty where either has none or it is the figure. */
export function differenceInWords(name: string, figures: Figures, against: Figures): string {
	const node = figures.graph.byId.get(name);
	const shown = node && shownForNode(node, figures.quantities, figures.system);
	const here = valueNamed(name, figures);
	const there = valueNamed(name, against);
	if (!shown || typeof here !== 'number' || typeof there !== 'number') return '';
	const words = showChange(here - there, shown);
	// Against nothing the difference is the figure itself, which is not said twice.
	return words.replace('+', '') === showFigure(here, shown) ? '' : words;
}
