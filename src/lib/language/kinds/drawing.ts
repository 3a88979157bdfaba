/** `drawing`: what the trade draws to scale, in one or more of its states, with handles and dimensions. */
import { z } from 'zod';
import type { DrawingWords } from '../trade.ts';
import type { CellBase } from '../types.ts';
import { mentionIn, nameShape, type KindReader, keptShape, readDrawn } from './reader.ts';

export interface DrawingCell extends CellBase {
	readonly kind: 'drawing';
	readonly title: string;
	/** The part that is in sight: one of the trade's crops. */
	readonly crop: string;
	/** The trade's states that are drawn. */
	readonly show: readonly string[];
	/** Inputs that get handles. */
	readonly move: readonly string[];
	/** Names that are dimensioned. */
	readonly dimension: readonly string[];
	/** Whether what is too small to see stands enlarged beside it. */
	readonly detail: boolean;
	/** Inputs that are read off the drawn thing, in the order they are taken: each gets a box of its own. */
	readonly ask: readonly string[];
	readonly about: string;
}

/** More than a hand can tell apart on one drawing. */
const mostHandles = 4;
/** More than there is room for round one drawing. */
const mostAsked = 16;

const shapeOf = keptShape(({ crops, states }: DrawingWords) =>
	z.strictObject({
		name: nameShape,
		title: z.string().min(1),
		crop: z.enum([...crops]),
		show: z.array(z.enum([...states])).min(1),
		move: z.array(nameShape).max(mostHandles).default([]),
		dimension: z.array(nameShape).default([]),
		detail: z.boolean().default(false),
		ask: z.array(nameShape).max(mostAsked).default([]),
		about: z.string().default(''),
	}),
);

export const readDrawing: KindReader<DrawingCell> = (block, { drawing }) => {
	const found = readDrawn(shapeOf, block, drawing);
	if (!found.value) return { problems: found.problems };
	const mention = mentionIn(found);
	const { move, dimension, ask } = found.value;
	return {
		cell: {
			kind: 'drawing',
			...found.value,
			page: block.page,
			line: block.body.line - 1,
			gives: [],
			asks: [],
			mentions: [
				...move.map((name, index) => mention(['move', index], name, 'entry')),
				...dimension.map((name, index) => mention(['dimension', index], name, 'any')),
				...ask.map((name, index) => mention(['ask', index], name, 'input')),
			],
		},
		problems: [],
	};
};
