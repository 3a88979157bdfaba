/**
 * Dimensions after ISO 129-1: a line in a lane outside the outline, extension lines that end short of what is
 * measured, filled arrows, and the text beside the line; arrows outside where the room is under 22 px.
 */
import { block, placeBlock, type Align, type Block, type Run } from '../../drafting/lettering.ts';
import { boxShape, lineShape, type Place, type Shape } from '../../drafting/shapes.ts';
import { hairline, type Group, type Proposal, type Way } from './sheet-of-paper.ts';
import { px, type PaperStroke } from '../../drafting/paper.ts';

/** What a dimension says, ready to letter: the figure, its ±, and a remark such as what it was. */
export interface DimensionText {
	readonly main: string;
	readonly plusMinus?: string;
	readonly note?: string;
}

/** Two places and the way along which they are apart. */
export interface Measure {
	readonly from: Place;
	readonly to: Place;
	/** Unit vector along the dimension line. */
	readonly along: Place;
	/** Where extension lines begin, px short of the places. */
	readonly short?: number;
	/** Where dimension lines may lie, px along the normal (along turned clockwise); the best first. */
	readonly lanes: readonly number[];
}

/** Arrows point from outside where there is less room than this, px. */
export const arrowsOutsideUnder = 22;
const arrow = { length: 11, half: 2.9 };
const tail = 15;
const shortOf = 3;
const past = 4;
/** So far from its tip an arrow may lie over a heavy line, such as the floor, px. */
const onHeavy = 7;

const dot = (a: Place, b: Place): number => a.x * b.x + a.y * b.y;
const moved = (from: Place, along: Place, by: number): Place => ({
	x: from.x + along.x * by,
	y: from.y + along.y * by,
});

export function edgeStroke(from: Place, to: Place): PaperStroke {
	return {
		path: `M${px(from.x)} ${px(from.y)}L${px(to.x)} ${px(to.y)}`,
		kind: 'edge',
		part: 'lettering',
		whole: true,
	};
}

/** A filled arrow with its tip at a place, pointing along. */
function arrowHead(tip: Place, along: Place): PaperStroke {
	const back = moved(tip, along, -arrow.length);
	const aside = { x: -along.y, y: along.x };
	const [a, b] = [moved(back, aside, arrow.half), moved(back, aside, -arrow.half)];
	return {
		path: `M${px(tip.x)} ${px(tip.y)}L${px(a.x)} ${px(a.y)}L${px(b.x)} ${px(b.y)}Z`,
		kind: 'bare',
		part: 'lettering',
		fill: 'line',
		whole: true,
	};
}

/** Everything of a dimension but its text, in one lane. */
interface Drawn {
	readonly strokes: PaperStroke[];
	readonly firm: Shape[];
	readonly loose: Shape[];
	/** Ends of the dimension line itself, the arrows' tips. */
	readonly tips: readonly [Place, Place];
	/** How far it goes beyond them, px. */
	readonly beyond: number;
}

function inLane({ from, to, along, short = shortOf }: Measure, lane: number): Drawn {
	const normal = { x: -along.y, y: along.x };
	const foot = (place: Place): Place => moved(place, normal, lane - dot(place, normal));
	const ordered: [Place, Place] = dot(from, along) <= dot(to, along) ? [from, to] : [to, from];
	const tips: [Place, Place] = [foot(ordered[0]), foot(ordered[1])];
	const outside = Math.hypot(tips[1].x - tips[0].x, tips[1].y - tips[0].y) < arrowsOutsideUnder;
	const beyond = outside ? arrow.length + tail : 0;
	const ends: [Place, Place] = [moved(tips[0], along, -beyond), moved(tips[1], along, beyond)];
	const strokes = [edgeStroke(...ends)];
	const loose: Shape[] = [];
	for (const [index, place] of ordered.entries()) {
		const tip = tips[index] as Place;
		const away = lane - dot(place, normal);
		if (Math.abs(away) > short + 1) {
			const sense = Math.sign(away);
			const [start, end] = [moved(place, normal, sense * short), moved(tip, normal, sense * past)];
			strokes.push(edgeStroke(start, end));
			loose.push(hairline(start, end));
		}
	}
	const turned = { x: -along.x, y: -along.y };
	strokes.push(arrowHead(tips[0], outside ? along : turned));
	strokes.push(arrowHead(tips[1], outside ? turned : along));
	// An arrow's tip may stand on a heavy line, such as the floor.
	const clear = outside ? 0 : onHeavy;
	const firm = [lineShape(moved(ends[0], along, clear), moved(ends[1], along, -clear), 2)];
	for (const [index, tip] of tips.entries()) {
		const inward = (index === 0) === !outside ? along : turned;
		firm.push(
			lineShape(moved(tip, inward, onHeavy), moved(tip, inward, arrow.length), 2 * arrow.half),
		);
	}
	return { strokes, firm, loose, tips, beyond };
}

/** A form of the text, and how far from best it is. */
interface Form {
	readonly words: Block;
	readonly cost: number;
}

/** A text without all that it could say: better than none on a phone. */
const shortened = 40;

/** The text in one line, in two, and in three, as far as it has as many parts. */
function formsOf(text: DimensionText, small: boolean, upright: boolean): Form[] {
	const main: Run = { text: text.main, size: small ? 12 : 13, ink: 'line', bold: true };
	const soft = (words: string): Run => ({ text: words, size: small ? 11 : 12, ink: 'soft' });
	const more = text.plusMinus === undefined ? [] : [soft(text.plusMinus)];
	const note = text.note === undefined ? [] : [soft(text.note)];
	const full = [[[main, ...more, ...note]]];
	if (note.length > 0) full.push([[main, ...more], note]);
	if (more.length > 0) full.push([[main], [...more, ...note]], [[main], more, note]);
	// An upright dimension has little room beside it, a lying one little above it.
	const forms = full.map((lines, index) => ({
		words: block(lines),
		cost: upright ? (full.length - 1 - index) * 2 : index * 3,
	}));
	if (!small || full.length === 1) return forms;
	return [
		...forms,
		{ words: block([[main, ...more]]), cost: shortened },
		{ words: block([[main]]), cost: 1.5 * shortened },
	];
}

/** A place for the text: the middle of its box, how its lines stand in it, and how good the place is. */
interface Spot {
	readonly middle: Place;
	readonly align: Align;
	readonly turn: number;
	readonly cost: number;
}

const textGap = 6;

/** Beside an upright dimension line: right or left of its middle, or at either end. */
function besideUpright({ tips, beyond }: Drawn, { width, height }: Block): Spot[] {
	const x = (tips[0].x + tips[1].x) / 2;
	const [top, bottom] = [Math.min(tips[0].y, tips[1].y), Math.max(tips[0].y, tips[1].y)];
	const roomy = bottom - top > height;
	const spots: Spot[] = [];
	const heights = [
		[(top + bottom) / 2, roomy ? 0 : 5],
		[bottom + beyond - height / 2, 3],
		[top - beyond + height / 2, 4],
		[top + (bottom - top) * 0.3, roomy ? 5 : 40],
		[top + (bottom - top) * 0.7, roomy ? 5 : 40],
		[top + (bottom - top) * 0.85, roomy ? 7 : 40],
	] as const;
	for (const [y, cost] of heights) {
		spots.push({ middle: { x: x + textGap + width / 2, y }, align: 'left', turn: 0, cost });
		spots.push({
			middle: { x: x - textGap - width / 2, y },
			align: 'right',
			turn: 0,
			cost: cost + 1,
		});
	}
	for (const aside of [0, -width / 2 + 8, width / 2 - 8]) {
		const below = bottom + beyond + height / 2 + textGap;
		const above = top - beyond - height / 2 - textGap;
		const align = aside < 0 ? 'right' : aside > 0 ? 'left' : 'middle';
		spots.push({ middle: { x: x + aside, y: below }, align, turn: 0, cost: 6 });
		spots.push({ middle: { x: x + aside, y: above }, align, turn: 0, cost: 7 });
	}
	return spots;
}

/** Along a lying dimension line: over its middle, under it, or beyond either end. */
function alongLying({ tips, beyond }: Drawn, along: Place, { width, height }: Block): Spot[] {
	const right = along.x < 0 ? { x: -along.x, y: -along.y } : along;
	const over = { x: right.y, y: -right.x };
	const turn = (Math.atan2(right.y, right.x) * 180) / Math.PI;
	const [first, last] = along.x < 0 ? [tips[1], tips[0]] : tips;
	const length = Math.hypot(last.x - first.x, last.y - first.y);
	const aside = height / 2 + 4;
	const spots: Spot[] = [];
	const room = length - 6;
	for (const share of [0.5, 0.4, 0.6, 0.3, 0.7]) {
		const reach = Math.min(share, 1 - share) * 2 * room;
		if (reach < width) continue;
		const on = moved(first, right, length * share);
		const cost = Math.abs(share - 0.5) * 20;
		spots.push({ middle: moved(on, over, aside), align: 'middle', turn, cost });
		spots.push({ middle: moved(on, over, -aside), align: 'middle', turn, cost: cost + 4 });
	}
	const out = beyond + width / 2 + textGap;
	const far = moved(last, right, out);
	const near = moved(first, right, -out);
	const penalty = width > room ? 4 : 20;
	spots.push({ middle: far, align: 'left', turn, cost: penalty });
	spots.push({ middle: near, align: 'right', turn, cost: penalty + 1 });
	return spots;
}

/** Room over and under a dimension's lines of text, or those of another would read as theirs. */
function roundText({ width, height }: Block, middle: Place, turn: number): Shape {
	return boxShape(middle, width, height + 3, (turn * Math.PI) / 180);
}

/** Every way to dimension a measure that is worth a look; without a text only its lines. */
export function dimensionWays(
	measure: Measure,
	text: DimensionText | undefined,
	small: boolean,
): Group<DimensionMade>[] {
	const upright = Math.abs(measure.along.y) > 0.86;
	const forms = text ? formsOf(text, small, upright) : [];
	return measure.lanes.map((lane, laneIndex) => {
		const laneCost = laneIndex * 4;
		const ways = (): Way<DimensionMade>[] => {
			const drawn = inLane(measure, lane);
			const { strokes, firm, loose, tips } = drawn;
			const middle = { x: (tips[0].x + tips[1].x) / 2, y: (tips[0].y + tips[1].y) / 2 };
			const made = { strokes, firm, loose, middle };
			if (!text) return [{ cost: laneCost, make: () => ({ ...made, lettering: [] }) }];
			return forms.flatMap(({ words, cost: formCost }) => {
				const spots = upright
					? besideUpright(drawn, words)
					: alongLying(drawn, measure.along, words);
				return spots.map(({ middle: at, align, turn, cost }) => ({
					cost: cost + formCost + laneCost,
					make: () => ({
						...made,
						lettering: [placeBlock(words, at, align, turn)],
						...(!small && { boxes: [roundText(words, at, turn)] }),
					}),
				}));
			});
		};
		return { cost: laneCost, ways };
	});
}

/** A dimension on the paper, with the middle of its line for a box to point at. */
export interface DimensionMade extends Proposal {
	readonly middle: Place;
}
