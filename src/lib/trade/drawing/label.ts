/** Labels: words for a place, beside it where there is room and on a leader where there is not. */
import { placeBlock, type Block, type Letters } from '../../drafting/lettering.ts';
import type { Ink } from '../../drafting/lines.ts';
import type { Place } from '../../drafting/shapes.ts';
import { hairline, type Proposal, type Way } from './sheet-of-paper.ts';
import { edgeStroke } from './dimension.ts';
import { circlePath, type PaperStroke } from '../../drafting/paper.ts';

/** Where a line from the middle of a box toward a place leaves the box. */
export function edgeToward(middle: Place, width: number, height: number, place: Place): Place {
	const [right, down] = [place.x - middle.x, place.y - middle.y];
	const share = Math.min(
		1,
		width / 2 / Math.max(Math.abs(right), 1e-9),
		height / 2 / Math.max(Math.abs(down), 1e-9),
	);
	return { x: middle.x + right * share, y: middle.y + down * share };
}

/** A leader from a box to a place, with a dot where it points. */
export function leader(from: Place, to: Place, ink: Ink): PaperStroke[] {
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

const directions = Array.from({ length: 24 }, (_, index) => (index * Math.PI) / 12);
const near = [5, 10, 16, 22];
const far = [30, 40, 52, 68, 86, 106, 130, 158, 190];

/** Of the ways to letter a place, the first that has a leader. */
export const firstWithLeader = near.length * directions.length;

/**
 * Ways to letter a place: close by on any side, or farther off with a leader.
 * @param keep px round the place that stay free, such as a ring
 * @param under what it costs to stand lower than over the place
 */
export function labelWays(anchor: Place, keep: number, words: Block, ink: Ink, under = 0): Way[] {
	return [...near, ...far].flatMap((away, step) =>
		directions.map((direction): Way => {
			const [cos, sin] = [Math.cos(direction), Math.sin(direction)];
			const reach = Math.min(
				words.width / 2 / Math.max(Math.abs(cos), 1e-9),
				words.height / 2 / Math.max(Math.abs(sin), 1e-9),
			);
			const from = keep + away + reach;
			const middle = { x: anchor.x + cos * from, y: anchor.y + sin * from };
			const sideways = Math.abs(sin) > 0.9 ? 2 : Math.abs(sin) > 0.3 ? 1 : 0;
			const low = middle.y + words.height / 2 > anchor.y;
			const preference = sideways + (low ? under : 0);
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
