/** Fields as a person fills them in: what is read, what is asked, what is offered, what is shown back. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readTyped } from '../../src/lib/job/reading.ts';
import { dimensionInWords } from '../../src/lib/units/dimension.ts';
import type { InputCell, Range } from '../../src/lib/language/kinds/input.ts';
import { unitOf, type Unit } from '../../src/lib/units/units.ts';
import { readList, readQuantity } from '../../src/lib/units/typed-reading.ts';
import { typedTexts, type Field } from './typed-texts.ts';

const plain: Unit = { name: '', size: 1, dimension: [0, 0, 0, 0, 0] };

type Asking = Extract<InputCell, { asks_for: 'quantity' | 'list' }>;

function asking(
	asksFor: 'quantity' | 'list',
	name: string,
	more: { readonly divisions?: number; readonly limits?: Range; readonly sensible?: Range } = {},
): Asking {
	const unit = name === '' ? plain : unitOf(name);
	if (!unit) throw new Error(`No unit ${name}`);
	const { divisions = 0, limits, sensible } = more;
	const inUnit = (range: Range): Range => ({
		low: range.low * unit.size,
		high: range.high * unit.size,
	});
	const shown = { unit, step: unit.size, decimals: 2, divisions };
	const { dimension } = unit;
	return {
		kind: 'input',
		name: 'field',
		page: 'page',
		line: 1,
		label: 'Field',
		how: '',
		type: { kind: 'quantity', dimension },
		part: false,
		gives: [],
		asks: [],
		mentions: [],
		asks_for: asksFor,
		quantity: {
			name: dimensionInWords(dimension),
			dimension,
			shown: { 'inch-pound': shown, metric: shown },
		},
		plusMinus: 0,
		...(limits && { limits: inUnit(limits) }),
		...(sensible && { sensible: inUnit(sensible) }),
	};
}

const level = { low: -45, high: 45 };
const fields: Readonly<Record<Field, Asking>> = {
	inches: asking('quantity', 'in', { divisions: 16 }),
	millimetres: asking('quantity', 'mm'),
	slope: asking('quantity', 'deg', { limits: level }),
	turn: asking('quantity', 'deg'),
	number: asking('quantity', ''),
	force: asking('quantity', 'lbf'),
	rate: asking('quantity', 'N/mm'),
	'inch list': asking('list', 'in', { divisions: 16 }),
	'slope list': asking('list', 'deg', { limits: level }),
};

/** What is read in a field, in its own unit. */
function read(typed: string, field: Asking) {
	const found = readTyped(field, typed, 'metric');
	if ('problem' in found) return found;
	const { size } = field.quantity.shown.metric.unit;
	const inUnit = [found.value].flat().map((each) => Number(each) / size);
	const sure = found.plusMinus === undefined ? undefined : found.plusMinus / size;
	return { ...found, inUnit, sure };
}

describe('every text of the table', () => {
	test('there are more than 500 of them, each once', () => {
		expect(typedTexts.length).toBeGreaterThan(500);
		const told = typedTexts.map(([typed, field]) => `${field}: ${typed}`);
		expect(told.filter((each, index) => told.indexOf(each) !== index)).toEqual([]);
	});

	test.each(typedTexts)('%j typed for %s', (typed, name, wanted) => {
		const found = read(typed, fields[name]);
		if (wanted === 'refused' || (typeof wanted === 'object' && 'asked' in wanted)) {
			if (!('problem' in found)) throw new Error(`read as ${found.understood}`);
			expect(found.problem).toMatch(/^[“A-Z±−\d].*\.$/s);
			const offers = wanted === 'refused' ? undefined : wanted.asked;
			expect(found.offers?.map(({ text }) => text)).toEqual(offers);
			return;
		}
		if ('problem' in found) throw new Error(found.problem);
		const [values, sure] =
			typeof wanted === 'number'
				? [[wanted]]
				: 'list' in wanted
					? [wanted.list]
					: [[wanted[0]], wanted[1]];
		expect(found.inUnit).toHaveLength(values.length);
		for (const [index, value] of values.entries())
			expect(found.inUnit[index]).toBeCloseTo(value, 9);
		if (sure === undefined) expect(found.sure).toBeUndefined();
		else expect(found.sure).toBeCloseTo(sure, 9);
	});

	test('what is offered is read without a question, as what it was offered for', () => {
		for (const [typed, name] of typedTexts) {
			const field = fields[name];
			const found = readTyped(field, typed, 'metric');
			for (const offer of ('problem' in found && found.offers) || []) {
				const taken = readTyped(field, offer.text, 'metric');
				expect(taken, `${typed} → ${offer.text}`).toMatchObject({
					value: offer.value,
					understood: offer.understood,
				});
				expect('problem' in found && found.problem).toContain(
					`“${offer.text}” for ${offer.understood}`,
				);
			}
		}
	});
});

describe('what was understood', () => {
	test.each<[string, Field, string]>([
		['33½', 'inches', '33 1/2 in'],
		['851 mm', 'inches', '33.504 in'],
		['30000.4', 'inches', '30000.4 in'],
		['33 1/2 ± 1/16', 'inches', '33 1/2 in ± 1/16 in'],
		['851 mm ± 3', 'millimetres', '851 mm ± 3 mm'],
		["5° 30' ± 6", 'slope', '5.5° ± 0.1°'],
		['5 ± 0.0001', 'slope', '5° ± 0.0001°'],
		['3 to 5', 'slope', '4° ± 1°'],
		['-90 - (-86.2)', 'slope', '−3.8°'],
		['1-1/2, 2-1/2', 'inch list', '1 1/2 in; 2 1/2 in'],
	])('of %s in a field for %s', (typed, name, understood) => {
		expect(readTyped(fields[name], typed, 'metric')).toMatchObject({ understood });
	});

	const signs = fc
		.array(fc.constantFrom(...'0123456789½⅞.,/-+±*()°\'" '.split(''), ' - ', ' to ', '; ', ' mm'), {
			maxLength: 14,
		})
		.map((pieces) => pieces.join(''));

	test('is read again as the same, whatever was typed', () => {
		fc.assert(
			fc.property(signs, fc.constantFrom(...Object.values(fields)), (typed, field) => {
				const found = read(typed, field);
				if ('problem' in found) {
					expect(found.problem).toMatch(/\.$/);
					return;
				}
				for (const each of [...found.inUnit, found.sure ?? 0]) expect(each).toSatisfy(isFinite);
				const again = read(found.understood ?? '', field);
				if ('problem' in again) throw new Error(`${found.understood}: ${again.problem}`);
				// Shown to the thousandth.
				const near = (a: number, b = NaN): boolean =>
					Math.abs(a - b) <= 0.0005 + 1e-9 * Math.abs(a);
				expect(again.inUnit).toHaveLength(found.inUnit.length);
				found.inUnit.forEach((each, index) => {
					expect(each).toSatisfy((value: number) => near(value, again.inUnit[index]));
				});
				expect(again.sure === undefined).toBe(found.sure === undefined);
				expect(near(found.sure ?? 0, again.sure ?? 0)).toBe(true);
				expect(again.understood).toBe(found.understood);
			}),
			{ numRuns: 5000 },
		);
	});

	test('of one amount is never more than one, and of one dash never two meanings', () => {
		fc.assert(
			fc.property(fc.nat({ max: 99 }), fc.nat({ max: 99 }), (a, b) => {
				const found = readQuantity(`${a}-${b}`, fields.number.quantity.shown.metric.unit);
				expect(found).toHaveProperty('problem');
			}),
		);
	});
});

describe('a ± has a bound', () => {
	const sensible = asking('quantity', 'in', {
		limits: { low: 0, high: 100 },
		sensible: { low: 20, high: 40 },
	});
	test.each([
		['30 ± 20', true],
		['30 ± 21', false],
		['10 to 50', true],
		['5 to 55', false],
	])('%s', (typed, fits) => {
		const found = readTyped(sensible, typed, 'metric');
		expect('value' in found).toBe(fits);
		if (!fits) {
			expect(found).toMatchObject({
				problem: expect.stringContaining('says nothing here: it may be 20 in at most.'),
			});
		}
	});
});

test('offers that lie beyond the limits are not made', () => {
	const narrow = asking('quantity', 'in', { limits: { low: 0, high: 20 } });
	expect(readTyped(narrow, '3-5', 'metric')).toMatchObject({
		problem: 'The dash in “3-5” could join or take away. Type “3 to 5” for 4 in ± 1 in.',
		offers: [{ text: '3 to 5' }],
	});
});

test.each(['-', '1 - ', '½', '1,', '1;', '(', '1-', '±', 'to ', '1 to ', "1'-", '1,1'])(
	'%s ten thousand times is refused, or read, but not pondered over',
	(piece) => {
		const unit = unitOf('in') ?? plain;
		const typed = piece.repeat(10_000);
		expect(readQuantity(typed, unit)).toHaveProperty('problem');
		const listed = readList(typed, unit);
		expect('value' in listed).toBe(piece === '1;');
	},
);
