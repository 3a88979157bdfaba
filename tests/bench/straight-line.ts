/**
 * The formulas of a graph as the JavaScript a person would write for them by hand, one line each, numbers in
 * a typed array: what the engine is measured against. Only a measurement makes source text and runs it.
 */
import { runInThisContext } from 'node:vm';
import type { Tree } from '../../src/lib/language/tree.ts';
import type { Graph, Node } from '../../src/lib/language/graph.ts';
import { typeOf } from '../../src/lib/language/type-check.ts';
import type { RecordType, Type, Value } from '../../src/lib/language/types.ts';
import type { Run } from '../../src/lib/engine/run.ts';

export interface StraightLine {
	readonly numbers: Float64Array;
	readonly values: (Value | undefined)[];
	/** Runs every line once, in order; it is cut into functions small enough for the compiler. */
	readonly all: () => void;
	/** By slot, one line; nothing for an input. */
	readonly lines: readonly ((() => void) | undefined)[];
	/** Takes every slot over from a run. */
	readonly takeOver: (run: Run) => void;
}

/** Lines in one function: more are not compiled to the end. */
const linesInOne = 200;
const inMath = new Set(
	['abs', 'sign', 'min', 'max', 'hypot', 'sqrt', 'sin', 'cos', 'tan'].concat([
		...['asin', 'acos', 'atan', 'atan2', 'exp', 'log'],
	]),
);

export function straightLine(graph: Graph, singly = true): StraightLine {
	const { nodes, byId, order } = graph;
	const numbers = new Float64Array(nodes.length);
	const values = nodes.map((): Value | undefined => undefined);
	const functions: ((...args: Value[]) => Value)[] = [];
	const typeOfTree = (tree: Tree): Type =>
		typeOf(tree, (name) => byId.get(name)?.type, graph.functions);
	const place = ({ slot, type }: Node): string =>
		`${type?.kind === 'quantity' ? 'numbers' : 'values'}[${slot}]`;
	const of = (tree: Tree): string => {
		switch (tree.op) {
			case 'number':
			case 'flag':
				return String(tree.value);
			case 'choice':
				return JSON.stringify(tree.value);
			case 'unit':
				return String(tree.unit.size);
			case 'name':
				return place(byId.get(tree.name) as Node);
			case 'field': {
				const type = typeOfTree(tree.of) as RecordType;
				return `${of(tree.of)}.${type.fields[tree.field]?.key ?? tree.field}`;
			}
			case 'negative':
				return `(-${of(tree.of)})`;
			case 'not':
				return `(!${of(tree.of)})`;
			case 'both':
				return `(${of(tree.left)} && ${of(tree.right)})`;
			case 'either':
				return `(${of(tree.left)} || ${of(tree.right)})`;
			case 'if':
				return `(${of(tree.condition)} ? ${of(tree.then)} : ${of(tree.otherwise)})`;
			case 'comparison': {
				const sign = { '==': '===', '!=': '!==' }[tree.sign as string] ?? tree.sign;
				return `(${of(tree.left)} ${sign} ${of(tree.right)})`;
			}
			case 'arithmetic':
				return tree.sign === '^'
					? `((${of(tree.left)}) ** (${of(tree.right)}))`
					: `(${of(tree.left)} ${tree.sign} ${of(tree.right)})`;
			case 'call': {
				const args = tree.args.map(of).join(', ');
				if (inMath.has(tree.name)) return `Math.${tree.name}(${args})`;
				const run = graph.functions.get(tree.name)?.run;
				if (!run) throw new Error(`No function “${tree.name}”.`);
				return `functions[${functions.push(run) - 1}](${args})`;
			}
		}
	};
	const statements = order.flatMap((slot): [number, string][] => {
		const node = nodes[slot] as Node;
		return node.formula && node.broken === undefined
			? [[slot, `${place(node)} = ${of(node.formula.tree)};`]]
			: [];
	});
	const made = (bodies: readonly string[]): (() => void)[] => {
		const source = bodies.map((body) => `() => { ${body} }`).join(',\n');
		const make = runInThisContext(`(numbers, values, functions) => [${source}]`) as (
			...args: unknown[]
		) => (() => void)[];
		return make(numbers, values, functions);
	};
	const pieces: string[] = [];
	for (let from = 0; from < statements.length; from += linesInOne) {
		pieces.push(
			statements
				.slice(from, from + linesInOne)
				.map(([, statement]) => statement)
				.join('\n'),
		);
	}
	const inPieces = made(pieces);
	const lines: ((() => void) | undefined)[] = nodes.map(() => undefined);
	if (singly) {
		made(statements.map(([, statement]) => statement)).forEach((line, index) => {
			lines[statements[index]?.[0] as number] = line;
		});
	}
	return {
		numbers,
		values,
		all: () => {
			for (const piece of inPieces) piece();
		},
		lines,
		takeOver: (run) => {
			for (const { slot } of nodes) {
				numbers[slot] = run.number(slot) ?? 0;
				values[slot] = run.value(slot);
			}
		},
	};
}
