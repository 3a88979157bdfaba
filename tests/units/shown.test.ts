/** How values are written, and that what is written is read again as what it was. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readEntry } from '../../src/lib/units/entry.ts';
import { plainNumber } from '../../src/lib/units/dimension.ts';
import { unitNames, unitOf, type Unit } from '../../src/lib/units/units.ts';
import type { Shown } from '../../src/lib/units/quantities.ts';
import {
	nearestOnRule,
	readingNumber,
	showFigure,
	showPlusMinus,
	showReading,
} from '../../src/lib/units/shown.ts';

function unit(name: string): Unit {
	const found = unitOf(name);
	if (!found) throw new Error(`no unit ${name}`);
	return found;
}

function rule(name: string, decimals: number, divisions = 0): Shown {
	return { unit: unit(name), step: unit(name).size, decimals, divisions };
}

const inch = 0.0254;
const inches = rule('in', 2, 16);
const millimetres = rule('mm', 1);
const degrees = rule('deg', 2);

/** What was read, in the shown unit. */
function read(typed: string, shown: Shown): number {
	const found = readEntry(typed, shown.unit);
	if ('problem' in found) throw new Error(`“${typed}”: ${found.problem}`);
	return found.value / shown.unit.size;
}

describe('a reading', () => {
	test.each([
		[33.5, '33 1/2 in'],
		[-33.5, '−33 1/2 in'],
		[0, '0 in'],
		[-0, '0 in'],
		[15 / 16, '15/16 in'],
		[-15 / 16, '−15/16 in'],
		[1 / 16, '1/16 in'],
		[14 / 16, '7/8 in'],
		[12, '12 in'],
		[1.03, '1.03 in'],
		[-1.03, '−1.03 in'],
		[1e-9, '0 in'],
		[-1e-9, '0 in'],
	])('of %d in', (value, words) => {
		expect(showReading(value * inch, inches)).toBe(words);
	});

	test('in other units', () => {
		expect(showReading(0.851, millimetres)).toBe('851 mm');
		expect(showReading((-5.5 * Math.PI) / 180, degrees)).toBe('−5.5°');
	});

	test('on a rule in tenths or twelfths has whole numbers in its fraction', () => {
		expect(showReading(0.4 * inch, rule('in', 2, 10))).toBe('2/5 in');
		expect(showReading((8 / 12) * inch, rule('in', 2, 12))).toMatch(/^(2\/3|8\/12|4\/6) in$/);
		fc.assert(
			fc.property(
				fc.integer({ min: 1, max: 64 }),
				fc.integer({ min: -500, max: 500 }),
				(divisions, parts) => {
					const shown = rule('in', 2, divisions);
					const words = readingNumber((parts / divisions) * inch, shown);
					expect(words).toMatch(/^−?(\d+|\d+ \d+\/\d+|\d+\/\d+)$/);
					expect(read(words, shown)).toBeCloseTo(parts / divisions, 12);
				},
			),
		);
	});

	test('on sixteenths is read back as the same value, to the last bit, in either system', () => {
		fc.assert(
			fc.property(fc.integer({ min: -16 * 400, max: 16 * 400 }), (sixteenths) => {
				const value = (sixteenths / 16) * inches.unit.size;
				const wanted = { value: value + 0 };
				expect(readEntry(readingNumber(value, inches), inches.unit)).toEqual(wanted);
				expect(readEntry(showReading(value, inches), millimetres.unit)).toEqual(wanted);
			}),
		);
	});

	test('elsewhere is read back to half a thousandth of its unit, and then does not wander', () => {
		fc.assert(
			fc.property(
				fc.double({ min: -1000, max: 1000, noNaN: true }),
				fc.constantFrom(inches, millimetres, degrees),
				(inUnit, shown) => {
					const words = showReading(inUnit * shown.unit.size, shown);
					const back = read(words, shown);
					expect(Math.abs(back - inUnit)).toBeLessThanOrEqual(0.0005 + 1e-9);
					expect(showReading(back * shown.unit.size, shown)).toBe(words);
				},
			),
		);
	});

	test('in every unit is read back as it is shown', () => {
		for (const name of [...unitNames, 'lbf/in', 'N/mm', 'lbf ft', 'N m', 'lbf in/deg', 'N m/deg']) {
			const shown = rule(name, 2);
			expect(read(`12 ${name}`, shown)).toBeCloseTo(12, 9);
			expect(read(showReading(12 * shown.unit.size, shown), shown)).toBeCloseTo(12, 9);
		}
	});

	test('sums of readings come to the sum of what was read', () => {
		const reading = fc.integer({ min: 0, max: 16 * 60 });
		fc.assert(
			fc.property(reading, reading, fc.constantFrom('+', '-'), (a, b, sign) => {
				const words = (n: number): string => readingNumber((n / 16) * inch, inches);
				const wanted = (sign === '+' ? a + b : a - b) / 16;
				expect(read(`${words(a)} ${sign} ${words(b)}`, inches)).toBeCloseTo(wanted, 12);
			}),
		);
	});
});

describe('a figure', () => {
	test('has its decimals, a true minus, and none before nothing', () => {
		expect(showFigure((-6.267 * Math.PI) / 180, degrees)).toBe('−6.27°');
		expect(showFigure((-0.001 * Math.PI) / 180, degrees)).toBe('0.00°');
		expect(showFigure(2.477345 * inch, inches)).toBe('2.48 in');
	});

	test('can be given as the nearest mark of a rule', () => {
		expect(nearestOnRule(2.477345 * inch, inches)).toBe('2 1/2 in');
		expect(nearestOnRule(-0.66 * inch, inches)).toBe('−11/16 in');
		expect(nearestOnRule(-0.03 * inch, inches)).toBe('0 in');
		expect(nearestOnRule(0.0629, millimetres)).toBe('62.9 mm');
	});

	test('has a ± that shows a figure which is not nought, unless it is only rounding', () => {
		expect(showPlusMinus(inch / 8, inches)).toBe('± 0.13 in');
		expect(showPlusMinus(0.004 * inch, inches)).toBe('± 0.004 in');
		expect(showPlusMinus(0, inches)).toBe('± 0.00 in');
		expect(showPlusMinus(1e-17, inches)).toBe('± 0.00 in');
		fc.assert(
			fc.property(fc.double({ min: 1e-7, max: 10, noNaN: true }), (size) => {
				expect(showPlusMinus(size * inch, inches)).toMatch(/[1-9]/);
			}),
		);
	});
});

describe('what could be read two ways', () => {
	test.each([
		// A dash without spaces joins the parts of one measure; with spaces it takes away.
		["5'-6", inches, 66],
		['5ft-6in', inches, 66],
		["5°-30'", degrees, 5.5],
		["5° - 30'", degrees, 4.5],
		['5° - 0.5', degrees, 4.5],
		['90° - 86.2', degrees, 3.8],
		// What stands behind a measure is a part of it.
		['5\' 6" 1/2', inches, 66.5],
		['3 ft 0 1/2 in', inches, 36.5],
		['33 1/2 + 1 mm', inches, 33.5 + 1 / 25.4],
	])('%s', (typed, shown, wanted) => {
		expect(read(typed, shown)).toBeCloseTo(wanted, 9);
	});

	test.each([
		["5'-6'", inches, ["5' - 6'"]],
		['33-1', inches, ["33' 1", '33 - 1']],
		['33 1/2-1/4', inches, ['33 1/2 - 1/4']],
		['5°-0.5°', degrees, ['5° - 0.5°']],
		['5°-0.5', degrees, ['5° 0.5', '5° - 0.5']],
		['90°-86.2', degrees, ['90° - 86.2']],
	])('%s is asked about', (typed, shown, offers) => {
		const found = readEntry(typed, shown.unit);
		expect('problem' in found && found.offers?.map(({ text }) => text)).toEqual(offers);
	});

	test.each([
		['(3 in) mm', inches, '“mm” is left over after the rest was read.'],
		['3 in 4', inches, 'the second is not less than 1 in.'],
		['90° 86.2', degrees, 'the second is not less than 1 deg.'],
		['('.repeat(1024), inches, `“${'('.repeat(40)}…” is too long for one reading.`],
		['9'.repeat(5000), inches, `“${'9'.repeat(40)}…” is too long for one reading.`],
		['('.repeat(200), inches, 'A number is missing at the end.'],
	])('%s is refused', (typed, shown, says) => {
		const found = readEntry(typed, shown.unit);
		expect('problem' in found && found.problem).toContain(says);
	});

	test('nothing is entered without a minus before it', () => {
		for (const typed of ['-0', '−0', '0 - 0', '-0 in', '-(0)']) {
			expect(Object.is(read(typed, inches), 0), typed).toBe(true);
		}
	});
});

test.each([
	[0, '0'],
	[0.0002, '0'],
	[-0.0002, '0'],
	[0.5559, '0.556'],
	[-1.069, '−1.07'],
	[55.81, '55.8'],
	[123.4, '123'],
	[20, '20'],
])('the plain number %d is shown to three figures that count', (value, words) => {
	const unit = { name: '', size: 1, dimension: plainNumber };
	expect(showFigure(value, { unit, step: 0.1, decimals: 3, divisions: 0 })).toBe(words);
});
