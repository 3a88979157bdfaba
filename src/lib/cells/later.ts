/**
 * Cells that come behind the entries, checks and figures of a sheet, which do not wait for what shows them: what
 * is looked at, and what is folded away.
 */
import type { Component } from 'svelte';
import type { OpenJob } from '../desk/open-job.svelte.ts';
import type { Cell } from '../language/kinds/index.ts';

/** A component that shows cells of one kind. */
export type CellComponent = Component<{ cell: Cell }>;

/** What loads the component of each kind. */
export const components = {
	drawing: () => import('./DrawingCell.svelte'),
	ways: () => import('./WaysCell.svelte'),
	/** Ways that parts are played through. */
	playedWays: () => import('./PlayedWays.svelte'),
	chart: () => import('./ChartCell.svelte'),
	compare: () => import('./CompareCell.svelte'),
	search: () => import('./SearchCell.svelte'),
	against: () => import('./AgainstCell.svelte'),
	overview: () => import('./OverviewCell.svelte'),
	bars: () => import('./BarsCell.svelte'),
	known: () => import('./KnownCell.svelte'),
	explain: () => import('./ExplainCell.svelte'),
	solve: () => import('./SolveCell.svelte'),
	derive: () => import('./DeriveCell.svelte'),
} satisfies Partial<Record<Cell['kind'] | 'playedWays', () => Promise<unknown>>>;

export type LaterKind = keyof typeof components;
export type LaterCell = Extract<Cell, { kind: LaterKind }>;

/** Of those, what stands among words and entries. */
const small = new Set<Cell['kind']>(['explain', 'solve', 'derive']);
/** Kinds that show the truck. */
const drawn = new Set<LaterKind>(['drawing', 'ways']);
/** Kinds that draw with the trade's drawing. */
const drawing = new Set<LaterKind>(['drawing', 'ways', 'playedWays', 'compare', 'search']);
/** Kinds that show cells of other pages. */
const ofOthers = new Set<LaterKind>(['ways', 'playedWays', 'compare', 'overview']);

export function isLater(cell: Cell): cell is LaterCell {
	return cell.kind in components;
}

/** Which of the components shows a cell. */
export function laterKind(cell: LaterCell): LaterKind {
	return cell.kind === 'ways' && cell.move.length > 0 ? 'playedWays' : cell.kind;
}

/** Whether a cell is looked at, and wants the width of the sheet. */
export function isView(cell: Cell): boolean {
	return isLater(cell) && !small.has(cell.kind);
}

/** Whether a cell shows the truck. */
export function isDrawn(cell: Cell): boolean {
	return isLater(cell) && drawn.has(cell.kind);
}

/**
 * Loads what shows cells of a kind, and puts into the job what they show beside their own.
 * @throws when the network does not give it
 */
export async function loadComponent(kind: LaterKind, job: OpenJob): Promise<CellComponent> {
	const [loaded] = await Promise.all([
		components[kind](),
		drawing.has(kind) && job.loadDrawing(),
		ofOthers.has(kind) && job.loadShared(),
	]);
	return componentOf(loaded);
}

/** A component of one kind is only ever given cells of that kind. */
export function componentOf(loaded: { readonly default: unknown }): CellComponent {
	return loaded.default as CellComponent;
}
