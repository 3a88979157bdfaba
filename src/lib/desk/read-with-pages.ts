/** Reads a workbook with pages that were written after it was built. Loaded only when there are such. */
import { parseDocument } from 'yaml';
import type { OwnPage } from '../job/job.ts';
import { WorkbookReader } from '../language/read-workbook.ts';
import type { Workbook } from '../language/workbook.ts';
import { lowering } from '../trade/lowering.ts';

/** The files of a workbook, its own pages among them: behind the shipped ones, or in place of one. */
export function filesWithPages(
	files: ReadonlyMap<string, string>,
	pages: readonly OwnPage[],
): ReadonlyMap<string, string> {
	const all = new Map(files);
	const head = parseDocument(files.get('workbook.yaml') ?? '');
	for (const { id, text } of pages) {
		if (!all.has(`${id}.md`)) head.addIn(['pages'], id);
		all.set(`${id}.md`, text);
	}
	all.set('workbook.yaml', String(head));
	return all;
}

/** Reads only what changed since it last read. */
const reader = new WorkbookReader(lowering);

/**
 * @param id of the workbook
 * @param files of the workbook as shipped
 */
export function readWithPages(
	id: string,
	files: ReadonlyMap<string, string>,
	pages: readonly OwnPage[],
): Workbook {
	return reader.read(id, filesWithPages(files, pages));
}
