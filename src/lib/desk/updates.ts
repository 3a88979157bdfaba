/** Hears when a later build of the program is in the browser and waits. */

/**
 * @param found is called with what takes it: this window is loaded anew with it
 * @returns ends it
 */
export function hearOfUpdates(found: (take: () => void) => void): () => void {
	const ended = new AbortController();
	const { signal } = ended;
	void navigator.serviceWorker.getRegistration().then((registration) => {
		if (!registration || signal.aborted) return;
		const offer = (): void => {
			const { waiting } = registration;
			// The first one ever waits for nobody.
			if (!waiting || !navigator.serviceWorker.controller) return;
			found(() => {
				const reload = (): void => {
					location.reload();
				};
				navigator.serviceWorker.addEventListener('controllerchange', reload, { once: true });
				waiting.postMessage('take over');
			});
		};
		offer();
		registration.addEventListener(
			'updatefound',
			() => registration.installing?.addEventListener('statechange', offer, { signal }),
			{ signal },
		);
	});
	return () => {
		ended.abort();
	};
}
