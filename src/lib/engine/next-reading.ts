/**
 * Which reading, taken or taken better, would take most off the ± of what is asked. The ± of a figure is made of
 * what each entry brings; one entry's part is put in again as it would be, and all else stays.
 */
import type { Graph, Node } from '../language/graph.ts';
import { plusMinusByOne, plusMinusOfAll, sourceOf, type PlusMinus } from './plus-minus.ts';
import type { Run } from './run.ts';

/** What one reading would do for one figure. */
export interface Helped {
	/** Slot of the figure. */
	readonly slot: number;
	/** Its ± now and then, SI. */
	readonly from: number;
	readonly to: number;
}

export interface NextReading {
	readonly input: Node;
	/** ± the reading would have, SI. */
	readonly plusMinus: number;
	/** The figures it would make surer, the one it helps most first. */
	readonly helps: readonly Helped[];
	/** What it takes off, as shares of each figure's ±, added up. */
	readonly gain: number;
}

/** A ± that shrinks by less than this share of it is not worth a reading. */
const worthIt = 0.05;

/**
 * @param plusMinusOf ± of an input now, SI
 * @param better ± of an input after the next reading of it, SI; undefined where it cannot be had
 * @param wanted slots of the figures asked for
 * @returns the most useful first; none that would not help
 */
export function nextReadings(
	graph: Graph,
	run: Run,
	plusMinusOf: (input: Node) => number,
	better: (input: Node) => number | undefined,
	wanted: readonly number[],
): readonly NextReading[] {
	const now = plusMinusOfAll(graph, run, plusMinusOf, wanted);
	const involved = new Set(
		wanted.flatMap((slot) => now[slot]?.parts.map(({ input }) => input) ?? []),
	);
	return graph.nodes
		.flatMap((input): NextReading[] => {
			const plusMinus = input.input ? better(input) : undefined;
			const before = plusMinusOf(input);
			// What is read on another's face brings its part under that one's name.
			const shares =
				input.input && 'sameFaceAs' in input.input ? input.input.sameFaceAs : undefined;
			if (plusMinus === undefined || !(plusMinus < before)) return [];
			if (!involved.has(input.id) && (shares === undefined || !involved.has(shares))) return [];
			const old = plusMinusByOne(graph, run, input, before, wanted);
			const next = plusMinusByOne(graph, run, input, plusMinus, wanted);
			const helps = wanted
				.flatMap((slot) => {
					const from = now[slot]?.size ?? 0;
					const to = withPart(now[slot], old[slot], next[slot]);
					return from > 0 ? [{ slot, from, to }] : [];
				})
				.filter(({ from, to }) => to < from * (1 - worthIt))
				.sort((a, b) => shareLeft(a) - shareLeft(b));
			const gain = helps.reduce((sum, { from, to }) => sum + 1 - to / from, 0);
			return helps.length > 0 ? [{ input, plusMinus, helps, gain }] : [];
		})
		.sort((a, b) => b.gain - a.gain);
}

/** Rounded, so that of figures that are helped alike the same one stays first. */
function shareLeft({ from, to }: Helped): number {
	return Math.round((1e6 * to) / from);
}

/** The size of a ± in which one entry's part is exchanged for another. */
function withPart(
	whole: PlusMinus | undefined,
	old: PlusMinus | undefined,
	next: PlusMinus | undefined,
): number {
	const bySource = new Map<string, number>();
	const add = (of: PlusMinus | undefined, sign: number): void => {
		for (const part of of?.parts ?? []) {
			const source = sourceOf(part);
			bySource.set(source, (bySource.get(source) ?? 0) + sign * part.brings);
		}
	};
	add(whole, 1);
	add(old, -1);
	add(next, 1);
	return Math.hypot(...bySource.values());
}
