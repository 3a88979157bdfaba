/**
 * Callouts: boxes or numbered circles in rows above the elevation and under it, each with a leader to its place.
 * They are placed together, for each stands in the way of the others: boxes never over one another, leaders
 * never through a box, and as short and as uncrossed as a few rounds of moving and swapping make them.
 */
import { block, placeBlock, type Block, type Run } from '../../drafting/lettering.ts';
import type { Ink } from '../../drafting/lines.ts';
import { boxShape, type Area, type Place } from '../../drafting/shapes.ts';
import type { CalloutBox, EntryState } from '../../drafting/callout.ts';
import { edgeToward, leader } from './label.ts';
import { hairline, type Proposal } from './sheet-of-paper.ts';

/** What a callout takes on the paper. */
export interface CalloutWords {
	readonly name: string;
	readonly state: EntryState;
	readonly label: string;
	readonly value: string;
	/** Beside the value, smaller. */
	readonly plusMinus?: string;
	readonly number?: number;
}

/** A callout on the paper. */
export interface CalloutMade extends Proposal {
	readonly callout: CalloutBox;
	/** The place it has among those that are tried, to be kept. */
	readonly index: number;
}

/** Side of a circle, and height of a box, px. */
const circle = 28;
const boxHeight = 42;

/** The words of a box: its label over its value. */
function calloutBlock({ number, label, value, plusMinus, state }: CalloutWords): Block {
	const faint = state === 'untouched' || state === 'assumed';
	const counted = number === undefined ? label : `${String(number)} ${label}`;
	const first: Run = { text: counted, size: 11, ink: 'soft' };
	const second: Run[] = [{ text: value, size: 15, ink: faint ? 'soft' : 'line' }];
	if (plusMinus !== undefined) second.push({ text: plusMinus, size: 11, ink: 'soft' });
	return block([[first], second]);
}

function innerOf(words: CalloutWords, round: boolean): Block {
	if (!round) return calloutBlock(words);
	// A reading that was taken is a filled circle.
	const ink: Ink = words.state === 'measured' ? 'paper' : 'line';
	return block([[{ text: String(words.number ?? ''), size: 13, ink, bold: true }]]);
}

/** What a callout takes, px: whatever is typed into it, it stays as wide as it is. */
function sizeOf(inner: Block, round: boolean): { width: number; height: number } {
	if (round) return { width: circle, height: circle };
	const label = inner.lines[0]?.width ?? 0;
	return { width: Math.max(136, label + 16), height: boxHeight };
}

/** Rows of callouts above the elevation and under it. */
export interface CalloutRows {
	readonly above: number;
	readonly under: number;
	/** From one row to the next, px. */
	readonly apart: number;
}

/** As many rows as they need side by side; one to spare for boxes, which are too wide to stand where they like. */
export function calloutRows(
	callouts: readonly CalloutWords[],
	width: number,
	round: boolean,
): CalloutRows {
	const apart = (round ? circle : boxHeight) + 8;
	if (callouts.length === 0) return { above: 0, under: 0, apart };
	const wide = (words: CalloutWords): number => sizeOf(innerOf(words, round), round).width + 8;
	const sum = callouts.reduce((all, words) => all + wide(words), 0);
	const rows = Math.max(2, Math.ceil(sum / width) + (round ? 0 : 1));
	return { above: Math.ceil(rows / 2), under: Math.floor(rows / 2), apart };
}

/** One callout while they are placed. */
interface Item {
	readonly words: CalloutWords;
	readonly anchor: Place;
	readonly inner: Block;
	readonly width: number;
	readonly height: number;
	spot: Spot | undefined;
}

/** Where a box may stand. */
interface Spot {
	readonly index: number;
	/** Middle of the box. */
	readonly x: number;
	readonly y: number;
	/** Where its leader leaves it. */
	readonly edge: Place;
}

/** How far apart the places in a row are that are tried, px; and more than there are in any row. */
const grid = 10;
const perRow = 1000;
/** Space between two boxes, px. */
const between = 6;
/** What it costs, in px of leader. */
const cost = { overBox: 5000, throughBox: 900, across: 160, grazing: 120 } as const;

function spotsOf(item: Item, area: Area, rows: CalloutRows): Spot[] {
	const { width, height, anchor } = item;
	const spots: Spot[] = [];
	for (let row = 0; row < rows.above + rows.under; row++) {
		const under = row - rows.above;
		const y =
			under < 0
				? area.top + height / 2 + 2 + row * rows.apart
				: area.bottom - height / 2 - 2 - under * rows.apart;
		let column = 0;
		for (let x = area.left + width / 2 + 2; x <= area.right - width / 2; x += grid) {
			const edge = edgeToward({ x, y }, width, height, anchor);
			spots.push({ index: row * perRow + column, x, y, edge });
			column += 1;
		}
	}
	return spots;
}

/** Which side of the line from a to b a place lies on. */
function side(a: Place, b: Place, place: Place): number {
	return (b.x - a.x) * (place.y - a.y) - (b.y - a.y) * (place.x - a.x);
}

function cross(a: Place, b: Place, c: Place, d: Place): boolean {
	return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

/** So close to a box that is not its own a leader seems to go through it, and so close it grazes it, px. */
const seemsThrough = 3;
const grazes = 8;

/** Whether a line comes so close to a box. */
function comesTo(
	from: Place,
	to: Place,
	middle: Place,
	{ width, height }: Pick<Item, 'width' | 'height'>,
	close: number,
): boolean {
	const [half, tall] = [width / 2 + close, height / 2 + close];
	const [left, right] = [middle.x - half, middle.x + half];
	const [top, bottom] = [middle.y - tall, middle.y + tall];
	if (Math.max(from.x, to.x) < left || Math.min(from.x, to.x) > right) return false;
	if (Math.max(from.y, to.y) < top || Math.min(from.y, to.y) > bottom) return false;
	return (
		cross(from, to, { x: left, y: top }, { x: right, y: bottom }) ||
		cross(from, to, { x: left, y: bottom }, { x: right, y: top })
	);
}

function leaderCost(from: Place, to: Place, middle: Place, box: Item): number {
	if (!comesTo(from, to, middle, box, grazes)) return 0;
	return comesTo(from, to, middle, box, seemsThrough) ? cost.throughBox : cost.grazing;
}

/** What stands wrong between two callouts. */
function clash(one: Item, spot: Spot, other: Item, at: Spot): number {
	const near =
		Math.abs(spot.x - at.x) < (one.width + other.width) / 2 + between &&
		Math.abs(spot.y - at.y) < (one.height + other.height) / 2 + between - 1;
	let sum = near ? cost.overBox : 0;
	sum +=
		leaderCost(spot.edge, one.anchor, at, other) + leaderCost(at.edge, other.anchor, spot, one);
	if (cross(spot.edge, one.anchor, at.edge, other.anchor)) sum += cost.across;
	return sum;
}

function costOf(item: Item, spot: Spot, items: readonly Item[], most = Infinity): number {
	let sum = Math.hypot(spot.edge.x - item.anchor.x, spot.edge.y - item.anchor.y);
	for (const other of items) {
		if (sum >= most) return sum;
		if (other !== item && other.spot) sum += clash(item, spot, other, other.spot);
	}
	return sum;
}

function bestOf(item: Item, spots: readonly Spot[], items: readonly Item[]): Spot | undefined {
	let best = item.spot;
	let least = best ? costOf(item, best, items) - 1e-6 : Infinity;
	for (const spot of spots) {
		const full = costOf(item, spot, items, least);
		if (full < least) [best, least] = [spot, full];
	}
	return best;
}

/** Two that would stand better in one another's place change places. */
function swapped(items: readonly Item[], spots: ReadonlyMap<Item, readonly Spot[]>): boolean {
	const nearest = (item: Item, { x, y }: Spot): Spot | undefined => {
		let best: Spot | undefined;
		for (const spot of spots.get(item) ?? []) {
			if (spot.y === y && (!best || Math.abs(spot.x - x) < Math.abs(best.x - x))) best = spot;
		}
		return best;
	};
	let any = false;
	for (const [index, one] of items.entries()) {
		for (const other of items.slice(index + 1)) {
			const [a, b] = [one.spot, other.spot];
			if (!a || !b) continue;
			const was = costOf(one, a, items) + costOf(other, b, items);
			[one.spot, other.spot] = [nearest(one, b), nearest(other, a)];
			const now =
				one.spot && other.spot
					? costOf(one, one.spot, items) + costOf(other, other.spot, items)
					: Infinity;
			if (now < was - 1) any = true;
			else [one.spot, other.spot] = [a, b];
		}
	}
	return any;
}

/** Rounds of moving and swapping; most trucks need three. */
const rounds = 8;

/** What all of them cost together. */
function sumOf(items: readonly Item[]): number {
	return items.reduce((sum, item) => sum + (item.spot ? costOf(item, item.spot, items) : 0), 0);
}

/** Moves and swaps them until none would stand better, beginning in three orders: where it ends hangs on where it began. */
function settle(items: readonly Item[], spots: ReadonlyMap<Item, readonly Spot[]>): void {
	let least = Infinity;
	let best: readonly (Spot | undefined)[] = [];
	for (const order of [items, [...items].reverse(), byPlace(items)]) {
		for (const item of items) item.spot = undefined;
		for (const item of order) item.spot = bestOf(item, spots.get(item) ?? [], items);
		for (let turn = 0; turn < rounds; turn++) {
			let moved = false;
			for (const item of order) {
				const next = bestOf(item, spots.get(item) ?? [], items);
				moved ||= next !== item.spot;
				item.spot = next;
			}
			if (!swapped(items, spots) && !moved) break;
		}
		const sum = sumOf(items);
		if (sum < least) [least, best] = [sum, items.map(({ spot }) => spot)];
	}
	items.forEach((item, index) => (item.spot = best[index]));
}

/** From the front of the truck to its rear. */
function byPlace(items: readonly Item[]): Item[] {
	return [...items].sort((a, b) => a.anchor.x - b.anchor.x);
}

/**
 * Places callouts together.
 * @param anchors what each points at; one without a place is left out
 * @param kept places of a layout before, by name: what has one keeps it, and what had none stays out
 * @returns those that found a place, the most important first
 */
export function placeCallouts(
	callouts: readonly { readonly words: CalloutWords; readonly anchor: Place | undefined }[],
	area: Area,
	rows: CalloutRows,
	round: boolean,
	kept?: (name: string) => number | undefined,
): CalloutMade[] {
	const items = callouts.flatMap(({ words, anchor }): Item[] => {
		if (!anchor) return [];
		const inner = innerOf(words, round);
		return [{ words, anchor, inner, ...sizeOf(inner, round), spot: undefined }];
	});
	const spots = new Map(items.map((item) => [item, spotsOf(item, area, rows)]));
	const find = (item: Item, index: number | undefined): Spot | undefined =>
		spots.get(item)?.find((spot) => spot.index === index);
	if (kept) {
		for (const item of items) item.spot = find(item, kept(item.words.name));
	} else {
		settle(items, spots);
		// What cannot stand clear of the others is left out, the least important first.
		for (const item of [...items].reverse()) {
			if (item.spot && costOf(item, item.spot, items) >= cost.throughBox) item.spot = undefined;
		}
	}
	return items.flatMap((item) => (item.spot ? [calloutAt(item, item.spot, round)] : []));
}

function calloutAt(item: Item, { index, x, y, edge }: Spot, round: boolean): CalloutMade {
	const { words, anchor, inner, width, height } = item;
	const share = Math.max(0, 1 - 8 / Math.hypot(edge.x - anchor.x, edge.y - anchor.y));
	const short = {
		x: edge.x + (anchor.x - edge.x) * share,
		y: edge.y + (anchor.y - edge.y) * share,
	};
	const text = round
		? placeBlock(inner, { x, y }, 'middle')
		: placeBlock(inner, { x: x - (width - 16 - inner.width) / 2, y });
	const { name, state } = words;
	return {
		index,
		lettering: [{ ...text, callout: true }],
		strokes: leader(edge, anchor, 'line'),
		boxes: [boxShape({ x, y }, width, height)],
		loose: [hairline(edge, short)],
		callout: {
			...{ name, state, width, height, round },
			x: x - width / 2,
			y: y - height / 2,
			at: anchor,
		},
	};
}
