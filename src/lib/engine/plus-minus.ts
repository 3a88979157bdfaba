/**
 * How sure a figure is: the ± of the entries carried through to every figure by the first-order law of
 * JCGM 100:2008 (GUM), 5.1.2, the entries taken as independent and all ± at one coverage. Partial
 * derivatives are numerical, from central differences over the compiled graph; since each entry is moved
 * as a whole, a figure that uses it twice (x − x) counts it rightly.
 */
import { atOnce } from './at-once.ts';
import { childrenOf, type Tree } from '../language/tree.ts';
import type { Graph, Node } from '../language/graph.ts';
import { linked, questionOf, type Question } from './reach.ts';
import { asking, type Run } from './run.ts';

/** One entry's part in the ± of a figure. */
export interface PlusMinusPart {
	/** Name of the input. */
	readonly input: string;
	/**
	 * True for what lies in the face and the gauge that several readings share: it is the same each time, so
	 * it drops out of a difference. The repeat, which does not, is a part of its own for each reading.
	 */
	readonly face?: true;
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
 * @param wanted slots of figures; all of them when left out. Who asks again and again hands in the same
 * list, for what leads to them is found once for each
 * @returns by slot; undefined for what is no quantity or not wanted, and where a figure has no value, is
 * rounded to steps or hangs on one that is, or one of the moved runs had none
 */
export function plusMinusOfAll(
	...asked: Parameters<typeof plusMinusInSteps>
): (PlusMinus | undefined)[] {
	return atOnce(plusMinusInSteps(...asked));
}

/**
 * The same an entry a step, for one who has to let others in between. The run has to stay as it is until the
 * last step.
 */
export function* plusMinusInSteps(
	graph: Graph,
	run: Run,
	plusMinusOf: (input: Node) => number,
	wanted?: readonly number[],
): Generator<undefined, (PlusMinus | undefined)[]> {
	const { figures, ways } = sightOf(graph, wanted);
	const found = new Array<PlusMinus | undefined>(graph.nodes.length).fill(undefined);
	const parts: Parts = graph.nodes.map(() => undefined);
	for (const slot of figures) if (!run.fails(slot)) parts[slot] = [];
	for (const way of ways) {
		const { slot } = way.input;
		const value = run.number(slot);
		if (value === undefined) continue;
		const size = plusMinusOf(way.input);
		const own = size > 0 ? partsOf(way.input, size, size) : [];
		// What it starts as has brought its own already.
		const brought = parts[slot];
		if (brought) brought.push(...own);
		else found[slot] = own.length > 0 ? { size, parts: own } : sure;
		if (size > 0 && way.figures().length > 0) {
			addParts(graph, run, way, value, size, parts);
			yield;
		}
	}
	for (const slot of figures) {
		const own = parts[slot];
		if (own) found[slot] = together(own);
	}
	return found;
}

/** What is the same for two parts that come from the same place, and otherwise not. */
export function sourceOf({ input, face }: PlusMinusPart): string {
	return face ? `face of ${input}` : input;
}

/** What a reading brings, in the part of its face and that of its repeat where its cell tells them apart. */
export function partsOf(
	{ id, input }: Node,
	brings: number,
	size: number,
): readonly PlusMinusPart[] {
	if (!input || !('repeat' in input) || input.repeat >= size) {
		return [{ input: id, brings }];
	}
	const repeat = input.repeat / size;
	return [
		{ input: id, brings: brings * repeat },
		{ input: input.sameFaceAs ?? id, face: true, brings: brings * Math.sqrt(1 - repeat ** 2) },
	];
}

/** The parts of a figure as one ±: those of one source added as they are, the rest by squares. */
function together(parts: readonly PlusMinusPart[]): PlusMinus {
	const bySource = new Map<string, PlusMinusPart>();
	for (const part of parts) {
		const source = sourceOf(part);
		const before = bySource.get(source);
		bySource.set(source, before ? { ...part, brings: before.brings + part.brings } : part);
	}
	const own = [...bySource.values()];
	return {
		size: Math.hypot(...own.map(({ brings }) => brings)),
		parts: own.sort((a, b) => Math.abs(b.brings) - Math.abs(a.brings)),
	};
}

/** What entries bring, by the slot of the figure. */
type Parts = (PlusMinusPart[] | undefined)[];

const sure: PlusMinus = { size: 0, parts: [] };

/**
 * Adds what an entry's ± brings to each figure it reaches.
 * @param parts those of a figure for which that cannot be said go
 */
function addParts(
	graph: Graph,
	run: Run,
	way: Way,
	value: number,
	size: number,
	parts: Parts,
): void {
	const ask = asking(graph, run, way.question());
	const figures = way.figures();
	const above = ask([value + share * size]).numbers(figures);
	const below = ask([value - share * size]).numbers(figures);
	const here = run.numbers(figures);
	for (let index = 0; index < figures.length; index++) {
		const slot = figures[index] as number;
		const own = parts[slot];
		if (!own) continue;
		const middle = here[index] as number;
		const rise = ((above[index] as number) - middle) / share;
		const fall = (middle - (below[index] as number)) / share;
		// At the edge of what can be assembled only one side answers.
		const brings = Number.isNaN(rise) ? fall : Number.isNaN(fall) ? rise : slopeOf(rise, fall);
		if (Number.isNaN(brings)) parts[slot] = undefined;
		else if (brings !== 0) own.push(...partsOf(way.input, brings, size));
	}
}

/** How one input comes to the figures in sight. */
interface Way {
	readonly input: Node;
	/** Moving it, in sight of the figures. */
	question(): Question;
	/** Slots of the figures it reaches. */
	figures(): readonly number[];
}

/** What is to be known of a list of wanted slots, whatever the entries are. */
interface Sight {
	readonly figures: readonly number[];
	/** One for each input that asks for a quantity. */
	readonly ways: readonly Way[];
}

const sights = new WeakMap<Graph, WeakMap<object, Sight>>();

function sightOf(graph: Graph, wanted?: readonly number[]): Sight {
	const known = sights.get(graph) ?? new WeakMap<object, Sight>();
	sights.set(graph, known);
	const key = wanted ?? graph;
	let sight = known.get(key);
	if (!sight) known.set(key, (sight = newSight(graph, wanted ?? graph.order)));
	return sight;
}

function newSight(graph: Graph, wanted: readonly number[]): Sight {
	const { nodes } = graph;
	const stepped = linked(
		graph,
		nodes.flatMap(({ formula, slot }) => (formula && rounds(formula.tree) ? [slot] : [])),
		'feeds',
	);
	const figures = [...new Set(wanted)].filter((slot) => {
		const node = nodes[slot];
		return node?.type?.kind === 'quantity' && node.formula && !stepped.has(slot);
	});
	const ways = nodes.filter(({ input, type }) => input && type?.kind === 'quantity');
	return { figures, ways: ways.map((input) => wayOf(graph, input, figures)) };
}

/** Found when it is first asked for: most entries have no ±. */
function wayOf(graph: Graph, input: Node, figures: readonly number[]): Way {
	let question: Question | undefined;
	let reached: readonly number[] | undefined;
	const way: Way = {
		input,
		question: () => (question ??= questionOf(graph, [input.slot], figures)),
		figures() {
			if (!reached) {
				const { between } = way.question();
				reached = figures.filter((slot) => between.has(slot));
			}
			return reached;
		},
	};
	return way;
}

const roundings = new Set(['round', 'floor', 'ceil', 'nearest_size']);

/** Whether something in it is rounded to steps. That has no slope to carry a ± by: it stands still, then jumps. */
function rounds(tree: Tree): boolean {
	return (tree.op === 'call' && roundings.has(tree.name)) || childrenOf(tree).some(rounds);
}
