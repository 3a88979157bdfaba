/** What the mechanics say, where they refuse with their own error. */
import { OutOfRange } from '../../src/lib/mechanics/out-of-range.ts';

/** The result, or undefined where they refuse. */
export function orRefused<T>(call: () => T): T | undefined {
	try {
		return call();
	} catch (cause) {
		if (cause instanceof OutOfRange) return undefined;
		throw cause;
	}
}

/** The sentence they refuse with. */
export function sentenceOf(call: () => unknown): string {
	try {
		call();
	} catch (cause) {
		if (!(cause instanceof OutOfRange)) throw cause;
		return cause.message;
	}
	throw new Error('Nothing was thrown.');
}
