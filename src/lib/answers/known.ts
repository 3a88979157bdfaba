/** What an answer still needs: how far its entries are there, by the graph and nothing else. */
import type { Failure } from '../engine/run.ts';
import type { Node } from '../language/graph.ts';
import type { Reading } from '../job/reading.ts';
import { failuresOf, measurementsBehind, slotsBehind, type Standing } from './figures.ts';

export interface Known {
	/** Entries it waits for; none where it is there. */
	readonly needs: readonly Node[];
	/** Parts of which one has to be entered: while all are as they come, there is nothing to say of a part. */
	readonly anyOf: readonly Node[];
	/** Why there is none though all is entered. */
	readonly failure?: Failure;
	/** Entries of measurements behind it that are only assumed. */
	readonly assumed: readonly Node[];
}

/**
 * @param names of the figures that make the answer
 * @param parts entries it is asked of: where it hangs on some that change nothing as they come, one has to be entered
 */
export function knownOf(
	names: readonly string[],
	standing: Standing,
	reading: (name: string) => Reading,
	parts: readonly Node[] = [],
): Known {
	const { graph } = standing;
	const nodes = names.flatMap((name) => graph.byId.get(name) ?? []);
	const failures = failuresOf(names, standing);
	const waiting = failures.filter(({ why }) => why === 'not entered');
	const needs = new Set(waiting.flatMap(({ from }) => from));
	const failure = failures.find(({ why }) => why !== 'not entered');
	const behind = new Set(nodes.flatMap((node) => measurementsBehind(node, graph)));
	const on = slotsBehind(graph, names);
	const movable = parts.filter(({ slot, input }) => input?.part && on.has(slot));
	const isAsItComes = ({ id }: Node): boolean =>
		reading(id).standing === 'assumed' && reading(id).value === 0;
	return {
		anyOf: movable.every(isAsItComes) ? movable : [],
		needs: [...needs].flatMap((name) => graph.byId.get(name) ?? []),
		...(failure && { failure }),
		assumed: [...behind].filter(({ id }) => reading(id).standing === 'assumed'),
	};
}
