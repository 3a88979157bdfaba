/** `compare`: figures and checks down the side, the kits of parts a person has in mind across. */
import { z } from 'zod';
import type { CellBase, Mention } from '../types.ts';
import { readYaml } from '../yaml.ts';
import { mentionIn, nameShape, type KindReader } from './reader.ts';

const shape = z.strictObject({
	name: nameShape,
	title: z.string().min(1),
	/** The inputs a kit sets; all else is as it stands in the job. */
	set: z.array(nameShape).min(1),
	show: z.array(nameShape).min(1),
	/** Names of check cells. */
	checks: z.array(nameShape).optional(),
	/** Name of the chart cell each kit is drawn in. */
	chart: nameShape.optional(),
});

export interface CompareCell extends CellBase {
	readonly kind: 'compare';
	readonly title: string;
	readonly set: readonly string[];
	readonly show: readonly string[];
	readonly checks: readonly string[];
	readonly chart?: string;
}

export const readCompare: KindReader<CompareCell> = (block) => {
	const found = readYaml(shape, block.body, block.page, `${block.kind} ${block.number.toString()}`);
	if (!found.value) return { problems: found.problems };
	const { name, title, set, show, checks = [], chart } = found.value;
	const mention = mentionIn(found);
	const mentions = (field: string, names: readonly string[], must: Mention['must']): Mention[] =>
		names.map((each, index) => mention([field, index], each, must));
	return {
		cell: {
			kind: 'compare',
			name,
			page: block.page,
			line: block.body.line - 1,
			title,
			set,
			show,
			checks,
			...(chart !== undefined && { chart }),
			gives: [],
			asks: [],
			mentions: [
				...mentions('set', set, 'entry'),
				...mentions('show', show, 'quantity'),
				...mentions('checks', checks, 'check'),
				...(chart === undefined ? [] : [mention(['chart'], chart, 'chart')]),
			],
		},
		problems: [],
	};
};
