/** Graphs made by hand from trees: of any size and shape, without reading a page. */
import type { Tree } from '../../src/lib/language/tree.ts';
import { functionTableOf, type FunctionTable } from '../../src/lib/language/functions.ts';
import type { Graph, Node } from '../../src/lib/language/graph.ts';
import { childrenOf } from '../../src/lib/language/tree.ts';
import { typeOf } from '../../src/lib/language/type-check.ts';
import type { Type } from '../../src/lib/language/types.ts';
import { fence, inputCell, smallWorkbook } from '../language/small-workbook.ts';

const number: Type = { kind: 'quantity', dimension: [0, 0, 0, 0, 0] };

const [anInput, aFigure] = smallWorkbook({
	one: inputCell('a', 'number') + fence('derive', 'b = 2 * a  # B'),
}).graph.nodes as [Node, Node];

/** Names used in a tree, once each. */
function namesIn(tree: Tree): string[] {
	const found = new Set<string>();
	const walk = (part: Tree): void => {
		if (part.op === 'name') found.add(part.name);
		childrenOf(part).forEach(walk);
	};
	walk(tree);
	return [...found];
}

/**
 * A graph of these lines, in the order they are written in.
 * @param inputs names of inputs, plain numbers unless a type is given
 * @param lines name and formula of each
 */
export function graphByHand(
	inputs: readonly string[] | ReadonlyMap<string, Type>,
	lines: readonly (readonly [id: string, tree: Tree])[],
	functions: FunctionTable = functionTableOf([]),
): Graph {
	const typed = [...inputs].map((each): [string, Type] =>
		typeof each === 'string' ? [each, number] : each,
	);
	const slotOf = new Map([...typed, ...lines].map(([id], slot) => [id, slot]));
	const needs = [
		...typed.map((): number[] => []),
		...lines.map(([, tree]) => namesIn(tree).map((name) => slotOf.get(name) as number)),
	];
	const feeds = needs.map((): number[] => []);
	needs.forEach((list, slot) => list.forEach((need) => feeds[need]?.push(slot)));
	const order = ordered(needs, feeds);
	const rank = order.map(() => 0);
	order.forEach((slot, place) => (rank[slot] = place));

	const types = new Map(typed);
	for (const slot of order) {
		const line = lines[slot - typed.length];
		if (line)
			types.set(
				line[0],
				typeOf(line[1], (name) => types.get(name), functions),
			);
	}
	const links = (slot: number) => ({ slot, needs: needs[slot] ?? [], feeds: feeds[slot] ?? [] });
	const nodes = [
		...typed.map(([id, type], slot): Node => ({ ...anInput, id, label: id, type, ...links(slot) })),
		...lines.map(([id, tree], index): Node => {
			const source = { text: '', line: 1, column: 1 };
			const formula = { source, tree, names: namesIn(tree) };
			const type = types.get(id) as Type;
			return { ...aFigure, id, label: id, type, formula, ...links(typed.length + index) };
		}),
	];
	const byId = new Map(nodes.map((node) => [node.id, node]));
	return { nodes, order, rank, byId, problems: [], functions };
}

/** What needs nothing first, then whatever has all it needs. */
function ordered(needs: readonly number[][], feeds: readonly number[][]): number[] {
	const open = needs.map((list) => list.length);
	const order = open.flatMap((count, slot) => (count === 0 ? [slot] : []));
	for (let place = 0; place < order.length; place++) {
		for (const feed of feeds[order[place] as number] ?? []) {
			open[feed] = (open[feed] ?? 0) - 1;
			if (open[feed] === 0) order.push(feed);
		}
	}
	if (order.length < needs.length) throw new Error('These lines go in a circle.');
	return order;
}

/** The tree of a plain number. */
export function numberTree(value: number): Tree {
	return { op: 'number', value, text: String(value), at: 0 };
}

/** The tree of a name. */
export function nameTree(name: string): Tree {
	return { op: 'name', name, at: 0 };
}

/** Two trees with a sign between them. */
export function arithmeticTree(left: Tree, sign: '+' | '-' | '*' | '/', right: Tree): Tree {
	return { op: 'arithmetic', sign, left, right, at: 0 };
}
