/**
 * A graph as it runs: its formulas as operations, and who needs whom, in flat lists. The graph itself is
 * plain data, which can be kept and sent; its program is made once, when it is first run.
 */
import type { Graph, Node } from '../language/graph.ts';
import type { Tree } from '../language/tree.ts';
import { checkedType } from '../language/tree-type.ts';
import type { Type, Value } from '../language/types.ts';
import { Compiler, type Names } from './compile.ts';
import type { Work } from './operations.ts';
import type { Reach } from './reach.ts';

/** For each place some others: those of place p stand in `places` from `starts[p]` to `starts[p + 1]`. */
export interface Links {
	readonly starts: Int32Array;
	readonly places: Int32Array;
}

/**
 * Everything in it goes by place: where a node stands in the graph's order. Whoever runs places from low to
 * high runs each after all it needs, and reads memory from front to back.
 */
export interface Program {
	readonly graph: Graph;
	readonly work: Work;
	/**
	 * Where the operations of each place start in the code; they end where those of the next one start. An
	 * input has none, nor has what has a mistake.
	 */
	readonly starts: Int32Array;
	/** What each place reads; nothing for what is never run. */
	readonly needs: Links;
	/** What reads each place, without what is never run. */
	readonly feeds: Links;
	/** Every place, from first to last. */
	readonly all: Int32Array;
	/** By place, 1 for a quantity, which lives among the numbers. */
	readonly isNumber: Uint8Array;
	/** How the registers stand before anything has run: the constants in place. */
	readonly numbers: Float64Array;
	readonly values: readonly (Value | undefined)[];
	/** What the inputs that were changed last reach, the latest first. */
	readonly reaches: Reach[];
}

const programs = new WeakMap<Graph, Program>();

/** The program of a graph. */
export function programOf(graph: Graph): Program {
	let program = programs.get(graph);
	if (!program) {
		program = programFor(graph);
		programs.set(graph, program);
	}
	return program;
}

/** Whether a slot has a formula that can be run. */
export function canRun(graph: Graph, slot: number): boolean {
	const { starts } = programOf(graph);
	const place = graph.rank[slot] as number;
	return starts[place] !== starts[place + 1];
}

function programFor(graph: Graph): Program {
	const { order, rank, byId, functions } = graph;
	const nodes = order.map((slot) => graph.nodes[slot] as Node);
	const names: Names = {
		registerOf: (name: string): number => rank[(byId.get(name) as Node).slot] as number,
		typeOf: (tree: Tree): Type => checkedType(tree, (name) => byId.get(name)?.type, functions),
		functions,
	};
	const compiler = new Compiler(names, nodes.length);
	const starts = new Int32Array(nodes.length + 1);
	for (const [place, { formula, broken }] of nodes.entries()) {
		if (formula && broken === undefined) compiler.append(formula.tree, place);
		starts[place + 1] = compiler.length;
	}
	const linksOf = (of: (node: Node) => readonly number[]): Links => {
		const lists = nodes.map((node) => of(node).map((slot) => rank[slot] as number));
		const ends = new Int32Array(nodes.length + 1);
		lists.forEach((list, place) => (ends[place + 1] = (ends[place] as number) + list.length));
		return { starts: ends, places: Int32Array.from(lists.flat()) };
	};
	const numbers = new Float64Array(compiler.registers);
	const values = Array.from({ length: compiler.registers }, (): Value | undefined => undefined);
	for (const [value, register] of compiler.constants) {
		if (typeof value === 'number') numbers[register] = value;
		else values[register] = value;
	}
	return {
		graph,
		work: compiler.work,
		starts,
		needs: linksOf(({ needs, broken }) => (broken === undefined ? needs : [])),
		feeds: linksOf(({ feeds }) => feeds.filter((slot) => graph.nodes[slot]?.broken === undefined)),
		all: Int32Array.from(nodes.keys()),
		isNumber: Uint8Array.from(nodes, ({ type }) => (type?.kind === 'quantity' ? 1 : 0)),
		numbers,
		values,
		reaches: [],
	};
}
