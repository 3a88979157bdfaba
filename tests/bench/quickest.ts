/** How long pieces of work take beside one another. */

/**
 * Microseconds each piece of work takes: the quickest of some rounds. They are done in turn, so that all
 * of them meet the same weather, and every second round backwards: of two that do the same, the one that
 * always came first would fetch for both what the processor keeps at hand.
 */
export function quickest(works: readonly (() => void)[], rounds = 15): number[] {
	const best = works.map(() => Infinity);
	const forwards = [...works.entries()];
	const backwards = forwards.toReversed();
	for (let round = 0; round < rounds; round++) {
		for (const [index, work] of round % 2 === 0 ? forwards : backwards) {
			const from = performance.now();
			work();
			best[index] = Math.min(best[index] ?? Infinity, (performance.now() - from) * 1000);
		}
	}
	return best;
}

/** The same work so many times over. */
export function times(count: number, work: () => void): () => void {
	return () => {
		for (let each = 0; each < count; each++) work();
	};
}
