/**
 * The value of a tree, worked out part by part: for what is asked seldom, and about parts of a formula that
 * have no slot of their own. Trees have been through the type check.
 */
import type { Graph } from '../language/graph.ts';
import type { Tree } from '../language/tree.ts';
import { checkedType } from '../language/tree-type.ts';
import type { RecordType, RecordValue, Value } from '../language/types.ts';

/** What a name stands for now. */
export type ValueOfName = (name: string) => Value | undefined;

/** What the signs of arithmetic do, as the machine does it. */
export const calculate: Readonly<Record<string, (a: number, b: number) => number>> = {
	'+': (a, b) => a + b,
	'-': (a, b) => a - b,
	'*': (a, b) => a * b,
	'/': (a, b) => a / b,
	'^': (a, b) => a ** b,
};

const compare: Readonly<Record<string, (a: Value, b: Value) => boolean>> = {
	'==': (a, b) => a === b,
	'!=': (a, b) => a !== b,
	'<': (a, b) => a < b,
	'<=': (a, b) => a <= b,
	'>': (a, b) => a > b,
	'>=': (a, b) => a >= b,
};

/**
 * @param of what names stand for; all in the tree have a value
 * @throws OutOfRange where the mechanics cannot answer
 */
export function valueOfTree(tree: Tree, of: ValueOfName, graph: Graph): Value {
	const value = (part: Tree): Value => valueOfTree(part, of, graph);
	const { byId, functions } = graph;
	switch (tree.op) {
		case 'number':
		case 'choice':
		case 'flag':
			return tree.value;
		case 'unit':
			return tree.unit.size;
		case 'name':
			return of(tree.name) as Value;
		case 'field': {
			const type = checkedType(tree.of, (name) => byId.get(name)?.type, functions) as RecordType;
			const key = type.fields[tree.field]?.key ?? tree.field;
			return (value(tree.of) as RecordValue)[key] as Value;
		}
		case 'negative':
			return -(value(tree.of) as number);
		case 'not':
			return !value(tree.of);
		case 'both':
			return value(tree.left) === true && value(tree.right) === true;
		case 'either':
			return value(tree.left) === true || value(tree.right) === true;
		case 'if':
			return value(tree.condition) === true ? value(tree.then) : value(tree.otherwise);
		case 'comparison':
			return (compare[tree.sign] as (typeof compare)[string])(value(tree.left), value(tree.right));
		case 'arithmetic':
			return (calculate[tree.sign] as (typeof calculate)[string])(
				value(tree.left) as number,
				value(tree.right) as number,
			);
		case 'call':
			return functions.get(tree.name)?.run(...tree.args.map(value)) ?? NaN;
	}
}
