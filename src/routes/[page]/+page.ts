import { building } from '$app/environment';
import { shipped, shippedWords } from '$lib/desk/shipped.ts';
import { error } from '@sveltejs/kit';
import type { EntryGenerator, PageLoad } from './$types';

const ids = shipped.pages.map(({ id }) => id);

export const entries: EntryGenerator = () => ids.map((page) => ({ page }));

/**
 * Which page, and its words as shipped; what else stands on it is the open workbook's to say. A job may have
 * pages that no build has heard of; but a link of a shipped page that leads nowhere ends the build.
 */
export const load: PageLoad = async ({ params }) => {
	if (building && !ids.includes(params.page)) error(404, `There is no page “${params.page}”.`);
	return { id: params.page, words: await shippedWords(params.page) };
};
