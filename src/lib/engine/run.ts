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
/** Left for later, and asked for now. */
const wanted = 4;

/**
 * The state of a run. A slot has a value or a failure, never both, never neither. Two runs of one graph
 * with the same inputs hold the same values to the last bit, however they came about.
 *
 * It is asked by slot, and goes by place within, as its program does. While it runs, a place that fails
 * only notes that it does; why is found when somebody asks.
 */
export class Run {
	readonly graph: Graph;
	readonly program: Program;
	readonly #numbers: Float64Array;
	readonly #values: (Value | undefined)[];
	readonly #states: Uint8Array;
	/** Failures where they began, or the run that a place was taken over from and that knows why. */
	readonly #own: (Failure | Run | undefined)[];
	/** By place, 1 for an input with a value of its own: it no longer follows what it starts as. */
	readonly #entered: Uint8Array;
	/** What was told of failures since something last changed, by slot. */
	readonly #told = new Map<number, Failure>();

	/** As another run stands; else with nothing entered, and all that can be run left for later. */
	constructor(graph: Graph, like?: Run) {
		const program = programOf(graph);
		const nodes = like ? [] : graph.order.map((slot) => graph.nodes[slot] as Node);
		this.graph = graph;
		this.program = program;
		this.#numbers = (like ? like.#numbers : program.numbers).slice();
		this.#values = (like ? like.#values : program.values).slice();
		this.#states = like ? like.#states.slice() : Uint8Array.from(nodes, stateAtFirst);
		this.#own = like ? like.#own.slice() : nodes.map(mistakeOf);
		this.#entered = like ? like.#entered.slice() : new Uint8Array(graph.nodes.length);
	}

	/** The value of a slot, SI; undefined where it has none. */
	value(slot: number): Value | undefined {
		if (this.fails(slot)) return undefined;
		const place = this.#placeOf(slot);
		return this.program.isNumber[place] ? this.#numbers[place] : this.#values[place];
	}

	/** The value of a slot that is a quantity, SI; undefined for anything else. */
	number(slot: number): number | undefined {
		return this.program.isNumber[this.#placeOf(slot)]
			? (this.value(slot) as number | undefined)
			: undefined;
	}

	/**
	 * The values of slots that are quantities, SI, in their order; NaN where there is none.
	 * @param found a list to write them into
	 */
	numbers(
		slots: readonly number[],
		found: Float64Array = new Float64Array(slots.length),
	): Float64Array {
		for (let index = 0; index < slots.length; index++) {
			const slot = slots[index] as number;
			found[index] = this.fails(slot) ? NaN : (this.#numbers[this.#placeOf(slot)] as number);
		}
		return found;
	}

	/** Whether a slot has no value. */
	fails(slot: number): boolean {
		const place = this.#placeOf(slot);
		if (this.#states[place] === later) this.#settle(place);
		return this.#states[place] !== hasValue;
	}

	/** Why a slot has no value. */
	failure(slot: number): Failure | undefined {
		if (!this.fails(slot)) return undefined;
		let failure = this.#told.get(slot);
		if (!failure) this.#told.set(slot, (failure = this.#explain(this.#placeOf(slot))));
		return failure;
	}

	#placeOf(slot: number): number {
		return this.graph.rank[slot] as number;
	}

	#needsOf(place: number): Int32Array {
		const { starts, places } = this.program.needs;
		return places.subarray(starts[place], starts[place + 1]);
	}

	/** The first failure among what it needs, as far back as it goes; else all missing entries together. */
	#explain(place: number): Failure {
		let at: number | undefined = place;
		while (at !== undefined && this.#states[at] === failed) {
			const own: Failure | Run | undefined = this.#own[at];
			const failure: Failure | undefined =
				own instanceof Run ? own.failure(this.graph.order[at] as number) : own;
			if (failure) return failure;
			at = this.#needsOf(at).find((need) => this.#states[need] === failed);
		}
		return notEntered(this.graph, this.#missing(place));
	}

	/** Ids of the entries a place waits for, in the order they are met. */
	#missing(place: number): string[] {
		const { nodes, order } = this.graph;
		const seen = new Set<number>();
		const missing = new Set<string>();
		const left = [place];
		for (let at = left.pop(); at !== undefined; at = left.pop()) {
			if (seen.has(at) || this.#states[at] !== waits) continue;
			seen.add(at);
			const own = this.#own[at];
			const slot = order[at] as number;
			const node = nodes[slot] as Node;
			if (own instanceof Run) for (const id of own.failure(slot)?.from ?? []) missing.add(id);
			else if (!node.formula) missing.add(node.id);
			else left.push(...this.#needsOf(at).toReversed());
		}
		return [...missing];
	}

	/** What was told of failures may hold no longer. */
	#forget(): void {
		// Emptying an empty map costs as much as a formula.
		if (this.#told.size > 0) this.#told.clear();
	}

	/** Puts a value, or nothing, into an input's slot. With nothing it follows what it starts as, if anything. */
	enter(slot: number, value: Value | undefined): void {
		this.#forget();
		if (this.graph.nodes[slot]?.broken !== undefined) return;
		const place = this.#placeOf(slot);
		this.#own[place] = undefined;
		this.#states[place] = value === undefined ? waits : hasValue;
		this.#entered[place] = value === undefined ? 0 : 1;
		if (this.program.isNumber[place]) this.#numbers[place] = (value ?? NaN) as number;
		else this.#values[place] = value;
		if (value === undefined) this.run(Int32Array.of(place));
	}

	/** Whether an input has a value of its own. */
	isEntered(slot: number): boolean {
		return this.#entered[this.#placeOf(slot)] === 1;
	}

	/** Whether an input has this value of its own, or with undefined none. */
	hasEntered(slot: number, value: Value | undefined): boolean {
		return value === undefined
			? !this.isEntered(slot)
			: this.isEntered(slot) && Object.is(this.value(slot), value);
	}

	/** Whether an input has the value of another name, for nothing is entered. */
	follows(slot: number): boolean {
		return this.graph.nodes[slot]?.formula !== undefined && !this.isEntered(slot);
	}

	/** Takes places over as they stand in another run of the same graph. */
	takeOver(from: Run, places: Int32Array): void {
		this.#forget();
		const { isNumber } = this.program;
		for (let index = 0; index < places.length; index++) {
			const place = places[index] as number;
			if (from.#states[place] === later) from.#settle(place);
			const state = from.#states[place] as number;
			this.#states[place] = state;
			this.#entered[place] = from.#entered[place] as number;
			if (isNumber[place]) this.#numbers[place] = from.#numbers[place] as number;
			else this.#values[place] = from.#values[place];
			if (state !== hasValue) this.#own[place] = from;
			else if (this.#own[place]) this.#own[place] = undefined;
		}
	}

	/** Whether all of some places have a value; what is left for later has none yet. */
	haveValues(places: Int32Array): boolean {
		for (let index = 0; index < places.length; index++) {
			if (this.#states[places[index] as number] !== hasValue) return false;
		}
		return true;
	}

	/** Runs places from low to high; what they need stands as it is to be. */
	run(places: Int32Array): void {
		this.#forget();
		const { starts, needs } = this.program;
		const states = this.#states;
		for (let index = 0; index < places.length; index++) {
			const place = places[index] as number;
			const from = starts[place] as number;
			const to = starts[place + 1] as number;
			if (from === to || this.#entered[place]) continue;
			let state = hasValue;
			const end = needs.starts[place + 1] as number;
			for (let need = needs.starts[place] as number; need < end; need++) {
				state = Math.max(state, states[needs.places[need] as number] as number);
			}
			if (state !== hasValue) this.#own[place] = undefined;
			else if (!this.#worksOut(place, from, to)) state = failed;
			states[place] = state;
		}
	}

	/**
	 * Runs places, from low to high, where all they need beside one another has values. Nothing is looked at on
	 * the way, which costs more than most formulas do.
	 * @returns false where one of them comes to no value: then they have to be run with care
	 */
	runBlindly(places: Int32Array): boolean {
		this.#forget();
		const { starts, work } = this.program;
		const numbers = this.#numbers;
		try {
			for (let index = 0; index < places.length; index++) {
				const place = places[index] as number;
				operate(work, starts[place] as number, starts[place + 1] as number, numbers, this.#values);
			}
		} catch (cause) {
			if (cause instanceof OutOfRange) return false;
			throw cause;
		}
		for (let index = 0; index < places.length; index++) {
			const place = places[index] as number;
			if (!Number.isFinite(numbers[place])) return false;
			this.#states[place] = hasValue;
		}
		return true;
	}

	/** Runs the operations of one place; false where they give no value. */
	#worksOut(place: number, from: number, to: number): boolean {
		let why: string | undefined;
		try {
			operate(this.program.work, from, to, this.#numbers, this.#values);
			// What is no quantity has nought among the numbers.
			if (Number.isFinite(this.#numbers[place])) return true;
		} catch (cause) {
			if (!(cause instanceof OutOfRange)) throw cause;
			why = cause.message;
		}
		const node = this.graph.nodes[this.graph.order[place] as number] as Node;
		this.#own[place] = {
			why: 'out of range',
			message: why ?? notFinite(node),
			from: [node.id],
		};
		return false;
	}

	/** Leaves places for later. */
	postpone(places: Int32Array): void {
		this.#forget();
		for (let index = 0; index < places.length; index++) {
			const place = places[index] as number;
			if (!this.#entered[place]) this.#states[place] = later;
		}
	}

	/** Runs a place that was left for later, and what it needs of those. */
	#settle(place: number): void {
		const { starts, places } = this.program.needs;
		const states = this.#states;
		const left = [place];
		let [first, count, allHave] = [place, 0, true];
		states[place] = wanted;
		for (let at = left.pop(); at !== undefined; at = left.pop()) {
			count++;
			first = Math.min(first, at);
			const end = starts[at + 1] as number;
			for (let index = starts[at] as number; index < end; index++) {
				const need = places[index] as number;
				if (states[need] === later) {
					states[need] = wanted;
					left.push(need);
				} else if (states[need] !== wanted) allHave &&= states[need] === hasValue;
			}
		}
		const found = new Int32Array(count);
		for (let at = first, index = 0; index < count; at++) {
			if (states[at] === wanted) found[index++] = at;
		}
		if (!allHave || !this.runBlindly(found)) this.run(found);
	}
}

function stateAtFirst({ formula, broken }: Node): number {
	if (broken !== undefined) return failed;
	return formula ? later : waits;
}

function mistakeOf({ id, broken }: Node): Failure | undefined {
	return broken === undefined
		? undefined
		: { why: 'mistake on the page', message: broken, from: [id] };
}

function notFinite({ label, id }: Node): string {
	return `${label || id} comes out as no finite number: something is divided by nothing, or an angle has no such sine. Check the entries it comes from.`;
}

function notEntered({ byId }: Graph, from: readonly string[]): Failure {
	const labels = from.map((id) => byId.get(id)?.label ?? id);
	return {
		why: 'not entered',
		message:
			labels.length === 1
				? `${String(labels[0])} is not entered yet.`
				: `These are not entered yet: ${labels.join(', ')}.`,
		from,
	};
}

/** Runs everything once, in order. */
export function runAll(graph: Graph, inputs: Inputs): Run {
	const run = new Run(graph);
	for (const [id, value] of inputs) {
		const node = graph.byId.get(id);
		if (node?.input) run.enter(node.slot, value);
	}
	run.run(run.program.all);
	return run;
}

/** Entries to change: names of inputs and their new value, undefined for none. */
export type Changed =
	| ReadonlyMap<string, Value | undefined>
	| readonly (readonly [name: string, value: Value | undefined])[];

/**
 * Changes some entries in place and runs only what they reach, each node once.
 * @returns the nodes that were run
 */
export function rerun(graph: Graph, run: Run, changed: Changed): readonly Node[] {
	const reach = reachOf(run.program, enterAll(graph, run, changed));
	run.run(reach.places);
	return reach.nodes;
}

/**
 * A copy of a run with some entries changed. Nothing is run yet: each figure is worked out when it is asked
 * for, so that what nobody looks at costs nothing; and what hangs on none that is another stays as it is.
 */
export function otherwise(graph: Graph, base: Run, changed: Changed): Run {
	const run = new Run(graph, base);
	const others = [...changed].filter(([name, value]) => {
		const slot = graph.byId.get(name)?.slot;
		return slot !== undefined && !base.hasEntered(slot, value);
	});
	run.postpone(reachOf(run.program, enterAll(graph, run, others)).places);
	return run;
}

/** Puts entries into their slots, which it gives back; what is no input is passed by. */
function enterAll({ byId }: Graph, run: Run, changed: Changed): number[] {
	// By place, for going through one sort of list or another costs as much as a formula.
	const list = 'size' in changed ? [...changed] : changed;
	// A list that grows takes more room at first than an edit of one entry ever needs.
	const slots = new Array<number>(list.length);
	let count = 0;
	for (let index = 0; index < list.length; index++) {
		const each = list[index] as readonly [name: string, value: Value | undefined];
		const node = byId.get(each[0]);
		if (!node?.input) continue;
		run.enter(node.slot, each[1]);
		slots[count++] = node.slot;
	}
	if (count < list.length) slots.length = count;
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
	const question = questionOf(graph, inputs, wanted, (slot) => base.isEntered(slot));
	return asking(graph, base, question);
}

/** The same for a question that is kept, for a caller who asks it again of every run with the same entered. */
export function asking(
	graph: Graph,
	base: Run,
	{ inputs, places, reads }: Question,
): (values: readonly Value[]) => Run {
	let scratch = scratches.get(graph);
	if (!scratch || scratch.run === base) {
		scratches.set(graph, (scratch = { run: new Run(graph) }));
	}
	const onScratch = scratch;
	const question = {};
	/** As the last one went, the next one is likely to go. */
	let allHad = base.haveValues(places);
	return (values) => {
		const { run } = onScratch;
		if (onScratch.readyFor !== question) {
			run.takeOver(base, reads);
			onScratch.readyFor = question;
		}
		for (let index = 0; index < inputs.length; index++) {
			run.enter(inputs[index] as number, values[index]);
		}
		allHad &&= run.runBlindly(places);
		if (!allHad) {
			run.run(places);
			allHad = run.haveValues(places);
		}
		return run;
	};
}
