/** From what was typed to what is in force: the value of each input, and what to say about it. */
import { readEntry } from '../units/entry.ts';
import type { Graph } from '../language/graph.ts';
import type { InputCell, Range } from '../language/kinds/input.ts';
import type { Shown, UnitSystem } from '../units/quantities.ts';
import { readingNumber, showReading } from '../units/shown.ts';
import type { Value } from '../language/types.ts';
import type { Entry, Job } from './job.ts';

/** Where the value in force comes from. */
export type Standing = 'entered' | 'scenario' | 'assumed' | 'missing';

/** How an input stands. */
export interface Reading {
	/** In force; undefined when there is none. */
	readonly value?: Value;
	/** The ± that was typed with it, SI. */
	readonly plusMinus?: number;
	readonly standing: Standing;
	/** Why what stands in the field could not be read, and what to do. */
	readonly problem?: string;
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

/** Reads one typed text for an input: a value in force, or a sentence. */
export function readTyped(
	input: InputCell,
	typed: string,
	system: UnitSystem,
): Read<Value> | { readonly problem: string } {
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
		case 'list': {
			const values: number[] = [];
			for (const part of typed.split(/[;\n]|,\s/).filter((each) => each.trim() !== '')) {
				const read = readAmount(input, part, system);
				if ('problem' in read) return read;
				values.push(read.value);
			}
			return values.length > 0
				? { value: values }
				: { problem: 'Nothing is entered yet. Type the readings with semicolons between them.' };
		}
		case 'quantity':
			return readWithPlusMinus(input, typed, system);
	}
}

/** What was read of a field. */
interface Read<V> {
	readonly value: V;
	readonly plusMinus?: number;
	readonly caution?: string;
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

type QuantityInput = Extract<InputCell, { asks_for: 'quantity' | 'list' }>;

/** An amount that may say how sure it is: "5.2 ± 0.3", "33 1/2 +- 1/16". */
function readWithPlusMinus(
	input: QuantityInput,
	typed: string,
	system: UnitSystem,
): Read<number> | { readonly problem: string } {
	const [amount = '', size] = typed.split(/±|\+\/-|\+-/, 2);
	const read = readAmount(input, amount, system);
	if ('problem' in read || size === undefined) return read;
	const sure = readEntry(size, input.quantity.shown[system].unit);
	if ('problem' in sure) return { problem: `After the ±: ${sure.problem}` };
	return sure.value < 0
		? { problem: 'The amount after the ± is below nothing; type how far off the reading may be.' }
		: { ...read, plusMinus: sure.value };
}

function readAmount(
	input: QuantityInput,
	typed: string,
	system: UnitSystem,
): Read<number> | { readonly problem: string } {
	const shown = input.quantity.shown[system];
	const read = readEntry(typed, shown.unit);
	if ('problem' in read) return read;
	const { value } = read;
	const { limits, sensible } = input;
	const outside = (range: Range): boolean => value < range.low || value > range.high;
	if (limits && outside(limits)) {
		return {
			problem: `${showReading(value, shown)} cannot be right here: it has to lie within ${rangeInWords(limits, shown)}. Look at the tape or gauge again, and at the unit.`,
		};
	}
	if (sensible && outside(sensible)) {
		return {
			value,
			caution: `${showReading(value, shown)} is unusual: most lie within ${rangeInWords(sensible, shown)}. It is used as it is; measure again if you can.`,
		};
	}
	return { value };
}

/** How one input stands in a job. */
export function readingOf(
	input: InputCell,
	{ entries, system }: Pick<Job, 'entries' | 'system'>,
): Reading {
	const entry = Object.hasOwn(entries, input.name) ? entries[input.name] : undefined;
	return entry
		? readingOfEntry(input, entry, system, readTyped(input, entry.typed, entry.system))
		: untouched(input);
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
	read: Read<Value> | { readonly problem: string },
): Reading {
	if ('value' in read) return { ...read, standing: standingOf(entry) };
	const held = entry.held && readTyped(input, entry.held.typed, entry.held.system);
	const shown = shownFor(input, system);
	const inForce: Reading =
		held && 'value' in held && entry.held
			? {
					value: held.value,
					standing: standingOf(entry.held),
					...(held.plusMinus !== undefined && { plusMinus: held.plusMinus }),
				}
			: untouched(input);
	const still =
		inForce.value === undefined
			? ''
			: ` Until then ${typeof inForce.value === 'number' && shown ? showReading(inForce.value, shown) : 'the last one'} stays in force.`;
	return { ...inForce, problem: `${read.problem}${still}` };
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
	if (entry && (entry.system === system || problem)) return entry.typed;
	const shown = shownFor(input, system);
	const inWords = (each: Value): string =>
		typeof each === 'number' && shown ? readingNumber(each, shown) : String(each);
	if (value === undefined) return '';
	const words = Array.isArray(value) ? value.map(inWords).join('; ') : inWords(value);
	return plusMinus === undefined ? words : `${words} ± ${inWords(plusMinus)}`;
}

/**
 * What follows when something else is typed in a field: the entry, which keeps the last one that could be
 * read, and how the input stands then. What is typed is read once for both.
 */
export function typedInto(
	input: InputCell,
	before: Entry | undefined,
	typed: string,
	system: UnitSystem,
): { readonly entry: Entry; readonly reading: Reading } {
	const read = readTyped(input, typed, system);
	const held = 'value' in read ? undefined : lastReadable(input, before);
	const entry: Entry = { typed, system, from: 'person', ...(held && { held }) };
	return { entry, reading: readingOfEntry(input, entry, system, read) };
}

function lastReadable(input: InputCell, before: Entry | undefined): Entry['held'] {
	return before && 'value' in readTyped(input, before.typed, before.system)
		? { typed: before.typed, system: before.system, from: before.from }
		: before?.held;
}

/** The entry that follows when something else is typed in a field. */
export function nextEntry(
	input: InputCell,
	before: Entry | undefined,
	typed: string,
	system: UnitSystem,
): Entry {
	return typedInto(input, before, typed, system).entry;
}
