/** What is typed for a quantity, taken apart: numbers, fractions, words and signs, with where they stand. */

/** One piece of what was typed. */
export interface Token {
	/** A fraction is one written as a single sign, such as ½. */
	readonly kind: 'number' | 'fraction' | 'word' | 'sign';
	/** A number is written with a point. */
	readonly text: string;
	/** White space stands before it. */
	readonly spaced: boolean;
	/** From where to where it stands in the text the tokens were taken from. */
	readonly start: number;
	readonly end: number;
}

/** What was typed cannot be read, with texts that may have been meant, likeliest first. */
export class Unreadable extends Error {
	readonly candidates: readonly string[];

	constructor(message: string, candidates: readonly string[] = []) {
		super(message);
		this.candidates = candidates;
	}
}

/** The fractions that are one sign. */
export const fractions: Readonly<Record<string, number>> = {
	'½': 1 / 2,
	'¼': 1 / 4,
	'¾': 3 / 4,
	'⅛': 1 / 8,
	'⅜': 3 / 8,
	'⅝': 5 / 8,
	'⅞': 7 / 8,
	'⅓': 1 / 3,
	'⅔': 2 / 3,
};

/** What was typed, for a sentence. */
export function quoted(typed: string): string {
	const text = typed.trim();
	return `“${text.length > 40 ? `${text.slice(0, 40)}…` : text}”`;
}

/** The dashes, strokes and marks of people's keyboards as the one sign each stands for. */
export function withPlainSigns(typed: string): string {
	return typed
		.replace(/[−–—‐‑‒―]/g, '-')
		.replace(/[×·]/g, '*')
		.replace(/[÷∕⁄]/g, '/')
		.replace(/²/g, '^2')
		.replace(/³/g, '^3')
		.replace(/[″“”„]|''|’’|‘‘|′′|´´|``/g, '"')
		.replace(/[′’‘´`]/g, "'")
		.replace(/[º˚]/g, '°');
}

// A number, a fraction, a word that may end in the point of an abbreviation, a sign.
const piece =
	/(\s*)(?:((?:\d+(?:[.,]\d+)*|[.,]\d+)(?:[eE][+-]?\d+)?)(?:\.(?!\d))?|([½¼¾⅛⅜⅝⅞⅓⅔])|([A-Za-z]+)(?:\.(?!\d))?|(["'°+\-*/()^]))/y;

/**
 * Takes a text apart.
 * @param text with plain signs
 * @param wanted what the field asks for, with its article, for a sentence
 * @throws Unreadable
 */
export function tokensOf(text: string, wanted: string): Token[] {
	const tokens: Token[] = [];
	const decimals = new Set<string>();
	const till = text.trimEnd().length;
	piece.lastIndex = 0;
	while (piece.lastIndex < till) {
		const from = piece.lastIndex;
		const match = piece.exec(text);
		if (!match) {
			const strange = String.fromCodePoint(text.slice(from).trim().codePointAt(0) ?? 0);
			throw new Unreadable(`“${strange}” in ${quoted(text)} is not part of ${wanted}.`);
		}
		const [, space = '', number, fraction, word, sign = ''] = match;
		const place = {
			spaced: space !== '',
			start: from + space.length,
			end: piece.lastIndex,
		};
		if (number === undefined) {
			const kind = fraction ? 'fraction' : word ? 'word' : 'sign';
			tokens.push({ kind, text: fraction ?? word ?? sign, ...place });
			continue;
		}
		const mark = /[.,]/.exec(number)?.[0];
		if (mark) decimals.add(mark);
		tokens.push({ kind: 'number', text: withPoint(number, text, place.start), ...place });
	}
	if (decimals.size > 1) throw new Unreadable(commaOrPoint(text), [text.replaceAll(',', '.')]);
	return tokens;
}

function commaOrPoint(text: string): string {
	return `${quoted(text)} could mean a decimal comma or a thousands comma; write it with a point, or without.`;
}

/**
 * A number with the decimal comma as a point. A comma (or more of them) with three figures after it may
 * stand between thousands, and then nobody can tell.
 */
function withPoint(number: string, text: string, start: number): string {
	const marks = number.replace(/[^.,]/g, '');
	if (marks === '' || marks === '.') return number;
	const [mantissa = '', exponent] = number.split(/(?=[eE])/);
	const inThousands =
		/^[1-9]\d{0,2}(?:,\d{3})+(?:\.\d+)?$|^[1-9]\d{0,2}(?:\.\d{3})+(?:,\d+)?$/.test(mantissa);
	if (marks === ',' && (!inThousands || exponent)) return number.replace(',', '.');
	const instead = (other: string): string =>
		text.slice(0, start) + other + text.slice(start + number.length);
	const candidates = marks === ',' ? [instead(number.replace(',', '.'))] : [];
	if (inThousands) {
		const last = marks.at(-1) ?? '';
		const several = marks.length === 1 || marks === last.repeat(marks.length);
		const cut = several ? mantissa.length : mantissa.lastIndexOf(last);
		const decimals = mantissa.slice(cut).replace(',', '.');
		candidates.push(instead(mantissa.slice(0, cut).replace(/[.,]/g, '') + decimals));
	}
	throw new Unreadable(commaOrPoint(text), candidates);
}
