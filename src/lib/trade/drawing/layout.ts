/**
 * A drawing laid out on paper: the scale, the lines, and every word in a place of its own. It places words and
 * numbers and makes none: they come in ready to letter. What finds no place is left out, the least important
 * first, and is named.
 */
import { placeDetail, type AngleDetail } from './detail.ts';
import { dimensionWays, edgeStroke, type DimensionText } from './dimension.ts';
import { ring } from '../../drafting/handle.ts';
import { circlePath, px, type Drawing, type PaperStroke } from '../../drafting/paper.ts';
import type { CalloutBox } from '../../drafting/callout.ts';
import { handleOf, type TruckHandle, type TruckHandleEntry } from './handles.ts';
import { firstWithLeader, labelWays } from './label.ts';
import { calloutRows, placeCallouts, type CalloutWords } from './callouts.ts';
import { block, placeBlock, textWidth, wrapped, type Run } from '../../drafting/lettering.ts';
import type { Ink, LineKind } from '../../drafting/lines.ts';
import { frameOf, outlineOf, railBottom, usual, type Role, type Stroke } from './outline.ts';
import { measureOf, placeOf, type DimensionName, type PlaceName, type Subject } from './places.ts';
import {
	boxShape,
	inside,
	overlap,
	type Area,
	type Place,
	type Shape,
} from '../../drafting/shapes.ts';
import { SheetOfPaper, type Group, type Proposal, type Way } from './sheet-of-paper.ts';
import { frontWheel, lipTop, type TruckState } from './truck.ts';
import {
	drawn,
	scaleBar,
	toPaper,
	viewOf,
	type Crop,
	type Still,
	type UnitSystem,
	type View,
} from './view.ts';

export interface LabelWords {
	readonly at: PlaceName;
	readonly text: string;
	readonly ink?: Ink;
	readonly bold?: boolean;
}

/** What a legend may explain. */
export type LegendKey = LineKind | 'smooth' | 'plusMinus' | 'ring';

/** What is to be drawn, and every word for it. Lists go by importance, the most important first. */
export interface DrawingRequest {
	/** px */
	readonly width: number;
	readonly height: number;
	readonly before?: TruckState | undefined;
	readonly plan?: TruckState | undefined;
	readonly found?: TruckState | undefined;
	/** Other ways to do the job, laid over: each with its letter or number at its axle. */
	readonly options?: readonly {
		readonly state: TruckState;
		readonly letter: string;
		/** Of one that cannot be put together: what its gap is lettered with. */
		readonly gap?: DimensionText;
	}[];
	/** True to draw the lines from eye to eye, now and before: the plank that the spring nearly is. */
	readonly plank?: boolean;
	readonly crop: Crop;
	readonly still: Still;
	readonly units: UnitSystem;
	readonly caption?: string;
	/** False for drawings that stand under one scale, or are too small for a bar. */
	readonly bar?: boolean;
	/** Letters at the front and the rear joint. */
	readonly jointLetters?: readonly [string, string];
	readonly details?: readonly AngleDetail[];
	readonly handles?: readonly TruckHandleEntry[];
	readonly callouts?: readonly (CalloutWords & { readonly at: CalloutAt })[];
	/** Places that a ring is drawn round. */
	readonly marks?: readonly PlaceName[];
	/** Callouts are circles with their numbers, whatever the width. */
	readonly numbered?: boolean;
	/** Without a text only the lines are drawn, for a callout to point at. */
	readonly dimensions?: readonly { readonly of: DimensionName; readonly text?: DimensionText }[];
	readonly labels?: readonly LabelWords[];
	readonly legend?: readonly { readonly of: LegendKey; readonly text: string }[];
}

/** What found no place. */
export interface LeftOut {
	readonly kind:
		| 'caption'
		| 'bar'
		| 'letter'
		| 'option'
		| 'detail'
		| 'callout'
		| 'dimension'
		| 'label'
		| 'legend';
	readonly name: string;
}

export interface Layout extends Drawing {
	readonly handles: readonly TruckHandle[];
	readonly view: View;
	/** The state that the heavy lines are of. */
	readonly shown: TruckState;
	readonly leftOut: readonly LeftOut[];
	/** Which proposal was taken for what, for the next layout to keep to. */
	readonly choices: ReadonlyMap<string, number>;
	readonly request: Pick<DrawingRequest, 'width' | 'height' | 'crop' | 'still'>;
}

/** Space at the edge of the paper, px. */
const edge = 8;
/** Panes narrower than this have smaller lettering, and numbers for callouts. */
const narrow = 560;

/** One layout while it is made. */
interface Making {
	readonly request: DrawingRequest;
	readonly paper: SheetOfPaper;
	readonly small: boolean;
	readonly leftOut: LeftOut[];
	readonly choices: Map<string, number>;
	/** What was chosen the last time, while something is moved. */
	readonly kept: ReadonlyMap<string, number> | undefined;
	/** Whether that was before something was settled rather than while it moves. */
	readonly resting: boolean;
}

/** What a thing may cost on the paper before it is better left out. */
const most: Readonly<Record<LeftOut['kind'], number>> = {
	caption: Infinity,
	bar: Infinity,
	letter: 90,
	option: 260,
	detail: Infinity,
	callout: Infinity,
	dimension: 480,
	label: 400,
	legend: 140,
};

function place<Made extends Proposal>(
	making: Making,
	kind: LeftOut['kind'],
	name: string,
	groups: readonly Group<Made>[],
): Made | undefined {
	const key = `${kind} ${name}`;
	const { kept, paper, resting } = making;
	// What found no place before a part was moved does not come and go while it moves.
	const missing = kept !== undefined && !resting && !kept.has(key);
	const best = missing ? undefined : paper.putBest(groups, most[kind], kept?.get(key));
	if (!best) making.leftOut.push({ kind, name });
	else making.choices.set(key, best.index);
	return best?.made;
}

/** Ways that need no grouping. */
function ungrouped<Made extends Proposal>(ways: () => readonly Way<Made>[]): Group<Made>[] {
	return [{ cost: 0, ways }];
}

/** Caption at the upper left, scale bar at the upper right. */
function head(making: Making, view: View, wanted: boolean): void {
	const { request, paper, small } = making;
	const size = small ? 11 : 12;
	const soft = (text: string): Run => ({ text, size, ink: 'soft' });
	const captionLines = request.caption
		? wrapped(request.caption, size, request.width - 2 * edge - (wanted ? 130 : 0))
		: [];
	if (captionLines.length > 0) {
		const words = block(captionLines.map((text) => [soft(text)]));
		const middle = { x: edge + words.width / 2, y: edge + words.height / 2 };
		const make = (): Proposal => ({ lettering: [placeBlock(words, middle)], strokes: [] });
		place(
			making,
			'caption',
			'caption',
			ungrouped(() => [{ cost: 0, make }]),
		);
	}
	if (!wanted) return;
	const bar = scaleBar(view.scale, small ? 70 : 112, request.units);
	const words = block([[soft(bar.text)]]);
	const total = bar.length + 7 + words.width;
	const ways = [paper.area.top + 12, paper.area.bottom - 12].flatMap((y, row) =>
		[request.width - edge - total, edge].map((x, column): Way => {
			const ends = [0, 0.5, 1].map((share) => x + bar.length * share);
			const tick = (at: number, half: number): PaperStroke =>
				edgeStroke({ x: at, y: y - half }, { x: at, y: y + half });
			const strokes = [
				edgeStroke({ x, y }, { x: x + bar.length, y }),
				...ends.map((at, index) => tick(at, index === 1 ? 3 : 5)),
			].map((stroke): PaperStroke => ({ ...stroke, part: 'scale', whole: true }));
			const middle = { x: x + bar.length + 7 + words.width / 2, y };
			const lettering = [placeBlock(words, middle)];
			const whole = boxShape({ x: x + total / 2, y }, total, 14);
			return { cost: row * 40 + column * 20, make: () => ({ lettering, strokes, boxes: [whole] }) };
		}),
	);
	place(
		making,
		'bar',
		'bar',
		ungrouped(() => ways),
	);
}

/** Rows of the strip under the elevation, which holds the details and the legend. */
interface Strip {
	readonly height: number;
	readonly radius: number;
	readonly width: number;
	readonly notes: number;
	readonly legendWidth: number;
}

function legendSize(request: DrawingRequest): { width: number; height: number } {
	const rows = request.legend ?? [];
	const widths = rows.map(({ text }) => block([[{ text, size: 12, ink: 'soft' }]]).width);
	return { width: Math.max(0, ...widths) + 40, height: rows.length * 20 };
}

/** How the details stand under the elevation; undefined where there is no room for them. */
function stripOf(request: DrawingRequest): Strip | undefined {
	const details = request.details ?? [];
	if (details.length === 0) return undefined;
	const { width, height } = request;
	const legend = (request.legend?.length ?? 0) > 0 ? legendSize(request).width : 0;
	const legendWidth = width >= 720 ? legend : 0;
	const each = (width - 2 * edge - legendWidth) / details.length - 12;
	if (height < 260 || each < 138) return undefined;
	const radius = each >= 280 ? 40 : 27;
	const notes = each >= 280 ? 2 : 0;
	return { height: 2 * radius + 14, radius, width: each, notes, legendWidth };
}

function putDetails(making: Making, strip: Strip): void {
	const { request, paper } = making;
	const top = request.height - strip.height + 4;
	for (const [index, detail] of (request.details ?? []).entries()) {
		const x = edge + (making.small ? 0 : 20) + index * (strip.width + 12);
		const width = strip.width - (making.small ? 0 : 20);
		const placed = placeDetail({ x, y: top }, width, strip.radius, detail, strip.notes);
		paper.put({ ...placed, boxes: [placed.box] });
	}
}

/** The shown state last, so that it lies on top. */
function rolesOf(request: DrawingRequest): { shown: TruckState; all: [TruckState, Role][] } {
	const { before, plan, found } = request;
	const shown = found ?? plan ?? before;
	if (!shown) throw new Error('A drawing needs a state of the truck: before, plan or found.');
	const all: [TruckState, Role][] = [];
	if (before && before !== shown) all.push([before, 'before']);
	if (plan && plan !== shown) all.push([plan, 'plan']);
	for (const { state } of request.options ?? []) all.push([state, 'option']);
	// Under laid-over options the truck as it stands is what was there before.
	const under = shown === before && (request.options?.length ?? 0) > 0;
	if (under) all.unshift([shown, 'before']);
	else all.push([shown, 'shown']);
	return { shown, all };
}

/** What caption and scale bar take at the top, px; the elevation is cut off under them. */
function headHeight({ width, caption, bar, crop }: DrawingRequest): number {
	const size = width >= narrow ? 12 : 11;
	const lines = caption ? wrapped(caption, size, width - 2 * edge - 130).length : 0;
	return Math.max(lines > 0 ? lines * 16 + 6 : 0, bar === false || crop === 'axle' ? 0 : 22);
}

/** Whether its callouts are circles. */
function rounded({ width, numbered }: DrawingRequest): boolean {
	return numbered === true || width < narrow;
}

/** What the words round the elevation will need at each side, px. */
function marginsFor(request: DrawingRequest, strip: Strip | undefined): Area {
	const { width, height, dimensions = [], callouts = [] } = request;
	const has = (...names: DimensionName[]): boolean =>
		dimensions.some(({ of }) => names.includes(of));
	const roomy = width >= narrow;
	// Room for the widest text that stands beside an upright dimension, its lines one under the other.
	const beside = dimensions.filter(
		({ of }) => of === 'drop' || of === 'rearLip' || of === 'pivot' || of === 'gap',
	);
	const widest = beside.flatMap(({ text }) =>
		text ? [text.main, text.plusMinus ?? '', text.note ?? ''] : [],
	);
	const texts = widest.map((text) => textWidth(text, roomy ? 13 : 12));
	const wide = Math.min(0.2 * width, 130, Math.max(28, ...texts.map((long) => long + 24)));
	const { above, under, apart } = calloutRows(callouts, width - 2 * edge, rounded(request));
	const halves = has('leafFront', 'leafRear') && height > 180 ? 24 : 0;
	return {
		left:
			edge +
			(request.crop === 'spring' && has('frontEye', 'miss') ? Math.min(60, 0.15 * width) : 0),
		right: edge + (has('drop', 'rearLip', 'pivot', 'gap') ? wide : 0),
		top: edge + headHeight(request) + Math.max(above * apart, halves),
		bottom: (strip?.height ?? 0) + 12 + under * apart + (has('wheelbase') ? 34 : 0),
	};
}

/** What the crop of the seat shows: the rest would only run across it. */
const ofAxle: ReadonlySet<string> = new Set(['spring', 'seat', 'axle', 'pinion', 'shaft']);

/** Frame and floor, without what the floor is hatched with. */
function isRuled({ part, kind }: Stroke): boolean {
	return kind !== 'edge' && (part === 'frame' || part === 'floor');
}

/** Draws the states and tells the paper what lies where. */
function putStates(making: Making, view: View, rail: number, clip: Area): void {
	const { request, paper } = making;
	const { shown, all } = rolesOf(request);
	const front = frontWheel(shown);
	const edges = [(view.x - request.width) / view.scale, view.x / view.scale] as const;
	const behind = Math.min(
		...all.map(([{ pivot, rearEye, axle, tyres }]) =>
			Math.min(pivot.x, rearEye.x, axle.x - tyres.rear),
		),
	);
	const ahead = front ? front.x + (shown.tyres.front ?? 0) * 1.15 : Infinity;
	const tail = shown.transmission.joint.x + 0.55;
	const spare = 6 / view.scale;
	const reach: [number, number] = [
		Math.max(behind - 0.1, edges[0] + spare),
		Math.min(request.crop === 'whole' ? ahead : tail, edges[1] - spare),
	];
	const within = boxShape(
		{ x: (clip.left + clip.right) / 2, y: (clip.top + clip.bottom) / 2 },
		clip.right - clip.left,
		clip.bottom - clip.top,
	);
	const put = (stroke: Stroke, state: TruckState): void => {
		const on = drawn(stroke, view, state);
		paper.strokes.push(on.stroke);
		const inSight = (): Shape[] => on.shapes().filter((shape) => overlap(shape, within));
		(on.heavy ? paper.heavy : paper.thin).addLater(inSight);
		if (isRuled(stroke)) paper.ruled.addLater(inSight);
	};
	if (request.crop !== 'axle') {
		for (const stroke of frameOf(shown, rail, reach)) put(stroke, shown);
	}
	for (const [state, role] of request.plank ? all : []) {
		const kind = role === 'shown' ? 'axis' : 'before';
		put({ part: 'spring', kind, pieces: [{ line: [state.frontEye, state.rearEye] }] }, state);
	}
	for (const [state, role] of all) {
		const lip = lipTop(state, 'rear');
		const lipInSight = !lip || toPaper(view, state, lip).y > clip.top + 3;
		for (const stroke of outlineOf(state, role, rail, reach, request.crop === 'whole')) {
			if (stroke.part === 'lips' && !lipInSight) continue;
			if (request.crop === 'axle' && !ofAxle.has(stroke.part)) continue;
			put(stroke, state);
		}
	}
}

/** A letter and a fine circle at each joint, which the details stand for. */
function putLetters(making: Making, subject: Subject): void {
	const { jointLetters } = making.request;
	if (!jointLetters) return;
	const ways = (['jointFront', 'jointRear'] as const).map((name) =>
		placeOf(name, subject.shown, subject.view, subject.rail),
	);
	const radius = subject.view.scale * usual.shaftTube > 8 ? 17 : 11;
	for (const [index, at] of ways.entries()) {
		const text = jointLetters[index];
		if (!at || text === undefined) continue;
		const words = block([[{ text, size: 14, ink: 'line', bold: true }]]);
		const circled: PaperStroke = { path: circlePath(at, radius), kind: 'edge', part: 'detail' };
		const letterWay = ({ make, cost }: Way): Way => ({
			cost,
			make: () => {
				const made = make();
				return { ...made, strokes: [circled, ...made.strokes] };
			},
		});
		place(
			making,
			'letter',
			text,
			// Letters stand over their joints, as on every drawing.
			ungrouped(() => labelWays(at, radius, words, 'line', 6).map(letterWay)),
		);
	}
}

/** The letters of laid-over options, on leaders from their axles. */
function putOptions(making: Making, { view }: Subject): void {
	for (const { state, letter } of making.request.options ?? []) {
		const at = toPaper(view, state, state.axle);
		const words = block([[{ text: letter, size: 12, ink: 'line', bold: true }]]);
		// Never close by: axles of options lie so near one another that only a leader tells them apart.
		const ways = labelWays(at, 3, words, 'line').slice(firstWithLeader);
		place(
			making,
			'option',
			letter,
			ungrouped(() => ways),
		);
	}
}

/** What an option lacks that cannot be put together, dimensioned on it. */
function putGaps(making: Making, subject: Subject): void {
	for (const { state, letter, gap } of making.request.options ?? []) {
		const measure = gap && measureOf('gap', { ...subject, shown: state });
		if (!measure) continue;
		place(making, 'dimension', `gap ${letter}`, dimensionWays(measure, gap, making.small));
	}
}

/** Only what is in sight can be taken hold of. */
function putHandles({ request, paper }: Making, subject: Subject, clip: Area): TruckHandle[] {
	const handles = (request.handles ?? [])
		.map((entry) => handleOf(entry, subject.shown, subject.view))
		.filter(({ place: { x, y } }) => inside(boxShape({ x, y }, ring, ring), clip));
	for (const { place: at } of handles) paper.putRing(boxShape(at, ring, ring));
	return handles;
}

/** Where a callout points: at a place of the truck, or at a dimension that has no text of its own. */
export type CalloutAt = PlaceName | `dimension ${DimensionName}`;

function putCallouts(
	{ request, paper, kept, choices, leftOut }: Making,
	subject: Subject,
	lines: ReadonlyMap<string, Place>,
): CalloutBox[] {
	const round = rounded(request);
	const { callouts = [], width } = request;
	const rows = calloutRows(callouts, width - 2 * edge, round);
	const area = { ...subject.area, top: headHeight(request) };
	const anchored = callouts.map(({ at, ...words }) => ({
		words,
		anchor: at.startsWith('dimension ')
			? lines.get(at)
			: placeOf(at as PlaceName, subject.shown, subject.view, subject.rail),
	}));
	const keep = kept && ((name: string) => kept.get(`callout ${name}`));
	const made = placeCallouts(anchored, area, rows, round, keep);
	for (const { index, callout, ...proposal } of made) {
		paper.put(proposal);
		choices.set(`callout ${callout.name}`, index);
	}
	const placed = new Set(made.map(({ callout }) => callout.name));
	for (const { name } of callouts) if (!placed.has(name)) leftOut.push({ kind: 'callout', name });
	return made.map(({ callout }) => callout);
}

/** Dimensions with a text, or those without one; where the lines of these lie. */
function putDimensions(making: Making, subject: Subject, lettered: boolean): Map<string, Place> {
	const lines = new Map<string, Place>();
	for (const { of, text } of making.request.dimensions ?? []) {
		if ((text !== undefined) !== lettered) continue;
		const measure = measureOf(of, subject);
		const made = place(
			making,
			'dimension',
			of,
			measure ? dimensionWays(measure, text, making.small) : [],
		);
		if (made) lines.set(`dimension ${of}`, made.middle);
	}
	return lines;
}

function putLabels(making: Making, subject: Subject, handles: readonly TruckHandle[]): void {
	const asked = (making.request.handles ?? []).map(({ name }) => ringAt[name]);
	const rings = handles.map(({ name }) => ringAt[name]);
	for (const { at: name, text, ink = 'soft', bold = false } of making.request.labels ?? []) {
		const at = placeOf(name, subject.shown, subject.view, subject.rail);
		const ringed = rings.includes(name);
		// What cannot be taken hold of here is not said to be moved here.
		if (ink === 'pencil' && asked.includes(name) && !ringed) continue;
		const size = making.small ? 11 : 12;
		const words = block([[{ text, size, ink, bold }]]);
		const ways = (): Way[] => [
			...(at ? labelWays(at, ringed ? ring / 2 : 3, words, ink) : []),
			...inRail(name, at, subject, words),
		];
		place(making, 'label', `${name}: ${text}`, ungrouped(ways));
	}
}

/** The place that each handle rings. */
const ringAt: Readonly<Record<TruckHandleEntry['name'], PlaceName>> = {
	frontEye: 'frontEye',
	pivot: 'pivot',
	shackle: 'rearEye',
	axle: 'axle',
	wedge: 'wedge',
	mountShim: 'mount',
	wanted: 'wanted',
};

/** The rail is named inside it where it is drawn high enough. */
function inRail(
	name: PlaceName,
	at: Place | undefined,
	{ view, area }: Subject,
	words: ReturnType<typeof block>,
): Way[] {
	const height = usual.rail * view.scale;
	if (name !== 'rail' || !at || height < words.height + 3) return [];
	const ways: Way[] = [];
	for (let x = area.right - words.width / 2; x > area.left + words.width / 2; x -= 24) {
		const middle = { x, y: at.y + height / 2 };
		ways.push({
			cost: Math.abs(x - at.x) / 60,
			make: () => ({ lettering: [placeBlock(words, middle)], strokes: [] }),
		});
	}
	return ways;
}

/** One row of a legend: how the line or field looks, at the left end of its row. */
function swatch(of: LegendKey, { x, y }: Place): PaperStroke {
	const more = { part: 'lettering', whole: true } as const;
	const field = `M${px(x)} ${px(y - 6)}h22v12h-22Z`;
	if (of === 'smooth') return { path: field, kind: 'bare', fill: 'band', ...more };
	if (of === 'plusMinus') return { path: field, kind: 'bare', fill: 'soft', faint: true, ...more };
	if (of === 'ring') return { path: circlePath({ x: x + 11, y }, 7), kind: 'movable', ...more };
	return { path: `M${px(x - 4)} ${px(y)}h28`, kind: of, ...more };
}

function putLegend(making: Making, strip: Strip | undefined, area: Area): void {
	const { request } = making;
	const rows = request.legend ?? [];
	if (rows.length === 0) return;
	const { width, height } = legendSize(request);
	const at = (x: number, y: number): Proposal => {
		const lettering = rows.map(({ of, text }, row) => {
			const ink: Ink = of === 'ring' ? 'pencil' : 'soft';
			const words = block([[{ text, size: 12, ink }]]);
			return placeBlock(words, { x: x + 36 + words.width / 2, y: y + row * 20 + 10 });
		});
		const strokes = rows.map(({ of }, row) => swatch(of, { x: x + 4, y: y + row * 20 + 10 }));
		const box = boxShape({ x: x + width / 2, y: y + height / 2 }, width, height);
		return { lettering, strokes, boxes: [box] };
	};
	const ways: Group[] = [];
	const spot = (x: number, y: number, cost: number): Group => ({
		cost,
		ways: () => [{ cost, make: () => at(x, y) }],
	});
	if (strip && strip.legendWidth > 0) {
		ways.push(spot(request.width - edge - width, request.height - strip.height + 8, 0));
	}
	for (let y = area.bottom - height; y >= area.top; y -= 12) {
		for (let x = area.right - width; x >= area.left; x -= 24) {
			const cost = 20 + (area.right - width - x) / 20 + (area.bottom - y) / 40;
			ways.push(spot(x, y, cost));
		}
	}
	place(making, 'legend', 'legend', ways);
}

/** What a layout may keep to: one made before, its scale and place or the places of its words too. */
export type Kept = Pick<Layout, 'view' | 'request'> & {
	readonly choices?: Layout['choices'] | undefined;
};

/** A layout made before, as far as it may be kept: the same paper and the same part of the truck. */
function sameSheet(before: Kept | undefined, request: DrawingRequest): Kept | undefined {
	if (!before) return undefined;
	const { width, height, crop, still } = before.request;
	const same = width === request.width && height === request.height;
	return same && crop === request.crop && still === request.still ? before : undefined;
}

/** A view as it was, unless the truck would now be a good deal larger, smaller or elsewhere on the paper. */
function nearly(was: View, now: View): View {
	const moved = Math.hypot(now.x - was.x, now.y - was.y);
	return Math.abs(now.scale / was.scale - 1) < 0.05 && moved < 16 ? was : now;
}

/** How the paper is shared out: the elevation above, the details and the legend under it. */
interface Sharing {
	readonly strip: Strip | undefined;
	/** What may be lettered at all, and the part of it above the strip. */
	readonly whole: Area;
	readonly inner: Area;
	/** Where the elevation is cut off, and where it should lie. */
	readonly clip: Area;
	readonly room: Area;
}

function sharingOf(request: DrawingRequest): Sharing {
	const { width, height } = request;
	const strip = stripOf(request);
	const margins = marginsFor(request, strip);
	const stripTop = height - (strip?.height ?? 0);
	const whole: Area = { left: 4, right: width - 4, top: 4, bottom: height - 2 };
	return {
		strip,
		whole,
		inner: { ...whole, bottom: stripTop - 2 },
		clip: { left: 0, right: width, top: headHeight(request), bottom: stripTop },
		room: {
			left: margins.left,
			right: width - margins.right,
			top: margins.top,
			bottom: height - margins.bottom,
		},
	};
}

/** Puts everything on the paper, the most important first. */
function putAll(making: Making, subject: Subject, sharing: Sharing) {
	const { request, paper } = making;
	const { strip, clip, inner, whole } = sharing;
	// First, for the elevation is cut off under it.
	head(making, subject.view, request.bar !== false);
	putStates(making, subject.view, subject.rail, clip);
	if (strip) putDetails(making, strip);
	for (const { letter } of strip ? [] : (request.details ?? [])) {
		making.leftOut.push({ kind: 'detail', name: letter });
	}
	const handles = putHandles(making, subject, clip);
	putOptions(making, subject);
	putGaps(making, subject);
	const lines = putDimensions(making, subject, false);
	const callouts = putCallouts(making, subject, lines);
	putDimensions(making, subject, true);
	// A letter finds a place beside an extension line sooner than a dimension another lane.
	putLetters(making, subject);
	putLabels(making, subject, handles);
	// The legend may stand in the strip, beside the details.
	paper.area = whole;
	putLegend(making, strip, inner);
	return { handles, callouts };
}

/** A ring round what is looked for, px. */
function markStroke(at: Place): PaperStroke {
	return { path: circlePath(at, 9), kind: 'planned', part: 'mark', ink: 'pencil', whole: true };
}

/**
 * Lays a drawing out.
 * @param keep a layout to keep to while something is moved: its scale and place stay, and every word stays where
 * it was as long as it fits there
 * @param resting nothing is moved: the scale stays only while the truck fills the paper much as it did, and what
 * had no place may find one
 * @throws Error where no state is given
 */
export function layoutOf(request: DrawingRequest, keep?: Kept, resting = false): Layout {
	const { width, height, crop, still, before, plan } = request;
	const last = sameSheet(keep, request);
	const { shown, all } = rolesOf(request);
	const states = all.map(([state]) => state);
	const rail = railBottom(states);
	const sharing = sharingOf(request);
	const { clip, inner, room } = sharing;
	const lips = (request.dimensions ?? []).some(
		({ of }) => of === 'rearLip' || (of === 'drop' && still === 'floor'),
	);
	const fitted = (): View => viewOf(states, crop, still, room, rail, lips);
	const view = !last ? fitted() : resting ? nearly(last.view, fitted()) : last.view;
	const paper = new SheetOfPaper(inner);
	const making: Making = {
		request,
		paper,
		small: width < narrow,
		leftOut: [],
		choices: new Map(),
		kept: last?.choices,
		resting,
	};
	const rings = (request.handles?.length ?? 0) > 0;
	const subject: Subject = { rings, shown, before, plan, view, rail, area: inner };
	const { handles, callouts } = putAll(making, subject, sharing);
	const marked = (request.marks ?? []).flatMap((name) => placeOf(name, shown, view, rail) ?? []);
	paper.strokes.push(...marked.map(markStroke));
	return {
		width,
		height,
		view,
		shown,
		clip,
		strokes: paper.strokes,
		lettering: paper.lettering,
		callouts,
		handles,
		leftOut: making.leftOut,
		choices: making.choices,
		request: { width, height, crop, still },
	};
}
