/** `known`: what one may want to know, a row each: the figure as soon as it is there, else what it still needs. */
import { z } from 'zod';
import type { CellBase } from '../types.ts';
import { mentionIn, nameShape, type KindReader, readBlock } from './reader.ts';

const row = z.strictObject({
	label: z.string().min(1),
	/** Figures that have to be there; the first is shown. */
	of: z.array(nameShape).min(1),
});

const shape = z.strictObject({
	name: nameShape,
	title: z.string().min(1),
	rows: z.array(row).min(1),
});

export interface KnownRow {
	readonly label: string;
	/** Names of figures: the answer is there when all are. */
	readonly of: readonly string[];
}

export interface KnownCell extends CellBase {
	readonly kind: 'known';
	readonly title: string;
	readonly rows: readonly KnownRow[];
}

export const readKnown: KindReader<KnownCell> = (block) => {
	const found = readBlock(shape, block);
	if (!found.value) return { problems: found.problems };
	const mention = mentionIn(found);
	return {
		cell: {
			kind: 'known',
			...found.value,
			page: block.page,
			line: block.body.line - 1,
			gives: [],
			asks: [],
			mentions: found.value.rows.flatMap(({ of }, row) =>
				of.map((name, index) => mention(['rows', row, 'of', index], name, 'any')),
			),
		},
		problems: [],
	};
};
