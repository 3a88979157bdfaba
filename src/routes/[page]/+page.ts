import { shipped } from '$lib/desk/shipped.ts';
import { error } from '@sveltejs/kit';
import type { EntryGenerator, PageLoad } from './$types';

export const entries: EntryGenerator = () => shipped.pages.map(({ id }) => ({ page: id }));

export const load: PageLoad = ({ params }) => {
	const page = shipped.pages.find(({ id }) => id === params.page);
	if (!page) {
		error(
			404,
			`There is no page “${params.page}” in this workbook. Choose one from the page list.`,
		);
	}
	return { page };
};
