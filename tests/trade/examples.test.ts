/** The example of every function row, plain mathematics among them, read as a page and run. */
import { expect, test } from 'vitest';
import { functionTableOf } from '../../src/lib/language/functions.ts';
import { typeFits, typeInWords } from '../../src/lib/language/type-words.ts';
import type { Type, Value } from '../../src/lib/language/types.ts';
import { lowering } from '../../src/lib/trade/lowering.ts';
import { exampleLines, exampleReadings } from '../../src/lib/trade/rows/examples.ts';
import { fence, inputCell, runOf, smallWorkbook, valueIn } from '../language/small-workbook.ts';

const rows = [...functionTableOf(lowering.functions).values()];
const workbook = smallWorkbook({
	one: [
		inputCell('lengths', 'length', 'several: readings'),
		inputCell('angles', 'angle', 'several: readings'),
		fence('derive', ...exampleLines),
		fence('derive', ...rows.map(({ name, example }) => `of_${name} = ${example}  # ${name}`)),
	].join('\n'),
});
const run = runOf(workbook, exampleReadings);

/** What stands for a type while running. */
function isOf(value: Value | undefined, type: Type): boolean {
	if (type.kind === 'quantity') return Number.isFinite(value);
	if (type.kind === 'flag') return typeof value === 'boolean';
	if (type.kind !== 'record') return false;
	const fields = Object.values(type.fields);
	return fields.every((field) => isOf((value as Record<string, Value>)[field.key], field.type));
}

test('every example can be read', () => {
	expect(workbook.problems).toEqual([]);
});

test.each(rows.map((row) => [row.example, row] as const))('%s', (example, { name, result }) => {
	expect(example.startsWith(`${name}(`)).toBe(true);
	const type = workbook.graph.byId.get(`of_${name}`)?.type;
	if (!type) throw new Error(`“${example}” has no type.`);
	if (result) expect(typeFits(type, result), typeInWords(type)).toBe(true);
	expect(isOf(valueIn(workbook, run, `of_${name}`), type)).toBe(true);
});

test.each([
	['abs', 2 * 0.0254],
	['sign', -1],
	['min', 0.04],
	['max', 2 * 0.0254],
	['hypot', 5 * 0.0254],
	['sqrt', 3 * 0.0254],
	['round', (37 / 16) * 0.0254],
	['floor', 2],
	['ceil', 3],
	['nearest_size', 0.8495],
	['sin', 0.5],
	['cos', 0.5],
	['tan', 1],
	['asin', Math.PI / 6],
	['acos', Math.PI / 3],
	['atan', Math.PI / 4],
	['atan2', 0.08314123],
	['exp', 2.71828183],
	['log', 2.30258509],
])('the example of %s comes to %d', (name, value) => {
	expect(valueIn(workbook, run, `of_${name}`)).toBeCloseTo(value, 8);
});
