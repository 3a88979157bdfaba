/** What a check may come to within the ± of its figures, and what follows another name until it is entered. */
import { describe, expect, test } from 'vitest';
import { inputPlusMinus } from '../../src/lib/answers/figures.ts';
import { checkResult } from '../../src/lib/engine/checks.ts';
import { plusMinusOfAll } from '../../src/lib/engine/plus-minus.ts';
import { rerun, runAll, whatIf } from '../../src/lib/engine/run.ts';
import { blankJob, type Entry, type Job } from '../../src/lib/job/job.ts';
import { inputsOf, readingsOf } from '../../src/lib/job/reading.ts';
import { cellsOf, type Workbook } from '../../src/lib/language/workbook.ts';
import { fence, inputCell, numberIn, placeOf, smallWorkbook } from '../language/small-workbook.ts';

const inch = 0.0254;

function stated(workbook: Workbook, typed: Readonly<Record<string, string>>) {
	const entries = Object.fromEntries(
		Object.entries(typed).map(([name, text]): [string, Entry] => [
			name,
			{ typed: text, system: 'inch-pound', from: 'person' },
		]),
	);
	const job: Job = { ...blankJob(workbook, 'inch-pound', new Date(0)), entries };
	const { graph } = workbook;
	const readings = readingsOf(graph, job);
	const run = runAll(graph, inputsOf(readings));
	const plusMinus = plusMinusOfAll(graph, run, (node) =>
		inputPlusMinus(node, readings.get(node.id)),
	);
	const size = (name: string): number => {
		const slot = graph.byId.get(name)?.slot ?? -1;
		return (plusMinus[slot]?.size ?? NaN) / inch;
	};
	const might = (name: string): string => {
		const cell = cellsOf(workbook).find((each) => each.kind === 'check' && each.name === name);
		if (cell?.kind !== 'check') throw new Error(`No check “${name}”.`);
		const result = checkResult(graph, run, cell, plusMinus);
		return 'why' in result ? result.why : `${result.level}: ${result.might.join(', ')}`;
	};
	return { run, size, might };
}

function check(name: string, ...cases: readonly string[]): string {
	const when = cases.flatMap((each, index) => [
		`  - level: ${index === 0 && cases.length > 1 ? 'stop' : 'caution'}`,
		`    if: ${each}`,
		'    because: b',
		'    do: d',
	]);
	return fence('check', `name: ${name}`, 'label: L', 'when:', ...when, 'clear: c', 'source: s');
}

describe('a verdict', () => {
	const workbook = smallWorkbook({
		one: [
			inputCell('high', 'length', 'plus_minus: 0.5 in'),
			inputCell('low', 'length', 'plus_minus: 0.25 in'),
			fence('derive', 'apart = high - low  # Apart', 'same = high - high  # Same'),
			check('far', 'apart > 6 in', 'apart > 3 in'),
			check('either', 'apart > 3 in or high > 1 in'),
			check('both', 'apart > 3 in and high > 100 in'),
			check('turned', 'not (apart > 3 in)'),
			check('against_itself', 'high > high + 0.1 in'),
			check('equal_to', 'apart == 3 in'),
		].join('\n'),
	});

	test.each([
		// ± of the difference: √(0.5² + 0.25²) = 0.559 in
		['2.4', 'clear: clear'],
		['2.5', 'clear: clear, caution'],
		['3.4', 'caution: clear, caution'],
		['4', 'caution: caution'],
		['5.6', 'caution: caution, stop'],
		['7', 'stop: stop'],
	])('%s in apart is %s', (apart, found) => {
		const { might } = stated(workbook, { high: String(10 + Number(apart)), low: '10' });
		expect(might('far')).toBe(found);
	});

	test('the rest of a condition may settle it', () => {
		const near = stated(workbook, { high: '13.2', low: '10' });
		expect(near.might('either')).toBe('caution: caution');
		expect(near.might('both')).toBe('clear: clear');
		expect(near.might('turned')).toBe('clear: clear, caution');
		expect(near.might('equal_to')).toBe('clear: clear, caution');
	});

	test('what moves both sides alike cancels', () => {
		const { might, size } = stated(workbook, { high: '13.2', low: '10' });
		expect(size('same')).toBe(0);
		expect(might('against_itself')).toBe('clear: clear');
	});

	test('without a value it is no verdict', () => {
		expect(stated(workbook, { high: '3' }).might('far')).toBe('not entered');
	});

	test('without ± every figure is certain', () => {
		const { graph } = workbook;
		const run = runAll(
			graph,
			new Map([
				['high', 13.2 * inch],
				['low', 10 * inch],
			]),
		);
		const cell = cellsOf(workbook).find(({ name }) => name === 'far');
		expect(cell?.kind === 'check' && checkResult(graph, run, cell)).toMatchObject({
			level: 'caution',
			might: ['caution'],
		});
	});
});

describe('a face read twice with one gauge', () => {
	const workbook = smallWorkbook({
		one: [
			inputCell('first', 'length', 'plus_minus: 0.5 in', 'repeat: 0.3 in'),
			inputCell('second', 'length', 'plus_minus: 0.5 in', 'repeat: 0.3 in', 'same_face_as: first'),
			inputCell('other', 'length', 'plus_minus: 0.5 in', 'repeat: 0.3 in'),
			fence(
				'derive',
				'change = second - first  # C',
				'sum = second + first  # S',
				'elsewhere = other - first  # E',
			),
		].join('\n'),
	});
	const { size } = stated(workbook, { first: '1', second: '2', other: '3' });

	test('the part of the face drops out of the difference and adds up in a sum', () => {
		expect(size('first')).toBeCloseTo(0.5, 12);
		expect(size('change')).toBeCloseTo(Math.hypot(0.3, 0.3), 9);
		expect(size('sum')).toBeCloseTo(Math.hypot(0.3, 0.3, 0.4 + 0.4), 9);
	});

	test('another face shares nothing', () => {
		expect(size('elsewhere')).toBeCloseTo(Math.hypot(0.5, 0.5), 9);
	});
});

describe('an entry that starts as another name', () => {
	const workbook = smallWorkbook({
		one: [
			inputCell('planned', 'length', 'default: 1 in', 'plus_minus: 0.1 in', 'part: true'),
			inputCell('fitted', 'length', 'starts_as: planned', 'plus_minus: 0.2 in', 'part: true'),
			inputCell('usual', 'length', 'starts_as: half', 'assumed_plus_minus: 2 in'),
			inputCell(
				'wide',
				'length',
				'default: 5 in',
				'plus_minus: 0.1 in',
				'assumed_plus_minus: 3 in',
			),
			fence('derive', 'half = planned / 2  # H', 'twice = 2 * fitted  # T', 'less = usual  # L'),
		].join('\n'),
	});
	const { graph } = workbook;

	test('follows it until something is entered, and no longer', () => {
		const run = runAll(graph, new Map([['planned', 4 * inch]]));
		expect(numberIn(workbook, run, 'twice') / inch).toBeCloseTo(8, 12);
		rerun(graph, run, new Map([['planned', 3 * inch]]));
		expect(numberIn(workbook, run, 'twice') / inch).toBeCloseTo(6, 12);
		expect(numberIn(workbook, run, 'usual') / inch).toBeCloseTo(1.5, 12);
		rerun(graph, run, new Map([['fitted', 5 * inch]]));
		rerun(graph, run, new Map([['planned', 2 * inch]]));
		expect(numberIn(workbook, run, 'twice') / inch).toBeCloseTo(10, 12);
		rerun(graph, run, new Map([['fitted', undefined]]));
		expect(run).toStrictEqual(runAll(graph, new Map([['planned', 2 * inch]])));
	});

	test('has the ± of the other one until something is entered, and again when that is taken away', () => {
		const sizes = new Map([
			['planned', 0.1 * inch],
			['fitted', 0.2 * inch],
		]);
		const twice = graph.byId.get('twice')?.slot ?? -1;
		const wanted = [twice];
		const run = runAll(graph, new Map([['planned', 4 * inch]]));
		const size = (): number =>
			plusMinusOfAll(graph, run, ({ id }) => sizes.get(id) ?? 0, wanted)[twice]?.size ?? NaN;
		expect(size() / inch).toBeCloseTo(2 * Math.hypot(0.1, 0.2), 12);
		rerun(graph, run, new Map([['fitted', 5 * inch]]));
		expect(size() / inch).toBeCloseTo(0.4, 12);
		rerun(graph, run, new Map([['fitted', undefined]]));
		expect(size() / inch).toBeCloseTo(2 * Math.hypot(0.1, 0.2), 12);
	});

	test('goes along when the other one is tried at something else', () => {
		const base = runAll(graph, new Map([['planned', 4 * inch]]));
		const slot = (name: string): number => graph.byId.get(name)?.slot ?? -1;
		const ask = whatIf(graph, base, [slot('planned')], [slot('twice')]);
		expect(ask([inch]).value(slot('twice'))).toBeCloseTo(2 * inch, 12);
		const fixed = whatIf(graph, base, [slot('fitted')], [slot('twice')]);
		expect(fixed([7 * inch]).value(slot('twice'))).toBeCloseTo(14 * inch, 12);
	});

	test('has the ± of what it follows, and what is assumed has a wide one', () => {
		const assumed = stated(workbook, { planned: '4' });
		expect(assumed.size('twice')).toBeCloseTo(0.2, 9);
		expect(assumed.size('less')).toBeCloseTo(Math.hypot(0.05, 2), 9);
		expect(assumed.size('wide')).toBeCloseTo(3, 12);
		const entered = stated(workbook, { planned: '4', fitted: '4', wide: '5' });
		expect(entered.size('twice')).toBeCloseTo(0.4, 9);
		expect(entered.size('wide')).toBeCloseTo(0.1, 12);
	});

	test('must be of one kind with it, and not in a circle', () => {
		const wrong = smallWorkbook({
			one: [
				inputCell('turn', 'angle', 'default: 1 deg'),
				inputCell('long', 'length', 'starts_as: turn'),
				inputCell('a', 'length', 'starts_as: b'),
				fence('derive', 'b = a + 1 in  # B'),
				inputCell('c', 'length', 'starts_as: nobody'),
			].join('\n'),
		});
		expect(
			wrong.problems.map(
				(problem) => `${placeOf(problem).split(' |')[1]} ${problem.message.slice(0, 60)}`,
			),
		).toEqual([
			' input long “long” is a length, but “turn”, which it starts as, is an an',
			' input a These names go in a circle, so none can be worked out: a → b',
			' input c No cell gives “nobody”.',
		]);
	});
});
