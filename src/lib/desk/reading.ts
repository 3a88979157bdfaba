/**
 * The open workbook: the shipped one, and the pages a job has of its own. What reads a page, with its parsers,
 * comes only when there are some.
 */
import type { OwnPage } from '../job/job.ts';
import type { Workbook } from '../language/workbook.ts';
import { shippedText } from './shipped.ts';

/**
 * Reads the pages of a job into the shipped workbook.
 * @param pages none gives the shipped workbook itself, at once
 * @throws when what reads pages cannot be loaded
 */
export async function openWorkbook(
	shipped: Workbook,
	pages: readonly OwnPage[] = [],
): Promise<Workbook> {
	if (pages.length === 0) return shipped;
	const [{ readWithPages }, text] = await Promise.all([
		import('./read-with-pages.ts'),
		shippedText(),
	]);
	return readWithPages(shipped.id, text, pages);
}
