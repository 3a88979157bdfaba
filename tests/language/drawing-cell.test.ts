/** A drawing cell asks only for what the trade draws and workbook.yaml has a place for. */
import { expect, test } from 'vitest';
import { fence, inputCell, smallWorkbook } from './small-workbook.ts';

const drawing = (...more: readonly string[]): string =>
	fence('drawing', 'name: it', 'title: It', ...more);
const problemsOf = (...cells: readonly string[]): string[] =>
	smallWorkbook({ one: cells.join('\n') }).problems.map(({ message }) => message);

test('a crop or a state that the trade has not is a mistake', () => {
	const [crop] = problemsOf(drawing('crop: roof', 'show: [before]'));
	expect(crop).toContain('whole');
	const [show] = problemsOf(drawing('crop: drive', 'show: [hereafter]'));
	expect(show).toContain('found');
});

test('what it moves has to be an entry with a place on the drawing', () => {
	const sum = fence('derive', 'sum = 2 * a  # Sum');
	const cells = [inputCell('a', 'length', 'default: 1 in'), sum];
	expect(problemsOf(...cells, drawing('crop: drive', 'show: [before]', 'move: [a]'))).toEqual([
		'“move” has a, which has no place on the drawing. workbook.yaml names those that have one under “drawing”, “handles”.',
	]);
	const shown = drawing('crop: drive', 'show: [before]', 'dimension: [sum]');
	expect(problemsOf(...cells, shown)).toEqual([
		'“dimension” has sum, which has no place on the drawing. workbook.yaml names those that have one under “drawing”, “dimensions”.',
	]);
	const moved = problemsOf(...cells, drawing('crop: drive', 'show: [before]', 'move: [sum]'));
	expect(moved.length).toBeGreaterThan(0);
});

test('with nothing but a crop and a state it is read', () => {
	const { problems, pages } = smallWorkbook({ one: drawing('crop: spring', 'show: [plan]') });
	expect(problems).toEqual([]);
	const part = pages[0]?.parts.at(-1);
	expect(part?.part === 'cell' && part.cell).toMatchObject({
		kind: 'drawing',
		crop: 'spring',
		show: ['plan'],
		move: [],
		dimension: [],
		detail: false,
	});
});
