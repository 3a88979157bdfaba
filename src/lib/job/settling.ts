/**
 * What was fitted stops following the plan once somebody measures after the job: from the first reading on,
 * every part fitted keeps what the plan had for it then. Planning on changes nothing of what was found.
 */
import { linked } from '../engine/reach.ts';
import type { Graph, Node } from '../language/graph.ts';
import type { InputCell } from '../language/kinds/input.ts';
import type { Value } from '../language/types.ts';
import type { Entries } from './edits.ts';
import type { Entry, Job } from './job.ts';
import { fieldText, readTyped } from './reading.ts';

/** Whether an input is one that is read again, on the same face as one before the job. */
function isReadAgain(input: InputCell | undefined): boolean {
	return input !== undefined && 'sameFaceAs' in input;
}

/** What an input follows while nobody enters it. */
function startOf(graph: Graph, { input }: Node): Node | undefined {
	return input?.startsAs === undefined ? undefined : graph.byId.get(input.startsAs);
}

/** Whether an input is a part fitted: it starts as a part planned, or as a figure of such ones. */
function isFitted(graph: Graph, node: Node): boolean {
	const start = startOf(graph, node);
	if (!start || !node.input?.part) return false;
	if (start.input) return start.input.part;
	return [...linked(graph, [start.slot], 'needs')].some((slot) => {
		const behind = graph.nodes[slot];
		return behind?.input !== undefined && startOf(graph, behind)?.input?.part === true;
	});
}

/**
 * The entries that typing into a field settles: none, unless it is the first reading after the job.
 * @param name of the input that is typed into
 * @param valueOf the value in force of a slot, SI
 * @returns by name; an entry is that of the plan as it was typed, or the value in force where nobody typed
 */
export function settledBy(
	graph: Graph,
	{ entries, system }: Pick<Job, 'entries' | 'system'>,
	name: string,
	valueOf: (slot: number) => Value | undefined,
): Entries {
	const { nodes, byId } = graph;
	if (!isReadAgain(byId.get(name)?.input)) return {};
	if (nodes.some(({ id, input }) => isReadAgain(input) && Object.hasOwn(entries, id))) return {};
	const settled: Record<string, Entry> = {};
	for (const node of nodes) {
		const { input, id, slot } = node;
		if (!input || Object.hasOwn(entries, id) || !isFitted(graph, node)) continue;
		const start = startOf(graph, node);
		const planned = start?.input && entries[start.id];
		// What cannot be read is not in force; what could be read before it is.
		const inForce =
			start?.input && planned && 'problem' in readTyped(start.input, planned.typed, planned.system)
				? planned.held
				: planned;
		const value = valueOf(slot);
		if (inForce) settled[id] = { typed: inForce.typed, system: inForce.system, from: 'person' };
		else if (value !== undefined) {
			const typed = fieldText(input, undefined, { value, standing: 'assumed' }, system);
			settled[id] = { typed, system, from: 'person' };
		}
	}
	return settled;
}
