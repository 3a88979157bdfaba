/** Components as text, for a page that is written before anybody opens it. In a browser there is nothing here. */
import type { Component } from 'svelte';
import {
	componentOf,
	components,
	laterKind,
	type CellComponent,
	type LaterCell,
	type LaterKind,
} from './later.ts';

type Context = Map<unknown, unknown>;

const render = import.meta.env.SSR ? (await import('svelte/server')).render : undefined;

/** What a component shows, as HTML; nothing in a browser. */
export function writtenAs<Props extends Record<string, unknown>>(
	component: Component<Props> | undefined,
	props: Props,
	context: Context,
	idPrefix: string,
): string {
	if (!render || !component) return '';
	return render(component as Component<Record<string, unknown>>, { props, context, idPrefix }).body;
}

const cells = import.meta.env.SSR ? await allComponents() : undefined;

async function allComponents(): Promise<ReadonlyMap<LaterKind, CellComponent>> {
	const found = new Map<LaterKind, CellComponent>();
	for (const kind of Object.keys(components) as LaterKind[]) {
		found.set(kind, componentOf(await components[kind]()));
	}
	return found;
}

/** What a cell shows, as HTML; nothing in a browser. */
export function cellWritten(cell: LaterCell, context: Context): string {
	return writtenAs(cells?.get(laterKind(cell)), { cell }, context, cell.name);
}
