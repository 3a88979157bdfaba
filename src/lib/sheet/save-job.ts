/** Saves the open job to a file of the person's own. */
import type { OpenJob } from '$lib/desk/open-job.svelte.ts';

export async function saveJob(job: OpenJob): Promise<void> {
	const { name, text } = await job.file();
	saveText(name, text, 'application/json');
}

/** Saves all figures and entries as a table for a spreadsheet program. What makes it comes when it is wanted. */
export async function saveFigures(job: OpenJob): Promise<void> {
	const { tableOf } = await import('$lib/desk/job-as-table.ts');
	const { name, text } = await tableOf(job);
	saveText(name, text, 'text/csv;charset=utf-8');
}

/** @param type of its content, such as `text/csv` */
export function saveText(name: string, text: string, type: string): void {
	saveBlob(name, new Blob([text], { type }));
}

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
