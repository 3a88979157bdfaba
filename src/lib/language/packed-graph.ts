/** The graph as plain data: trees as lists, and nothing that follows from them. */
import { unitOf, type Unit } from '../units/units.ts';
import type { FunctionTable } from './functions.ts';
import { orderOf, rankOf, type Graph, type Node } from './graph.ts';
import type { Cell } from './kinds/index.ts';
import { childrenOf, type Arithmetic, type Comparison, type Formula, type Tree } from './tree.ts';
import { checkedType } from './tree-type.ts';
import type { Type } from './types.ts';

/**
 * Its id, or nought for one that follows from its cell; the place of its cell among all cells, its formula, the
 * unit it is shown in, why it is broken.
 */
export type PackedNode = readonly [
	id: string | 0,
	cell: number,
	tree?: PackedTree | null,
	shownIn?: string | null,
	broken?: string,
];

/**
 * A name is a text, a number is itself; all else is a list that begins with its sign. A number whose digits
 * are written in another way keeps them: ["#", "1.50"].
 */
export type PackedTree = string | number | boolean | readonly [sign: string, ...PackedTree[]];

/** Packs the nodes of a graph. */
export function packNodes(nodes: readonly Node[], cells: readonly Cell[]): PackedNode[] {
	const placeOf = placesOf(cells);
	const follows = idsFollowing(cells);
	return nodes.map((node) => {
		const place = placeOf(node.cell);
		return packNode(node, place, follows(place, node.id) === node.id);
	});
}

/**
 * The place of a node's cell among all cells. A cell that was put in in full since has its name in common with the
 * one that the node knows.
 */
export function placesOf(cells: readonly Cell[]): (cell: Cell) => number {
	const places = new Map(cells.map((cell, place) => [cell, place]));
	const named = new Map(cells.map(({ name }, place) => [name, place] as const).reverse());
	return (cell) => places.get(cell) ?? named.get(cell.name) ?? 0;
}

interface CellNamed {
	readonly kind: Cell['kind'];
	readonly name?: string;
}

/** The ids of packed nodes, by slot. */
export function idsOf(packed: readonly PackedNode[], cells: readonly CellNamed[]): string[] {
	const follows = idsFollowing(cells);
	return packed.map(([id, place]) => {
		const following = follows(place, id);
		return id === 0 ? following : id;
	});
}

/**
 * What ids follow from cells, one node after another: an input's is its name, and the formulas that a cell has
 * for itself are numbered behind its name.
 */
function idsFollowing(cells: readonly CellNamed[]): (place: number, id: string | 0) => string {
	const counts = new Map<number, number>();
	return (place, id) => {
		const { kind, name = '' } = cells[place] as CellNamed;
		if (kind === 'input') return name;
		const count = counts.get(place) ?? 0;
		if (id === 0 || id.includes('/')) counts.set(place, count + 1);
		return `${name}/${count.toString()}`;
	};
}

function packNode(
	{ id: whole, formula, shownIn, broken }: Node,
	cell: number,
	follows: boolean,
): PackedNode {
	const id = follows ? 0 : whole;
	const tree = formula ? packTree(formula.tree) : null;
	if (broken !== undefined) return [id, cell, tree, shownIn?.name ?? null, broken];
	if (shownIn) return [id, cell, tree, shownIn.name];
	return tree === null ? [id, cell] : [id, cell, tree];
}

function packTree(tree: Tree): PackedTree {
	switch (tree.op) {
		case 'number':
			return String(tree.value) === tree.text ? tree.value : ['#', tree.text];
		case 'unit':
			return ['unit', tree.unit.name];
		case 'choice':
			return ['"', tree.value];
		case 'flag':
			return tree.value;
		case 'name':
			return tree.name;
		case 'field':
			return ['.', tree.field, packTree(tree.of)];
		case 'call':
			return ['call', tree.name, ...tree.args.map(packTree)];
		case 'arithmetic':
		case 'comparison':
			return [tree.sign, ...childrenOf(tree).map(packTree)];
		default:
			return [tree.op, ...childrenOf(tree).map(packTree)];
	}
}

const arithmetic = new Set<string>(['+', '-', '*', '/', '^'] satisfies Arithmetic[]);
const comparison = new Set<string>(['==', '!=', '<', '<=', '>', '>='] satisfies Comparison[]);

/** Where a part stood in its text is not packed: it serves only whoever reads text. */
const at = 0;

function unpackTree(packed: PackedTree): Tree {
	if (typeof packed === 'string') return { op: 'name', name: packed, at };
	if (typeof packed === 'boolean') return { op: 'flag', value: packed, at };
	if (typeof packed === 'number') {
		return { op: 'number', value: packed, text: String(packed), at };
	}
	const [sign, ...rest] = packed;
	const word = String(rest[0]);
	switch (sign) {
		case '#':
			return { op: 'number', value: Number(word), text: word, at };
		case 'unit':
			return { op: 'unit', unit: knownUnit(word), at };
		case '"':
			return { op: 'choice', value: word, at };
		case '.':
			return { op: 'field', field: word, of: unpackTree(rest[1] as PackedTree), at };
		case 'call':
			return { op: 'call', name: word, args: rest.slice(1).map(unpackTree), at };
	}
	return unpackParts(sign, rest.map(unpackTree));
}

/** A unit that was known when the workbook was read. */
export function knownUnit(name: string): Unit {
	const unit = unitOf(name);
	if (!unit) throw new Error(`packed: no unit “${name}”`);
	return unit;
}

function unpackParts(sign: string, parts: readonly Tree[]): Tree {
	const [first, second, third] = parts as [Tree, Tree, Tree];
	switch (sign) {
		case 'negative':
		case 'not':
			return { op: sign, of: first, at };
		case 'both':
		case 'either':
			return { op: sign, left: first, right: second, at };
		case 'if':
			return { op: 'if', condition: first, then: second, otherwise: third, at };
	}
	if (arithmetic.has(sign)) {
		return { op: 'arithmetic', sign: sign as Arithmetic, left: first, right: second, at };
	}
	if (comparison.has(sign)) {
		return { op: 'comparison', sign: sign as Comparison, left: first, right: second, at };
	}
	throw new Error(`packed: no sign “${sign}”`);
}

/**
 * The graph of packed nodes: links, order and types follow from the trees.
 * @param ids of the nodes, by slot
 * @param cells all of them, in reading order
 */
export function unpackGraph(
	packed: readonly PackedNode[],
	ids: readonly string[],
	cells: readonly Cell[],
	functions: FunctionTable,
): Graph {
	const slots = new Map(ids.map((id, slot) => [id, slot]));
	const feeds = packed.map((): number[] => []);
	const types: (Type | undefined)[] = [];
	const formulas = packed.map(([, , tree, shownIn]): Formula | undefined => {
		if (tree === undefined || tree === null) return undefined;
		const read = unpackTree(tree);
		const unit = shownIn ? { shownIn: knownUnit(shownIn) } : {};
		return { tree: read, names: [...namesIn(read)], ...unit };
	});
	const needs = formulas.map((formula, slot): number[] => {
		const found = formula?.names.map((name) => slots.get(name)) ?? [];
		// With a name that nobody gives a formula was not read to its end.
		if (found.some((need) => need === undefined)) return [];
		const known = found as number[];
		for (const need of known) feeds[need]?.push(slot);
		return known;
	});
	const order = orderOf(needs);
	const typeOfName = (name: string): Type | undefined => types[slots.get(name) ?? -1];
	for (const slot of order) {
		const [, place, , , broken] = packed[slot] as PackedNode;
		if (broken !== undefined) continue;
		const id = ids[slot];
		const formula = formulas[slot];
		// An input is of the type its cell says, whatever it starts as.
		types[slot] =
			cells[place]?.gives.find(({ name }) => name === id)?.type ??
			(formula && checkedType(formula.tree, typeOfName, functions));
	}
	const nodes = packed.map(([, place, , , broken], slot): Node => {
		const id = ids[slot] ?? '';
		const cell = cells[place] as Cell;
		const given = cell.gives.find(({ name }) => name === id);
		const formula = formulas[slot];
		const type = types[slot];
		return {
			slot,
			id,
			label: given?.label ?? '',
			cell,
			needs: needs[slot] ?? [],
			feeds: feeds[slot] ?? [],
			...(type && { type }),
			...(given && cell.kind === 'input' && { input: cell }),
			...(formula && { formula }),
			...(formula?.shownIn && { shownIn: formula.shownIn }),
			...(broken !== undefined && { broken }),
		};
	});
	const byId = new Map(nodes.map((node) => [node.id, node]));
	return { nodes, order, rank: rankOf(order), byId, problems: [], functions };
}

/** Every name in a tree, once each, in order of appearance. */
function namesIn(tree: Tree, names = new Set<string>()): Set<string> {
	if (tree.op === 'name') names.add(tree.name);
	for (const part of childrenOf(tree)) namesIn(part, names);
	return names;
}
