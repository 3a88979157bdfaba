/** `drawing`: the side elevation to scale, as it was and as it will be. */
import { z } from 'zod';
import type { CellBase, Mention } from '../types.ts';
import { readYaml } from '../yaml.ts';
import { mentionIn, nameShape, type KindReader } from './reader.ts';

/** What is drawn of one state, and which kind of record each part is. */
const records = {
	mount: 'spring mount',
	spring: 'spring in its place',
	axle: 'axle place',
	pinion: 'joint centre',
	transmission: 'joint centre',
} as const;

const state = z.strictObject({
	mount: nameShape,
	spring: nameShape,
	axle: nameShape,
	pinion: nameShape,
	transmission: nameShape,
	/** Loaded tyre radius. */
	tyre: nameShape,
});

const shape = z.strictObject({
	name: nameShape,
	title: z.string().min(1),
	before: state,
	after: state,
	/** How far the frame turns on the floor, nose-up positive. */
	rake: nameShape,
	/** Figures that are written into it: the drop, the shaft's length, and both operating angles. */
	write: z.strictObject({
		drop: nameShape,
		shaft: nameShape,
		front_joint: nameShape,
		rear_joint: nameShape,
	}),
	about: z.string().optional(),
});

export type DrawnState = z.infer<typeof state>;

export interface DrawingCell extends CellBase {
	readonly kind: 'drawing';
	readonly title: string;
	readonly before: DrawnState;
	readonly after: DrawnState;
	readonly rake: string;
	readonly write: z.infer<typeof shape>['write'];
	readonly about: string;
}

export const readDrawing: KindReader<DrawingCell> = (block) => {
	const found = readYaml(shape, block.body, block.page, `${block.kind} ${block.number}`);
	if (!found.value) return { problems: found.problems };
	const { about, ...written } = found.value;
	const mention = mentionIn(found);
	const ofState = (which: 'before' | 'after'): Mention[] => [
		...Object.entries(records).map(([part, like]) =>
			mention([which, part], written[which][part as keyof typeof records], 'record', like),
		),
		mention([which, 'tyre'], written[which].tyre, 'quantity'),
	];
	return {
		cell: {
			kind: 'drawing',
			...written,
			page: block.page,
			line: block.body.line - 1,
			about: about ?? '',
			gives: [],
			asks: [],
			mentions: [
				...ofState('before'),
				...ofState('after'),
				mention(['rake'], written.rake, 'quantity'),
				...Object.entries(written.write).map(([part, name]) =>
					mention(['write', part], name, 'quantity'),
				),
			],
		},
		problems: [],
	};
};
