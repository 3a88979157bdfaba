/** Values as people read them. */
import type { Shown } from './quantities.ts';

/** The sign a unit is shown with. */
export function unitSign(name: string): string {
	if (name === 'deg') return '°';
	return name.replace(/\^2/g, '²').replace(/\^3/g, '³').replace(/ /g, '·').replace(/\*/g, '·');
}

/** A word with its article, for sentences: "a length", "an angle". */
export function withArticle(words: string): string {
	return `${/^[aeiou]/.test(words) ? 'an' : 'a'} ${words}`;
}

function joined(number: string, unit: string): string {
	if (unit === '') return number;
	return unit === '°' ? `${number}°` : `${number} ${unit}`;
}

/** A true minus sign, and no minus before nothing. */
function signed(number: string): string {
	if (/^-0(\.0*)?$/.test(number)) return number.slice(1);
	return number.replace('-', '−');
}

/** What was typed, each minus before a number as a true one; a hyphen between two words or dates stays. */
export function withTrueMinus(typed: string): string {
	return typed.replace(/(^|[\s;±(*/+-])-(?=\s*[\d.½¼¾⅛⅜⅝⅞⅓⅔(])/g, '$1−');
}

/** A figure with its unit, in decimals: "2.48 in", "6.27°". */
export function showFigure(value: number, shown: Shown): string {
	return joined(showNumber(value, shown), unitSign(shown.unit.name));
}

/** The same without its unit. */
function showNumber(value: number, shown: Shown): string {
	const inUnit = value / shown.unit.size;
	return signed(inUnit.toFixed(decimalsFor(inUnit, shown)));
}

/**
 * A plain number that has three places is shown to three figures that count, and a whole one as what it is: how
 * large it is says how many places matter, for no unit does. All else has the places of its quantity.
 */
function decimalsFor(inUnit: number, { unit, decimals }: Shown): number {
	if (unit.name !== '' || decimals < 3) return decimals;
	const least = 0.5 * 10 ** -decimals;
	if (Math.abs(inUnit - Math.round(inUnit)) < least) return 0;
	const before = Math.max(0, Math.floor(Math.log10(Math.abs(inUnit))));
	return Math.max(0, decimals - before - (Math.abs(inUnit) >= 1 ? 1 : 0));
}

/** A change of a figure with its sign, in decimals: "+0.25 in", "−1.10°"; "0.00 in" where nothing changes. */
export function showChange(value: number, shown: Shown): string {
	const words = showFigure(value, shown);
	return Number(showNumber(Math.abs(value), shown)) > 0 && value > 0 ? `+${words}` : words;
}

/** A ± with as many decimals as its figure, at least one figure that is not nought. */
export function showPlusMinus(value: number, shown: Shown): string {
	const size = Math.abs(value / shown.unit.size);
	// What is smaller than eight decimals show is rounding, not a ±.
	const decimals =
		size >= 1e-8 && size < 0.5 * 10 ** -shown.decimals
			? Math.ceil(-Math.log10(size))
			: shown.decimals;
	return `± ${joined(size.toFixed(decimals), unitSign(shown.unit.name))}`;
}

/**
 * A reading as its rule would give it: on a rule divided into sixteenths "33 1/2 in" when it stands on
 * one of them, decimals when it does not.
 */
export function showReading(value: number, shown: Shown): string {
	return joined(readingNumber(value, shown), unitSign(shown.unit.name));
}

/** The same without its unit, such as a field holds it. */
export function readingNumber(value: number, shown: Shown): string {
	const inUnit = value / shown.unit.size;
	const { divisions } = shown;
	if (divisions > 0) {
		const parts = inUnit * divisions;
		const whole = Math.round(parts);
		// What a change of units may leave of rounding, and no more: 30000.4 lies on no sixteenth.
		if (Math.abs(parts - whole) < Math.max(1e-6, 1e-12 * Math.abs(parts))) {
			return signed(mixed(whole, divisions));
		}
	}
	// A thousandth at least, so that no reading is lost; no more, so that no conversion noise shows.
	return signed(String(Number(inUnit.toFixed(Math.max(shown.decimals, 3)))));
}

/**
 * A value as a person would type it, for a button that enters it: with three places more than are shown,
 * so that nothing shown changes by writing it down.
 */
export function typedNumber(value: number, shown: Shown): string {
	return readingNumber(value, { ...shown, decimals: shown.decimals + 3 }).replace('−', '-');
}

function mixed(parts: number, divisions: number): string {
	const sign = parts < 0 ? '-' : '';
	const size = Math.abs(parts);
	const whole = Math.floor(size / divisions);
	let above = size % divisions;
	let below = divisions;
	if (above === 0) return sign + whole.toString();
	while (above % 2 === 0 && below % 2 === 0) {
		above /= 2;
		below /= 2;
	}
	const part = `${above.toString()}/${below.toString()}`;
	return sign + (whole === 0 ? part : `${whole.toString()} ${part}`);
}

/** A reading rounded to its rule's nearest division: what a tape would read. */
export function nearestOnRule(value: number, shown: Shown): string {
	if (shown.divisions === 0) return showFigure(value, shown);
	const parts = Math.round((value / shown.unit.size) * shown.divisions);
	return joined(signed(mixed(parts, shown.divisions)), unitSign(shown.unit.name));
}
