/** Canonical JSON: held against the figures of RFC 8785 itself, and against another implementation of it. */
import canonicalize from 'canonicalize';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { canonicalJson } from '../../src/lib/job/canonical.ts';

const bytes = (text: string): string => Buffer.from(text, 'utf8').toString('hex');

/** A number by the eight bytes that IEEE 754 has for it, hexadecimal. */
function byBytes(hex: string): number {
	return Buffer.from(hex, 'hex').readDoubleBE();
}

describe('canonical JSON', () => {
	test('is that of RFC 8785, section 3.2, to the byte', () => {
		// Sections 3.2.2 and 3.2.4.
		const given = String.raw`{
			"numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
			"string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
			"literals": [null, true, false]
		}`;
		expect(bytes(canonicalJson(JSON.parse(given)))).toBe(
			[
				'7b226c69746572616c73223a5b6e756c6c2c747275652c66616c73655d2c226e756d62657273223a',
				'5b3333333333333333332e333333333333332c31652b33302c342e352c302e3030322c31652d32375d',
				'2c22737472696e67223a22e282ac245c75303030665c6e4127425c225c5c5c5c5c222f227d',
			].join(''),
		);
	});

	test('has its names in the order of section 3.2.3', () => {
		const given = String.raw`{
			"\u20ac": "Euro Sign",
			"\r": "Carriage Return",
			"\ufb33": "Hebrew Letter Dalet With Dagesh",
			"1": "One",
			"\ud83d\ude00": "Emoji: Grinning Face",
			"\u0080": "Control",
			"\u00f6": "Latin Small Letter O With Diaeresis"
		}`;
		expect(canonicalJson(JSON.parse(given)).match(/(?<=:")[^"]*/g)).toEqual([
			'Carriage Return',
			'One',
			'Control',
			'Latin Small Letter O With Diaeresis',
			'Euro Sign',
			'Emoji: Grinning Face',
			'Hebrew Letter Dalet With Dagesh',
		]);
	});

	test.each([
		// RFC 8785, appendix B. Not a number and infinity, which it refuses, are no JSON: nothing here writes them.
		['0000000000000000', '0'],
		['8000000000000000', '0'],
		['0000000000000001', '5e-324'],
		['8000000000000001', '-5e-324'],
		['7fefffffffffffff', '1.7976931348623157e+308'],
		['ffefffffffffffff', '-1.7976931348623157e+308'],
		['4340000000000000', '9007199254740992'],
		['c340000000000000', '-9007199254740992'],
		['4430000000000000', '295147905179352830000'],
		['44b52d02c7e14af5', '9.999999999999997e+22'],
		['44b52d02c7e14af6', '1e+23'],
		['44b52d02c7e14af7', '1.0000000000000001e+23'],
		['444b1ae4d6e2ef4e', '999999999999999700000'],
		['444b1ae4d6e2ef4f', '999999999999999900000'],
		['444b1ae4d6e2ef50', '1e+21'],
		['3eb0c6f7a0b5ed8c', '9.999999999999997e-7'],
		['3eb0c6f7a0b5ed8d', '0.000001'],
		['41b3de4355555553', '333333333.3333332'],
		['41b3de4355555554', '333333333.33333325'],
		['41b3de4355555555', '333333333.3333333'],
		['41b3de4355555556', '333333333.3333334'],
		['41b3de4355555557', '333333333.33333343'],
		['becbf647612f3696', '-0.0000033333333333333333'],
		['43143ff3c1cb0959', '1424953923781206.2'],
	])('writes the number %s as %s', (hex, text) => {
		expect(canonicalJson(byBytes(hex))).toBe(text);
	});

	test('is what another implementation makes of whatever JSON can hold', () => {
		fc.assert(
			fc.property(fc.jsonValue(), (value) => {
				expect(canonicalJson(value)).toBe(canonicalize(value));
			}),
		);
	});
});
