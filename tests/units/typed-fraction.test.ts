/** Fractions put together key by key. */
import { expect, test } from 'vitest';
import { withTrueMinus } from '../../src/lib/units/shown.ts';
import { withFractionAdded } from '../../src/lib/units/typed-fraction.ts';

test.each([
	['33 1/4', '1/8', '33 3/8'],
	['33 1/2', '1/2', '34'],
	['1/2', '1/16', '9/16'],
	['-1 1/2', '1/4', '-1 3/4'],
	['5 1/4; 5 1/2', '1/4', '5 1/4; 5 3/4'],
	['3/4', '1/4', '1'],
])('“%s” and “%s” make “%s”', (text, key, sum) => {
	expect(withFractionAdded(text, key)).toBe(sum);
});

test.each([
	['33', '1/4'],
	['', '1/2'],
	['33 1/4 ', '±'],
	['1/0', '1/2'],
])('to “%s”, “%s” is only written', (text, key) => {
	expect(withFractionAdded(text, key)).toBeUndefined();
});

test('a minus before a number is shown as one, and a hyphen between stays', () => {
	expect(withTrueMinus('-1 1/2')).toBe('−1 1/2');
	expect(withTrueMinus('5.2; -0.3 ± 0.1')).toBe('5.2; −0.3 ± 0.1');
	expect(withTrueMinus('1-1/2')).toBe('1-1/2');
	expect(withTrueMinus('')).toBe('');
});
