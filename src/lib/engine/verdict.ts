/**
 * What a condition comes to when its figures are only known within their ±: it holds, it fails, or the ±
 * reaches across the limit and it may do either. Three-valued logic after S. C. Kleene, Introduction to
 * Metamathematics (1952), § 64 (from memory): what is not known stays so unless the rest settles it.
 *
 * The ± of a margin, what one side is over the other, follows from the ± of the figures in it by their
 * slopes, entry by entry, so that what moves both sides alike cancels (JCGM 100:2008, 5.1.2).
 */
import type { Graph } from '../language/graph.ts';
import { childrenOf, type Tree } from '../language/tree.ts';
import { checkedType } from '../language/tree-type.ts';
import type { Type } from '../language/types.ts';
import { valueOfTree, type ValueOfName } from './tree-value.ts';
import { sourceOf, type PlusMinus } from './plus-minus.ts';
import type { Run } from './run.ts';

export type Verdict = 'holds' | 'fails' | 'within';

/** Part of its ± by which a figure is moved for the slope of a margin. */
const share = 0.1;

type Plus = readonly (PlusMinus | undefined)[];

/**
 * Weighs the condition in a slot that has a value.
 * @param plusMinus by slot; what has none there is taken as certain, and all where it is empty
 */
export function verdictOf(graph: Graph, run: Run, plusMinus: Plus, slot: number): Verdict {
	const tree = plusMinus.length > 0 ? graph.nodes[slot]?.formula?.tree : undefined;
	return tree ? weigh(tree, graph, run, plusMinus) : certain(run.value(slot) === true);
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
			return certain(valueOfTree(tree, inRun(graph, run), graph) === true);
	}
}

function compared(
	tree: Extract<Tree, { op: 'comparison' }>,
	graph: Graph,
	run: Run,
	plusMinus: Plus,
): Verdict {
	const now = inRun(graph, run);
	const holds = certain(valueOfTree(tree, now, graph) === true);
	if (typeIn(tree.left, graph).kind !== 'quantity') return holds;
	const margin = (of: ValueOfName): number =>
		(valueOfTree(tree.left, of, graph) as number) - (valueOfTree(tree.right, of, graph) as number);
	const size = marginPlusMinus(margin, namesIn(tree), graph, run, plusMinus);
	return size > 0 && Math.abs(margin(now)) <= size ? 'within' : holds;
}

function inRun({ byId }: Graph, run: Run): ValueOfName {
	return (name) => run.value(byId.get(name)?.slot ?? -1);
}

/** ± of a margin, SI. */
function marginPlusMinus(
	margin: (of: ValueOfName) => number,
	names: ReadonlySet<string>,
	graph: Graph,
	run: Run,
	plusMinus: Plus,
): number {
	const now = inRun(graph, run);
	const bySource = new Map<string, number>();
	for (const name of names) {
		const sure = plusMinus[graph.byId.get(name)?.slot ?? -1];
		const value = now(name);
		if (!sure || !(sure.size > 0) || typeof value !== 'number') continue;
		const step = share * sure.size;
		const moved = (by: number): number =>
			margin((other) => (other === name ? value + by : now(other)));
		const slope = (moved(step) - moved(-step)) / (2 * step);
		for (const part of sure.parts) {
			const source = sourceOf(part);
			bySource.set(source, (bySource.get(source) ?? 0) + slope * part.brings);
		}
	}
	return Math.hypot(...bySource.values());
}

function namesIn(tree: Tree, found = new Set<string>()): ReadonlySet<string> {
	if (tree.op === 'name') found.add(tree.name);
	for (const part of childrenOf(tree)) namesIn(part, found);
	return found;
}

function typeIn(tree: Tree, { byId, functions }: Graph): Type {
	return checkedType(tree, (name) => byId.get(name)?.type, functions);
}
