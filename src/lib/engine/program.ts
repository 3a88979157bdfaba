/**
 * A graph as it runs: a closure for each formula. The graph itself is plain data, which can be kept and sent;
 * closures are made from it once, when it is first run.
 */
import type { Graph, Node } from '../language/graph.ts';
import type { Tree } from '../language/tree.ts';
import { checkedType } from '../language/tree-type.ts';
import type { Type } from '../language/types.ts';
import { compile, type Runnable } from './compile.ts';

export interface Program {
	/** By slot; undefined for an input, and for what has a mistake. */
	readonly code: readonly (Runnable | undefined)[];
}

const programs = new WeakMap<Graph, Program>();

/** The program of a graph. */
export function programOf(graph: Graph): Program {
	let program = programs.get(graph);
	if (!program) {
		program = compileGraph(graph);
		programs.set(graph, program);
	}
	return program;
}

/** Runs a graph by another program from now on, such as one that counts. */
export function runBy(graph: Graph, program: Program): void {
	programs.set(graph, program);
}

function compileGraph({ nodes, byId, functions }: Graph): Program {
	const names = {
		slotOf: (name: string): number => (byId.get(name) as Node).slot,
		typeOf: (tree: Tree): Type => checkedType(tree, (name) => byId.get(name)?.type, functions),
		functions,
	};
	const code = nodes.map(({ formula, broken }) =>
		formula && broken === undefined ? compile(formula.tree, names) : undefined,
	);
	return { code };
}
