/**
 * Where everything of a chart stands on its paper: the axes, and the lettering where there is room for it.
 * Paper: px, x to the right, y down. No browser is needed: the widths of letters are known.
 */
import { textWidth } from '../drafting/lettering.ts';
import {
	boxShape,
	inside,
	lineShape,
	ShapeIndex,
	type Area,
	type Place,
	type Shape,
} from '../drafting/shapes.ts';
import type { Band, Meeting, Point } from './charts.ts';
import { ticks, tickStep, tickWords } from './ticks.ts';

/** A line, or dots, as far as it is drawn. */
export interface DrawnLine {
	/** What is written beside it. */
	readonly name: string;
	readonly points: readonly Point[];
	/** ± at each point. */
	readonly sure?: readonly number[];
	readonly now?: Point & { readonly words?: string };
	/** Whether the figure there is clear of its ±. */
	readonly clear?: boolean;
	readonly before?: Point;
	/** Where each way to do it would put it. */
	readonly ways?: readonly Point[];
	/** Where kits of parts would put it, with the number of each and its ±. */
	readonly kits?: readonly KitPoint[];
}

export interface KitPoint extends Point {
	readonly number: number;
	/** ± along the bottom and up the side. */
	readonly sure: Point;
}

export interface DrawnChart {
	readonly lines: readonly DrawnLine[];
	readonly bands: readonly Band[];
	readonly meetings?: readonly Meeting[];
	/** What it means that a figure is nought. */
	readonly nought?: string;
	/** What stands along the bottom, with its unit. */
	readonly bottom: string;
	/** The unit up the side. */
	readonly sideUnit: string;
	/** What stands up the side, where the lines do not say it themselves. */
	readonly side?: string;
	/** Where along the bottom the mark stands that moves the entry. */
	readonly mark?: number;
	/** The word for it, where the lines do not say it. */
	readonly markWord?: string;
	/** Ways to do it, where each stands along the bottom, and what it is called. */
	readonly ways?: readonly { readonly x: number; readonly words: string }[];
	/** From where to where along the bottom, while the mark is held. */
	readonly reach?: Range;
	/** Whether each point stands for itself. */
	readonly dots?: boolean;
}

/** An ink by its name on the sheet; a number is that of a line. */
export type ChartInk = 'line' | 'soft' | 'pencil' | 'band-text' | number;

/** Words where they stand. */
export interface Letter {
	readonly text: string;
	/** Left end of the base line. */
	readonly x: number;
	readonly y: number;
	readonly size: number;
	readonly ink: ChartInk;
	readonly bold: boolean;
	readonly shape: Shape;
}

export interface ChartSheet {
	readonly width: number;
	readonly height: number;
	/** Within the axes. */
	readonly area: Area;
	readonly low: Point;
	readonly high: Point;
	/** Values at which a line of the grid stands. */
	readonly across: readonly number[];
	readonly up: readonly number[];
	readonly letters: readonly Letter[];
	/** From words to the place they speak of. */
	readonly leaders: readonly (readonly [Place, Place])[];
	/** Of the handle at the foot of the mark, half its side. */
	readonly mark?: Place;
}

/** Half the side of the square at the foot of the mark. */
export const markHalf = 10;

export interface Range {
	readonly low: number;
	readonly high: number;
}

function rangeOf(values: readonly number[]): Range | undefined {
	const known = values.filter((value) => Number.isFinite(value));
	return known.length === 0 ? undefined : { low: Math.min(...known), high: Math.max(...known) };
}

/** Values with a share of room beyond both ends, and never without extent. */
function roomy({ low, high }: Range, share: number): Range {
	const more = high > low ? (high - low) * share : Math.max(1, Math.abs(high)) / 2;
	return { low: low - more, high: high + more };
}

/** What the chart reaches up the side: all of the lines, but where bands say what matters not far beyond. */
function sideRange({ lines, bands, dots, nought }: DrawnChart): Range {
	const marked = lines.flatMap(({ now, before, ways = [], kits = [] }) => [
		...[now, before, ...ways].flatMap((point) => (point ? [point.y] : [])),
		...kits.flatMap(({ y, sure }) => [y - sure.y, y + sure.y]),
	]);
	const drawn = lines.flatMap(({ points }) => points.map(({ y }) => y));
	const edges = bands.flatMap(({ from, to }) => [from, to]);
	const zero = nought === undefined ? [] : [0];
	const all = rangeOf([...drawn, ...marked, ...zero]) ?? { low: 0, high: 1 };
	const must = rangeOf([...edges, ...marked, ...zero]);
	if (edges.length === 0 || !must || dots) return roomy(all, 0.08);
	const most = roomy(must, 1 / 6);
	return roomy(
		{
			low: Math.min(must.low, Math.max(all.low, most.low)),
			high: Math.max(must.high, Math.min(all.high, most.high)),
		},
		0.02,
	);
}

function bottomRange({ lines, mark, ways = [], reach }: DrawnChart): Range {
	if (reach) return reach;
	const places = lines.flatMap(({ points, now, before, kits = [] }) => [
		...points.filter(({ y }) => Number.isFinite(y)).map(({ x }) => x),
		...[now, before].flatMap((point) => (point ? [point.x] : [])),
		...kits.flatMap(({ x, sure }) => [x - sure.x, x + sure.x]),
	]);
	const stands = [...ways.map(({ x }) => x), ...(mark === undefined ? [] : [mark])];
	const all = rangeOf([...places, ...stands]);
	return roomy(all ?? { low: 0, high: 1 }, 0.02);
}

/** The chart on paper of a size. */
export function chartSheet(drawn: DrawnChart, width: number, height: number): ChartSheet {
	const size = width < 480 ? 11 : 12;
	const [side, bottom] = [sideRange(drawn), bottomRange(drawn)];
	const top = drawn.side === undefined ? 10 : 24;
	const foot = height - 46;
	// A low chart has its steps closer, for without two of them it says nothing.
	const upApart = Math.min(34, Math.max(20, (foot - top) / 6));
	const upStep = tickStep(side.high - side.low, foot - top, upApart);
	const up = ticks(side.low, side.high, upStep);
	const unit = drawn.sideUnit;
	const upWords = up.map((value, index) => {
		// A degree takes no room; another unit stands once, at the top.
		const words = tickWords(value, upStep);
		if (unit === '°') return `${words}°`;
		return index === up.length - 1 && unit ? `${words} ${unit}` : words;
	});
	const left = Math.ceil(Math.max(24, ...upWords.map((words) => textWidth(words, size)))) + 10;
	const area: Area = { left, right: width - 8, top, bottom: foot };
	const acrossApart = width < 480 ? 46 : 64;
	const acrossStep = tickStep(bottom.high - bottom.low, area.right - left, acrossApart);
	const across = ticks(bottom.low, bottom.high, acrossStep);
	const low = { x: bottom.low, y: side.low };
	const high = { x: bottom.high, y: side.high };
	const paper = new Paper(drawn, size, area, { low, high });
	up.forEach((value, index) => {
		const words = upWords[index] ?? '';
		const x = left - 6 - textWidth(words, size) / 2;
		paper.put(words, { x, y: paper.place({ x: 0, y: value }).y }, 'line');
	});
	for (const value of across) {
		const words = tickWords(value, acrossStep);
		const half = textWidth(words, size) / 2;
		const { x } = paper.place({ x: value, y: 0 });
		if (x + half <= width) paper.put(words, { x, y: foot + markHalf + 5 + size / 2 }, 'line');
	}
	const half = textWidth(drawn.bottom, size) / 2;
	const middle = Math.min(Math.max((area.left + area.right) / 2, half), width - half);
	paper.put(drawn.bottom, { x: middle, y: height - size / 2 - 2 }, 'line');
	if (drawn.side !== undefined) {
		paper.put(drawn.side, { x: 2 + textWidth(drawn.side, size) / 2, y: 10 }, 'line');
	}
	paper.letter();
	const mark = drawn.mark === undefined ? undefined : paper.place({ x: drawn.mark, y: low.y });
	return {
		...{ width, height, area, low, high, across, up },
		letters: paper.letters,
		leaders: paper.leaders,
		...(mark && mark.x >= left - 1 && mark.x <= area.right + 1 && { mark }),
	};
}

/** A place on the paper. */
export function placeOn({ area, low, high }: Pick<ChartSheet, 'area' | 'low' | 'high'>) {
	return ({ x, y }: Point): Place => ({
		x: area.left + ((x - low.x) / (high.x - low.x)) * (area.right - area.left),
		y: area.bottom - ((y - low.y) / (high.y - low.y)) * (area.bottom - area.top),
	});
}

/** Where words may stand: their middle, and whether a leader goes from there to what they speak of. */
interface Choice {
	readonly at: Place;
	readonly to?: Place;
}

/** Room round words, px: more beside than over them. */
const clearBeside = 3;
const clearOver = 1;
/** Room between words that speak of different things, px, where there is any: close together they read as one. */
const wordsApart = { beside: 10, over: 7 };
/** So far from its end a leader is still beside the line that it speaks of, px. */
const closeToOwn = 8;
/** How words may stand, the best first: by themselves, with a leader across a line, close to others. */
const manners = [
	{ apart: wordsApart, crossing: false },
	{ apart: wordsApart, crossing: true },
	{ apart: { beside: clearBeside, over: clearOver }, crossing: true },
] as const;
/** Height of the ink of letters of a size: from a capital's top to the foot of a comma. */
const inkHeight = 1.05;

/** Paper that lettering is put on: none over other lettering, over a line of the chart or off the axes. */
class Paper {
	readonly letters: Letter[] = [];
	readonly leaders: [Place, Place][] = [];
	readonly #drawn: DrawnChart;
	readonly #size: number;
	readonly #area: Area;
	readonly place: (point: Point) => Place;
	/** What was lettered, and what lettering keeps off: lines, rings and the mark. */
	readonly #taken = new ShapeIndex();
	/** What was lettered: a leader may go over a line, but not over words. */
	readonly #words = new ShapeIndex();
	/** The chart's lines: a leader across one of them seems to speak of it. */
	readonly #lines = new ShapeIndex();

	constructor(
		drawn: DrawnChart,
		size: number,
		area: Area,
		{ low, high }: { readonly low: Point; readonly high: Point },
	) {
		this.#drawn = drawn;
		this.#size = size;
		this.#area = area;
		this.place = placeOn({ area, low, high });
		this.#takeLines();
	}

	#takeLines(): void {
		const { lines, dots, nought, mark, ways = [], meetings = [] } = this.#drawn;
		const { left, right, top, bottom } = this.#area;
		const ring = (point: Point, half: number): void => {
			this.#taken.add(boxShape(this.place(point), 2 * half, 2 * half));
		};
		const upright = (at: number, width: number): void => {
			const { x } = this.place({ x: at, y: 0 });
			this.#taken.add(lineShape({ x, y: top }, { x, y: bottom }, width, 1));
		};
		for (const { x } of ways) upright(x, 1);
		for (const { points, now, before, ways: stands = [], kits = [] } of lines) {
			for (const point of stands) ring(point, 6);
			for (const way of dots ? [] : pathsIn(points.map(this.place), this.#area)) {
				way.slice(1).forEach((to, index) => {
					const line = lineShape(way[index] ?? to, to, 2.6, 1);
					this.#taken.add(line);
					this.#lines.add(line);
				});
			}
			if (dots) for (const point of points) ring(point, 3);
			if (now) ring(now, 6);
			if (before) ring(before, 6);
			for (const kit of kits) {
				ring(kit, 6);
				const { x, y, sure } = kit;
				const cross = [
					[
						{ x: x - sure.x, y },
						{ x: x + sure.x, y },
					],
					[
						{ x, y: y - sure.y },
						{ x, y: y + sure.y },
					],
				] as const;
				for (const [from, to] of cross)
					this.#taken.add(lineShape(this.place(from), this.place(to), 1));
			}
		}
		for (const { at } of meetings) for (const point of at) ring(point, 7);
		if (nought !== undefined) {
			const { y } = this.place({ x: 0, y: 0 });
			this.#taken.add(lineShape({ x: left, y }, { x: right, y }, 1.2));
		}
		if (mark === undefined) return;
		upright(mark, 2);
		const { x } = this.place({ x: mark, y: 0 });
		this.#taken.add(boxShape({ x, y: bottom }, 2 * markHalf + 4, 2 * markHalf + 4));
	}

	/** Puts words with their middle at a place, whatever is there. */
	put(text: string, { x, y }: Place, ink: ChartInk, bold = false): void {
		const size = this.#size;
		const width = textWidth(text, size);
		const shape = boxShape({ x, y }, width, size * inkHeight);
		this.letters.push({ text, x: x - width / 2, y: y + size * 0.27, size, ink, bold, shape });
		this.#taken.add(shape);
		this.#words.add(shape);
	}

	/**
	 * Puts the first of some words at the first place with room for it: apart from other words and with a leader
	 * that crosses no line, or else as near to that as there is.
	 * @returns whether there was a place
	 */
	#tryAll(
		words: readonly string[],
		ink: ChartInk,
		choices: (width: number, height: number) => Iterable<Choice>,
		bold = false,
	): boolean {
		const height = this.#size * inkHeight;
		for (const { apart, crossing } of manners) {
			for (const text of words) {
				const width = textWidth(text, this.#size);
				for (const { at, to } of choices(width, height)) {
					const wide = boxShape(at, width + 2 * clearBeside, height + 2 * clearOver);
					if (!inside(wide, this.#area) || this.#taken.touches(wide)) continue;
					const lone = boxShape(at, width + 2 * apart.beside, height + 2 * apart.over);
					if (this.#words.touches(lone)) continue;
					const from = to && edgeToward(at, width, height, to);
					const leader = from && lineShape(from, to, 0.8, 1);
					if (leader && this.#words.touches(leader)) continue;
					// Where it ends it lies close to the line it speaks of.
					const free = from && lineShape(from, toward(to, from, closeToOwn), 0.8);
					if (free && !crossing && this.#lines.touches(free)) continue;
					this.put(text, at, ink, bold);
					if (from) this.leaders.push([from, to]);
					if (leader) this.#taken.add(leader);
					return true;
				}
			}
		}
		return false;
	}

	/** A kit's number stands once, over its topmost point; what each row of points is, once beside one of them. */
	#letterKits(): void {
		const all = this.#drawn.lines.flatMap(({ kits = [] }) => kits);
		for (const number of new Set(all.map((kit) => kit.number))) {
			const own = all.filter((kit) => kit.number === number).sort((a, b) => b.y - a.y);
			this.#tryAll(
				[String(number)],
				'line',
				(...box) =>
					own.flatMap((kit) => {
						const { x, y } = this.place({ x: kit.x, y: kit.y + kit.sure.y });
						return [...around({ x, y }, 2, [box[0], box[1]], false)].reverse();
					}),
				true,
			);
		}
		this.#drawn.lines.forEach(({ name, kits = [] }, index) => {
			this.#tryAll([name], index, (...box) =>
				kits.flatMap((kit) => [...around(this.place(kit), 7, box, true)]),
			);
		});
	}

	/** The words inside the axes, what matters most first. */
	letter(): void {
		const { lines, bands, meetings = [], nought, dots } = this.#drawn;
		const atMark = lines.map(
			({ now, clear = false }, index) =>
				now?.words !== undefined &&
				this.#tryAll([now.words], index, (...box) => around(this.place(now), 9, box, true), clear),
		);
		this.#letterKits();
		if (!dots) {
			lines.forEach(({ name, points, now }, index) => {
				// What is written at the mark may name the line already.
				if (atMark[index] && now?.words?.startsWith(`${name} `)) return;
				const ways = pathsIn(points.map(this.place), this.#area);
				this.#tryAll([name], index, (...box) => besideLine(ways, box));
			});
		}
		for (const band of bands) {
			const [top, bottom] = [band.to, band.from].map((y) => this.place({ x: 0, y }).y);
			this.#tryAll(inBrief(band.label), 'band-text', (...box) =>
				inStrip(
					{ ...this.#area, top: top ?? 0, bottom: bottom ?? 0 },
					this.#area,
					box,
					band.from >= 0,
				),
			);
		}
		for (const { at, words } of meetings) {
			const [place] = at.map(this.place);
			if (!place || !at.every((point) => isOn(this.#area, this.place(point)))) continue;
			this.#tryAll(words, 'line', (...box) => around(place, 9, box, true));
		}
		for (const { x, words } of this.#drawn.ways ?? []) {
			const head = { x: this.place({ x, y: 0 }).x, y: this.#area.top + 8 };
			this.#tryAll([words], 'line', (...box) => downAlong(head, this.#area, box));
		}
		const { mark, markWord } = this.#drawn;
		if (mark !== undefined && markWord !== undefined) {
			const head = { x: this.place({ x: mark, y: 0 }).x, y: this.#area.top + 10 };
			this.#tryAll([markWord], 'pencil', (...box) => around(head, 2, box, true));
		}
		const before = lines.flatMap((line) => line.before ?? [])[0];
		if (before)
			this.#tryAll(['before'], 'soft', (...box) => around(this.place(before), 8, box, true));
		if (nought === undefined) return;
		const { y } = this.place({ x: 0, y: 0 });
		this.#tryAll(inBrief(nought), 'soft', (...box) => [
			...inStrip({ ...this.#area, top: y, bottom: y + 18 }, this.#area, box, false),
			...inStrip({ ...this.#area, top: y - 18, bottom: y }, this.#area, box, false),
		]);
	}
}

/** Whether a place lies within the axes. */
export function isOn({ left, right, top, bottom }: Area, { x, y }: Place): boolean {
	return x >= left && x <= right && y >= top && y <= bottom;
}

/** Words, and the same up to their first comma. */
function inBrief(words: string): string[] {
	const [brief = words] = words.split(',');
	return brief === words ? [words] : [words, brief];
}

/** The parts of a line that lie within the axes. */
function pathsIn(places: readonly Place[], { top, bottom }: Area): Place[][] {
	const ways: Place[][] = [[]];
	places.slice(1).forEach((to, index) => {
		const from = places[index];
		const cut =
			from && Number.isFinite(from.y) && Number.isFinite(to.y) && cutTo(from, to, top, bottom);
		if (!cut) {
			if (ways.at(-1)?.length) ways.push([]);
			return;
		}
		const way = ways.at(-1);
		if (way?.length === 0) way.push(cut[0]);
		way?.push(cut[1]);
	});
	return ways.filter(({ length }) => length > 1);
}

/** The part of a short line between two heights; undefined where there is none. */
function cutTo(from: Place, to: Place, top: number, bottom: number): [Place, Place] | undefined {
	const at = (y: number): Place => ({
		x: from.x + ((to.x - from.x) * (y - from.y)) / (to.y - from.y),
		y,
	});
	const [least, most] = [Math.min(from.y, to.y), Math.max(from.y, to.y)];
	if (most < top || least > bottom) return undefined;
	const within = (place: Place): Place =>
		place.y < top ? at(top) : place.y > bottom ? at(bottom) : place;
	return [within(from), within(to)];
}

type Box = readonly [width: number, height: number];

/** Places round a point: close by on either side, then farther off, there with a leader. */
function* around(
	{ x, y }: Place,
	keep: number,
	[width, height]: Box,
	far: boolean,
): Generator<Choice> {
	const beside = keep + clearBeside + width / 2;
	const over = keep + clearOver + height / 2;
	for (const down of [0, -8, 8, -14, 14]) {
		for (const way of [1, -1]) yield { at: { x: x + way * beside, y: y + down } };
	}
	for (const way of [-1, 1]) yield { at: { x, y: y + way * over } };
	if (!far) return;
	for (const away of [16, 24, 34, 46, 60, 76, 96, 120, 150]) {
		for (const direction of directions) {
			const at = {
				x: x + direction.x * (away + width / 2),
				y: y + direction.y * (away + height / 2),
			};
			yield { at, to: toward({ x, y }, at, keep - 2) };
		}
	}
}

/** Places beside an upright line, from its head down. */
function* downAlong(head: Place, { bottom }: Area, [width]: Box): Generator<Choice> {
	for (let { y } = head; y < bottom; y += 12) {
		for (const way of [1, -1]) yield { at: { x: head.x + way * (4 + clearBeside + width / 2), y } };
	}
}

/** The likeliest first: words stand better beside than over what they speak of. */
const directions: readonly Place[] = [-30, 30, 150, -150, -12, 12, 168, -168, -55, 55, 125, -125]
	.map((turn) => (turn * Math.PI) / 180)
	.map((turn) => ({ x: Math.cos(turn), y: Math.sin(turn) }));

/** So far from one place to another. */
function toward(from: Place, to: Place, by: number): Place {
	const length = Math.hypot(to.x - from.x, to.y - from.y) || 1;
	return {
		x: from.x + ((to.x - from.x) * by) / length,
		y: from.y + ((to.y - from.y) * by) / length,
	};
}

/** Where a line from the middle of a box toward a place leaves the box and the room round it. */
function edgeToward(middle: Place, width: number, height: number, place: Place): Place {
	const [right, down] = [place.x - middle.x, place.y - middle.y];
	const share = Math.min(
		1,
		(width / 2 + clearBeside) / Math.max(Math.abs(right), 1e-9),
		(height / 2 + clearOver) / Math.max(Math.abs(down), 1e-9),
	);
	return { x: middle.x + right * share, y: middle.y + down * share };
}

/**
 * Places along a line, beginning where it is likeliest to be alone, over it and under it; where there is none so
 * close, farther off with a leader.
 */
function* besideLine(ways: readonly (readonly Place[])[], [width, height]: Box): Generator<Choice> {
	for (const share of [0.22, 0.3, 0.14, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.06, 0.96]) {
		for (const way of ways) {
			const index = Math.round(share * (way.length - 1));
			const [a, b] = [way[Math.max(0, index - 1)], way[Math.min(way.length - 1, index + 1)]];
			const here = way[index];
			if (!a || !b || !here) continue;
			const slope = Math.abs((b.y - a.y) / (b.x - a.x || 1e-9));
			// Over a flat line by its height and what the line rises under it; beside a steep one by its width.
			const over = height / 2 + clearOver + 5 + (slope * (width + 2 * clearBeside)) / 2;
			const beside = width / 2 + clearBeside + 5 + (height / 2 + clearOver) / Math.max(slope, 1e-9);
			for (const sign of [-1, 1]) {
				if (over < 40) yield { at: { x: here.x, y: here.y + sign * over } };
				if (beside < width + 40) yield { at: { x: here.x - sign * beside, y: here.y } };
			}
		}
	}
	for (const share of [0.5, 0.75, 0.25, 0.9]) {
		for (const way of ways) {
			const here = way[Math.round(share * (way.length - 1))];
			if (here) yield* around(here, 4, [width, height], true);
		}
	}
}

/** Places within a strip, from the left or the right, along its edges and its middle. */
function* inStrip(
	strip: Area,
	within: Area,
	[width, height]: Box,
	fromRight: boolean,
): Generator<Choice> {
	const top = Math.max(strip.top, within.top) + height / 2 + clearOver + 1;
	const bottom = Math.min(strip.bottom, within.bottom) - height / 2 - clearOver - 1;
	if (bottom < top) return;
	const half = width / 2 + clearBeside + 3;
	const rows = fromRight ? [top, bottom, (top + bottom) / 2] : [bottom, top, (top + bottom) / 2];
	for (let along = 0; along <= strip.right - strip.left - 2 * half; along += 12) {
		const x = fromRight ? strip.right - half - along : strip.left + half + along;
		for (const y of rows) yield { at: { x, y } };
	}
}
