/** Views as text, for a page that is written before anybody opens it. In a browser there is nothing here. */
import type { Cell } from '../language/kinds/index.ts';
import { asView, views, type ViewComponent, type ViewKind } from './views.ts';

type Writer = (kind: ViewKind, cell: Cell, context: Map<unknown, unknown>) => string;

async function writer(): Promise<Writer> {
	const { render } = await import('svelte/server');
	const components = new Map<ViewKind, ViewComponent>();
	for (const kind of Object.keys(views) as ViewKind[]) {
		components.set(kind, asView(await views[kind]()));
	}
	return (kind, cell, context) => {
		const component = components.get(kind);
		if (!component) return '';
		return render(component, { props: { cell }, context, idPrefix: cell.name }).body;
	};
}

/** What a view shows, as HTML; nothing in a browser. */
export const written: Writer = import.meta.env.SSR ? await writer() : () => '';
