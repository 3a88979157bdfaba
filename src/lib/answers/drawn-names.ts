/** Which names of a workbook a drawing is made from. */
import type { DrawingCell } from '../language/kinds/drawing.ts';
import type { DrawnNames } from '../language/trade.ts';

/** Sections of which every drawing needs what stands there. */
const always = ['says', 'measured_by'];

/** Names that a drawing of these states is made from. */
export function namesDrawn(
	{
		show,
		move,
		dimension,
		detail,
		ask = [],
	}: Pick<DrawingCell, 'show' | 'move' | 'dimension' | 'detail'> &
		Partial<Pick<DrawingCell, 'ask'>>,
	names: DrawnNames = {},
): string[] {
	const travels = names['handles']?.['travel']?.some((name) => move.includes(name));
	const states = ['common', 'before', ...(travels ? ['plan', 'travel'] : []), ...show, ...always];
	const drawn = states.flatMap((section) => Object.values(names[section] ?? {}).flat());
	const joints = detail ? jointsOf(show, names) : [];
	return [...new Set([...drawn, ...move, ...dimension, ...ask, ...joints])];
}

/** Names whose ± a drawing with details letters beyond what its cell names. */
export function jointsOf(show: readonly string[], names: DrawnNames = {}): string[] {
	return show.flatMap((state) =>
		Object.entries(names[state] ?? {}).flatMap(([key, listed]) =>
			key.endsWith('_joint') ? listed : [],
		),
	);
}
