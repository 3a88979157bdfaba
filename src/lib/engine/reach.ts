/** What hangs on what: the slots an edit reaches, and what a question reads of the run it starts from. */
import type { Graph, Node } from '../language/graph.ts';
import type { Program } from './program.ts';

/** These slots and all that hang on them (feeds), or that they hang on (needs), near and far. */
export function linked(
	graph: Graph,
	from: readonly number[],
	links: 'feeds' | 'needs',
): ReadonlySet<number> {
	return linkedAmong(graph, from, links, () => true);
}

/** The same, going on only over slots that are let through. */
function linkedAmong(
	graph: Graph,
	from: readonly number[],
	links: 'feeds' | 'needs',
	through: (slot: number) => boolean,
): Set<number> {
	const seen = new Set(from.filter(through));
	const left = [...seen];
	for (let slot = left.pop(); slot !== undefined; slot = left.pop()) {
		for (const next of graph.nodes[slot]?.[links] ?? []) {
			if (seen.has(next) || !through(next)) continue;
			seen.add(next);
			left.push(next);
		}
	}
	return seen;
}

/** What some inputs reach. */
export interface Reach {
	readonly inputs: readonly number[];
	/** In an order in which they can be run, without the inputs themselves. */
	readonly slots: Int32Array;
	/** The same as nodes. */
	readonly nodes: readonly Node[];
}

/** The latest of each program, for the next edit is most often to the same field. */
const latest = new WeakMap<Program, Reach[]>();
const kept = 16;

/** What some inputs reach. */
export function reachOf(program: Program, inputs: readonly number[]): Reach {
	const known = latest.get(program) ?? [];
	latest.set(program, known);
	const found = known.find(
		(each) =>
			each.inputs.length === inputs.length &&
			each.inputs.every((slot, index) => slot === inputs[index]),
	);
	if (found) return found;
	const reach = newReach(program, inputs);
	known.unshift(reach);
	known.length = Math.min(known.length, kept);
	return reach;
}

function newReach({ feeds, graph, order }: Program, inputs: readonly number[]): Reach {
	const seen = new Set(inputs);
	// A set goes on over what is added to it on the way.
	for (const slot of seen) {
		const end = feeds.starts[slot + 1] as number;
		for (let index = feeds.starts[slot] as number; index < end; index++) {
			seen.add(feeds.slots[index] as number);
		}
	}
	for (const slot of inputs) seen.delete(slot);
	const slots = Int32Array.from(seen, (slot) => graph.rank[slot] as number)
		.sort()
		.map((rank) => order[rank] as number);
	return { inputs, slots, nodes: Array.from(slots, (slot) => graph.nodes[slot] as Node) };
}

/** What asking “what if” comes to. */
export interface Question {
	/** Slots of the inputs that are asked about. */
	readonly inputs: readonly number[];
	/** What lies between these and the slots of interest, in an order in which it can be run. */
	readonly slots: Int32Array;
	/** What is read of the run it starts from. */
	readonly reads: Int32Array;
}

/**
 * What asking “what if” of some inputs comes to. Finding it costs what the inputs reach, and no more.
 * @param wanted the slots of interest
 */
export function questionOf(
	graph: Graph,
	inputs: readonly number[],
	wanted: readonly number[],
): Question {
	const asked = new Set(inputs);
	const reached = linked(graph, inputs, 'feeds');
	const onTheWay = linkedAmong(
		graph,
		wanted,
		'needs',
		(slot) => reached.has(slot) && !asked.has(slot),
	);
	const { rank, nodes } = graph;
	const slots = Int32Array.from(onTheWay).sort((a, b) => (rank[a] as number) - (rank[b] as number));
	const reads = new Set(wanted);
	for (const slot of slots) for (const need of nodes[slot]?.needs ?? []) reads.add(need);
	return {
		inputs,
		slots,
		reads: Int32Array.from(reads).filter((slot) => !onTheWay.has(slot) && !asked.has(slot)),
	};
}
