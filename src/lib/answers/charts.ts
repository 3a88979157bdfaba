/** What a chart draws for a run: the swept figures in shown units, the bands, and where things stand now. */
import type { Node } from '../language/graph.ts';
import type { ChartCell, Sweep } from '../language/kinds/chart.ts';
import type { Shown } from '../units/quantities.ts';
import { unitSign } from '../units/shown.ts';
import { sweep, type Swept } from '../engine/sweep.ts';
import { shownForNode, type Figures } from './figures.ts';

export interface Point {
	readonly x: number;
	readonly y: number;
}

export interface Line {
	readonly node: Node;
	readonly label: string;
	/** In shown units; NaN where there is none. */
	readonly points: readonly Point[];
	/** SI, one for each step. */
	readonly values: readonly (number | undefined)[];
	/** Where the present state stands. */
	readonly now?: Point;
}

export interface Band {
	readonly from: number;
	readonly to: number;
	readonly label: string;
}

/** A chart as it is for a run. */
export interface Plot {
	readonly input: Node;
	readonly bottom: Node;
	readonly bottomShown: Shown;
	readonly sideShown: Shown;
	readonly swept: Swept;
	/** What stands along the bottom at each step, SI. */
	readonly along: readonly (number | undefined)[];
	readonly lines: readonly Line[];
	readonly bands: readonly Band[];
}

/** Values along a sweep: enough that a line looks round. */
const steps = 91;

/** Undefined while the ends of the sweep, or what is drawn, are not known. */
export function plotOf(
	cell: ChartCell,
	wish: Sweep | undefined,
	figures: Figures,
): Plot | undefined {
	const { graph, run, quantities, system } = figures;
	const nodeOf = (name: string | undefined): Node | undefined =>
		name === undefined ? undefined : graph.byId.get(name);
	const valueOf = (node: Node | undefined): number | undefined => node && run.number(node.slot);
	const input = nodeOf(wish?.input);
	const bottom = nodeOf(cell.bottom) ?? input;
	const drawn = cell.draw.flatMap((name) => nodeOf(name) ?? []);
	const [first] = drawn;
	const low = valueOf(nodeOf(wish?.from));
	const high = valueOf(nodeOf(wish?.to));
	if (!input || !bottom || !first || low === undefined || high === undefined) return undefined;
	const bottomShown = shownForNode(bottom, quantities, system);
	const sideShown = shownForNode(first, quantities, system);
	if (!bottomShown || !sideShown) return undefined;
	const swept = sweep(graph, run, input.slot, low, high, steps, [
		bottom.slot,
		...drawn.map(({ slot }) => slot),
	]);
	const along = bottom === input ? swept.at : (swept.found[0] ?? []);
	const inUnit = (value: number | undefined, { unit }: Shown): number =>
		value === undefined ? NaN : value / unit.size;
	const now = valueOf(bottom);
	return {
		input,
		bottom,
		bottomShown,
		sideShown,
		swept,
		along,
		lines: drawn.map((node, index): Line => {
			const values = swept.found[index + 1] ?? [];
			const value = valueOf(node);
			return {
				node,
				label: node.label,
				values,
				points: along.map((x, step) => ({
					x: inUnit(x, bottomShown),
					y: inUnit(values[step], sideShown),
				})),
				...(now !== undefined &&
					value !== undefined && {
						now: { x: inUnit(now, bottomShown), y: inUnit(value, sideShown) },
					}),
			};
		}),
		bands: cell.bands.flatMap(({ from, to, label }) => {
			const [low, high] = [valueOf(nodeOf(from)), valueOf(nodeOf(to))];
			return low === undefined || high === undefined
				? []
				: [{ from: inUnit(low, sideShown), to: inUnit(high, sideShown), label }];
		}),
	};
}

/** The title of an axis: what stands on it, and its unit. */
export function axisTitle(words: string, { unit }: Shown): string {
	return unit.name ? `${words} (${unitSign(unit.name)})` : words;
}

/** The title of the side of a chart, where lines of several names stand. */
export function sideTitle({ unit }: Shown): string {
	return unit.name === 'deg' ? 'degrees' : unitSign(unit.name);
}
