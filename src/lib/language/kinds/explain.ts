/** `explain`: what was read against what was expected, and for each suspect how much of it would explain that. */
import { z } from 'zod';
import type { Asked, CellBase } from '../types.ts';
import { amountShape, askIn, mentionIn, nameShape, type KindReader, readBlock } from './reader.ts';

const suspect = z.strictObject({
	label: z.string().min(1),
	/** The input that may be off, or several that are off by one amount, as by one gauge. */
	move: z.union([nameShape, z.array(nameShape).min(1)]),
	/** By how much such a thing is off, if it is: a ±. */
	likely: amountShape,
	/** Where to look, a few words. */
	look: z.string().min(1),
});

const pair = z.strictObject({
	label: z.string().min(1),
	expected: nameShape,
	found: nameShape,
});

const shape = z.strictObject({
	name: nameShape,
	title: z.string().min(1),
	/** Figures that would be nought if all were as it is entered: found less expected. */
	read: z.array(nameShape).min(1),
	suspects: z.array(suspect).min(1),
	/** Figures of which plan and readings together say more than either. */
	together: z.array(pair).optional(),
	/** What to see in it, one sentence. */
	about: z.string().optional(),
});

export interface ExplainSuspect {
	readonly label: string;
	/** Names of inputs. */
	readonly move: readonly string[];
	/** Id of the formula. */
	readonly likely: string;
	readonly look: string;
}

export interface ExplainCell extends CellBase {
	readonly kind: 'explain';
	readonly title: string;
	readonly read: readonly string[];
	readonly suspects: readonly ExplainSuspect[];
	readonly together: readonly z.infer<typeof pair>[];
	readonly about: string;
}

export const readExplain: KindReader<ExplainCell> = (block) => {
	const found = readBlock(shape, block);
	if (!found.value) return { problems: found.problems };
	const { name, title, read, suspects, together = [], about } = found.value;
	const mention = mentionIn(found);
	const asks: Asked[] = [];
	const ask = askIn(found, name, asks);
	const moved = suspects.map(({ move }) => [move].flat());
	return {
		cell: {
			kind: 'explain',
			name,
			page: block.page,
			line: block.body.line - 1,
			title,
			read,
			suspects: suspects.map(({ label, likely, look }, index) => ({
				label,
				move: moved[index] ?? [],
				likely: ask(['suspects', index, 'likely'], likely, moved[index]?.[0]),
				look,
			})),
			together,
			about: about ?? '',
			gives: [],
			asks,
			mentions: [
				...read.map((each, index) => mention(['read', index], each, 'quantity')),
				...suspects.flatMap(({ move }, index) =>
					Array.isArray(move)
						? move.map((each, at) => mention(['suspects', index, 'move', at], each, 'input'))
						: [mention(['suspects', index, 'move'], move, 'input')],
				),
				...together.flatMap(({ expected, found: read }, index) => [
					mention(['together', index, 'expected'], expected, 'quantity'),
					mention(['together', index, 'found'], read, 'quantity'),
				]),
			],
		},
		problems: [],
	};
};
