/** How sure a figure is, by hand calculation and against chance itself; gum-end-gauge.test.ts has an example. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Node } from '../../src/lib/language/graph.ts';
import { plusMinusOfAll, type PlusMinus } from '../../src/lib/engine/plus-minus.ts';
import { runAll, type Run } from '../../src/lib/engine/run.ts';
import type { Value } from '../../src/lib/language/types.ts';
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

function plusMinusIn(
	workbook: Workbook,
	run: Run,
	name: string,
	of: (node: Node) => number = statedPlusMinus,
): PlusMinus | undefined {
	const node = workbook.graph.byId.get(name);
	if (!node) throw new Error(`No node “${name}”.`);
	return plusMinusOfAll(workbook.graph, run, of)[node.slot];
}

function sizeOf(workbook: Workbook, name: string): number {
	const found = plusMinusIn(workbook, runOf(workbook), name);
	if (!found) throw new Error(`“${name}” has no ±.`);
	return found.size;
}

describe('by hand', () => {
	const inch = 0.0254;
	const page = [
		inputCell('a', 'length', 'default: 10 in', 'plus_minus: 3/8 in'),
		inputCell('b', 'length', 'default: 4 in', 'plus_minus: 1/2 in'),
		inputCell('exact', 'length', 'default: 7 in'),
		inputCell('slope', 'angle', 'default: 5 deg', 'plus_minus: 0.3 deg'),
		inputCell('other', 'angle', 'default: 5 deg', 'plus_minus: 0.4 deg'),
		inputCell('n', 'number', 'default: 3', 'plus_minus: 0.02'),
		fence(
			'derive',
			'sum = a + b  # S',
			'weighted = 2 * a - 3 * b + exact  # W',
			'nothing = a - a  # N',
			'nothing_by_ways = (a + b) - a - b  # NW',
			'one = a / a  # One',
			'half = sum / 2  # H',
			'twice_used = half + a / 2  # T',
			'sure = 2 * exact  # Sure',
			'area_of = a * b  # A',
			'share = a / b  # Q',
			'squared = n ^ 2  # Sq',
			'bent = operating_angle(slope, other)  # Bent',
			'picked = a > b ? a : b  # P',
			'lost = sqrt(4 - n * n)  # L',
			'known = n > 2  # K',
			'pinched = sqrt(-(n - 3) ^ 2)  # Pi',
		),
	].join('\n');
	const workbook = smallWorkbook({ one: page });
	const degree = Math.PI / 180;

	test.each([
		['a', (3 / 8) * inch],
		['sum', (5 / 8) * inch],
		['weighted', Math.hypot(2 * (3 / 8), 3 / 2) * inch],
		['half', (5 / 16) * inch],
		['twice_used', Math.hypot(3 / 8, 1 / 4) * inch],
		['area_of', Math.hypot(4 * (3 / 8), 10 / 2) * inch * inch],
		['picked', (3 / 8) * inch],
		['squared', 0.12],
		// Two shafts in line: the angle between them is not sure because both slopes read the same.
		['bent', Math.hypot(0.3, 0.4) * degree],
	])('%s', (name, wanted) => {
		expect(sizeOf(workbook, name) / wanted).toBeCloseTo(1, 9);
	});

	test('a share has no second order left in it', () => {
		// The slope to b is read over ± 0.05 in; what is left of the curve there is (0.05/4)².
		const wanted = Math.hypot(3 / 8 / 4, (10 / 16) * 0.5);
		expect(Math.abs(sizeOf(workbook, 'share') / wanted - 1)).toBeLessThan((0.05 / 4) ** 2);
	});

	test('what takes an entry from itself is sure', () => {
		expect(plusMinusIn(workbook, runOf(workbook), 'nothing')).toEqual({ size: 0, parts: [] });
		expect(plusMinusIn(workbook, runOf(workbook), 'one')).toEqual({ size: 0, parts: [] });
		expect(sizeOf(workbook, 'nothing_by_ways')).toBeLessThan(1e-14);
	});

	test('no ± in, none out', () => {
		expect(plusMinusIn(workbook, runOf(workbook), 'sure')).toEqual({ size: 0, parts: [] });
		const none = plusMinusOfAll(workbook.graph, runOf(workbook), () => 0);
		workbook.graph.nodes.forEach((node, slot) => {
			const has = node.type?.kind === 'quantity' && node.id !== 'lost';
			expect(none[slot]).toEqual(has ? { size: 0, parts: [] } : undefined);
		});
	});

	test('what has no value, or is no quantity, has no ±', () => {
		expect(plusMinusIn(workbook, runOf(workbook), 'lost')).toBeUndefined();
		expect(plusMinusIn(workbook, runOf(workbook), 'known')).toBeUndefined();
		// It has a value at 3 and on neither side of it.
		expect(numberIn(workbook, runOf(workbook), 'pinched')).toBeCloseTo(0, 15);
		expect(plusMinusIn(workbook, runOf(workbook), 'pinched')).toBeUndefined();
	});

	test('at the edge of what can be worked out, the side that answers counts', () => {
		const run = runOf(workbook, { n: 1.999 });
		// Up by a tenth of 0.02 is beyond 2; only the way down is left.
		const down = (Math.sqrt(4 - 1.999 ** 2) - Math.sqrt(4 - 1.997 ** 2)) / 0.1;
		expect(plusMinusIn(workbook, run, 'lost')?.size).toBeCloseTo(Math.abs(down), 9);
	});

	test('sums of any entries follow the root of the sum of squares', () => {
		const weight = fc.integer({ min: -9, max: 9 });
		fc.assert(
			fc.property(fc.array(weight, { minLength: 1, maxLength: 5 }), (weights) => {
				const sum = smallWorkbook({
					one:
						weights
							.map((_, i) =>
								inputCell(`x${i}`, 'length', `default: ${i + 1} in`, 'plus_minus: 1/4 in'),
							)
							.join('\n') +
						fence('derive', `sum = ${weights.map((w, i) => `${w} * x${i}`).join(' + ')}  # S`),
				});
				expect(sizeOf(sum, 'sum')).toBeCloseTo((Math.hypot(...weights) / 4) * inch, 12);
			}),
			{ numRuns: 50 },
		);
	});

	test('the run it starts from stays as it was', () => {
		const run = runOf(workbook);
		const copy = stateOf(run);
		plusMinusOfAll(workbook.graph, run, statedPlusMinus);
		expect(stateOf(run)).toEqual(copy);
	});
});

describe('against chance: reference layout A with every entry scattered by its ±', () => {
	/** Mulberry32: the same scatter every time. */
	function evenly(seed: number): () => number {
		let state = seed;
		return () => {
			state = (state + 0x6d2b79f5) | 0;
			let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
			mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
			return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
		};
	}
	const even = evenly(1972);
	/** Box and Muller's way from even to normal. */
	const normal = (): number =>
		Math.sqrt(-2 * Math.log(1 - even())) * Math.cos(2 * Math.PI * even());

	const { graph } = shipped;
	const inputs = layoutA();
	const figures = [
		...['rear_drop', 'axle_forward', 'pinion_turn', 'rake_change', 'arch_after'],
		...['trans_slope_after', 'shaft_slope_after', 'pinion_slope_after', 'rear_joint'],
		...['shaft_length_after', 'shaft_length_change'],
	];
	const draws = 4000;
	const found = new Map(figures.map((name): [string, number[]] => [name, []]));
	for (let draw = 0; draw < draws; draw++) {
		const scattered = new Map<string, Value>();
		for (const [name, value] of inputs) {
			const node = graph.byId.get(name);
			scattered.set(
				name,
				typeof value === 'number' && node ? value + normal() * plusMinusOfA(node) : value,
			);
		}
		const run = runAll(graph, scattered);
		for (const [name, values] of found) values.push(numberIn(shipped, run, name));
	}
	const sure = plusMinusOfAll(graph, runAll(graph, inputs), plusMinusOfA);

	// 4000 draws give a scatter to 1.1% (one standard deviation); three of those, and 1.5% for what the
	// first order leaves out.
	test.each(figures)('%s within a twentieth', (name) => {
		const values = found.get(name) ?? [];
		const mean = values.reduce((sum, value) => sum + value, 0) / draws;
		const scatter = Math.sqrt(
			values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (draws - 1),
		);
		const size = sure[graph.byId.get(name)?.slot ?? -1]?.size ?? NaN;
		expect(size).toBeGreaterThan(0);
		expect(Math.abs(size / scatter - 1)).toBeLessThan(0.05);
	});
});
