/**
 * Running a graph. A run is an array of slots with plain values in SI, and beside it why a slot has none.
 * Sweeps, options, ±, solve and search are all one act: copy the slots, override some inputs, run the
 * nodes they reach.
 */
import { OutOfRange } from '../mechanics/out-of-range.ts';
import { programOf } from './program.ts';
import type { Graph, Node } from '../language/graph.ts';
import type { Value } from '../language/types.ts';

/** Why a slot has no value. */
export interface Failure {
	readonly why: 'not entered' | 'out of range' | 'mistake on the page';
	readonly message: string;
	/** Where it began: for a figure that waits for entries, the ids of those. */
	readonly from: readonly string[];
}

/**
 * The state of a run. A slot has a value or a failure, never both, never neither. Two runs of one graph
 * with the same inputs hold the same values to the last bit, however they came about.
 */
export interface Run {
	readonly values: (Value | undefined)[];
	readonly failures: (Failure | undefined)[];
	/** Whether a value was given for an input. One that starts as another name follows it until then. */
	readonly entered: boolean[];
}

/** What is entered for each input by name; a missing one is not entered. */
export type Inputs = ReadonlyMap<string, Value>;

/** Runs everything once, in order. */
export function runAll(graph: Graph, inputs: Inputs): Run {
	const run: Run = {
		values: new Array<Value | undefined>(graph.nodes.length),
		failures: new Array<Failure | undefined>(graph.nodes.length),
		entered: new Array<boolean>(graph.nodes.length).fill(false),
	};
	for (const slot of graph.order) {
		const node = graph.nodes[slot] as Node;
		if (node.input) enter(graph, run, node, inputs.get(node.id));
		else runNode(graph, run, node);
	}
	return run;
}

/** Puts a value, or nothing, into an input's slot. Without one it follows what it starts as, if anything. */
function enter(graph: Graph, run: Run, node: Node, value: Value | undefined): void {
	run.entered[node.slot] = value !== undefined;
	const [source] = node.needs;
	if (value === undefined && source !== undefined && node.broken === undefined) {
		run.values[node.slot] = run.values[source];
		run.failures[node.slot] = run.failures[source];
		return;
	}
	run.values[node.slot] = value;
	run.failures[node.slot] =
		node.broken !== undefined
			? { why: 'mistake on the page', message: node.broken, from: [node.id] }
			: value === undefined
				? notEntered(graph, [node.id])
				: undefined;
}

function runNode(graph: Graph, run: Run, node: Node): void {
	const { slot } = node;
	if (node.input) {
		if (!run.entered[slot]) enter(graph, run, node, undefined);
		return;
	}
	let failure: Failure | undefined;
	let value: Value | undefined;
	if (node.broken !== undefined) {
		failure = { why: 'mistake on the page', message: node.broken, from: [node.id] };
	} else {
		failure = failureBefore(graph, run, node);
		if (!failure) {
			try {
				value = programOf(graph).code[slot]?.(run.values);
				failure = notFinite(node, value);
			} catch (cause) {
				if (!(cause instanceof OutOfRange)) throw cause;
				failure = { why: 'out of range', message: cause.message, from: [node.id] };
			}
		}
	}
	run.values[slot] = failure ? undefined : value;
	run.failures[slot] = failure;
}

/** The failure a node takes over from what it needs: all missing entries together, else the first. */
function failureBefore(graph: Graph, run: Run, node: Node): Failure | undefined {
	const missing: string[] = [];
	for (const need of node.needs) {
		const failure = run.failures[need];
		if (!failure) continue;
		if (failure.why !== 'not entered') return failure;
		for (const id of failure.from) if (!missing.includes(id)) missing.push(id);
	}
	return missing.length > 0 ? notEntered(graph, missing) : undefined;
}

function notEntered(graph: Graph, from: readonly string[]): Failure {
	const labels = from.map((id) => graph.byId.get(id)?.label ?? id);
	return {
		why: 'not entered',
		message:
			labels.length === 1
				? `${labels[0]} is not entered yet.`
				: `These are not entered yet: ${labels.join(', ')}.`,
		from,
	};
}

function notFinite(node: Node, value: Value | undefined): Failure | undefined {
	if (typeof value !== 'number' || Number.isFinite(value)) return undefined;
	return {
		why: 'out of range',
		message: `${node.label || node.id} comes out as no finite number: something is divided by nothing, or an angle has no such sine. Check the entries it comes from.`,
		from: [node.id],
	};
}

/** These slots and all that hang on them (feeds), or that they hang on (needs), near and far. */
export function linked(
	graph: Graph,
	from: readonly number[],
	links: 'feeds' | 'needs',
): ReadonlySet<number> {
	const seen = new Set(from);
	const left = [...from];
	for (let slot = left.pop(); slot !== undefined; slot = left.pop()) {
		for (const next of graph.nodes[slot]?.[links] ?? []) {
			if (!seen.has(next)) {
				seen.add(next);
				left.push(next);
			}
		}
	}
	return seen;
}

/** The nodes some inputs reach, in order; only those among some slots when these are given. */
function reached(
	graph: Graph,
	inputs: readonly number[],
	among?: ReadonlySet<number>,
): readonly Node[] {
	return [...linked(graph, inputs, 'feeds')]
		.filter((slot) => !inputs.includes(slot) && (!among || among.has(slot)))
		.sort((a, b) => (graph.rank[a] ?? 0) - (graph.rank[b] ?? 0))
		.map((slot) => graph.nodes[slot] as Node);
}

/**
 * Changes some entries in place and runs only what they reach, each node once.
 * @param changed names of inputs and their new value, undefined for none
 * @returns the nodes that were run
 */
export function rerun(
	graph: Graph,
	run: Run,
	changed: ReadonlyMap<string, Value | undefined>,
): readonly Node[] {
	const slots: number[] = [];
	for (const [name, value] of changed) {
		const node = graph.byId.get(name);
		if (!node?.input) continue;
		enter(graph, run, node, value);
		slots.push(node.slot);
	}
	const nodes = reached(graph, slots);
	for (const node of nodes) runNode(graph, run, node);
	return nodes;
}

/**
 * A way to ask “what if”: overrides some inputs on a copy of a run, again and again.
 * @param inputs the slots that will be overridden
 * @param wanted the slots whose values are of interest
 * @param leading all that lead to them, for a caller who asks about the same ones again and again
 */
export function whatIf(
	graph: Graph,
	base: Run,
	inputs: readonly number[],
	wanted: readonly number[],
	leading = linked(graph, wanted, 'needs'),
): (values: readonly Value[]) => Run {
	const nodes = reached(graph, inputs, leading);
	const run: Run = {
		values: [...base.values],
		failures: [...base.failures],
		entered: [...base.entered],
	};
	for (const slot of inputs) run.entered[slot] = true;
	return (values) => {
		inputs.forEach((slot, index) => {
			run.values[slot] = values[index];
			run.failures[slot] = undefined;
		});
		for (const node of nodes) runNode(graph, run, node);
		return run;
	};
}
