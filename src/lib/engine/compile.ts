/** From checked trees to operations. */
import type { Tree } from '../language/tree.ts';
import type { FunctionTable } from '../language/functions.ts';
import type { RecordType, Type, Value } from '../language/types.ts';
import { operations, width, type Call, type Work } from './operations.ts';
import { calculate } from './tree-value.ts';

/** What compiling needs to know of the names: where they live, what they are, and what may be called. */
export interface Names {
	registerOf(name: string): number;
	typeOf(tree: Tree): Type;
	readonly functions: FunctionTable;
}

type Operation = keyof typeof operations;

const calculateNumbers: Readonly<Record<string, Operation>> = {
	'+': 'add',
	'-': 'subtract',
	'*': 'multiply',
	'/': 'divide',
	'^': 'power',
};
const compareNumbers: Readonly<Record<string, Operation>> = {
	'==': 'equal',
	'!=': 'unequal',
	'<': 'less',
	'<=': 'lessOrEqual',
	'>': 'more',
	'>=': 'moreOrEqual',
};
/** Functions the machine does itself, for they are called most: so named, with so many values. */
const builtIn: Readonly<Record<string, readonly [values: number, Operation]>> = {
	abs: [1, 'abs'],
	min: [2, 'min'],
	max: [2, 'max'],
};

/** Writes formulas out as operations, one behind another. Trees have been through the type check. */
export class Compiler {
	readonly #names: Names;
	readonly #code: number[] = [];
	readonly #calls: Call[] = [];
	readonly #keys: string[] = [];
	readonly #compared = new Map<number, readonly [Tree, Tree]>();
	/** Constants and their registers. */
	readonly #constants = new Map<Value, number>();
	/** Registers for results in between, by how many are in use beside. */
	readonly #between: number[] = [];
	#registers: number;

	/** @param places how many registers are taken by the places of the graph */
	constructor(names: Names, places: number) {
		this.#names = names;
		this.#registers = places;
	}

	/** Where the next operation will stand. */
	get length(): number {
		return this.#code.length;
	}

	/** How many registers are in use. */
	get registers(): number {
		return this.#registers;
	}

	/** The constants and the registers they have to stand in. */
	get constants(): ReadonlyMap<Value, number> {
		return this.#constants;
	}

	get work(): Work {
		return {
			code: Int32Array.from(this.#code),
			calls: this.#calls,
			keys: this.#keys,
			compared: this.#compared,
		};
	}

	/**
	 * Appends the operations that leave what a tree comes to in a register.
	 * @param used how many registers for results in between are in use
	 */
	append(tree: Tree, out: number, used = 0): void {
		const constant = constantOf(tree);
		if (constant !== undefined) {
			this.#copy(tree, this.#constant(constant), out);
			return;
		}
		switch (tree.op) {
			case 'name':
				this.#copy(tree, this.#names.registerOf(tree.name), out);
				return;
			case 'field':
				this.#field(tree, out, used);
				return;
			case 'negative':
			case 'not':
				this.#put(tree.op, out, this.#operand(tree.of, used));
				return;
			case 'both':
			case 'either': {
				this.append(tree.left, out, used);
				const decided = this.#skip(tree.op === 'both' ? 'skipUnless' : 'skipIf', out);
				this.append(tree.right, out, used);
				this.#land(decided);
				return;
			}
			case 'if': {
				const otherwise = this.#skip('skipUnless', this.#operand(tree.condition, used));
				this.append(tree.then, out, used);
				const end = this.#skip('skip', 0);
				this.#land(otherwise);
				this.append(tree.otherwise, out, used);
				this.#land(end);
				return;
			}
			case 'comparison':
				this.#comparison(tree, out, used);
				return;
			case 'arithmetic': {
				const operation = calculateNumbers[tree.sign] as Operation;
				const left = this.#operand(tree.left, used);
				this.#put(operation, out, left, this.#operand(tree.right, used + 1));
				return;
			}
			case 'call':
				this.#call(tree, out, used);
		}
	}

	/** The register a part's result stands in, worked out into one in between where it has none. */
	#operand(tree: Tree, used: number): number {
		const constant = constantOf(tree);
		if (constant !== undefined) return this.#constant(constant);
		if (tree.op === 'name') return this.#names.registerOf(tree.name);
		const out = (this.#between[used] ??= this.#registers++);
		this.append(tree, out, used + 1);
		return out;
	}

	#field(tree: Extract<Tree, { op: 'field' }>, out: number, used: number): void {
		const record = this.#operand(tree.of, used);
		const type = this.#names.typeOf(tree.of) as RecordType;
		const key = type.fields[tree.field]?.key ?? tree.field;
		let index = this.#keys.indexOf(key);
		if (index < 0) index = this.#keys.push(key) - 1;
		this.#put(this.#isNumber(tree) ? 'numberField' : 'valueField', out, record, index);
	}

	#comparison(tree: Extract<Tree, { op: 'comparison' }>, out: number, used: number): void {
		const { left, right, sign } = tree;
		const numbers = this.#isNumber(left);
		const finite = (a: number, b: number): void => {
			this.#compared.set(this.length, [left, right]);
			this.#put('finite', 0, a, b);
		};
		const a = this.#operand(left, used);
		// The left side is looked at before the right one is worked out, which may fail in its own way.
		const simple = right.op === 'name' || constantOf(right) !== undefined;
		if (numbers && !simple) finite(a, a);
		const b = this.#operand(right, used + 1);
		if (numbers) finite(a, b);
		const compared = numbers ? compareNumbers[sign] : sign === '==' ? 'same' : 'different';
		this.#put(compared as Operation, out, a, b);
	}

	#call(tree: Extract<Tree, { op: 'call' }>, out: number, used: number): void {
		const called = this.#names.functions.get(tree.name);
		if (!called) throw new Error(`compile: no function ${tree.name}`);
		const args = tree.args.map((arg, index) => this.#operand(arg, used + index));
		const [count, operation] = builtIn[tree.name] ?? [];
		if (operation && count === args.length) {
			this.#put(operation, out, args[0], args[1]);
			return;
		}
		const registers = args.map((register, index) =>
			this.#isNumber(tree.args[index] as Tree) ? register : -1 - register,
		);
		const index = this.#calls.push({ run: called.run, args: registers, given: [] }) - 1;
		this.#put(this.#isNumber(tree) ? 'callForNumber' : 'callForValue', out, index);
	}

	#isNumber(tree: Tree): boolean {
		return this.#names.typeOf(tree).kind === 'quantity';
	}

	#constant(value: Value): number {
		// Nought and minus nought are one key of a map and two numbers.
		if (Object.is(value, -0)) return this.#minusNought();
		let register = this.#constants.get(value);
		if (register === undefined) this.#constants.set(value, (register = this.#registers++));
		return register;
	}

	#minusNought(): number {
		const out = this.#registers++;
		this.#put('negative', out, this.#constant(0));
		return out;
	}

	#copy(tree: Tree, from: number, out: number): void {
		this.#put(this.#isNumber(tree) ? 'copyNumber' : 'copyValue', out, from);
	}

	#put(operation: Operation, out: number, a = 0, b = 0): void {
		this.#code.push(operations[operation], out, a, b);
	}

	/** Puts an operation that goes on further down, to where `#land` is told. */
	#skip(operation: 'skip' | 'skipIf' | 'skipUnless', condition: number): number {
		this.#put(operation, 0, condition);
		return this.length;
	}

	#land(from: number): void {
		this.#code[from - width + 1] = this.length - from;
	}
}

/** The value of what holds no name and no call, worked out as the machine would. */
function constantOf(tree: Tree): Value | undefined {
	switch (tree.op) {
		case 'number':
		case 'choice':
		case 'flag':
			return tree.value;
		case 'unit':
			return tree.unit.size;
		case 'negative': {
			const value = constantOf(tree.of);
			return typeof value === 'number' ? -value : undefined;
		}
		case 'arithmetic': {
			const left = constantOf(tree.left);
			const right = left === undefined ? undefined : constantOf(tree.right);
			return right === undefined
				? undefined
				: calculate[tree.sign]?.(left as number, right as number);
		}
		default:
			return undefined;
	}
}
