/** Weighted least squares against a library of linear algebra, and the tail of χ² against itself integrated. */
import fc from 'fast-check';
import { Matrix, inverse } from 'ml-matrix';
import { describe, expect, test } from 'vitest';
import { dot, shareBeyond, Whitening } from '../../src/lib/engine/least-squares.ts';

const size = fc.double({ min: -3, max: 3, noNaN: true });
const row = (length: number) => fc.array(size, { minLength: length, maxLength: length });
/** What some figures bring of a few sources, with a little that is each one's own. */
const brought = fc
	.array(row(3), { minLength: 2, maxLength: 5 })
	.map((rows) =>
		rows.map((each, at) => [...each, ...rows.map((_, own) => (own === at ? 0.5 : 0))]),
	);

describe('whitened', () => {
	test('products are those of the inverse of the covariance', () => {
		fc.assert(
			fc.property(brought, row(5), row(5), (rows, a, b) => {
				const covariance = new Matrix(rows).mmul(new Matrix(rows).transpose());
				const whitening = new Whitening(covariance.to2DArray());
				expect(whitening.kept).toEqual(rows.map((_, at) => at));
				const column = (each: readonly number[]): Matrix =>
					Matrix.columnVector(each.slice(0, rows.length));
				const wanted = column(a).transpose().mmul(inverse(covariance)).mmul(column(b)).get(0, 0);
				const found = dot(whitening.of(a), whitening.of(b));
				expect(Math.abs(found - wanted)).toBeLessThan(1e-8 * (1 + Math.abs(wanted)));
			}),
		);
	});

	test('what follows from those before it, or is certain, is left out', () => {
		const rows = [
			[1, 2],
			[0, 0],
			[0, 1],
			[1, 3],
		];
		const covariance = new Matrix(rows).mmul(new Matrix(rows).transpose()).to2DArray();
		expect(new Whitening(covariance).kept).toEqual([0, 2]);
		expect(new Whitening([]).of([])).toEqual([]);
	});
});

describe('the share of χ² beyond a size', () => {
	/** Γ of halves, by its recurrence. */
	const gamma = (of: number): number =>
		of === 1 ? 1 : of === 0.5 ? Math.sqrt(Math.PI) : (of - 1) * gamma(of - 1);

	test.each([1, 2, 3, 4, 5, 6, 7, 10])('is the integral of its density, for %i', (count) => {
		// With u² for x the density has no pole at nought.
		const density = (u: number): number =>
			(2 * u ** (count - 1) * Math.exp((-u * u) / 2)) / (2 ** (count / 2) * gamma(count / 2));
		for (const from of [0, 0.5, 3, 8, 15, 30]) {
			const [low, high, steps] = [Math.sqrt(from), Math.sqrt(from) + 12, 4000];
			const step = (high - low) / steps;
			let sum = density(low) + density(high);
			for (let at = 1; at < steps; at++) sum += (at % 2 ? 4 : 2) * density(low + at * step);
			expect(Math.abs(shareBeyond(from, count) - (sum * step) / 3)).toBeLessThan(1e-9);
		}
	});

	test('is as tables have it (from memory)', () => {
		for (const [squares, count, share] of [
			[3.841, 1, 0.05],
			[5.991, 2, 0.05],
			[12.592, 6, 0.05],
			[18.307, 10, 0.05],
		] as const) {
			expect(shareBeyond(squares, count)).toBeCloseTo(share, 4);
		}
		expect(shareBeyond(5, 0)).toBe(1);
		expect(shareBeyond(0, 3)).toBe(1);
		expect(shareBeyond(1e6, 3)).toBe(0);
	});
});
