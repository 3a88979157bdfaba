/** Keeps the screen lit while hands are under a truck: where the browser may, and without a word where it may not. */

/**
 * Asks for it now and each time the sheet is looked at again, for a browser lets go when it is hidden.
 * @returns lets go
 */
export function stayAwake(
	document: Document,
	{ wakeLock }: { readonly wakeLock?: WakeLock },
): () => void {
	if (!wakeLock) return () => undefined;
	let lock: WakeLockSentinel | undefined;
	let over = false;
	const ask = async (): Promise<void> => {
		if (document.visibilityState !== 'visible' || (lock && !lock.released)) return;
		try {
			const given = await wakeLock.request('screen');
			if (over) await given.release();
			else lock = given;
		} catch {
			// A battery that is low or a page that may not: the screen goes dark as ever.
		}
	};
	const again = (): void => void ask();
	document.addEventListener('visibilitychange', again);
	again();
	return () => {
		over = true;
		document.removeEventListener('visibilitychange', again);
		void lock?.release().catch(() => undefined);
	};
}
