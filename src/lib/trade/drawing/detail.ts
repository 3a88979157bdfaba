/**
 * A joint's angle in a circle of its own, drawn ten times as large and said so: the shaft as it lies, what it
 * is joined to, the ± of the angle as a sector, and where a joint runs smoothly.
 */
import {
	block,
	lettered,
	placeBlock,
	textWidth,
	wrapped,
	type Lettering,
	type Letters,
	type Run,
} from '../../drafting/lettering.ts';
import { boxShape, type Place, type Shape } from '../../drafting/shapes.ts';
import { circlePath, px, type PaperStroke } from '../../drafting/paper.ts';

/** Angles are drawn so many times as large. */
export const enlargement = 10;

/** One joint's angle, and its words ready to letter. */
export interface AngleDetail {
	/** As the joint is lettered on the elevation. */
	readonly letter: string;
	/** Slope of the shaft, radians, positive down toward the rear. */
	readonly shaftSlope: number;
	/** Slope of the shaft less that of what it is joined to, radians. */
	readonly angle: number;
	/** Its ±, radians. */
	readonly plusMinus?: number;
	/** From where to where a joint runs smoothly, radians either way. */
	readonly smooth?: readonly [number, number];
	/** False where the angle lies within its own ±: it is then not lettered bold. */
	readonly certain: boolean;
	/** What it is, and that it is drawn ten times as large. */
	readonly name: string;
	/** The same in so few signs that it always has room, such as ×10. */
	readonly brief: string;
	readonly figure: string;
	readonly plusMinusText?: string;
	readonly note?: string;
}

/** Drawn angles end here, so that the two lines never seem to change places. */
const steepest = (80 * Math.PI) / 180;

const clamp = (angle: number): number => Math.max(-steepest, Math.min(steepest, angle));
const on = ({ x, y }: Place, radius: number, slope: number): Place => ({
	x: x + radius * Math.cos(slope),
	y: y + radius * Math.sin(slope),
});
const at = ({ x, y }: Place): string => `${px(x)} ${px(y)}`;

/** A sector toward the rear, between two slopes. */
function sector(centre: Place, radius: number, from: number, to: number, fill: 'band' | 'soft') {
	const [start, end] = [on(centre, radius, from), on(centre, radius, to)];
	const path = `M${at(centre)}L${at(start)}A${px(radius)} ${px(radius)} 0 0 ${to > from ? '1' : '0'} ${at(end)}Z`;
	const faint = fill === 'soft';
	return { path, kind: 'bare', part: 'detail', fill, faint, whole: true } satisfies PaperStroke;
}

/** The circle with its lines. */
export function detailCircle(centre: Place, radius: number, detail: AngleDetail): PaperStroke[] {
	const { shaftSlope, angle, plusMinus, smooth } = detail;
	const joined = (of: number): number => clamp(shaftSlope - enlargement * of);
	const strokes: PaperStroke[] = [];
	const more = { part: 'detail', whole: true } as const;
	if (smooth) {
		const [least, most] = smooth;
		strokes.push(sector(centre, radius, joined(least), joined(most), 'band'));
		strokes.push(sector(centre, radius, joined(-most), joined(-least), 'band'));
	}
	if (plusMinus !== undefined) {
		const [low, high] = [joined(angle + plusMinus), joined(angle - plusMinus)];
		strokes.push(sector(centre, radius, low, high, 'soft'));
	}
	const through = (slope: number): string =>
		`M${at(on(centre, -radius, slope))}L${at(on(centre, radius, slope))}`;
	const other = joined(angle);
	strokes.push({ path: through(other), kind: 'axis', ...more });
	strokes.push({ path: through(shaftSlope), kind: 'planned', ...more });
	const arc = radius * 0.66;
	const [start, end] = [on(centre, arc, other), on(centre, arc, shaftSlope)];
	const sweep = shaftSlope > other ? '1' : '0';
	const turn = `M${at(start)}A${px(arc)} ${px(arc)} 0 0 ${sweep} ${at(end)}`;
	strokes.push({ path: turn, kind: 'edge', ...more });
	strokes.push({ path: circlePath(centre, radius), kind: 'outline', ...more });
	strokes.push({ path: circlePath(centre, 4.2), kind: 'outline', fill: 'paper', ...more });
	return strokes;
}

/** The figure with its ± beside it, or under it where the room is narrow. */
function figureLines(figure: Run, plusMinus: string | undefined, room: number): Run[][] {
	if (plusMinus === undefined) return [[figure]];
	const soft: Run = { text: plusMinus, size: 12, ink: 'soft' };
	return block([[figure, soft]]).width <= room ? [[figure, soft]] : [[figure], [soft]];
}

/** A detail on the paper. */
export interface PlacedDetail {
	readonly strokes: PaperStroke[];
	readonly lettering: Letters[];
	readonly box: Shape;
	/** How far down its lettering goes, px. */
	readonly bottom: number;
}

/**
 * A detail with its circle at the left and its words beside it.
 * @param corner upper left, px
 * @param width of both together, px
 * @param notes the most lines that a remark may take
 */
export function placeDetail(
	corner: Place,
	width: number,
	radius: number,
	detail: AngleDetail,
	notes: number,
): PlacedDetail {
	const centre = { x: corner.x + radius, y: corner.y + radius };
	const room = width - 2 * radius - 12;
	const soft = (text: string): Run => ({ text, size: 12, ink: 'soft' });
	const figure: Run = { text: detail.figure, size: 20, ink: 'line', bold: detail.certain };
	const letter: Run = { text: detail.letter, size: 14, ink: 'line', bold: true };
	const name = textWidth(detail.name, 12) <= room - 20 ? detail.name : detail.brief;
	const note = detail.note === undefined ? [] : wrapped(detail.note, 12, room);
	const lines: Run[][] = [
		[letter, soft(name)],
		...figureLines(figure, detail.plusMinusText, room),
		// A remark that would be cut short is left out: half a sentence says something else.
		...(note.length <= notes ? note.map((text) => [soft(text)]) : []),
	];
	const words = block(lines);
	const middle = {
		x: corner.x + 2 * radius + 12 + words.width / 2,
		y: corner.y + Math.max(radius, words.height / 2),
	};
	const lettering = [placeBlock(words, middle)];
	const bottom = Math.max(centre.y + radius, middle.y + words.height / 2);
	const height = bottom - corner.y;
	const box = boxShape({ x: corner.x + width / 2, y: corner.y + height / 2 }, width, height);
	return { strokes: detailCircle(centre, radius, detail), lettering, box, bottom };
}

/** Details by themselves, for a phone: side by side where there is room, else one under the other. */
export interface DetailsLayout {
	readonly width: number;
	readonly height: number;
	readonly strokes: readonly PaperStroke[];
	readonly lettering: readonly Lettering[];
}

/** Two details narrower than this stand one under the other, px. */
const narrowest = 128;

/** Lays details out by themselves, each with its remark under it. */
export function detailsLayoutOf(details: readonly AngleDetail[], width: number): DetailsLayout {
	const gap = 12;
	const abreast = Math.max(1, Math.min(details.length, Math.floor(width / (narrowest + gap))));
	const each = (width - gap * (abreast + 1)) / abreast;
	const strokes: PaperStroke[] = [];
	const lettering: Lettering[] = [];
	let [top, bottom] = [gap, gap];
	for (const [index, detail] of details.entries()) {
		const column = index % abreast;
		if (column === 0) top = index === 0 ? gap : bottom + gap;
		const corner = { x: gap + column * (each + gap), y: top };
		const { note, ...bare } = detail;
		const placed = placeDetail(corner, each, each < 280 ? 30 : 40, bare, 0);
		strokes.push(...placed.strokes);
		lettering.push(...placed.lettering.map(lettered));
		let end = placed.bottom;
		if (note !== undefined) {
			const lines = wrapped(note, 12, each).map((text): Run[] => [{ text, size: 12, ink: 'soft' }]);
			const words = block(lines);
			const middle = { x: corner.x + words.width / 2, y: end + 6 + words.height / 2 };
			lettering.push(lettered(placeBlock(words, middle)));
			end += 6 + words.height;
		}
		bottom = Math.max(bottom, end);
	}
	return { width, height: Math.ceil(bottom + gap), strokes, lettering };
}
