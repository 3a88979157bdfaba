/** An `against` cell: what it names has to be there, and what its rows say. */
import { expect, test } from 'vitest';
import { realnessOf } from '../../src/lib/answers/against.ts';
import { figuresInSight } from '../../src/lib/answers/figures.ts';
import { fence, inputCell, placeOf, smallWorkbook } from '../language/small-workbook.ts';

const before = [
	inputCell('was', 'length', 'default: 5 in'),
	inputCell('read', 'length'),
	fence('input', 'name: way', 'label: Way', 'choices: { left: L, right: R }'),
	fence('derive', 'planned = was - 2 in  # Planned', 'off = read - planned  # Off the plan'),
].join('\n');
const page = (...lines: readonly string[]): string =>
	`${before}\n${fence('against', 'name: tried', 'title: Tried', ...lines)}`;

test('what it says is kept as it is said, and the ± of what it names is in sight', () => {
	const workbook = smallWorkbook({
		one: page(
			'rows:',
			'  - { label: Lip, before: was, expected: planned, found: read, off: off }',
			'  - { label: Bare, found: read, off: off }',
		),
	});
	expect(workbook.problems).toEqual([]);
	const part = workbook.pages[0]?.parts.at(-1);
	expect(part?.part === 'cell' && part.cell).toMatchObject({
		kind: 'against',
		title: 'Tried',
		rows: [
			{ label: 'Lip', before: 'was', expected: 'planned', found: 'read', off: 'off' },
			{ label: 'Bare', found: 'read', off: 'off' },
		],
	});
	expect(figuresInSight(workbook, 'one')).toContain(workbook.graph.byId.get('off')?.slot);
});

test.each<[what: string, lines: string[], says: string, at: string, cell?: string]>([
	[
		'a figure nobody gives',
		['rows: [{ label: Lip, found: read, off: of }]'],
		'No cell gives “of”. Did you mean “off”?',
		'of }',
	],
	[
		'a choice that is found',
		['rows: [{ label: Lip, found: way, off: off }]'],
		'“way” is a choice of left, right; only a quantity can stand here.',
		'way, off',
	],
	[
		'a row without what is off',
		['rows: [{ label: Lip, found: read }]'],
		'“rows.0.off” is missing; give it a text.',
		'{ label: Lip',
		'against 5',
	],
	[
		'a column that there is none of',
		['rows: [{ label: Lip, found: read, off: off, was: was }]'],
		'“was” is not a field that can stand here. Take it out or spell it as in DEVELOPERS.md.',
		'was: was',
		'against 5',
	],
])('%s', (_, lines, says, at, cell = 'against tried') => {
	const body = page(...lines);
	const { problems } = smallWorkbook({ one: body });
	expect(problems.map(({ message }) => message)).toEqual([says]);
	const above = body.slice(0, body.lastIndexOf(at)).split('\n');
	// Five lines of front matter stand before the page.
	const where = `${5 + above.length}:${(above.at(-1) ?? '').length + 1}`;
	expect(problems.map(placeOf)).toEqual([`one | ${cell} | ${where}`]);
});

test.each([
	[0, 0, 'within'],
	[0.3, 0.3, 'within'],
	[-0.3, 0.31, 'within'],
	[0.31, 0.3, 'more'],
	[-0.6, 0.3, 'more'],
	[0.61, 0.3, 'real'],
	[-0.01, 0, 'real'],
])('%d off with a ± of %d is %s', (off, size, word) => {
	expect(realnessOf(off, size)).toBe(word);
});

test('a chart gives before as many names as it draws', () => {
	const chart = (names: string): string =>
		`${before}\n${fence(
			'chart',
			'name: tried',
			'title: Tried',
			'sweep: [{ input: was, from: 1 in, to: 2 in }]',
			'draw: [planned, off]',
			`before: ${names}`,
		)}`;
	expect(smallWorkbook({ one: chart('[was, was]') }).problems).toEqual([]);
	const { problems } = smallWorkbook({ one: chart('[was]') });
	expect(problems.map(({ message }) => message)).toEqual([
		'“before” has 1 names and “draw” has 2; give each figure drawn the one that it was before, in the same order.',
	]);
	const above = chart('[was]').slice(0, chart('[was]').indexOf('before:')).split('\n');
	expect(problems[0]?.line).toBe(5 + above.length);
	const missing = smallWorkbook({ one: chart('[was, wass]') }).problems;
	expect(missing.map(({ message }) => message)).toEqual([
		'No cell gives “wass”. Did you mean “was”?',
	]);
});
