/** Prints something else than the sheet on the screen: made when it is asked for, and gone after. */

/**
 * Prints what stands in the body under the class `apart`, and nothing else.
 * @param after takes it out again
 */
export function printApart(after: () => void): void {
	const { documentElement: root } = document;
	root.classList.add('prints-apart');
	// Some browsers come back from print() before they have printed.
	window.addEventListener(
		'afterprint',
		() => {
			root.classList.remove('prints-apart');
			after();
		},
		{ once: true },
	);
	window.print();
}
