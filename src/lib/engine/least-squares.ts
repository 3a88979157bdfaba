/**
 * Least squares where the errors of what is measured hang together: weights from their covariance (the
 * generalized least squares of A. C. Aitken, Proceedings of the Royal Society of Edinburgh 55 (1935) 42, from
 * memory). Once whitened, errors are independent and of one size, and all else is ordinary sums of products.
 */
import { normalBeyond } from './normal.ts';

/** A few numbers in whitened axes. */
export type Whitened = readonly number[];

/** What brings its own share of an error less than this, squared and of the whole, tells nothing new. */
const nothingNew = 1e-10;

/**
 * What turns errors into independent ones of size one: their covariance C = L Lᵀ by Cholesky, and L⁻¹ on
 * whatever is handed in. What follows from those before it, or has no error at all, is left out.
 * @param covariance square, symmetric, no row with a negative diagonal
 */
export class Whitening {
	/** Which of the rows count, in order. */
	readonly kept: readonly number[];
	/** Lower triangle, row by row, of the rows that count. */
	readonly #lower: readonly (readonly number[])[];

	constructor(covariance: readonly (readonly number[])[]) {
		const kept: number[] = [];
		const lower: number[][] = [];
		for (const [at, row] of covariance.entries()) {
			const line: number[] = [];
			for (const [column, other] of kept.entries()) {
				const before = lower[column] as number[];
				const sum = (row[other] ?? 0) - dot(line, before.slice(0, column));
				line.push(sum / (before[column] as number));
			}
			const whole = row[at] ?? 0;
			const own = whole - dot(line, line);
			if (!(own > nothingNew * whole)) continue;
			line.push(Math.sqrt(own));
			lower.push(line);
			kept.push(at);
		}
		this.kept = kept;
		this.#lower = lower;
	}

	/** L⁻¹ v, of the rows that count. */
	of(values: readonly number[]): Whitened {
		const found: number[] = [];
		for (const [index, at] of this.kept.entries()) {
			const line = this.#lower[index] as readonly number[];
			found.push(((values[at] ?? NaN) - dot(line, found)) / (line[index] as number));
		}
		return found;
	}
}

/** The sum of the products, as far as the shorter reaches. */
export function dot(a: Whitened, b: Whitened): number {
	let sum = 0;
	for (let index = Math.min(a.length, b.length) - 1; index >= 0; index--) {
		sum += (a[index] as number) * (b[index] as number);
	}
	return sum;
}

/**
 * How often chance alone makes a sum of squares of so many independent errors this large or larger: the upper
 * tail of the χ² distribution, from that of one or two by the recurrence of Abramowitz and Stegun 26.4.8
 * (from memory).
 * @param squares each error in standard deviations; not negative
 * @param count how many; none is a certainty
 */
export function shareBeyond(squares: number, count: number): number {
	if (count < 1) return 1;
	const half = squares / 2;
	const odd = count % 2;
	let share = odd ? normalBeyond(Math.sqrt(squares)) : Math.exp(-half);
	// (x/2)^(k/2) e^(−x/2) / Γ(k/2 + 1), from k on by two.
	let term = odd ? 2 * Math.sqrt(half / Math.PI) * Math.exp(-half) : half * Math.exp(-half);
	for (let k = odd ? 1 : 2; k < count; k += 2) {
		share += term;
		term *= half / (k / 2 + 1);
	}
	return Math.min(1, share);
}
