/**
 * The cells that are looked at. On a sheet they come behind its entries and figures, which do not wait for what
 * draws them.
 */
import type { Component } from 'svelte';
import type { OpenJob } from '../desk/open-job.svelte.ts';
import type { Cell } from '../language/kinds/index.ts';

/** A component that shows cells of one kind. */
export type ViewComponent = Component<{ cell: Cell }>;

/** What loads the component of each kind. */
export const views = {
	drawing: () => import('./DrawingCell.svelte'),
	ways: () => import('./WaysCell.svelte'),
	chart: () => import('./ChartCell.svelte'),
	compare: () => import('./CompareCell.svelte'),
	search: () => import('./SearchCell.svelte'),
	against: () => import('./AgainstCell.svelte'),
	overview: () => import('./OverviewCell.svelte'),
	bars: () => import('./BarsCell.svelte'),
} satisfies Partial<Record<Cell['kind'], () => Promise<unknown>>>;

export type ViewKind = keyof typeof views;
export type ViewCell = Extract<Cell, { kind: ViewKind }>;

/** Kinds that show the truck. */
const drawing = new Set<ViewKind>(['drawing', 'ways']);
/** Kinds that show cells of other pages. */
const ofOthers = new Set<ViewKind>(['ways', 'compare', 'overview']);

/** Whether a cell is looked at, and wants the width of the sheet. */
export function isView(cell: Cell): cell is ViewCell {
	return cell.kind in views;
}

/**
 * Loads what shows cells of a kind, and puts into the job what they show beside their own.
 * @throws when the network does not give it
 */
export async function loadView(kind: ViewKind, job: OpenJob): Promise<ViewComponent> {
	const [loaded] = await Promise.all([
		views[kind](),
		drawing.has(kind) && job.loadDrawing(),
		ofOthers.has(kind) && job.loadShared(),
	]);
	return asView(loaded);
}

/** A component of one kind is only ever given cells of that kind. */
export function asView(loaded: { readonly default: unknown }): ViewComponent {
	return loaded.default as ViewComponent;
}
