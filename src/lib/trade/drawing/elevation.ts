/** The side elevation as the drawing of this trade: what cells ask for becomes a layout. */
import type { Drawing } from '../../drafting/paper.ts';
import type {
	DrawingAsked,
	Drawn,
	DrawnFigure,
	DrawnName,
	TradeDrawing,
} from '../../language/trade.ts';
import type { EntryState } from '../../drafting/callout.ts';
import { showFigure, showPlusMinus, showReading } from '../../units/shown.ts';
import type { DimensionText } from './dimension.ts';
import { detailsLayoutOf, type AngleDetail } from './detail.ts';
import type { HandleName, TruckHandleEntry } from './handles.ts';
import { layoutOf, type DrawingRequest, type LabelWords, type Layout } from './layout.ts';
import type { DimensionName, PlaceName } from './places.ts';
import { drawShaftOrder, orderKeys } from './shaft-order.ts';
import { figureAt, stateNames, stateOf, type StateName, type StateRead } from './states.ts';
import { axleSide, shaftFront, type TruckState } from './truck.ts';
import { crops, type Crop } from './view.ts';
import {
	amount,
	caption,
	dimensionText,
	formCaption,
	jointDetail,
	movedSentence,
	shortLabel,
} from './words.ts';

const quantity: DrawnName = { must: 'quantity' };
const entry: DrawnName = { must: 'entry' };
const record = (like: string): DrawnName => ({ must: 'record', like });

const stateKeys: Readonly<Record<string, DrawnName>> = {
	spring: record('spring in its place'),
	mount: record('spring mount'),
	fit: record('axle fit'),
	block: quantity,
	pinion_joint: record('joint centre'),
	/** In the frame; or to the floor, the frame's turn with it. */
	pinion_slope: quantity,
	pinion_slope_to_floor: quantity,
	/** A joint, with or without a slope of its own. */
	trans_joint: { must: 'any' },
	/** The same, or of a shaft in two pieces the joint behind its centre bearing. */
	drive_joint: { must: 'any' },
	trans_slope: quantity,
	/** Signed: shaft the steeper positive. */
	front_joint: quantity,
	rear_joint: quantity,
	front_tyre: quantity,
	rear_tyre: quantity,
	wheelbase: quantity,
	front_lip: quantity,
	rear_lip: quantity,
	rake: quantity,
	stop_gap: quantity,
	notch: quantity,
	/** What the rear comes down by, and what is wanted of it. */
	drop: quantity,
	drop_wanted: quantity,
};

/** Handles by their key in workbook.yaml; the travel is a slider beside the drawing. */
const handleAt: Readonly<Record<string, { name: HandleName; place: PlaceName; word: string }>> = {
	front_eye: { name: 'frontEye', place: 'frontEye', word: 'front eye up' },
	pivot: { name: 'pivot', place: 'pivot', word: 'pivot up' },
	shackle: { name: 'shackle', place: 'rearEye', word: 'shackle' },
	axle: { name: 'axle', place: 'axle', word: 'block' },
	wedge: { name: 'wedge', place: 'wedge', word: 'wedge' },
	mount_shim: { name: 'mountShim', place: 'mount', word: 'mount shim' },
	wanted: { name: 'wanted', place: 'wanted', word: 'wanted' },
};

/** Dimensions by their key. How far the truck came down is the axle's rise in the frame, or the lip's drop. */
const dimensionOf: Readonly<Record<string, DimensionName>> = {
	axle_rise: 'drop',
	axle_found: 'drop',
	lip_drop: 'drop',
	shaft: 'shaft',
	front_eye: 'frontEye',
	pivot: 'pivot',
	leaf_front: 'leafFront',
	leaf_rear: 'leafRear',
	front_lip: 'frontLip',
	rear_lip: 'rearLip',
	wheelbase: 'wheelbase',
	stop_gap: 'stopGap',
};

/** Where on the truck an entry is read that is no dimension, by its key. */
const readAt: Readonly<Record<string, PlaceName>> = {
	transmission: 'transmission',
	shaft: 'shaft',
	pinion: 'pinion',
	shackle: 'shackle',
	seat: 'seat',
	front_tyre: 'frontTyre',
	rear_hub: 'axle',
};

/** Where on the truck that lies which may not be as it is entered, by its key. */
const markAt: Readonly<Record<string, PlaceName>> = {
	front_eye: 'frontEye',
	shackle: 'shackle',
	seat: 'seat',
	axle: 'axle',
	pinion: 'pinion',
	shaft: 'shaft',
	front_joint: 'jointFront',
	transmission: 'transmission',
	mount: 'mount',
	rear_lip: 'rearLip',
	front_lip: 'frontLip',
};

const parts = ['spring', 'hangers', 'shackle', 'seat', 'axle', 'pinion', 'shaft'];
const moreParts = ['transmission', 'tyres', 'lips', 'stop', 'frame', 'floor'];
const all = (keys: readonly string[], must: DrawnName): Record<string, DrawnName> =>
	Object.fromEntries(keys.map((key) => [key, must]));

const sections: TradeDrawing['sections'] = {
	common: all(['wedge_length', 'pinion_reach', 'pinion_rise', 'shaft_length'], quantity),
	...Object.fromEntries(stateNames.map((state) => [state, stateKeys])),
	travel: { ...stateKeys, shaft_length: quantity, droop: quantity, bump: quantity },
	order: orderKeys,
	handles: all([...Object.keys(handleAt), 'travel'], entry),
	dimensions: all([...Object.keys(dimensionOf), 'nose'], { must: 'any' }),
	readings: all(Object.keys(readAt), entry),
	marks: all(Object.keys(markAt), entry),
	says: { figures: quantity },
	measured_by: all([...parts, ...moreParts], entry),
};

/** The states to draw, and what is drawn of them. */
interface Shown {
	readonly reads: Readonly<Record<string, StateRead>>;
	/** What the heavy lines are of. */
	readonly last: StateName | undefined;
	/** What is dashed under them. */
	readonly under: StateName | undefined;
	readonly request: Pick<DrawingRequest, 'before' | 'plan' | 'found'>;
}

function travelInput({ names, move }: DrawingAsked): string | undefined {
	return names['handles']?.['travel']?.find((name) => move.includes(name));
}

function shownStates(asked: DrawingAsked): Shown {
	const input = travelInput(asked);
	// At ride the truck is drawn as it is anywhere else.
	const travels = input !== undefined && asked.figure(input)?.value !== 0;
	// While the axle travels, the plan at rest is what was there before.
	const wanted: StateName[] = travels
		? ['plan', 'travel']
		: stateNames.filter((name) => asked.show.includes(name));
	const reads = Object.fromEntries(wanted.map((name) => [name, stateOf(asked, name)]));
	const has = wanted.filter((name) => reads[name]?.state);
	const of = (name: StateName | undefined): TruckState | undefined => name && reads[name]?.state;
	const last = has.at(-1);
	const under = has.length > 1 ? has[0] : undefined;
	const middle = has.length > 2 ? has.at(-2) : undefined;
	return {
		reads,
		last,
		under,
		request:
			last === 'before'
				? { before: of('before') }
				: middle
					? { before: of(under), plan: of(middle), found: of(last) }
					: { before: of(under), plan: of(last) },
	};
}

/** The key under which a name stands in a section. */
function keyOf({ names }: DrawingAsked, section: string, name: string): string | undefined {
	return Object.entries(names[section] ?? {}).find(([, listed]) => listed.includes(name))?.[0];
}

/** Which way a wedge is to be put in. */
function thickEnd(state: TruckState, angle: number): string {
	if (angle === 0) return '';
	return `, thick end ${angle * axleSide(state) > 0 ? 'forward' : 'to the rear'}`;
}

function handleOfEntry(
	name: HandleName,
	figure: DrawnFigure,
	shown: NonNullable<DrawnFigure['shown']>,
	{ least, most }: NonNullable<DrawnFigure['input']>,
): TruckHandleEntry {
	const value = typeof figure.value === 'number' ? figure.value : 0;
	const valueText = showReading(value, shown);
	return { name, value, step: shown.step, least, most, label: figure.label, valueText };
}

/** What is wanted is spoken of as a drop, whatever entry it is worked out from: up in the frame is more of it. */
function wantedHandle(asked: DrawingAsked, step: number): TruckHandleEntry | undefined {
	const figure = figureAt(asked, 'plan', 'drop_wanted');
	if (typeof figure?.value !== 'number' || !figure.shown) return undefined;
	const { value, label } = figure;
	const valueText = showReading(value, figure.shown);
	return { name: 'wanted', value, step, least: -mostWanted, most: mostWanted, label, valueText };
}
/** m: nobody wants more, and the entry has limits of its own. */
const mostWanted = 0.3;

function handlesOf(asked: DrawingAsked, shown: Shown, state: TruckState) {
	const handles: TruckHandleEntry[] = [];
	const labels: LabelWords[] = [];
	const entries: Record<string, string> = {};
	for (const name of shown.last === 'before' ? [] : asked.move) {
		const place = handleAt[keyOf(asked, 'handles', name) ?? ''];
		const figure = asked.figure(name);
		if (!place || !figure?.shown || !figure.input) continue;
		const handle =
			place.name === 'wanted'
				? wantedHandle(asked, figure.shown.step)
				: handleOfEntry(place.name, figure, figure.shown, figure.input);
		if (!handle) continue;
		const { value, valueText } = handle;
		handles.push(handle);
		const way = place.name === 'wedge' ? thickEnd(state, value) : '';
		labels.push({ at: place.place, text: `${place.word} ${valueText}${way}`, ink: 'pencil' });
		entries[place.name] = name;
	}
	return { handles, labels, entries };
}

/** The figure that a dimension was in the state drawn under it. */
function wasOf(asked: DrawingAsked, key: string, name: string): DrawnFigure | undefined {
	// The names of a dimension go from planned to before.
	const before = asked.names['dimensions']?.[key]?.[1];
	const drawn = asked.show.includes('before') && before !== undefined && before !== name;
	return drawn ? asked.figure(before) : undefined;
}

function gapText(
	gap: number,
	shown: DrawnFigure['shown'],
	note: string,
): DimensionText | undefined {
	const text = dimensionText({ label: '', value: gap, shown });
	return text && { ...text, note };
}

function dimensionsOf(asked: DrawingAsked, shown: Shown): DrawingRequest['dimensions'] {
	const gap = shown.last === undefined ? undefined : shown.reads[shown.last]?.gap;
	const length = asked.move.map((name) => asked.figure(name)?.shown).find(Boolean);
	const anyLength = figureAt(asked, 'before', 'wheelbase')?.shown ?? length;
	// A truck that cannot be put together has one dimension: what it lacks.
	const open = gap === undefined ? undefined : gapText(gap, anyLength, 'short: these do not meet');
	if (open) return [{ of: 'gap', text: open }];
	const hidden = asked.still === 'frame' ? ['lip_drop'] : ['axle_rise', 'axle_found'];
	const asks = (asked.ask ?? []).flatMap((name) => {
		const of = dimensionOf[keyOf(asked, 'dimensions', name) ?? ''];
		return of && inSight(asked, of) ? [{ of }] : [];
	});
	const said = asked.dimension.flatMap((name) => {
		const key = keyOf(asked, 'dimensions', name) ?? '';
		const of = hidden.includes(key) ? undefined : dimensionOf[key];
		const [now, was] = of ? dimensioned(asked, shown, key, name) : [];
		// What did not move has no length to draw.
		const text = now && now.value !== 0 ? dimensionText(now, was) : undefined;
		const found = key === 'axle_found' && shown.last === 'found';
		if (of && text && found) return [{ of, text: { ...text, note: 'as found' } }];
		return of && text ? [{ of, text }] : [];
	});
	return [...asks, ...said];
}

/** What is read at the front wheel, which only the whole truck shows. */
const atFront: ReadonlySet<string> = new Set(['frontLip', 'wheelbase', 'frontTyre']);

function inSight({ crop }: DrawingAsked, place = ''): boolean {
	return crop === 'whole' || !atFront.has(place);
}

/** How an entry stands on its callout. */
function stateOfEntry({ value, input }: DrawnFigure): EntryState {
	if (input?.unreadable) return 'unreadable';
	if (input?.entered) return 'measured';
	return value === undefined ? 'untouched' : 'assumed';
}

/** A box for each entry that is asked for, in order, with its number. */
function calloutsOf(asked: DrawingAsked): NonNullable<DrawingRequest['callouts']> {
	return (asked.ask ?? []).flatMap((name, index) => {
		const figure = asked.figure(name);
		const dimension = dimensionOf[keyOf(asked, 'dimensions', name) ?? ''];
		const place = readAt[keyOf(asked, 'readings', name) ?? ''];
		const at = dimension ? (`dimension ${dimension}` as const) : place;
		if (!figure?.shown || !at || !inSight(asked, dimension ?? place)) return [];
		const { plusMinus = 0, shown, label } = figure;
		const value = amount(figure);
		return {
			name,
			at,
			number: index + 1,
			label,
			state: asked.blank ? 'untouched' : stateOfEntry(figure),
			value: value ?? 'not read yet',
			...(value !== undefined && plusMinus > 0 && { plusMinus: showPlusMinus(plusMinus, shown) }),
		};
	});
}

/** Dimensions that belong to a state rather than to what was done, by the key of that state's figure. */
const ofState: Readonly<Record<string, string>> = { shaft: 'shaft_length', stop_gap: 'stop_gap' };

/** A dimension's figure, and what it was. On its travel an axle has its own, and none of what the job does. */
function dimensioned(
	asked: DrawingAsked,
	{ last }: Shown,
	key: string,
	name: string,
): (DrawnFigure | undefined)[] {
	// Before anything was read on the truck as found, it is drawn as planned.
	const planned = key === 'axle_found' && last !== 'found';
	if (planned) return [asked.figure(asked.names['dimensions']?.[key]?.[1] ?? '')];
	if (key === 'axle_found') return [asked.figure(name)];
	if (last !== 'travel') return [asked.figure(name), wasOf(asked, key, name)];
	const own = ofState[key];
	return own === undefined ? [] : [figureAt(asked, 'travel', own), asked.figure(name)];
}

/** Slope of the shaft in the frame, radians, positive down toward the rear. */
function shaftSlope(state: TruckState): number {
	const [front, rear] = [shaftFront(state), state.pinion.joint];
	return Math.atan2(front.z - rear.z, front.x - rear.x);
}

function detailsOf(asked: DrawingAsked, { last, under, reads }: Shown): AngleDetail[] {
	const state = last && reads[last]?.state;
	if (!asked.detail || !last || !state || reads[last]?.gap !== undefined) return [];
	return (['front', 'rear'] as const).flatMap((end) => {
		const joint = figureAt(asked, last, `${end}_joint`);
		const was = under && figureAt(asked, under, `${end}_joint`);
		const pieces = state.centreJoint ? 2 : 1;
		const detail = joint && jointDetail(end, joint, was, shaftSlope(state), pieces);
		if (detail) return detail;
		// Where that is not known yet, as it stood: three readings give that.
		const stood = under && reads[under]?.state;
		return (
			(stood && was && jointDetail(end, was, undefined, shaftSlope(stood), pieces, true)) ?? []
		);
	});
}

/** Which way the pinion's nose turned, and by how much. */
function noseLabels(asked: DrawingAsked): LabelWords[] {
	return asked.dimension.flatMap((name): LabelWords[] => {
		const figure = keyOf(asked, 'dimensions', name) === 'nose' ? asked.figure(name) : undefined;
		if (typeof figure?.value !== 'number' || !figure.shown) return [];
		const size = amount({ ...figure, value: Math.abs(figure.value) });
		// What comes out as nothing turned neither way.
		const turned = size === amount({ ...figure, value: 0 });
		const text = turned ? 'nose stays' : `nose ${figure.value > 0 ? 'up' : 'down'} ${size ?? ''}`;
		return [{ at: 'pinion', text, bold: true }];
	});
}

/** Of several drawings each letters only what sets it apart. */
function briefLabels(state: TruckState): LabelWords[] {
	const { wedge } = state;
	return wedge && wedge.angle !== 0 ? [{ at: 'thickEnd', text: 'thick end', ink: 'pencil' }] : [];
}

/** What is drawn without having been measured says so. */
function assumedLabels(state: TruckState): LabelWords[] {
	const { assumed } = state;
	const labels: LabelWords[] = [];
	const line = ['pinion', 'shaft', 'transmission'] as const;
	if (line.some((part) => assumed?.has(part))) {
		labels.push({ at: 'shaft', text: 'driveline assumed, not measured' });
	}
	if (assumed?.has('spring'))
		labels.push({ at: 'leafFront', text: 'spring assumed, not measured' });
	return labels;
}

function titleOf(asked: DrawingAsked, { last, under }: Shown): string {
	if (!last) return 'Side elevation: nothing to draw yet.';
	const words: Readonly<Record<StateName, string>> = {
		before: 'as it stands',
		plan: 'as planned',
		fitted: 'by the parts fitted',
		found: 'as found',
		travel: 'with its axle moved',
	};
	const figures = asked.dimension.flatMap((name) => {
		const figure = asked.figure(name);
		const text = figure && amount(figure);
		return figure && text !== undefined ? [`${shortLabel(figure.label)} ${text}`] : [];
	});
	const first = `Side elevation to scale, seen from the left: the truck ${words[last]}`;
	const over = under ? `, over the truck ${words[under]}` : '';
	return `${first}${over}.${figures.length > 0 ? ` ${figures.join('; ')}.` : ''}`;
}

function sliderOf(asked: DrawingAsked): Drawn['slider'] {
	const input = travelInput(asked);
	const figure = input === undefined ? undefined : asked.figure(input);
	const droop = figureAt(asked, 'travel', 'droop');
	const bump = figureAt(asked, 'travel', 'bump');
	if (input === undefined || !figure?.shown) return undefined;
	if (typeof droop?.value !== 'number' || typeof bump?.value !== 'number') return undefined;
	const value = typeof figure.value === 'number' ? figure.value : 0;
	const steps = value / figure.shown.step;
	// While it plays the axle is between two steps of the rule, and no tape says where to three places.
	const onStep = Math.abs(steps - Math.round(steps)) < 1e-6;
	return {
		input,
		value,
		least: -droop.value,
		most: bump.value,
		words: {
			name: figure.label,
			value: onStep ? showReading(value, figure.shown) : showFigure(value, figure.shown),
			droop: `droop ${amount(droop) ?? ''}`,
			bump: `bump ${amount(bump) ?? ''}`,
			play: 'Play',
			stop: 'Stop',
		},
	};
}

/** What each drawing was laid out as, to keep to while something is moved. */
const layouts = new WeakMap<Drawing, Layout>();

/** What is laid over; a kit that cannot be put together says what it lacks, unless the plan lacks the same. */
function optionsOf(
	asked: DrawingAsked,
	{ last, reads }: Shown,
): NonNullable<DrawingRequest['options']> {
	const own = last && reads[last]?.gap;
	const length = figureAt(asked, 'before', 'wheelbase')?.shown;
	return (asked.laid ?? []).flatMap(({ letter, figure }) => {
		const { state, gap } = stateOf({ ...asked, figure }, 'plan');
		const text =
			gap === undefined || gap === own
				? undefined
				: gapText(gap, length, `short: ${letter} does not meet`);
		return state ? [{ state, letter, ...(text && { gap: text }) }] : [];
	});
}

function requestOf(asked: DrawingAsked, shown: Shown, state: TruckState) {
	const { handles, labels, entries } = handlesOf(asked, shown, state);
	const details = detailsOf(asked, shown);
	const { width, height, still, system } = asked;
	const bare: DrawingRequest = {
		width,
		height,
		crop: asked.crop as Crop,
		still,
		units: system,
		...shown.request,
		marks: (asked.mark ?? []).flatMap((name) => markAt[keyOf(asked, 'marks', name) ?? ''] ?? []),
		options: optionsOf(asked, shown),
	};
	const nose = noseLabels(asked);
	const roomy = width >= 720 && details.length > 0;
	const lettered: Partial<DrawingRequest> = {
		caption: asked.blank
			? ''
			: (asked.ask ?? []).length > 0
				? formCaption(width < 560)
				: caption(
						still,
						{ before: shown.under === 'before', found: shown.request.found !== undefined },
						width < 560,
					),
		...(details.length > 0 && { jointLetters: ['A', 'B'] as const }),
		details,
		handles,
		dimensions: dimensionsOf(asked, shown) ?? [],
		callouts: calloutsOf(asked),
		numbered: asked.numbered === true || asked.blank === true,
		// The boxes of a form say it themselves.
		labels: (asked.ask ?? []).length > 0 ? labels : [...nose, ...labels, ...assumedLabels(state)],
		plank: nose.length > 0,
		...(roomy && {
			legend: [
				{ of: 'smooth', text: 'smooth: ½° to 3°' },
				{ of: 'plusMinus', text: '± of the angle' },
				...(handles.length > 0 ? [{ of: 'ring', text: 'may be moved' } as const] : []),
			] as const,
		}),
	};
	if (!asked.lettered) return { request: { ...bare, bar: false }, entries, details };
	const brief = { bar: !asked.keep, labels: briefLabels(state) };
	return { request: { ...bare, ...(asked.brief ? brief : lettered) }, entries, details };
}

function draw(asked: DrawingAsked): Drawn {
	if (asked.crop === shaftAlone) return drawShaftOrder(asked);
	const shown = shownStates(asked);
	const waits = Object.values(shown.reads).flatMap((read) => read.waits);
	const title = titleOf(asked, shown);
	const state = shown.last && shown.reads[shown.last]?.state;
	if (!state) return { title, waits, entries: {} };
	const { request, entries, details } = requestOf(asked, shown, state);
	const keep = asked.keep?.drawing && layouts.get(asked.keep.drawing);
	// Drawings that stand beside one another share their scale and place, and nothing else.
	const layout = layoutOf(
		request,
		keep && asked.brief ? { ...keep, choices: undefined } : keep,
		asked.resting,
	);
	layouts.set(layout, layout);
	const apart = asked.lettered && layout.leftOut.some(({ kind }) => kind === 'detail');
	const slider = sliderOf(asked);
	return {
		drawing: layout,
		...(apart && { details: detailsLayoutOf(details, asked.width) }),
		title,
		waits,
		entries,
		...(slider && { slider }),
	};
}

function says(asked: DrawingAsked, name: string): string {
	const moved = asked.figure(name);
	const figures = (asked.names['says']?.['figures'] ?? []).flatMap(
		(each) => asked.figure(each) ?? [],
	);
	return moved ? movedSentence(moved, figures) : '';
}

/** The crop that is no part of the truck: the shaft by itself, as an order shows it. */
const shaftAlone = 'shaft';

export const sideElevation: TradeDrawing = {
	crops: [...crops, shaftAlone],
	states: [...stateNames, 'order'],
	sections,
	narrowCrops: (crop) => {
		if (crop === shaftAlone) return [];
		const [spring, joints] = [
			{ crop: 'spring', label: 'Spring', first: crop !== 'drive' && crop !== 'whole' },
			{ crop: 'joints', label: 'Joints', first: crop === 'drive' },
		];
		// What is about both ends of the truck is not told by one of them.
		return crop === 'whole' ? [{ crop, label: 'Truck', first: true }, spring] : [spring, joints];
	},
	whole: 'whole',
	small: 'spring',
	foremost: ['rear_lip', 'front_lip'],
	narrowForm: 'drive',
	heightOnPaper: (crop, form) =>
		crop === shaftAlone ? 334 : form ? 290 : crop === 'whole' ? 170 : 205,
	draw,
	says,
};
