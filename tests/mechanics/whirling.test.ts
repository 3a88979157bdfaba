import fc from 'fast-check';
import { expect, test } from 'vitest';
import { OutOfRange } from '../../src/lib/mechanics/out-of-range.ts';
import {
	longestTube,
	tubeMaterial,
	tubeMaterials,
	whirlingMargin,
	whirlingShare,
	whirlingSpeed,
} from '../../src/lib/mechanics/whirling.ts';
import { revPerMin, whirlingRows } from './accuracy/rotating.ts';

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

test('twice as long whirls at a quarter of the speed, twice as wide at twice', () => {
	const usual = whirlingSpeed(1.5, 0.09, 0.086, ...steel);
	expect(whirlingSpeed(3, 0.09, 0.086, ...steel) / usual).toBeCloseTo(1 / 4, 14);
	expect(whirlingSpeed(1.5, 0.18, 0.172, ...steel) / usual).toBeCloseTo(2, 14);
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
