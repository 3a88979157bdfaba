/** `against`: figures before the job, as the plan has them and as they were found, a row each. */
import { z } from 'zod';
import type { CellBase } from '../types.ts';
import { mentionIn, nameShape, type KindReader, readBlock } from './reader.ts';

const row = z.strictObject({
	label: z.string().min(1),
	/** What was measured, or worked out, before; a name of an input can be entered in the row. */
	before: nameShape.optional(),
	/** What the plan says it is now. */
	expected: nameShape.optional(),
	/** What was found; a name of an input can be entered in the row. */
	found: nameShape,
	/** Found less plan. Its ± counts the reading and the plan together. */
	off: nameShape,
});

const shape = z.strictObject({
	name: nameShape,
	title: z.string().min(1),
	rows: z.array(row).min(1),
	/** What to see in it, one sentence. */
	about: z.string().optional(),
});

/** Names of figures or inputs. */
export interface AgainstRow {
	readonly label: string;
	readonly before?: string;
	readonly expected?: string;
	readonly found: string;
	readonly off: string;
}

export interface AgainstCell extends CellBase {
	readonly kind: 'against';
	readonly title: string;
	readonly rows: readonly AgainstRow[];
	readonly about: string;
}

const columns = ['before', 'expected', 'found', 'off'] as const;

export const readAgainst: KindReader<AgainstCell> = (block) => {
	const found = readBlock(shape, block);
	if (!found.value) return { problems: found.problems };
	const { name, title, rows, about } = found.value;
	const mention = mentionIn(found);
	return {
		cell: {
			kind: 'against',
			name,
			page: block.page,
			line: block.body.line - 1,
			title,
			rows: rows.map(({ before, expected, ...written }) => ({
				...written,
				...(before !== undefined && { before }),
				...(expected !== undefined && { expected }),
			})),
			about: about ?? '',
			gives: [],
			asks: [],
			mentions: rows.flatMap((written, index) =>
				columns.flatMap((column) => {
					const named = written[column];
					return named === undefined ? [] : mention(['rows', index, column], named, 'quantity');
				}),
			),
		},
		problems: [],
	};
};
