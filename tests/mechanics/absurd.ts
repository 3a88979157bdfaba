/** What every function of the mechanics owes an absurd argument. */
import fc from 'fast-check';
import { expect } from 'vitest';
import { OutOfRange } from '../../src/lib/mechanics/out-of-range.ts';

const absurd = fc.oneof(
	fc.constantFrom(NaN, Infinity, -Infinity, 1e300, -1e300, 0, -0, -1, 1e-300, 5e-324, 1e9, -1e9),
	fc.double(),
);

function expectFinite(value: unknown): void {
	if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true);
	else if (typeof value === 'object' && value !== null) {
		expect(Object.keys(value)).not.toHaveLength(0);
		Object.values(value).forEach(expectFinite);
	} else expect(typeof value).toBe('boolean');
}

/**
 * Puts absurd numbers in the place of some or all of the sane arguments: what comes back is finite, or
 * an OutOfRange whose sentence has the number in it. The sane arguments themselves must not be refused.
 */
export function withstandsAbsurdArguments(
	call: (...args: number[]) => unknown,
	sane: readonly number[],
): void {
	expectFinite(call(...sane));
	fc.assert(
		fc.property(
			fc.tuple(...sane.map((value) => fc.oneof(fc.constant(value), absurd))),
			(args: number[]) => {
				let result: unknown;
				try {
					result = call(...args);
				} catch (cause) {
					expect(cause).toBeInstanceOf(OutOfRange);
					expect((cause as OutOfRange).message).toMatch(
						/^[A-Z].*(\d|NaN|Infinity|not a finite number).*\.$/,
					);
					return;
				}
				expectFinite(result);
			},
		),
		{ numRuns: 400 },
	);
}
