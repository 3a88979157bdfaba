/**
 * What a condition comes to when its figures are only known within their ±: it holds, it fails, or the ±
 * reaches across the limit and it may do either. Three-valued logic after S. C. Kleene, Introduction to
 * Metamathematics (1952), § 64 (from memory): what is not known stays so unless the rest settles it.
 *
 * The ± of a margin, what one side is over the other, follows from the ± of the figures in it by their
 * slopes, entry by entry, so that what moves both sides alike cancels (JCGM 100:2008, 5.1.2).
 */
import type { Tree } from '../language/formula.ts';
import { childrenOf, type Graph, type Node } from '../language/graph.ts';
import { typeOf } from '../language/type-check.ts';
import type { Type, Value } from '../language/types.ts';
import { compile, type Runnable } from './compile.ts';
import { sourceOf, type PlusMinus } from './plus-minus.ts';
import type { Run } from './run.ts';

export type Verdict = 'holds' | 'fails' | 'within';

/** Part of its ± by which a figure is moved for the slope of a margin. */
const share = 0.1;

/** A comparison of two quantities, ready to be weighed. */
interface Margin {
	/** Left less right, SI. */
	readonly run: Runnable;
	/** Slots of the figures in it. */
	readonly slots: readonly number[];
}

/** Margins by their comparison: a graph's trees never change. */
const margins = new WeakMap<Tree, Margin>();

type Plus = readonly (PlusMinus | undefined)[];

/**
 * Weighs the condition in a slot that has a value.
 * @param plusMinus by slot; what has none there is taken as certain
 */
export function verdictOf(graph: Graph, run: Run, plusMinus: Plus, slot: number): Verdict {
	const tree = graph.nodes[slot]?.formula?.tree;
	return tree ? weigh(tree, graph, run, plusMinus) : certain(run.values[slot] === true);
}

function certain(value: boolean): Verdict {
	return value ? 'holds' : 'fails';
}

function weigh(tree: Tree, graph: Graph, run: Run, plusMinus: Plus): Verdict {
	const of = (part: Tree): Verdict => weigh(part, graph, run, plusMinus);
	switch (tree.op) {
		case 'not': {
			const inside = of(tree.of);
			return inside === 'within' ? inside : certain(inside === 'fails');
		}
		case 'both':
		case 'either': {
			const settles: Verdict = tree.op === 'both' ? 'fails' : 'holds';
			const sides = [of(tree.left), of(tree.right)];
			if (sides.includes(settles)) return settles;
			return sides.includes('within') ? 'within' : certain(tree.op === 'both');
		}
		case 'if': {
			const condition = of(tree.condition);
			if (condition !== 'within') return of(condition === 'holds' ? tree.then : tree.otherwise);
			const [then, otherwise] = [of(tree.then), of(tree.otherwise)];
			return then === otherwise ? then : 'within';
		}
		case 'comparison':
			return compared(tree, graph, run, plusMinus);
		case 'name': {
			const node = graph.byId.get(tree.name);
			return node ? verdictOf(graph, run, plusMinus, node.slot) : 'fails';
		}
		default:
			return certain(compiled(tree, graph)(run.values) === true);
	}
}

function compared(
	tree: Extract<Tree, { op: 'comparison' }>,
	graph: Graph,
	run: Run,
	plusMinus: Plus,
): Verdict {
	const holds = certain(compiled(tree, graph)(run.values) === true);
	if (typeIn(tree.left, graph).kind !== 'quantity') return holds;
	const margin = marginOf(tree, graph);
	const size = marginPlusMinus(margin, run, plusMinus);
	const now = margin.run(run.values);
	return size > 0 && Math.abs(now as number) <= size ? 'within' : holds;
}

function marginOf(tree: Extract<Tree, { op: 'comparison' }>, graph: Graph): Margin {
	const known = margins.get(tree);
	if (known) return known;
	const { left, right, at } = tree;
	const made = {
		run: compiled({ op: 'arithmetic', sign: '-', left, right, at }, graph),
		slots: [...slotsIn(tree, graph)],
	};
	margins.set(tree, made);
	return made;
}

/** ± of a margin, SI. */
function marginPlusMinus(margin: Margin, run: Run, plusMinus: Plus): number {
	const values = [...run.values];
	const bySource = new Map<string, number>();
	for (const slot of margin.slots) {
		const sure = plusMinus[slot];
		const value = values[slot];
		if (!sure || !(sure.size > 0) || typeof value !== 'number') continue;
		const step = share * sure.size;
		const moved = (by: number): number => {
			values[slot] = value + by;
			return margin.run(values) as number;
		};
		const slope = (moved(step) - moved(-step)) / (2 * step);
		values[slot] = value;
		for (const part of sure.parts) {
			const source = sourceOf(part);
			bySource.set(source, (bySource.get(source) ?? 0) + slope * part.brings);
		}
	}
	return Math.hypot(...bySource.values());
}

function slotsIn(tree: Tree, graph: Graph, found = new Set<number>()): ReadonlySet<number> {
	const node = tree.op === 'name' ? graph.byId.get(tree.name) : undefined;
	if (node) found.add(node.slot);
	for (const part of childrenOf(tree)) slotsIn(part, graph, found);
	return found;
}

function typeIn(tree: Tree, { byId, functions }: Graph): Type {
	return typeOf(tree, (name) => byId.get(name)?.type, functions);
}

function compiled(tree: Tree, graph: Graph): (values: readonly (Value | undefined)[]) => Value {
	return compile(tree, {
		slotOf: (name) => (graph.byId.get(name) as Node).slot,
		typeOf: (part) => typeIn(part, graph),
		functions: graph.functions,
	});
}
