/**
 * What every function of the mechanics throws when it cannot answer: a sentence for the person at
 * the truck that names the part, the number found, what was expected and what to do.
 */
export class OutOfRange extends Error {
	override name = 'OutOfRange';
}

/**
 * Refuses a number that is not finite or not within [low, high].
 * @param part what the number measures, as a person would say it: "The shackle"
 * @param value the number, in `unit`, as are `low` and `high`
 * @param unit of the sentence; it gives metres as millimetres and inches, and radians as degrees
 */
export function within(part: string, value: number, low: number, high: number, unit: string): void {
	if (value >= low && value <= high) return;
	const least = unit === 'm' || unit === 'rad' ? inUnit(low, unit) : plain(low);
	throw new OutOfRange(
		`${part} is ${inUnit(value, unit)}; it has to be between ${least} and ${inUnit(high, unit)}. Check that entry.`,
	);
}

/** A number with its unit for a sentence: lengths and angles as the trade reads them. */
function inUnit(value: number, unit: string): string {
	if (unit === 'm') return plainLength(value);
	if (unit === 'rad') return plainAngle(value);
	return `${plain(value)} ${unit}`;
}

/** Refuses anything but a finite number above zero. */
export function positive(part: string, value: number, unit: string): void {
	finite(part, value);
	if (value > 0) return;
	throw new OutOfRange(
		`${part} is ${inUnit(value, unit)}; it has to be more than nothing. Check that entry.`,
	);
}

/** Refuses NaN and the infinities. */
export function finite(part: string, value: number): void {
	if (!Number.isFinite(value)) {
		throw new OutOfRange(`${part} is not a finite number. Check the entries it comes from.`);
	}
}

/** A number for a sentence: four figures, no trailing zeros. */
export function plain(value: number): string {
	if (!Number.isFinite(value)) return String(value);
	return String(Number(value.toPrecision(4)));
}

/** A length in both units of the trade, for sentences: "127 mm (5 in)". */
export function plainLength(metres: number): string {
	return `${plain(metres * 1000)} mm (${plain(metres / 0.0254)} in)`;
}

/** An angle for sentences, in degrees. */
export function plainAngle(radians: number): string {
	return `${plain((radians * 180) / Math.PI)}°`;
}
