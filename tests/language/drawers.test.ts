/**
 * What a sheet shows before anything is opened. One screen at a desk, three on a phone: a drawing, one or two
 * things to look at, few entries, few verdicts, few words. The rest waits in sections that are folded.
 */
import { describe, expect, test } from 'vitest';
import type { Page, PagePart } from '../../src/lib/language/workbook.ts';
import { shipped } from './shipped.ts';

const sheets = ['stance', 'spring', 'why', 'angles', 'wedge', 'shaft', 'speed', 'travel', 'front'];

function partsOf(page: Page, first: boolean): PagePart[] {
	return page.sections.filter(({ depth }) => (depth === 'first') === first).flatMap((s) => s.parts);
}

function kindsOf(parts: readonly PagePart[]): string[] {
	return parts.flatMap((part) => (part.part === 'cell' ? [part.cell.kind] : []));
}

function count(kinds: readonly string[], ...counted: readonly string[]): number {
	return kinds.filter((kind) => counted.includes(kind)).length;
}

function wordsOf(parts: readonly PagePart[]): number {
	const text = parts.flatMap((part) =>
		part.part === 'prose' ? part.tokens.map(({ raw }) => raw) : [],
	);
	return text.join(' ').match(/[\p{L}\p{N}{][\p{L}\p{N}_'’{}°½/-]*/gu)?.length ?? 0;
}

/** Whole sentences of a text, each once. */
function sentencesIn(texts: readonly string[]): string[] {
	const sentences = texts
		.flatMap((text) => text.split(/(?<=[.!?])\s+/))
		.map((sentence) => sentence.replace(/\s+/g, ' ').trim())
		.filter((sentence) => sentence.split(' ').length > 5);
	return [...new Set(sentences)];
}

/** Sentences of prose, entries, charts and checks. The cases of one check may share some: one of them shows. */
function sentencesOf(page: Page): string[] {
	return page.parts.flatMap((part) => {
		if (part.part === 'prose') {
			return part.tokens.flatMap(({ type, raw }) => (type === 'table' ? [] : sentencesIn([raw])));
		}
		const { cell } = part;
		if (cell.kind === 'input') return sentencesIn([cell.how]);
		if (cell.kind === 'chart' || cell.kind === 'bars') return sentencesIn([cell.about]);
		if (cell.kind !== 'check') return [];
		const cases = cell.cases.flatMap((each) => [each.because, each.do]);
		return sentencesIn([cell.clear, cell.within ?? '', ...cases]);
	});
}

describe.each(sheets)('%s', (id) => {
	const page = shipped.pages.find((each) => each.id === id) as Page;
	const first = partsOf(page, true);
	const kinds = kindsOf(first);

	test('opens with the truck drawn once, or once a way, and something to read off', () => {
		expect(['drawing', 'ways']).toContain(kinds[0]);
		expect(count(kinds, 'drawing', 'ways')).toBe(1);
		expect(count(kinds, 'chart', 'bars')).toBeGreaterThan(0);
	});

	test('opens with five entries, three checks and 60 words at most', () => {
		expect(count(kinds, 'input')).toBeLessThanOrEqual(5);
		expect(count(kinds, 'check')).toBeLessThanOrEqual(3);
		expect(wordsOf(first)).toBeLessThanOrEqual(60);
	});

	test('works out its figures in the drawer for all figures', () => {
		expect(count(kinds, 'derive')).toBe(0);
		expect(page.sections.at(-1)).toMatchObject({ title: 'All figures', depth: 'figures' });
		const before = page.sections.slice(0, -1).flatMap(({ parts }) => kindsOf(parts));
		expect(count(before, 'derive')).toBe(0);
	});

	test('says nothing twice', () => {
		const said = sentencesOf(page);
		expect(said.filter((sentence, at) => said.indexOf(sentence) !== at)).toEqual([]);
	});
});
