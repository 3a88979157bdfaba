/**
 * How sure a figure is: the ± of the entries carried through to every figure by the first-order law of
 * JCGM 100:2008 (GUM), 5.1.2, the entries taken as independent and all ± at one coverage. Partial
 * derivatives are numerical, from central differences over the compiled graph; since each entry is moved
 * as a whole, a figure that uses it twice (x − x) counts it rightly.
 */
import { childrenOf, type Tree } from '../language/tree.ts';
import type { Graph, Node } from '../language/graph.ts';
import { linked, whatIf, type Run } from './run.ts';

/** One entry's part in the ± of a figure. */
export interface PlusMinusPart {
	/** Name of the input. */
	readonly input: string;
	/** What this entry's ± alone does to the figure, SI, signed. */
	readonly brings: number;
}

export interface PlusMinus {
	/** SI, not negative. */
	readonly size: number;
	/** Largest first. */
	readonly parts: readonly PlusMinusPart[];
}

/** Part of its ± by which an entry is moved for the derivative: near enough for a tangent. */
const share = 0.1;

/**
 * The slope from those on either side: their mean. Where they disagree the figure has a fold, as an
 * operating angle has where two shafts come into line, and the mean would say it is sure; the steeper
 * side counts.
 */
function slopeOf(rise: number, fall: number): number {
	if (Math.abs(rise - fall) <= 0.5 * (Math.abs(rise) + Math.abs(fall))) return (rise + fall) / 2;
	return Math.abs(rise) > Math.abs(fall) ? rise : fall;
}

/**
 * The ± of entries and of the figures wanted.
 * @param plusMinusOf ± of an input by its node, SI; 0 for none
 * @param wanted slots of figures; all of them when left out
 * @returns by slot; undefined for what is no quantity or not wanted, and where a figure has no value, is
 * rounded to steps or hangs on one that is, or one of the moved runs had none
 */
export function plusMinusOfAll(
	graph: Graph,
	run: Run,
	plusMinusOf: (input: Node) => number,
	wanted: readonly number[] = graph.nodes.map(({ slot }) => slot),
): (PlusMinus | undefined)[] {
	const stepped = linked(
		graph,
		graph.nodes.flatMap(({ formula, slot }) => (formula && rounds(formula.tree) ? [slot] : [])),
		'feeds',
	);
	const parts = new Map<number, PlusMinusPart[]>();
	const figures = wanted.filter((slot) => {
		const node = graph.nodes[slot];
		return node?.type?.kind === 'quantity' && !node.input && !stepped.has(slot);
	});
	for (const slot of figures) if (run.values[slot] !== undefined) parts.set(slot, []);
	const leading = linked(graph, figures, 'needs');
	for (const input of graph.nodes) {
		if (!input.input || input.type?.kind !== 'quantity') continue;
		const value = run.values[input.slot];
		if (typeof value !== 'number') continue;
		const size = plusMinusOf(input);
		parts.set(input.slot, size > 0 ? [{ input: input.id, brings: size }] : []);
		if (!(size > 0) || !leading.has(input.slot)) continue;
		const ask = whatIf(graph, run, [input.slot], figures, leading);
		const at = (moved: number): (number | undefined)[] => {
			const { values } = ask([moved]);
			return figures.map((slot) => {
				const found = values[slot];
				return typeof found === 'number' ? found : undefined;
			});
		};
		const above = at(value + share * size);
		const below = at(value - share * size);
		figures.forEach((slot, index) => {
			const here = run.values[slot];
			if (typeof here !== 'number') return;
			const [up, down] = [above[index], below[index]];
			const rise = up === undefined ? undefined : (up - here) / share;
			const fall = down === undefined ? undefined : (here - down) / share;
			// At the edge of what can be assembled only one side answers.
			const brings =
				rise !== undefined && fall !== undefined ? slopeOf(rise, fall) : (rise ?? fall);
			if (brings === undefined) parts.delete(slot);
			else if (brings !== 0) parts.get(slot)?.push({ input: input.id, brings });
		});
	}
	return graph.nodes.map(({ slot }) => {
		const own = parts.get(slot);
		return (
			own && {
				size: Math.hypot(...own.map(({ brings }) => brings)),
				parts: own.sort((a, b) => Math.abs(b.brings) - Math.abs(a.brings)),
			}
		);
	});
}

const roundings = new Set(['round', 'floor', 'ceil', 'nearest_size']);

/** Whether something in it is rounded to steps. That has no slope to carry a ± by: it stands still, then jumps. */
function rounds(tree: Tree): boolean {
	return (tree.op === 'call' && roundings.has(tree.name)) || childrenOf(tree).some(rounds);
}
