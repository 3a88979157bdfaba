/** Saves the open job to a file of the person's own. */
import { saveBlob } from '$lib/desk/save-blob.ts';
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
