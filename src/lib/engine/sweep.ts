/** One input swept over a range, all else as it is. */
import type { Graph } from '../language/graph.ts';
import { whatIf, type Failure, type Run } from './run.ts';

/** What a sweep found: one entry a step in each list. */
export interface Swept {
	/** Values of the swept input, SI. */
	readonly at: readonly number[];
	/** For each wanted slot, its value at every step; undefined where there is none. */
	readonly found: readonly (readonly (number | undefined)[])[];
	/** The first reason why a step has no value. */
	readonly gap?: { readonly at: number; readonly failure: Failure };
}

/**
 * Sweeps an input.
 * @param input slot of the swept input
 * @param from first value, SI
 * @param to last value, SI
 * @param steps how many values, at least two
 * @param wanted slots of quantities
 */
export function sweep(
	graph: Graph,
	base: Run,
	input: number,
	from: number,
	to: number,
	steps: number,
	wanted: readonly number[],
): Swept {
	const ask = whatIf(graph, base, [input], wanted);
	const at: number[] = [];
	const found = wanted.map((): (number | undefined)[] => []);
	let gap: Swept['gap'];
	for (let step = 0; step < steps; step++) {
		const value = from + ((to - from) * step) / (steps - 1);
		at.push(value);
		const run = ask([value]);
		wanted.forEach((slot, index) => {
			found[index]?.push(run.number(slot));
			const failure = gap ? undefined : run.failure(slot);
			if (failure) gap = { at: value, failure };
		});
	}
	return { at, found, ...(gap && { gap }) };
}
