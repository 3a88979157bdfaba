/**
 * Units are checked when a page is read, and what is worked out afterwards in plain numbers is what a
 * calculation that carries its units along would give. That calculation is full mathjs, as an outside
 * truth: the worksheet itself uses only its parser and its table of units.
 */
import fc from 'fast-check';
import type { Unit as MathUnit } from 'mathjs';
import { describe, expect, test } from 'vitest';
import { canRun } from '../../src/lib/engine/program.ts';
import { runAll } from '../../src/lib/engine/run.ts';
import { sameDimension, type Dimension } from '../../src/lib/units/dimension.ts';
import { readFormula } from '../../src/lib/language/formula.ts';
import { FormulaError } from '../../src/lib/language/places.ts';
import { functionTableOf } from '../../src/lib/language/functions.ts';
import { lowering } from '../../src/lib/trade/lowering.ts';
import { unitNamed, unitNames, unitOf } from '../../src/lib/units/units.ts';
import type { Node } from '../../src/lib/language/graph.ts';
import { typeOf } from '../../src/lib/language/type-check.ts';
import type { Type } from '../../src/lib/language/types.ts';
import { graphByHand } from '../engine/graph-by-hand.ts';
import { mathjs, siOf } from '../engine/with-units.ts';
import { fence, inputCell, numberIn, placeOf, runOf, smallWorkbook } from './small-workbook.ts';

describe('when units are checked', () => {
	const page = `${inputCell('leaf_front', 'length', 'default: 24 in')}
${inputCell('wedge_angle', 'angle', 'default: 2 deg')}
${fence('derive', 'wrong = leaf_front + wedge_angle  # Wrong', 'right = leaf_front + 1 in  # Right')}
${fence('derive', 'needs_wrong = 2 * wrong  # Needs it')}
${fence('check', 'name: tried', 'label: T', 'when:', '  - level: stop', '    if: wrong > 2 in', '    because: b', '    do: d', 'clear: c', 'source: s')}`;

	test('reading alone finds a bad formula and leaves nothing of it to run', () => {
		const { graph, problems } = smallWorkbook({ one: page });
		expect(problems.map(({ message }) => message)).toEqual([
			'length + angle: leaf_front + wedge_angle. Both sides have to be of one kind.',
		]);
		expect(problems.map(placeOf)).toEqual(['one | derive wrong | 21:9']);
		for (const id of ['wrong', 'needs_wrong', 'tried/0']) {
			const node = graph.byId.get(id);
			expect(node?.broken).toBeTruthy();
			expect(node && canRun(graph, node.slot)).toBe(false);
			expect(node?.type).toBeUndefined();
		}
		expect(canRun(graph, graph.byId.get('right')?.slot ?? -1)).toBe(true);
	});

	test('running afterwards says the same and gives every other figure', () => {
		const workbook = smallWorkbook({ one: page });
		const run = runOf(workbook);
		expect(numberIn(workbook, run, 'right')).toBeCloseTo(25 * 0.0254, 12);
		const node = workbook.graph.byId.get('wrong');
		expect(node && run.failure(node.slot)).toMatchObject({
			why: 'mistake on the page',
			message: 'length + angle: leaf_front + wedge_angle. Both sides have to be of one kind.',
		});
	});
});

describe('the table of units', () => {
	// NIST SP 811, appendix B, exact values.
	test.each([
		['in', 0.0254],
		['ft', 0.3048],
		['mile', 1609.344],
		['lb', 0.45359237],
		['lbf', 4.4482216152605],
		['psi', 4.4482216152605 / 0.0254 ** 2],
		['deg', Math.PI / 180],
		['arcmin', Math.PI / 180 / 60],
		['rev', 2 * Math.PI],
		['rpm', Math.PI / 30],
		['mph', 0.44704],
		['km/h', 1 / 3.6],
		['rev/minute', Math.PI / 30],
		['rad/s^2', 1],
		['GPa', 1e9],
		['Mpsi', (4.4482216152605 / 0.0254 ** 2) * 1e6],
		['kg/m^3', 1],
		['lb/in^3', 0.45359237 / 0.0254 ** 3],
		['ft^2', 0.3048 ** 2],
		['m^2', 1],
		['Hz', 1],
		['h', 3600],
		['lbf in', 4.4482216152605 * 0.0254],
		['lbf in/rad', 4.4482216152605 * 0.0254],
		['N m', 1],
		['lbf/in', 4.4482216152605 / 0.0254],
		['lbf ft', 4.4482216152605 * 0.3048],
		['lbf in/deg', (4.4482216152605 * 0.0254 * 180) / Math.PI],
	])('%s', (name, size) => {
		// mathjs writes pounds to the inch squared in ten figures.
		expect((unitOf(name)?.size ?? 0) / size - 1).toBeCloseTo(0, name.endsWith('psi') ? 9 : 14);
	});

	/** NIST SP 811, appendix B.8, in the seven figures it gives at most. */
	const nist: Readonly<Record<string, number>> = {
		m: 1,
		cm: 1e-2,
		mm: 1e-3,
		km: 1e3,
		in: 2.54e-2,
		inch: 2.54e-2,
		ft: 3.048e-1,
		mile: 1.609344e3,
		rad: 1,
		deg: 1.745329e-2,
		arcmin: 2.908882e-4,
		rev: 6.283185,
		kg: 1,
		g: 1e-3,
		lb: 4.5359237e-1,
		lbf: 4.448222,
		N: 1,
		kN: 1e3,
		s: 1,
		minute: 60,
		hour: 3600,
		h: 3600,
		Hz: 1,
		rpm: 1.047198e-1,
		mph: 4.4704e-1,
		Pa: 1,
		kPa: 1e3,
		MPa: 1e6,
		GPa: 1e9,
		psi: 6.894757e3,
		Mpsi: 6.894757e9,
		W: 1,
		kW: 1e3,
		hp: 7.456999e2,
	};

	test('every unit is what NIST says', () => {
		expect(Object.keys(nist).sort()).toEqual([...unitNames].sort());
		for (const [name, size] of Object.entries(nist)) {
			expect(Math.abs((unitNamed(name)?.size ?? 0) / size - 1), name).toBeLessThan(5e-7);
		}
	});

	test('every unit has the size and dimension mathjs gives it', () => {
		for (const name of unitNames) {
			const outside = mathjs.unit(1, name);
			expect(unitNamed(name)?.size).toBe(siOf(outside).value);
			expect(unitNamed(name)?.dimension).toEqual(siOf(outside).dimension);
		}
	});

	test('units made of them come out as mathjs makes them, to the last bit', () => {
		const factor = fc
			.tuple(fc.constantFrom(...unitNames), fc.constantFrom('', '', '^2', '^3', '^-1', ' ^ 2'))
			.map(([name, power]) => name + power);
		const bracket = fc.tuple(factor, fc.constantFrom(' ', '*', '/'), factor);
		const part = fc.oneof(
			factor,
			bracket.map((parts) => `(${parts.join('')})`),
		);
		const sign = fc.constantFrom(' ', '*', '/', ' / ', ' * ');
		const expression = fc
			.tuple(fc.constantFrom('', '1/'), part, fc.array(fc.tuple(sign, part), { maxLength: 4 }))
			.map(([one, first, rest]) => one + first + rest.map((each) => each.join('')).join(''));
		fc.assert(
			fc.property(expression, (written) => {
				const outside = siOf(mathjs.unit(1, written));
				expect(unitOf(written)?.size, written).toBe(outside.value);
				const dimension = unitOf(written)?.dimension.map((exponent) => exponent + 0);
				expect(dimension, written).toEqual(outside.dimension.map((exponent) => exponent + 0));
			}),
			{ numRuns: 500 },
		);
	});

	test.each([
		'',
		' ',
		'1',
		'2 m',
		'm/',
		'/m',
		'm//s',
		'(m',
		'm)',
		'm^',
		'furlong',
		'm + s',
		'm^x',
		'*',
	])('%j is no unit', (written) => {
		expect(unitOf(written)).toBeUndefined();
	});
});

/** A formula of a known dimension, as text. */
interface Written {
	readonly text: string;
	readonly dimension: Dimension;
}

const named: Readonly<Record<string, readonly [value: number, unit: string]>> = {
	leaf: [24.5, 'in'],
	reach: [310, 'mm'],
	slope: [5.5, 'deg'],
	turn: [-0.0625, 'rad'],
	load: [850, 'lbf'],
	weight: [412, 'lb'],
	moment: [0.8, 's'],
	rate: [160, 'lbf/in'],
	share: [0.375, ''],
};
const scope = Object.fromEntries(
	Object.entries(named).map(([name, [value, unit]]) => [
		name,
		unit ? mathjs.unit(value, unit) : value,
	]),
);
const names = Object.keys(named);
const inputs = new Map(names.map((name) => [name, siOf(scope[name] as MathUnit | number).value]));
const typeOfName = (name: string): Type => ({
	kind: 'quantity',
	dimension: siOf(scope[name] as MathUnit | number).dimension,
});

const wordsFor: readonly (readonly string[])[] = [
	['kg', 'lb', 'g'],
	['m', 'mm', 'in', 'ft'],
	['s', 'minute'],
	['rad', 'deg'],
];

function amount(dimension: Dimension): fc.Arbitrary<Written> {
	return fc
		.tuple(
			fc.integer({ min: 1, max: 4000 }).map((n) => n / 8),
			...wordsFor.map((words) => fc.constantFrom(...words)),
			fc.boolean(),
		)
		.map(([value, mass, length, time, angle, bracketed]) => {
			const units = [mass, length, time, angle]
				.map((word, index) => {
					const power = dimension[index] ?? 0;
					return power === 0 ? '' : power === 1 ? word : `${word}^${power}`;
				})
				.filter(Boolean)
				.join(' ');
			const text = units ? `${value} ${units}` : String(value);
			return { text: bracketed ? `(${text})` : text, dimension };
		});
}

const dimensions: fc.Arbitrary<Dimension> = fc.constantFrom<Dimension>(
	[0, 0, 0, 0, 0],
	[0, 1, 0, 0, 0],
	[0, 0, 0, 1, 0],
	[1, 0, 0, 0, 0],
	[0, 0, 1, 0, 0],
	[1, 1, -2, 0, 0],
	[1, 0, -2, 0, 0],
	[0, -1, 0, 0, 0],
	[1, 2, -2, -1, 0],
);

const combined = (a: Dimension, b: Dimension, sign: number): Dimension => [
	a[0] + sign * b[0],
	a[1] + sign * b[1],
	a[2] + sign * b[2],
	a[3] + sign * b[3],
	a[4] + sign * b[4],
];
const powered = (a: Dimension, power: number): Dimension => [
	a[0] * power,
	a[1] * power,
	a[2] * power,
	a[3] * power,
	a[4] * power,
];

const madeBefore = new Map<string, fc.Arbitrary<Written>>();

/** A well-typed formula of this dimension. */
function formulaOf(dimension: Dimension, depth: number): fc.Arbitrary<Written> {
	const key = [...dimension, depth].join();
	const made = madeBefore.get(key) ?? newFormulaOf(dimension, depth);
	madeBefore.set(key, made);
	return made;
}

function newFormulaOf(dimension: Dimension, depth: number): fc.Arbitrary<Written> {
	const alike = names.filter((name) => {
		const type = typeOfName(name);
		return type.kind === 'quantity' && sameDimension(type.dimension, dimension);
	});
	const leaf = alike.length
		? fc.oneof(
				amount(dimension),
				fc.constantFrom(...alike).map((text) => ({ text, dimension })),
			)
		: amount(dimension);
	if (depth === 0) return leaf;
	const same = formulaOf(dimension, depth - 1);
	const written = (text: fc.Arbitrary<string>): fc.Arbitrary<Written> =>
		text.map((each) => ({ text: each, dimension }));
	const ways = [
		leaf,
		written(
			fc
				.tuple(same, fc.constantFrom('+', '-'), same)
				.map(([a, sign, b]) => `(${a.text} ${sign} ${b.text})`),
		),
		written(
			dimensions.chain((other) =>
				fc
					.tuple(formulaOf(combined(dimension, other, -1), depth - 1), formulaOf(other, depth - 1))
					.map(([a, b]) => `${a.text} * ${b.text}`),
			),
		),
		written(
			dimensions.chain((other) =>
				fc
					.tuple(formulaOf(combined(dimension, other, 1), depth - 1), formulaOf(other, depth - 1))
					.map(([a, b]) => `(${a.text}) / (${b.text})`),
			),
		),
		written(same.map(({ text }) => `-(${text})`)),
		written(same.map(({ text }) => `abs(${text})`)),
		written(
			fc
				.tuple(fc.constantFrom('min', 'max'), same, same)
				.map(([word, a, b]) => `${word}(${a.text}, ${b.text})`),
		),
		written(formulaOf(powered(dimension, 2), depth - 1).map(({ text }) => `sqrt(abs(${text}))`)),
		written(
			fc
				.tuple(fc.constantFrom('min', 'max'), same, same, same)
				.map(([word, a, b, c]) => `${word}(${a.text}, ${b.text}, ${c.text})`),
		),
		written(
			fc
				.tuple(condition(depth - 1), same, same)
				.map(([asked, yes, no]) => `(${asked} ? ${yes.text} : ${no.text})`),
		),
	];
	if (dimension.every((power) => power % 2 === 0)) {
		ways.push(
			written(formulaOf(powered(dimension, 0.5), depth - 1).map(({ text }) => `(${text})^2`)),
		);
	}
	if (sameDimension(dimension, [0, 0, 0, 0, 0])) {
		ways.push(
			written(
				fc
					.tuple(fc.constantFrom('sin', 'cos', 'tan'), formulaOf([0, 0, 0, 1, 0], depth - 1))
					.map(([word, { text }]) => `${word}(${text})`),
			),
		);
	}
	return fc.oneof(...ways);
}

/** A comparison, or two with and, or, not. */
function condition(depth: number): fc.Arbitrary<string> {
	const comparison = dimensions.chain((of) => {
		const compared = formulaOf(of, depth);
		return fc
			.tuple(compared, fc.constantFrom('<', '>', '<=', '>='), compared)
			.map(([a, sign, b]) => `${a.text} ${sign} ${b.text}`);
	});
	return fc.oneof(
		{ weight: 3, arbitrary: comparison },
		fc
			.tuple(comparison, fc.constantFrom('and', 'or'), comparison)
			.map(([a, word, b]) => `(${a}) ${word} (${b})`),
		comparison.map((a) => `not (${a})`),
	);
}

const anyFormula = dimensions.chain((dimension) => formulaOf(dimension, 3));
// The same formulas every time, so that a difference is a finding and never chance.
const settled = { seed: 811 };

const functions = functionTableOf(lowering.functions);

const types = new Map(names.map((name) => [name, typeOfName(name)]));

function worksheet(text: string): { type: Type; value: unknown } {
	const { tree } = readFormula({ text, line: 1, column: 1 });
	const graph = graphByHand(types, [['result', tree]], functions);
	const { slot, type } = graph.byId.get('result') as Node;
	return { type: type as Type, value: runAll(graph, inputs).value(slot) };
}

/** By mathjs, which takes “in” before another value as “to”; the worksheet never does. */
function workedOut(text: string): { value: number; dimension: Dimension } {
	const spelt = text.replace(/\bin\b/g, 'inch');
	return siOf(mathjs.evaluate(spelt, { ...scope }) as MathUnit | number);
}

describe('well-typed formulas', () => {
	test('come out as mathjs works them out with units, in value and dimension', () => {
		let compared = 0;
		fc.assert(
			fc.property(anyFormula, ({ text, dimension }) => {
				const outside = workedOut(text);
				if (!Number.isFinite(outside.value)) return;
				const { type, value } = worksheet(text);
				expect(type.kind).toBe('quantity');
				if (type.kind !== 'quantity') return;
				for (const wanted of [dimension, outside.dimension]) {
					expect(sameDimension(type.dimension, wanted)).toBe(true);
				}
				const size = Math.abs(outside.value);
				expect(Math.abs((value as number) - outside.value)).toBeLessThanOrEqual(
					1e-11 * size + 1e-300,
				);
				compared++;
			}),
			{ ...settled, numRuns: 1500 },
		);
		expect(compared).toBeGreaterThan(1400);
	});

	test('are refused as soon as one more term of another dimension is added', () => {
		fc.assert(
			fc.property(
				anyFormula,
				dimensions,
				fc.constantFrom('+', '-', '<', '=='),
				(one, other, sign) => {
					fc.pre(!sameDimension(one.dimension, other));
					fc.assert(
						fc.property(formulaOf(other, 1), ({ text }) => {
							const source = { text: `(${one.text}) ${sign} (${text})`, line: 1, column: 1 };
							const { tree } = readFormula(source);
							expect(() => typeOf(tree, typeOfName, functions)).toThrow(FormulaError);
							expect(() => typeOf(tree, typeOfName, functions)).toThrow(
								/Both sides have to be of one kind\./,
							);
						}),
						{ ...settled, numRuns: 2 },
					);
				},
			),
			{ ...settled, numRuns: 200 },
		);
	});

	test.each([
		// Where a person might read the grammar two ways: mathjs is the judge.
		'1/2 in',
		'-1/2 in',
		'6 in / 2 in',
		'share / 2 in',
		'-2 in^2',
		'-share^2',
		'share^-2',
		'2^3^2',
		'2 lbf in + 1 N m',
		'2in+3in',
		'3 in in',
		'1 in^-1',
		'160 lbf/in * leaf',
		'leaf/in',
		'1 / (lbf/in)',
		'leaf + reach > 1 m ? leaf : reach',
		'3000 rpm * 2 s',
		'60 mph',
	])('%s', (text) => {
		const { type, value } = worksheet(text);
		const truth = workedOut(text);
		expect(type.kind === 'quantity' && sameDimension(type.dimension, truth.dimension)).toBe(true);
		expect((value as number) / truth.value).toBeCloseTo(1, 12);
	});

	test('the unit after “to” shows the whole formula and changes no value', () => {
		const shown = readFormula({
			text: 'leaf > 1 m ? leaf :\n  reach\tto  mm',
			line: 1,
			column: 1,
		});
		expect(shown.shownIn).toMatchObject({ name: 'mm', size: 0.001 });
		expect(worksheet('leaf > 1 m ? leaf :\n  reach\tto  mm').value).toBeCloseTo(0.31, 15);
	});
});

describe('the function table', () => {
	const flag: Type = { kind: 'flag' };
	const rows = [...functions.values()].filter(({ parameters }) =>
		parameters.every(({ type }) => type !== undefined),
	);

	test.each(rows.map((row) => [row.name, row] as const))(
		'%s takes what it says and nothing else',
		(_, row) => {
			const words = row.parameters.map((_each, index) => `value_${index}`);
			const { tree } = readFormula({
				text: `${row.name}(${words.join(', ')})`,
				line: 1,
				column: 1,
			});
			const asked = (name: string): Type | undefined =>
				row.parameters[Number(name.replace('value_', ''))]?.type;
			expect(typeOf(tree, asked, functions)).toBe(row.result);
			row.parameters.forEach((parameter, wrong) => {
				const spoilt = (name: string): Type | undefined =>
					name === `value_${wrong}`
						? parameter.type?.kind === 'flag'
							? typeOfName('leaf')
							: flag
						: asked(name);
				expect(() => typeOf(tree, spoilt, functions)).toThrow(
					`${row.name}: ${parameter.name} has to be`,
				);
			});
		},
	);
});
