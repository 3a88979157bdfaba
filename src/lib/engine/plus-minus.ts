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
 * @returns by slot, with the entries behind what is wanted; undefined for what is no quantity or not wanted,
 * and where a figure has no value, is rounded to steps or hangs on one that is, or one of the moved runs had
 * none
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
export function plusMinusInSteps(
	graph: Graph,
	run: Run,
	plusMinusOf: (input: Node) => number,
	wanted?: readonly number[],
): Generator<undefined, (PlusMinus | undefined)[]> {
	const { figures, ways } = sightOf(graph, run, wanted);
	return broughtTogether(graph, run, plusMinusOf, figures, ways);
}

/**
 * The ± of the figures wanted if this one entry were all that is not sure.
 * @param size ± of the entry, SI
 * @returns by slot
 */
export function plusMinusByOne(
	graph: Graph,
	run: Run,
	input: Node,
	size: number,
	wanted: readonly number[],
): (PlusMinus | undefined)[] {
	const { figures, ways } = sightOf(graph, run, wanted);
	const its = ways.filter((way) => way.input === input);
	return atOnce(broughtTogether(graph, run, () => size, figures, its));
}

function* broughtTogether(
	graph: Graph,
	run: Run,
	plusMinusOf: (input: Node) => number,
	figures: readonly number[],
	ways: readonly Way[],
): Generator<undefined, (PlusMinus | undefined)[]> {
	const found = new Array<PlusMinus | undefined>(graph.nodes.length).fill(undefined);
	const here = run.numbers(figures);
	const brought: Brought[] = [];
	for (const way of ways) {
		const { input, asFigure } = way;
		const value = run.number(input.slot);
		if (value === undefined) continue;
		const size = plusMinusOf(input);
		// What it starts as brings its own to it too.
		if (asFigure < 0) found[input.slot] = size > 0 ? new OfEntry(input, size) : sure;
		else if (size > 0) {
			brought.push({ shares: partsOf(input, size, size), figures: [asFigure], times: [1] });
		}
		if (size > 0 && way.reached().figures.length > 0) {
			brought.push(broughtBy(way, graph, run, value, size, here));
			yield;
		}
	}
	const parts = new Parts(here, brought);
	figures.forEach((slot, index) => (found[slot] = parts.of(index)));
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

/** What an entry's ± brings to the figures it reaches: so many times its shares to each. */
interface Brought {
	readonly shares: readonly PlusMinusPart[];
	/** Which figures. */
	readonly figures: readonly number[];
	/** For each of them; NaN where it cannot be said. */
	readonly times: readonly number[];
}

/** @param here the figures as they are */
function broughtBy(
	{ input, reached }: Way,
	graph: Graph,
	run: Run,
	value: number,
	size: number,
	here: Float64Array,
): Brought {
	const { figures, slots, question, above, below } = reached();
	const ask = asking(graph, run, question);
	ask([value + share * size]).numbers(slots, above);
	ask([value - share * size]).numbers(slots, below);
	const times = new Array<number>(slots.length);
	for (let index = 0; index < times.length; index++) {
		const middle = here[figures[index] as number] as number;
		const rise = ((above[index] as number) - middle) / share;
		const fall = (middle - (below[index] as number)) / share;
		// At the edge of what can be assembled only one side answers.
		times[index] = Number.isNaN(rise) ? fall : Number.isNaN(fall) ? rise : slopeOf(rise, fall);
	}
	return { shares: partsOf(input, 1, size), figures, times };
}

/** All that is brought to each figure, in one list: the parts of each stand together, as they came. */
class Parts {
	/** Where those of each figure start, and how many there are; −1 for one whose ± cannot be said. */
	readonly #starts: Int32Array;
	readonly #counts: Int32Array;
	/** Where each part comes from; what it brings stands beside. */
	readonly #sources: PlusMinusPart[];
	readonly #brings: Float64Array;

	/** @param here the figures as they are */
	constructor(here: Float64Array, brought: readonly Brought[]) {
		const rooms = new Int32Array(here.length);
		for (const { shares, figures } of brought) {
			for (const figure of figures) rooms[figure] = (rooms[figure] as number) + shares.length;
		}
		let room = 0;
		this.#starts = rooms.map((its) => (room += its) - its);
		this.#counts = Int32Array.from(here, (value) => (Number.isNaN(value) ? -1 : 0));
		this.#sources = new Array<PlusMinusPart>(room);
		this.#brings = new Float64Array(room);
		for (const { shares, figures, times } of brought) {
			for (let index = 0; index < figures.length; index++) {
				this.#add(figures[index] as number, times[index] as number, shares);
			}
		}
	}

	/** Adds shares to a figure, so many times over. Those of one source are one. */
	#add(figure: number, times: number, shares: readonly PlusMinusPart[]): void {
		const count = this.#counts[figure] as number;
		if (count < 0 || times === 0) return;
		const start = this.#starts[figure] as number;
		let end = start + count;
		for (const share of shares) {
			const brings = times * share.brings;
			const before = share.face ? this.#faceAmong(share.input, start, end) : -1;
			if (before >= 0) this.#brings[before] = (this.#brings[before] as number) + brings;
			else {
				this.#sources[end] = share;
				this.#brings[end++] = brings;
			}
		}
		this.#counts[figure] = Number.isNaN(times) ? -1 : end - start;
	}

	/** Only a face is met more than once: several readings share it. */
	#faceAmong(input: string, from: number, to: number): number {
		for (let index = from; index < to; index++) {
			const source = this.#sources[index] as PlusMinusPart;
			if (source.face && source.input === input) return index;
		}
		return -1;
	}

	/** The ± of a figure; undefined where it cannot be said. */
	of(figure: number): PlusMinus | undefined {
		const count = this.#counts[figure] as number;
		if (count <= 0) return count < 0 ? undefined : sure;
		const start = this.#starts[figure] as number;
		return new OfFigure(this.#sources, this.#brings, start, start + count);
	}
}

/** The ± of a figure. Its parts are put in order when they are asked for. */
class OfFigure implements PlusMinus {
	readonly size: number;
	readonly #sources: readonly PlusMinusPart[];
	readonly #brings: Float64Array;
	readonly #from: number;
	readonly #to: number;
	#ordered?: readonly PlusMinusPart[];

	/** @param from where its parts start in the lists, and end before `to` */
	constructor(sources: readonly PlusMinusPart[], brings: Float64Array, from: number, to: number) {
		this.size = togetherBySquares(brings, from, to);
		this.#sources = sources;
		this.#brings = brings;
		this.#from = from;
		this.#to = to;
	}

	get parts(): readonly PlusMinusPart[] {
		this.#ordered ??= this.#sources
			.slice(this.#from, this.#to)
			.map((source, index) => ({ ...source, brings: this.#brings[this.#from + index] as number }))
			.sort((a, b) => Math.abs(b.brings) - Math.abs(a.brings));
		return this.#ordered;
	}
}

/**
 * What comes from different sources together, by squares: `Math.hypot` of part of a list, which takes no
 * such part. As there, the greatest is one, and what rounding loses is carried along (W. Kahan).
 */
function togetherBySquares(list: Float64Array, from: number, to: number): number {
	let greatest = 0;
	for (let index = from; index < to; index++) {
		greatest = Math.max(greatest, Math.abs(list[index] as number));
	}
	if (greatest === 0 || greatest === Infinity) return greatest;
	let [sum, lost] = [0, 0];
	for (let index = from; index < to; index++) {
		const part = (list[index] as number) / greatest;
		const add = part * part - lost;
		const next = sum + add;
		lost = next - sum - add;
		sum = next;
	}
	return Math.sqrt(sum) * greatest;
}

/** The ± of an entry, told apart when it is asked for. */
class OfEntry implements PlusMinus {
	readonly size: number;
	readonly #input: Node;

	constructor(input: Node, size: number) {
		this.size = size;
		this.#input = input;
	}

	get parts(): readonly PlusMinusPart[] {
		return partsOf(this.#input, this.size, this.size);
	}
}

const sure: PlusMinus = { size: 0, parts: [] };

/** How one input comes to the figures in sight. */
interface Way {
	readonly input: Node;
	/** Which of the figures it is itself, for one that starts as another is both; −1 for none. */
	readonly asFigure: number;
	/** Found when it is first asked for: most entries have no ±. */
	readonly reached: () => Reached;
}

/** What an input reaches of the figures. */
interface Reached {
	/** Which of them. */
	readonly figures: readonly number[];
	/** Their slots. */
	readonly slots: readonly number[];
	/** Moving it, in sight of those. */
	readonly question: Question;
	/** Room for them as they are with it moved up and down, written anew each time. */
	readonly above: Float64Array;
	readonly below: Float64Array;
}

/** What is to be known of a list of wanted slots, however the entries are read. */
interface Sight {
	readonly figures: readonly number[];
	/** One for each input behind the wanted slots, or among them, that asks for a quantity. */
	readonly ways: readonly Way[];
	/** Slots of the inputs that start as another, and whether each is entered: then other ways lead on. */
	readonly followers: readonly number[];
	readonly entered: readonly boolean[];
}

/** For each list of wanted slots the latest few, for a kit or a way may be entered where the plan is not. */
const sights = new WeakMap<Graph, WeakMap<object, Sight[]>>();
const kept = 4;

function sightOf(graph: Graph, run: Run, wanted?: readonly number[]): Sight {
	const ofGraph = sights.get(graph) ?? new WeakMap<object, Sight[]>();
	sights.set(graph, ofGraph);
	const key = wanted ?? graph;
	const known = ofGraph.get(key) ?? [];
	const fits = ({ followers, entered }: Sight): boolean =>
		followers.every((slot, index) => entered[index] === run.isEntered(slot));
	let sight = known.find(fits);
	if (!sight) {
		sight = newSight(graph, run, wanted ?? graph.order);
		ofGraph.set(key, [sight, ...known.slice(0, kept - 1)]);
	}
	return sight;
}

function newSight(graph: Graph, run: Run, wanted: readonly number[]): Sight {
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
	const followers = nodes.flatMap(({ input, formula, slot }) => (input && formula ? [slot] : []));
	const entered = followers.map((slot) => run.isEntered(slot));
	const held = new Set(followers.filter((_, index) => entered[index]));
	const behind = linked(graph, wanted, 'needs');
	const ways = nodes
		.filter(({ input, type, slot }) => input && type?.kind === 'quantity' && behind.has(slot))
		.map((input): Way => {
			let reached: Reached | undefined;
			return {
				input,
				asFigure: figures.indexOf(input.slot),
				reached: () => (reached ??= reachedBy(graph, input.slot, figures, held)),
			};
		});
	return { figures, ways, followers, entered };
}

function reachedBy(
	graph: Graph,
	input: number,
	all: readonly number[],
	held: ReadonlySet<number>,
): Reached {
	const ask = (wanted: readonly number[]): Question =>
		questionOf(graph, [input], wanted, (slot) => held.has(slot));
	const { between } = ask(all);
	const figures = [...all.keys()].filter((index) => between.has(all[index] as number));
	const slots = figures.map((index) => all[index] as number);
	// Asked again for these alone, so that what it does not reach is not looked at.
	const room = (): Float64Array => new Float64Array(slots.length);
	return { figures, slots, question: ask(slots), above: room(), below: room() };
}

const roundings = new Set(['round', 'floor', 'ceil', 'nearest_size']);

/** Whether something in it is rounded to steps. That has no slope to carry a ± by: it stands still, then jumps. */
function rounds(tree: Tree): boolean {
	return (tree.op === 'call' && roundings.has(tree.name)) || childrenOf(tree).some(rounds);
}
