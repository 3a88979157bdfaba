/** Finding an input: against answers worked out by hand, and by putting what was found back in. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { runAll, type Run } from '../../src/lib/engine/run.ts';
import { solve, type Solved } from '../../src/lib/engine/solve.ts';
import type { Workbook } from '../../src/lib/language/workbook.ts';
import { layoutA } from '../trade/layout-a.ts';
import { shipped } from '../language/shipped.ts';
import {
	fence,
	inputCell,
	numberIn,
	runOf,
	smallWorkbook,
	stateOf,
} from '../language/small-workbook.ts';

const inch = 0.0254;
const degree = Math.PI / 180;

function solved(
	workbook: Workbook,
	run: Run,
	input: string,
	[from, to]: readonly [number, number],
	left: string,
	equals: string,
): Solved {
	const slot = (name: string): number => {
		const node = workbook.graph.byId.get(name);
		if (!node) throw new Error(`No node “${name}”.`);
		return node.slot;
	};
	return solve(workbook.graph, run, slot(input), from, to, slot(left), slot(equals));
}

/** A workbook with x, and y as this formula of it; nothing is 0. */
function withFormula(formula: string): Workbook {
	const workbook = smallWorkbook({
		one: [
			inputCell('x', 'number', 'default: 0.3'),
			inputCell('wanted', 'number', 'default: 0'),
			fence('derive', `y = ${formula}  # Y`),
		].join('\n'),
	});
	expect(workbook.problems).toEqual([]);
	return workbook;
}

function roots(formula: string, range: readonly [number, number], wanted = 0): Solved {
	const workbook = withFormula(formula);
	return solved(workbook, runOf(workbook, { wanted }), 'x', range, 'y', 'wanted');
}

describe('against answers worked out by hand', () => {
	const pi = Math.PI;
	test.each<[what: string, formula: string, range: [number, number], found: number[]]>([
		['a line', '2 * x - 3', [-10, 10], [1.5]],
		['a line over a range the other way round', '2 * x - 3', [10, -10], [1.5]],
		['a line far from nought', 'x - 1000000.25', [0, 3e6], [1000000.25]],
		['a steep line', '1e9 * (x - 0.1)', [-1, 1], [0.1]],
		['a flat line', '1e-9 * (x - 0.1)', [-1, 1], [0.1]],
		['two crossings', 'x^2 - 2', [-10, 10], [-Math.SQRT2, Math.SQRT2]],
		['three crossings', 'x^3 - x', [-2.003, 2], [-1, 0, 1]],
		['seven crossings', 'sin(x * 1 rad)', [-10, 10], [-3, -2, -1, 0, 1, 2, 3].map((n) => n * pi)],
		['two within one step', '(x - 0.5031) * (x - 0.5045)', [-1, 1], [0.5031, 0.5045]],
		['one at the first end', 'x - 1', [1, 2], [1]],
		['one at the last end', 'x - 1', [0, 1], [1]],
		['one at an end that cannot be written exactly', '3 * x - 1', [0, 1 / 3], [1 / 3]],
		['one exactly on a step', 'x', [-1, 1], [0]],
		['a touch', '(x - 0.1234)^2', [-1, 1], [0.1234]],
		['a touch from below', '-(x - 0.1234)^2', [-1, 1], [0.1234]],
		['a touch halfway between two steps', '(x - 0.005)^2', [-1, 1], [0.005]],
		['a touch exactly on a step', 'x^2', [-1, 1], [0]],
		['a touch in the first step', '(x + 0.9973)^2', [-1, 1], [-0.9973]],
		['a touch in the last step', '(x - 0.9973)^2', [-1, 1], [0.9973]],
		['the point of a V', 'abs(x - 0.1234)', [-1, 1], [0.1234]],
		['the point of a cusp', 'sqrt(abs(x - 0.1234))', [-1, 1], [0.1234]],
		['a touch and a crossing', '(x - 0.25)^2 * (x + 0.503)', [-1, 1], [-0.503, 0.25]],
		['where the range of answers ends', 'sqrt(x - 0.1234)', [-1, 1], [0.1234]],
		['near where the range of answers ends', 'sqrt(x - 0.1234) - 0.01', [-1, 1], [0.1235]],
		['beyond a gap', 'sqrt(x^2 - 0.25) - 1', [-2, 2], [-Math.sqrt(1.25), Math.sqrt(1.25)]],
		['beyond a pole', '1 / x - 4', [-1, 1], [0.25]],
		['beyond a jump', 'x > 0.5031 ? x - 0.75 : -1', [-1, 1], [0.75]],
		// Between the steps of a rounded figure it goes on evenly.
		['beside a rounded figure', 'x - round(x, 1) + 0.25', [-0.4, 0.4], [-0.25]],
	])('%s: %s', (_, formula, range, found) => {
		const result = roots(formula, range);
		expect(result.found).toHaveLength(found.length);
		found.forEach((value, index) => {
			// A touch is known to the root of the last place, for that is how flat it is there.
			expect(Math.abs((result.found[index] ?? NaN) - value)).toBeLessThan(
				3e-8 * Math.max(1, Math.abs(value) / 1e6),
			);
		});
		expect(result.along).toEqual([]);
	});

	test('crossings are found to the last places', () => {
		for (const [formula, root] of [
			['x^2 - 2', Math.SQRT2],
			['x^3 - 5', Math.cbrt(5)],
			['cos(x * 1 rad)', Math.PI / 2],
		] as const) {
			expect(Math.abs((roots(formula, [0, 2]).found[0] ?? NaN) - root)).toBeLessThan(1e-15);
		}
	});
});

describe('what is no answer', () => {
	test.each<[what: string, formula: string]>([
		['a line that stays above', 'x + 3'],
		['one that stays as it is', '3 + 0 * x'],
		['a curve that stays above', 'x^2 + 0.01'],
		['a curve that all but touches', '(x - 0.1234)^2 + 0.0000001'],
		['a V that stays above', 'abs(x - 0.1234) + 0.0001'],
		['a pole', '1 / (x - 0.1234)'],
		['a pole on a step', '1 / x'],
		['an even pole', '1 / (x - 0.1234)^2'],
		['a jump', 'x > 0.1234 ? 1 : -1'],
		['a jump on a step', 'x >= 0 ? 1 : -1'],
		['a small jump', 'x > 0.1234 ? x + 0.001 : x - 0.248'],
		['a rounded figure that goes over it', 'round(x, 1) - 0.5'],
		['a change of sign across a gap', 'x / sqrt(x^2 - 0.0001)'],
		['a change of sign across a gap within one step', '(x - 0.1234) / sqrt((x - 0.1234)^2 - 1e-8)'],
	])('%s: %s', (_, formula) => {
		const result = roots(formula, [-1, 1]);
		expect(result.found).toEqual([]);
		expect(result.along).toEqual([]);
	});

	test('tells where it came nearest', () => {
		const { nearest } = roots('x^2 + 0.01', [-1, 1]);
		expect(nearest?.at).toBeCloseTo(0, 12);
		expect(nearest?.left).toBeCloseTo(0.01, 12);
		expect(nearest?.off).toBeCloseTo(0.01, 12);
		expect(nearest?.equals).toBe(0);
	});
});

describe('what holds all along', () => {
	test.each<[formula: string, wanted: number, range: [number, number], ends: [number, number]]>([
		['round(x, 0.5)', 1, [0, 3], [0.75, 1.25]],
		['floor(x)', 0, [-3, 3], [0, 1]],
		['max(x, 0.4)', 0.4, [-1, 1], [-1, 0.4]],
		['3 + 0 * x', 3, [-1, 1], [-1, 1]],
	])('%s = %d', (formula, wanted, range, ends) => {
		const { found, along } = roots(formula, range, wanted);
		expect(found).toEqual([]);
		expect(along).toHaveLength(1);
		ends.forEach((end, index) => expect(along[0]?.[index]).toBeCloseTo(end, 12));
	});

	test('a range that is one value', () => {
		expect(roots('x - 1', [1, 1])).toMatchObject({ found: [1], along: [] });
		expect(roots('x - 2', [1, 1])).toMatchObject({ found: [], along: [] });
	});
});

describe('places without an answer', () => {
	test('the first is told with its reason, and both sides of it are looked through', () => {
		const result = roots('sqrt(x^2 - 0.25) - 1', [-2, 2]);
		expect(result.gap?.at).toBeCloseTo(-0.5 + 0.02, 9);
		expect(result.gap?.failure.why).toBe('out of range');
		expect(result.gap?.failure.message).toMatch(/^Y comes out as no finite number/);
	});

	test('nothing but gaps', () => {
		const result = roots('sqrt(-1 - x^2)', [-1, 1]);
		expect(result).toMatchObject({ found: [], along: [], gap: { at: -1 } });
		expect(result.nearest).toBeUndefined();
	});

	test('what is not entered is the reason', () => {
		const workbook = smallWorkbook({
			one: [
				inputCell('x', 'number'),
				inputCell('other', 'number'),
				fence('derive', 'y = x - other  # Y', 'z = 2 * x  # Z'),
			].join('\n'),
		});
		const run = runOf(workbook);
		const result = solved(workbook, run, 'x', [0, 1], 'y', 'z');
		expect(result.gap?.failure).toMatchObject({ why: 'not entered', from: ['other'] });
		// That x itself is not entered is no hindrance: it is what is looked for.
		const entered = runOf(workbook, { other: -0.25 });
		expect(solved(workbook, entered, 'x', [0, 1], 'y', 'z').found).toEqual([0.25]);
	});
});

test('polynomials with known roots give them back', () => {
	const root = fc.integer({ min: -990, max: 990 }).map((n) => n / 1000 + 0.00037);
	fc.assert(
		fc.property(
			fc.uniqueArray(root, { minLength: 1, maxLength: 4 }),
			fc.constantFrom(1, -1, 1000, 0.001),
			(list, scale) => {
				// Nearer together than a step they may go unseen, as the search says.
				const sorted = [...list].sort((a, b) => a - b);
				fc.pre(sorted.every((value, i) => i === 0 || value - (sorted[i - 1] ?? 0) > 0.021));
				const formula = `${scale} * ${sorted.map((value) => `(x - (${value}))`).join(' * ')}`;
				const { found } = roots(formula, [-1, 1]);
				expect(found).toHaveLength(sorted.length);
				found.forEach((value, i) => expect(value).toBeCloseTo(sorted[i] ?? NaN, 9));
			},
		),
		{ numRuns: 100 },
	);
});

describe('on the shipped workbook', () => {
	const { graph } = shipped;
	const found = (input: string, range: readonly [number, number], left: string, equals: string) =>
		solved(shipped, runAll(graph, layoutA()), input, range, left, equals);
	const putBack = (input: string, value: number, figure: string): number =>
		numberIn(shipped, runAll(graph, layoutA().set(input, value)), figure);

	test('the wedges that make both joints alike do so when they are entered', () => {
		const { found: wedges, along } = found(
			'wedge_angle',
			[-15 * degree, 15 * degree],
			'rear_joint',
			'front_joint',
		);
		expect(along).toEqual([]);
		// One with the pinion parallel with the transmission, one with the shaft bent the other way.
		expect(wedges).toHaveLength(2);
		for (const wedge of wedges) {
			expect(Math.abs(putBack('wedge_angle', wedge, 'joint_mismatch'))).toBeLessThan(1e-15);
		}
		const below = wedges.map((wedge) => putBack('wedge_angle', wedge, 'pinion_below_parallel'));
		expect(below.filter((angle) => Math.abs(angle) < 1e-12)).toHaveLength(1);
	});

	test('the wedge found for the allowance is the one the page works out, nearly and then exactly', () => {
		const [wedge, ...others] = found(
			'wedge_angle',
			[-15 * degree, 15 * degree],
			'pinion_below_parallel',
			'wind_up_allowance',
		).found;
		expect(others).toEqual([]);
		// A wedge turns the axle a little more than its own angle, which the page leaves out at first.
		const wanted = putBack('wedge_angle', 0, 'wedge_wanted');
		expect(Math.abs((wedge ?? NaN) - wanted) / degree).toBeLessThan(0.25);
		expect(putBack('wedge_angle', wedge ?? NaN, 'wedge_wanted')).toBeCloseTo(wedge ?? NaN, 14);
	});

	test('the hanger that gives a drop gives it, through the whole spring', () => {
		fc.assert(
			fc.property(fc.double({ min: -inch, max: 4 * inch, noNaN: true }), (front) => {
				// Level with a drop in front: the rear has to come down by as much.
				const inputs = layoutA().set('front_drop', front);
				const run = runAll(graph, inputs);
				const [hanger, ...others] = solved(
					shipped,
					run,
					'eye_raise',
					[-4 * inch, 10 * inch],
					'rear_drop',
					'front_drop',
				).found;
				expect(others).toEqual([]);
				const after = runAll(graph, inputs.set('eye_raise', hanger ?? NaN));
				expect(numberIn(shipped, after, 'rear_drop')).toBeCloseTo(front, 13);
			}),
			{ numRuns: 20 },
		);
	});

	test('a drop no hanger gives is not found, and the nearest is told', () => {
		const inputs = layoutA().set('front_drop', 20 * inch);
		const { found: hangers, nearest } = solved(
			shipped,
			runAll(graph, inputs),
			'eye_raise',
			[-2 * inch, 8 * inch],
			'rear_drop',
			'front_drop',
		);
		expect(hangers).toEqual([]);
		expect(nearest?.at).toBeCloseTo(8 * inch, 12);
	});

	test('the run it starts from stays as it was', () => {
		const run = runAll(graph, layoutA());
		const copy = stateOf(run);
		solved(shipped, run, 'wedge_angle', [-0.2, 0.2], 'rear_joint', 'front_joint');
		expect(stateOf(run)).toEqual(copy);
	});
});

describe('a solve cell', () => {
	const page = (...lines: readonly string[]): Workbook =>
		smallWorkbook({
			one: [
				inputCell('span', 'length', 'default: 2 in'),
				inputCell('tilt', 'angle', 'default: 2 deg'),
				fence('derive', 'twice = 2 * span  # Twice'),
				fence('solve', 'name: tried', 'label: Tried', ...lines),
			].join('\n'),
		});

	test('names its input, its range and its two sides', () => {
		const workbook = page(
			...['find: span', 'from: -tilt / 1 rad * 1 in', 'to: 10 in'],
			...['when:', '  left: twice', '  equals: 7 in', 'about: Half of seven.'],
		);
		expect(workbook.problems).toEqual([]);
		const cell = workbook.graph.byId.get('tried/0')?.cell;
		if (cell?.kind !== 'solve') throw new Error('no solve cell');
		expect(cell).toMatchObject({ find: 'span', label: 'Tried', about: 'Half of seven.' });
		const run = runOf(workbook);
		const at = (id: string): number => numberIn(workbook, run, id);
		const { found } = solved(
			workbook,
			run,
			cell.find,
			[at(cell.from), at(cell.to)],
			cell.left,
			cell.equals,
		);
		expect(found).toHaveLength(1);
		expect(found[0]).toBeCloseTo(3.5 * inch, 15);
	});

	test.each<[what: string, lines: string[], says: string]>([
		[
			'a figure that is worked out',
			['find: twice', 'from: 0 in', 'to: 1 in', 'when: { left: twice, equals: span }'],
			'“twice” is worked out, not asked for; only an input can be swept.',
		],
		[
			'a range of another dimension',
			['find: span', 'from: 0 deg', 'to: 1 in', 'when: { left: twice, equals: span }'],
			'This is an angle, but span is a length.',
		],
		[
			'two sides of two dimensions',
			['find: span', 'from: 0 in', 'to: 1 in', 'when: { left: 2 * twice, equals: tilt }'],
			'This is an angle, but 2 * twice is a length.',
		],
		[
			'a condition for a side',
			['find: span', 'from: 0 in', 'to: 1 in', 'when: { left: twice > span, equals: span }'],
			'A quantity is wanted here; this is a yes or no.',
		],
		[
			'a side left out',
			['find: span', 'from: 0 in', 'to: 1 in', 'when: { left: twice }'],
			'“when.equals” is missing; add it.',
		],
	])('%s', (_, lines, says) => {
		const { problems } = page(...lines);
		expect(problems.map(({ message }) => message)).toEqual([says]);
	});
});
