/**
 * How a job stands on one graph: every input as it is read, and the run. Both are changed in place, for an
 * edit touches few of many; what was touched is stamped, so that what costs something to work out is worked
 * out again only when something behind it was touched.
 */
import { rerun, runAll, type Run } from '../engine/run.ts';
import { inputsOf, readingOf, readingsOf, type Reading } from '../job/reading.ts';
import type { Job } from '../job/job.ts';
import type { Graph } from '../language/graph.ts';
import type { Value } from '../language/types.ts';

/** Readings by the name of their input. */
export type Readings = ReadonlyMap<string, Reading>;

/** Reads a signal for no more than that what is worked out here follows it. */
export const hangOn = (signal: unknown): unknown => signal;

export class LiveRun {
	readonly graph: Graph;
	/** Changed in place: whoever reads it has read `touched` or a stamp before. */
	readonly run: Run;
	readonly #readings: Map<string, Reading>;
	#readAgain = $state(0);
	/** Counts the changes of the run. */
	touched = $state(0);
	/** Counts the changes of what the ± of figures come from. */
	sureTouched = $state(0);
	/** By slot: which change touched it last. */
	readonly #stamps: number[];

	constructor(graph: Graph, job: Job) {
		this.graph = graph;
		this.#readings = readingsOf(graph, job);
		this.run = runAll(graph, inputsOf(this.#readings));
		this.#stamps = graph.nodes.map(() => 0);
	}

	/** How an input stands; undefined for a name that no input has. */
	reading(name: string): Reading | undefined {
		hangOn(this.#readAgain);
		return this.#readings.get(name);
	}

	/** Which change touched any of these slots last: another number as soon as one of them may have moved. */
	lastTouch(slots: Iterable<number>): number {
		hangOn(this.touched);
		let last = 0;
		for (const slot of slots) last = Math.max(last, this.#stamps[slot] ?? 0);
		return last;
	}

	/**
	 * Brings readings and run in line with another state of the job, running only what is reached.
	 * @param known readings that were made already, when it was typed
	 */
	follow(before: Job, job: Job, known?: Readings): void {
		const changed = new Map<string, Value | undefined>();
		let read = false;
		let otherwiseSure = false;
		for (const node of this.graph.nodes) {
			if (!node.input) continue;
			if (job.entries[node.id] === before.entries[node.id] && job.system === before.system) {
				continue;
			}
			const reading = known?.get(node.id) ?? readingOf(node.input, job);
			const was = this.#readings.get(node.id);
			if (was?.value !== reading.value) changed.set(node.id, reading.value);
			if (was?.plusMinus !== reading.plusMinus) otherwiseSure = true;
			this.#readings.set(node.id, reading);
			read = true;
		}
		if (read) this.#readAgain++;
		if (changed.size > 0) this.#runAgain(changed);
		if (changed.size > 0 || otherwiseSure) this.sureTouched++;
	}

	#runAgain(changed: ReadonlyMap<string, Value | undefined>): void {
		const touch = this.touched + 1;
		for (const { slot } of rerun(this.graph, this.run, changed)) this.#stamps[slot] = touch;
		for (const name of changed.keys()) {
			const slot = this.graph.byId.get(name)?.slot;
			if (slot !== undefined) this.#stamps[slot] = touch;
		}
		this.touched = touch;
	}
}
