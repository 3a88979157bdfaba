/** The mark of a chart, which moves the entry that is swept. */
import { keyed, snapped, type Movable } from '../drafting/handle.ts';
import { typedNumber } from '../units/shown.ts';
import { entryAt, type Plot } from './charts.ts';
import { shownForNode, type Figures } from './figures.ts';

/** What the mark may do with the entry; undefined while nothing is entered. */
export function movableOf({ input, swept }: Plot, figures: Figures): Movable | undefined {
	const value = figures.run.number(input.slot);
	const shown = shownForNode(input, figures.quantities, figures.system);
	if (value === undefined || !shown) return undefined;
	const limits = input.input && 'limits' in input.input ? input.input.limits : undefined;
	return {
		value,
		step: shown.step,
		least: limits?.low ?? Math.min(swept.at[0] ?? value, value),
		most: limits?.high ?? Math.max(swept.at.at(-1) ?? value, value),
	};
}

/** What would be typed with the mark at a place along the bottom, in shown units. */
export function typedAt(plot: Plot, x: number, figures: Figures): string | undefined {
	const movable = movableOf(plot, figures);
	return movable && typed(snapped(movable, entryAt(plot, x, movable.value)), plot, figures);
}

/**
 * What would be typed after a key; undefined where the key does not move the mark. Up and down go by the entry,
 * left and right by the drawing: where a larger entry stands farther to the left, they change places.
 */
export function typedByKey(
	plot: Plot,
	key: string,
	shift: boolean,
	figures: Figures,
): string | undefined {
	const movable = movableOf(plot, figures);
	if (!movable) return undefined;
	const along = plot.along.filter((value) => value !== undefined);
	const leftward = (along.at(-1) ?? 0) < (along[0] ?? 0);
	const turned: Readonly<Record<string, string>> = {
		ArrowRight: 'ArrowLeft',
		ArrowLeft: 'ArrowRight',
	};
	const value = keyed(movable, (leftward && turned[key]) || key, shift);
	return value === undefined || value === movable.value ? undefined : typed(value, plot, figures);
}

function typed(value: number, { input }: Plot, figures: Figures): string | undefined {
	const shown = shownForNode(input, figures.quantities, figures.system);
	return shown && typedNumber(value, shown);
}
