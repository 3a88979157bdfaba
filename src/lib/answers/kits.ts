/** What is said of the kits of a comparison. */
import { showFigure } from '../units/shown.ts';
import { shownForNode, valueInWords, type Figures } from './figures.ts';
import type { OptionColumn } from './options.ts';

/** What a kit changes of the stock truck, in words. */
export function setInWords(
	names: readonly string[],
	{ figures }: OptionColumn,
	stock: OptionColumn,
): string {
	const { graph, run } = figures;
	return names
		.flatMap((name) => {
			const node = graph.byId.get(name);
			const value = node && run.value(node.slot);
			if (!node || value === undefined || value === stock.figures.run.value(node.slot)) return [];
			const words = valueInWords(node, value, figures);
			return [`${lowered(node.label)}${node.input?.asks_for === 'choice' ? ':' : ''} ${words}`];
		})
		.join(', ');
}

function lowered(label: string): string {
	return label.charAt(0).toLowerCase() + label.slice(1);
}

/**
 * How far a kit misses what is wanted, in words.
 * @param miss SI, short of it negative
 * @param size its ±, SI
 * @param name of the figure it is a miss of
 */
export function missInWords(miss: number, size: number, name: string, figures: Figures): string {
	const node = figures.graph.byId.get(name);
	const shown = node && shownForNode(node, figures.quantities, figures.system);
	if (!shown) return '';
	if (Math.abs(miss) <= Math.max(size, 0.5 * shown.unit.size * 10 ** -shown.decimals)) {
		return 'as wanted';
	}
	return `${showFigure(Math.abs(miss), shown)} ${miss < 0 ? 'short' : 'over'}`;
}

/** From where to where a scale has to go that shows some values, nought among them, and what is wanted. */
export function reachOfClaims(
	values: readonly number[],
	wanted = 0,
): { readonly low: number; readonly high: number } {
	const all = [0, wanted, ...values];
	const [low, high] = [Math.min(...all), Math.max(...all)];
	const more = (high - low || 1) * 0.06;
	return { low: low - more, high: high + more };
}
