/**
 * What a formula may call: plain mathematics, which is here, and the rows of the trade that the reader is
 * given. The reference page people read is made from the same table.
 */
import {
	angle,
	dimensionToPower,
	isPlainNumber,
	plainNumber,
	sameDimension,
	type Dimension,
} from '../units/dimension.ts';
import { OutOfRange } from '../mechanics/out-of-range.ts';
import type { WorksheetFunction } from './function-row.ts';
import type { Type, Value } from './types.ts';

type Refuse = Parameters<WorksheetFunction['resultOf']>[1];

const number: Type = { kind: 'quantity', dimension: plainNumber };
const anAngle: Type = { kind: 'quantity', dimension: angle };

/** One row of plain mathematics. Its name is the beginning of its example. */
function mathematics(
	example: string,
	parameters: readonly string[],
	about: string,
	resultOf: (args: readonly Type[], refuse: Refuse) => Type,
	run: (...args: never[]) => number,
	least = parameters.length,
	most = parameters.length,
): WorksheetFunction {
	return {
		name: example.slice(0, example.indexOf('(')),
		about,
		source: 'plain mathematics',
		example,
		parameters: parameters.map((parameter) => ({ name: parameter, about: '' })),
		takes: (count) => count >= least && count <= most,
		takesInWords:
			most === Infinity
				? `${least.toString()} or more values`
				: least === most
					? `${least.toString()} ${least === 1 ? 'value' : 'values'}`
					: `${least.toString()} to ${most.toString()} values`,
		resultOf,
		run: run as (...args: Value[]) => Value,
	};
}

function dimensionOf(args: readonly Type[], index: number, refuse: Refuse): Dimension {
	const type = args[index];
	if (type?.kind !== 'quantity') throw refuse(index, 'quantity');
	return type.dimension;
}

/** All of one dimension; the result too. */
const alike = (args: readonly Type[], refuse: Refuse): Type => {
	const dimension = dimensionOf(args, 0, refuse);
	args.forEach((type, index) => {
		if (type.kind !== 'quantity' || !sameDimension(type.dimension, dimension)) {
			throw refuse(index, `quantity like the first one`);
		}
	});
	return { kind: 'quantity', dimension };
};

const fromTo =
	(wanted: Dimension, word: string, result: Type) =>
	(args: readonly Type[], refuse: Refuse): Type => {
		args.forEach((_, index) => {
			if (!sameDimension(dimensionOf(args, index, refuse), wanted)) throw refuse(index, word);
		});
		return result;
	};
const angleToNumber = fromTo(angle, 'angle', number);
const numberToAngle = fromTo(plainNumber, 'number', anAngle);
const numberToNumber = fromTo(plainNumber, 'number', number);

/** A rounding to whole numbers, or to whole steps of a second value. */
const rounding =
	(round: (value: number) => number) =>
	(value: number, step = 1): number =>
		round(value / step) * step;
const roundingResult = (args: readonly Type[], refuse: Refuse): Type => {
	if (args.length === 1 && !isPlainNumber(dimensionOf(args, 0, refuse))) {
		throw refuse(0, 'number, or be followed by the step to round to,');
	}
	return alike(args, refuse);
};

/**
 * The size whose amount is nearest to that of a value, with the value's sign.
 * @throws OutOfRange for a list without sizes
 */
function nearestSize(sizes: readonly number[], value: number): number {
	const [first] = sizes;
	if (first === undefined) {
		throw new OutOfRange('The list of sizes is empty. Enter the sizes there are to choose from.');
	}
	const off = (size: number): number => Math.abs(Math.abs(size) - Math.abs(value));
	const best = Math.abs(
		sizes.reduce((found, size) => (off(size) < off(found) ? size : found), first),
	);
	return value < 0 && best > 0 ? -best : best;
}
const sizeResult = (args: readonly Type[], refuse: Refuse): Type => {
	const [sizes, value] = args;
	if (sizes?.kind !== 'list' || sizes.of.kind !== 'quantity') throw refuse(0, 'list of sizes');
	if (value?.kind !== 'quantity' || !sameDimension(value.dimension, sizes.of.dimension)) {
		throw refuse(1, 'quantity like the sizes');
	}
	return value;
};

const plain: readonly WorksheetFunction[] = [
	mathematics('abs(-2 in)', ['value'], 'The value without its sign.', alike, Math.abs),
	mathematics(
		'sign(-2 in)',
		['value'],
		'1, 0 or −1.',
		(args, refuse) => {
			dimensionOf(args, 0, refuse);
			return number;
		},
		Math.sign,
	),
	mathematics(
		'min(2 in, 40 mm)',
		['value'],
		'The smallest of several alike.',
		alike,
		Math.min,
		1,
		Infinity,
	),
	mathematics(
		'max(2 in, 40 mm)',
		['value'],
		'The largest of several alike.',
		alike,
		Math.max,
		1,
		Infinity,
	),
	mathematics(
		'hypot(3 in, 4 in)',
		['value'],
		'Root of the sum of squares.',
		alike,
		Math.hypot,
		1,
		Infinity,
	),
	mathematics(
		'sqrt(9 in^2)',
		['value'],
		'Square root.',
		(args, refuse) => ({
			kind: 'quantity',
			dimension: dimensionToPower(dimensionOf(args, 0, refuse), 0.5),
		}),
		Math.sqrt,
	),
	mathematics(
		'round(2.3 in, 1/16 in)',
		['value', 'step'],
		'To the nearest whole number, or whole step.',
		roundingResult,
		rounding(Math.round),
		1,
		2,
	),
	mathematics(
		'floor(2.7)',
		['value', 'step'],
		'Down to a whole number, or whole step.',
		roundingResult,
		rounding(Math.floor),
		1,
		2,
	),
	mathematics(
		'ceil(2.3)',
		['value', 'step'],
		'Up to a whole number, or whole step.',
		roundingResult,
		rounding(Math.ceil),
		1,
		2,
	),
	mathematics(
		'nearest_size(lengths, 0.84 m)',
		['sizes', 'value'],
		'The nearest of a list of sizes, with the sign of the value: a size serves either way round.',
		sizeResult,
		nearestSize,
	),
	mathematics('sin(30 deg)', ['angle'], 'Sine.', angleToNumber, Math.sin),
	mathematics('cos(60 deg)', ['angle'], 'Cosine.', angleToNumber, Math.cos),
	mathematics('tan(45 deg)', ['angle'], 'Tangent.', angleToNumber, Math.tan),
	mathematics('asin(0.5)', ['ratio'], 'Angle of this sine.', numberToAngle, Math.asin),
	mathematics('acos(0.5)', ['ratio'], 'Angle of this cosine.', numberToAngle, Math.acos),
	mathematics('atan(1)', ['ratio'], 'Angle of this tangent.', numberToAngle, Math.atan),
	mathematics(
		'atan2(1 in, 12 in)',
		['up', 'along'],
		'Angle of the slope up over along, all the way round.',
		(args, refuse) => {
			alike(args, refuse);
			return anAngle;
		},
		Math.atan2,
	),
	mathematics('exp(1)', ['value'], 'e to this power.', numberToNumber, Math.exp),
	mathematics('log(10)', ['value'], 'Natural logarithm.', numberToNumber, Math.log),
];

/** Every function by its name, plain mathematics first. */
export type FunctionTable = ReadonlyMap<string, WorksheetFunction>;

/** Plain mathematics and the rows of a trade. */
export function functionTableOf(rows: readonly WorksheetFunction[]): FunctionTable {
	return new Map([...plain, ...rows].map((row) => [row.name, row]));
}
