/**
 * The shipped workbook. It was read when the program was built: what comes with every page is names and trees,
 * what a page alone shows comes with that page, and its text only for whoever looks at it.
 */
import packed, { hash, version } from 'virtual:workbook';
import folded from 'virtual:workbook/folded';
import stories from 'virtual:workbook/stories';
import words from 'virtual:workbook/words';
import { unpack, type PackedShared, type PackedWords } from '../language/packed.ts';
import type { TradeDrawing } from '../language/trade.ts';
import type { Page } from '../language/workbook.ts';
import { mechanicsFunctions } from '../trade/rows/index.ts';
import type { Shipped } from './reading.ts';

/** Its pages have no words, and their cells no more than names; see OpenJob.tell. */
export const shipped = unpack(packed, { functions: mechanicsFunctions });

/** The words of one of its pages; none for a page it has not. Where a page is written, what it tells is among them. */
export async function shippedWords(page: string): Promise<PackedWords | undefined> {
	const found = Object.hasOwn(words, page) ? (await words[page]?.())?.default : undefined;
	return found && import.meta.env.SSR
		? {
				...found,
				folded: (await shippedFolded(page)) ?? [],
				stories: (await shippedStories(page)) ?? {},
			}
		: found;
}

async function shippedFolded(page: string): Promise<PackedWords['folded']> {
	return Object.hasOwn(folded, page) ? (await folded[page]?.())?.default : undefined;
}

async function shippedStories(page: string): Promise<Page['stories'] | undefined> {
	return Object.hasOwn(stories, page) ? (await stories[page]?.())?.default : undefined;
}

/** The cells of its pages that others show. */
export async function shippedShared(): Promise<Readonly<Record<string, PackedShared>>> {
	return (await import('virtual:workbook/shared')).default;
}

/** Its files: text by path. */
async function text(): Promise<ReadonlyMap<string, string>> {
	const { default: files } = await import('virtual:workbook/text');
	return new Map(
		await Promise.all(
			Object.entries(files).map(async ([path, load]): Promise<[string, string]> => [
				path,
				(await load()).default,
			]),
		),
	);
}

/** What its trade draws to scale. */
export async function shippedDrawing(): Promise<TradeDrawing | undefined> {
	return (await import('../trade/lowering.ts')).lowering.drawing;
}

/** What this program was built with. */
export const builtWith: Shipped = {
	...{
		workbook: shipped,
		hash,
		version,
		text,
		drawing: shippedDrawing,
		shared: shippedShared,
		folded: shippedFolded,
		stories: shippedStories,
	},
	...(import.meta.env.SSR && {
		atOnce: { drawing: await shippedDrawing(), shared: await shippedShared() },
	}),
};
