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
	const least = unit === 'rad' || isInBoth(unit) ? inUnit(low, unit) : plain(low);
	throw new OutOfRange(
		`${part} is ${inUnit(value, unit)}; it has to be between ${least} and ${inUnit(high, unit)}. Check that entry.`,
	);
}

/** A number with its unit for a sentence: as the trade reads it. */
function inUnit(value: number, unit: string): string {
	if (isInBoth(unit)) return plainInBoth(value, unit);
	if (unit === 'rad') return plainAngle(value);
	return `${plain(value)} ${unit}`;
}

const newtonsOfPound = 4.4482216152605;

/** What the trade reads an SI unit in, either way: how many of it make one, and its name. NIST SP 811. */
const bothUnits = {
	m: [1000, 'mm', 1 / 0.0254, 'in'],
	N: [1, 'N', 1 / newtonsOfPound, 'lbf'],
	'N/m': [0.001, 'N/mm', 0.0254 / newtonsOfPound, 'lbf/in'],
	'N·m': [1, 'N·m', 1 / (0.3048 * newtonsOfPound), 'lbf ft'],
} as const;

function isInBoth(unit: string): unit is keyof typeof bothUnits {
	return Object.hasOwn(bothUnits, unit);
}

/** An amount in both systems of the trade, for sentences: "127 mm (5 in)", "2224 N (500 lbf)". */
export function plainInBoth(value: number, unit: keyof typeof bothUnits): string {
	const [metricSize, metric, inchSize, inch] = bothUnits[unit];
	return `${plain(value * metricSize)} ${metric} (${plain(value * inchSize)} ${inch})`;
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
	return plainInBoth(metres, 'm');
}

/** An angle for sentences, in degrees. */
export function plainAngle(radians: number): string {
	return `${plain((radians * 180) / Math.PI)}°`;
}
