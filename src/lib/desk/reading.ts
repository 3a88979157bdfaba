/**
 * The open workbook: the shipped one, and the pages a job has of its own. What reads a page, with its parsers,
 * comes only when there are some.
 */
import type { OwnPage } from '../job/job.ts';
import type { PackedShared, PackedWords } from '../language/packed.ts';
import type { TradeDrawing } from '../language/trade.ts';
import type { Page, Workbook } from '../language/workbook.ts';

/** What the program was built with. */
export interface Shipped {
	readonly workbook: Workbook;
	/** SHA-256 of its text. */
	readonly hash: string;
	/** Version of the program. */
	readonly version?: string;
	/** Its files, text by path. They come only when a page is read. */
	readonly text: () => Promise<ReadonlyMap<string, string>>;
	/** What its trade draws to scale. It comes only where something is drawn. */
	readonly drawing?: () => Promise<TradeDrawing | undefined>;
	/** The cells of its pages that others show, by page. They come only where one does. */
	readonly shared?: () => Promise<Readonly<Record<string, PackedShared>>>;
	/** The prose that is folded away on one of its pages. It comes behind the page. */
	readonly folded?: (page: string) => Promise<PackedWords['folded']>;
	/** What each scenario tells of one of its pages. It comes behind the page. */
	readonly stories?: (page: string) => Promise<Page['stories'] | undefined>;
	/** What would come later, where a page is written before anybody opens it and nothing can. */
	readonly atOnce?: {
		readonly drawing: TradeDrawing | undefined;
		readonly shared: Readonly<Record<string, PackedShared>>;
	};
}

/**
 * Reads the pages of a job into the shipped workbook.
 * @param pages none gives the shipped workbook itself, at once
 * @throws when what reads pages cannot be loaded
 */
export async function openWorkbook(
	{ workbook, text }: Shipped,
	pages: readonly OwnPage[] = [],
): Promise<Workbook> {
	if (pages.length === 0) return workbook;
	const [{ readWithPages }, files] = await Promise.all([import('./read-with-pages.ts'), text()]);
	return readWithPages(workbook.id, files, pages);
}
