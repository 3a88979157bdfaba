import { shippedDrawing } from '$lib/desk/shipped.ts';
import type { PageLoad } from './$types';

/** The jobs are shown as drawings, all of which come with this page. */
export const load: PageLoad = async () => ({ drawing: await shippedDrawing() });
