/** What stands open on a sheet is little: the drawing, a few entries, a verdict, a few words. */
import type { Token } from 'marked';
import { describe, expect, test } from 'vitest';
import type { Page } from '../../src/lib/language/workbook.ts';
import { shipped } from './shipped.ts';

/** The seven readings of the stock truck are one form; every other sheet asks for six at most. */
const entriesAtMost: Readonly<Record<string, number>> = { measure: 7 };
const recut = ['bench', 'measure', 'kits', 'order'];

function openParts(page: Page): Page['parts'] {
	return page.sections.flatMap(({ depth, parts }) => (depth === 'first' ? parts : []));
}

/** Words of running text; lettering, headings and tables are looked at, not read. */
function wordsOf(tokens: readonly Token[]): number {
	return tokens
		.flatMap(({ type, raw }) => (['paragraph', 'blockquote', 'list'].includes(type) ? [raw] : []))
		.join(' ')
		.replace(/\{\w+\}/g, 'figure')
		.replace(/\]\([a-z-]+\)/g, '')
		.split(/[\s>*[]+/)
		.filter((word) => /[\p{L}\p{N}]/u.test(word)).length;
}

describe.each(shipped.pages.filter(({ id }) => recut.includes(id)))('$id', (page) => {
	const parts = openParts(page);
	const kinds = parts.flatMap((part) => (part.part === 'cell' ? [part.cell.kind as string] : []));
	const count = (...of: string[]): number => kinds.filter((kind) => of.includes(kind)).length;

	test('begins with its drawing', () => {
		// A comparison lays its kits over one another on a drawing of its own.
		expect(['drawing', 'compare']).toContain(kinds[0]);
		expect(count('drawing', 'compare')).toBe(1);
	});

	test('has at most one chart or table of readings, six entries, three checks and no formula', () => {
		expect(count('chart', 'against')).toBeLessThanOrEqual(1);
		expect(count('input')).toBeLessThanOrEqual(entriesAtMost[page.id] ?? 6);
		expect(count('check')).toBeLessThanOrEqual(3);
		expect(count('derive')).toBe(0);
	});

	test('says at most sixty words', () => {
		const tokens = parts.flatMap((part) => (part.part === 'prose' ? part.tokens : []));
		expect(wordsOf(tokens)).toBeLessThanOrEqual(60);
	});

	test('says no sentence twice', () => {
		const sentences = page.parts
			.flatMap((part) => (part.part === 'prose' ? part.tokens : []))
			.flatMap(({ type, raw }) => (type === 'paragraph' || type === 'blockquote' ? [raw] : []))
			.flatMap((raw) => raw.replace(/[>*]/g, '').split(/(?<=[.!?:])\s+/))
			.map((sentence) => sentence.trim())
			.filter((sentence) => sentence.split(' ').length > 3);
		expect(sentences.filter((each, at) => sentences.indexOf(each) !== at)).toEqual([]);
	});
});
