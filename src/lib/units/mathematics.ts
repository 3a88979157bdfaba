/** mathjs, cut down to its parser and its units. The only file that imports it. */
import {
	create,
	createUnitDependencies,
	parseDependencies,
	unitDependencies,
	type MathNode,
} from 'mathjs';
import type { Dimension } from './dimension.ts';

const mathjs = create({
	...parseDependencies,
	...unitDependencies,
	...createUnitDependencies,
});
mathjs.createUnit('rev', `${2 * Math.PI} rad`);
mathjs.createUnit('rpm', '1 rev/minute');
mathjs.createUnit('mph', '1 mile/hour');
mathjs.createUnit('Mpsi', '1000000 psi');

/** Parses by the mathjs grammar. Throws a SyntaxError with `char`, counted from 1. */
export const parseFormula: (text: string) => MathNode = mathjs.parse;

/** A unit a page may write: its size in SI and its dimension. */
export interface Unit {
	readonly name: string;
	readonly size: number;
	readonly dimension: Dimension;
}

/** The units that may stand in a formula and after a typed number. */
export const unitNames: readonly string[] = [
	...['m', 'cm', 'mm', 'km', 'in', 'inch', 'ft', 'mile'],
	...['rad', 'deg', 'arcmin', 'rev'],
	...['kg', 'g', 'lb', 'lbf', 'N', 'kN'],
	...['s', 'minute', 'hour', 'h', 'Hz', 'rpm', 'mph'],
	...['Pa', 'kPa', 'MPa', 'GPa', 'psi', 'Mpsi', 'W', 'kW', 'hp'],
];

const units = new Map<string, Unit>();
for (const name of unitNames) units.set(name, measured(name));

/** mathjs's own count of dimensions: mass, length, time, current, temperature, light, angle, bit. */
function measured(expression: string): Unit {
	const unit = mathjs.unit(1, expression) as unknown as { value: number; dimensions: number[] };
	const at = (index: number): number => unit.dimensions[index] ?? 0;
	return { name: expression, size: unit.value, dimension: [at(0), at(1), at(2), at(7), 0] };
}

/** The single unit of this name, if a page may write it. */
export function unitNamed(name: string): Unit | undefined {
	return units.get(name);
}

/** A unit made of the known ones, such as `lbf/in`. Undefined when any part of it is not known. */
export function unitOf(expression: string): Unit | undefined {
	const known = units.get(expression);
	if (known) return known;
	const words = expression.match(/[A-Za-z]+/g) ?? [];
	if (words.length === 0 || !words.every((word) => units.has(word))) return undefined;
	if (!/^[A-Za-z0-9/*^ ().-]+$/.test(expression)) return undefined;
	try {
		const unit = measured(expression);
		units.set(expression, unit);
		return unit;
	} catch {
		return undefined;
	}
}
