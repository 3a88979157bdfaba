/** What to measure next, in words: the reading that would make an answer surest, and where it is taken. */
import { nextReadings } from '../engine/next-reading.ts';
import type { Graph, Node } from '../language/graph.ts';
import type { CheckCell } from '../language/kinds/check.ts';
import { isMeasured, type Reading } from '../job/reading.ts';
import { showPlusMinus } from '../units/shown.ts';
import { inputPlusMinus, shownForNode, type Figures } from './figures.ts';

export interface NextInWords {
	/** Of the input, with the page it is asked for on. */
	readonly name: string;
	readonly page: string;
	readonly label: string;
	/** How it is taken again, "both ways round"; nothing for what nobody has read yet. */
	readonly again?: string;
	/** "Measure again, both ways round", or "Measure next". */
	readonly how: string;
	/** What the truck has to be on for it, as a sentence; nothing where it stands on the floor. */
	readonly where: string;
	/** What comes of it: "Rear joint ± 0.71° becomes ± 0.56°". */
	readonly then: string;
}

type ReadingOf = (name: string) => Reading;

const askedBefore = new WeakMap<Graph, Map<string, readonly number[]>>();

/** Slots of names: the same list whenever they are asked for, since what leads to a list is found once for it. */
function slotsOf(graph: Graph, names: readonly string[]): readonly number[] {
	const known = askedBefore.get(graph) ?? new Map<string, readonly number[]>();
	askedBefore.set(graph, known);
	const key = names.join(' ');
	const slots = known.get(key) ?? names.flatMap((name) => graph.byId.get(name)?.slot ?? []);
	known.set(key, slots);
	return slots;
}

/**
 * The inputs that were read on the stock truck and cannot be read any more: something has been read on the same
 * face since.
 */
function overtaken({ nodes }: Graph, readingOf: ReadingOf): ReadonlySet<string> {
	return new Set(
		nodes.flatMap(({ id, input }) => {
			if (!input || !('sameFaceAs' in input)) return [];
			return ['entered', 'scenario'].includes(readingOf(id).standing) ? [input.sameFaceAs] : [];
		}),
	);
}

/** ± of an input once it is read next, SI; undefined where that would make it no surer. */
function betterFor(node: Node, reading: Reading): { size: number; again: boolean } | undefined {
	const { input } = node;
	if (!input || !('plusMinus' in input) || input.asks_for !== 'quantity') return undefined;
	if (!isMeasured(input)) return undefined;
	const now = inputPlusMinus(node, reading);
	const untaken = reading.standing === 'missing' || reading.standing === 'assumed';
	if (untaken || now > input.plusMinus) return { size: input.plusMinus, again: !untaken };
	return input.again === undefined ? undefined : { size: input.again, again: true };
}

/** A reading taken lying under the truck, or with it on stands, has to bring that much more. */
const cost = { floor: 1, under: 0.9, stands: 0.7 } as const;

const places = {
	floor: '',
	under: 'Taken from under the truck, its weight on its wheels.',
	stands: 'The truck goes on stands for it.',
} as const;

/**
 * What to read next so that some figures become surer, the most useful first.
 * @param names of the figures that are asked for
 */
export function nextInWords(
	names: readonly string[],
	figures: Figures,
	readingOf: ReadingOf,
): readonly NextInWords[] {
	const { graph, run, quantities, system } = figures;
	const gone = overtaken(graph, readingOf);
	const better = (node: Node) =>
		gone.has(node.id) ? undefined : betterFor(node, readingOf(node.id));
	const wanted = slotsOf(graph, names);
	const found = nextReadings(
		graph,
		run,
		(node) => inputPlusMinus(node, readingOf(node.id)),
		(node) => better(node)?.size,
		wanted,
	);
	return found
		.map((next) => ({ ...next, taken: takenOf(next.input) }))
		.sort((a, b) => b.gain * cost[b.taken] - a.gain * cost[a.taken])
		.flatMap(({ input, taken, helps: [helped] }): NextInWords[] => {
			const figure = helped && graph.nodes[helped.slot];
			const shown = figure && shownForNode(figure, quantities, system);
			if (!shown) return [];
			const again = better(input)?.again === true ? manyTimes(input) : undefined;
			return [
				{
					name: input.id,
					page: input.cell.page,
					label: input.label,
					...(again !== undefined && { again }),
					how: again === undefined ? 'Measure next' : `Measure again, ${again}`,
					where: places[taken],
					then: `${figure.label}: ${showPlusMinus(helped.from, shown)} becomes ${showPlusMinus(helped.to, shown)}`,
				},
			];
		});
}

function takenOf({ input }: Node): keyof typeof cost {
	return (input && 'taken' in input ? input.taken : undefined) ?? 'floor';
}

/** How a second reading is made surer than the first; common practice, no source. */
function manyTimes({ input }: Node): string {
	return input && 'dial' in input ? 'both ways round' : 'three times over';
}

/** Names of the figures that checks look at. */
export function figuresLookedAt(graph: Graph, checks: readonly CheckCell[]): readonly string[] {
	const slots = checks.flatMap(({ cases }) =>
		cases.flatMap(({ condition }) => graph.byId.get(condition)?.needs ?? []),
	);
	return [...new Set(slots)].flatMap((slot) => {
		const node = graph.nodes[slot];
		return node?.formula && node.type?.kind === 'quantity' ? [node.id] : [];
	});
}
