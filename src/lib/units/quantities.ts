/**
 * The quantities a workbook asks for and shows: each a dimension with a unit, a step and a number of
 * decimals in either system of units. They are set in workbook.yaml, in one place.
 */
import { sameDimension, type Dimension } from './dimension.ts';
import { unitOf, type Unit } from './units.ts';

export const unitSystems = ['inch-pound', 'metric'] as const;
export type UnitSystem = (typeof unitSystems)[number];

/** How a quantity is asked for and shown in one system. */
export interface Shown {
	readonly unit: Unit;
	/** What one press of a step button adds, SI. */
	readonly step: number;
	readonly decimals: number;
	/** Parts of the unit a rule is divided into (16 on a tape in inches), 0 for decimals only. */
	readonly divisions: number;
}

export interface Quantity {
	readonly name: string;
	readonly dimension: Dimension;
	readonly shown: Readonly<Record<UnitSystem, Shown>>;
}

export type Quantities = ReadonlyMap<string, Quantity>;

/** The first quantity of this dimension, in the order of workbook.yaml. */
function quantityOf(quantities: Quantities, dimension: Dimension): Quantity | undefined {
	for (const quantity of quantities.values()) {
		if (sameDimension(quantity.dimension, dimension)) return quantity;
	}
	return undefined;
}

/** How a value of this dimension is shown when no page said otherwise. */
export function shownAs(
	quantities: Quantities,
	dimension: Dimension,
	system: UnitSystem,
	shownIn?: Unit,
): Shown {
	const quantity = quantityOf(quantities, dimension);
	const usual = quantity?.shown[system];
	if (shownIn && usual?.unit.name !== shownIn.name) {
		return { unit: shownIn, step: shownIn.size, decimals: 3, divisions: 0 };
	}
	return usual ?? { unit: coherentUnit(dimension), step: 1, decimals: 4, divisions: 0 };
}

/** The SI unit of a dimension, written out. */
function coherentUnit(dimension: Dimension): Unit {
	const bases = ['kg', 'm', 's', 'rad', 'money'];
	const part = (sign: 1 | -1): string =>
		bases
			.map((base, index) => {
				const size = (dimension[index] ?? 0) * sign;
				if (size <= 0) return '';
				return size === 1 ? base : `${base}^${size.toString()}`;
			})
			.filter(Boolean)
			.join(' ');
	const above = part(1);
	const below = part(-1);
	const name = below ? `${above || '1'}/${below.includes(' ') ? `(${below})` : below}` : above;
	return (name && unitOf(name)) || { name, size: 1, dimension };
}
