/**
 * The shipped workbook. It was read when the program was built: what comes with the page is cells and trees,
 * the words of a page come with that page, and its text only for whoever looks at it.
 */
import packed, { hash, version } from 'virtual:workbook';
import words from 'virtual:workbook/words';
import { unpack, type PackedWords } from '../language/packed.ts';
import { lowering } from '../trade/lowering.ts';
import type { Shipped } from './reading.ts';

/** Its pages have no words; see shippedWords. */
export const shipped = unpack(packed, lowering);

/** The words of one of its pages; none for a page it has not. */
export async function shippedWords(page: string): Promise<PackedWords | undefined> {
	return Object.hasOwn(words, page) ? (await words[page]?.())?.default : undefined;
}

/** Its files: text by path. */
async function text(): Promise<ReadonlyMap<string, string>> {
	const { default: files } = await import('virtual:workbook/text');
	return new Map(Object.entries(files));
}

/** What this program was built with. */
export const builtWith: Shipped = {
	workbook: shipped,
	hash,
	version,
	text,
	drawing: lowering.drawing,
};
