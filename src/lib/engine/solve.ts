/**
 * One input found so that two figures come out equal, all else as it is. The range is looked through in
 * even steps; where the difference changes its sign, or comes down to nought and turns back, the place is
 * closed in on. Two answers nearer together than a step, and a stretch shorter than one, may go unseen.
 */
import { bracketedRoot } from '../mechanics/root.ts';
import type { Graph } from '../language/graph.ts';
import { whatIf, type Failure, type Run } from './run.ts';

/** What was found in a range. */
export interface Solved {
	/** Values of the input, SI, lowest first. */
	readonly found: readonly number[];
	/** Stretches over which both sides are equal all along: a figure rounded to steps, or held at a limit. */
	readonly along: readonly (readonly [from: number, to: number])[];
	/** The step at which the two sides came nearest to one another. */
	readonly nearest?: Place;
	/** The first place without an answer, and why. */
	readonly gap?: { readonly at: number; readonly failure: Failure };
}

/** How the two sides stand at one value of the input. All SI. */
export interface Place {
	readonly at: number;
	readonly left: number;
	readonly equals: number;
	/** Left less equals. */
	readonly off: number;
}

type Look = (at: number) => Place | undefined;

const steps = 200;

/**
 * Part of what a difference is a step further on, below which it is rounding. A jump or a pole leaves more;
 * the root of a difference, which falls to nought ever steeper, leaves less.
 */
const settled = 1e-6;

/**
 * Finds an input.
 * @param input its slot
 * @param from one end of the range, SI
 * @param to the other
 * @param left slot of one side
 * @param equals slot of the other, of the same dimension
 */
export function solve(
	graph: Graph,
	base: Run,
	input: number,
	from: number,
	to: number,
	left: number,
	equals: number,
): Solved {
	const ask = whatIf(graph, base, [input], [left, equals]);
	let gap: Solved['gap'];
	const look: Look = (at) => {
		const run = ask([at]);
		const [a, b] = [run.number(left), run.number(equals)];
		if (a !== undefined && b !== undefined) return { at, left: a, equals: b, off: a - b };
		const failure = gap ? undefined : (run.failure(left) ?? run.failure(equals));
		if (failure) gap = { at, failure };
		return undefined;
	};
	const [low, high] = [Math.min(from, to), Math.max(from, to)];
	const pieces = piecesOf(look, low, high);
	const found: number[] = [];
	const along: [number, number][] = [];
	for (const piece of pieces) searchPiece(look, piece, found, along);
	const nearest = pieces
		.flat()
		.reduce<Place | undefined>(
			(best, place) => (best && Math.abs(best.off) <= Math.abs(place.off) ? best : place),
			undefined,
		);
	return {
		found: found.sort((a, b) => a - b),
		along,
		...(nearest && { nearest }),
		...(gap && { gap }),
	};
}

/** The steps, in pieces without a gap, each going on to the very edge of what can be worked out. */
function piecesOf(look: Look, low: number, high: number): Place[][] {
	const pieces: Place[][] = [];
	let piece: Place[] | undefined;
	let before: { at: number; place: Place | undefined } | undefined;
	for (let step = 0; step <= steps; step++) {
		const at = low + ((high - low) * step) / steps;
		const place = look(at);
		if (place) {
			if (!piece) pieces.push((piece = before ? [lastPlace(look, place, before.at)] : []));
			piece.push(place);
		} else if (piece && before?.place) {
			piece.push(lastPlace(look, before.place, at));
			piece = undefined;
		}
		before = { at, place };
	}
	return pieces;
}

/** The last place, going from one inside to one outside, at which something still holds. */
function lastPlace(
	look: Look,
	inside: Place,
	outside: number,
	holds: (place: Place) => boolean = () => true,
): Place {
	let last = inside;
	let beyond = outside;
	for (let round = 0; round < 60; round++) {
		const middle = look((last.at + beyond) / 2);
		if (middle && holds(middle)) last = middle;
		else beyond = (last.at + beyond) / 2;
	}
	return last;
}

/** Nought to the last places of the two sides themselves. */
function isNought({ left, equals, off }: Place): boolean {
	return Math.abs(off) <= 8 * Number.EPSILON * (Math.abs(left) + Math.abs(equals));
}

function searchPiece(
	look: Look,
	piece: readonly Place[],
	found: number[],
	along: [number, number][],
): void {
	for (let index = 0; index < piece.length; index++) {
		const here = piece[index] as Place;
		const before = piece[index - 1];
		if (isNought(here)) {
			let last = index;
			for (let next = piece[last + 1]; next && isNought(next); next = piece[last + 1]) last++;
			const end = piece[last] as Place;
			const after = piece[last + 1];
			if (end.at === here.at) found.push(here.at);
			else {
				along.push([
					before ? lastPlace(look, here, before.at, isNought).at : here.at,
					after ? lastPlace(look, end, after.at, isNought).at : end.at,
				]);
			}
			index = last;
			continue;
		}
		const next = piece[index + 1];
		if (next && here.off * next.off < 0) found.push(...crossing(look, here, next));
		found.push(...touching(look, before, here, next));
	}
}

class NoAnswer extends Error {}

/** The root between two places of opposite sign; none where the difference jumps over nought. */
function crossing(look: Look, a: Place, b: Place): number[] {
	try {
		const at = bracketedRoot(
			(x) => {
				const place = look(x);
				if (!place) throw new NoAnswer();
				return place.off;
			},
			a.at,
			b.at,
			Number.EPSILON * Math.abs(b.at - a.at),
		);
		const place = look(at);
		return place && isSettled(place, a, b) ? [at] : [];
	} catch (cause) {
		if (cause instanceof NoAnswer) return [];
		throw cause;
	}
}

function isSettled(place: Place, a: Place, b: Place): boolean {
	const around = Math.max(Math.abs(a.off), Math.abs(b.off));
	return isNought(place) || Math.abs(place.off) <= settled * around;
}

/**
 * Where the difference comes down to nought and turns back, or ends there, about a step that is lower than
 * those beside it; where it dips through after all, both crossings. By golden sections.
 */
function touching(
	look: Look,
	before: Place | undefined,
	here: Place,
	after: Place | undefined,
): number[] {
	const beside = [before, after].filter((place) => place !== undefined);
	const sign = Math.sign(here.off);
	const sizes = beside.map(({ off }) => sign * off);
	const lowest =
		sizes.every((size) => size > 0) &&
		(before === undefined || Math.abs(here.off) < Math.abs(before.off)) &&
		(after === undefined || Math.abs(here.off) <= Math.abs(after.off));
	// A dip that ends well above nought is no more than that.
	if (beside.length === 0 || !lowest || Math.abs(here.off) > 0.8 * Math.max(...sizes)) return [];
	const [first, last] = [before ?? here, after ?? here];
	const part = (Math.sqrt(5) - 1) / 2;
	let [low, high] = [first.at, last.at];
	let best = here;
	let left = look(high - part * (high - low));
	let right = look(low + part * (high - low));
	for (let round = 0; round < 75; round++) {
		if (!left || !right) return [];
		const lower = sign * left.off < sign * right.off ? left : right;
		if (sign * lower.off < sign * best.off) best = lower;
		if (sign * best.off < 0 && !isNought(best)) {
			return [...crossing(look, first, best), ...crossing(look, best, last)];
		}
		if (lower === left) {
			high = right.at;
			right = left;
			left = look(high - part * (high - low));
		} else {
			low = left.at;
			left = right;
			right = look(low + part * (high - low));
		}
	}
	return isSettled(best, first, last) ? [best.at] : [];
}
