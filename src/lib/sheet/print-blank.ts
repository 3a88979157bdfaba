/** Prints a blank reading sheet: made when it is asked for, in place of the sheet on the screen, and gone after. */
import { mount, tick, unmount } from 'svelte';
import type { OpenJob } from '$lib/desk/open-job.svelte.ts';
import type { Page } from '$lib/language/workbook.ts';
import BlankSheet from './BlankSheet.svelte';
import type { Layout } from './layout.ts';

export async function printBlank(job: OpenJob, page: Page, layout: Layout): Promise<void> {
	const { body, documentElement: root, fonts } = document;
	const sheet = mount(BlankSheet, { target: body, props: { job, page, layout } });
	root.classList.add('prints-blank');
	await tick();
	await fonts.ready;
	// Some browsers come back from print() before they have printed.
	window.addEventListener(
		'afterprint',
		() => {
			root.classList.remove('prints-blank');
			void unmount(sheet);
		},
		{ once: true },
	);
	window.print();
}
