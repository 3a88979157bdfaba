/** `solve`: one input to be found within a range, so that two sides come out equal. */
import { z } from 'zod';
import type { Asked, CellBase } from '../types.ts';
import { amountShape, askIn, mentionIn, nameShape, type KindReader, readBlock } from './reader.ts';

const shape = z.strictObject({
	name: nameShape,
	label: z.string().min(1),
	/** The input to be found. */
	find: nameShape,
	/** Where it is looked for. */
	from: amountShape,
	to: amountShape,
	/** Two formulas of one dimension. */
	when: z.strictObject({ left: amountShape, equals: amountShape }),
	/** What to make of the answer, one sentence. */
	about: z.string().optional(),
});

export interface SolveCell extends CellBase {
	readonly kind: 'solve';
	readonly label: string;
	readonly about: string;
	/** Name of the input. */
	readonly find: string;
	/** Ids of the formulas. */
	readonly from: string;
	readonly to: string;
	readonly left: string;
	readonly equals: string;
}

export const readSolve: KindReader<SolveCell> = (block) => {
	const found = readBlock(shape, block);
	if (!found.value) return { problems: found.problems };
	const { name, label, find, from, to, when, about } = found.value;
	const asks: Asked[] = [];
	const ask = askIn(found, name, asks);
	const ends = { from: ask(['from'], from, find), to: ask(['to'], to, find) };
	const left = ask(['when', 'left'], when.left);
	return {
		cell: {
			kind: 'solve',
			name,
			page: block.page,
			line: block.body.line - 1,
			label,
			about: about ?? '',
			find,
			...ends,
			left,
			equals: ask(['when', 'equals'], when.equals, left),
			gives: [],
			asks,
			mentions: [mentionIn(found)(['find'], find, 'input')],
		},
		problems: [],
	};
};
