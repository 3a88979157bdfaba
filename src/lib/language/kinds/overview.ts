/** `overview`: how the entries stand, or how the checks stand, over several pages. */
import { z } from 'zod';
import type { CellBase } from '../types.ts';
import { mentionIn, nameShape, type KindReader, readBlock } from './reader.ts';

const shape = z.strictObject({
	name: nameShape,
	title: z.string().min(1),
	of: z.enum(['entries', 'checks']),
	/** Open are the entries nobody measured, and the checks that are not clear. */
	only: z.enum(['open', 'all']),
	/** Ids of the pages it looks at; every page when left out. */
	pages: z.array(z.string().min(1)).min(1).optional(),
	/** Of entries: only those that one of these hangs on. */
	behind: z.array(nameShape).min(1).optional(),
	about: z.string().optional(),
});

export interface OverviewCell extends CellBase {
	readonly kind: 'overview';
	readonly title: string;
	readonly of: 'entries' | 'checks';
	readonly only: 'open' | 'all';
	readonly pages?: readonly string[];
	/** Names of figures: only the entries count that one of them hangs on. */
	readonly behind?: readonly string[];
	readonly about: string;
}

export const readOverview: KindReader<OverviewCell> = (block) => {
	const found = readBlock(shape, block);
	if (!found.value) return { problems: found.problems };
	const { pages, behind, about, ...written } = found.value;
	const mention = mentionIn(found);
	return {
		cell: {
			kind: 'overview',
			...written,
			page: block.page,
			line: block.body.line - 1,
			about: about ?? '',
			...(pages && { pages }),
			...(behind && { behind }),
			gives: [],
			asks: [],
			mentions: (behind ?? []).map((name, index) => mention(['behind', index], name, 'any')),
		},
		problems: [],
	};
};
