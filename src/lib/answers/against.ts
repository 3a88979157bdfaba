/** What a reading says against the plan, by its ±, which counts reading and plan together. */

export type Realness = 'within' | 'more' | 'real';

export const realnessWords: Readonly<Record<Realness, string>> = {
	within: 'Within its ±',
	more: 'More than its ±',
	real: 'Real',
};

/** Shares of the ± that rounding may take. */
const rounding = 1e-9;

/**
 * A difference that is more than twice its ± is no accident of measuring. Twice, for a ± here is the most a
 * careful reader is off, and one reading in some is off by more; common practice, no source.
 * @param off found less plan
 * @param size its ±, in the same unit
 */
export function realnessOf(off: number, size: number): Realness {
	const far = Math.abs(off) - Math.abs(off) * rounding;
	if (far <= size) return 'within';
	return far <= 2 * size ? 'more' : 'real';
}
