/**
 * The machine that formulas run on. It has two rows of registers with one numbering: numbers, for
 * quantities in SI, which stay unboxed; and values, for everything else. Each place in the
 * order of the graph has the register of its own number; constants and results in between follow.
 *
 * An operation is four whole numbers: what to do, the register it goes to, and two operands. All formulas
 * stand in one list, so that running them reads memory from front to back. No source text is ever made or
 * run, so the page can forbid it.
 */
import { OutOfRange } from '../mechanics/out-of-range.ts';
import type { Tree } from '../language/tree.ts';
import { treeInWords } from '../language/tree.ts';
import type { RecordValue, Value } from '../language/types.ts';

/** How many whole numbers an operation is. */
export const width = 4;

/**
 * What there is to do. The numbers stand again in `operate`, written out, for only then does the engine of
 * the browser jump straight to the right one.
 */
export const operations = {
	add: 0,
	subtract: 1,
	multiply: 2,
	divide: 3,
	power: 4,
	negative: 5,
	abs: 6,
	min: 7,
	max: 8,
	copyNumber: 9,
	copyValue: 10,
	finite: 11,
	less: 12,
	lessOrEqual: 13,
	more: 14,
	moreOrEqual: 15,
	equal: 16,
	unequal: 17,
	same: 18,
	different: 19,
	not: 20,
	skip: 21,
	skipIf: 22,
	skipUnless: 23,
	numberField: 24,
	valueField: 25,
	callForNumber: 26,
	callForValue: 27,
} as const;

/** A call in a formula: registers of its arguments, those of values as −1 − register. */
export interface Call {
	readonly run: (...args: Value[]) => Value;
	readonly args: readonly number[];
	/** The arguments themselves, written anew at each call: a new list costs more than most functions do. */
	readonly given: Value[];
}

/** What operations refer to by number. */
export interface Work {
	readonly code: Int32Array;
	readonly calls: readonly Call[];
	/** Keys of fields in records. */
	readonly keys: readonly string[];
	/** The two sides of the comparison that a `finite` at this place in the code comes before. */
	readonly compared: ReadonlyMap<number, readonly [left: Tree, right: Tree]>;
}

/**
 * Runs the operations from one place in the code to another.
 * @throws OutOfRange where the mechanics cannot answer
 */
export function operate(
	work: Work,
	from: number,
	to: number,
	numbers: Float64Array,
	values: (Value | undefined)[],
): void {
	const { code } = work;
	for (let at = from; at < to; at += 4) {
		const out = code[at + 1] as number;
		const a = code[at + 2] as number;
		const b = code[at + 3] as number;
		const x = numbers[a] as number;
		const y = numbers[b] as number;
		// prettier-ignore
		switch (code[at]) {
			case 0: numbers[out] = x + y; break;
			case 1: numbers[out] = x - y; break;
			case 2: numbers[out] = x * y; break;
			case 3: numbers[out] = x / y; break;
			case 4: numbers[out] = x ** y; break;
			case 5: numbers[out] = -x; break;
			case 6: numbers[out] = Math.abs(x); break;
			case 7: numbers[out] = Math.min(x, y); break;
			case 8: numbers[out] = Math.max(x, y); break;
			case 9: numbers[out] = x; break;
			case 10: values[out] = values[a]; break;
			case 11: if (!Number.isFinite(x) || !Number.isFinite(y)) throw notFinite(work, at, x); break;
			case 12: values[out] = x < y; break;
			case 13: values[out] = x <= y; break;
			case 14: values[out] = x > y; break;
			case 15: values[out] = x >= y; break;
			case 16: values[out] = x === y; break;
			case 17: values[out] = x !== y; break;
			case 18: values[out] = values[a] === values[b]; break;
			case 19: values[out] = values[a] !== values[b]; break;
			case 20: values[out] = values[a] !== true; break;
			case 21: at += out; break;
			case 22: if (values[a] === true) at += out; break;
			case 23: if (values[a] !== true) at += out; break;
			case 24: numbers[out] = fieldOf(work, values, a, b) as number; break;
			case 25: values[out] = fieldOf(work, values, a, b); break;
			case 26: numbers[out] = called(work, numbers, values, a) as number; break;
			case 27: values[out] = called(work, numbers, values, a); break;
		}
	}
}

function fieldOf(
	{ keys }: Work,
	values: readonly (Value | undefined)[],
	register: number,
	key: number,
): Value | undefined {
	return (values[register] as RecordValue)[keys[key] as string];
}

function called(
	{ calls }: Work,
	numbers: Float64Array,
	values: readonly (Value | undefined)[],
	index: number,
): Value {
	const { run, args, given } = calls[index] as Call;
	for (let place = 0; place < args.length; place++) {
		const register = args[place] as number;
		given[place] = (register < 0 ? values[-1 - register] : numbers[register]) as Value;
	}
	return run(...given);
}

/** A comparison would swallow what is not finite and let a check say “clear”. */
function notFinite({ compared }: Work, at: number, left: number): OutOfRange {
	const sides = compared.get(at);
	const part = sides?.[Number.isFinite(left) ? 1 : 0];
	return new OutOfRange(
		`${part ? treeInWords(part) : 'A side'} comes out as no finite number, so it cannot be compared: something is divided by nothing, or an angle has no such sine. Check the entries it comes from.`,
	);
}
