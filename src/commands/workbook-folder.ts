/** Reads a workbook from its folder on disk; the browser gets the same files bundled. */
import { readFileSync, readdirSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { readWorkbook, type Workbook } from '../lib/language/workbook.ts';
import { lowering } from '../lib/trade/lowering.ts';

const workbooks = fileURLToPath(new URL('../../workbooks/', import.meta.url));

/** @param id name of a folder under workbooks/ */
export function readWorkbookFolder(id: string): Workbook {
	const folder = join(workbooks, id);
	const files = new Map<string, string>();
	for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
		if (!entry.isFile()) continue;
		const path = join(entry.parentPath, entry.name);
		files.set(relative(folder, path).split(sep).join('/'), readFileSync(path, 'utf8'));
	}
	return readWorkbook(id, files, lowering);
}
