/**
 * What a chart draws for a run: the swept figures in shown units with their ±, the bands, what was before,
 * where things stand now, and where two lines meet.
 */
import { plusMinusInSteps, plusMinusOfAll } from '../engine/plus-minus.ts';
import { otherwise } from '../engine/run.ts';
import { sweep, type Swept } from '../engine/sweep.ts';
import type { Node } from '../language/graph.ts';
import type { ChartCell, Sweep } from '../language/kinds/chart.ts';
import type { Shown } from '../units/quantities.ts';
import { showFigure, unitSign } from '../units/shown.ts';
import { shownForNode, type Figures } from './figures.ts';

export interface Point {
	readonly x: number;
	readonly y: number;
}

export interface Line {
	readonly node: Node;
	readonly label: string;
	/** The label up to its first comma, to stand beside the line: “front joint”. */
	readonly name: string;
	/** In shown units; NaN where there is none. */
	readonly points: readonly Point[];
	/** SI, one for each step. */
	readonly values: readonly (number | undefined)[];
	/** Its ± at each step, in shown units; NaN where there is none. */
	readonly sure?: readonly number[];
	/** Where the present state stands, and what is written there: “front 1.61°”. */
	readonly now?: Point & { readonly words: string };
	/** How it was before anything was moved. */
	readonly before?: Point;
	/** Where each way to do it would put it. */
	readonly ways?: readonly Point[];
}

export interface Band {
	readonly from: number;
	readonly to: number;
	readonly label: string;
}

/** Where two lines are equal, or equal and opposite. */
export interface Meeting {
	/** One place, or one on each line. */
	readonly at: readonly Point[];
	/** What is written there, the longest first. */
	readonly words: readonly string[];
}

/** From where to where an input is swept, SI. */
export interface Reach {
	readonly from: number;
	readonly to: number;
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
	/** What stands there now, in shown units. */
	readonly now?: number;
	readonly lines: readonly Line[];
	readonly bands: readonly Band[];
	readonly meetings: readonly Meeting[];
	/** Ways to do it, where each stands along the bottom. */
	readonly ways: readonly { readonly x: number; readonly words: string }[];
	/** What it means that a figure is nought. */
	readonly nought?: string;
}

/** The ± of what is drawn, at a few steps of a reach: for each line its sizes, SI, from end to end. */
export type Sure = readonly (readonly (number | undefined)[])[];

/** Values along a sweep: enough that a line looks round. */
const steps = 91;
/** Steps at which the ± is found; between them it is taken as straight. */
const sureSteps = 9;

/** What a chart is made of in a graph; undefined while a name is missing. */
function namedIn(cell: ChartCell, wish: Sweep | undefined, { graph }: Figures) {
	const nodeOf = (name: string | undefined): Node | undefined =>
		name === undefined ? undefined : graph.byId.get(name);
	const input = nodeOf(wish?.input);
	const bottom = nodeOf(cell.bottom) ?? input;
	const drawn = cell.draw.flatMap((name) => nodeOf(name) ?? []);
	return input && bottom && drawn.length > 0 ? { input, bottom, drawn } : undefined;
}

const numberNamed = (name: string | undefined, { graph, run }: Figures): number | undefined => {
	const node = name === undefined ? undefined : graph.byId.get(name);
	return node && run.number(node.slot);
};

/** The next of 1, 2, 3, 4, 6, 8 and ten times those that is as large. */
function roundedUp(value: number): number {
	const ten = 10 ** Math.floor(Math.log10(value));
	return ([1, 2, 3, 4, 6, 8].find((each) => each * ten >= value * (1 - 1e-9)) ?? 10) * ten;
}

/**
 * From where to where an input is swept: what the page says, for a part drawn in to half as much again as is
 * planned, since all that could be bought would make the plan a small thing at the edge. It goes by round
 * amounts, so that it holds still while the plan changes a little.
 * @param ways runs of what is marked, which are in sight too
 */
export function reachOf(
	cell: ChartCell,
	wish: Sweep | undefined,
	figures: Figures,
	ways: readonly Figures[] = [],
): Reach | undefined {
	const [from, to] = [numberNamed(wish?.from, figures), numberNamed(wish?.to, figures)];
	const node = namedIn(cell, wish, figures)?.input;
	if (!node || from === undefined || to === undefined || from === to) return undefined;
	const planned = figures.run.number(node.slot);
	if (!node.input?.part || planned === undefined) return { from, to };
	const size = shownForNode(node, figures.quantities, figures.system)?.unit.size ?? 1;
	// A page's own range is known to be worth looking at: a quarter of it is the least that is shown.
	const most = Math.max(1.5 * Math.abs(planned), Math.abs(to - from) / 4);
	const main = roundedUp(most / size) * size;
	const low = planned > 0 ? -main / 8 : -main;
	const high = planned < 0 ? main / 8 : main;
	const [least, utmost] = [Math.min(from, to), Math.max(from, to)];
	// What was planned beyond the page's range is shown too.
	const marked = ways.flatMap(({ run }) => run.number(node.slot) ?? []);
	const beyond = marked.map((at) => Math.sign(at) * roundedUp((1.1 * Math.abs(at)) / size) * size);
	return {
		from: Math.min(Math.max(low, least), planned, ...beyond),
		to: Math.max(Math.min(high, utmost), planned, ...beyond),
	};
}

/**
 * The ± of what is drawn along a reach. It costs some hundred runs, so it is given away step by step: between
 * two of them the caller may let a finger in.
 */
export function* sureAlong(
	cell: ChartCell,
	wish: Sweep | undefined,
	figures: Figures,
	reach: Reach,
	plusMinusOf: (input: Node) => number,
): Generator<undefined, Sure> {
	const named = namedIn(cell, wish, figures);
	if (!named) return [];
	const slots = slotsOf(cell, named.drawn);
	const sizes = slots.map((): (number | undefined)[] => []);
	for (let step = 0; step < sureSteps; step++) {
		const value = reach.from + ((reach.to - reach.from) * step) / (sureSteps - 1);
		const run = otherwise(figures.graph, figures.run, new Map([[named.input.id, value]]));
		const found = yield* plusMinusInSteps(figures.graph, run, plusMinusOf, slots);
		slots.forEach((slot, index) => sizes[index]?.push(found[slot]?.size));
	}
	return sizes;
}

/** The same list for the same cell, for what leads to the slots of a list is found once for each list. */
const slotLists = new WeakMap<ChartCell, readonly number[]>();
function slotsOf(cell: ChartCell, drawn: readonly Node[]): readonly number[] {
	const known = slotLists.get(cell);
	if (known?.every((slot, index) => slot === drawn[index]?.slot)) return known;
	const slots = drawn.map(({ slot }) => slot);
	slotLists.set(cell, slots);
	return slots;
}

/** What lies between the few, at a share of the way along. */
function between(few: readonly (number | undefined)[], share: number): number {
	const at = share * (few.length - 1);
	const below = Math.min(Math.floor(at), few.length - 2);
	const [low = NaN, high = NaN] = [few[below], few[below + 1]];
	return low + (high - low) * (at - below);
}

const inUnit = (value: number | undefined, { unit }: Shown): number =>
	value === undefined ? NaN : value / unit.size;

/**
 * Undefined while the ends of the sweep, or what is drawn, are not known.
 * @param reach from where to where; found from the plan when left out
 * @param sure the ± along that reach
 * @param ways what is marked along the bottom
 */
export function plotOf(
	cell: ChartCell,
	wish: Sweep | undefined,
	figures: Figures,
	reach: Reach | undefined = reachOf(cell, wish, figures),
	sure?: Sure,
	ways: readonly { readonly label: string; readonly figures: Figures }[] = [],
): Plot | undefined {
	const { graph, run, quantities, system } = figures;
	const named = namedIn(cell, wish, figures);
	if (!named || !reach) return undefined;
	const { input, bottom, drawn } = named;
	const bottomShown = shownForNode(bottom, quantities, system);
	const sideShown = drawn[0] && shownForNode(drawn[0], quantities, system);
	if (!bottomShown || !sideShown) return undefined;
	const slots = drawn.map(({ slot }) => slot);
	const wanted = [bottom.slot, ...slots];
	const swept = sweep(graph, run, input.slot, reach.from, reach.to, steps, wanted);
	const along = bottom === input ? swept.at : (swept.found[0] ?? []);
	const x = inUnit(run.number(bottom.slot), bottomShown);
	const stands = ways.flatMap(({ label, figures: { run } }) => {
		const at = inUnit(run.number(bottom.slot), bottomShown);
		return Number.isFinite(at) ? [{ x: at, words: nameOf(label), run }] : [];
	});
	const short = shortNames(drawn.map(({ label }) => nameOf(label)));
	const lines = drawn.map((node, index): Line => {
		const values = swept.found[index + 1] ?? [];
		const value = run.number(node.slot);
		const was = numberNamed(cell.before[index], figures);
		const few = sure?.[index];
		const now = { x, y: inUnit(value, sideShown) };
		const words = `${short[index] ?? ''} ${sizeInWords(value ?? NaN, sideShown, cell)}`;
		return {
			node,
			label: node.label,
			name: nameOf(node.label),
			values,
			points: along.map((at, step) => ({
				x: inUnit(at, bottomShown),
				y: inUnit(values[step], sideShown),
			})),
			...(few && {
				sure: values.map((_, step) => between(few, step / (steps - 1)) / sideShown.unit.size),
			}),
			...(Number.isFinite(now.x) && Number.isFinite(now.y) && { now: { ...now, words } }),
			...(stands.length > 0 && {
				ways: stands.map((way) => ({
					x: way.x,
					y: inUnit(way.run.number(node.slot), sideShown),
				})),
			}),
			...(was !== undefined && { before: { x: 0, y: inUnit(was, sideShown) } }),
		};
	});
	return {
		...{ input, bottom, bottomShown, sideShown, swept, along, lines },
		...(Number.isFinite(x) && { now: x }),
		bands: cell.bands.flatMap(({ from, to, label }) => {
			const [low, high] = [numberNamed(from, figures), numberNamed(to, figures)];
			return low === undefined || high === undefined
				? []
				: [{ from: inUnit(low, sideShown), to: inUnit(high, sideShown), label }];
		}),
		ways: stands.map(({ x, words }) => ({ x, words })),
		meetings: meetingsOf(cell, lines, bottomShown, sideShown),
		...(cell.nought !== undefined && { nought: cell.nought }),
	};
}

/** Where the sign only tells to which side a figure is, its size is what is written. */
function sizeInWords(value: number, shown: Shown, { nought }: ChartCell): string {
	return showFigure(nought === undefined ? value : Math.abs(value), shown);
}

/** Where the first two lines are equal, and where they are equal and opposite, by the names the page gives. */
function meetingsOf(
	cell: ChartCell,
	[first, second]: readonly Line[],
	bottomShown: Shown,
	sideShown: Shown,
): Meeting[] {
	if (!first || !second) return [];
	const briefly = (shown: Shown): Shown => ({
		...shown,
		decimals: Math.max(0, shown.decimals - 1),
	});
	const meetings: Meeting[] = [];
	for (const [words, sign] of [
		[cell.equal, 1],
		[cell.opposite, -1],
	] as const) {
		if (words === undefined) continue;
		for (const { x, y } of equalAt(first.points, second.points, sign)) {
			const long = `${words} at ${showFigure(x * bottomShown.unit.size, briefly(bottomShown))}`;
			const size = `${sign === 1 ? 'both' : 'each'} ${sizeInWords(y * sideShown.unit.size, briefly(sideShown), cell)}`;
			meetings.push({
				at: sign === 1 ? [{ x, y }] : [y, -y].map((each) => ({ x, y: each })),
				words: [`${long}, ${size}`, long, words],
			});
		}
	}
	return meetings;
}

/** Where one line is as high as another times a sign. */
function equalAt(a: readonly Point[], b: readonly Point[], sign: 1 | -1): Point[] {
	const found: Point[] = [];
	const less = (step: number): number => (a[step]?.y ?? NaN) - sign * (b[step]?.y ?? NaN);
	for (let step = 1; step < a.length; step++) {
		const [from, to] = [less(step - 1), less(step)];
		// Not also where the next begins, when one of the steps falls on it.
		if (!(from * to < 0 || (to === 0 && from !== 0))) continue;
		const share = from / (from - to);
		const [p, q] = [a[step - 1], a[step]];
		if (p && q) found.push({ x: p.x + (q.x - p.x) * share, y: p.y + (q.y - p.y) * share });
	}
	return found;
}

/** The entry at a place along the bottom, SI: of several the nearest to what is entered now. */
export function entryAt(plot: Plot, x: number, now: number | undefined): number {
	const { at } = plot.swept;
	const along = plot.along.map((value) => inUnit(value, plot.bottomShown));
	let best: { readonly value: number; readonly miss: number; readonly far: number } | undefined;
	for (let step = 1; step < at.length; step++) {
		const [a = NaN, b = NaN] = [along[step - 1], along[step]];
		const [from = NaN, to = NaN] = [at[step - 1], at[step]];
		const share = a === b ? 0 : Math.max(0, Math.min(1, (x - a) / (b - a)));
		const value = from + (to - from) * share;
		const miss = Math.abs(a + (b - a) * share - x);
		if (Number.isNaN(miss)) continue;
		const far = Math.abs(value - (now ?? value));
		const nearer = !best || miss < best.miss - 1e-9 || (miss < best.miss + 1e-9 && far < best.far);
		if (nearer) best = { value, miss, far };
	}
	return best?.value ?? now ?? NaN;
}

/** A label as it stands inside a chart: up to its first comma, and small. */
export function nameOf(label: string): string {
	const [name = ''] = label.split(',');
	return /^[A-Z][a-z]/.test(name) ? name.charAt(0).toLowerCase() + name.slice(1) : name;
}

/** Names without the words they all end in: “front joint” and “rear joint” are “front” and “rear”. */
export function shortNames(names: readonly string[]): string[] {
	const words = names.map((name) => name.split(' '));
	while (words.length > 1 && words.every((each) => each.length > 1)) {
		const last = words[0]?.at(-1);
		if (words.some((each) => each.at(-1) !== last)) break;
		for (const each of words) each.pop();
	}
	return words.map((each) => each.join(' '));
}

/** The title of an axis: what stands on it, and its unit. */
export function axisTitle(label: string, { unit }: Shown): string {
	const words = unit.name === 'deg' ? 'degrees' : unitSign(unit.name);
	return words ? `${nameOf(label)}, ${words}` : nameOf(label);
}

/** A kit of parts on a chart: where it would put each figure drawn, with the ±, in shown units. */
export interface KitOnChart {
	readonly name: string;
	readonly x: number;
	readonly xSure: number;
	readonly drawn: readonly { readonly y: number; readonly sure: number }[];
}

/** Where a run stands on a chart; undefined where it has no such figures. */
export function kitOnChart(
	cell: ChartCell,
	name: string,
	figures: Figures,
	plusMinusOf: (input: Node) => number,
): KitOnChart | undefined {
	const axes = axesOf(cell, figures);
	if (!axes) return undefined;
	const { bottom, bottomShown, sideShown, drawn } = axes;
	const { graph, run } = figures;
	const slots = [bottom, ...drawn].map(({ slot }) => slot);
	const sizes = plusMinusOfAll(graph, run, plusMinusOf, slots);
	const at = (node: Node, { unit }: Shown): { y: number; sure: number } => ({
		y: (run.number(node.slot) ?? NaN) / unit.size,
		sure: (sizes[node.slot]?.size ?? 0) / unit.size,
	});
	const { y: x, sure: xSure } = at(bottom, bottomShown);
	const points = drawn.map((node) => at(node, sideShown));
	const known = [x, ...points.map(({ y }) => y)].every((value) => Number.isFinite(value));
	return known ? { name, x, xSure, drawn: points } : undefined;
}

/** How a chart's axes are shown; undefined while a name is missing. */
export function axesOf(
	cell: ChartCell,
	figures: Figures,
):
	| {
			readonly bottom: Node;
			readonly bottomShown: Shown;
			readonly sideShown: Shown;
			readonly drawn: readonly Node[];
	  }
	| undefined {
	const named = namedIn(cell, cell.sweeps[0], figures);
	const { quantities, system } = figures;
	const bottomShown = named && shownForNode(named.bottom, quantities, system);
	const sideShown = named?.drawn[0] && shownForNode(named.drawn[0], quantities, system);
	return named && bottomShown && sideShown
		? { bottom: named.bottom, bottomShown, sideShown, drawn: named.drawn }
		: undefined;
}
