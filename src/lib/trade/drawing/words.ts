/** The words on a side elevation, ready to letter: figures with their ±, what they were, and which way. */
import type { DrawnFigure, HeldStill } from '../../language/trade.ts';
import { showFigure, showPlusMinus, showReading } from '../../units/shown.ts';
import { enlargement, type AngleDetail } from './detail.ts';
import type { DimensionText } from './dimension.ts';

/** An amount with its unit: as its rule gives it where it was entered, in decimals where it was worked out. */
export function amount({ value, shown, input }: DrawnFigure): string | undefined {
	if (typeof value !== 'number' || !shown) return undefined;
	return input ? showReading(value, shown) : showFigure(value, shown);
}

/**
 * What a dimension says; undefined where there is no figure.
 * @param was the figure before, where another is drawn under it
 */
export function dimensionText(figure: DrawnFigure, was?: DrawnFigure): DimensionText | undefined {
	const main = amount(figure);
	if (main === undefined || !figure.shown) return undefined;
	const before = was && amount(was);
	const sure = figure.plusMinus ?? 0;
	return {
		main,
		...(sure > 0 && { plusMinus: showPlusMinus(sure, figure.shown) }),
		...(before !== undefined && before !== main && { note: `(was ${before})` }),
	};
}

/** Which joint: the shaft is joined to the transmission at the front and to the pinion at the rear. */
export type JointEnd = 'front' | 'rear';

/** What the shaft is joined to; of a shaft in two pieces the rear one is drawn, and the front one is ahead of it. */
function joinedTo(end: JointEnd, pieces: 1 | 2): string {
	if (end === 'rear') return 'pinion';
	return pieces === 1 ? 'transmission' : 'front piece';
}

/**
 * Which way a joint is bent, and what it was.
 * @param joint signed: shaft the steeper positive
 * @param pieces of the shaft
 */
export function jointNote(
	end: JointEnd,
	joint: DrawnFigure,
	was?: DrawnFigure,
	pieces: 1 | 2 = 1,
): string | undefined {
	const { value, plusMinus = 0, shown } = joint;
	if (typeof value !== 'number' || !shown) return undefined;
	const before = typeof was?.value === 'number' ? was.value : undefined;
	const first = before === undefined ? '' : `was ${showFigure(Math.abs(before), shown)}; `;
	if (Math.abs(value) <= plusMinus) return `${first}cannot be told from straight with this gauge`;
	// What did not change sides lies as it lay.
	const now = before !== undefined && before * value < 0 ? 'now ' : '';
	return `${first}${now}the shaft lies ${value > 0 ? 'steeper' : 'flatter'} than the ${joinedTo(end, pieces)}`;
}

/** From where to where a joint runs smoothly on the road, radians: common practice, no source. */
const smooth = [(0.5 * Math.PI) / 180, (3 * Math.PI) / 180] as const;

/** A joint's detail; undefined where its angle has no value. */
export function jointDetail(
	end: JointEnd,
	joint: DrawnFigure,
	was: DrawnFigure | undefined,
	shaftSlope: number,
	pieces: 1 | 2 = 1,
	before = false,
): AngleDetail | undefined {
	const { value, plusMinus = 0, shown } = joint;
	if (typeof value !== 'number' || !shown) return undefined;
	const note = jointNote(end, joint, was, pieces);
	return {
		letter: end === 'front' ? 'A' : 'B',
		shaftSlope,
		angle: value,
		...(plusMinus > 0 && { plusMinus, plusMinusText: showPlusMinus(plusMinus, shown) }),
		smooth,
		certain: Math.abs(value) > plusMinus,
		name: `${end} joint${before ? ' before' : ''}, angle drawn ×${String(enlargement)}`,
		brief: `${before ? 'before ' : ''}×${String(enlargement)}`,
		figure: showFigure(Math.abs(value), shown),
		...(note !== undefined && { note }),
	};
}

/**
 * What is seen, and which of two does not move.
 * @param brief true where there is room for one short line
 */
export function caption(
	still: HeldStill,
	{ before, found }: { before: boolean; found: boolean },
	brief: boolean,
): string {
	const held = still === 'frame' ? 'Frame held still' : 'Floor held still';
	if (before && found) {
		const lines = 'before dashed, plan chained, found heavy';
		return brief ? `${held}; ${lines}.` : `Side elevation from the left. ${held}; ${lines}.`;
	}
	if (brief) return `${held}${before ? '; before dashed' : ''}.`;
	return `Side elevation from the left. ${held}${before ? '; before thin and dashed' : ''}.`;
}

/** How the boxes of a form are told apart. */
export function formCaption(brief: boolean): string {
	if (brief) return 'Filled: read. Dashed: not read yet.';
	return 'Solid: read. Dashed: assumed with a wide ±, or not read yet.';
}

/** A label up to its first comma: what comes behind tells it from others, and here nothing has to. */
export function shortLabel(label: string): string {
	return label.split(',', 1)[0] ?? label;
}

function inSentence(label: string): string {
	const short = shortLabel(label);
	return short.charAt(0).toLowerCase() + short.slice(1);
}

/** One sentence on what a handle did: the entry, then what came of it. */
export function movedSentence(entry: DrawnFigure, figures: readonly DrawnFigure[]): string {
	const came = figures.flatMap((figure) => {
		const words = amount(figure);
		return words === undefined ? [] : [`${inSentence(figure.label)} ${words}`];
	});
	const first = `${shortLabel(entry.label)} ${amount(entry) ?? 'not entered'}`;
	return came.length === 0 ? `${first}.` : `${first}: ${came.join(', ')}.`;
}
