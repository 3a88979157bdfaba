/**
 * How much paper lettering takes, without a browser: the advance widths of B612 in thousandths of its size,
 * measured once from the font (its bold is as wide as its regular).
 */
import type { Ink } from './lines.ts';
import { boxShape, type Place, type Shape } from './shapes.ts';

const advances: Readonly<Record<number, string>> = {
	200: "'|",
	250: ',;·',
	300: '.:ijI°²³',
	350: ' !l’‘',
	400: '"frt',
	450: '()-Js[',
	500: '=cz“”]',
	525: 'a',
	550: '$*/?\\_`FLSekvxy−–',
	600: '+±CEKPTYZbdghnopquø}öü',
	650: '0123456789<>ABGRVXµß{',
	700: '&HU',
	750: 'N^~w½¼¾…',
	800: 'OQ×',
	850: '#',
	900: '%Mm',
	950: 'W',
	1050: '—⅛⅜⅝⅞←→✓',
};

const advanceOf = new Map(
	Object.entries(advances).flatMap(([width, signs]) =>
		Array.from(signs, (sign): [string, number] => [sign, Number(width)]),
	),
);

/** What a sign that is not in the table takes: as much as a broad one. */
const unknownAdvance = 800;

/** Width of a text, px at `size` px. */
export function textWidth(text: string, size: number): number {
	let thousandths = 0;
	for (const sign of text) thousandths += advanceOf.get(sign) ?? unknownAdvance;
	return (thousandths * size) / 1000;
}

/** Words of one look. */
export interface Run {
	readonly text: string;
	readonly size: number;
	readonly ink: Ink;
	readonly bold?: boolean;
}

/** A run with its width, px. */
interface MeasuredRun extends Run {
	readonly width: number;
}

interface MeasuredLine {
	readonly runs: readonly MeasuredRun[];
	readonly width: number;
	/** Of its largest run. */
	readonly size: number;
}

/** Lines of runs, one under the other. */
export interface Block {
	readonly lines: readonly MeasuredLine[];
	readonly width: number;
	readonly height: number;
}

/** Space between two runs of one line, px at 12 px. */
const runGap = 5;
const lineHeight = 1.34;
/** Ink above and below the base line, shares of the size. */
const above = 0.78;
const below = 0.27;

function measured(line: readonly Run[]): MeasuredLine {
	const runs = line.map((run) => ({ ...run, width: textWidth(run.text, run.size) }));
	const gaps = Math.max(0, line.length - 1) * runGap;
	return {
		runs,
		width: runs.reduce((sum, { width }) => sum + width, gaps),
		size: Math.max(0, ...line.map(({ size }) => size)),
	};
}

export function block(lines: readonly (readonly Run[])[]): Block {
	const full = lines.filter((line) => line.length > 0).map(measured);
	const [first, ...rest] = full;
	const down = rest.reduce((sum, { size }) => sum + size * lineHeight, 0);
	return {
		lines: full,
		width: Math.max(0, ...full.map(({ width }) => width)),
		height: (first?.size ?? 0) * (above + below) + down,
	};
}

/** A text broken into lines no wider than `width`; a longer word stands alone in its line. */
export function wrapped(text: string, size: number, width: number): string[] {
	const lines: string[] = [];
	for (const word of text.split(' ')) {
		const last = lines.at(-1);
		const longer = last === undefined ? word : `${last} ${word}`;
		if (last !== undefined && textWidth(longer, size) <= width) lines[lines.length - 1] = longer;
		else lines.push(word);
	}
	return lines;
}

/** A run where it stands. */
export interface PlacedRun extends Run {
	/** Left end of the base line, px. */
	readonly x: number;
	readonly y: number;
	readonly width: number;
	/** Degrees clockwise about its own left end. */
	readonly turn: number;
}

/** A block where it would stand: enough to see whether there is room. */
export interface Letters {
	readonly block: Block;
	readonly middle: Place;
	readonly align: Align;
	/** Degrees clockwise. */
	readonly turn: number;
	readonly shape: Shape;
	readonly callout?: true;
}

/** A block where it stands. */
export interface Lettering {
	readonly runs: readonly PlacedRun[];
	/** Its four corners, px. */
	readonly shape: Shape;
	/** True for the words of a callout, which an entry laid over it says again. */
	readonly callout?: true;
}

export type Align = 'left' | 'middle' | 'right';

/**
 * A block with the middle of its box at a place.
 * @param turn degrees clockwise
 */
export function placeBlock(words: Block, middle: Place, align: Align = 'left', turn = 0): Letters {
	const shape = boxShape(middle, words.width, words.height, (turn * Math.PI) / 180);
	return { block: words, middle, align, turn, shape };
}

/** Every run of a block that has found its place. */
export function lettered({
	block: words,
	middle,
	align,
	turn,
	shape,
	callout,
}: Letters): Lettering {
	const { x: cos, y: sin } = shape.along;
	const at = (right: number, down: number): Place => ({
		x: middle.x + right * cos - down * sin,
		y: middle.y + right * sin + down * cos,
	});
	const { lines, width, height } = words;
	let down = -height / 2 + (lines[0]?.size ?? 0) * above;
	const share = { left: 0, middle: 0.5, right: 1 }[align];
	const runs = lines.flatMap((line, index) => {
		if (index > 0) down += line.size * lineHeight;
		let right = -width / 2 + (width - line.width) * share;
		return line.runs.map((run): PlacedRun => {
			const placed = { ...run, ...at(right, down), turn };
			right += run.width + runGap;
			return placed;
		});
	});
	return { runs, shape, ...(callout ? { callout } : {}) };
}
