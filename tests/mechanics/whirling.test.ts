import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { OutOfRange } from '../../src/lib/mechanics/out-of-range.ts';
import {
	longestTube,
	tubeMaterial,
	tubeMaterials,
	whirlingMargin,
	whirlingShare,
	whirlingSpeed,
} from '../../src/lib/mechanics/whirling.ts';
import { anyNumber, finiteOrRefused, revPerMin, whirlingRows } from './accuracy/rotating.ts';

const steel = [tubeMaterials.steel.modulus, tubeMaterials.steel.density] as const;

for (const row of whirlingRows()) {
	test(`${row.figure}, against ${row.against}`, () => {
		expect(row.error).toBeLessThanOrEqual(row.held);
	});
}

test('n = (π/2) √(E/ρ · (D² + d²)/16) / L² revolutions', () => {
	const turns =
		((Math.PI / 2) * Math.sqrt(((steel[0] / steel[1]) * (0.09 ** 2 + 0.086 ** 2)) / 16)) / 1.5 ** 2;
	expect(whirlingSpeed(1.5, 0.09, 0.086, ...steel) / (2 * Math.PI)).toBeCloseTo(turns, 10);
});

test('the longest tube whirls at just the wanted speed', () => {
	fc.assert(
		fc.property(fc.double({ min: 200, max: 2000, noNaN: true }), (wanted) => {
			const length = longestTube(wanted, 0.09, 0.086, ...steel);
			expect(whirlingSpeed(length, 0.09, 0.086, ...steel) / wanted).toBeCloseTo(1, 12);
		}),
	);
});

test('steel and aluminium whirl alike, carbon later (typical properties, from memory)', () => {
	const speed = (name: string): number => {
		const { modulus, density } = tubeMaterial(name);
		return whirlingSpeed(1.5, 0.09, 0.084, modulus, density);
	};
	expect(Math.abs(speed('aluminium') / speed('steel') - 1)).toBeLessThan(0.03);
	expect(speed('carbon') / speed('steel')).toBeGreaterThan(1.3);
	expect(() => tubeMaterial('wood')).toThrow(/steel, aluminium, carbon/);
	expect(() => tubeMaterial('constructor')).toThrow(OutOfRange);
});

test('margin over the top shaft speed; three quarters is common practice, no source', () => {
	expect(whirlingMargin(6000 * revPerMin, 4500 * revPerMin)).toBeCloseTo(1 / 3, 12);
	expect(whirlingMargin(6000 * revPerMin, 4500 * revPerMin)).toBeCloseTo(1 / whirlingShare - 1, 12);
	expect(whirlingMargin(4000 * revPerMin, 5000 * revPerMin)).toBeLessThan(0);
});

test('a tube without a wall is refused in words', () => {
	expect(() => whirlingSpeed(1.5, 0.09, 0.09, ...steel)).toThrow(/leaves no wall/);
});

describe('any argument at all gives finite figures or a sentence', () => {
	type Five = [number, number, number, number, number];
	const fair = [1.5, 0.09, 0.086, ...steel] as const;
	test.each<[string, (n: Five) => number]>([
		['whirlingSpeed', (n) => whirlingSpeed(...n)],
		['longestTube', (n) => longestTube(...n)],
		['whirlingMargin', (n) => whirlingMargin(n[0], n[1])],
	])('%s', (_name, call) => {
		fc.assert(
			fc.property(
				fc.tuple(...fair.map((value) => fc.oneof(anyNumber, fc.constant(value)))),
				(numbers) => finiteOrRefused(() => call(numbers as Five)),
			),
			{ numRuns: 3000 },
		);
	});
});
