/** Whether the page is on its way to paper. */
import { flushSync } from 'svelte';

/**
 * Follows the browser's printing. What belongs to paper alone is made when printing begins and taken out
 * after it, so that a screen never carries it; it is there before the browser takes its picture.
 * Call it while a component is set up.
 */
export function followPrinting(): { readonly now: boolean } {
	let now = $state(false);
	$effect(() => {
		const to = (printing: boolean) => (): void => {
			now = printing;
			flushSync();
		};
		const [begins, ends] = [to(true), to(false)];
		addEventListener('beforeprint', begins);
		addEventListener('afterprint', ends);
		return () => {
			removeEventListener('beforeprint', begins);
			removeEventListener('afterprint', ends);
		};
	});
	return {
		get now() {
			return now;
		},
	};
}
