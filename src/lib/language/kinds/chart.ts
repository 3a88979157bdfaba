/** `chart`: an input swept over a range, and figures drawn against it. */
import { z } from 'zod';
import type { Asked, CellBase } from '../types.ts';
import {
	amountShape,
	askIn,
	mentionIn,
	nameShape,
	problemInField,
	type KindReader,
	readBlock,
} from './reader.ts';

const shape = z.strictObject({
	name: nameShape,
	title: z.string().min(1),
	/** The inputs that can be swept; the first is swept unless the person picks another. */
	sweep: z.array(z.strictObject({ input: nameShape, from: amountShape, to: amountShape })).min(1),
	/** What stands along the bottom: a figure, or the swept input when left out. */
	bottom: nameShape.optional(),
	draw: z.array(nameShape).min(1),
	bands: z
		.array(z.strictObject({ from: amountShape, to: amountShape, label: z.string().min(1) }))
		.optional(),
	/** What each of them was before the job, in the same order. */
	before: z.array(nameShape).min(1).optional(),
	/** Name of the cell whose ways are marked along the bottom. */
	ways: nameShape.optional(),
	/** What it means that a figure is nought; their sign then only tells to which side they are. */
	nought: z.string().min(1).optional(),
	/** What it is called where the first two lines are equal, and where they are equal and opposite. */
	equal: z.string().min(1).optional(),
	opposite: z.string().min(1).optional(),
	/** What to see in it, one sentence. */
	about: z.string().optional(),
});

export interface Sweep {
	readonly input: string;
	/** Ids of the formulas for the two ends. */
	readonly from: string;
	readonly to: string;
}

export interface Band {
	readonly from: string;
	readonly to: string;
	readonly label: string;
}

export interface ChartCell extends CellBase {
	readonly kind: 'chart';
	readonly title: string;
	readonly about: string;
	readonly sweeps: readonly Sweep[];
	readonly bottom?: string;
	readonly draw: readonly string[];
	/** In the order of what is drawn; empty where nothing is said of it. */
	readonly before: readonly string[];
	readonly ways?: string;
	readonly nought?: string;
	readonly equal?: string;
	readonly opposite?: string;
	readonly bands: readonly Band[];
}

export const readChart: KindReader<ChartCell> = (block) => {
	const found = readBlock(shape, block);
	if (!found.value) return { problems: found.problems };
	const written = found.value;
	const { draw, before = [], ways, nought, equal, opposite } = written;
	if (written.before && before.length !== draw.length) {
		const problem = `“before” has ${before.length.toString()} names and “draw” has ${draw.length.toString()}; give each figure drawn the one that it was before, in the same order.`;
		return { problems: [problemInField(problem, block, 'before')] };
	}
	const asks: Asked[] = [];
	const ask = askIn(found, written.name, asks);
	const mention = mentionIn(found);
	const drawn = draw[0] ?? '';
	const sweeps = written.sweep.map((sweep, index) => ({
		input: sweep.input,
		from: ask(['sweep', index, 'from'], sweep.from, sweep.input),
		to: ask(['sweep', index, 'to'], sweep.to, sweep.input),
	}));
	const bands = (written.bands ?? []).map((band, index) => ({
		label: band.label,
		from: ask(['bands', index, 'from'], band.from, drawn),
		to: ask(['bands', index, 'to'], band.to, drawn),
	}));
	return {
		cell: {
			kind: 'chart',
			name: written.name,
			page: block.page,
			line: block.body.line - 1,
			title: written.title,
			about: written.about ?? '',
			sweeps,
			...(written.bottom !== undefined && { bottom: written.bottom }),
			draw,
			before,
			...(ways !== undefined && { ways }),
			...(nought !== undefined && { nought }),
			...(equal !== undefined && { equal }),
			...(opposite !== undefined && { opposite }),
			bands,
			gives: [],
			asks,
			mentions: [
				...written.sweep.map(({ input }, index) =>
					mention(['sweep', index, 'input'], input, 'input'),
				),
				...(written.bottom === undefined ? [] : [mention(['bottom'], written.bottom, 'quantity')]),
				...draw.map((name, index) => mention(['draw', index], name, 'quantity')),
				...(ways === undefined ? [] : [mention(['ways'], ways, 'ways')]),
				...before.map((name, index) => mention(['before', index], name, 'quantity')),
			],
		},
		problems: [],
	};
};
