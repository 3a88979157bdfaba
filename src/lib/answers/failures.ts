/** Why a figure has no value, in the words of the person who meets it. */
import type { Failure } from '../engine/run.ts';
import type { UnitSystem } from '../units/quantities.ts';

/** A length as the mechanics write it into a sentence: "127 mm (5 in)". */
const inBoth = /(-?[\d.e+-]+ mm) \((-?[\d.e+-]+ in)\)/g;

/** The sentence of a failure with its lengths in the person's units alone. */
export function failureInWords({ message }: Failure, system: UnitSystem): string {
	return message.replace(inBoth, system === 'metric' ? '$1' : '$2');
}
