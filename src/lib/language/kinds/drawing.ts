/** `drawing`: what the trade draws to scale, as it was and as it will be. */
import { z } from 'zod';
import type { DrawingParts } from '../trade.ts';
import { problemInBlock } from '../problem.ts';
import type { CellBase, Mention } from '../types.ts';
import { readYaml } from '../yaml.ts';
import { mentionIn, nameShape, type KindReader } from './reader.ts';

/** Names of figures by what they are of: a part that is drawn, or a place where one is written. */
export type DrawnNames = Readonly<Record<string, string>>;

export interface DrawingCell extends CellBase {
	readonly kind: 'drawing';
	readonly title: string;
	readonly before: DrawnNames;
	readonly after: DrawnNames;
	/** How far what is drawn turns on the floor between them. */
	readonly rake: string;
	readonly write: DrawnNames;
	readonly about: string;
}

/** Fields with these names, each a name of the workbook. */
function namesOf(fields: readonly string[]): z.ZodType<Record<string, string>> {
	return z.strictObject(Object.fromEntries(fields.map((field) => [field, nameShape])));
}

function shapeOf({ parts, write }: DrawingParts) {
	const state = namesOf(Object.keys(parts));
	return z.strictObject({
		name: nameShape,
		title: z.string().min(1),
		before: state,
		after: state,
		rake: nameShape,
		write: namesOf(write),
		about: z.string().optional(),
	});
}

export const readDrawing: KindReader<DrawingCell> = (block, { drawing }) => {
	if (!drawing) {
		const message = 'This workbook has nothing to draw to scale. Take the cell out.';
		return { problems: [problemInBlock(message, block)] };
	}
	const found = readYaml(
		shapeOf(drawing),
		block.body,
		block.page,
		`${block.kind} ${block.number.toString()}`,
	);
	if (!found.value) return { problems: found.problems };
	const { about, ...written } = found.value;
	const mention = mentionIn(found);
	const ofState = (which: 'before' | 'after'): Mention[] =>
		Object.entries(drawing.parts).map(([part, like]) => {
			const name = written[which][part] ?? '';
			return like === ''
				? mention([which, part], name, 'quantity')
				: mention([which, part], name, 'record', like);
		});
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
