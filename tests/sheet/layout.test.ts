/** Where the parts of a page go on its sheet. */
import { expect, test } from 'vitest';
import { foldedWith, layOut } from '../../src/lib/sheet/layout.ts';
import { fence, inputCell, smallWorkbook } from '../language/small-workbook.ts';

const page = [
	'---',
	'title: A page',
	'summary: S',
	'document: D',
	'sections:',
	'  Why it is so: why',
	'  A further tool: tool',
	'  In full: figures',
	'---',
	'Words first.\n',
	inputCell('given', 'length'),
	fence('derive', 'twice = 2 * given  # Twice'),
	fence(
		'check',
		'name: small',
		'label: Small enough',
		'when:',
		'  - { level: stop, if: twice > 1 in, because: Too large., do: Take less. }',
		'clear: It is small.',
		'source: common practice, no source',
	),
	'## Why it is so\n\nBecause.\n',
	'## A further tool\n\n',
	inputCell('other', 'length'),
	fence('derive', 'thrice = 3 * other  # Thrice'),
	'## In full\n\nAll of it.\n',
	fence('derive', 'four_times = 4 * given  # Four times'),
].join('\n');
const [read] = smallWorkbook({}, { pages: ['a-page'], files: { 'a-page.md': page } }).pages;
if (!read) throw new Error('no page');
const layout = layOut(read);

const namesOf = (parts: typeof layout.asked): string[] =>
	parts.map((part) => (part.part === 'prose' ? 'words' : (part.cell.gives[0]?.name ?? '')));

test('what is asked stands open, checks apart, and every figure is folded away', () => {
	expect(namesOf(layout.asked)).toEqual(['words', 'given']);
	expect(layout.checks.map(({ name }) => name)).toEqual(['small']);
	expect(namesOf(layout.figures)).toEqual(['twice', 'thrice', 'words', 'four_times']);
	expect(layout.views).toEqual([]);
});

test('a folded section has an address and says its heading once', () => {
	expect(layout.folded.map(({ id, parts }) => [id, ...namesOf(parts)])).toEqual([
		['why-it-is-so', 'words'],
		['a-further-tool', 'other'],
	]);
	const [why] = layout.folded[0]?.parts ?? [];
	expect(why?.part === 'prose' && why.tokens.some(({ type }) => type === 'heading')).toBe(false);
	expect(layout.why).toBe('why-it-is-so');
});

test('an address finds what it is folded into', () => {
	expect(foldedWith(layout, 'thrice')).toBe('all-figures');
	expect(foldedWith(layout, 'other')).toBe('a-further-tool');
	expect(foldedWith(layout, 'given')).toBeUndefined();
});

test('a page is short for its file name unless it says otherwise', () => {
	expect(read.short).toBe('A page');
	const named = page.replace('summary: S', 'short: Aye\nsummary: S');
	const [other] = smallWorkbook({}, { pages: ['a-page'], files: { 'a-page.md': named } }).pages;
	expect(other?.short).toBe('Aye');
});
