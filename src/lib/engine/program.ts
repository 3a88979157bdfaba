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

/** For each slot some others: those of slot s stand in `slots` from `starts[s]` to `starts[s + 1]`. */
export interface Links {
	readonly starts: Int32Array;
	readonly slots: Int32Array;
}

export interface Program {
	readonly graph: Graph;
	readonly work: Work;
	/**
	 * By slot, where its operations start in the code; they end where those of the next one start. An input
	 * has none, nor has what has a mistake.
	 */
	readonly starts: Int32Array;
	/** What each slot reads; nothing for what is never run. */
	readonly needs: Links;
	/** What reads each slot, without what is never run. */
	readonly feeds: Links;
	/** Slots in an order in which they can be run. */
	readonly order: Int32Array;
	/** By slot, 1 for a quantity, which lives among the numbers. */
	readonly isNumber: Uint8Array;
	/** How the registers stand before anything has run: the constants in place. */
	readonly numbers: Float64Array;
	readonly values: readonly (Value | undefined)[];
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
	return starts[slot] !== starts[slot + 1];
}

function programFor(graph: Graph): Program {
	const { nodes, byId, functions } = graph;
	const names: Names = {
		slotOf: (name: string): number => (byId.get(name) as Node).slot,
		typeOf: (tree: Tree): Type => checkedType(tree, (name) => byId.get(name)?.type, functions),
		functions,
	};
	const compiler = new Compiler(names, nodes.length);
	const starts = new Int32Array(nodes.length + 1);
	for (const { slot, formula, broken } of nodes) {
		if (formula && broken === undefined) compiler.append(formula.tree, slot);
		starts[slot + 1] = compiler.length;
	}
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
		needs: linksOf(nodes, ({ needs, broken }) => (broken === undefined ? needs : [])),
		feeds: linksOf(nodes, ({ feeds }) => feeds.filter((slot) => nodes[slot]?.broken === undefined)),
		order: Int32Array.from(graph.order),
		isNumber: Uint8Array.from(nodes, ({ type }) => (type?.kind === 'quantity' ? 1 : 0)),
		numbers,
		values,
	};
}

function linksOf(nodes: readonly Node[], of: (node: Node) => readonly number[]): Links {
	const starts = new Int32Array(nodes.length + 1);
	for (const node of nodes) starts[node.slot + 1] = (starts[node.slot] as number) + of(node).length;
	const slots = new Int32Array(starts[nodes.length] ?? 0);
	for (const node of nodes) slots.set(of(node), starts[node.slot]);
	return { starts, slots };
}
