/** A compare cell: what it names has to be there. */
import { expect, test } from 'vitest';
import { fence, inputCell, placeOf, smallWorkbook } from '../language/small-workbook.ts';

const check = (name: string, ...more: readonly string[]): string =>
	fence(
		'check',
		...[`name: ${name}`, 'label: C', 'when:', '  - level: stop', '    if: sum > 9 in'],
		...['    because: b', '    do: d', 'clear: c', 'source: common practice, no source', ...more],
	);
const before = [
	inputCell('a', 'length', 'default: 1 in'),
	fence('input', 'name: way', 'label: Way', 'choices: { left: L, right: R }'),
	fence('derive', 'sum = 2 * a  # Sum', 'known = a > 1 in  # Known'),
	check('sum_check'),
	check('spoilt_check', 'colour: red'),
	fence(
		'chart',
		...['name: sum_chart', 'title: Sum', 'draw: [sum]'],
		'sweep: [{ input: a, from: 1 in, to: 2 in }]',
	),
].join('\n');
const page = (...lines: readonly string[]): string =>
	`${before}\n${fence('compare', 'name: tried', 'title: Tried', ...lines)}`;
/** The spoilt check tells of itself; nothing else does. */
const spoilt =
	'“colour” is not a field that can stand here. Take it out or spell it as in DEVELOPERS.md.';

test('what it says is kept as it is said', () => {
	const { problems, pages } = smallWorkbook({
		one: page(
			...['set: [a, way]', 'show: [sum, a]', 'checks: [sum_check, spoilt_check]'],
			'chart: sum_chart',
		),
	});
	expect(problems.map(({ message }) => message)).toEqual([spoilt]);
	const part = pages[0]?.parts.at(-1);
	expect(part?.part === 'cell' && part.cell).toMatchObject({
		kind: 'compare',
		title: 'Tried',
		set: ['a', 'way'],
		show: ['sum', 'a'],
		checks: ['sum_check', 'spoilt_check'],
		chart: 'sum_chart',
	});
});

test.each<[what: string, lines: string[], says: string, at: string]>([
	[
		'an input nobody gives',
		['set: [b]', 'show: [sum]'],
		'No cell gives “b”. Did you mean “a”?',
		'b]',
	],
	[
		'a figure that is set',
		['set: [a, sum]', 'show: [sum]'],
		'“sum” is worked out, not asked for; only an input can be set.',
		'sum]\nshow',
	],
	[
		'a choice that is shown',
		['set: [a]', 'show: [way]'],
		'“way” is a choice of left, right; only a quantity can stand here.',
		'way]',
	],
	[
		'a check that is not there',
		['set: [a]', 'show: [sum]', 'checks: [sum_chek]'],
		'No check is named “sum_chek”. Did you mean “sum_check”?',
		'sum_chek',
	],
	[
		'a figure for a check',
		['set: [a]', 'show: [sum]', 'checks: [known]'],
		'No check is named “known”.',
		'known]',
	],
	[
		'a chart for a check',
		['set: [a]', 'show: [sum]', 'checks: [sum_chart]'],
		'“sum_chart” is a cell of the kind chart; only a check can stand here.',
		'sum_chart]',
	],
	[
		'a chart that is not there',
		['set: [a]', 'show: [sum]', 'chart: chart_of_sum'],
		'No chart is named “chart_of_sum”.',
		'chart_of_sum',
	],
	[
		'a check for a chart',
		['set: [a]', 'show: [sum]', 'chart: sum_check'],
		'“sum_check” is a cell of the kind check; only a chart can stand here.',
		'sum_check\n',
	],
])('%s', (_, lines, says, at) => {
	const body = page(...lines);
	const told = smallWorkbook({ one: body }).problems.filter(({ message }) => message !== spoilt);
	expect(told.map(({ message }) => message)).toEqual([says]);
	const before = body.slice(0, body.lastIndexOf(at)).split('\n');
	// Five lines of front matter stand before the page.
	const where = `${5 + before.length}:${(before.at(-1) ?? '').length + 1}`;
	expect(told.map(placeOf)).toEqual([`one | compare tried | ${where}`]);
});
