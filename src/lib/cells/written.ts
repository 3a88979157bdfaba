/** Cells as text, for a page that is written before anybody opens it. In a browser there is nothing here. */
import type { Cell } from '../language/kinds/index.ts';
import { componentOf, components, type CellComponent, type LaterKind } from './later.ts';

type Writer = (kind: LaterKind, cell: Cell, context: Map<unknown, unknown>) => string;

async function writer(): Promise<Writer> {
	const { render } = await import('svelte/server');
	const found = new Map<LaterKind, CellComponent>();
	for (const kind of Object.keys(components) as LaterKind[]) {
		found.set(kind, componentOf(await components[kind]()));
	}
	return (kind, cell, context) => {
		const component = found.get(kind);
		if (!component) return '';
		return render(component, { props: { cell }, context, idPrefix: cell.name }).body;
	};
}

/** What a cell shows, as HTML; nothing in a browser. */
export const written: Writer = import.meta.env.SSR ? await writer() : () => '';
