/** The sections of a page: made by its headings, with the depth its front matter gives them. */
import { expect, test } from 'vitest';
import { readWorkbook } from '../../src/lib/language/read-workbook.ts';
import type { Page } from '../../src/lib/language/workbook.ts';
import { lowering } from '../../src/lib/trade/lowering.ts';
import { shipped } from './shipped.ts';
import { fence, inputCell, placeOf, smallWorkbook } from './small-workbook.ts';

const body = [
	'Above all headings.\n',
	inputCell('first_given', 'length'),
	'## What it does\n\nText.\n\n### Smaller\n\nMore text.\n',
	inputCell('second_given', 'length'),
	'## Why\n\nText.\n',
	fence('derive', 'twice = 2 * first_given  # Twice'),
	'After the cell.\n',
].join('\n');

function withSections(...lines: readonly string[]) {
	const head = ['---', 'title: A page', 'summary: S', 'document: D', ...lines, '---', ''].join(
		'\n',
	);
	return smallWorkbook({}, { pages: ['one'], files: { 'one.md': head + body } });
}

/** Title, depth, and p for prose or the name of a cell. */
function outline({ sections }: Page): unknown[] {
	return sections.map(({ title, depth, parts }) => [
		title ?? '',
		depth,
		...parts.map((part) => (part.part === 'prose' ? 'p' : part.cell.name)),
	]);
}

test('go from one heading to the next, and what stands above the first is one too', () => {
	const [page] = withSections('sections:', '  Why: why').pages;
	expect(page && outline(page)).toEqual([
		['', 'first', 'p', 'first_given'],
		['What it does', 'first', 'p', 'second_given'],
		['Why', 'why', 'p', 'twice', 'p'],
	]);
	expect(page?.parts).toEqual(page?.sections.flatMap(({ parts }) => parts));
});

test('a heading that is not there is a mistake with its place', () => {
	const { problems } = withSections('sections:', '  Whyy: why', '  Smaller: tool');
	expect(problems.map(placeOf)).toEqual(['one |  | 6:9', 'one |  | 7:12']);
	expect(problems[0]?.message).toBe(
		'“Whyy” is no heading of this page. Did you mean “Why”? A section begins with a line “## Whyy”.',
	);
});

test('a depth that is none is a mistake with its place', () => {
	const { problems, pages } = withSections('sections:', '  Why: deep');
	expect(problems.map(placeOf)).toEqual(['one |  | 6:8']);
	expect(problems[0]?.message).toBe(
		'“sections.Why” has to be one of first, why, tool, figures, story, paper, card.',
	);
	expect(pages[0]?.sections.map(({ depth }) => depth)).toEqual(['first', 'first', 'first']);
});

test('the shipped pages begin with what stands open', () => {
	for (const page of shipped.pages) {
		expect(page.sections.length).toBeGreaterThan(2);
		expect(page.sections[0]?.depth).toBe('first');
	}
});

test('a trade without a drawing has no cell that draws', () => {
	const { functions } = lowering;
	const page = '---\ntitle: A\nsummary: B\ndocument: C\n---\n' + fence('drawing', 'name: it');
	const head = withSections();
	const files = new Map([
		['one.md', page],
		[
			'workbook.yaml',
			[
				...[
					'title: T',
					'summary: S',
					'pages: [one]',
					'scenarios: []',
					'standing: {}',
					'cautions: []',
				],
				'quantities:',
				'  number: { dimension: number, inch-pound: { unit: "", step: 1, decimals: 0 }, metric: { unit: "", step: 1, decimals: 0 } }',
			].join('\n'),
		],
	]);
	expect(readWorkbook('bare', files, { functions }).problems.map(({ message }) => message)).toEqual(
		['This workbook has nothing to draw to scale. Take the cell out.'],
	);
	expect(head.problems).toEqual([]);
});
