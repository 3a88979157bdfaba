/** Saves the open job to a file of the person's own. */
import type { OpenJob } from '$lib/desk/open-job.svelte.ts';

export async function saveJob(job: OpenJob): Promise<void> {
	const { name, text } = await job.file();
	saveText(name, text, 'application/json');
}

/** @param type of its content, such as `text/csv` */
export function saveText(name: string, text: string, type: string): void {
	const address = URL.createObjectURL(new Blob([text], { type }));
	const link = document.createElement('a');
	link.href = address;
	link.download = name;
	link.click();
	// The browser takes its time to fetch it.
	setTimeout(() => {
		URL.revokeObjectURL(address);
	}, 10_000);
}
