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
	/** Places from low to high, without those of the inputs themselves. */
	readonly places: Int32Array;
	/** The same as nodes. */
	readonly nodes: readonly Node[];
}

/** So many of a program are kept, for the next edit is most often to the same field. */
const kept = 16;

/** What some inputs reach. */
export function reachOf(program: Program, inputs: readonly number[]): Reach {
	const { reaches } = program;
	for (let index = 0; index < reaches.length; index++) {
		const known = reaches[index] as Reach;
		if (areSame(known.inputs, inputs)) return known;
	}
	const reach = newReach(program, inputs);
	reaches.unshift(reach);
	reaches.length = Math.min(reaches.length, kept);
	return reach;
}

function areSame(a: readonly number[], b: readonly number[]): boolean {
	if (a.length !== b.length) return false;
	for (let index = 0; index < a.length; index++) if (a[index] !== b[index]) return false;
	return true;
}

function newReach({ feeds, starts, graph }: Program, inputs: readonly number[]): Reach {
	const from = inputs.map((slot) => graph.rank[slot] as number);
	const seen = new Set(from);
	// A set goes on over what is added to it on the way.
	for (const place of seen) {
		const end = feeds.starts[place + 1] as number;
		for (let index = feeds.starts[place] as number; index < end; index++) {
			seen.add(feeds.places[index] as number);
		}
	}
	// One that starts as another may follow an input that is changed along with it.
	for (const place of from) if (starts[place] === starts[place + 1]) seen.delete(place);
	const places = Int32Array.from(seen).sort();
	const nodeAt = (place: number): Node => graph.nodes[graph.order[place] as number] as Node;
	return { inputs, places, nodes: Array.from(places, nodeAt) };
}

/** What asking “what if” comes to. */
export interface Question {
	/** Slots of the inputs that are asked about. */
	readonly inputs: readonly number[];
	/** Slots that lie between these and the slots of interest. */
	readonly between: ReadonlySet<number>;
	/** Their places from low to high. */
	readonly places: Int32Array;
	/**
	 * Places that are read of the run it starts from; and inputs that lie between, for nothing is entered
	 * there and they follow what they start as.
	 */
	readonly reads: Int32Array;
}

/**
 * What asking “what if” of some inputs comes to. Finding it costs what the inputs reach, and no more.
 * @param wanted the slots of interest
 * @param entered whether an input has a value of its own in the run it starts from: then it does not follow
 * what it starts as, and what hangs on it alone stays as it is
 */
export function questionOf(
	graph: Graph,
	inputs: readonly number[],
	wanted: readonly number[],
	entered: (slot: number) => boolean,
): Question {
	const asked = new Set(inputs);
	const moves = (slot: number): boolean => asked.has(slot) || !entered(slot);
	const reached = linkedAmong(graph, inputs, 'feeds', moves);
	const between = linkedAmong(
		graph,
		wanted,
		'needs',
		(slot) => reached.has(slot) && !asked.has(slot),
	);
	const { rank, nodes } = graph;
	const reads = new Set(wanted);
	for (const slot of between) for (const need of nodes[slot]?.needs ?? []) reads.add(need);
	const taken = [...reads].filter((slot) =>
		between.has(slot) ? nodes[slot]?.input : !asked.has(slot),
	);
	const placesOf = (slots: Iterable<number>): Int32Array =>
		Int32Array.from(slots, (slot) => rank[slot] as number).sort();
	return { inputs, between, places: placesOf(between), reads: placesOf(taken) };
}
