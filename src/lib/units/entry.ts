/**
 * What a person types for a quantity, read: `33 1/2`, `33-1/2"`, `5' 6 1/2"`, `851 mm`, `5° 30'`,
 * `90 - 84.5`. A bare number takes the unit shown beside the field.
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
import { unitNamed, unitNames, unitOf, type Unit } from './units.ts';
import { nearest } from './nearest-word.ts';
import { withArticle } from './shown.ts';

/** The value read, SI, or a sentence that says what was found and what was expected. */
export type Read<V> = { readonly value: V } | { readonly problem: string };

interface Token {
	readonly kind: 'number' | 'word' | 'sign';
	readonly text: string;
	readonly spaced: boolean;
}

/** A number with what is known of its unit. */
interface Amount {
	readonly value: number;
	readonly dimension: Dimension;
	/** No unit was written: takes the shown one. */
	readonly bare: boolean;
	/** The unit it ends in, where it is one measure. */
	readonly unit?: Unit;
}

class Unreadable extends Error {}

const vulgar: Readonly<Record<string, string>> = {
	'½': '1/2',
	'¼': '1/4',
	'¾': '3/4',
	'⅛': '1/8',
	'⅜': '3/8',
	'⅝': '5/8',
	'⅞': '7/8',
	'⅓': '1/3',
	'⅔': '2/3',
};

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

/** Longer than anything that is typed for one reading. */
const longest = 200;

/** What was typed, for a sentence. */
function quoted(typed: string): string {
	const text = typed.trim();
	return `“${text.length > 40 ? `${text.slice(0, 40)}…` : text}”`;
}

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
 * Reads what was typed.
 * @param typed as it stands in the field
 * @param unit shown beside the field; what a bare number is taken in
 */
export function readEntry(typed: string, unit: Unit): Read<number> {
	try {
		if (typed.trim().length > longest) {
			throw new Unreadable(`${quoted(typed)} is too long for one reading.`);
		}
		const tokens = tokensOf(typed, unit);
		if (tokens.length === 0) throw new Unreadable('Nothing is entered yet.');
		const reader = new Reader(tokens, unit);
		const amount = reader.sum();
		reader.end();
		const value = amount.bare ? amount.value * unit.size : amount.value;
		if (!amount.bare && !sameDimension(amount.dimension, unit.dimension)) {
			throw new Unreadable(
				`${quoted(typed)} is ${inWords(amount.dimension)}; ${inWords(unit.dimension)} is wanted here.`,
			);
		}
		if (!Number.isFinite(value)) throw new Unreadable(`${quoted(typed)} is not a finite number.`);
		return { value: value + 0 }; // no minus before nothing
	} catch (cause) {
		if (!(cause instanceof Unreadable)) throw cause;
		return { problem: `${cause.message} ${expected(unit)}` };
	}
}

/** "a length", "an angle" */
function inWords(dimension: Dimension): string {
	return withArticle(dimensionInWords(dimension));
}

function tokensOf(typed: string, unit: Unit): Token[] {
	let text = typed
		// 33½ is 33 1/2, and 33-½ is 33-1/2.
		.replace(/(?<=\d)[½¼¾⅛⅜⅝⅞⅓⅔]/g, ' $&')
		.replace(/[½¼¾⅛⅜⅝⅞⅓⅔]/g, (sign) => vulgar[sign] ?? sign)
		.replace(/[−–—]/g, '-')
		.replace(/[×·]/g, '*')
		.replace(/[÷∕⁄]/g, '/')
		.replace(/²/g, '^2')
		.replace(/³/g, '^3')
		.replace(/[″“”]|''|’’|′′/g, '"')
		.replace(/[′’‘]/g, "'")
		.replace(/[º˚]/g, '°');
	// A single comma before other than three figures is a decimal comma.
	if (/\d,\d/.test(text)) {
		const parts = text.split(',');
		if (parts.length > 2 || text.includes('.') || /,\d{3}(?!\d)/.test(text)) {
			throw new Unreadable(
				`${quoted(typed)} could mean a decimal comma or a thousands comma; write it with a point, or without.`,
			);
		}
		text = text.replace(',', '.');
	}
	const tokens: Token[] = [];
	// A word may end in the point of an abbreviation.
	const pattern =
		/(\s*)(?:(\d+\.?\d*(?:[eE][+-]?\d+)?|\.\d+)|([A-Za-z]+)(?:\.(?!\d))?|(["'°+\-*/()^]))/y;
	text = text.trimEnd();
	while (pattern.lastIndex < text.length) {
		const from = pattern.lastIndex;
		const match = pattern.exec(text);
		if (!match) {
			throw new Unreadable(
				`“${String.fromCodePoint(text.slice(from).trim().codePointAt(0) ?? 0)}” in ${quoted(typed)} is not part of ${inWords(unit.dimension)}.`,
			);
		}
		const spaced = (match[1] ?? '') !== '';
		if (match[2] !== undefined) tokens.push({ kind: 'number', text: match[2], spaced });
		else if (match[3] !== undefined) tokens.push({ kind: 'word', text: match[3], spaced });
		else tokens.push({ kind: 'sign', text: match[4] ?? '', spaced });
	}
	return tokens;
}

/** Reads tokens left to right: sums of products of measures. */
class Reader {
	private next = 0;
	private readonly tokens: readonly Token[];
	private readonly unit: Unit;

	constructor(tokens: readonly Token[], unit: Unit) {
		this.tokens = tokens;
		this.unit = unit;
	}

	private look(ahead = 0): Token | undefined {
		return this.tokens[this.next + ahead];
	}

	private sign(text: string): boolean {
		const token = this.look();
		if (token?.kind !== 'sign' || token.text !== text) return false;
		this.next++;
		return true;
	}

	end(): void {
		const left = this.look();
		if (left) throw new Unreadable(`“${left.text}” is left over after the rest was read.`);
	}

	sum(): Amount {
		let left = this.product();
		for (;;) {
			const plus = this.sign('+');
			if (!plus && !this.sign('-')) return left;
			const right = this.product();
			// A bare number beside a measured one takes the shown unit.
			const bare = left.bare && right.bare;
			const [a, b] = bare ? [left, right] : [this.measured(left), this.measured(right)];
			if (!sameDimension(a.dimension, b.dimension)) {
				throw new Unreadable(
					`${capital(inWords(a.dimension))} and ${inWords(b.dimension)} cannot be added or taken from one another.`,
				);
			}
			left = { value: plus ? a.value + b.value : a.value - b.value, dimension: a.dimension, bare };
		}
	}

	private measured(amount: Amount): Amount {
		return amount.bare
			? { value: amount.value * this.unit.size, dimension: this.unit.dimension, bare: false }
			: amount;
	}

	private product(): Amount {
		let left = this.signed();
		for (;;) {
			const times = this.sign('*');
			if (!times && !this.sign('/')) return left;
			const right = this.signed();
			left = {
				value: times ? left.value * right.value : left.value / right.value,
				dimension: timesDimension(left.dimension, right.dimension, times ? 1 : -1),
				bare: left.bare && right.bare,
			};
		}
	}

	private signed(): Amount {
		if (this.sign('-')) {
			const amount = this.signed();
			return { ...amount, value: -amount.value };
		}
		if (this.sign('+')) return this.signed();
		if (this.sign('(')) {
			const inside = this.sum();
			if (!this.sign(')')) throw new Unreadable('A bracket is opened and not closed.');
			return inside.bare ? this.withUnit(inside) : inside;
		}
		return this.measure();
	}

	/** A measure: feet and inches, degrees and minutes, or one number with or without a unit. */
	private measure(): Amount {
		let last = this.withUnit(this.mixedNumber());
		let whole = last;
		// 5' 6 1/2", 5 ft 6 in, 5° 30'; a hyphen without spaces joins them too: 5'-6 1/2".
		while (last.unit) {
			const from = this.next;
			const hyphen = this.hyphenJoins();
			if (hyphen) this.next++;
			if (this.look()?.kind !== 'number') break;
			const written = this.withUnit(this.mixedNumber(), true);
			const next = smaller[last.unit.name];
			const following =
				written.bare && next && !(hyphen && next === 'arcmin')
					? this.inUnit(written.value, next)
					: written;
			// What stands behind is a part of the unit before it: 5' 6", never 5' 30°.
			const part =
				sameDimension(last.dimension, following.dimension) && following.value < last.unit.size;
			if (hyphen && !(part && next !== last.unit.name && following.unit?.name === next)) {
				// It was a minus.
				this.next = from;
				break;
			}
			if (!part) {
				throw new Unreadable(
					`Two amounts stand side by side, and the second is not less than 1 ${last.unit.name}.`,
				);
			}
			last = following;
			whole = { ...whole, value: whole.value + last.value };
		}
		return whole;
	}

	/** Whether a hyphen without spaces stands here, between what is before and a number. */
	private hyphenJoins(): boolean {
		const hyphen = this.look();
		const after = this.look(1);
		return (
			hyphen?.kind === 'sign' &&
			hyphen.text === '-' &&
			!hyphen.spaced &&
			after?.kind === 'number' &&
			!after.spaced
		);
	}

	/** 33, 33.5, 1/2, 33 1/2, 33-1/2. Without spaces a hyphen joins a fraction; with them it takes away. */
	private mixedNumber(): Amount {
		const token = this.look();
		if (token?.kind !== 'number') {
			throw new Unreadable(
				token
					? `“${token.text}” stands where a number was expected.`
					: 'A number is missing at the end.',
			);
		}
		this.next++;
		let value = Number(token.text);
		const joined = this.hyphenJoins();
		const fraction = this.fraction(joined ? 1 : 0);
		if (Number.isInteger(value) && fraction !== undefined && (joined || this.look()?.spaced)) {
			this.next += joined ? 4 : 3;
			value += fraction;
		} else if (this.fractionOf(token)) {
			this.refuseLostSpace(token);
			const below = Number(this.look(1)?.text);
			this.next += 2;
			value /= below;
		}
		return { value, dimension: plainNumber, bare: true };
	}

	/** The fraction that begins so many tokens ahead: two whole numbers with a stroke, below one. */
	private fraction(ahead: number): number | undefined {
		const [above, stroke, below] = [this.look(ahead), this.look(ahead + 1), this.look(ahead + 2)];
		if (above?.kind !== 'number' || stroke?.text !== '/' || below?.kind !== 'number')
			return undefined;
		const value = Number(above.text) / Number(below.text);
		return /^\d+$/.test(above.text) && /^\d+$/.test(below.text) && value < 1 ? value : undefined;
	}

	/** 45/8 on a tape is 4 5/8 with its space forgotten, sooner than a division. */
	private refuseLostSpace({ text }: Token): void {
		const [stroke, below] = [this.look(), this.look(1)];
		const divisions = Number(below?.text);
		const onTape = [2, 4, 8, 16, 32, 64].includes(divisions) && !stroke?.spaced && !below?.spaced;
		if (!onTape || Number(text) <= divisions || !sameDimension(this.unit.dimension, length)) return;
		const figures = divisions > 10 && Number(text.slice(-2)) < divisions ? 2 : 1;
		const [whole, part] = [text.slice(0, -figures), text.slice(-figures)];
		const meant = whole && Number(part) < divisions ? ` may be ${whole} ${part}/${divisions}` : '';
		throw new Unreadable(
			`“${text}/${divisions}”${meant || ' is more than one'}. Put a space before the fraction, or spaces round the stroke for a division, ${text} / ${divisions}.`,
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
		if (token?.kind === 'sign') {
			// The strokes are feet and inches, or minutes of angle where an angle is wanted.
			const turned = sameDimension(this.unit.dimension, angle);
			const name =
				token.text === '"'
					? turned
						? undefined
						: 'in'
					: token.text === "'"
						? turned
							? 'arcmin'
							: 'ft'
						: token.text === '°'
							? 'deg'
							: undefined;
			if (name) {
				this.next++;
				return this.inUnit(amount.value, name);
			}
			if (token.text === '"' && turned && second) {
				this.next++;
				return this.inUnit(amount.value / 60, 'arcmin');
			}
			return amount;
		}
		if (token?.kind !== 'word') return amount;
		const known = this.unitAhead(0);
		if (!known) {
			throw new Unreadable(
				`“${token.text}” is not a unit known here.${nearest(token.text, unitNames)}`,
			);
		}
		this.next += known.tokens;
		let measured = this.inUnit(amount.value, known.unit.name);
		// lbf/in, N/mm, lbf ft, N·m, ft-lb, kg/m^3
		for (;;) {
			const sign = this.look()?.kind === 'sign' ? this.look() : undefined;
			const joins = sign && (sign.text === '*' || sign.text === '/' || sign.text === '-');
			const part = joins || !sign ? this.unitAhead(joins ? 1 : 0) : undefined;
			if (!part) return measured;
			this.next += part.tokens + (joins ? 1 : 0);
			const { size, dimension } = part.unit;
			const below = sign?.text === '/';
			measured = {
				value: below ? measured.value / size : measured.value * size,
				dimension: timesDimension(measured.dimension, dimension, below ? -1 : 1),
				bare: false,
			};
		}
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
			unit,
		};
	}
}

function capital(text: string): string {
	return text.charAt(0).toUpperCase() + text.slice(1);
}
