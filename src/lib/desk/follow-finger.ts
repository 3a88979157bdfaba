/** Tells when a finger is on a key or on the glass, so that what costs more than a frame can wait for its rest. */

/** Milliseconds after the last of it: longer than between two keys of one who types. */
const rest = 150;

/**
 * Watches a window.
 * @param say called with true when a finger comes down, and with false when it has rested for a while
 * @returns ends it
 */
export function followFinger(window: Window, say: (moving: boolean) => void): () => void {
	let waiting: number | undefined;
	const down = (): void => {
		window.clearTimeout(waiting);
		say(true);
	};
	const up = (): void => {
		window.clearTimeout(waiting);
		waiting = window.setTimeout(() => {
			say(false);
		}, rest);
	};
	const options = { capture: true, passive: true };
	const downs = ['keydown', 'pointerdown'] as const;
	const ups = ['keyup', 'pointerup', 'pointercancel', 'blur'] as const;
	for (const name of downs) window.addEventListener(name, down, options);
	for (const name of ups) window.addEventListener(name, up, options);
	return () => {
		window.clearTimeout(waiting);
		for (const name of downs) window.removeEventListener(name, down, options);
		for (const name of ups) window.removeEventListener(name, up, options);
	};
}
