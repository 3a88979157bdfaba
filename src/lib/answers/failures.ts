/** Why a figure has no value, in the words of the person who meets it. */
import type { Failure } from '../engine/run.ts';
import type { UnitSystem } from '../units/quantities.ts';

/** An amount as the mechanics write it into a sentence: "127 mm (5 in)", "26.3 N/mm (150 lbf/in)". */
const inBoth = /(-?[\d.e+-]+ (?:mm|N\/mm|N·m|N)) \((-?[\d.e+-]+ (?:in|lbf\/in|lbf ft|lbf))\)/g;

/** The sentence of a failure with its amounts in the person's units alone. */
export function failureInWords({ message }: Failure, system: UnitSystem): string {
	return message.replace(inBoth, system === 'metric' ? '$1' : '$2');
}
