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
 * @param value the number, SI
 * @param shown the number as it is shown in the sentence, with its unit
 * @throws OutOfRange
 */
export function within(part: string, value: number, low: number, high: number, unit: string): void {
	if (value >= low && value <= high) return;
	const range =
		high === Infinity
			? low === 0 || low === Number.MIN_VALUE
				? 'more than nothing'
				: `at least ${plain(low)} ${unit}`
			: `between ${plain(low)} and ${plain(high)} ${unit}`;
	throw new OutOfRange(
		`${part} is ${plain(value)} ${unit}; it has to be ${range.trim()}. Check that entry.`,
	);
}

/** Refuses anything but a finite number above zero. */
export function positive(part: string, value: number, unit: string): void {
	within(part, value, Number.MIN_VALUE, Infinity, unit);
	finite(part, value);
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
