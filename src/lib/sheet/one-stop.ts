/** Many commands in a row, and one stop of the Tab key: as in any toolbar, arrow keys go from one to the next. */
import type { Attachment } from 'svelte/attachments';

/** How far each key goes in a row; Home and End as far as it has. */
const keys: Readonly<Record<string, number>> = {
	ArrowLeft: -1,
	ArrowRight: 1,
	Home: -Infinity,
	End: Infinity,
};

export const oneStop: Attachment<HTMLElement> = (row) => {
	const all = (): HTMLElement[] => [
		...row.querySelectorAll<HTMLElement>(':scope > :is(a, button)'),
	];
	const able = (): HTMLElement[] =>
		all().filter((each) => !each.matches(':disabled') && each.checkVisibility());
	/** Where the key was last. */
	let last: HTMLElement | undefined;

	/** What is disabled or out of sight cannot be the stop. */
	function settle(): void {
		const can = able();
		const stop = last && can.includes(last) ? last : can[0];
		for (const each of all()) each.tabIndex = each === stop ? 0 : -1;
	}
	function onfocusin({ target }: FocusEvent): void {
		last = all().find((each) => each === target) ?? last;
		settle();
	}
	function onkeydown(event: KeyboardEvent): void {
		const by = keys[event.key];
		const can = able();
		const from = can.findIndex((each) => each === event.target);
		if (by === undefined || from < 0) return;
		event.preventDefault();
		const to = Number.isFinite(by) ? from + by + can.length : by > 0 ? -1 : 0;
		can.at(to % can.length)?.focus();
	}

	/** Which are disabled. Whether one is seen takes the layout of the page, so that is asked only when this is another. */
	const states = (): string =>
		all()
			.map((each) => each.matches(':disabled'))
			.join();
	let known = states();
	settle();
	const changes = new MutationObserver(() => {
		const now = states();
		if (now === known) return;
		known = now;
		settle();
	});
	changes.observe(row, { childList: true, subtree: true, attributeFilter: ['disabled'] });
	// A narrower window may show fewer of them.
	const sizes = new ResizeObserver(settle);
	sizes.observe(row);
	row.addEventListener('focusin', onfocusin);
	row.addEventListener('keydown', onkeydown);
	return () => {
		changes.disconnect();
		sizes.disconnect();
		row.removeEventListener('focusin', onfocusin);
		row.removeEventListener('keydown', onkeydown);
	};
};
