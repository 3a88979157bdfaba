/** How readings are taken on a sheet whose drawing is the form: on the drawing, one after the other, or as a list. */

/** At the desk the drawing is the form; a phone shows one reading at a time; a list is there for either. */
export type Way = 'drawing' | 'one' | 'list';

/** As the sheet's own style has it: from here on the drawing and the entries stand side by side. */
const desk = '(min-width: 70rem)';
/** Up to here one column. */
const phone = '(max-width: 39.99rem)';

export class Taking {
	/** Name of the reading in hand. */
	inHand: string | undefined = $state();
	/** Name of the reading that is explained: the one in hand, or the first to be taken. */
	explained: string | undefined = $state();
	/** Names of the readings whose fields the sheet in front has. */
	fields: ReadonlySet<string> = $state.raw(new Set<string>());
	/** Chosen by the person. */
	asList = $state(false);
	/** What this window is wide enough for; nothing until it is known, and what shows it is there. */
	#fits: Way | undefined = $state();

	get way(): Way {
		return this.asList ? 'list' : (this.#fits ?? 'list');
	}

	/** Whether there is a choice: not on a window of middling width, where a list is all. */
	get chosen(): boolean {
		return this.#fits !== undefined && this.#fits !== 'list';
	}

	/**
	 * Follows the width of a window.
	 * @returns ends it
	 */
	follow(window: Window): () => void {
		const queries = [window.matchMedia(desk), window.matchMedia(phone)] as const;
		const look = (): void => {
			this.#fits = queries[0].matches ? 'drawing' : queries[1].matches ? 'one' : 'list';
		};
		look();
		for (const query of queries) query.addEventListener('change', look);
		return () => {
			for (const query of queries) query.removeEventListener('change', look);
			this.#fits = undefined;
		};
	}
}
