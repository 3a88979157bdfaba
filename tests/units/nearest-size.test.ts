/** `nearest_size`: the nearest of a list of stock sizes, which may go in either way round. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { plusMinusOfAll } from '../../src/lib/engine/plus-minus.ts';
import { fence, inputCell, numberIn, runOf, smallWorkbook } from '../language/small-workbook.ts';

const degree = Math.PI / 180;

const sizes = (...lines: readonly string[]): string =>
	inputCell('sizes', 'angle', 'several: sizes', ...lines);
const page = (...lines: readonly string[]): string =>
	`${sizes(...lines)}${inputCell('wanted', 'angle', 'default: 3.2 deg')}
${fence('derive', 'found = nearest_size(sizes, wanted)  # Found')}`;
const shop = smallWorkbook({ one: page('default: [2 deg, 4 deg, 6 deg]') });

/** What is found for an angle wanted among these sizes, in degrees. */
function found(wanted: number, of: readonly number[]): number {
	const run = runOf(shop, {
		sizes: of.map((size) => size * degree),
		wanted: wanted * degree,
	});
	return numberIn(shop, run, 'found') / degree;
}

describe('nearest_size', () => {
	test.each([
		[3.2, [2, 4, 6], 4],
		[-3.2, [2, 4, 6], -4],
		[2.9, [2, 4, 6], 2],
		[9, [2, 4, 6], 6],
		[-0.2, [0, 2, 4], 0],
		[0.3, [2, 4], 2],
		[0, [2, 4], 2],
		[3.2, [6, 4, 2], 4],
		[-1.2, [-1, 3], -1],
	])('%s° from %j is %s°', (wanted, of, expected) => {
		expect(found(wanted, of)).toBeCloseTo(expected, 12);
	});

	test('no size of the list lies nearer, and the sign is that of the value', () => {
		const angle = fc.integer({ min: -4500, max: 4500 }).map((hundredths) => hundredths / 100);
		const size = fc.integer({ min: 0, max: 3000 }).map((hundredths) => hundredths / 100);
		fc.assert(
			fc.property(angle, fc.array(size, { minLength: 1, maxLength: 12 }), (wanted, of) => {
				const best = found(wanted, of);
				for (const each of of) {
					expect(Math.abs(Math.abs(best) - Math.abs(wanted))).toBeLessThanOrEqual(
						Math.abs(each - Math.abs(wanted)) + 1e-9,
					);
				}
				expect(of.some((each) => Math.abs(Math.abs(best) - each) < 1e-9)).toBe(true);
				expect(best * wanted).toBeGreaterThanOrEqual(0);
			}),
		);
	});

	test('an empty list says so, and carries no figure', () => {
		const none = smallWorkbook({ one: page('default: []') });
		const run = runOf(none);
		const node = none.graph.byId.get('found');
		expect(node && run.value(node.slot)).toBeUndefined();
		expect(node && run.failure(node.slot)?.message).toContain('The list of sizes is empty');
	});

	test('it steps from size to size, so it carries no ±', () => {
		const node = shop.graph.byId.get('found');
		const plusMinus = plusMinusOfAll(shop.graph, runOf(shop), () => 0.5 * degree);
		expect(node && plusMinus[node.slot]).toBeUndefined();
	});

	test('what hangs on it carries none either, least of all where two sizes are equally near', () => {
		const more = smallWorkbook({
			one: `${sizes('default: [2 deg, 4 deg]')}${inputCell('wanted', 'angle', 'default: 3 deg')}
${fence(
	'derive',
	...['found = nearest_size(sizes, wanted)  # Found', 'off = wanted - found  # Off'],
	...['inside = wanted - nearest_size(sizes, wanted)  # Inside', 'twice = 2 * wanted  # Twice'],
)}`,
		});
		const plusMinus = plusMinusOfAll(more.graph, runOf(more), () => 0.5 * degree);
		const sizeOf = (name: string) => plusMinus[more.graph.byId.get(name)?.slot ?? -1]?.size;
		expect(['found', 'off', 'inside'].map(sizeOf)).toEqual([undefined, undefined, undefined]);
		expect(sizeOf('twice')).toBeCloseTo(degree, 12);
	});

	test.each([
		['nearest_size(wanted, wanted)', 'nearest_size: sizes has to be a list of sizes'],
		['nearest_size(sizes, span)', 'nearest_size: value has to be a quantity like the sizes'],
		['nearest_size(sizes)', 'nearest_size(sizes, value) takes 2 values; 1 was given.'],
	])('%s is refused', (formula, message) => {
		const wrong = smallWorkbook({
			one: `${page('default: [2 deg]')}${inputCell('span', 'length', 'default: 2 in')}
${fence('derive', `wrong = ${formula}  # Wrong`)}`,
		});
		expect(wrong.problems.map((problem) => problem.message).join('\n')).toContain(message);
	});
});
