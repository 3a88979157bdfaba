/** `compare`: figures and checks down the side, the kits of parts a person has in mind across. */
import { z } from 'zod';
import type { CellBase, Mention } from '../types.ts';
import { mentionIn, nameShape, type KindReader, readBlock } from './reader.ts';

const shape = z.strictObject({
	name: nameShape,
	title: z.string().min(1),
	/** The inputs a kit sets; all else is as it stands in the job. */
	set: z.array(nameShape).min(1),
	show: z.array(nameShape).min(1),
	/** Names of check cells. */
	checks: z.array(nameShape).optional(),
	/** Name of the chart cell each kit is drawn in. */
	chart: nameShape.optional(),
	/** The figure that a kit is bought for, what of it is wanted, and the input for what its seller claims. */
	brings: nameShape.optional(),
	wanted: nameShape.optional(),
	/** The input that says how much of it is wanted: what is moved where the mark of it is. */
	moves: nameShape.optional(),
	claim: nameShape.optional(),
	/** What is told of each kit beside that, a word over each. */
	brief: z
		.array(z.strictObject({ label: z.string().min(1), names: z.array(nameShape).min(1) }))
		.default([]),
});

export interface CompareCell extends CellBase {
	readonly kind: 'compare';
	readonly title: string;
	readonly set: readonly string[];
	readonly show: readonly string[];
	readonly checks: readonly string[];
	readonly chart?: string;
	readonly brings?: string;
	readonly wanted?: string;
	readonly moves?: string;
	readonly claim?: string;
	readonly brief: readonly { readonly label: string; readonly names: readonly string[] }[];
}

export const readCompare: KindReader<CompareCell> = (block) => {
	const found = readBlock(shape, block);
	if (!found.value) return { problems: found.problems };
	const { name, title, set, show, checks = [], chart, brief } = found.value;
	const { brings, wanted, moves, claim } = found.value;
	const mention = mentionIn(found);
	const mentions = (field: string, names: readonly string[], must: Mention['must']): Mention[] =>
		names.map((each, index) => mention([field, index], each, must));
	return {
		cell: {
			kind: 'compare',
			name,
			page: block.page,
			line: block.body.line - 1,
			title,
			set,
			show,
			checks,
			...(chart !== undefined && { chart }),
			...(brings !== undefined && { brings }),
			...(wanted !== undefined && { wanted }),
			...(moves !== undefined && { moves }),
			...(claim !== undefined && { claim }),
			brief,
			gives: [],
			asks: [],
			mentions: [
				...mentions('set', set, 'entry'),
				...mentions('show', show, 'quantity'),
				...mentions('checks', checks, 'check'),
				...(chart === undefined ? [] : [mention(['chart'], chart, 'chart')]),
				...(brings === undefined ? [] : [mention(['brings'], brings, 'quantity')]),
				...(wanted === undefined ? [] : [mention(['wanted'], wanted, 'quantity')]),
				...(moves === undefined ? [] : [mention(['moves'], moves, 'entry')]),
				...(claim === undefined ? [] : [mention(['claim'], claim, 'input')]),
				...brief.flatMap(({ names }, index) =>
					names.map((each, place) => mention(['brief', index, 'names', place], each, 'quantity')),
				),
			],
		},
		problems: [],
	};
};
