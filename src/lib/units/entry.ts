/**
 * What a person types for one amount, read: `33 1/2`, `33-1/2"`, `5' 6 1/2"`, `851 mm`, `5° 30'`,
 * `90 - 86.2`. A bare number takes the unit shown beside the field.
 *
 * One rule for dashes, whichever dash was typed. Without spaces a dash joins the parts of one measure:
 * whole and fraction (`33-1/2`), feet and inches (`5'-6"`), degrees and minutes (`5°-30'`). With a space on
 * both sides it takes away. Before the first number it is the number's sign. Any other dash (`3-5`,
 * `33 -1/2`) is asked about, and so is one with spaces between feet and less than twelve inches
 * (`4' - 2"`), for drawings write one length like that.
 */
import {
	angle,
	dimensionInWords,
	isPlainNumber,
	length,
	plainNumber,
	sameDimension,
	timesDimension,
	type Dimension,
} from './dimension.ts';
import {
	fractions,
	quoted,
	tokensOf,
	Unreadable,
	withPlainSigns,
	type Token,
} from './entry-tokens.ts';
import { unitNamed, unitNames, unitOf, type Unit } from './units.ts';
import { nearest } from './nearest-word.ts';
import { withArticle } from './shown.ts';

/** A likely reading of what could not be read: a text that is read without doubt, and what it comes to, SI. */
export interface Offer<V> {
	readonly text: string;
	readonly value: V;
}

/**
 * The value read, SI, or a sentence that says what was found and what was expected, with the likely
 * readings where there are some.
 */
export type Read<V> =
	{ readonly value: V } | { readonly problem: string; readonly offers?: readonly Offer<V>[] };

/** One amount as it was written. */
export interface Measure {
	/** SI */
	readonly value: number;
	/** No unit was written: it has the shown one. */
	readonly bare: boolean;
	/** It is one measure, such as 5' 6 1/2", and no arithmetic. */
	readonly single: boolean;
	/** The units its first and its last part are written in; undefined when bare or in several units. */
	readonly first?: Unit;
	readonly last?: Unit;
}

/** Why something cannot be read. */
export interface Refusal {
	/** What was found, as a sentence. */
	readonly problem: string;
	/** What may be typed, as a sentence. */
	readonly advice: string;
	/** Texts that may have been meant, likeliest first; not all of them can be read. */
	readonly candidates: readonly string[];
}

/** A number with what is known of its unit. */
interface Amount extends Measure {
	readonly dimension: Dimension;
	/** The unit it ends in, where that is not made of several: a smaller one may follow. */
	readonly unit?: Unit;
	/** How the number at its end is written. */
	readonly number?: 'whole' | 'fraction';
}

/** Words people write for units beside the workbook's own. */
const otherWords: Readonly<Record<string, string>> = {
	inches: 'in',
	feet: 'ft',
	foot: 'ft',
	millimeter: 'mm',
	millimeters: 'mm',
	millimetre: 'mm',
	millimetres: 'mm',
	degree: 'deg',
	degrees: 'deg',
	lbs: 'lb',
	pound: 'lb',
	pounds: 'lb',
	min: 'minute',
	hr: 'h',
	hours: 'h',
	nm: 'N m',
};

/** What may follow a measure in this unit when it has none of its own, and be joined to it by a hyphen. */
const smaller: Readonly<Record<string, string>> = { ft: 'in', in: 'in', deg: 'arcmin' };

/** The units the marks behind a number mean, where an angle is wanted and elsewhere. */
const marks: Readonly<Record<'angle' | 'length', Readonly<Record<string, string>>>> = {
	angle: { '°': 'deg', "'": 'arcmin' },
	length: { '°': 'deg', "'": 'ft', '"': 'in' },
};

/** What " means behind minutes of angle; it cannot be written as a word. */
const arcsecond: Unit = { name: 'arcsec', size: Math.PI / 648_000, dimension: angle };

/** Longer than anything that is typed for one reading. */
const longest = 200;

/** What may be typed for a quantity of this unit, for the end of a sentence. */
function expected(unit: Unit): string {
	if (sameDimension(unit.dimension, length)) {
		return unit.name === 'in'
			? 'Type a tape reading such as 33 1/2, 33-1/2", 5\' 6 1/2" or 851 mm.'
			: 'Type a length such as 851, 85.1 cm or 33 1/2 in.';
	}
	if (sameDimension(unit.dimension, angle)) return "Type an angle such as 5.5, 5.5° or 5° 30'.";
	return unit.name
		? `Type a number, or a number with its unit such as 12 ${unit.name}.`
		: 'Type a number.';
}

/**
 * Reads one amount and how it was written.
 * @param typed as it stands in the field
 * @param unit shown beside the field; what a bare number is taken in
 */
export function readMeasure(typed: string, unit: Unit): Measure | Refusal {
	try {
		if (typed.trim().length > longest) {
			throw new Unreadable(`${quoted(typed)} is too long for one reading.`);
		}
		const text = withPlainSigns(typed);
		const tokens = tokensOf(text, inWords(unit.dimension));
		if (tokens.length === 0) throw new Unreadable('Nothing is entered yet.');
		const reader = new Reader(text, tokens, unit);
		const { dimension, bare, single, first, last, value } = reader.sum();
		reader.end();
		if (!bare && !sameDimension(dimension, unit.dimension)) {
			throw new Unreadable(
				`${quoted(typed)} is ${inWords(dimension)}; ${inWords(unit.dimension)} is wanted here.`,
			);
		}
		const inSI = bare ? value * unit.size : value;
		if (!Number.isFinite(inSI)) throw new Unreadable(`${quoted(typed)} is not a finite number.`);
		// No minus before nothing.
		return { value: inSI + 0, bare, single, ...(first && { first }), ...(last && { last }) };
	} catch (cause) {
		if (!(cause instanceof Unreadable)) throw cause;
		return { problem: cause.message, advice: expected(unit), candidates: cause.candidates };
	}
}

/** Not more than these are offered: so many can be told apart at a glance. */
const mostOffers = 4;

/** Those of the texts that can be read, each with what it comes to, and none that comes to the same as another. */
export function offersOf<R extends object>(
	candidates: readonly string[],
	read: (text: string) => R | { readonly problem: string },
): (R & { readonly text: string })[] {
	const offers = new Map<string, R & { readonly text: string }>();
	for (const text of candidates) {
		const found = read(text);
		if ('problem' in found) continue;
		const same = JSON.stringify(found);
		if (!offers.has(same)) offers.set(same, { text, ...found });
	}
	return [...offers.values()].slice(0, mostOffers);
}

/**
 * Reads one amount.
 * @param typed as it stands in the field
 * @param unit shown beside the field; what a bare number is taken in
 */
export function readEntry(typed: string, unit: Unit): Read<number> {
	const found = readMeasure(typed, unit);
	if (!('problem' in found)) return { value: found.value };
	const offers = offersOf<{ value: number }>(found.candidates, (text) => {
		const measure = readMeasure(text, unit);
		return 'problem' in measure ? measure : { value: measure.value };
	});
	if (offers.length === 0) return { problem: `${found.problem} ${found.advice}` };
	return {
		problem: `${found.problem} Type ${offers.map(({ text }) => `“${text}”`).join(' or ')}.`,
		offers,
	};
}

/** "a length", "an angle" */
function inWords(dimension: Dimension): string {
	return withArticle(dimensionInWords(dimension));
}

/** Reads tokens left to right: sums of products of measures. */
class Reader {
	private next = 0;
	private readonly text: string;
	private readonly tokens: readonly Token[];
	private readonly unit: Unit;

	constructor(text: string, tokens: readonly Token[], unit: Unit) {
		this.text = text;
		this.tokens = tokens;
		this.unit = unit;
	}

	private look(ahead = 0): Token | undefined {
		return this.tokens[this.next + ahead];
	}

	private sign(...texts: readonly string[]): Token | undefined {
		const token = this.look();
		if (token?.kind !== 'sign' || !texts.includes(token.text)) return undefined;
		this.next++;
		return token;
	}

	/** What was typed before a token and after another, to put something else between. */
	private around(from: Token, to: Token): [before: string, after: string] {
		return [this.text.slice(0, from.start).trim(), this.text.slice(to.end).trim()];
	}

	end(): void {
		const left = this.look();
		if (!left) return;
		throw new Unreadable(`“${left.text}” is left over after the rest was read.`, [
			// 1 234 may be written with a space between its thousands.
			this.text.replace(/(\d)\s(?=\d{3}(?!\d))/g, '$1'),
		]);
	}

	sum(): Amount {
		let left = this.product();
		for (;;) {
			const sign = this.sign('+', '-');
			if (!sign) return left;
			const after = this.look();
			this.refuseTwoSigns(sign);
			const right = this.product();
			if (sign.text === '-') this.askUnlessTakenAway(sign, after, left, right);
			// A bare number beside a measured one takes the shown unit.
			const bare = left.bare && right.bare;
			const [a, b] = bare ? [left, right] : [this.measured(left), this.measured(right)];
			if (!sameDimension(a.dimension, b.dimension)) {
				throw new Unreadable(
					`${capital(inWords(a.dimension))} and ${inWords(b.dimension)} cannot be added or taken from one another.`,
				);
			}
			const same = a.last && a.last.size === b.last?.size;
			left = {
				value: sign.text === '+' ? a.value + b.value : a.value - b.value,
				dimension: a.dimension,
				bare,
				single: false,
				...(same && { first: a.last, last: a.last }),
			};
		}
	}

	/** Asks about a dash that does not plainly take away: see the rule for dashes above. */
	private askUnlessTakenAway(
		dash: Token,
		after: Token | undefined,
		left: Amount,
		right: Amount,
	): void {
		const inchesAfterFeet =
			left.single &&
			left.unit?.name === 'ft' &&
			right.single &&
			(right.bare ? this.unit.name : right.first?.name) === 'in' &&
			(right.bare ? right.value * this.unit.size : right.value) < left.unit.size;
		if (dash.spaced && after?.spaced && !inchesAfterFeet) return;
		const [before, behind] = this.around(dash, dash);
		const feet = this.unit.name === 'in' && /^\d+$/.test(before) && /^\d+(?![\d/.])/.test(behind);
		throw new Unreadable(`The dash in ${quoted(this.text)} could join or take away.`, [
			// As one measure, …
			`${before.replace(/\.0+$/, '')} ${behind}`,
			...(feet ? [`${before}' ${behind}`] : []),
			// … from one to the other, …
			`${before} to ${behind}`,
			// … or one less the other.
			`${before} - ${behind}`,
			`(${before}) - ${behind}`,
		]);
	}

	/** Two signs together are a slip of the finger, or meant as ±. */
	private refuseTwoSigns(sign: Token): void {
		const second = this.look();
		if (second?.kind !== 'sign' || (second.text !== '+' && second.text !== '-')) return;
		const [before, behind] = this.around(sign, second);
		throw new Unreadable(
			`Two signs stand together in ${quoted(this.text)}.`,
			before === ''
				? [`-${behind}`, behind]
				: ['±', '-', '+'].map((other) => `${before} ${other} ${behind}`),
		);
	}

	private measured(amount: Amount): Amount {
		if (!amount.bare) return amount;
		const { dimension, size } = this.unit;
		return {
			value: amount.value * size,
			dimension,
			bare: false,
			single: amount.single,
			first: this.unit,
			last: this.unit,
		};
	}

	private product(): Amount {
		let left = this.signed();
		for (;;) {
			const sign = this.sign('*', '/');
			if (!sign) return left;
			const right = this.signed();
			const times = sign.text === '*';
			if (!times && !sign.spaced) this.refuseTwoStrokes();
			// Twice a length in mm is in mm still.
			const same = right.bare ? left : times && left.bare ? right : undefined;
			left = {
				value: times ? left.value * right.value : left.value / right.value,
				dimension: timesDimension(left.dimension, right.dimension, times ? 1 : -1),
				bare: left.bare && right.bare,
				single: false,
				...(same?.first && { first: same.first }),
				...(same?.last && { last: same.last }),
			};
		}
	}

	private signed(): Amount {
		const sign = this.sign('+', '-');
		if (sign) this.refuseTwoSigns(sign);
		const amount = this.unsigned();
		return sign?.text === '-' ? { ...amount, value: -amount.value } : amount;
	}

	private unsigned(): Amount {
		if (!this.sign('(')) return this.measure();
		const inside: Amount = { ...this.sum(), single: false };
		if (!this.sign(')')) throw new Unreadable('A bracket is opened and not closed.');
		return inside.bare ? { ...this.withUnit(inside), single: false } : inside;
	}

	/** A measure: feet and inches, degrees and minutes, or one number with or without a unit. */
	private measure(): Amount {
		let last = this.withUnit(this.mixedNumber());
		let whole = last;
		// 5' 6 1/2", 5 ft 6 in, 5° 30'; a dash without spaces joins them too: 5'-6 1/2".
		while (last.unit) {
			const from = this.next;
			const dash = this.dashJoins();
			if (dash) this.next++;
			if (!isNumber(this.look())) break;
			const written = this.withUnit(this.mixedNumber(), true);
			const next = smaller[last.unit.name];
			const following =
				written.bare && next && !(dash && next === 'arcmin')
					? { ...this.inUnit(written.value, next), ...numberOf(written) }
					: written;
			// What stands behind is a part of the unit before it: 5' 6", never 5' 30°.
			const less =
				sameDimension(last.dimension, following.dimension) && following.value < last.unit.size;
			const fraction = following.number === 'fraction';
			const part = less && last.number === 'whole' && (fraction || following.unit !== last.unit);
			if (dash && !(part && following.unit?.name === next)) {
				// It joins nothing.
				this.next = from;
				break;
			}
			if (!part) {
				throw new Unreadable(
					less
						? 'Two amounts stand side by side, and the second is no part of the first.'
						: `Two amounts stand side by side, and the second is not less than 1 ${last.unit.name}.`,
				);
			}
			last = following;
			whole = {
				...last,
				value: whole.value + last.value,
				...(whole.first && { first: whole.first }),
			};
		}
		return whole;
	}

	/** Whether a dash without spaces stands here, between what is before and a number. */
	private dashJoins(): boolean {
		const [dash, after] = [this.look(), this.look(1)];
		return (
			dash?.kind === 'sign' && dash.text === '-' && !dash.spaced && isNumber(after) && !after.spaced
		);
	}

	/** 33, 33.5, 1/2, ½, 33 1/2, 33½, 33-1/2. */
	private mixedNumber(): Amount {
		const token = this.look();
		if (!isNumber(token)) {
			throw new Unreadable(
				token
					? `“${token.text}” stands where a number was expected.`
					: 'A number is missing at the end.',
			);
		}
		this.next++;
		const written = (value: number, number?: 'whole' | 'fraction'): Amount => ({
			value,
			dimension: plainNumber,
			bare: true,
			single: true,
			...(number && { number }),
		});
		if (token.kind === 'fraction') return written(fractions[token.text] ?? NaN, 'fraction');
		const value = Number(token.text);
		const whole = /^\d+$/.test(token.text);
		const joined = this.dashJoins();
		const part = whole ? this.fraction(joined ? 1 : 0) : undefined;
		if (part && (joined ? part.tight : part.apart)) {
			this.next += part.tokens + (joined ? 1 : 0);
			if (part.tokens > 1) this.refuseTwoStrokes();
			return written(value + part.value);
		}
		this.refuseLostSpace(token);
		if (!this.fractionOf(token)) return written(value, whole ? 'whole' : undefined);
		const below = Number(this.look(1)?.text);
		this.next += 2;
		this.refuseTwoStrokes();
		return written(value / below, 'fraction');
	}

	/** The fraction below one that begins so many tokens ahead: ½, or two whole numbers with a stroke. */
	private fraction(ahead: number):
		| {
				readonly value: number;
				readonly tokens: number;
				/** No space stands in it. */
				readonly tight: boolean;
				/** It cannot be one number with the whole before it. */
				readonly apart: boolean;
		  }
		| undefined {
		const [above, stroke, below] = [this.look(ahead), this.look(ahead + 1), this.look(ahead + 2)];
		if (above?.kind === 'fraction') {
			return { value: fractions[above.text] ?? NaN, tokens: 1, tight: true, apart: true };
		}
		if (above?.kind !== 'number' || stroke?.text !== '/' || below?.kind !== 'number')
			return undefined;
		const value = Number(above.text) / Number(below.text);
		if (!/^\d+$/.test(above.text) || !/^\d+$/.test(below.text) || !(value < 1)) return undefined;
		return { value, tokens: 3, tight: !stroke.spaced && !below.spaced, apart: above.spaced };
	}

	/** 1/2/4 is no fraction, and a date sooner than a division. */
	private refuseTwoStrokes(): void {
		const [stroke, below] = [this.look(), this.look(1)];
		if (stroke?.text !== '/' || stroke.spaced || !isNumber(below) || below.spaced) return;
		const before = this.text.slice(0, stroke.start);
		throw new Unreadable(`Two strokes stand in one fraction in ${quoted(this.text)}.`, [
			before.replace(/\/(?=\d+$)/, ' ') + this.text.slice(stroke.start),
			`${before} / ${this.text.slice(below.start)}`,
		]);
	}

	/**
	 * 45/8 on a tape is 4 5/8 with its space forgotten, sooner than a division, and 4.5/8 the same with a
	 * point in its place.
	 */
	private refuseLostSpace(above: Token): void {
		const { text } = above;
		const [stroke, below] = [this.look(), this.look(1)];
		if (stroke?.text !== '/' || stroke.spaced || !below || below.spaced) return;
		const divisions = Number(below.text);
		const { dimension } = this.unit;
		const onRule = sameDimension(dimension, length) || sameDimension(dimension, angle);
		if (!onRule || ![2, 4, 8, 16, 32, 64].includes(divisions)) return;
		const pointed = /^(\d+)\.([1-9]\d*)$/.exec(text);
		if (pointed ? Number(pointed[2]) >= divisions : !(Number(text) > divisions)) return;
		if (!pointed && !/^\d+$/.test(text)) return;
		const figures = divisions > 10 && Number(text.slice(-2)) < divisions ? 2 : 1;
		const [whole = '', part = ''] = pointed?.slice(1) ?? [
			text.slice(0, -figures),
			text.slice(-figures),
		];
		const tape =
			whole && Number(part) < divisions ? `${whole} ${part}/${divisions.toString()}` : '';
		const instead = (other: string): string =>
			this.text.slice(0, above.start) + other + this.text.slice(below.end);
		throw new Unreadable(
			`“${text}/${divisions.toString()}”${tape ? ` may be ${tape}` : ' is more than one'}.`,
			[...(tape ? [instead(tape)] : []), instead(`${text} / ${divisions.toString()}`)],
		);
	}

	/** Whether this number is the upper part of a fraction such as 1/2 or 5/8, to be read as one number. */
	private fractionOf(above: Token): boolean {
		const [stroke, below] = [this.look(), this.look(1)];
		return (
			stroke?.kind === 'sign' &&
			stroke.text === '/' &&
			below?.kind === 'number' &&
			Number(below.text) !== 0 &&
			/^\d+$/.test(above.text) &&
			/^\d+$/.test(below.text)
		);
	}

	/** The unit that follows a number, if one does. */
	private withUnit(amount: Amount, second = false): Amount {
		const token = this.look();
		if (token?.kind === 'sign') return this.withMark(amount, token, second);
		if (token?.kind !== 'word') return amount;
		const known = this.unitAhead(0);
		if (!known) {
			throw new Unreadable(
				`“${token.text}” is not a unit known here.${nearest(token.text, unitNames)}`,
			);
		}
		this.next += known.tokens;
		let { size, dimension } = known.unit;
		let parts = 1;
		// lbf/in, N/mm, lbf ft, N·m, ft-lb, kg/m^3
		for (;;) {
			const sign = this.look()?.kind === 'sign' ? this.look() : undefined;
			const dash = sign?.text === '-' && !sign.spaced && !this.look(1)?.spaced;
			const joins = sign && (sign.text === '*' || sign.text === '/' || dash);
			const part = joins || !sign ? this.unitAhead(joins ? 1 : 0) : undefined;
			if (!part) break;
			this.next += part.tokens + (joins ? 1 : 0);
			const below = sign?.text === '/';
			size = below ? size / part.unit.size : size * part.unit.size;
			dimension = timesDimension(dimension, part.unit.dimension, below ? -1 : 1);
			parts++;
		}
		if (parts === 1) return { ...this.inUnit(amount.value, known.unit.name), ...numberOf(amount) };
		const name = this.text.slice(token.start, this.look(-1)?.end);
		const unit: Unit = { name, size, dimension };
		return {
			value: amount.value * size,
			dimension,
			bare: false,
			single: true,
			first: unit,
			last: unit,
		};
	}

	/** The strokes are feet and inches, or minutes of angle and their seconds where an angle is wanted. */
	private withMark(amount: Amount, { text }: Token, second: boolean): Amount {
		const turned = sameDimension(this.unit.dimension, angle);
		if (turned && text === '"' && second) {
			this.next++;
			return {
				value: amount.value * arcsecond.size,
				dimension: angle,
				bare: false,
				single: true,
				first: arcsecond,
				last: arcsecond,
				unit: arcsecond,
			};
		}
		const names = turned ? marks.angle : marks.length;
		const name = Object.hasOwn(names, text) ? names[text] : undefined;
		if (!name) return amount;
		this.next++;
		return { ...this.inUnit(amount.value, name), ...numberOf(amount) };
	}

	/** The unit so many tokens ahead with its power, as in ft^2, and how many tokens that is. */
	private unitAhead(ahead: number): { unit: Unit; tokens: number } | undefined {
		const unit = this.unitWritten(this.look(ahead));
		if (!unit) return undefined;
		const power = this.look(ahead + 1)?.text === '^' ? (this.look(ahead + 2)?.text ?? '') : '';
		const raised =
			/^[23]$/.test(power) && unitNames.includes(unit.name)
				? unitOf(`${unit.name}^${power}`)
				: undefined;
		return raised ? { unit: raised, tokens: 3 } : { unit, tokens: 1 };
	}

	/** The unit a word means, in capitals or not. */
	private unitWritten(token: Token | undefined): Unit | undefined {
		if (token?.kind !== 'word') return undefined;
		const small = token.text.toLowerCase();
		const other = Object.hasOwn(otherWords, small) ? otherWords[small] : undefined;
		const word = unitNamed(token.text) ? token.text : (other ?? token.text);
		const known =
			unitOf(word) ?? unitNamed(unitNames.find((name) => name.toLowerCase() === small) ?? '');
		// A person asked for a force, or for what is made of one, writes lb.
		const [mass, , time] = this.unit.dimension;
		return known?.name === 'lb' && mass === 1 && time === -2 ? unitNamed('lbf') : known;
	}

	private inUnit(value: number, name: string): Amount {
		const unit = unitOf(name);
		if (!unit) throw new Error(`entry: no unit ${name}`);
		return {
			value: value * unit.size,
			dimension: unit.dimension,
			bare: isPlainNumber(unit.dimension),
			single: true,
			first: unit,
			last: unit,
			unit,
		};
	}
}

function isNumber(
	token: Token | undefined,
): token is Token & { readonly kind: 'number' | 'fraction' } {
	return token?.kind === 'number' || token?.kind === 'fraction';
}

function numberOf({ number }: Amount): Pick<Amount, 'number'> {
	return number ? { number } : {};
}

function capital(text: string): string {
	return text.charAt(0).toUpperCase() + text.slice(1);
}
