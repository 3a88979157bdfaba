/**
 * The type of a formula that has been through the type check. There is nothing left to refuse, so no
 * sentence is needed, and a browser that is given trees needs no more than this.
 */
import {
	dimensionToPower,
	isPlainNumber,
	plainNumber,
	timesDimension,
	type Dimension,
} from '../units/dimension.ts';
import type { FunctionTable } from './functions.ts';
import { childrenOf, type Tree } from './tree.ts';
import type { Type } from './types.ts';

/** What a name is, or undefined while that is not known because its own cell has a mistake. */
export type TypeOfName = (name: string) => Type | undefined;

/** The type hangs on a name whose own cell has a mistake; nothing can be said of this formula. */
export class TypeNotKnown extends Error {
	override name = 'TypeNotKnown';
}

/**
 * The type of a tree that has been checked.
 * @throws TypeNotKnown where a name it needs is broken
 */
export function checkedType(tree: Tree, typeOfName: TypeOfName, functions: FunctionTable): Type {
	const parts = childrenOf(tree).map((part) => checkedType(part, typeOfName, functions));
	return combinedType(tree, parts, typeOfName, functions);
}

/**
 * The type of a tree from the types of its parts, which have been found to fit together.
 * @param parts in the order of childrenOf
 */
export function combinedType(
	tree: Tree,
	parts: readonly Type[],
	typeOfName: TypeOfName,
	functions: FunctionTable,
): Type {
	switch (tree.op) {
		case 'number':
			return asQuantity(plainNumber);
		case 'unit':
			return asQuantity(tree.unit.dimension);
		case 'choice':
			return { kind: 'choice', options: [tree.value] };
		case 'name': {
			const type = typeOfName(tree.name);
			if (!type) throw new TypeNotKnown();
			return type;
		}
		case 'field': {
			const [record] = parts;
			const found = record?.kind === 'record' ? record.fields[tree.field] : undefined;
			return known(found?.type, tree);
		}
		case 'negative':
			return known(parts[0], tree);
		case 'if': {
			const [, then, otherwise] = parts;
			if (then?.kind !== 'choice' || otherwise?.kind !== 'choice') return known(then, tree);
			return { kind: 'choice', options: [...new Set([...then.options, ...otherwise.options])] };
		}
		case 'arithmetic':
			return asQuantity(arithmeticDimension(tree, parts));
		case 'call':
			return known(functions.get(tree.name)?.resultOf(parts, notChecked), tree);
		default:
			return { kind: 'flag' };
	}
}

function arithmeticDimension(
	{ sign, right: power }: Extract<Tree, { op: 'arithmetic' }>,
	[left, right]: readonly Type[],
): Dimension {
	if (left?.kind !== 'quantity' || right?.kind !== 'quantity') throw notChecked();
	switch (sign) {
		case '*':
			return timesDimension(left.dimension, right.dimension);
		case '/':
			return timesDimension(left.dimension, right.dimension, -1);
		case '^':
			return isPlainNumber(left.dimension)
				? left.dimension
				: dimensionToPower(left.dimension, constantOf(power) ?? NaN);
		default:
			return left.dimension;
	}
}

function known(type: Type | undefined, { op }: Tree): Type {
	if (!type) throw notChecked(op);
	return type;
}

function notChecked(part: string | number = ''): Error {
	return new Error(`tree-type: a tree that has not been checked ${String(part)}`);
}

function asQuantity(dimension: Dimension): Type {
	return { kind: 'quantity', dimension };
}

/** The value of a power written as a number, a fraction of numbers, or the negative of one. */
export function constantOf(tree: Tree): number | undefined {
	if (tree.op === 'number') return tree.value;
	if (tree.op === 'negative') {
		const value = constantOf(tree.of);
		return value === undefined ? undefined : -value;
	}
	if (tree.op === 'arithmetic' && tree.sign === '/') {
		const left = constantOf(tree.left);
		const right = constantOf(tree.right);
		return left === undefined || !right ? undefined : left / right;
	}
	return undefined;
}
