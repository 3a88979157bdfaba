/** From what was typed to what is in force: the value of each input, and what to say about it. */
import { offersOf } from '../units/entry.ts';
import type { Graph } from '../language/graph.ts';
import type { Dial, InputCell, Range } from '../language/kinds/input.ts';
import type { Unit } from '../units/units.ts';
import type { Shown, UnitSystem } from '../units/quantities.ts';
import { readingNumber, showPlusMinus, showReading } from '../units/shown.ts';
import {
	fromPlumb,
	itemsOf,
	readList,
	readQuantity,
	type Refused,
	type Typed,
} from '../units/typed-reading.ts';
import type { Value } from '../language/types.ts';
import type { Entry, Gauge, Job } from './job.ts';

/** Where the value in force comes from. */
export type Standing = 'entered' | 'scenario' | 'assumed' | 'missing';

/** How an input stands. */
export interface Reading {
	/** In force; undefined when there is none. */
	readonly value?: Value;
	/** The ± that was typed with it, SI. */
	readonly plusMinus?: number;
	readonly standing: Standing;
	/** What was typed as it was understood: an amount, or a list, in the units of the job. */
	readonly understood?: string;
	/** Why what stands in the field could not be read, and what to do. */
	readonly problem?: string;
	/** What was likely meant by it. */
	readonly offers?: readonly Offer[];
	/** The value is in force, but unlikely. */
	readonly caution?: string;
}

/** Whether an input is read off the truck, so that it can be measured or only assumed. */
export function isMeasured(input: InputCell): boolean {
	return !input.part && (input.asks_for === 'quantity' || input.asks_for === 'list');
}

/** How an input's amounts are shown in a system of units. */
export function shownFor(input: InputCell, system: UnitSystem): Shown | undefined {
	return input.asks_for === 'quantity' || input.asks_for === 'list'
		? input.quantity.shown[system]
		: undefined;
}

function rangeInWords(range: Range, shown: Shown): string {
	return `${showReading(range.low, shown)} to ${showReading(range.high, shown)}`;
}

/** A text that can be read in only one way, and how it is understood. */
export interface Offer {
	readonly text: string;
	readonly value: Value;
	readonly understood: string;
}

/** What was read of a field. */
interface Read<V> {
	readonly value: V;
	readonly plusMinus?: number;
	/** As amounts are shown in the field; only where it asks for amounts. */
	readonly understood?: string;
	readonly caution?: string;
}

/** Why a field could not be read: a sentence, and what was likely meant. */
interface Unread {
	readonly problem: string;
	readonly offers?: readonly Offer[];
}

/**
 * Reads one typed text for an input: a value in force, or a sentence.
 * @param gauge how its dial reads, where that was typed
 */
export function readTyped(
	input: InputCell,
	typed: string,
	system: UnitSystem,
	gauge?: Gauge,
): Read<Value> | Unread {
	switch (input.asks_for) {
		case 'choice':
			return Object.hasOwn(input.choices, typed)
				? { value: typed }
				: {
						problem: `“${typed}” is not one of the choices. Choose ${Object.values(input.choices).join(' or ')}.`,
					};
		case 'text':
			return { value: typed };
		case 'date':
			return readDate(typed);
		case 'list':
			return readAmounts(input, typed, system, readList, gauge);
		case 'quantity':
			return readAmounts(input, typed, system, readQuantity, gauge);
	}
}

function readDate(typed: string): { readonly value: string } | { readonly problem: string } {
	if (!/^\d{4}-\d{2}-\d{2}$/.test(typed)) {
		return {
			problem: `“${typed}” is not a date. Give it as year-month-day, such as 2026-11-25.`,
		};
	}
	// A day too many rolls over into the next month, which reads back as another date.
	const day = new Date(typed);
	return !Number.isNaN(day.getTime()) && day.toISOString().startsWith(typed)
		? { value: typed }
		: { problem: `“${typed}” is a day no calendar has. Look at the month and the day again.` };
}

type ReadsAmounts<V> = (typed: string, unit: Unit) => Typed<V> | Refused<V>;

/** The same reader for what a gauge's dial shows: it gives the slope that makes. */
function offDial<V extends number | number[]>(
	read: ReadsAmounts<V>,
	input: QuantityInput,
	gauge: Gauge | undefined,
): ReadsAmounts<V> {
	const { dial } = input;
	if (!gauge || !dial) return read;
	const slope = (shown: number): number => slopeOnDial(shown, dial, gauge);
	const turn = <T extends { readonly value: V }>(found: T): T => ({
		...found,
		value: (Array.isArray(found.value) ? found.value.map(slope) : slope(found.value)) as V,
	});
	return (typed, unit) => {
		const found = read(typed, unit);
		return 'problem' in found ? { ...found, offers: found.offers.map(turn) } : turn(found);
	};
}

/**
 * The slope that a dial shows, radians. Where the gauge shows nothing on the face or the shaft of a level
 * line, the reading is the slope; else a right angle less it, with the reading's sign. A lean is signed by
 * its field, not by the dial.
 * @param shown radians, as the dial has it
 */
export function slopeOnDial(shown: number, dial: Dial, { onWall, turned }: Gauge): number {
	const fromNought = (dial === 'along') === (onWall === 90);
	const slope = fromNought ? shown : Math.sign(shown || 1) * (Math.PI / 2 - Math.abs(shown));
	return turned && dial !== 'lean' ? -slope : slope;
}

/**
 * What a dial will show at a slope, radians: slopeOnDial the other way about.
 * @param slope radians
 */
export function dialAtSlope(slope: number, dial: Dial, gauge: Gauge): number {
	// Both ways are their own way back, up to the sign that a turned dial changes.
	const signed = gauge.turned && dial !== 'lean' ? -slope : slope;
	return slopeOnDial(signed, dial, { ...gauge, turned: false });
}

type QuantityInput = Extract<InputCell, { asks_for: 'quantity' | 'list' }>;

/** What was read, in words: "33 1/2 in", "5.2° ± 0.3°", "1 in; 2 1/2 in". */
function inWords({ value, plusMinus }: Typed<number | number[]>, shown: Shown): string {
	const words = [value].flat().map((each) => showReading(each, shown));
	if (plusMinus === undefined) return words.join('; ');
	// What is finer than the rule shows is no nought.
	const fine = plusMinus > 0 && readingNumber(plusMinus, shown) === '0';
	return `${words.join('; ')} ${fine ? showPlusMinus(plusMinus, shown) : `± ${showReading(plusMinus, shown)}`}`;
}

/** Why an amount cannot stand in this field, though it can be read. */
function refusalOf(
	{ value, plusMinus = 0 }: Typed<number | number[]>,
	{ limits, sensible }: QuantityInput,
	shown: Shown,
): { readonly problem: string; readonly advice: string } | undefined {
	const outside = limits && [value].flat().find((each) => each < limits.low || each > limits.high);
	if (limits && outside !== undefined) {
		return {
			problem: `${showReading(outside, shown)} cannot be right here: it has to lie within ${rangeInWords(limits, shown)}.`,
			advice: 'Look at the tape or gauge again, and at the unit.',
		};
	}
	const most = Math.min(
		limits ? (limits.high - limits.low) / 2 : Infinity,
		sensible ? sensible.high - sensible.low : Infinity,
	);
	if (plusMinus <= most) return undefined;
	return {
		problem: `A ± of ${showReading(plusMinus, shown)} says nothing here: it may be ${showReading(most, shown)} at most.`,
		advice: 'Type how far off the reading may be, and look at its unit.',
	};
}

/** Reads the amounts of a field and holds them against what can be right there. */
function readAmounts<V extends number | number[]>(
	input: QuantityInput,
	typed: string,
	system: UnitSystem,
	readSlope: ReadsAmounts<V>,
	gauge: Gauge | undefined,
): Read<V> | Unread {
	const shown = input.quantity.shown[system];
	const read = offDial(readSlope, input, gauge);
	const found = read(typed, shown.unit);
	if ('problem' in found) {
		const offers = found.offers.filter((each) => !refusalOf(each, input, shown));
		return unread(found.problem, found.advice, offers, shown);
	}
	const refused = refusalOf(found, input, shown);
	if (refused) {
		const other = plumbOf(input, typed, shown.unit, gauge);
		const offers = offersOf<Typed<V>>(other, (text) => {
			const meant = read(text, shown.unit);
			return ('problem' in meant ? undefined : refusalOf(meant, input, shown)) ?? meant;
		});
		if (offers.length === 0) return unread(refused.problem, refused.advice, [], shown);
		const why = gauge && input.dial ? otherFace[input.dial] : 'It may have been read from plumb.';
		return unread(`${refused.problem} ${why}`, '', offers, shown);
	}
	const { sensible } = input;
	const unusual =
		sensible && [found.value].flat().find((each) => each < sensible.low || each > sensible.high);
	return {
		...found,
		understood: inWords(found, shown),
		...(sensible &&
			unusual !== undefined && {
				caution: `${showReading(unusual, shown)} is unusual: most lie within ${rangeInWords(sensible, shown)}. It is used as it is; measure again if you can.`,
			}),
	};
}

/** What a gauge may have lain on where its dial makes no slope. */
const otherFace: Readonly<Record<Dial, string>> = {
	face: 'By your gauge it lay along the shaft and not on a face square to it.',
	along: 'By your gauge it lay on a face square to the shaft and not along it.',
	lean: 'Your gauge may read the other way on a wall.',
};

/** Readings nearer to plumb than to level, as the slopes they would be. */
const plumbReading: Range = { low: Math.PI / 4, high: (3 * Math.PI) / 4 };

/** What was typed outside the limits as it would be read from plumb, if it would. */
function plumbOf(
	input: QuantityInput,
	typed: string,
	unit: Unit,
	gauge: Gauge | undefined,
): string[] {
	const { limits } = input;
	const items = input.asks_for === 'list' ? itemsOf(typed) : [typed];
	const slopeOf = offDial(readQuantity, input, gauge);
	const turned = items.map((item) => {
		const read = slopeOf(item, unit);
		if ('problem' in read || !limits) return undefined;
		if (read.value >= limits.low && read.value <= limits.high) return item.trim();
		const size = Math.abs(read.value);
		return size >= plumbReading.low && size <= plumbReading.high
			? fromPlumb(item, unit)
			: undefined;
	});
	return turned.every((item) => item !== undefined) ? [turned.join('; ')] : [];
}

/** A sentence that ends in what was likely meant, or else in advice. */
function unread(
	problem: string,
	advice: string,
	offers: readonly (Typed<number | number[]> & { readonly text: string })[],
	shown: Shown,
): Unread {
	if (offers.length === 0) return { problem: `${problem} ${advice}` };
	const likely = offers.map((offer) => ({
		text: offer.text,
		value: offer.value,
		understood: inWords(offer, shown),
	}));
	const words = likely.map(({ text, understood }) => `“${text}” for ${understood}`);
	return { problem: `${problem} Type ${words.join(', or ')}.`, offers: likely };
}

/** What was made of each entry, for an entry stays the same object until it is typed anew. */
const made = new WeakMap<Entry, { input: InputCell; system: UnitSystem; reading: Reading }>();

/** How one input stands in a job. */
export function readingOf(
	input: InputCell,
	{ entries, system }: Pick<Job, 'entries' | 'system'>,
): Reading {
	const entry = Object.hasOwn(entries, input.name) ? entries[input.name] : undefined;
	if (!entry) return untouched(input);
	const known = made.get(entry);
	if (known?.input === input && known.system === system) return known.reading;
	const read = readEntryOf(input, entry);
	const reading = readingOfEntry(input, entry, system, read);
	made.set(entry, { input, system, reading });
	return reading;
}

/** What is made of what is typed in an entry, or was held of it. */
function readEntryOf(
	input: InputCell,
	{ typed, system, gauge }: Omit<Entry, 'held'>,
): ReturnType<typeof readTyped> {
	return readTyped(input, typed, system, gauge);
}

/** How an input stands in which nothing is typed. */
function untouched(input: InputCell): Reading {
	return input.default === undefined
		? { standing: 'missing' }
		: { standing: 'assumed', value: input.default };
}

/** @param read what is made of what is typed in the entry */
function readingOfEntry(
	input: InputCell,
	entry: Entry,
	system: UnitSystem,
	read: ReturnType<typeof readTyped>,
): Reading {
	const shown = shownFor(input, system);
	if ('value' in read) {
		return { ...read, ...understoodIn(read, shown), standing: standingOf(entry) };
	}
	const { held: before } = entry;
	const held = before && readEntryOf(input, before);
	const inForce: Reading =
		held && 'value' in held
			? {
					value: held.value,
					standing: standingOf(before),
					...(held.plusMinus !== undefined && { plusMinus: held.plusMinus }),
					...understoodIn(held, shown),
				}
			: untouched(input);
	const still =
		inForce.value === undefined
			? ''
			: ` Until then ${typeof inForce.value === 'number' && shown ? showReading(inForce.value, shown) : 'the last one'} stays in force.`;
	// A text offered in one system of units would mean something else in the other.
	const offers = entry.system === system ? read.offers : undefined;
	return { ...inForce, problem: `${read.problem}${still}`, ...(offers && { offers }) };
}

/** What was read in the units of the job, which may not be those it was typed in. */
function understoodIn(
	{ value, plusMinus, understood }: Read<Value>,
	shown: Shown | undefined,
): { readonly understood?: string } {
	if (!shown || understood === undefined) return {};
	const values = [value].flat().filter((each) => typeof each === 'number');
	const words = inWords({ value: values, ...(plusMinus !== undefined && { plusMinus }) }, shown);
	return { understood: words };
}

function standingOf(entry: Omit<Entry, 'held'>): Standing {
	return entry.from === 'person' ? 'entered' : entry.from;
}

/** The readings of every input of a workbook. */
export function readingsOf(graph: Graph, job: Job): Map<string, Reading> {
	const readings = new Map<string, Reading>();
	for (const node of graph.nodes) {
		if (node.input) readings.set(node.id, readingOf(node.input, job));
	}
	return readings;
}

/** The values in force, for a run. */
export function inputsOf(readings: ReadonlyMap<string, Reading>): Map<string, Value> {
	const inputs = new Map<string, Value>();
	for (const [name, { value }] of readings) if (value !== undefined) inputs.set(name, value);
	return inputs;
}

/** What stands in a field: as typed, or the value in force where that was typed in the other system. */
export function fieldText(
	input: InputCell,
	entry: Entry | undefined,
	{ value, plusMinus, problem }: Reading,
	system: UnitSystem,
): string {
	// What a dial showed reads the same in either system, and would mean another slope as an amount.
	if (entry && (entry.system === system || entry.gauge || problem)) return entry.typed;
	const shown = shownFor(input, system);
	const inWords = (each: Value): string =>
		typeof each === 'number' && shown
			? readingNumber(each, shown)
			: typeof each === 'object'
				? ''
				: String(each);
	if (value === undefined) return '';
	const words = [value].flat().map(inWords).join('; ');
	return plusMinus === undefined ? words : `${words} ± ${inWords(plusMinus)}`;
}

/**
 * What follows when something else is typed in a field: the entry, which keeps the last one that could be
 * read, and how the input stands then. What is typed is read once for both.
 * @param gauge of the job, where its dial is typed in the fields that are read off one
 */
export function typedInto(
	input: InputCell,
	before: Entry | undefined,
	typed: string,
	system: UnitSystem,
	gauge?: Gauge,
): { readonly entry: Entry; readonly reading: Reading } {
	const onDial = gauge && 'dial' in input ? { gauge } : {};
	const read = readTyped(input, typed, system, gauge);
	const held = 'value' in read ? undefined : lastReadable(input, before);
	const entry: Entry = { typed, system, from: 'person', ...onDial, ...(held && { held }) };
	const reading = readingOfEntry(input, entry, system, read);
	made.set(entry, { input, system, reading });
	return { entry, reading };
}

function lastReadable(input: InputCell, before: Entry | undefined): Entry['held'] {
	if (!before || !('value' in readEntryOf(input, before))) return before?.held;
	const { held: _held, ...last } = before;
	return last;
}

/** The entry that follows when something else is typed in a field. */
export function nextEntry(
	input: InputCell,
	before: Entry | undefined,
	typed: string,
	system: UnitSystem,
	gauge?: Gauge,
): Entry {
	return typedInto(input, before, typed, system, gauge).entry;
}
