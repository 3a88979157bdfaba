/**
 * Who waits for its turn: a key moves the figures at once, and what costs more than they do, such as a drawing
 * or a chart, comes when those are painted, one thing after another with room for the next key between. What is
 * folded away comes last, when no finger moves. Where keys come faster than all of it can be worked out, it waits
 * for a pause, so that it is never in a key's way.
 */
import { flushSync, untrack } from 'svelte';
import { hangOn } from './live-run.svelte.ts';

/** Milliseconds of work after which a finger is let in. */
const slice = 6;
/** Milliseconds after which it goes on though nothing was painted: a window that lies behind another paints nothing. */
const patience = 200;

/** When something follows: with the figures, when those are painted, or when the finger rests. */
export type When = 'at once' | 'in turn' | 'at rest';

/** @returns whether it is to go on when it is its turn again */
type Work = () => boolean;

export class Turns {
	/** In the order they asked; who asks again while waiting keeps its place. */
	readonly #inTurn = new Set<Work>();
	readonly #atRest = new Set<Work>();
	#resting = true;
	/** Whether a finger came down again before it was the turn of all that the last one moved. */
	#behind = false;
	#coming = false;
	/** Counts how often something may have changed that others follow; seen when what changed is painted. */
	stirred = $state(0);

	/** Puts work in line. */
	take(work: Work, when: Exclude<When, 'at once'>): void {
		if (when === 'in turn') this.#atRest.delete(work);
		if (when === 'in turn') this.#inTurn.add(work);
		else if (!this.#inTurn.has(work)) this.#atRest.add(work);
		this.#come();
	}

	/** Takes it out of the line again. */
	leave(work: Work): void {
		this.#inTurn.delete(work);
		this.#atRest.delete(work);
	}

	/** Has everyone who follows look whether it is behind. */
	stir(): void {
		this.take(this.#stirring, 'in turn');
	}

	readonly #stirring = (): boolean => {
		this.stirred++;
		return false;
	};

	/** Brings up to date at once all that stands in line: before a key that goes on from what is drawn. */
	catchUp(): void {
		flushSync();
		// What wants another turn goes to the end, and comes again.
		for (const work of this.#inTurn) this.#do(work);
	}

	#do(work: Work): void {
		this.leave(work);
		// Behind the others, for one of them may have come to be more pressing.
		if (work()) this.#inTurn.add(work);
		flushSync();
	}

	/** Told that no finger is on a key or on the glass, or, whenever one comes down, that one is. */
	set resting(resting: boolean) {
		const again = !resting && !this.#resting;
		this.#behind = !resting && (this.#behind || (again && this.#inTurn.size > 0));
		this.#resting = resting;
		if (resting) this.#come();
	}

	get #next(): Work | undefined {
		const lines = [
			...(this.#behind ? [] : [this.#inTurn]),
			...(this.#resting ? [this.#atRest] : []),
		];
		const [next] = lines.find(({ size }) => size > 0) ?? [];
		return next;
	}

	/** Goes on behind the next frame. */
	#come(): void {
		if (this.#coming || !this.#next) return;
		this.#coming = true;
		let begun = false;
		const begin = (): void => {
			if (begun) return;
			begun = true;
			clearTimeout(waiting);
			this.#turn();
		};
		const waiting = setTimeout(begin, patience);
		requestAnimationFrame(() => setTimeout(begin));
	}

	readonly #turn = (): void => {
		const from = performance.now();
		try {
			for (let work = this.#next; work; work = this.#next) {
				this.#do(work);
				if (performance.now() - from > slice) break;
			}
		} finally {
			this.#coming = false;
			this.#come();
		}
	};
}

/**
 * A value that follows another in its turn. Called while a component is made.
 * @param turns none where nothing is painted: all follows at once
 * @param now looked at again when the turns are stirred
 */
export function following<T>(
	turns: () => Turns | undefined,
	now: () => T,
	when: () => When,
): { readonly value: T } {
	let held = $state.raw(untrack(now));
	const value = $derived(when() === 'at once' || !turns() ? now() : held);
	const catchUp = (): boolean => {
		held = untrack(now);
		return false;
	};
	$effect(() => {
		const [line, how] = [turns(), when()];
		if (!line || how === 'at once') return;
		hangOn(line.stirred);
		if (untrack(() => now() !== held)) line.take(catchUp, how);
	});
	$effect(() => () => untrack(turns)?.leave(catchUp));
	return {
		get value() {
			return value;
		},
	};
}

/**
 * What takes several steps to work out, a step when it is its turn; meanwhile what was found last stays. Called
 * while a component is made.
 * @param begin reads all that it hangs on, and begins; undefined while nothing is to be worked out
 * @param first what there is before
 */
export function inSteps<T>(
	turns: () => Turns | undefined,
	begin: () => Generator<unknown, T> | undefined,
	first: T,
): { readonly value: T } {
	let found = $state.raw(first);
	$effect(() => {
		const [line, steps] = [turns(), begin()];
		if (!line || !steps) return;
		const step = (): boolean => {
			const { done, value } = steps.next();
			if (done) found = value;
			return !done;
		};
		line.take(step, 'in turn');
		return () => {
			line.leave(step);
		};
	});
	return {
		get value() {
			return found;
		},
	};
}
