/** Reads a workbook from its folder on disk, and packs it for a browser. */
import { createHash } from 'node:crypto';
import { readFileSync, readdirSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import {
	pack,
	packShared,
	packWords,
	type Packed,
	type PackedShared,
	type PackedWords,
} from '../lib/language/packed.ts';
import { readWorkbook } from '../lib/language/read-workbook.ts';
import type { Workbook } from '../lib/language/workbook.ts';
import type { FunctionInWords } from '../lib/language/function-row.ts';
import { functionsInWords } from './function-words.ts';
import { lowering } from '../lib/trade/lowering.ts';

const workbooks = fileURLToPath(new URL('../../workbooks/', import.meta.url));

/**
 * The files of a workbook: text by path inside its folder.
 * @param id name of a folder under workbooks/
 */
export function workbookText(id: string): Map<string, string> {
	const folder = join(workbooks, id);
	const files = new Map<string, string>();
	for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
		if (!entry.isFile()) continue;
		const path = join(entry.parentPath, entry.name);
		files.set(relative(folder, path).split(sep).join('/'), readFileSync(path, 'utf8'));
	}
	return files;
}

/** @param id name of a folder under workbooks/ */
export function readWorkbookFolder(id: string): Workbook {
	return readWorkbook(id, workbookText(id), lowering);
}

/** A workbook as a browser gets it. */
export interface PackedFolder {
	readonly packed: Packed;
	/** By page. */
	readonly words: Readonly<Record<string, PackedWords>>;
	/** By page. */
	readonly shared: Readonly<Record<string, PackedShared>>;
	/** By path. */
	readonly text: Readonly<Record<string, string>>;
	readonly functions: readonly FunctionInWords[];
	/** SHA-256 of all its text, in hexadecimal. */
	readonly hash: string;
}

/** @param id name of a folder under workbooks/ */
export function packWorkbookFolder(id: string): PackedFolder {
	const files = workbookText(id);
	const workbook = readWorkbook(id, files, lowering);
	const hash = createHash('sha256');
	for (const [path, text] of [...files].sort(([a], [b]) => (a < b ? -1 : 1))) {
		hash.update(`${path}\n${text}\n`);
	}
	return {
		packed: pack(workbook),
		words: Object.fromEntries(workbook.pages.map((page) => [page.id, packWords(page)])),
		shared: packShared(workbook),
		text: Object.fromEntries(files),
		functions: functionsInWords(),
		hash: hash.digest('hex'),
	};
}
