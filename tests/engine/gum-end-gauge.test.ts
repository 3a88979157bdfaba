/**
 * The published example of a ± carried through: JCGM 100:2008 (GUM), H.1, calibration of a 50 mm end gauge.
 * Model, inputs and answers are those of the example (from memory). Its standard uncertainties are given
 * here as ± at the coverage factor 2, as all ± of a worksheet are.
 */
import { expect, test } from 'vitest';
import { plusMinusOfAll } from '../../src/lib/engine/plus-minus.ts';
import { bends, sampledPlusMinus } from '../../src/lib/engine/sampling.ts';
import {
	fence,
	inputCell,
	numberIn,
	runOf,
	smallWorkbook,
	statedPlusMinus,
} from '../language/small-workbook.ts';

const nanometre = 1e-9;

/** Standard uncertainties: temperatures as numbers in °C, expansion in parts for each °C. */
const page = [
	inputCell('standard', 'length', 'default: 50.000623 mm', 'plus_minus: 2 * 25e-6 mm'),
	inputCell('difference', 'length', 'default: 0.000215 mm', 'plus_minus: 2 * 9.7e-6 mm'),
	// ± 2e-6 with equal chance all over: divided by √3; ± 1e-6 and ± 0.05 °C likewise.
	inputCell('expansion', 'number', 'default: 11.5e-6', 'plus_minus: 2 * 1.2e-6'),
	inputCell('expansion_difference', 'number', 'default: 0', 'plus_minus: 2 * 0.58e-6'),
	inputCell('temperature', 'number', 'default: -0.1', 'plus_minus: 2 * 0.41'),
	inputCell('temperature_difference', 'number', 'default: 0', 'plus_minus: 2 * 0.029'),
	fence(
		'derive',
		'gauge = standard + difference',
		'  - standard * (expansion_difference * temperature + expansion * temperature_difference)',
		'  to mm  # Length of the gauge at 20 °C',
	),
].join('\n');
const workbook = smallWorkbook({ one: page });
const run = runOf(workbook);
const slot = workbook.graph.byId.get('gauge')?.slot ?? -1;
const first = plusMinusOfAll(workbook.graph, run, statedPlusMinus)[slot];
const value = numberIn(workbook, run, 'gauge');

test('H.1.6: the length, 50.000838 mm', () => {
	expect(workbook.problems).toEqual([]);
	expect(value / 1e-3).toBeCloseTo(50.000838, 9);
});

test('H.1.4: first order, u = 31.7 nm, published rounded as 32 nm', () => {
	const size = (first?.size ?? NaN) / 2 / nanometre;
	expect(Math.abs(size - 31.7)).toBeLessThan(0.05);
	expect(Math.round(size)).toBe(32);
});

test('H.1.3: what each input brings: 25, 9.7, 2.9 and 16.6 nm; expansion and temperature nothing', () => {
	const brought = first?.parts.map(({ input, brings }) => [
		input,
		Math.round(Math.abs(brings) / 2 / nanometre / 0.1) * 0.1,
	]);
	expect(brought).toEqual([
		['standard', 25],
		// 16.67 before the example cuts it short.
		['temperature_difference', expect.closeTo(16.7, 9)],
		['difference', expect.closeTo(9.7, 9)],
		['expansion_difference', expect.closeTo(2.9, 9)],
	]);
});

test('H.1.7: with the second order, 11.7 and 1.7 nm more, u = 34 nm, which the samples find', () => {
	// For products of independent normal entries the second-order terms are exact.
	const [length, expansion] = [50.000623e6, 11.5e-6];
	const wanted = Math.hypot(
		...[25, 9.7, length * expansion * 0.029, length * 0.58e-6 * -0.1],
		...[length * 0.58e-6 * 0.41, length * 1.2e-6 * 0.029],
	);
	expect(Math.round(wanted)).toBe(34);
	const count = 20_000;
	const [found] = sampledPlusMinus(workbook.graph, run, statedPlusMinus, [slot], count);
	if (!found || !first) throw new Error('no samples');
	// A standard deviation from so many samples is right to 1/√(2n); four of those.
	expect(Math.abs(found.standardDeviation / nanometre / wanted - 1)).toBeLessThan(
		4 / Math.sqrt(2 * count),
	);
	expect(Math.abs(found.mean - value) / nanometre).toBeLessThan((4 * wanted) / Math.sqrt(count));
	// Seven per cent more is not what anyone would call bent.
	expect(bends(value, first, found)).toBe('agree');
});
