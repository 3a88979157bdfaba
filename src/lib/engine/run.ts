/**
 * Running a graph. A run holds for every slot a plain value in SI, or why it has none. Sweeps, options, ±,
 * solve and search are all one act: override some inputs, run the nodes they reach.
 */
import { OutOfRange } from '../mechanics/out-of-range.ts';
import type { Graph, Node } from '../language/graph.ts';
import type { Value } from '../language/types.ts';
import { operate } from './operations.ts';
import { programOf, type Program } from './program.ts';
import { questionOf, reachOf, type Question } from './reach.ts';

/** Why a slot has no value. */
export interface Failure {
	readonly why: 'not entered' | 'out of range' | 'mistake on the page';
	readonly message: string;
	/** Where it began: for a figure that waits for entries, the ids of those. */
	readonly from: readonly string[];
}

/** What is entered for each input by name; a missing one is not entered. */
export type Inputs = ReadonlyMap<string, Value>;

/** How a slot stands. A figure stands as the worst of what it needs: the larger number. */
const hasValue = 0;
const waits = 1;
const failed = 2;
/** Left for later: it is worked out when it is asked for. */
const later = 3;

/**
 * The state of a run. A slot has a value or a failure, never both, never neither. Two runs of one graph
 * with the same inputs hold the same values to the last bit, however they came about.
 *
 * While it runs, a slot that fails only notes that it does; why is found when somebody asks.
 */
export class Run {
	readonly graph: Graph;
	readonly #program: Program;
	readonly #numbers: Float64Array;
	readonly #values: (Value | undefined)[];
	readonly #states: Uint8Array;
	/** Failures where they began, or the run that a slot was taken over from and that knows why. */
	readonly #own: (Failure | Run | undefined)[];
	/** What was answered about failures since something last changed. */
	readonly #told = new Map<number, Failure>();

	/** As another run stands; else with nothing entered, and all that can be run left for later. */
	constructor(graph: Graph, like?: Run) {
		const program = programOf(graph);
		this.graph = graph;
		this.#program = program;
		this.#numbers = (like ? like.#numbers : program.numbers).slice();
		this.#values = (like ? like.#values : program.values).slice();
		this.#states = like ? like.#states.slice() : Uint8Array.from(graph.nodes, stateAtFirst);
		this.#own = like ? like.#own.slice() : graph.nodes.map(mistakeOf);
	}

	/** The value of a slot, SI; undefined where it has none. */
	value(slot: number): Value | undefined {
		if (this.#stateOf(slot) !== hasValue) return undefined;
		return this.#program.isNumber[slot] ? this.#numbers[slot] : this.#values[slot];
	}

	/** The value of a slot that is a quantity, SI; undefined for anything else. */
	number(slot: number): number | undefined {
		const there = this.#program.isNumber[slot] === 1 && this.#stateOf(slot) === hasValue;
		return there ? this.#numbers[slot] : undefined;
	}

	/** Whether a slot has no value. */
	fails(slot: number): boolean {
		return this.#stateOf(slot) !== hasValue;
	}

	/** Why a slot has no value. */
	failure(slot: number): Failure | undefined {
		if (!this.fails(slot)) return undefined;
		let failure = this.#told.get(slot);
		if (!failure) this.#told.set(slot, (failure = this.#explain(slot)));
		return failure;
	}

	/** What was told of failures may hold no longer. */
	#forget(): void {
		// Emptying an empty map costs as much as a formula.
		if (this.#told.size > 0) this.#told.clear();
	}

	#stateOf(slot: number): number {
		if (this.#states[slot] === later) this.settle([slot]);
		return this.#states[slot] as number;
	}

	/** The first failure among what it needs, as far back as it goes; else all missing entries together. */
	#explain(slot: number): Failure {
		let at: number | undefined = slot;
		while (at !== undefined && this.#states[at] === failed) {
			const own: Failure | Run | undefined = this.#own[at];
			const failure: Failure | undefined = own instanceof Run ? own.failure(at) : own;
			if (failure) return failure;
			at = this.graph.nodes[at]?.needs.find((need) => this.#states[need] === failed);
		}
		return notEntered(this.graph, this.#missing(slot));
	}

	/** Ids of the entries a slot waits for, in the order they are met. */
	#missing(slot: number): string[] {
		const seen = new Set<number>();
		const missing = new Set<string>();
		const left = [slot];
		for (let at = left.pop(); at !== undefined; at = left.pop()) {
			if (seen.has(at) || this.#states[at] !== waits) continue;
			seen.add(at);
			const own = this.#own[at];
			const node = this.graph.nodes[at] as Node;
			if (own instanceof Run) for (const id of own.failure(at)?.from ?? []) missing.add(id);
			else if (node.input) missing.add(node.id);
			else left.push(...[...node.needs].reverse());
		}
		return [...missing];
	}

	/** Puts a value, or nothing, into an input's slot. */
	enter(slot: number, value: Value | undefined): void {
		this.#forget();
		if (this.graph.nodes[slot]?.broken !== undefined) return;
		this.#own[slot] = undefined;
		this.#states[slot] = value === undefined ? waits : hasValue;
		if (this.#program.isNumber[slot]) this.#numbers[slot] = (value ?? NaN) as number;
		else this.#values[slot] = value;
	}

	/** Takes slots over as they stand in another run of the same graph. */
	takeOver(from: Run, slots: Int32Array): void {
		this.#forget();
		from.settle(slots);
		for (const slot of slots) {
			const state = from.#states[slot] as number;
			this.#states[slot] = state;
			this.#numbers[slot] = from.#numbers[slot] as number;
			this.#values[slot] = from.#values[slot];
			this.#own[slot] = state === hasValue ? undefined : from;
		}
	}

	/** Runs slots one after another; what they need stands before them, or has been run. */
	run(slots: Int32Array): void {
		this.#forget();
		const { needs, starts } = this.#program;
		const states = this.#states;
		for (const slot of slots) {
			const from = starts[slot] as number;
			const to = starts[slot + 1] as number;
			if (from === to) continue;
			let state = hasValue;
			const end = needs.starts[slot + 1] as number;
			for (let index = needs.starts[slot] as number; index < end; index++) {
				const need = states[needs.slots[index] as number] as number;
				if (need > state) state = need;
			}
			if (state !== hasValue) this.#own[slot] = undefined;
			else if (!this.#worksOut(slot, from, to)) state = failed;
			states[slot] = state;
		}
	}

	/** Runs one slot's operations; false where that gives no value. */
	#worksOut(slot: number, from: number, to: number): boolean {
		try {
			operate(this.#program.work, from, to, this.#numbers, this.#values);
		} catch (cause) {
			if (!(cause instanceof OutOfRange)) throw cause;
			this.#own[slot] = outOfRange(this.graph.nodes[slot] as Node, cause.message);
			return false;
		}
		// What is no quantity has nought among the numbers.
		if (Number.isFinite(this.#numbers[slot])) return true;
		this.#own[slot] = notFinite(this.graph.nodes[slot] as Node);
		return false;
	}

	/** Leaves slots for later. */
	postpone(slots: Int32Array): void {
		this.#forget();
		for (const slot of slots) this.#states[slot] = later;
	}

	/** Runs those of these slots that were left for later, and what they need. */
	settle(slots: Iterable<number>): void {
		const seen = new Set<number>();
		for (const slot of slots) if (this.#states[slot] === later) seen.add(slot);
		if (seen.size === 0) return;
		const { needs, order } = this.#program;
		for (const slot of seen) {
			const end = needs.starts[slot + 1] as number;
			for (let index = needs.starts[slot] as number; index < end; index++) {
				const need = needs.slots[index] as number;
				if (this.#states[need] === later) seen.add(need);
			}
		}
		const ranks = Int32Array.from(seen, (slot) => this.graph.rank[slot] as number).sort();
		this.run(ranks.map((rank) => order[rank] as number));
	}
}

function stateAtFirst({ input, broken }: Node): number {
	if (broken !== undefined) return failed;
	return input ? waits : later;
}

function mistakeOf({ id, broken }: Node): Failure | undefined {
	return broken === undefined
		? undefined
		: { why: 'mistake on the page', message: broken, from: [id] };
}

function outOfRange({ id }: Node, message: string): Failure {
	return { why: 'out of range', message, from: [id] };
}

function notFinite(node: Node): Failure {
	return outOfRange(
		node,
		`${node.label || node.id} comes out as no finite number: something is divided by nothing, or an angle has no such sine. Check the entries it comes from.`,
	);
}

function notEntered({ byId }: Graph, from: readonly string[]): Failure {
	const labels = from.map((id) => byId.get(id)?.label ?? id);
	return {
		why: 'not entered',
		message:
			labels.length === 1
				? `${labels[0]} is not entered yet.`
				: `These are not entered yet: ${labels.join(', ')}.`,
		from,
	};
}

/** Runs everything once, in order. */
export function runAll(graph: Graph, inputs: Inputs): Run {
	const run = new Run(graph);
	for (const { input, slot, id } of graph.nodes) if (input) run.enter(slot, inputs.get(id));
	run.run(programOf(graph).order);
	return run;
}

/** Entries to change: names of inputs and their new value, undefined for none. */
export type Changed = ReadonlyMap<string, Value | undefined>;

/**
 * Changes some entries in place and runs only what they reach, each node once.
 * @returns the nodes that were run
 */
export function rerun(graph: Graph, run: Run, changed: Changed): readonly Node[] {
	const reach = reachOf(programOf(graph), enterAll(graph, run, changed));
	run.run(reach.slots);
	return reach.nodes;
}

/**
 * A copy of a run with some entries changed. Nothing is run yet: each figure is worked out when it is asked
 * for, so that what nobody looks at costs nothing.
 */
export function otherwise(graph: Graph, base: Run, changed: Changed): Run {
	const run = new Run(graph, base);
	run.postpone(reachOf(programOf(graph), enterAll(graph, run, changed)).slots);
	return run;
}

/** Puts entries into their slots, which it gives back; what is no input is passed by. */
function enterAll({ byId }: Graph, run: Run, changed: Changed): number[] {
	const slots: number[] = [];
	for (const [name, value] of changed) {
		const node = byId.get(name);
		if (!node?.input) continue;
		run.enter(node.slot, value);
		slots.push(node.slot);
	}
	return slots;
}

/** For each graph one run to ask questions on, and for whom it is made ready. */
const scratches = new WeakMap<Graph, { readonly run: Run; readyFor?: object }>();

/**
 * A way to ask “what if”: overrides some inputs and runs what lies between them and the slots wanted, again
 * and again. The run it starts from stays as it is, and has to while it is asked about. An answer holds at
 * the inputs and the slots wanted, and until the next question about this graph.
 * @param inputs the slots that will be overridden
 * @param wanted the slots whose values are of interest
 */
export function whatIf(
	graph: Graph,
	base: Run,
	inputs: readonly number[],
	wanted: readonly number[],
): (values: readonly Value[]) => Run {
	return asking(graph, base, questionOf(graph, inputs, wanted));
}

/** The same for a question that is kept, for a caller who asks the same again of every run. */
export function asking(
	graph: Graph,
	base: Run,
	{ inputs, slots, reads }: Question,
): (values: readonly Value[]) => Run {
	let scratch = scratches.get(graph);
	if (!scratch || scratch.run === base) {
		scratches.set(graph, (scratch = { run: new Run(graph) }));
	}
	const onScratch = scratch;
	const question = {};
	return (values) => {
		const { run } = onScratch;
		if (onScratch.readyFor !== question) {
			run.takeOver(base, reads);
			onScratch.readyFor = question;
		}
		for (let index = 0; index < inputs.length; index++) {
			run.enter(inputs[index] as number, values[index]);
		}
		run.run(slots);
		return run;
	};
}
