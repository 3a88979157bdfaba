/** `check`: conditions over figures; the first that holds says how things stand and what to do. */
import { z } from 'zod';
import type { Level } from '../levels.ts';
import { figuresInText } from '../prose.ts';
import type { Asked, CellBase } from '../types.ts';
import { nameShape, type KindReader, readBlock } from './reader.ts';

const shape = z.strictObject({
	name: nameShape,
	label: z.string().min(1),
	/** In order; the first condition that holds counts. */
	when: z
		.array(
			z.strictObject({
				level: z.enum(['caution', 'stop']),
				if: z.string().min(1),
				because: z.string().min(1),
				do: z.string().min(1),
			}),
		)
		.min(1),
	/** What it says when none holds. */
	clear: z.string().min(1),
	/** What it says when the ± of its figures reaches across a limit, so that it may hold or fail. */
	within: z.string().min(1).optional(),
	/** Where the limit comes from. */
	source: z.string().min(1),
});

export interface CheckCase {
	readonly level: Exclude<Level, 'clear'>;
	/** Id of the condition. */
	readonly condition: string;
	readonly because: string;
	readonly do: string;
}

export interface CheckCell extends CellBase {
	readonly kind: 'check';
	readonly label: string;
	readonly cases: readonly CheckCase[];
	readonly clear: string;
	readonly within?: string;
	readonly source: string;
}

export const readCheck: KindReader<CheckCell> = (block) => {
	const found = readBlock(shape, block);
	if (!found.value) return { problems: found.problems };
	const written = found.value;
	const asks: Asked[] = [];
	const cases = written.when.map((each, index): CheckCase => {
		const id = `${written.name}/${index.toString()}`;
		asks.push({
			id,
			formula: { ...found.place(['when', index, 'if']), text: each.if },
			expects: 'flag',
		});
		return { level: each.level, condition: id, because: each.because, do: each.do };
	});
	const texts: (readonly [PropertyKey[], string])[] = [
		[['clear'], written.clear],
		...(written.within === undefined
			? []
			: [[['within'], written.within] satisfies [PropertyKey[], string]]),
		...written.when.flatMap((each, index): (readonly [PropertyKey[], string])[] => [
			[['when', index, 'because'], each.because],
			[['when', index, 'do'], each.do],
		]),
	];
	return {
		cell: {
			kind: 'check',
			name: written.name,
			page: block.page,
			line: block.body.line - 1,
			label: written.label,
			cases,
			clear: written.clear,
			...(written.within !== undefined && { within: written.within }),
			source: written.source,
			gives: [],
			asks,
			mentions: texts.flatMap(([path, text]) => {
				const names = figuresInText(text);
				if (names.length === 0) return [];
				const at = found.place(path);
				return names.map((name) => ({ name, at, must: 'any' as const }));
			}),
		},
		problems: [],
	};
};
