/** Prints a blank reading sheet. */
import { mount, tick, unmount } from 'svelte';
import type { OpenJob } from '$lib/desk/open-job.svelte.ts';
import type { Page } from '$lib/language/workbook.ts';
import BlankSheet from './BlankSheet.svelte';
import type { Layout } from './layout.ts';
import { printApart } from './print-apart.ts';

export async function printBlank(job: OpenJob, page: Page, layout: Layout): Promise<void> {
	const sheet = mount(BlankSheet, { target: document.body, props: { job, page, layout } });
	await tick();
	await document.fonts.ready;
	printApart(() => void unmount(sheet));
}
