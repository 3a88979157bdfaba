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
 * @param value the number, in the unit of the sentence, as are `low` and `high`
 */
export function within(part: string, value: number, low: number, high: number, unit: string): void {
	if (value >= low && value <= high) return;
	throw new OutOfRange(
		`${part} is ${plain(value)} ${unit}; it has to be between ${plain(low)} and ${plain(high)} ${unit}. Check that entry.`,
	);
}

/** The same for an angle in radians; the sentence gives degrees. */
export function withinAngle(part: string, angle: number, low: number, high: number): void {
	const degrees = 180 / Math.PI;
	within(part, angle * degrees, low * degrees, high * degrees, 'degrees');
}

/** Refuses anything but a finite number above zero. */
export function positive(part: string, value: number, unit: string): void {
	finite(part, value);
	if (value > 0) return;
	throw new OutOfRange(
		`${part} is ${plain(value)} ${unit}; it has to be more than nothing. Check that entry.`,
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
