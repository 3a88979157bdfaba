/**
 * What a driveshaft shop is given to work from: the shaft joint to joint, and how far its slip yoke stands
 * out of the transmission over the travel. Lengths run along the paper to scale; nothing is computed here.
 */
import {
	textWidth,
	wrapped,
	block,
	placeBlock,
	type Align,
	type Run,
} from '../../drafting/lettering.ts';
import type { LineKind } from '../../drafting/lines.ts';
import { circlePath, px, type Drawing, type PaperStroke } from '../../drafting/paper.ts';
import { lineShape, type Area, type Place } from '../../drafting/shapes.ts';
import type { DrawingAsked, Drawn, DrawnFigure, DrawnName } from '../../language/trade.ts';
import { nearestOnRule, showPlusMinus, showReading } from '../../units/shown.ts';
import { dimensionWays, edgeStroke } from './dimension.ts';
import { SheetOfPaper } from './sheet-of-paper.ts';

const quantity: DrawnName = { must: 'quantity' };

/** Keys under `order` in workbook.yaml; of several names the first that has a value counts, the rest are of the plan. */
export const orderKeys = {
	at_ride: quantity,
	bottomed: quantity,
	room: quantity,
	longest: quantity,
	shortest: quantity,
	spline: quantity,
	tube: quantity,
	wall: quantity,
	/** Nought for a shaft in one piece; of two the rear one is drawn. */
	front_piece: quantity,
} satisfies Record<string, DrawnName>;
type OrderKey = keyof typeof orderKeys;

/** A length of the order. */
interface Length {
	readonly value: number;
	/** As a rule reads it; in brackets where it was worked out and not measured. */
	readonly words: string;
	/** False where only the plan has it. */
	readonly measured: boolean;
	readonly figure: DrawnFigure;
}

function lengthAt({ names, figure }: DrawingAsked, key: OrderKey): Length | undefined {
	for (const [index, name] of (names['order']?.[key] ?? []).entries()) {
		const found = figure(name);
		if (typeof found?.value !== 'number' || !found.shown) continue;
		const words = nearestOnRule(found.value, found.shown);
		return { value: found.value, words, measured: index === 0, figure: found };
	}
	return undefined;
}

function isInTwo(asked: DrawingAsked): boolean {
	return (lengthAt(asked, 'front_piece')?.value ?? 0) > 0;
}

/** An inch on paper, px: CSS has 96 to the inch, so what is drawn so large is full size in print. */
const inch = 96;
const metre = inch / 0.0254;

/** m: usual sizes of what only shows which end is which. Common practice, no source. */
const usual = { ear: 0.04, weld: 0.075, tube: 0.0762, yoke: 0.07, shaft: 1.4 };

const stroke = (path: string, kind: LineKind, more: Partial<PaperStroke> = {}): PaperStroke => ({
	path,
	kind,
	part: 'shaft',
	...more,
});
const line = (from: Place, to: Place): string =>
	`M${px(from.x)} ${px(from.y)}L${px(to.x)} ${px(to.y)}`;
const outline = (places: readonly Place[]): string =>
	places.map(({ x, y }, index) => `${index === 0 ? 'M' : 'L'}${px(x)} ${px(y)}`).join('');

function words(text: string, size: number, bold = false, ink: Run['ink'] = 'line'): Run {
	return { text, size, ink, bold };
}

/** Puts words with the middle of their box, or their left or right end, at a place. */
function letter(sheet: SheetOfPaper, run: Run, at: Place, align: Align = 'middle'): void {
	const made = block([[run]]);
	const half = { left: made.width / 2, middle: 0, right: -made.width / 2 }[align];
	sheet.put({
		strokes: [],
		lettering: [placeBlock(made, { x: at.x + half, y: at.y }, align)],
	});
}

/** Where the shaft lies on the paper, px. */
interface Lie {
	/** Joint centres, across. */
	readonly left: number;
	readonly right: number;
	/** Ends of the tube, across. */
	readonly front: number;
	readonly rear: number;
	/** Half of the tube's thickness, and how far a yoke's ear reaches from its joint. */
	readonly half: number;
	readonly ear: number;
	/** How far what is not the shaft's own is drawn beyond the joints. */
	readonly stub: number;
	readonly small: boolean;
	/** Height of its axis on the paper. */
	readonly middle: number;
	/** A place by its height from the axis. */
	readonly at: (x: number, y: number) => Place;
}

/** Half of the thickness of a yoke's ears at its joint, px. */
const earHalf = 9;

function lieOf(asked: DrawingAsked, area: Area, small: boolean): Lie {
	const stub = small ? 26 : 40;
	const [left, right] = [area.left + stub, area.right - stub];
	const scale = (right - left) / (lengthAt(asked, 'at_ride')?.value ?? usual.shaft);
	const middle = (area.top + area.bottom) / 2;
	const weld = Math.max(22, usual.weld * scale);
	return {
		...{ left, right, front: left + weld, rear: right - weld },
		half: Math.max(7, ((lengthAt(asked, 'tube')?.value ?? usual.tube) / 2) * scale),
		ear: Math.max(12, usual.ear * scale),
		...{ stub, small, middle },
		at: (x, y) => ({ x, y: middle + y }),
	};
}

/**
 * The shaft in line, from joint centre to joint centre.
 * @returns how far down it goes, px
 */
function putShaft(sheet: SheetOfPaper, asked: DrawingAsked, area: Area, small: boolean): number {
	const lie = lieOf(asked, area, small);
	putTube(sheet, lie, area, lengthAt(asked, 'at_ride')?.measured ?? false);
	for (const [joint, end] of [
		[lie.left, lie.front],
		[lie.right, lie.rear],
	] as const) {
		putYoke(sheet, lie, joint, end);
	}
	putNeighbours(sheet, lie);
	putEndNames(sheet, lie, isInTwo(asked));
	const foot = putLengths(sheet, asked, lie);
	putTubeSize(sheet, asked, lie);
	return foot;
}

function putTube(
	sheet: SheetOfPaper,
	{ left, right, front, rear, half, at }: Lie,
	area: Area,
	measured: boolean,
): void {
	const around = [at(front, -half), at(rear, -half), at(rear, half), at(front, half)];
	sheet.strokes.push(
		stroke(line(at(area.left, 0), at(area.right, 0)), 'axis'),
		stroke(`${outline(around)}Z`, measured ? 'planned' : 'unmeasured', { fill: 'paper' }),
	);
	sheet.heavy.add(
		lineShape(at(front, -half), at(rear, -half), 2.6),
		lineShape(at(front, half), at(rear, half), 2.6),
		lineShape(at(left - 8, 0), at(front, 0), 20),
		lineShape(at(rear, 0), at(right + 8, 0), 20),
	);
}

/** @param end of the tube it is welded to, across */
function putYoke(sheet: SheetOfPaper, { ear, half, at }: Lie, joint: number, end: number): void {
	const inward = Math.sign(end - joint);
	for (const side of [-earHalf, earHalf]) {
		const along = [at(joint, side), at(joint + inward * ear, side)];
		sheet.strokes.push(stroke(outline([...along, at(end, Math.sign(side) * half)]), 'outline'));
	}
	sheet.strokes.push(stroke(circlePath(at(joint, 0), 7), 'outline', { fill: 'paper' }));
}

/** Yokes that are not the shaft's own: shapes nobody measured. */
function putNeighbours(sheet: SheetOfPaper, { left, right, stub, at }: Lie): void {
	const beyond = right + stub * 0.7;
	sheet.strokes.push(
		stroke(
			outline([at(left - 7, -6), at(left - stub, -6), at(left - stub, 6), at(left - 7, 6)]),
			'edge',
		),
		stroke(outline([at(right + 7, -6), at(beyond, -6), at(beyond, -16)]), 'edge'),
		stroke(outline([at(right + 7, 6), at(beyond, 6), at(beyond, 16)]), 'edge'),
	);
}

function putEndNames(
	sheet: SheetOfPaper,
	{ left, right, half, small, at }: Lie,
	inTwo: boolean,
): void {
	const size = small ? 11 : 12;
	const front = inTwo ? 'centre bearing' : 'slip yoke';
	const named = (full: string, short: string): Run =>
		words(small ? short : full, size, false, 'soft');
	letter(sheet, named(`front: ${front}`, front), at(left + 12, half + 12), 'left');
	letter(sheet, named('rear: pinion', 'pinion'), at(right - 12, half + 12), 'right');
}

/** Its lengths: at ride under it, and with the yoke bottomed over it. @returns how far down they go, px */
function putLengths(sheet: SheetOfPaper, asked: DrawingAsked, lie: Lie): number {
	const { left, right, half, small, middle, at } = lie;
	const atRide = lengthAt(asked, 'at_ride');
	const bottomed = lengthAt(asked, 'bottomed');
	const lane = half + (small ? 20 : 24);
	const foot = middle + lane + (small ? 18 : 22);
	const span = { from: at(left, 0), to: at(right, 0), along: { x: 1, y: 0 }, short: half };
	const inWords = ({ measured, words }: { measured: boolean; words: string }): string =>
		measured ? words : `(${words})`;
	const sure = atRide?.figure.plusMinus ?? 0;
	const shown = atRide?.figure.shown;
	sheet.putBest(
		dimensionWays(
			{ ...span, lanes: [foot] },
			{
				main: atRide ? inWords(atRide) : 'not read yet',
				...(sure > 0 && shown && { plusMinus: showPlusMinus(sure, shown) }),
				note: small ? 'at ride' : 'joint centre to joint centre, at ride',
			},
			small,
		),
		Infinity,
	);
	if (bottomed) {
		const note = small ? 'yoke bottomed' : 'with the slip yoke bottomed';
		sheet.putBest(
			dimensionWays({ ...span, lanes: [middle - lane] }, { main: inWords(bottomed), note }, small),
			Infinity,
		);
	}
	return foot;
}

/** How thick the tube is stands inside it, and its axis stops for the words. */
function putTubeSize(
	sheet: SheetOfPaper,
	asked: DrawingAsked,
	{ front, rear, half, small, middle, at }: Lie,
): void {
	const tube = lengthAt(asked, 'tube');
	const wall = lengthAt(asked, 'wall')?.figure;
	const thick =
		wall?.shown && typeof wall.value === 'number'
			? ` × ${showReading(wall.value, wall.shown)} wall`
			: '';
	const said = tube && !small ? words(`ø ${tube.words}${thick}`, 12) : undefined;
	const taken = said ? block([[said]]).width + 20 : 0;
	const across = Math.min(front + (rear - front) * 0.66, rear - taken - 4);
	sheet.strokes.push(stroke(line(at(front, 0), at(across, 0)), 'axis'));
	sheet.strokes.push(stroke(line(at(across + taken, 0), at(rear, 0)), 'axis'));
	if (!said) return;
	sheet.strokes.push(edgeStroke(at(across, -half), at(across, half)));
	sheet.strokes.push(...ticks(across, middle, half));
	letter(sheet, said, at(across + 10, 0), 'left');
}

/** Short strokes where a line across the tube ends. */
function ticks(x: number, middle: number, half: number): PaperStroke[] {
	return [-1, 1].map((side) =>
		edgeStroke(
			{ x: x - 4, y: middle + side * half + 4 },
			{ x: x + 4, y: middle + side * half - 4 },
		),
	);
}

/** Both yokes seen along the shaft, in one line: a shaft welded a quarter turn out makes its joints add up. */
function putYokes(sheet: SheetOfPaper, y: number, middle: number): void {
	const yoke = (x: number, said: string): void => {
		sheet.strokes.push(
			stroke(circlePath({ x, y }, 13), 'edge'),
			stroke(circlePath({ x, y }, 4), 'edge'),
			stroke(line({ x: x - 22, y }, { x: x + 22, y }), 'axis'),
			stroke(line({ x, y: y - 22 }, { x, y: y + 22 }), 'axis'),
		);
		for (const side of [-1, 1]) {
			const [top, bottom] = [y + side * 17, y + side * 9];
			sheet.strokes.push(
				stroke(
					`${outline([
						{ x: x - 4, y: top },
						{ x: x + 4, y: top },
						{ x: x + 4, y: bottom },
						{ x: x - 4, y: bottom },
					])}Z`,
					'outline',
					{ fill: 'paper' },
				),
			);
		}
		letter(sheet, words(said, 12, false, 'soft'), { x: x + 28, y }, 'left');
	};
	yoke(middle - 190, 'front yoke');
	yoke(middle + 30, 'rear yoke: both upright together');
}

/** A place on the scale of the slip yoke. */
interface Mark {
	readonly out: number;
	readonly words: string;
	readonly bold: boolean;
}

function marksOf(asked: DrawingAsked, small: boolean): Mark[] {
	const [atRide, room] = [lengthAt(asked, 'at_ride'), lengthAt(asked, 'room')];
	if (!atRide || !room) return [];
	const far = (['shortest', 'longest'] as const).flatMap((key): Mark[] => {
		const length = lengthAt(asked, key);
		if (!length || Math.abs(length.value - atRide.value) < 1e-6) return [];
		const said = small ? key : `${key} over the travel`;
		const out = room.value - (atRide.value - length.value);
		return [{ out, words: `${said} (${length.words})`, bold: false }];
	});
	return [...far, { out: room.value, words: `at ride ${atRide.words}`, bold: true }];
}

/** Divisions of the rule: the whole ones lettered, those between by their length. */
function ruleOf({ system }: DrawingAsked): {
	whole: number;
	parts: number;
	half: number;
	unit: string;
} {
	return system === 'metric'
		? { whole: 0.01, parts: 10, half: 5, unit: 'mm' }
		: { whole: 0.0254, parts: 8, half: 4, unit: 'in' };
}

/** The rule that a slip is drawn on: whole divisions that take in all its marks, and where it lies on the paper. */
interface SlipRule extends ReturnType<typeof ruleOf> {
	readonly start: number;
	readonly end: number;
	readonly scale: number;
	/** Where its line lies, and on it what stands out so far. */
	readonly y: number;
	readonly at: (out: number) => number;
	/** Size of its letters. */
	readonly size: number;
}

/** As large as it may be, with the words of the marks beside it. */
function slipRule(
	marks: readonly Mark[],
	ride: number,
	rule: ReturnType<typeof ruleOf>,
	area: Area,
	size: number,
): SlipRule {
	const most = Math.max(0, ...marks.map(({ out }) => out));
	const least = Math.min(0, ...marks.map(({ out }) => out));
	const end = Math.ceil((most + rule.whole / 4) / rule.whole) * rule.whole;
	const start = Math.floor(least / rule.whole) * rule.whole;
	// The words of a mark stand on its outer side, and have to find room there.
	const room = (scale: number, left: boolean): number =>
		marks
			.filter((mark) => !mark.bold && mark.out < ride === left)
			.map((mark) => {
				const inward = (left ? mark.out - start : end - mark.out) * scale;
				return textWidth(mark.words, size) + 8 - inward;
			})
			.reduce((most, each) => Math.max(most, each), 18);
	const across = (scale: number): number =>
		room(scale, true) + (end - start) * scale + room(scale, false);
	let scale = metre;
	while (scale > metre / 50 && across(scale) > area.right - area.left) scale *= 0.98;
	const spare = Math.max(0, area.right - area.left - across(scale)) / 2;
	const x0 = area.left + spare + room(scale, true) - start * scale;
	return { ...rule, start, end, scale, size, y: area.bottom - 20, at: (out) => x0 + out * scale };
}

/** The rule with its divisions, those lettered that have room for it. */
function putRule(sheet: SheetOfPaper, rule: SlipRule, small: boolean): void {
	const { start, end, scale, y, at, size } = rule;
	sheet.strokes.push(
		stroke(line({ x: at(start) - 16, y }, { x: at(end) + 16, y }), 'edge'),
		stroke(line({ x: at(0), y: y - 18 }, { x: at(0), y: y + 8 }), 'planned'),
	);
	const steps = Math.round((end - start) / rule.whole) * rule.parts;
	const last = Math.round(end / rule.whole);
	const number = (count: number): string =>
		String(rule.unit === 'mm' ? count * 10 : count).replace('-', '−');
	const widest = textWidth(number(last), size) + 8;
	const lettered = [1, 2, 5, 10].find((each) => each * rule.whole * scale >= widest) ?? 20;
	for (let step = 0; step <= steps; step++) {
		const out = start + (step * rule.whole) / rule.parts;
		const x = at(out);
		const whole = step % rule.parts === 0;
		const long = whole ? 12 : step % rule.half === 0 ? 8 : 5;
		sheet.strokes.push(stroke(line({ x, y }, { x, y: y + long }), 'edge'));
		const count = Math.round(out / rule.whole);
		if (!whole || count % lettered !== 0) continue;
		letter(sheet, words(number(count), size), { x, y: y + 19 });
		if (count + lettered <= last) continue;
		const tail = small ? rule.unit : `${rule.unit} out from bottomed`;
		letter(sheet, words(tail, size, false, 'soft'), { x: x + widest / 2 + 4, y: y + 19 }, 'left');
	}
}

/** A place on the rule, with its words above it, or away from that of the ride. */
function putMark(
	sheet: SheetOfPaper,
	{ out, words: said, bold }: Mark,
	{ y, at, size }: SlipRule,
	ride: number,
	area: Area,
	small: boolean,
): void {
	const x = at(out);
	const own = { x, y: y - (bold ? 44 : 26) };
	sheet.strokes.push(edgeStroke({ x, y: y - 2 }, own), ...arrowDown({ x, y: y - 1 }));
	const width = textWidth(said, bold ? 13 : size);
	if (bold) {
		const clear = Math.max(area.left + width / 2, Math.min(area.right - width / 2, x));
		letter(sheet, words(said, small ? 12 : 13, true), { x: clear, y: y - 54 });
		return;
	}
	// Away from the mark of the ride, so that neither lies over the other.
	const left = out < ride;
	const beside = left ? x - area.left : area.right - x;
	const elbow = Math.max(0, Math.min(28, beside - width - 6));
	const to = { x: x + (left ? -elbow : elbow), y: own.y };
	sheet.strokes.push(edgeStroke(own, to));
	const begins = { x: to.x + (left ? -5 : 5), y: own.y };
	letter(sheet, words(said, size), begins, left ? 'right' : 'left');
}

/** How far the yoke stands out from bottomed, on a rule; full size where the paper is wide enough. */
function putSlip(
	sheet: SheetOfPaper,
	asked: DrawingAsked,
	area: Area,
	small: boolean,
): 'full size' | 'to scale' | undefined {
	const marks = marksOf(asked, small);
	const ride = marks.at(-1)?.out;
	if (ride === undefined) return undefined;
	const rule = slipRule(marks, ride, ruleOf(asked), area, small ? 11 : 12);
	putRule(sheet, rule, small);
	for (const mark of marks) putMark(sheet, mark, rule, ride, area, small);
	if (!small) {
		const beside = { x: rule.at(0) - 8, y: rule.y + 19 };
		letter(sheet, words('bottomed', rule.size, false, 'soft'), beside, 'right');
	}
	return rule.scale === metre ? 'full size' : 'to scale';
}

function arrowDown({ x, y }: Place): PaperStroke[] {
	return [
		stroke(
			`${outline([
				{ x, y },
				{ x: x - 3, y: y - 10 },
				{ x: x + 3, y: y - 10 },
			])}Z`,
			'bare',
			{ fill: 'line' },
		),
	];
}

/** What is left at either end of the travel, in one sentence. */
function leftOver(asked: DrawingAsked): string {
	const [atRide, room] = [lengthAt(asked, 'at_ride'), lengthAt(asked, 'room')];
	const [shortest, spline] = [lengthAt(asked, 'shortest'), lengthAt(asked, 'spline')];
	const said: string[] = [];
	if (atRide && room && shortest && room.figure.shown) {
		const left = room.value - (atRide.value - shortest.value);
		said.push(
			`${nearestOnRule(left, room.figure.shown)} is left before it bottoms at the shortest`,
		);
	}
	if (spline) said.push(`${spline.words} of spline holds at the longest`);
	return said.length === 0 ? '' : `Worked out: ${said.join('; ')}.`;
}

/** The drawing of an order. */
export function drawShaftOrder(asked: DrawingAsked): Drawn {
	const atRide = lengthAt(asked, 'at_ride');
	const { width, height } = asked;
	const small = width < 560;
	const margin = small ? 8 : 14;
	const area = { left: margin, right: width - margin, top: 2, bottom: height - 2 };
	const sheet = new SheetOfPaper(area);
	const more = small ? [] : wrapped(leftOver(asked), 12, area.right - area.left);
	const slip = small ? 84 : 126 + more.length * 16;
	const split = height - slip;
	const yokes = !small && split >= 190;
	const head = !atRide
		? 'Seen from the left; how long it is was not read yet.'
		: atRide.measured
			? 'Seen from the left, to scale. At ride, on its wheels.'
			: 'By the plan, not measured: no shaft is ordered from this.';
	letter(sheet, words(head, small ? 11 : 12, false, 'soft'), { x: margin, y: 11 }, 'left');
	const bottom = split - (yokes ? 62 : 6);
	const down = putShaft(sheet, asked, { ...area, top: 18, bottom }, small);
	if (yokes) putYokes(sheet, Math.min(split - 32, (down + split) / 2 + 6), width / 2);
	if (!small) {
		sheet.strokes.push(stroke(line({ x: 0, y: split }, { x: width, y: split }), 'edge'));
	}
	const scaleEnds = height - (small ? 4 : 8 + more.length * 16);
	const sized = putSlip(sheet, asked, { ...area, bottom: scaleEnds }, small);
	if (sized && !small) {
		const said = !asked.paper
			? 'The slip yoke: where it stands out from bottomed. Full size on paper.'
			: sized === 'full size'
				? 'The slip yoke, full size: where it stands out from bottomed. Lay a rule on the paper to check.'
				: 'The slip yoke, smaller than it is: where it stands out from bottomed.';
		letter(sheet, words(said, 12, false, 'soft'), { x: margin, y: split + 14 }, 'left');
		for (const [index, each] of more.entries()) {
			const y = height - 10 - (more.length - 1 - index) * 16;
			letter(sheet, words(each, 12), { x: margin, y }, 'left');
		}
	}
	const drawing: Drawing = {
		width,
		height,
		strokes: sheet.strokes,
		lettering: sheet.lettering,
		clip: { left: 0, right: width, top: 0, bottom: height },
		callouts: [],
		handles: [],
	};
	if (!atRide) {
		const waits = (asked.names['order']?.['at_ride'] ?? []).slice(-1);
		return { drawing, title: 'The driveshaft, its length not read yet.', waits, entries: {} };
	}
	const planned = atRide.measured ? '' : ', by the plan';
	const made = lengthAt(asked, 'front_piece')
		? 'The rear piece of the driveshaft'
		: 'The driveshaft';
	const title = `${made}, ${atRide.words} joint centre to joint centre at ride${planned}, and how far its slip yoke stands out. ${leftOver(asked)}`;
	return { drawing, title: title.trim(), waits: [], entries: {} };
}
