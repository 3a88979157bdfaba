/** What a person types for a quantity, and that nothing typed brings the page down. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readEntry } from '../../src/lib/units/entry.ts';
import { unitOf, type Unit } from '../../src/lib/units/units.ts';
import type { Shown } from '../../src/lib/units/quantities.ts';
import { readingNumber, showReading } from '../../src/lib/units/shown.ts';
import { shipped } from '../language/shipped.ts';

function unit(name: string): Unit {
	if (name === '') return { name: '', size: 1, dimension: [0, 0, 0, 0, 0] };
	const found = unitOf(name);
	if (!found) throw new Error(`No unit ${name}`);
	return found;
}

/** What is read, in the unit shown; throws the sentence. */
function read(typed: string, shownIn: string): number {
	const found = readEntry(typed, unit(shownIn));
	if ('problem' in found) throw new Error(found.problem);
	return found.value / unit(shownIn).size;
}

function sentence(typed: string, shownIn: string): string {
	const found = readEntry(typed, unit(shownIn));
	return 'problem' in found ? found.problem : `read as ${found.value}`;
}

describe('what is typed is read', () => {
	test.each<[typed: string, shownIn: string, value: number]>([
		// A tape
		['33', 'in', 33],
		['33.5', 'in', 33.5],
		['.5', 'in', 0.5],
		['33 1/2', 'in', 33.5],
		['33 1/2 in', 'in', 33.5],
		['33 1/2"', 'in', 33.5],
		['33-1/2', 'in', 33.5],
		['33-1/2"', 'in', 33.5],
		['33 - 1/2"', 'in', 32.5],
		['33 - 1/2', 'in', 32.5],
		['1/2', 'in', 0.5],
		['½', 'in', 0.5],
		['33½', 'in', 33.5],
		['33 ½', 'in', 33.5],
		['33-½', 'in', 33.5],
		['7⅝"', 'in', 7.625],
		['11/16', 'in', 0.6875],
		['45 / 8', 'in', 5.625],
		['8/8', 'in', 1],
		[`5' 6 1/2"`, 'in', 66.5],
		[`5'6 1/2"`, 'in', 66.5],
		[`5'-6 1/2"`, 'in', 66.5],
		[`5’ 6½”`, 'in', 66.5],
		[`5′ 6″`, 'in', 66],
		[`5'`, 'in', 60],
		[`5' 6`, 'in', 66],
		['5 ft 6 in', 'in', 66],
		['5 feet 6 inches', 'in', 66],
		['851 mm', 'mm', 851],
		['851 mm', 'in', 851 / 25.4],
		['85.1 cm', 'mm', 851],
		['33 1/2 in', 'mm', 850.9],
		['10 in + 5 mm', 'mm', 259],
		// Units raised
		['12 ft^2', 'ft^2', 12],
		['12 ft²', 'ft^2', 12],
		['1.2 m²', 'ft^2', 1.2 / 0.3048 ** 2],
		['0.284 lb/in³', 'lb/in^3', 0.284],
		['7850 kg/m^3', 'lb/in^3', (7850 / 0.45359237) * 0.0254 ** 3],
		['1000 rad/s²', 'rad/s^2', 1000],
		['2 hours', 'h', 2],
		['100 km/h', 'mph', 100 / 1.609344],
		['30 mpsi', 'Mpsi', 30],
		// Signs and sums
		['-3', 'in', -3],
		['−3', 'in', -3],
		['–3', 'in', -3],
		['- 3', 'in', -3],
		['+3', 'in', 3],
		['-3 1/2', 'in', -3.5],
		['-½', 'in', -0.5],
		['36 - 33 1/2', 'in', 2.5],
		['36 - 33', 'in', 3],
		['(36 + 37) / 2', 'in', 36.5],
		['2 * 3 1/4', 'in', 6.5],
		['2 × 3', 'in', 6],
		['6 ÷ 4', 'in', 1.5],
		['(2 + 1) in', 'in', 3],
		['0', 'in', 0],
		// A decimal comma
		['33,5', 'in', 33.5],
		['1,25 mm', 'mm', 1.25],
		// A gauge
		['5.5', 'deg', 5.5],
		['5.5°', 'deg', 5.5],
		['5.5 deg', 'deg', 5.5],
		['5.5 degrees', 'deg', 5.5],
		[`5° 30'`, 'deg', 5.5],
		['5° 30', 'deg', 5.5],
		['5° 30′', 'deg', 5.5],
		[`5° 30' 36"`, 'deg', 5.51],
		[`-5° 30'`, 'deg', -5.5],
		['90 - 86.2', 'deg', 3.8],
		['90° - 86.2°', 'deg', 3.8],
		['0.1 rad', 'deg', 18 / Math.PI],
		// Scales and rates
		['850', 'lbf', 850],
		['850 lb', 'lbf', 850],
		['850 lbs', 'lbf', 850],
		['850 pounds', 'lbf', 850],
		['850 lbf', 'lbf', 850],
		['3781 N', 'N', 3781],
		['160 lbf/in', 'lbf/in', 160],
		['160 lb/in', 'lbf/in', 160],
		['28 N/mm', 'N/mm', 28],
		['300', 'rpm', 300],
		['1500 lbf ft', 'lbf ft', 1500],
		['1500 ft-lb', 'lbf ft', 1500],
		['1500 lb·ft', 'lbf ft', 1500],
		['200 Nm', 'N m', 200],
		['200 N·m', 'N m', 200],
		['33 1/2 in.', 'in', 33.5],
		['33 IN', 'in', 33],
		['851 MM', 'mm', 851],
		[`5° 30 arcmin`, 'deg', 5.5],
		[`5'-6"`, 'in', 66],
		[`(5') - 6"`, 'in', 54],
		['1.5', '', 1.5],
		['1e3', 'mm', 1000],
	])('%s where %s is shown', (typed, shownIn, value) => {
		expect(read(typed, shownIn)).toBeCloseTo(value, 9);
	});

	test('a rate in pounds and inches is the same rate in newtons and millimetres', () => {
		// 4.4482216152605 N and 25.4 mm: NIST SP 811.
		expect(read('160 lbf/in', 'N/mm')).toBeCloseTo((160 * 4.4482216152605) / 25.4, 12);
		expect(read('850 lb', 'N')).toBeCloseTo(850 * 4.4482216152605, 9);
	});
});

describe('what cannot be read gets a sentence: what was found, what to type', () => {
	const tape = 'Type a tape reading such as 33 1/2, 33-1/2", 5\' 6 1/2" or 851 mm.';
	test.each<[typed: string, shownIn: string, says: string]>([
		['', 'in', `Nothing is entered yet. ${tape}`],
		['   ', 'in', `Nothing is entered yet. ${tape}`],
		['abc', 'in', `“abc” stands where a number was expected. ${tape}`],
		['33 furlongs', 'in', '“furlongs” is not a unit known here.'],
		['33 furlongs', 'in', tape],
		['5 deg', 'in', `“5 deg” is an angle; a length is wanted here. ${tape}`],
		['5 in', 'deg', '“5 in” is a length; an angle is wanted here. Type an angle such as'],
		['850 kg', 'lbf', 'is a mass; a force is wanted here.'],
		['5 in + 5 deg', 'in', 'A length and an angle cannot be added or taken from one another.'],
		['5 * 5 in in', 'in', 'is wanted here.'],
		['1,234', 'in', '“1,234” could mean a decimal comma or a thousands comma'],
		['1,234.5', 'in', 'could mean a decimal comma or a thousands comma'],
		['1,2,3', 'in', 'could mean a decimal comma or a thousands comma'],
		['1e400', 'in', '“1e400” is not a finite number.'],
		['1/0', 'in', '“1/0” is not a finite number.'],
		['45/8', 'in', '“45/8” may be 4 5/8.'],
		['1163/8', 'in', '“1163/8” may be 116 3/8.'],
		['339/16', 'mm', '“339/16” may be 33 9/16.'],
		['3311/16', 'in', '“3311/16” may be 33 11/16.'],
		['9/8', 'in', '“9/8” is more than one.'],
		['0/0', 'in', '“0/0” is not a finite number.'],
		['33 1/0', 'in', tape],
		['3 -', 'in', 'A number is missing at the end.'],
		['(3', 'in', 'A bracket is opened and not closed.'],
		['3)', 'in', '“)” is left over after the rest was read.'],
		['3 4', 'in', tape],
		['5 in 6 in', 'in', 'Two amounts stand side by side, and the second is not less than 1 in.'],
		[`5' 13"`, 'in', 'Two amounts stand side by side, and the second is not less than 1 ft.'],
		['1'.repeat(201), 'in', 'is too long for one reading.'],
		['3 constructor', 'in', '“constructor” is not a unit known here.'],
		['3 $', 'in', '“$” in “3 $” is not part of a length.'],
		['3 🙂', 'in', '“🙂” in “3 🙂” is not part of a length.'],
		['* 3', 'in', '“*” stands where a number was expected.'],
		[`5' 30°`, 'in', tape],
	])('%s where %s is shown', (typed, shownIn, says) => {
		const said = sentence(typed, shownIn);
		expect(said).toContain(says);
		expect(said).toMatch(/^[“A-Z].*\.$/s);
	});

	test.each([10, 100, 1000, 100_000])('%d brackets', (deep) => {
		const found = readEntry(`${'('.repeat(deep)}1${')'.repeat(deep)}`, unit('in'));
		if (deep === 10) expect(found).toEqual({ value: 0.0254 });
		else expect('problem' in found || found.value === 0.0254).toBe(true);
	});

	test.each(['-', '+', '1 + ', '1 - -', "1'", '1/'])('%s a hundred thousand times', (piece) => {
		const found = readEntry(piece.repeat(100_000), unit('in'));
		expect('problem' in found && found.problem.length).toBeLessThan(300);
	});
});

const units = ['in', 'mm', 'deg', 'lbf', 'lbf/in', 'N/mm', 'rpm', ''];
const pieces = [
	...['1', '33', '0', '.5', '1e5', '1e400', '/', '-', '+', '*', '(', ')', '^', ' ', "'", '"', '°'],
	...[
		'½',
		'⅞',
		'−',
		'×',
		'÷',
		',',
		'.',
		'in',
		'mm',
		'ft',
		'deg',
		'lb',
		'lbf',
		'min',
		'm',
		'e',
		'\n',
	],
	...['toString', '__proto__', 'constructor', '\u0000', '🙂', '′', '”'],
];
const anything = fc.oneof(
	fc.string({ maxLength: 40 }),
	fc.string({ unit: 'binary', maxLength: 20 }),
	fc.array(fc.constantFrom(...pieces), { maxLength: 12 }).map((list) => list.join('')),
);

test('whatever is typed gives a finite number or a sentence, and never throws', () => {
	fc.assert(
		fc.property(anything, fc.constantFrom(...units), (typed, shownIn) => {
			const found = readEntry(typed, unit(shownIn));
			if ('problem' in found) expect(found.problem).toMatch(/^\S.*\.$/s);
			else expect(Number.isFinite(found.value)).toBe(true);
		}),
		{ numRuns: 5000 },
	);
});

describe('a reading shown back is read again as the same', () => {
	const shownOf: [string, Shown][] = [...shipped.quantities.values()].flatMap(({ name, shown }) =>
		(['inch-pound', 'metric'] as const).map((system): [string, Shown] => [
			`${name}, ${system}`,
			shown[system],
		]),
	);

	test.each(shownOf)('%s', (_, shown) => {
		fc.assert(
			fc.property(fc.integer({ min: -500_000, max: 500_000 }), (thousandths) => {
				const value = (thousandths / 1000) * shown.unit.size;
				for (const text of [readingNumber(value, shown), showReading(value, shown)]) {
					const found = readEntry(text, shown.unit);
					if ('problem' in found) throw new Error(`${text}: ${found.problem}`);
					expect(Math.abs(found.value - value) / shown.unit.size).toBeLessThan(1e-9);
				}
			}),
		);
	});

	test.each(shownOf.filter(([, { divisions }]) => divisions > 0))('%s, on its rule', (_, shown) => {
		fc.assert(
			fc.property(fc.integer({ min: -4000, max: 4000 }), (parts) => {
				const value = (parts / shown.divisions) * shown.unit.size;
				const text = readingNumber(value, shown);
				expect(text).toMatch(/^(−?)(\d+|\d+\/\d+|\d+ \d+\/\d+)$/);
				const found = readEntry(text, shown.unit);
				expect('value' in found && found.value / shown.unit.size).toBeCloseTo(
					parts / shown.divisions,
					12,
				);
				// And once more, to the letter.
				expect('value' in found && readingNumber(found.value, shown)).toBe(text);
			}),
		);
	});
});
