/**
 * The units a page may write: each with its size in SI as an exact number wherever it is exactly defined,
 * its dimension and its source. Units made of them, such as `lbf/in`, are put together here.
 */
import {
	angle,
	dimensionToPower,
	force,
	frequency,
	length,
	mass,
	plainNumber,
	power,
	pressure,
	speed,
	time,
	timesDimension,
	turningSpeed,
	type Dimension,
} from './dimension.ts';

/** A unit: its size in SI and its dimension. */
export interface Unit {
	readonly name: string;
	readonly size: number;
	readonly dimension: Dimension;
}

/** NIST Special Publication 811 (2008): tables 1 to 5 for SI, appendix B for all else. */
const table: readonly (readonly [dimension: Dimension, sizes: Readonly<Record<string, number>>])[] =
	[
		[length, { m: 1, cm: 0.01, mm: 0.001, km: 1000 }],
		// B.6: the inch is 25.4 mm, exactly; 12 inches a foot, 5280 feet a mile.
		[length, { in: 0.0254, inch: 0.0254, ft: 0.3048, mile: 1609.344 }],
		// Table 6: 180 degrees are pi radians; 60 minutes a degree.
		[angle, { rad: 1, deg: Math.PI / 180, arcmin: Math.PI / 10800, rev: 2 * Math.PI }],
		// B.8: the avoirdupois pound, exactly.
		[mass, { kg: 1, g: 0.001, lb: 0.45359237 }],
		// B.8: the pound times the standard acceleration 9.80665 m/s², exactly.
		[force, { lbf: 4.4482216152605, N: 1, kN: 1000 }],
		[time, { s: 1, minute: 60, hour: 3600, h: 3600 }],
		[frequency, { Hz: 1 }],
		[turningSpeed, { rpm: (2 * Math.PI) / 60 }],
		// B.8: 1609.344 m in 3600 s.
		[speed, { mph: 0.44704 }],
		[pressure, { Pa: 1, kPa: 1e3, MPa: 1e6, GPa: 1e9 }],
		// B.8: a pound-force on a square inch, in the ten figures that mathjs keeps, 6e-11 of it low.
		[pressure, { psi: 6894.75729276459, Mpsi: 6894757292.764589 }],
		[power, { W: 1, kW: 1000 }],
		// B.8: 550 foot-pounds-force a second, in the ten figures that mathjs keeps, 6e-11 of it low.
		[power, { hp: 745.6998715386 }],
	];

const units = new Map<string, Unit>();
for (const [dimension, sizes] of table) {
	for (const [name, size] of Object.entries(sizes)) units.set(name, { name, size, dimension });
}

/** The units that may stand in a formula and after a typed number. */
export const unitNames: readonly string[] = [...units.keys()];

/** Units put together before, by how they are written; undefined for what is none. */
const made = new Map<string, Unit | undefined>();

/** The single unit of this name, if a page may write it. */
export function unitNamed(name: string): Unit | undefined {
	return units.get(name);
}

/**
 * A unit, or one made of known ones: `lbf/in`, `N m/deg`, `kg/m^3`, `1/(m s)`. A slash goes before one unit
 * or one bracket; what stands side by side is multiplied. Undefined when any part of it is not known.
 */
export function unitOf(expression: string): Unit | undefined {
	const known = units.get(expression);
	if (known) return known;
	if (!made.has(expression)) made.set(expression, composed(expression));
	return made.get(expression);
}

/** One unit with its power, and the signs and brackets around it. */
const factor = /\s*([*/]?)\s*(\(?)\s*([A-Za-z]+)\s*(?:\^\s*(-?\d+(?:\.\d+)?))?\s*(\)?)/y;

function composed(name: string): Unit | undefined {
	const text = name.replace(/^\s*1\s*(?=\/)/, '').trim();
	let size = 1;
	let dimension = plainNumber;
	/** What the bracket that is open stands under, or undefined where none is open. */
	let bracket: number | undefined;
	factor.lastIndex = 0;
	for (let from = 0; from < text.length; from = factor.lastIndex) {
		const match = factor.exec(text);
		const unit = units.get(match?.[3] ?? '');
		if (!match || !unit) return undefined;
		const [, sign, opens, , raised = '1', closes] = match;
		// A factor may begin with a sign only after another, or with a slash after the 1.
		if (sign && from === 0 && text === name.trim()) return undefined;
		let exponent = sign === '/' ? -1 : 1;
		if (opens) {
			if (bracket !== undefined) return undefined;
			bracket = exponent;
			exponent = 1;
		}
		exponent *= (bracket ?? 1) * Number(raised);
		if (closes) {
			if (bracket === undefined) return undefined;
			bracket = undefined;
		}
		// Powers one after another, as mathjs multiplies them, so that both agree to the last bit.
		size *= unit.size ** exponent;
		dimension = timesDimension(dimension, dimensionToPower(unit.dimension, exponent));
	}
	return bracket === undefined && text !== '' ? { name, size, dimension } : undefined;
}
