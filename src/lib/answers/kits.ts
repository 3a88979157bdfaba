/** What is said of the kits of a comparison. */
import type { Movable } from '../drafting/handle.ts';
import { otherwise } from '../engine/run.ts';
import type { CompareCell } from '../language/kinds/compare.ts';
import { showFigure, showReading, typedNumber } from '../units/shown.ts';
import type { Shown } from '../units/quantities.ts';
import { shownForNode, valueInWords, type Figures } from './figures.ts';
import type { OptionColumn } from './options.ts';

/** How much is wanted of the figure that kits are bought for, SI, and the entry that says so. */
export interface Wanted extends Movable {
	/** False while nobody has said how much: its value is then none of theirs. */
	readonly said: boolean;
	readonly label: string;
	readonly words: string;
	readonly shown: Shown;
	readonly input: string;
	/** What would be typed into the entry for another amount. */
	readonly typedFor: (value: number) => string;
}

/**
 * Undefined where the amount does not hang on its entry, or on more that is not entered yet. It may be worked out
 * from the entry, in a straight line: a drop wanted is a height less the height wanted.
 */
export function wantedOf(cell: CompareCell, figures: Figures): Wanted | undefined {
	const { graph, run, quantities, system } = figures;
	const [node, moves] = [cell.wanted, cell.moves].map((name) => graph.byId.get(name ?? ''));
	const shown = node && shownForNode(node, quantities, system);
	const typedIn = moves && shownForNode(moves, quantities, system);
	if (!node || !moves || !shown || !typedIn) return undefined;
	const input = moves.input && 'limits' in moves.input ? moves.input : undefined;
	const entered = run.number(moves.slot);
	const from = entered ?? input?.sensible?.low ?? 0;
	const at = (entry: number): number =>
		otherwise(graph, run, new Map([[moves.id, entry]])).number(node.slot) ?? NaN;
	const value = run.number(node.slot) ?? at(from);
	const slope = (at(from + typedIn.step) - value) / typedIn.step;
	if (!Number.isFinite(slope) || slope === 0) return undefined;
	const ends = [input?.limits?.low ?? -Infinity, input?.limits?.high ?? Infinity].map(
		(end) => value + slope * (end - from),
	);
	return {
		...{ value, shown, step: shown.step, said: entered !== undefined },
		...{ label: node.label, words: showReading(value, shown), input: moves.id },
		...{ least: Math.min(...ends), most: Math.max(...ends) },
		typedFor: (wanted) => typedNumber(from + (wanted - value) / slope, typedIn),
	};
}

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
