import { shipped, shippedShared } from '$lib/desk/shipped.ts';
import { error } from '@sveltejs/kit';
import type { EntryGenerator, PageLoad } from './$types';

export const entries: EntryGenerator = () =>
	shipped.errands.filter(({ ask }) => ask.length > 0).map(({ id }) => ({ errand: id }));

export const load: PageLoad = async ({ params }) => {
	const errand = shipped.errands.find(({ id }) => id === params.errand);
	if (!errand) error(404, 'There is no such errand. Go back to the first page and choose one.');
	return { errand, shared: await shippedShared() };
};
