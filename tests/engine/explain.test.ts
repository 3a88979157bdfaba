/**
 * What would explain the readings: against the whole problem, every error an unknown of its own, put before a
 * library of linear algebra; by hand; and over jobs made up by chance.
 */
import { lusolve } from 'mathjs';
import { Matrix } from 'ml-matrix';
import { describe, expect, test } from 'vitest';
import { explain, reconciled, type Explained, type Suspect } from '../../src/lib/engine/explain.ts';
import { plusMinusOfAll, type PlusMinus } from '../../src/lib/engine/plus-minus.ts';
import type { Run } from '../../src/lib/engine/run.ts';
import type { Node } from '../../src/lib/language/graph.ts';
import type { Workbook } from '../../src/lib/language/workbook.ts';
import {
	fence,
	inputCell,
	runOf,
	smallWorkbook,
	statedPlusMinus,
} from '../language/small-workbook.ts';
import { drawing } from '../mechanics/accuracy/spring.ts';
import { faults, shippedBenches, tallied } from './simulated-jobs.ts';

function node(workbook: Workbook, name: string): Node {
	const found = workbook.graph.byId.get(name);
	if (!found) throw new Error(`No node “${name}”.`);
	return found;
}

interface Tried {
	readonly explained: Explained;
	readonly run: Run;
	readonly sure: readonly (PlusMinus | undefined)[];
}

function tried(
	workbook: Workbook,
	read: readonly string[],
	suspects: readonly (readonly [moves: string | readonly string[], likely: number])[],
	entries: Readonly<Record<string, number>> = {},
): Tried {
	expect(workbook.problems).toEqual([]);
	const { graph } = workbook;
	const run = runOf(workbook, entries);
	const sure = plusMinusOfAll(graph, run, statedPlusMinus);
	const moved = suspects.map(([moves, likely]): Suspect => ({
		inputs: [moves].flat().map((name) => node(workbook, name)),
		likely,
	}));
	const slots = read.map((name) => node(workbook, name).slot);
	return { run, sure, explained: explain(graph, run, sure, slots, moved) };
}

const nameOf = (explained: Explained, at = 0): string =>
	explained.causes[at]?.suspect.inputs.map(({ id }) => id).join() ?? '';

describe('against the whole problem before a library', () => {
	const inputs = ['p', 'q', 'r', 'u', 'v'];
	const figures = ['one', 'two', 'three', 'wanted'];

	test.each([1, 2, 3, 4, 5])('amounts, what is left and what is reconciled, job %i', (seed) => {
		const draw = drawing(seed);
		const coefficients = figures.map(() => inputs.map(() => Number(draw(-2, 2).toFixed(3))));
		const sizes = inputs.map(() => Number(draw(0.1, 0.9).toFixed(3)));
		const values = inputs.map(() => Number(draw(-3, 3).toFixed(3)));
		const workbook = smallWorkbook({
			one: [
				...inputs.map((name, at) =>
					inputCell(
						name,
						'number',
						`default: ${String(values[at])}`,
						`plus_minus: ${String(sizes[at])}`,
						// The last two are read on one face.
						...(at >= 3 ? ['repeat: 0.06'] : []),
						...(at === 4 ? ['same_face_as: u'] : []),
					),
				),
				fence(
					'derive',
					...figures.map(
						(name, at) =>
							`${name} = ${inputs.map((input, to) => `${String(coefficients[at]?.[to])} * ${input}`).join(' + ')}  # F`,
					),
				),
			].join('\n'),
		});
		const read = figures.slice(0, 3);
		const likely = 2.5;
		const { explained, run, sure } = tried(workbook, read, [['q', likely]]);
		const [cause] = explained.causes;

		// Every source of error an unknown, in standard deviations: p, q, r, the face, and two repeats.
		const sources = (row: readonly number[]): number[] => {
			const [p = 0, q = 0, r = 0, s = 0, t = 0] = row;
			const [sp = 0, sq = 0, sr = 0, ss = 0, st = 0] = sizes;
			const face = s * Math.sqrt(ss ** 2 - 0.06 ** 2) + t * Math.sqrt(st ** 2 - 0.06 ** 2);
			return [p * sp, q * sq, r * sr, face, s * 0.06, t * 0.06].map((each) => each / 2);
		};
		const b = coefficients.map(sources);
		const w = coefficients.map((row) => row[1] ?? NaN);
		const f = coefficients.map((row) =>
			row.reduce((sum, each, at) => sum + each * (values[at] ?? NaN), 0),
		);
		const m = read.length;
		const n = 6;
		/** Least squares of errors and amount, held to what was read by multipliers. */
		const solved = (free: boolean): { errors: number[]; amount: number } => {
			const size = n + 1 + m;
			const a = Matrix.zeros(size, size);
			const right = new Array<number>(size).fill(0);
			const both = (row: number, column: number, value: number): void => {
				a.set(row, column, value);
				a.set(column, row, value);
			};
			for (let at = 0; at < n; at++) a.set(at, at, 2);
			a.set(n, n, free ? (2 * 4) / likely ** 2 : 1);
			for (let row = 0; row < m; row++) {
				const at = n + 1 + row;
				for (let source = 0; source < n; source++) both(at, source, -(b[row]?.[source] ?? NaN));
				if (free) both(at, n, w[row] ?? NaN);
				right[at] = -(f[row] ?? NaN);
			}
			const x = (lusolve(a.to2DArray(), right) as number[][]).map(([value]) => value ?? NaN);
			return { errors: x.slice(0, n), amount: free ? (x[n] ?? NaN) : 0 };
		};
		const best = solved(true);
		const squares = (errors: readonly number[]): number =>
			errors.reduce((sum, each) => sum + each ** 2, 0);
		expect(cause?.amount).toBeCloseTo(best.amount, 7);
		expect(cause?.left).toBeCloseTo(squares(best.errors), 6);
		expect(explained.misfit).toBeCloseTo(squares(solved(false).errors), 6);

		const told = reconciled(
			workbook.graph,
			run,
			sure,
			{ ...explained, word: 'told' },
			node(workbook, 'wanted').slot,
		);
		const figure = (of: typeof best): number =>
			(f[3] ?? NaN) +
			(w[3] ?? NaN) * of.amount -
			of.errors.reduce((sum, each, at) => sum + each * (b[3]?.[at] ?? NaN), 0);
		expect(told?.value).toBeCloseTo(figure(best), 6);
		const agreed = reconciled(
			workbook.graph,
			run,
			sure,
			{ ...explained, word: 'agrees' },
			node(workbook, 'wanted').slot,
		);
		expect(agreed?.value).toBeCloseTo(figure(solved(false)), 6);
		expect(agreed?.plusMinus).toBeLessThan(sure[node(workbook, 'wanted').slot]?.size ?? 0);
		// What is free to be off leaves more open.
		expect(told?.plusMinus).toBeGreaterThan(agreed?.plusMinus ?? NaN);
	});
});

describe('by hand', () => {
	const part = (name: string): string =>
		inputCell(name, 'length', 'default: 0 in', 'plus_minus: 0.1 in', 'limits: -9 in to 9 in');
	const workbook = smallWorkbook({
		one: [
			...['a', 'b', 'twin', 'found', 'second'].map(part),
			inputCell('not_read', 'length', 'plus_minus: 0.1 in'),
			inputCell('bent', 'number', 'default: 1', 'plus_minus: 0.001'),
			fence(
				'derive',
				'off = found - a - twin - bent ^ 3 * 1 in + 1 in  # Off',
				'off_too = second - b + 0.5 * a + 0.5 * twin  # Off too',
				'gone = not_read - a  # Not there yet',
				'twice = 2 * off  # Says the same again',
			),
		].join('\n'),
	});
	const inch = 0.0254;
	const read = ['off', 'off_too'];

	test('nothing off agrees, and nothing read is open', () => {
		expect(tried(workbook, read, [['a', inch]]).explained.word).toBe('agrees');
		const none = tried(workbook, ['gone'], [['a', inch]]).explained;
		expect(none).toMatchObject({ word: 'open', causes: [] });
	});

	test('a figure that waits for an entry, or says the same again, does not count', () => {
		const { explained } = tried(workbook, [...read, 'gone', 'twice'], [['a', inch]]);
		expect(explained.read).toEqual(read.map((name) => node(workbook, name).slot));
	});

	test('one that moves both is told from one that moves one', () => {
		const { explained } = tried(
			workbook,
			read,
			[
				['a', 2 * inch],
				['b', 2 * inch],
				['found', 2 * inch],
			],
			{ found: inch, second: -inch / 2 },
		);
		expect(explained.word).toBe('told');
		expect(nameOf(explained)).toBe('a');
		expect((explained.causes[0]?.amount ?? NaN) / inch).toBeCloseTo(1, 1);
	});

	test('two that do the same are said to be alike', () => {
		const { explained } = tried(
			workbook,
			read,
			[
				['a', 2 * inch],
				['twin', 2 * inch],
				['b', 2 * inch],
			],
			{ found: inch, second: -inch / 2 },
		);
		expect(explained).toMatchObject({ word: 'alike', alike: 2 });
	});

	test('what none explains by itself is said so, and is reconciled with nothing', () => {
		const { explained, run, sure } = tried(workbook, read, [['b', 2 * inch]], { found: 3 * inch });
		expect(explained.word).toBe('none');
		const { slot } = node(workbook, 'a');
		expect(reconciled(workbook.graph, run, sure, explained, slot)).toBeUndefined();
	});

	test('one that these readings cannot see is no suspect', () => {
		const { explained } = tried(workbook, ['off'], [['second', inch]], { found: inch });
		expect(explained).toMatchObject({ word: 'none', causes: [] });
	});

	test('a suspect whose effect bends is followed along its bend', () => {
		const { explained } = tried(workbook, read, [['bent', 100]], { found: 7 * inch });
		expect(explained.word).toBe('told');
		expect(explained.causes[0]?.amount).toBeCloseTo(1, 3);
	});

	test('several that are off by one amount are one suspect', () => {
		const { explained } = tried(
			workbook,
			read,
			[
				[['found', 'second'], inch],
				['found', inch],
			],
			{ found: inch, second: inch },
		);
		expect(nameOf(explained)).toBe('found,second');
		expect((explained.causes[0]?.amount ?? NaN) / inch).toBeCloseTo(-1, 1);
	});
});

/**
 * A few of the jobs that the accuracy table has by the thousand: shares are held with room for
 * chance, four standard deviations of so many jobs.
 */
describe('jobs made up by chance', () => {
	const jobs = 80;
	const room = (share: number): number => 4 * Math.sqrt((share * (1 - share)) / jobs) + 1 / jobs;
	const benches = shippedBenches('0.25');

	test('nothing wrong agrees', () => {
		const { agrees, toldWrong } = tallied(benches, undefined, jobs);
		expect(agrees).toBeGreaterThan(0.97 - room(0.97));
		expect(toldWrong).toBeLessThan(0.01 + room(0.01));
	});

	test.each(faults)('$name', (fault) => {
		const { first, toldWrong } = tallied(benches, fault, jobs);
		expect(first).toBeGreaterThan(fault.first - room(fault.first));
		expect(toldWrong).toBeLessThan(0.01 + room(0.01));
	});
});
