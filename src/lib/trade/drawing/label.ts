/** Labels and callouts: words for a place, beside it where there is room and on a leader where there is not. */
import { block, placeBlock, type Block, type Letters, type Run } from '../../drafting/lettering.ts';
import type { Ink } from '../../drafting/lines.ts';
import { boxShape, type Area, type Place } from '../../drafting/shapes.ts';
import { hairline, type Proposal, type Way } from './sheet-of-paper.ts';
import type { CalloutBox, EntryState } from '../../drafting/callout.ts';
import { edgeStroke } from './dimension.ts';
import { circlePath, type PaperStroke } from '../../drafting/paper.ts';

/** Where a line from the middle of a box toward a place leaves the box. */
function edgeToward(middle: Place, width: number, height: number, place: Place): Place {
	const [right, down] = [place.x - middle.x, place.y - middle.y];
	const share = Math.min(
		1,
		width / 2 / Math.max(Math.abs(right), 1e-9),
		height / 2 / Math.max(Math.abs(down), 1e-9),
	);
	return { x: middle.x + right * share, y: middle.y + down * share };
}

/** A leader from a box to a place, with a dot where it points. */
function leader(from: Place, to: Place, ink: Ink): PaperStroke[] {
	const line = edgeStroke(from, to);
	const dot: PaperStroke = {
		path: circlePath(to, 2),
		kind: 'bare',
		part: 'lettering',
		fill: ink,
		whole: true,
	};
	return [ink === 'pencil' ? { ...line, kind: 'movable' } : line, dot];
}

const directions = Array.from({ length: 16 }, (_, index) => (index * Math.PI) / 8);
const near = [5, 10, 16, 22];
const far = [30, 40, 52, 68, 86, 106];

/** Of the ways to letter a place, the first that has a leader. */
export const firstWithLeader = near.length * directions.length;

/**
 * Ways to letter a place: close by on any side, or farther off with a leader.
 * @param keep px round the place that stay free, such as a ring
 */
export function labelWays(anchor: Place, keep: number, words: Block, ink: Ink): Way[] {
	return [...near, ...far].flatMap((away, step) =>
		directions.map((direction): Way => {
			const [cos, sin] = [Math.cos(direction), Math.sin(direction)];
			const reach = Math.min(
				words.width / 2 / Math.max(Math.abs(cos), 1e-9),
				words.height / 2 / Math.max(Math.abs(sin), 1e-9),
			);
			const from = keep + away + reach;
			const middle = { x: anchor.x + cos * from, y: anchor.y + sin * from };
			const preference = Math.abs(sin) > 0.9 ? 2 : Math.abs(sin) > 0.3 ? 1 : 0;
			const lettering = (): Letters[] => [placeBlock(words, middle, 'middle')];
			if (step < near.length) {
				const make = (): Proposal => ({ lettering: lettering(), strokes: [] });
				return { cost: away * 0.7 + preference, make };
			}
			const make = (): Proposal => {
				const edge = edgeToward(middle, words.width + 6, words.height + 4, anchor);
				const at = (by: number): Place => ({ x: anchor.x + cos * by, y: anchor.y + sin * by });
				const end = at(keep);
				const strokes = keep > 4 ? [edgeStrokeIn(edge, end, ink)] : leader(edge, end, ink);
				return { lettering: lettering(), strokes, loose: [hairline(edge, at(keep + 3))] };
			};
			return { cost: away * 0.9 + preference + 6, make };
		}),
	);
}

function edgeStrokeIn(from: Place, to: Place, ink: Ink): PaperStroke {
	const line = edgeStroke(from, to);
	return ink === 'pencil' ? { ...line, ink } : line;
}

/** What a callout takes on the paper. */
export interface CalloutWords {
	readonly name: string;
	readonly state: EntryState;
	readonly label: string;
	readonly value: string;
	readonly number?: number;
}

/** A callout on the paper. */
export interface CalloutMade extends Proposal {
	readonly callout: CalloutBox;
}

/** The words of a box: its label over its value. */
function calloutBlock({ label, value, state }: CalloutWords): Block {
	const faint = state === 'untouched' || state === 'assumed';
	const first: Run = { text: label, size: 11, ink: 'soft' };
	return block([[first], [{ text: value, size: 15, ink: faint ? 'soft' : 'line' }]]);
}

/** How far apart the places are that are tried for a callout, px. */
const grid = 14;

/** Ways to put a callout anywhere on the paper; the nearer its place, the better. */
export function calloutWays(
	anchor: Place,
	words: CalloutWords,
	area: Area,
	round: boolean,
): Way<CalloutMade>[] {
	// A reading that was taken is a filled circle.
	const ink: Ink = words.state === 'measured' ? 'paper' : 'line';
	const number: Run = { text: String(words.number ?? ''), size: 13, ink, bold: true };
	const inner = round ? block([[number]]) : calloutBlock(words);
	const width = round ? 28 : Math.max(96, inner.width + 16);
	const height = round ? 28 : 42;
	const ways: Way<CalloutMade>[] = [];
	for (let y = area.top + height / 2 + 2; y <= area.bottom - height / 2; y += grid) {
		for (let x = area.left + width / 2 + 2; x <= area.right - width / 2; x += grid) {
			const edge = edgeToward({ x, y }, width, height, anchor);
			const length = Math.hypot(edge.x - anchor.x, edge.y - anchor.y);
			if (length < 16 || length > 200) continue;
			const make = (): CalloutMade => calloutAt({ x, y }, edge, anchor, words, inner, round);
			ways.push({ cost: length * 0.5, make });
		}
	}
	return ways;
}

/** A callout with the middle of its box at a place. */
function calloutAt(
	{ x, y }: Place,
	edge: Place,
	at: Place,
	{ name, state }: CalloutWords,
	inner: Block,
	round: boolean,
): CalloutMade {
	const width = round ? 28 : Math.max(96, inner.width + 16);
	const height = round ? 28 : 42;
	const share = Math.max(0, 1 - 8 / Math.hypot(edge.x - at.x, edge.y - at.y));
	const short = { x: edge.x + (at.x - edge.x) * share, y: edge.y + (at.y - edge.y) * share };
	const text = round
		? placeBlock(inner, { x, y }, 'middle')
		: placeBlock(inner, { x: x - (width - 16 - inner.width) / 2, y });
	const [left, top] = [x - width / 2, y - height / 2];
	return {
		lettering: [{ ...text, callout: true }],
		strokes: leader(edge, at, 'line'),
		boxes: [boxShape({ x, y }, width, height)],
		loose: [hairline(edge, short)],
		callout: { name, state, x: left, y: top, width, height, round, at },
	};
}
