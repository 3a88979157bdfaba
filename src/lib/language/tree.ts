/** A formula as a tree: what the reader makes, the type check looks through and the engine compiles. */
import type { Unit } from '../units/units.ts';

/** Offset into the formula's text, from 0. */
interface Placed {
	readonly at: number;
}

export type Arithmetic = '+' | '-' | '*' | '/' | '^';
export type Comparison = '==' | '!=' | '<' | '<=' | '>' | '>=';

export type Tree = Placed &
	(
		| { readonly op: 'number'; readonly value: number; readonly text: string }
		| { readonly op: 'unit'; readonly unit: Unit }
		| { readonly op: 'choice'; readonly value: string }
		| { readonly op: 'flag'; readonly value: boolean }
		| { readonly op: 'name'; readonly name: string }
		| { readonly op: 'field'; readonly of: Tree; readonly field: string }
		| { readonly op: 'call'; readonly name: string; readonly args: readonly Tree[] }
		| { readonly op: 'negative'; readonly of: Tree }
		| { readonly op: 'not'; readonly of: Tree }
		| {
				readonly op: 'arithmetic';
				readonly sign: Arithmetic;
				readonly left: Tree;
				readonly right: Tree;
		  }
		| {
				readonly op: 'comparison';
				readonly sign: Comparison;
				readonly left: Tree;
				readonly right: Tree;
		  }
		| {
				readonly op: 'both' | 'either';
				readonly left: Tree;
				readonly right: Tree;
		  }
		| {
				readonly op: 'if';
				readonly condition: Tree;
				readonly then: Tree;
				readonly otherwise: Tree;
		  }
	);

/** A formula that has been read. */
export interface Formula {
	readonly tree: Tree;
	/** The unit after `to`, in which the result is shown. */
	readonly shownIn?: Unit;
	/** Every name it uses, once each, in order of appearance. */
	readonly names: readonly string[];
}

/** The parts of a part. */
export function childrenOf(tree: Tree): readonly Tree[] {
	switch (tree.op) {
		case 'field':
		case 'negative':
		case 'not':
			return [tree.of];
		case 'call':
			return tree.args;
		case 'both':
		case 'either':
		case 'comparison':
		case 'arithmetic':
			return [tree.left, tree.right];
		case 'if':
			return [tree.condition, tree.then, tree.otherwise];
		default:
			return [];
	}
}

/** How tightly a part holds together; one that holds less tightly than its place asks gets brackets. */
function hold(tree: Tree): number {
	switch (tree.op) {
		case 'if':
			return 0;
		case 'either':
			return 1;
		case 'both':
			return 2;
		case 'comparison':
			return 3;
		case 'arithmetic':
			return { '+': 4, '-': 4, '*': 5, '/': 5, '^': 7 }[tree.sign];
		case 'negative':
		case 'not':
			return 6;
		default:
			return 8;
	}
}

/** A part of a formula written out again, for messages. */
export function treeInWords(tree: Tree): string {
	const part = (of: Tree, least = hold(tree)): string =>
		hold(of) < least ? `(${treeInWords(of)})` : treeInWords(of);
	switch (tree.op) {
		case 'number':
			return tree.text;
		case 'unit':
			return tree.unit.name;
		case 'choice':
			return `"${tree.value}"`;
		case 'flag':
			return String(tree.value);
		case 'name':
			return tree.name;
		case 'field':
			return `${part(tree.of)}.${tree.field}`;
		case 'call':
			return `${tree.name}(${tree.args.map(treeInWords).join(', ')})`;
		case 'negative':
			return `-${part(tree.of)}`;
		case 'not':
			return `not ${part(tree.of)}`;
		case 'both':
			return `${part(tree.left)} and ${part(tree.right)}`;
		case 'either':
			return `${part(tree.left)} or ${part(tree.right)}`;
		case 'if':
			return `${part(tree.condition, 1)} ? ${part(tree.then, 1)} : ${part(tree.otherwise)}`;
		case 'comparison':
			return `${part(tree.left, 4)} ${tree.sign} ${part(tree.right, 4)}`;
		case 'arithmetic': {
			const { sign, left, right } = tree;
			if (sign === '^') return `${part(left, 8)}^${part(right, 6)}`;
			if (right.op === 'unit' && sign === '/') return `${part(left)}/${right.unit.name}`;
			if (isUnit(right) && sign === '*') return `${part(left)} ${treeInWords(right)}`;
			const after = sign === '-' || sign === '/' ? hold(tree) + 1 : hold(tree);
			return `${part(left)} ${sign} ${part(right, after)}`;
		}
	}
}

/** A unit or a power of one. */
function isUnit(tree: Tree): boolean {
	return tree.op === 'unit' || (tree.op === 'arithmetic' && tree.sign === '^' && isUnit(tree.left));
}
