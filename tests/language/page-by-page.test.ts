/** A workbook is read page by page: what has not changed is kept, as the very same object. */
import { expect, test } from 'vitest';
import { workbookText } from '../../src/commands/workbook-folder.ts';
import { readWorkbook, WorkbookReader } from '../../src/lib/language/read-workbook.ts';
import { lowering } from '../../src/lib/trade/lowering.ts';

const files = workbookText('lowering');
const reader = new WorkbookReader(lowering);
const first = reader.read('lowering', files);

/** The files with one of them changed. */
function withChange(path: string, change: (text: string) => string): Map<string, string> {
	const text = files.get(path) ?? '';
	expect(change(text)).not.toBe(text);
	return new Map([...files, [path, change(text)]]);
}

test('the first reading reads every page', () => {
	expect(new Set(reader.pagesRead)).toEqual(new Set(first.pages.map(({ id }) => id)));
});

test('nothing is read when nothing has changed', () => {
	const again = reader.read('lowering', files);
	expect(reader.pagesRead).toEqual([]);
	again.pages.forEach((page, index) => {
		expect(page).toBe(first.pages[index]);
	});
	expect(again.quantities).toBe(first.quantities);
});

test('a page edited is read alone, and the whole comes out as if all were read', () => {
	const edited = withChange('wedge.md', (text) =>
		text.replace(/^```derive\n/m, '```derive\nnew_figure = rear_drop * 2  # New\n'),
	);
	const after = reader.read('lowering', edited);
	expect(reader.pagesRead).toEqual(['wedge']);
	after.pages.forEach((page, index) => {
		if (page.id === 'wedge') expect(page).not.toBe(first.pages[index]);
		else expect(page).toBe(first.pages[index]);
	});
	for (const node of after.graph.nodes) {
		const before = first.graph.byId.get(node.id);
		if (node.cell.page !== 'wedge') expect(node.formula, node.id).toBe(before?.formula);
	}
	expect(after).toEqual(readWorkbook('lowering', edited, lowering));
});

test('a scenario edited reads no page, and only its stories are new', () => {
	const edited = withChange('scenarios/short-frame.yaml', (text) =>
		text.replace('**Decision.**', '**Decision.** Well,'),
	);
	const after = reader.read('lowering', edited);
	reader.read('lowering', edited);
	expect(reader.pagesRead).toEqual([]);
	expect(after).toEqual(readWorkbook('lowering', edited, lowering));
});

test('other quantities are other cells: every page is read', () => {
	const edited = withChange('workbook.yaml', (text) => text.replace('decimals: 2', 'decimals: 3'));
	const after = reader.read('lowering', edited);
	expect(reader.pagesRead).toHaveLength(first.pages.length);
	expect(after).toEqual(readWorkbook('lowering', edited, lowering));
});
