/**
 * What would explain what was read. Figures that ought to be nought, found less expected, are not: chance may
 * do that, as far as the ± of the entries goes, or one entry is not what it is taken for. Each suspect is tried
 * by itself: how much of it fits best by least squares, every other entry free within its ±, and how much of
 * the misfit is then left over.
 *
 * Sizes of misfit are χ²: squares in standard deviations, half a ± (JCGM 100:2008, 6.2, at k = 2).
 */
import type { Graph, Node } from '../language/graph.ts';
import { dot, shareBeyond, Whitening, type Whitened } from './least-squares.ts';
import { sourceOf, type PlusMinus } from './plus-minus.ts';
import { whatIf, type Run } from './run.ts';

/** Something that may not be as it is entered. */
export interface Suspect {
	/** The inputs that would be off, all by one amount. */
	readonly inputs: readonly Node[];
	/** By how much such a thing is off, if it is: a ±, SI. Beyond it is not impossible, but less and less likely. */
	readonly likely: number;
}

/** A suspect by itself. */
export interface Cause {
	readonly suspect: Suspect;
	/** What would have to be added to what is entered, SI, and the ± of that. */
	readonly amount: number;
	readonly plusMinus: number;
	/** Misfit that is left over with it. */
	readonly left: number;
	/** The same, and how unlikely so much of it is: what causes are sorted by. */
	readonly against: number;
	/** Whether chance may well have left so much. */
	readonly explains: boolean;
}

/**
 * agrees: nothing is needed. told: one cause explains it, and no other nearly as well. alike: some explain it,
 * and these readings cannot tell which. none: no cause by itself does. open: nothing is read yet.
 */
export type Word = 'agrees' | 'told' | 'alike' | 'none' | 'open';

export interface Explained {
	readonly word: Word;
	/** Slots of the figures that counted. */
	readonly read: readonly number[];
	readonly misfit: number;
	/** Least against it first. */
	readonly causes: readonly Cause[];
	/** How many of the first are as good as each other. */
	readonly alike: number;
}

/** A misfit that chance makes less often than this wants another cause. */
const seldom = 0.015;

/**
 * How much less may stand against one cause than against another before the one is believed: odds of fifty
 * to one, 2 ln 50 in χ².
 */
const clearly = 2 * Math.log(50);

type Sure = readonly (PlusMinus | undefined)[];

/** What was read of it, in whitened axes. */
interface Misfit {
	readonly read: readonly number[];
	readonly whitening: Whitening;
	readonly sure: Sure;
	readonly of: (run: Run) => Whitened | undefined;
	readonly now: Whitened;
}

/**
 * @param sure ± of figures by slot, with its parts; those that are read need one
 * @param read slots of figures that would be nought if all were as entered; one without a value does not count
 */
export function explain(
	graph: Graph,
	run: Run,
	sure: Sure,
	read: readonly number[],
	suspects: readonly Suspect[],
): Explained {
	const misfit = misfitOf(run, sure, read);
	const { now } = misfit;
	const counted = misfit.read;
	const size = dot(now, now);
	if (counted.length === 0) return { word: 'open', read: counted, misfit: 0, causes: [], alike: 0 };
	const causes = suspects
		.flatMap((suspect) => causeOf(graph, run, misfit, suspect) ?? [])
		.sort((a, b) => a.against - b.against);
	const [first] = causes;
	const alike = first
		? causes.filter(({ against }) => against - first.against < clearly).length
		: 0;
	const word: Word =
		shareBeyond(size, counted.length) >= seldom
			? 'agrees'
			: !first?.explains
				? 'none'
				: alike > 1
					? 'alike'
					: 'told';
	return { word, read: counted, misfit: size, causes, alike };
}

function misfitOf(run: Run, sure: Sure, read: readonly number[]): Misfit {
	const usable = read.filter(
		(slot) => run.number(slot) !== undefined && (sure[slot]?.size ?? 0) > 0,
	);
	const whole = new Whitening(
		usable.map((slot) => usable.map((other) => covariance(sure[slot], sure[other]))),
	);
	const counted = whole.kept.map((at) => usable[at] as number);
	const whitening = new Whitening(
		counted.map((slot) => counted.map((other) => covariance(sure[slot], sure[other]))),
	);
	const of = (moved: Run): Whitened | undefined => {
		const values = counted.map((slot) => moved.number(slot));
		return values.every((value) => value !== undefined) ? whitening.of(values) : undefined;
	};
	return { read: counted, whitening, sure, of, now: of(run) ?? [] };
}

/** What two figures have in common of their errors, in squares of a standard deviation. */
function covariance(a: PlusMinus | undefined, b: PlusMinus | undefined): number {
	const brings = new Map(b?.parts.map((part) => [sourceOf(part), part.brings]));
	let sum = 0;
	for (const part of a?.parts ?? []) sum += part.brings * (brings.get(sourceOf(part)) ?? 0);
	return sum / 4;
}

/** Part of what is likely by which a suspect is moved for a slope. */
const share = 0.02;
const rounds = 12;
/** Where it moves by less than this part of what is likely it has settled. */
const settled = 1e-6;

/** Moves a suspect's inputs together and looks at some slots; undefined where one has no value. */
function moving(
	graph: Graph,
	run: Run,
	{ inputs }: Suspect,
	wanted: readonly number[],
): (amount: number) => Run {
	const slots = inputs.map(({ slot }) => slot);
	const entered = slots.map((slot) => run.number(slot) as number);
	const ask = whatIf(graph, run, slots, wanted);
	return (amount) => ask(entered.map((value) => value + amount));
}

/** How much of a suspect fits best, by steps of Gauss and Newton; undefined for one that these readings cannot see. */
function causeOf(graph: Graph, run: Run, misfit: Misfit, suspect: Suspect): Cause | undefined {
	const { inputs, likely } = suspect;
	if (inputs.some(({ slot }) => run.number(slot) === undefined)) return undefined;
	const move = moving(graph, run, suspect, misfit.read);
	const at = (amount: number): Whitened | undefined => misfit.of(move(amount));
	/** As if it had been read once before, at what is entered. */
	const prior = 4 / likely ** 2;
	const against = (left: Whitened, amount: number): number => dot(left, left) + prior * amount ** 2;
	let [amount, left] = [0, misfit.now];
	let weight = 0;
	for (let round = 0; round < rounds; round++) {
		const slope = slopeAt(at, amount, left, share * likely);
		if (!slope) return undefined;
		weight = dot(slope, slope);
		if (!(weight * likely ** 2 > nothingSeen)) return undefined;
		let step = -(dot(slope, left) + prior * amount) / (weight + prior);
		// A step too far may not be possible to assemble, or fit worse; half of it does.
		let next = at(amount + step);
		while (Math.abs(step) > settled * likely && !better(next, amount + step)) {
			step /= 2;
			next = at(amount + step);
		}
		if (!next || Math.abs(step) <= settled * likely) break;
		[amount, left] = [amount + step, next];
	}
	function better(next: Whitened | undefined, to: number): boolean {
		return next !== undefined && against(next, to) <= against(left, amount);
	}
	const size = dot(left, left);
	return {
		suspect,
		amount,
		plusMinus: 2 / Math.sqrt(weight),
		left: size,
		against: against(left, amount),
		explains: shareBeyond(size, misfit.read.length - 1) >= seldom,
	};
}

/** Below this, a suspect that is off as far as it is likely to be does not show. */
const nothingSeen = 0.01;

/** How what is read changes with a suspect; from one side at the edge of what can be assembled. */
function slopeAt(
	at: (amount: number) => Whitened | undefined,
	amount: number,
	here: Whitened,
	step: number,
): Whitened | undefined {
	const above = at(amount + step);
	const below = at(amount - step);
	const [up, down, length] =
		above && below ? [above, below, 2 * step] : [above ?? here, below ?? here, step];
	return up === down ? undefined : up.map((value, index) => (value - (down[index] ?? 0)) / length);
}

/** A figure by the plan and all that was read together. */
export interface Together {
	/** SI. */
	readonly value: number;
	readonly plusMinus: number;
}

/**
 * The best there is to know of a figure: what its entries say, put right by all that was read, with what they
 * have in common counted. Where a cause is told, it is free to be as much as fits.
 * @param slot of a figure that has a value and a ± with its parts
 * @returns undefined where the readings are not explained, for then they say nothing of it
 */
export function reconciled(
	graph: Graph,
	run: Run,
	sure: Sure,
	{ word, read, causes }: Explained,
	slot: number,
): Together | undefined {
	const own = sure[slot];
	const value = run.number(slot);
	if (!own || value === undefined || (word !== 'agrees' && word !== 'told')) return undefined;
	const misfit = misfitOf(run, sure, read);
	const common = misfit.whitening.of(read.map((other) => covariance(own, sure[other])));
	const variance = own.size ** 2 / 4 - dot(common, common);
	const [cause] = causes;
	if (word === 'agrees' || !cause) {
		return together(value - dot(common, misfit.now), variance);
	}
	const step = share * cause.suspect.likely;
	const move = moving(graph, run, cause.suspect, [slot, ...misfit.read]);
	const at = (amount: number): { figure: number; left: Whitened } | undefined => {
		const moved = move(amount);
		const [figure, left] = [moved.number(slot), misfit.of(moved)];
		return figure === undefined || !left ? undefined : { figure, left };
	};
	const best = at(cause.amount);
	const above = at(cause.amount + step);
	const below = at(cause.amount - step);
	if (!best || !above || !below) return undefined;
	const slope = above.left.map((up, index) => (up - (below.left[index] ?? 0)) / (2 * step));
	const ofFigure = (above.figure - below.figure) / (2 * step);
	// What the cause leaves open of the figure, once the readings have been heard.
	const open = ofFigure - dot(common, slope);
	return together(
		best.figure - dot(common, best.left),
		variance + open ** 2 / (dot(slope, slope) + 4 / cause.suspect.likely ** 2),
	);
}

function together(value: number, variance: number): Together {
	return { value, plusMinus: 2 * Math.sqrt(Math.max(0, variance)) };
}
