/**
 * From a checked tree to a closure over the slots. No source text is ever made or run, so the page can
 * forbid it.
 */
import { OutOfRange } from '../mechanics/out-of-range.ts';
import type { FunctionTable } from '../language/functions.ts';
import { treeInWords, type Tree } from '../language/tree.ts';
import type { RecordType, RecordValue, Type, Value } from '../language/types.ts';

/** Runs a formula on one set of slots. Throws OutOfRange where the mechanics cannot answer. */
export type Runnable = (slots: readonly (Value | undefined)[]) => Value;

/** What compiling needs to know of the names: where they live, what they are, and what may be called. */
export interface Names {
	slotOf(name: string): number;
	typeOf(tree: Tree): Type;
	readonly functions: FunctionTable;
}

const compareNumbers: Readonly<Record<string, (a: Value, b: Value) => boolean>> = {
	'==': (a, b) => a === b,
	'!=': (a, b) => a !== b,
	'<': (a, b) => a < b,
	'<=': (a, b) => a <= b,
	'>': (a, b) => a > b,
	'>=': (a, b) => a >= b,
};

const calculate: Readonly<Record<string, (a: number, b: number) => number>> = {
	'+': (a, b) => a + b,
	'-': (a, b) => a - b,
	'*': (a, b) => a * b,
	'/': (a, b) => a / b,
	'^': (a, b) => a ** b,
};

/** Compiles a tree that has been through the type check; the casts below rest on that. */
export function compile(tree: Tree, names: Names): Runnable {
	const of = (part: Tree): Runnable => compile(part, names);
	switch (tree.op) {
		case 'number':
		case 'choice':
		case 'flag': {
			const { value } = tree;
			return () => value;
		}
		case 'unit': {
			const { size } = tree.unit;
			return () => size;
		}
		case 'name': {
			const slot = names.slotOf(tree.name);
			return (slots) => slots[slot] as Value;
		}
		case 'field': {
			const record = of(tree.of);
			const key = (names.typeOf(tree.of) as RecordType).fields[tree.field]?.key ?? tree.field;
			return (slots) => (record(slots) as RecordValue)[key] as Value;
		}
		case 'negative': {
			const value = of(tree.of);
			return (slots) => -(value(slots) as number);
		}
		case 'not': {
			const value = of(tree.of);
			return (slots) => !value(slots);
		}
		case 'both': {
			const left = of(tree.left);
			const right = of(tree.right);
			return (slots) => left(slots) && right(slots);
		}
		case 'either': {
			const left = of(tree.left);
			const right = of(tree.right);
			return (slots) => left(slots) || right(slots);
		}
		case 'if': {
			const condition = of(tree.condition);
			const then = of(tree.then);
			const otherwise = of(tree.otherwise);
			return (slots) => (condition(slots) ? then(slots) : otherwise(slots));
		}
		case 'comparison': {
			const left = of(tree.left);
			const right = of(tree.right);
			const compared = compareNumbers[tree.sign] as (a: Value, b: Value) => boolean;
			// A comparison would swallow what is not finite and let a check say “clear”.
			const finite = (part: Tree, value: Value): Value => {
				if (typeof value !== 'number' || Number.isFinite(value)) return value;
				throw new OutOfRange(
					`${treeInWords(part)} comes out as no finite number, so it cannot be compared: something is divided by nothing, or an angle has no such sine. Check the entries it comes from.`,
				);
			};
			return (slots) => compared(finite(tree.left, left(slots)), finite(tree.right, right(slots)));
		}
		case 'arithmetic': {
			const left = of(tree.left);
			const right = of(tree.right);
			const calculated = calculate[tree.sign] as (a: number, b: number) => number;
			return (slots) => calculated(left(slots) as number, right(slots) as number);
		}
		case 'call': {
			const called = names.functions.get(tree.name);
			if (!called) throw new Error(`compile: no function ${tree.name}`);
			const { run } = called;
			const args = tree.args.map(of);
			return (slots) => run(...args.map((arg) => arg(slots)));
		}
	}
}
