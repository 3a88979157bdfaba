/** A value as a person would type it, for a button that enters it. */
import type { Shown } from '$lib/worksheet/quantities.ts';
import { readingNumber } from '$lib/worksheet/shown.ts';

/** With three places more than are shown, so that nothing shown changes by writing it down. */
export function typedNumber(value: number, shown: Shown): string {
	return readingNumber(value, { ...shown, decimals: shown.decimals + 3 }).replace('−', '-');
}
