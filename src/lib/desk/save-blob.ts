/** Saves something to a file of the person's own. */
export function saveBlob(name: string, blob: Blob): void {
	const address = URL.createObjectURL(blob);
	const link = document.createElement('a');
	link.href = address;
	link.download = name;
	link.click();
	// The browser takes its time to fetch it.
	setTimeout(() => {
		URL.revokeObjectURL(address);
	}, 10_000);
}
