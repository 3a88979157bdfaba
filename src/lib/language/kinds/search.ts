/** `search`: every combination of listed sizes is tried; those that hold are ranked. */
import { z } from 'zod';
import { problemAt } from '../problem.ts';
import type { CellBase, Mention, Problem } from '../types.ts';
import { mentionIn, nameShape, type KindReader, readBlock } from './reader.ts';

const shape = z.strictObject({
	name: nameShape,
	label: z.string().min(1),
	/** Inputs, each with the input that lists the sizes it is to take. */
	over: z.array(z.strictObject({ input: nameShape, sizes: nameShape })).min(1),
	/** What must hold. */
	hold: z.array(z.strictObject({ if: z.string().min(1), label: z.string().min(1) })).optional(),
	/** Figures told of each combination. */
	show: z.array(nameShape).min(1),
	/** What a person may rank by; the first is taken to begin with. */
	rank: z.array(z.strictObject({ by: nameShape, first: z.enum(['low', 'high']) })).min(1),
	/** Two figures that pull against each other. */
	chart: z.strictObject({ bottom: nameShape, up: nameShape }).optional(),
	about: z.string().optional(),
});

export interface SearchCell extends CellBase {
	readonly kind: 'search';
	readonly label: string;
	readonly about: string;
	readonly over: readonly { readonly input: string; readonly sizes: string }[];
	/** Ids of the conditions, with what they are called. */
	readonly hold: readonly { readonly condition: string; readonly label: string }[];
	/** Every figure that is told, ranked by or drawn, each once. */
	readonly figures: readonly string[];
	readonly rank: readonly { readonly by: string; readonly first: 'low' | 'high' }[];
	readonly chart?: { readonly bottom: string; readonly up: string };
}

export const readSearch: KindReader<SearchCell> = (block) => {
	const found = readBlock(shape, block);
	if (!found.value) return { problems: found.problems };
	const { name, label, over, hold = [], show, rank, chart, about } = found.value;
	const mention = mentionIn(found);
	const problems: Problem[] = [];
	over.forEach(({ input }, index) => {
		if (over.findIndex((each) => each.input === input) === index) return;
		problems.push(
			problemAt(
				`“${input}” stands here twice. Give it one list with all its sizes.`,
				block.page,
				`search ${name}`,
				found.place(['over', index, 'input']),
			),
		);
	});
	if (problems.length > 0) return { problems };
	const drawn = chart ? [chart.bottom, chart.up] : [];
	return {
		cell: {
			kind: 'search',
			name,
			page: block.page,
			line: block.body.line - 1,
			label,
			about: about ?? '',
			over,
			hold: hold.map((each, index) => ({
				condition: `${name}/${index.toString()}`,
				label: each.label,
			})),
			figures: [...new Set([...show, ...rank.map(({ by }) => by), ...drawn])],
			rank,
			...(chart && { chart }),
			gives: [],
			asks: hold.map((each, index) => ({
				id: `${name}/${index.toString()}`,
				formula: { ...found.place(['hold', index, 'if']), text: each.if },
				expects: 'flag',
			})),
			mentions: [
				...over.flatMap(({ input, sizes }, index): Mention[] => [
					mention(['over', index, 'input'], input, 'input'),
					mention(['over', index, 'sizes'], sizes, 'sizes', input),
				]),
				...show.map((figure, index) => mention(['show', index], figure, 'quantity')),
				...rank.map(({ by }, index) => mention(['rank', index, 'by'], by, 'quantity')),
				...(chart
					? [
							mention(['chart', 'bottom'], chart.bottom, 'quantity'),
							mention(['chart', 'up'], chart.up, 'quantity'),
						]
					: []),
			],
		},
		problems,
	};
};
