/**
 * How a job stands on one graph: every input as it is read, and the run. Both are changed in place, for an
 * edit touches few of many; what was touched is stamped, so that whoever shows a figure looks again only when
 * that was touched, and what costs something to work out is worked out again only when something behind it was.
 */
import { rerun, runAll, type Failure, type Run } from '../engine/run.ts';
import { inputsOf, readingOf, readingsOf, type Reading } from '../job/reading.ts';
import type { Job } from '../job/job.ts';
import type { Graph, Node } from '../language/graph.ts';
import type { InputCell } from '../language/kinds/input.ts';
import type { Value } from '../language/types.ts';

/** Readings by the name of their input. */
export type Readings = ReadonlyMap<string, Reading>;

/** Reads a signal for no more than that what is worked out here follows it. */
export const hangOn = (signal: unknown): unknown => signal;

/** Which change touched a slot last, for those who follow that slot alone. */
class Stamp {
	at = $state(0);
}

export class LiveRun {
	readonly graph: Graph;
	/** Changed in place: whoever reads it has read `touched` or a stamp before. */
	readonly run: Run;
	readonly #readings: Map<string, Reading>;
	readonly #inputs: readonly { readonly node: Node; readonly input: InputCell }[];
	/** Counts how often inputs were read again. */
	readAgain = $state(0);
	/** Counts the changes of the run. */
	touched = $state(0);
	/** Counts the changes of what the ± of figures come from. */
	sureTouched = $state(0);
	/** By slot: which change touched its value or failure last; and the same for those who follow it alone. */
	readonly #touches: number[];
	readonly #stamps: readonly Stamp[];
	/** By slot: when its input was read again, for those who follow that alone. */
	readonly #readStamps: readonly Stamp[];
	/** By slot: which change of what a ± comes from touched it last; a ± or a standing alone stamps no more than its input. */
	readonly #sureTouches: number[];

	constructor(graph: Graph, job: Job) {
		this.graph = graph;
		this.#inputs = graph.nodes.flatMap((node) => (node.input ? [{ node, input: node.input }] : []));
		this.#readings = readingsOf(graph, job);
		this.run = runAll(graph, inputsOf(this.#readings));
		this.#touches = graph.nodes.map(() => 0);
		this.#stamps = graph.nodes.map(() => new Stamp());
		this.#readStamps = graph.nodes.map(() => new Stamp());
		this.#sureTouches = graph.nodes.map(() => 0);
	}

	/** How an input stands; undefined for a name that no input has. Whoever reads it follows that input alone. */
	reading(name: string): Reading | undefined {
		const slot = this.graph.byId.get(name)?.slot;
		if (slot !== undefined) hangOn(this.#readStamps[slot]?.at);
		return this.#readings.get(name);
	}

	/** The value of a slot. Whoever reads it follows that slot alone. */
	value(slot: number): Value | undefined {
		hangOn(this.#stamps[slot]?.at);
		return this.run.value(slot);
	}

	/** Why a slot has no value. Whoever reads it follows that slot alone. */
	failure(slot: number): Failure | undefined {
		hangOn(this.#stamps[slot]?.at);
		return this.run.failure(slot);
	}

	/** Which change touched any of these slots last: another number as soon as one of them may have moved. */
	lastTouch(slots: Iterable<number>): number {
		hangOn(this.touched);
		return lastOf(this.#touches, slots);
	}

	/** Which change of what a ± comes from touched any of these slots last. */
	lastSureTouch(slots: Iterable<number>): number {
		hangOn(this.sureTouched);
		return lastOf(this.#sureTouches, slots);
	}

	/**
	 * Brings readings and run in line with another state of the job, running only what is reached.
	 * @param known readings that were made already, when it was typed
	 */
	follow(before: Job, job: Job, known?: Readings): void {
		const changed = new Map<string, Value | undefined>();
		const read: number[] = [];
		const otherwiseSure: number[] = [];
		for (const { node, input } of this.#inputs) {
			if (job.entries[node.id] === before.entries[node.id] && job.system === before.system) {
				continue;
			}
			const reading = known?.get(node.id) ?? readingOf(input, job);
			const was = this.#readings.get(node.id);
			if (was?.value !== reading.value) changed.set(node.id, reading.value);
			// What is only assumed has another ± than what was measured.
			if (was?.plusMinus !== reading.plusMinus || was?.standing !== reading.standing) {
				otherwiseSure.push(node.slot);
			}
			this.#readings.set(node.id, reading);
			read.push(node.slot);
		}
		if (read.length > 0) this.readAgain++;
		for (const slot of read) again(this.#readStamps[slot], this.readAgain);
		const reached = changed.size > 0 ? this.#runAgain(changed) : [];
		if (reached.length === 0 && otherwiseSure.length === 0) return;
		const touch = this.sureTouched + 1;
		for (const slot of [...reached, ...otherwiseSure]) this.#sureTouches[slot] = touch;
		this.sureTouched = touch;
	}

	/** @returns the slots that were touched */
	#runAgain(changed: ReadonlyMap<string, Value | undefined>): number[] {
		const inputs = [...changed.keys()].flatMap((name) => this.graph.byId.get(name)?.slot ?? []);
		const reached = rerun(this.graph, this.run, changed).map(({ slot }) => slot);
		const slots = [...inputs, ...reached];
		const touch = this.touched + 1;
		for (const slot of slots) {
			this.#touches[slot] = touch;
			again(this.#stamps[slot], touch);
		}
		this.touched = touch;
		return slots;
	}
}

function again(stamp: Stamp | undefined, at: number): void {
	if (stamp) stamp.at = at;
}

function lastOf(touches: readonly number[], slots: Iterable<number>): number {
	let last = 0;
	for (const slot of slots) last = Math.max(last, touches[slot] ?? 0);
	return last;
}
