/** What to read next for some figures, as the components that say it see it: looked for while nothing changes. */
import { nextInWords, type NextInWords } from '$lib/answers/next-reading.ts';
import { hangOn } from '$lib/desk/live-run.svelte.ts';
import { getOpenJob } from '$lib/desk/open-job.svelte.ts';

/** Milliseconds without a change before it is looked for: no key waits for it. */
const quiet = 300;

export class NextInSight {
	/** The most useful first; what was found last stands until the next is found. */
	found: readonly NextInWords[] = $state.raw([]);

	/** Called while a component is made. */
	constructor(names: () => readonly string[]) {
		const job = getOpenJob();
		const now = job.following(names);
		$effect(() => {
			const { figures, plusMinus } = now;
			const asked = names();
			// Another ± wants another answer, as does another figure.
			hangOn(plusMinus);
			const wait = setTimeout(() => {
				this.found = nextInWords(asked, figures, (name) => job.reading(name));
			}, quiet);
			return () => {
				clearTimeout(wait);
			};
		});
	}
}

/** A ± stays with its amount where a line breaks. */
export function whole(words: string): string {
	return words.replaceAll('± ', '±\u00a0');
}
