/**
 * What an answer rests on, so that it is not looked for again while that stands: a sweep, a solve, a column
 * of a comparison, anything that asks “what if”. It is asked after each edit and costs a comparison a slot,
 * where asking again costs runs.
 *
 * A caller keeps the footing beside the answer:
 *
 *     if (!kept?.footing.stands(run)) kept = { footing: new Footing(run, slots), answer: … };
 *
 * where `slots` are those of `readsOf` and whatever else it reads of the run, such as the ends of a range.
 */
import type { Graph } from '../language/graph.ts';
import type { Value } from '../language/types.ts';
import { questionOf } from './reach.ts';
import type { Run } from './run.ts';

/**
 * The slots that asking “what if” reads of the run it starts from; nothing else in that run can change what
 * is answered. They hang on the graph alone: find them once.
 * @param inputs slots that are overridden
 * @param wanted slots whose values are of interest
 */
export function readsOf(
	graph: Graph,
	inputs: readonly number[],
	wanted: readonly number[],
): readonly number[] {
	return questionOf(graph, inputs, wanted).reads;
}

/** How some slots of a run stood. */
export class Footing {
	readonly #slots: readonly number[];
	readonly #stood: readonly (Value | string)[];

	constructor(run: Run, slots: readonly number[]) {
		this.#slots = slots;
		this.#stood = slots.map((slot) => standing(run, slot));
	}

	/** Whether they stand in a run as they did, to the last bit. A record or list counts when it is the same one. */
	stands(run: Run): boolean {
		return this.#slots.every((slot, index) => Object.is(this.#stood[index], standing(run, slot)));
	}
}

/** The value of a slot, or what is said of its having none. */
function standing(run: Run, slot: number): Value | string {
	return run.value(slot) ?? `none: ${run.failure(slot)?.message ?? ''}`;
}
