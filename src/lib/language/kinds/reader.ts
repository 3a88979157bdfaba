/** What reads a block of one kind, and what such readers share. */
import { z } from 'zod';
import { readEntry, type Read } from '../../units/entry.ts';
import { keptWords } from '../formula.ts';
import { unitNamed } from '../../units/units.ts';
import { problemInBlock } from '../problem.ts';
import type { Quantities, Quantity } from '../../units/quantities.ts';
import type { DrawingWords } from '../trade.ts';
import type { Asked, Block, Mention, Problem } from '../types.ts';
import { readYaml, type YamlFound } from '../yaml.ts';

export interface ReaderContext {
	readonly quantities: Quantities;
	/** What a drawing of the trade may show. */
	readonly drawing?: DrawingWords | undefined;
}

/** Reads one block. Without a cell the block is shown as unreadable. */
export type KindReader<C> = (
	block: Block,
	context: ReaderContext,
) => { readonly cell?: C; readonly problems: readonly Problem[] };

/** Reads what is written in a block. */
export function readBlock<V>(shape: z.ZodType<V>, block: Block): YamlFound<V> {
	return readYaml(shape, block.body, block.page, `${block.kind} ${block.number.toString()}`);
}

/** The shape of what is drawn, by the words of the trade: made once, for making it costs more than a cell. */
export function keptShape<V>(
	make: (words: DrawingWords) => z.ZodType<V>,
): (words: DrawingWords) => z.ZodType<V> {
	const shapes = new WeakMap<DrawingWords, z.ZodType<V>>();
	return (words) => {
		const shape = shapes.get(words) ?? make(words);
		shapes.set(words, shape);
		return shape;
	};
}

/** Reads a block for which the trade has to have something to draw. */
export function readDrawn<V>(
	shapeOf: (words: DrawingWords) => z.ZodType<V>,
	block: Block,
	words: DrawingWords | undefined,
): YamlFound<V> {
	if (words) return readBlock(shapeOf(words), block);
	const message = 'This workbook has nothing to draw to scale. Take the cell out.';
	return { problems: [problemInBlock(message, block)], place: () => block.body };
}

export const nameShape = z.string().regex(/^[a-z][a-z0-9_]*$/, {
	message: 'a name is small letters, figures and underscores, beginning with a letter',
});

/** YAML reads a bare 5 as a number; a written amount may be either. */
export const amountShape = z.union([z.string().min(1), z.number()]).transform(String);

/** Names that a unit has already, or that the language keeps for itself. */
export function nameTaken(name: string): string | undefined {
	if (keptWords.has(name)) {
		return `“${name}” is a word of the formula language, so nothing can have it as its name. Choose another.`;
	}
	return unitNamed(name)
		? `“${name}” is a unit, so nothing else can have that name. Choose another.`
		: undefined;
}

/** Makes a mention of the name that stands at a path of a block. */
export function mentionIn(
	found: YamlFound<unknown>,
): (path: readonly PropertyKey[], name: string, must: Mention['must'], like?: string) => Mention {
	return (path, name, must, like) => ({
		name,
		at: found.place(path),
		must,
		...(like !== undefined && { like }),
	});
}

/** Asks for formulas of a cell one after another, and gives their ids. */
export function askIn(
	found: YamlFound<unknown>,
	cell: string,
	asks: Asked[],
): (path: readonly PropertyKey[], text: string, like?: string) => string {
	return (path, text, like) => {
		const id = `${cell}/${asks.length.toString()}`;
		asks.push({
			id,
			formula: { ...found.place(path), text },
			expects: 'quantity',
			...(like !== undefined && { like }),
		});
		return id;
	};
}

/** What the entry reader made of a text before, by quantity: a workbook writes the same few again and again. */
const amounts = new WeakMap<Quantity, Map<string, WrittenAmount>>();

type WrittenAmount = { readonly read: Read<number>; readonly hasUnit: boolean };

function amountOf(text: string, quantity: Quantity): WrittenAmount {
	const { unit } = quantity.shown['inch-pound'];
	const read = readEntry(text, unit);
	if ('problem' in read || unit.name === '') return { read, hasUnit: true };
	// Read in a unit of another size it comes out otherwise when any part of it has no unit.
	const other = readEntry(text, { ...unit, size: unit.size * 2 });
	return { read, hasUnit: 'value' in other && other.value === read.value };
}

/** An amount written on a page: a number with its unit, or a bare one of a plain number. */
export function writtenAmount(text: string, quantity: Quantity, field: string): Read<number> {
	const before = amounts.get(quantity) ?? new Map<string, WrittenAmount>();
	const { read, hasUnit } = before.get(text) ?? amountOf(text, quantity);
	amounts.set(quantity, before.set(text, { read, hasUnit }));
	if ('problem' in read) return { problem: `“${field}”: ${read.problem}` };
	if (hasUnit) return read;
	return {
		problem: `“${field}: ${text}” has no unit; a page is read in either system, so write one, such as ${text} ${quantity.shown['inch-pound'].unit.name}.`,
	};
}

/** "1 in to 5 in" as two amounts. */
export function writtenRange(
	text: string,
	quantity: Quantity,
	field: string,
): { low: number; high: number } | { problem: string } {
	const parts = text.split(/\s+to\s+/);
	const [first, second] = parts;
	if (parts.length !== 2 || first === undefined || second === undefined) {
		return {
			problem: `“${field}: ${text}” is not a range; write it as “low to high”, such as 1 in to 5 in.`,
		};
	}
	const low = writtenAmount(first, quantity, field);
	if ('problem' in low) return low;
	const high = writtenAmount(second, quantity, field);
	if ('problem' in high) return high;
	if (!(low.value < high.value)) {
		return {
			problem: `“${field}: ${text}” runs backwards: the first amount has to be smaller than the second.`,
		};
	}
	return { low: low.value, high: high.value };
}

/** The place in a block of a line that begins with this field. */
function fieldPlace(block: Block, field: string): number {
	const found = new RegExp(`^\\s*(?:- )?${field}\\s*:`, 'm').exec(block.body.text);
	return found ? found.index + (/^\s*/.exec(found[0])?.[0].length ?? 0) : 0;
}

export function problemInField(message: string, block: Block, field: string): Problem {
	return problemInBlock(message, block, fieldPlace(block, field));
}
