/** `bars`: figures alike, drawn as bars that add up to a total. */
import { z } from 'zod';
import type { CellBase } from '../types.ts';
import { mentionIn, nameShape, type KindReader, readBlock } from './reader.ts';

const shape = z.strictObject({
	name: nameShape,
	title: z.string().min(1),
	/** Figures whose sum is the total, in the order they are added. */
	parts: z.array(nameShape).min(2),
	total: nameShape,
	/** What to see in it, one sentence. */
	about: z.string().optional(),
});

export interface BarsCell extends CellBase {
	readonly kind: 'bars';
	readonly title: string;
	readonly parts: readonly string[];
	readonly total: string;
	readonly about: string;
}

export const readBars: KindReader<BarsCell> = (block) => {
	const found = readBlock(shape, block);
	if (!found.value) return { problems: found.problems };
	const { name, title, parts, total, about } = found.value;
	const mention = mentionIn(found);
	return {
		cell: {
			kind: 'bars',
			name,
			page: block.page,
			line: block.body.line - 1,
			title,
			parts,
			total,
			about: about ?? '',
			gives: [],
			asks: [],
			mentions: [
				...parts.map((part, index) => mention(['parts', index], part, 'quantity')),
				mention(['total'], total, 'quantity'),
			],
		},
		problems: [],
	};
};
