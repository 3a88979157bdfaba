/**
 * Formulas worked out by full mathjs, which carries units along: an outside truth for what the engine does
 * in plain numbers. What mathjs has no word for, the functions of the trade among it, is taken as given.
 */
import { all, create, type Unit as MathUnit } from 'mathjs';
import type { Tree } from '../../src/lib/language/tree.ts';
import type { FunctionTable } from '../../src/lib/language/functions.ts';
import type { Graph, Node } from '../../src/lib/language/graph.ts';
import type { RecordValue, Type, Value } from '../../src/lib/language/types.ts';
import { sameDimension, type Dimension } from '../../src/lib/units/dimension.ts';
import { nameTree } from './graph-by-hand.ts';

/** It takes two amounts that are both below 1e-15 for equal unless it is told not to. */
export const mathjs = create({ ...all }, { absTol: 0 });
mathjs.createUnit('rev', `${2 * Math.PI} rad`);
mathjs.createUnit('rpm', '1 rev/minute');
mathjs.createUnit('mph', '1 mile/hour');
mathjs.createUnit('Mpsi', '1000000 psi');

/** mathjs keeps the value in SI beside the counts of mass, length, time, …, angle. It knows no money. */
export function siOf(found: MathUnit | number): { value: number; dimension: Dimension } {
	if (typeof found === 'number') return { value: found, dimension: [0, 0, 0, 0, 0] };
	const { value, dimensions } = found as unknown as { value: number; dimensions: number[] };
	const at = (index: number): number => dimensions[index] ?? 0;
	return { value, dimension: [at(0), at(1), at(2), at(7), 0] };
}

function unitFor(dimension: Dimension): string {
	return ['kg', 'm', 's', 'rad']
		.flatMap((word, index) => (dimension[index] ? [`${word}^(${dimension[index]})`] : []))
		.join(' * ');
}

/** A value as mathjs takes it: quantities with their units, records by the names of their fields. */
export function withUnits(value: Value, type: Type): unknown {
	if (type.kind === 'quantity') {
		const unit = unitFor(type.dimension);
		return unit ? mathjs.multiply(value as number, mathjs.evaluate(unit) as MathUnit) : value;
	}
	if (type.kind !== 'record') return value;
	return Object.fromEntries(
		Object.entries(type.fields).map(([field, { key, type: of }]) => [
			field,
			withUnits((value as RecordValue)[key] as Value, of),
		]),
	);
}

type Call = Extract<Tree, { op: 'call' }>;

/** What these come to when written for mathjs, from their arguments as written. */
const written: Readonly<Record<string, (args: readonly string[], first: Dimension) => string>> = {
	...Object.fromEntries(
		['abs', 'sign', 'min', 'max', 'sqrt', 'sin', 'cos', 'tan', 'exp', 'log'].map((name) => [
			name,
			(args: readonly string[]) => `${name}(${args.join(', ')})`,
		]),
	),
	...Object.fromEntries(
		['asin', 'acos', 'atan'].map((name) => [
			name,
			([arg]: readonly string[]) => `(${name}(${arg}) * 1 rad)`,
		]),
	),
	...Object.fromEntries(
		['floor', 'ceil', 'round'].map((name) => [
			name,
			([value, step = '1']: readonly string[]) => `(${name}(${value} / ${step}) * ${step})`,
		]),
	),
	hypot: (args) => `sqrt(${args.map((arg) => `${arg}^2`).join(' + ')})`,
	atan2: ([up, along], first) => {
		const unit = unitFor(first) || '1';
		return `(atan2(${up} / (1 * ${unit}), ${along} / (1 * ${unit})) * 1 rad)`;
	},
};

/** Whether mathjs can be asked for it. */
function isWritten(name: string): boolean {
	return Object.hasOwn(written, name);
}

/** A tree as text for mathjs, every part in brackets. */
export function forMathjs(tree: Tree, typeOf: (tree: Tree) => Type): string {
	const of = (part: Tree): string => forMathjs(part, typeOf);
	switch (tree.op) {
		case 'number':
			return tree.text;
		case 'unit':
			return `(1 ${tree.unit.name === 'in' ? 'inch' : tree.unit.name})`;
		case 'choice':
			return `"${tree.value}"`;
		case 'flag':
			return String(tree.value);
		case 'name':
			return tree.name;
		case 'field':
			return `${of(tree.of)}.${tree.field}`;
		case 'call': {
			const [first] = tree.args;
			const type = first && typeOf(first);
			const dimension = type?.kind === 'quantity' ? type.dimension : [0, 0, 0, 0, 0];
			return written[tree.name]?.(tree.args.map(of), dimension as Dimension) ?? tree.name;
		}
		case 'negative':
			return `(-${of(tree.of)})`;
		case 'not':
			return `(not ${of(tree.of)})`;
		case 'both':
			return `(${of(tree.left)} and ${of(tree.right)})`;
		case 'either':
			return `(${of(tree.left)} or ${of(tree.right)})`;
		case 'if':
			return `(${of(tree.condition)} ? ${of(tree.then)} : ${of(tree.otherwise)})`;
		case 'comparison': {
			const kind = typeOf(tree.left).kind;
			const words = kind === 'choice' || kind === 'text' || kind === 'date';
			if (!words) return `(${of(tree.left)} ${tree.sign} ${of(tree.right)})`;
			return `(${tree.sign === '==' ? '' : 'not '}equalText(${of(tree.left)}, ${of(tree.right)}))`;
		}
		case 'arithmetic':
			return `(${of(tree.left)} ${tree.sign} ${of(tree.right)})`;
	}
}

/** A line of a workbook: its name and its formula. */
export type Line = readonly [id: string, tree: Tree];

/**
 * The lines of a graph with every call mathjs has no word for on a line of its own, under a name that
 * stands in its place.
 */
export function withCallsApart(graph: Graph): {
	/** What is left of each line. */
	readonly lines: readonly Line[];
	/** The calls. */
	readonly given: readonly Line[];
	readonly inputs: ReadonlyMap<string, Type>;
	readonly functions: FunctionTable;
} {
	const given: Line[] = [];
	const apart = (tree: Tree): Tree => {
		switch (tree.op) {
			case 'call':
				return isWritten(tree.name) ? { ...tree, args: tree.args.map(apart) } : givenFor(tree);
			case 'field':
			case 'negative':
			case 'not':
				return { ...tree, of: apart(tree.of) };
			case 'both':
			case 'either':
			case 'comparison':
			case 'arithmetic':
				return { ...tree, left: apart(tree.left), right: apart(tree.right) };
			case 'if':
				return {
					...tree,
					condition: apart(tree.condition),
					then: apart(tree.then),
					otherwise: apart(tree.otherwise),
				};
			default:
				return tree;
		}
	};
	const givenFor = (call: Call): Tree => {
		const name = `given_${given.length}`;
		given.push([name, call]);
		return nameTree(name);
	};
	const lines = graph.order.flatMap((slot): Line[] => {
		const { id, formula } = graph.nodes[slot] as Node;
		return formula ? [[id, apart(formula.tree)]] : [];
	});
	const inputs = new Map(
		graph.nodes.flatMap(({ input, type, id }): [string, Type][] =>
			input && type ? [[id, type]] : [],
		),
	);
	return { lines, given, inputs, functions: graph.functions };
}

/** Whether a dimension is one mathjs knows. */
export function known(dimension: Dimension): boolean {
	return sameDimension(dimension, [dimension[0], dimension[1], dimension[2], dimension[3], 0]);
}
