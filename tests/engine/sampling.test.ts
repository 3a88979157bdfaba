/** Scattered entries: against closed forms, against the first order, and where the two must part. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Node } from '../../src/lib/language/graph.ts';
import { normalQuantile } from '../../src/lib/engine/normal.ts';
import { plusMinusOfAll, type PlusMinus } from '../../src/lib/engine/plus-minus.ts';
import { runAll, type Run } from '../../src/lib/engine/run.ts';
import { bends, sampledPlusMinus, type Sampled } from '../../src/lib/engine/sampling.ts';
import { solve } from '../../src/lib/engine/solve.ts';
import type { Workbook } from '../../src/lib/language/workbook.ts';
import { layoutA, plusMinusOfA } from '../trade/layout-a.ts';
import { shipped } from '../language/shipped.ts';
import {
	fence,
	inputCell,
	numberIn,
	runOf,
	smallWorkbook,
	stateOf,
	statedPlusMinus,
} from '../language/small-workbook.ts';

function sampled(
	workbook: Workbook,
	run: Run,
	names: readonly string[],
	{ of = statedPlusMinus, count = 1000, seed = 1 } = {},
): (Sampled | undefined)[] {
	const slots = names.map((name) => {
		const node = workbook.graph.byId.get(name);
		if (!node) throw new Error(`No node “${name}”.`);
		return node.slot;
	});
	return sampledPlusMinus(workbook.graph, run, of, slots, count, seed);
}

/** The samples of one figure. */
function one(...[workbook, run, name, more]: [Workbook, Run, string, object?]): Sampled {
	const [found] = sampled(workbook, run, [name], more);
	if (!found) throw new Error(`“${name}” has no samples.`);
	return found;
}

function firstOrder(
	workbook: Workbook,
	run: Run,
	name: string,
	of: (node: Node) => number = statedPlusMinus,
): PlusMinus {
	const slot = workbook.graph.byId.get(name)?.slot ?? -1;
	const found = plusMinusOfAll(workbook.graph, run, of)[slot];
	if (!found) throw new Error(`“${name}” has no ±.`);
	return found;
}

describe('the number below which a normal value lies', () => {
	// Abramowitz and Stegun, tables 26.1 and 26.5 and the like (from memory).
	test.each([
		[0.5, 0],
		[0.75, 0.674489750196082],
		[0.841344746068543, 1],
		[0.9, 1.2815515655446],
		[0.95, 1.64485362695147],
		[0.975, 1.95996398454005],
		[0.977249868051821, 2],
		[0.99, 2.32634787404084],
		[0.995, 2.5758293035489],
		[0.99865010196837, 3],
		[0.999, 3.09023230616781],
		[0.9999, 3.71901648545568],
		[0.99999, 4.26489079392282],
	])('in %d of all cases is %d', (share, z) => {
		expect(Math.abs(normalQuantile(share) - z)).toBeLessThan(1e-11);
		// The share above is known to fewer places than z where the tail is thin.
		expect(Math.abs(normalQuantile(1 - share) + z)).toBeLessThan(1e-11);
	});

	test('rises all the way', () => {
		let before = -Infinity;
		for (let part = 1; part < 4000; part++) {
			const z = normalQuantile(part / 4000);
			expect(z).toBeGreaterThan(before);
			before = z;
		}
	});
});

describe('closed forms', () => {
	const inch = 0.0254;
	const workbook = smallWorkbook({
		one: [
			inputCell('a', 'length', 'default: 10 in', 'plus_minus: 1/2 in'),
			inputCell('b', 'length', 'default: 4 in', 'plus_minus: 3/8 in'),
			inputCell('exact', 'length', 'default: 7 in'),
			inputCell('n', 'number', 'default: 0', 'plus_minus: 0.2'),
			fence(
				'derive',
				'sum = a + b  # Sum',
				'product = a * b  # Product',
				'nothing = a - a  # Nothing',
				'one = a / a  # One',
				'sure = 2 * exact  # Sure',
				'squared = n^2  # Squared',
				'folded = abs(n)  # Folded',
				'half = sqrt(n)  # Half of them',
				'never = sqrt(-1 - n^2)  # Never',
				'above = n > 0 ? 1 : 0  # Above',
			),
		].join('\n'),
	});
	const run = runOf(workbook);
	const many = { count: 20_000 };
	// A standard deviation from so many samples is right to 1/√(2n), the mean to σ/√n; four of those.
	const ofDeviation = 4 / Math.sqrt(2 * many.count);
	const ofMean = 4 / Math.sqrt(many.count);

	test('an entry that a figure does not hang on changes nothing of its samples', () => {
		const alone = [
			inputCell('b', 'length', 'default: 4 in', 'plus_minus: 3/8 in'),
			fence('derive', 'twice = 2 * b  # Twice'),
		];
		const other = inputCell('a', 'length', 'default: 10 in', 'plus_minus: 1/2 in');
		const [without, beside] = [alone, [other, ...alone]].map((page) => {
			const small = smallWorkbook({ one: page.join('\n') });
			return one(small, runOf(small), 'twice');
		});
		expect(beside).toEqual(without);
	});

	test('one entry: its own ±, at twice the standard deviation', () => {
		const { mean, standardDeviation, low, high, plusMinus, failed } = one(workbook, run, 'a');
		// A single entry is cut into even parts: by plain chance the mean of so many would scatter by 0.03 of a
		// standard deviation.
		expect(Math.abs(mean - 10 * inch) / (0.25 * inch)).toBeLessThan(0.001);
		expect(standardDeviation / (0.25 * inch)).toBeCloseTo(1, 2);
		expect(plusMinus / (0.5 * inch)).toBeCloseTo(1, 2);
		expect(low / (9.5 * inch)).toBeCloseTo(1, 3);
		expect(high / (10.5 * inch)).toBeCloseTo(1, 3);
		expect(failed).toBe(0);
	});

	test('a sum: the root of the sum of squares', () => {
		const { standardDeviation, plusMinus, mean } = one(workbook, run, 'sum', many);
		const wanted = (5 / 16) * inch;
		expect(Math.abs(standardDeviation / wanted - 1)).toBeLessThan(ofDeviation);
		expect(Math.abs(mean - 14 * inch) / wanted).toBeLessThan(ofMean);
		expect(Math.abs(plusMinus / (2 * wanted) - 1)).toBeLessThan(2 * ofDeviation);
	});

	test('a product, second order and all: σ² = a²σ_b² + b²σ_a² + σ_a²σ_b²', () => {
		const [sa, sb] = [0.25 * inch, (3 / 16) * inch];
		const wanted = Math.hypot(10 * inch * sb, 4 * inch * sa, sa * sb);
		const { standardDeviation } = one(workbook, run, 'product', many);
		expect(Math.abs(standardDeviation / wanted - 1)).toBeLessThan(ofDeviation);
	});

	test('a square about nought: mean σ², standard deviation √2 σ²; 95.45 % from its tails', () => {
		const { mean, standardDeviation, low, high } = one(workbook, run, 'squared', many);
		expect(Math.abs(mean / 0.01 - 1)).toBeLessThan(Math.SQRT2 * ofMean);
		// Its fourth moment is large: the standard deviation scatters √7 times as much.
		expect(Math.abs(standardDeviation / (Math.SQRT2 * 0.01) - 1)).toBeLessThan(
			Math.sqrt(7) * ofDeviation,
		);
		// 2.275 per cent lie beyond either end: n² below z² with Φ(z) = 0.5 ± half of that.
		const tail = (1 - 0.9545) / 2;
		expect(high / (0.01 * normalQuantile(1 - tail / 2) ** 2)).toBeCloseTo(1, 1);
		expect(Math.sqrt(low / 0.01)).toBeCloseTo(normalQuantile(0.5 + tail / 2), 2);
	});

	test('a fold: mean σ√(2/π)', () => {
		const { mean, standardDeviation } = one(workbook, run, 'folded', many);
		expect(mean).toBeCloseTo(0.1 * Math.sqrt(2 / Math.PI), 5);
		expect(standardDeviation).toBeCloseTo(0.1 * Math.sqrt(1 - 2 / Math.PI), 4);
	});

	test('what takes an entry from itself, or has no ± in it, has none', () => {
		for (const [name, value] of [
			['nothing', 0],
			['one', 1],
			['sure', 14 * inch],
			['exact', 7 * inch],
		] as const) {
			const found = one(workbook, run, name);
			expect(found).toMatchObject({ standardDeviation: 0, plusMinus: 0, failed: 0, count: 1000 });
			expect(found.mean).toBeCloseTo(value, 15);
			expect(found.low).toBe(found.high);
		}
	});

	test('no ± in, none out', () => {
		const names = ['a', 'sum', 'product', 'squared', 'folded'];
		for (const found of sampled(workbook, run, names, { of: () => 0 })) {
			expect(found).toMatchObject({ standardDeviation: 0, plusMinus: 0 });
		}
	});

	test('samples that cannot be worked out are counted and left out', () => {
		const found = one(workbook, run, 'half');
		// n is above nought in half of the even parts, exactly.
		expect(found).toMatchObject({ failed: 0.5, count: 500 });
		expect(found.low).toBeGreaterThan(0);
		expect(sampled(workbook, run, ['never'])).toEqual([undefined]);
	});

	test('each entry falls once into every even part of its scatter', () => {
		const { mean } = one(workbook, run, 'above');
		expect(mean).toBe(0.5);
	});

	test('the same seed gives the same, another seed another', () => {
		const names = ['sum', 'product'];
		expect(sampled(workbook, run, names)).toEqual(sampled(workbook, run, names, { seed: 1 }));
		expect(sampled(workbook, run, names)).not.toEqual(sampled(workbook, run, names, { seed: 2 }));
	});

	test('the run it starts from stays as it was', () => {
		const copy = stateOf(run);
		sampled(workbook, run, ['sum']);
		expect(stateOf(run)).toEqual(copy);
	});
});

test('a sum of two is known better than by plain chance', () => {
	const workbook = smallWorkbook({
		one: [
			inputCell('a', 'length', 'default: 1 in', 'plus_minus: 1/2 in'),
			inputCell('b', 'length', 'default: 4 in', 'plus_minus: 1/2 in'),
			fence('derive', 'sum = a + b  # Sum'),
		].join('\n'),
	});
	const run = runOf(workbook);
	const deviation = (0.25 * Math.SQRT2 * 0.0254) / Math.sqrt(200);
	// The mean of 200 would lie beyond a fifth of its chance deviation in most of these, if it were chance.
	fc.assert(
		fc.property(fc.integer({ min: 1, max: 1_000_000 }), (seed) => {
			const { mean } = one(workbook, run, 'sum', { count: 200, seed });
			expect(Math.abs(mean - 5 * 0.0254)).toBeLessThan(deviation / 5);
		}),
		{ numRuns: 50 },
	);
});

describe('on the shipped workbook, reference layout A', () => {
	const run = runAll(shipped.graph, layoutA());
	const figures = [
		...['rear_drop', 'axle_forward', 'pinion_turn', 'rake_change', 'arch_after'],
		...['shaft_slope_after', 'pinion_slope_after', 'rear_joint', 'shaft_length_after'],
		'shaft_length_change',
	];
	const count = 4000;
	const found = sampled(shipped, run, figures, { count, of: plusMinusOfA });

	// Sampling theory: a standard deviation from 4000 samples scatters by 1.1 per cent, an end of the
	// interval that holds 95.45 by 4.4 per cent of the standard deviation, half the interval by 1.6 per cent
	// of itself. Three of those, and 1.5 per cent for what the first order leaves out.
	test.each(figures.map((name, index) => [name, index] as const))('%s', (name, index) => {
		const samples = found[index];
		const first = firstOrder(shipped, run, name, plusMinusOfA);
		if (!samples) throw new Error('no samples');
		expect(first.size).toBeGreaterThan(0);
		expect(samples.failed).toBe(0);
		expect(Math.abs((2 * samples.standardDeviation) / first.size - 1)).toBeLessThan(0.048);
		expect(Math.abs(samples.plusMinus / first.size - 1)).toBeLessThan(0.063);
		// The mean to 1.6 per cent of the standard deviation, which is half the ±; three of those, and 1.5.
		const value = numberIn(shipped, run, name);
		expect(Math.abs(samples.mean - value) / first.size).toBeLessThan(0.039);
		expect(bends(value, first, samples)).toBe('agree');
	});

	test('an operating angle near nought bends, and says so', () => {
		// The wedge that brings the rear joint straight.
		const slots = ['wedge_angle', 'rear_joint', 'rotation'].map(
			(name) => shipped.graph.byId.get(name)?.slot ?? -1,
		);
		const [input = -1, left = -1, nought = -1] = slots;
		const [wedge = NaN] = solve(shipped.graph, run, input, -0.2, 0.2, left, nought).found;
		const entered = layoutA();
		const straight = runAll(shipped.graph, entered.set('wedge_angle', wedge));
		const value = numberIn(shipped, straight, 'rear_joint');
		const first = firstOrder(shipped, straight, 'rear_joint');
		expect(value).toBeLessThan(1e-9);
		const samples = one(shipped, straight, 'rear_joint');
		expect(bends(value, first, samples)).toBe('bends');
		// No angle is below nought, so its mean lies above.
		expect(samples.low).toBeGreaterThanOrEqual(0);
		expect(samples.mean).toBeGreaterThan(value + 0.1 * first.size);
		// The steeper wedge that brings it further takes it out of the fold again.
		const beyond = runAll(shipped.graph, entered.set('wedge_angle', wedge - 3 * first.size));
		expect(
			bends(
				numberIn(shipped, beyond, 'rear_joint'),
				firstOrder(shipped, beyond, 'rear_joint'),
				one(shipped, beyond, 'rear_joint'),
			),
		).toBe('agree');
	});
});

describe('whether a figure bends', () => {
	const samples = (mean: number, plusMinus: number, count = 1000): Sampled => ({
		mean,
		standardDeviation: plusMinus / 2,
		low: mean - plusMinus,
		high: mean + plusMinus,
		plusMinus,
		count,
		failed: 0,
	});
	const first = (size: number): PlusMinus => ({ size, parts: [] });

	test.each<[what: string, value: number, size: number, found: Sampled, says: string]>([
		['the same', 5, 1, samples(5, 1), 'agree'],
		['a tenth more', 5, 1, samples(5, 1.1), 'agree'],
		['a fifth more, with a thousand', 5, 1, samples(5, 1.21), 'bends'],
		['a fifth less, with a thousand', 5, 1, samples(5, 0.8), 'bends'],
		['a fifth more, with fifty', 5, 1, samples(5, 1.21, 50), 'agree'],
		['an eighth more, with a million', 5, 1, samples(5, 1.125, 1e6), 'bends'],
		['the middle off by a tenth', 5, 1, samples(5.1, 1), 'agree'],
		['the middle off by a fifth', 5, 1, samples(5.2, 1), 'bends'],
		['the middle off by a fifth, down', 5, 1, samples(4.8, 1), 'bends'],
		['the top of a hill: no slope, and yet a scatter', 5, 0, samples(4.9, 0.1), 'bends'],
		['neither has any', 5, 0, samples(5, 0), 'agree'],
	])('%s', (_, value, size, found, says) => {
		expect(bends(value, first(size), found)).toBe(says);
	});

	test('what nobody could see is no bend', () => {
		expect(bends(5, first(0), samples(5, 1e-12), 1e-3)).toBe('agree');
		expect(bends(5, first(0.001), samples(5, 0.0019), 1e-3)).toBe('agree');
		expect(bends(5, first(0.001), samples(5, 0.0021), 1e-3)).toBe('bends');
	});
});

describe('what is not independent', () => {
	const workbook = smallWorkbook({
		one: [
			inputCell('long', 'length', 'plus_minus: 0.3 in', 'default: 10 in'),
			inputCell(
				'usual',
				'length',
				'plus_minus: 0.1 in',
				'starts_as: long',
				'assumed_plus_minus: 0.4 in',
			),
			inputCell('before', 'angle', 'plus_minus: 0.5 deg', 'repeat: 0.25 deg', 'default: 4 deg'),
			inputCell(
				'after',
				'angle',
				'plus_minus: 0.5 deg',
				'repeat: 0.25 deg',
				'same_face_as: before',
				'default: 6 deg',
			),
			fence('derive', 'both = usual + long  # both', 'turned = after - before  # turned'),
		].join('\n'),
	});
	const sizes: Record<string, number> = { long: 0.3, usual: 0.4, before: 0.5, after: 0.5 };
	const of = ({ id }: Node): number =>
		(sizes[id] ?? 0) * (['before', 'after'].includes(id) ? Math.PI / 180 : 0.0254);

	test('what follows another entry scatters with it, and by its own ± about it', () => {
		const run = runOf(workbook, {});
		const found = one(workbook, run, 'both', { of, count: 4000 });
		// 2 · 0.3 from what is followed, 0.4 of its own.
		expect(found.plusMinus / 0.0254).toBeCloseTo(Math.hypot(0.6, 0.4), 1);
		expect(found.plusMinus).toBeCloseTo(firstOrder(workbook, run, 'both', of).size, 3);
	});

	test('once it is entered it scatters by itself', () => {
		const found = one(workbook, runOf(workbook, { usual: 0.254 }), 'both', { of, count: 4000 });
		expect(found.plusMinus / 0.0254).toBeCloseTo(Math.hypot(0.3, 0.4), 1);
	});

	test('face and gauge that two readings share drop out of their difference', () => {
		const found = one(workbook, runOf(workbook, {}), 'turned', { of, count: 4000 });
		expect((found.plusMinus * 180) / Math.PI).toBeCloseTo(Math.hypot(0.25, 0.25), 1);
	});
});
