/**
 * What a person types in one field, read as amounts: a reading that may say how sure it is (`5.2 ± 0.3`,
 * `33 1/2 +- 1/16`, `3 to 5` for 4 ± 1), or a list of readings. Each amount is read by `entry.ts`. What
 * could mean two things is refused, with the likely meanings as texts that can mean only one.
 */
import { angle, sameDimension } from './dimension.ts';
import { offersOf, readMeasure, type Measure, type Refusal } from './entry.ts';
import { quoted, withPlainSigns } from './entry-tokens.ts';
import { unitOf, type Unit } from './units.ts';

/** What one field says, SI. */
export interface Typed<V> {
	readonly value: V;
	/** The ± that was typed with it. */
	readonly plusMinus?: number;
}

/** Why a field cannot be read, and what was likely meant. */
export interface Refused<V> {
	/** What was found, as a sentence. */
	readonly problem: string;
	/** What may be typed when nothing can be offered, as a sentence. */
	readonly advice: string;
	readonly offers: readonly (Typed<V> & { readonly text: string })[];
}

/** `to` between two amounts, not within a word. */
const between = /(?<![A-Za-z])to(?![A-Za-z])/i;
const plusMinusSign = /±|\+\/-|\+-/;

/**
 * Reads the text of a field that asks for one amount.
 * @param unit shown beside the field; what a bare number is taken in
 */
export function readQuantity(typed: string, unit: Unit): Typed<number> | Refused<number> {
	return withOffers(typed, (text) => quantityOf(text, unit));
}

/**
 * Reads the text of a field that asks for a list. Semicolons, line breaks and commas with a space behind
 * them separate; a comma without one is asked about, for it may be a decimal comma.
 * @param unit shown beside the field; what a bare number is taken in
 */
export function readList(typed: string, unit: Unit): Typed<number[]> | Refused<number[]> {
	return withOffers(typed, (text) => listOf(text, unit));
}

function withOffers<V>(
	typed: string,
	read: (text: string) => Typed<V> | Refusal,
): Typed<V> | Refused<V> {
	const found = read(typed);
	if (!('problem' in found)) return found;
	const { problem, advice, candidates } = found;
	return { problem, advice, offers: offersOf<Typed<V>>(candidates, read) };
}

function quantityOf(typed: string, unit: Unit): Typed<number> | Refusal {
	const parts = withPlainSigns(typed).split(plusMinusSign);
	const [reading = '', size] = parts;
	if (parts.length > 2) {
		return refusal(
			'More than one ± stands here.',
			'Type one ±, for how far off the reading may be.',
		);
	}
	if (size !== undefined) return withSize(reading, size, unit);
	const ends = reading.split(between);
	const [from = '', to] = ends;
	if (ends.length > 2) {
		return refusal('More than one “to” stands here.', 'Type a range such as 3 to 5.');
	}
	if (to !== undefined) return withRange(from, to, unit);
	const found = readMeasure(typed, unit);
	return 'problem' in found ? found : { value: found.value };
}

/** A reading and how far off it may be. A ± without a unit has that of the reading's last part. */
function withSize(reading: string, size: string, unit: Unit): Typed<number> | Refusal {
	const advice = 'Type the reading, ± and how far off it may be, such as 5.2 ± 0.3.';
	if (reading.trim() === '') return refusal('Before the ± a reading is missing.', advice);
	if (size.trim() === '') return refusal('After the ± an amount is missing.', advice);
	const amount = readMeasure(reading, unit);
	if ('problem' in amount) return changed(amount, (text) => `${text} ± ${size.trim()}`);
	const inUnit = amount.bare ? unit : amount.last;
	const sure = readMeasure(size, inUnit ?? unit);
	if ('problem' in sure) {
		const found = changed(sure, (text) => `${reading.trim()} ± ${text}`);
		return { ...found, problem: `After the ±: ${found.problem}` };
	}
	if (sure.value < 0) {
		return refusal(
			'The amount after the ± is below nothing; type how far off the reading may be.',
			advice,
		);
	}
	if (!sure.single) return refusal('After the ± stands more than one amount.', advice);
	if (sure.bare && !inUnit) {
		return refusal(
			'The reading is in more than one unit, and the ± has none.',
			'Type the ± with its unit.',
			[`${reading.trim()} ± ${inThe(unit, size, sure)}`],
		);
	}
	if (amount.bare && sure.last && sure.last.size !== unit.size) {
		return refusal(
			`Only the ± has a unit in ${quoted(`${reading.trim()} ± ${size.trim()}`)}.`,
			'Type a unit behind the reading too.',
			[sure.last, unit].map((each) => `${inThe(each, reading, amount)} ± ${size.trim()}`),
		);
	}
	return { value: amount.value, plusMinus: sure.value };
}

/** The middle of a range, with half of it as its ±. An end without a unit has that of the other. */
function withRange(from: string, to: string, unit: Unit): Typed<number> | Refusal {
	const advice = 'Type a range from low to high, such as 3 to 5.';
	if (from.trim() === '' || to.trim() === '') {
		return refusal('An end of the range is missing.', advice);
	}
	let low = readMeasure(from, unit);
	if ('problem' in low) return changed(low, (text) => `${text} to ${to.trim()}`);
	let high = readMeasure(to, unit);
	if ('problem' in high) return changed(high, (text) => `${from.trim()} to ${text}`);
	if (low.bare !== high.bare) {
		const { first, last } = low.bare ? high : low;
		if (!first || first.size !== last?.size) {
			const likely = low.bare ? [first, last, unit] : [last, first, unit];
			const units = likely.filter((each) => each !== undefined);
			const [bareLow, bareHigh] = [low, high];
			return refusal(
				'One end of the range has no unit of its own.',
				'Type a unit behind both.',
				units.map((each) =>
					bareLow.bare
						? `${inThe(each, from, bareLow)} to ${to.trim()}`
						: `${from.trim()} to ${inThe(each, to, bareHigh)}`,
				),
			);
		}
		if (low.bare) low = readMeasure(from, first);
		else high = readMeasure(to, first);
		if ('problem' in low) return low;
		if ('problem' in high) return high;
	}
	if (low.value === high.value) return refusal('The range ends where it begins.', advice);
	if (low.value > high.value) {
		return refusal('The range runs backwards.', advice, [`${to.trim()} to ${from.trim()}`]);
	}
	// Halved first, so that no sum overflows.
	return { value: low.value / 2 + high.value / 2, plusMinus: high.value / 2 - low.value / 2 };
}

/** What stands between the readings of a list. */
export const itemsApart = /[;\n]|,(?=\s|$)/;

/** What stands between the separators of a list. */
export function itemsOf(typed: string): string[] {
	return typed.split(itemsApart).filter((item) => item.trim() !== '');
}

function listOf(typed: string, unit: Unit): Typed<number[]> | Refusal {
	const advice = 'Type the readings with semicolons between them, such as 5.2; 5.3.';
	const items = itemsOf(typed).map((item) => item.trim());
	if (items.length === 0) return refusal('Nothing is entered yet.', advice);
	if (!/[;\n]/.test(typed) && /,(?=[^\s,])/.test(typed)) {
		return refusal(
			`A comma without a space in ${quoted(typed)} may separate or begin the decimals.`,
			advice,
			[
				items.map((item) => item.replaceAll(',', '.')).join('; '),
				items.flatMap((item) => item.split(',')).join('; '),
			],
		);
	}
	const read: (Measure & { text: string })[] = [];
	for (const [index, text] of items.entries()) {
		const measure = itemOf(text, unit);
		if ('problem' in measure) {
			return changed(measure, (other) => items.with(index, other).join('; '));
		}
		read.push({ ...measure, text });
	}
	// In 1; 2; 3 mm the unit may be meant for all of them.
	const other = read.find(({ last }) => last && last.size !== unit.size)?.last;
	if (other && read.some(({ bare }) => bare)) {
		const all = (each: Unit): string =>
			read.map((item) => (item.bare ? inThe(each, item.text, item) : item.text)).join('; ');
		return refusal(
			`Some in ${quoted(typed)} have a unit and some have none.`,
			'Type a unit behind every one.',
			[all(other), all(unit)],
		);
	}
	return { value: read.map(({ value }) => value) };
}

/** One reading of a list. */
function itemOf(text: string, unit: Unit): Measure | Refusal {
	const advice = 'Type the readings with semicolons between them, such as 5.2; 5.3.';
	if (plusMinusSign.test(withPlainSigns(text))) {
		return refusal(
			'In a list no reading has a ± of its own; how far they lie apart tells how sure they are.',
			advice,
		);
	}
	if (between.test(text)) {
		return refusal('A list takes no range.', advice, [text.split(between).map(trimmed).join('; ')]);
	}
	const measure = readMeasure(text, unit);
	if (!('problem' in measure)) return measure;
	// 5-6 and 5 6 may be two readings.
	const candidates = measure.candidates.map((other) => other.replace(' to ', '; '));
	if (!text.includes('/')) candidates.push(text.split(/\s+/).join('; '));
	return { ...measure, candidates };
}

/**
 * The text of an angle's field as it would be for a gauge that was held to plumb where it should have been
 * held to level: 90° less what was read.
 * @param typed a text that can be read
 */
export function fromPlumb(typed: string, unit: Unit): string | undefined {
	if (!sameDimension(unit.dimension, angle)) return undefined;
	const [reading = '', size] = withPlainSigns(typed).split(plusMinusSign);
	const [from = '', to] = reading.split(between);
	const less = (text: string): string | undefined => {
		const amount = readMeasure(text, unit);
		if ('problem' in amount) return undefined;
		const right = amount.bare && unit.name === 'deg' ? '90' : '90°';
		const plain = amount.single && amount.value >= 0;
		return `${amount.value < 0 ? '-' : ''}${right} - ${plain ? text.trim() : `(${text.trim()})`}`;
	};
	const ends = [from, to].flatMap((end) => (end === undefined ? [] : [less(end)]));
	if (ends.includes(undefined)) return undefined;
	return `${ends.reverse().join(' to ')}${size === undefined ? '' : ` ± ${size.trim()}`}`;
}

/** A text that has no unit, with one. */
function inThe(unit: Unit, text: string, { single }: Measure): string {
	const name = unitOf(unit.name) ? ` ${unit.name}` : unit.name;
	return `${single ? text.trim() : `(${text.trim()})`}${name}`;
}

function refusal(problem: string, advice: string, candidates: readonly string[] = []): Refusal {
	return { problem, advice, candidates };
}

/** The same refusal of a part of a text, with what may have been meant by all of it. */
function changed(found: Refusal, whole: (text: string) => string): Refusal {
	return { ...found, candidates: found.candidates.map(whole) };
}

function trimmed(text: string): string {
	return text.trim();
}
