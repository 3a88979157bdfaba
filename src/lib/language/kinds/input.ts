/** `input`: one asked-for value. */
import { z } from 'zod';
import { angle, sameDimension } from '../../units/dimension.ts';
import type { Quantities, Quantity } from '../../units/quantities.ts';
import { problemInBlock } from '../problem.ts';
import type { Block, CellBase, Problem, Type, Value } from '../types.ts';
import type { YamlFound } from '../yaml.ts';
import {
	amountShape,
	mentionIn,
	nameShape,
	nameTaken,
	problemInField,
	writtenAmount,
	writtenRange,
	type KindReader,
	readBlock,
} from './reader.ts';

/**
 * What a gauge lies on where an angle is read off its dial: a face square to the shaft whose slope is
 * wanted, something along it, or a part whose lean from upright is wanted.
 */
const dials = ['face', 'along', 'lean'] as const;
export type Dial = (typeof dials)[number];

const shape = z.strictObject({
	name: nameShape,
	label: z.string().min(1),
	/** How to take the measurement. */
	how: z.string().optional(),
	/** A quantity of workbook.yaml. Left out for a choice, a text or a date. */
	quantity: z.string().optional(),
	/** More than one reading of the quantity, typed with commas or line breaks between. */
	several: z.enum(['readings', 'sizes']).optional(),
	choices: z.record(z.string(), z.string()).optional(),
	text: z.literal(true).optional(),
	date: z.literal(true).optional(),
	default: z.union([z.string(), z.number(), z.array(z.union([z.string(), z.number()]))]).optional(),
	plus_minus: amountShape.optional(),
	/** ± of what is assumed until somebody enters it: of the default, or of what it starts as. */
	assumed_plus_minus: amountShape.optional(),
	/** What of the ± comes anew with every reading; the rest lies in the face and the gauge. */
	repeat: amountShape.optional(),
	/** ± of a careful second reading: both ways round, three times over. */
	again: amountShape.optional(),
	/** Where it is taken, unless from beside the truck: from under it, or with it on stands. */
	taken: z.enum(['under', 'stands']).optional(),
	/** The input that is read on the same face with the same gauge: that part of the ± is one for both. */
	same_face_as: nameShape.optional(),
	/** A name whose value it has until it is entered: a part fitted is the part planned. */
	starts_as: nameShape.optional(),
	sensible: z.string().optional(),
	limits: z.string().optional(),
	dial: z.enum(dials).optional(),
	/** The lists of readings of this place: the gauge one way, and turned end for end. */
	both_ways: z.tuple([nameShape, nameShape]).optional(),
	/** What a part does is zero when it stays stock; a measurement is never assumed so. */
	part: z.boolean().optional(),
	/** A figure that can be taken over as the entry, such as the mean of readings. */
	offer: nameShape.optional(),
});

export interface Range {
	readonly low: number;
	readonly high: number;
}

interface InputBase extends CellBase {
	readonly kind: 'input';
	readonly label: string;
	readonly how: string;
	readonly type: Type;
	readonly default?: Value;
	/** Something the job changes, rather than something measured. */
	readonly part: boolean;
	/** The name whose value it has until it is entered. */
	readonly startsAs?: string;
	/** A figure that can be taken over as the entry. The entry does not hang on it. */
	readonly offer?: string;
	/** The lists that its offer comes from: read one way, and turned end for end. */
	readonly bothWays?: readonly [string, string];
}

export type InputCell = InputBase &
	(
		| {
				readonly asks_for: 'quantity' | 'list';
				readonly quantity: Quantity;
				/** ± of one entry, SI, at the coverage all ± of the workbook share. */
				readonly plusMinus: number;
				/** What of it comes anew with every reading, SI; the rest lies in the face and the gauge. */
				readonly repeat?: number;
				/** ± of a careful second reading, SI. */
				readonly again?: number;
				/** Where it is taken, unless from beside the truck: from under it, or with it on stands. */
				readonly taken?: 'under' | 'stands';
				/** The input whose face and gauge it shares. */
				readonly sameFaceAs?: string;
				/** ± of the value in force while nobody entered one, SI: of a default, or beside that of what it starts as. */
				readonly assumedPlusMinus?: number;
				readonly sensible?: Range;
				readonly limits?: Range;
				readonly dial?: Dial;
		  }
		| { readonly asks_for: 'choice'; readonly choices: Readonly<Record<string, string>> }
		| { readonly asks_for: 'text' | 'date' }
	);

type Written = z.infer<typeof shape>;

/** What the ways to ask for something share: the input as written, its base, and where mistakes go. */
interface Asking {
	readonly written: Written;
	readonly base: (type: Type, value: Value | undefined) => InputBase;
	readonly say: (message: string, field: string) => void;
}

export const readInput: KindReader<InputCell> = (block, { quantities }) => {
	const found = readBlock(shape, block);
	if (!found.value) return { problems: found.problems };
	const written = found.value;
	const problems: Problem[] = [];
	const say = (message: string, field: string): void => {
		problems.push({ ...problemInField(message, block, field), cell: `input ${written.name}` });
	};
	const taken = nameTaken(written.name);
	if (taken) say(taken, 'name');

	const ways = (['quantity', 'choices', 'text', 'date'] as const).filter(
		(way) => written[way] !== undefined,
	);
	const [way] = ways;
	if (ways.length !== 1 || !way) {
		const message =
			'An input asks for one thing: give it “quantity”, “choices”, “text: true” or “date: true”, and only one of them.';
		return { problems: [...problems, problemInBlock(message, block)] };
	}
	if (written.offer !== undefined && (way !== 'quantity' || written.several)) {
		say('Only an input that asks for one quantity can have an “offer”.', 'offer');
	}
	if (written.starts_as !== undefined && written.default !== undefined) {
		say('An input has a “default” or “starts_as”, not both.', 'starts_as');
	}
	const base = (type: Type, value: Value | undefined): InputBase =>
		baseOf(written, type, value, block, found);
	const asking: Asking = { written, base, say };
	const cell =
		way === 'choices'
			? askForChoice(asking)
			: way === 'quantity'
				? askForQuantity(asking, quantities)
				: askForWords(asking, way);
	return cell && problems.length === 0 ? { cell, problems } : { problems };
};

function baseOf(
	written: Written,
	type: Type,
	value: Value | undefined,
	{ page, body }: Block,
	found: YamlFound<unknown>,
): InputBase {
	const mention = mentionIn(found);
	return {
		kind: 'input',
		name: written.name,
		page,
		line: body.line - 1,
		label: written.label,
		how: written.how ?? '',
		type,
		part: written.part ?? false,
		...(value !== undefined && { default: value }),
		gives: [
			{
				name: written.name,
				label: written.label,
				at: found.place(['name']),
				type,
				...(written.starts_as !== undefined && {
					formula: { ...found.place(['starts_as']), text: written.starts_as },
				}),
			},
		],
		asks: [],
		mentions: [
			...(written.offer === undefined ? [] : [mention(['offer'], written.offer, 'quantity')]),
			...(written.both_ways ?? []).map((name, index) =>
				mention(['both_ways', index], name, 'entry'),
			),
			...(written.same_face_as === undefined
				? []
				: [mention(['same_face_as'], written.same_face_as, 'input')]),
		],
		...(written.offer !== undefined && { offer: written.offer }),
		...(written.both_ways !== undefined && { bothWays: written.both_ways }),
		...(written.starts_as !== undefined && { startsAs: written.starts_as }),
	};
}

function askForChoice({ written, base, say }: Asking): InputCell {
	const choices = written.choices ?? {};
	const options = Object.keys(choices);
	if (options.length < 2) say('A choice needs two options or more.', 'choices');
	const value = written.default === undefined ? undefined : String(written.default);
	if (value !== undefined && !options.includes(value)) {
		say(`“default: ${value}” is not one of the choices ${options.join(', ')}.`, 'default');
	}
	return { ...base({ kind: 'choice', options }, value), asks_for: 'choice', choices };
}

function askForWords({ written, base, say }: Asking, way: 'text' | 'date'): InputCell {
	const value = written.default === undefined ? undefined : String(written.default);
	if (way === 'date' && value !== undefined && !/^\d{4}-\d{2}-\d{2}$/.test(value)) {
		say(`“default: ${value}” is not a date; write it as year-month-day.`, 'default');
	}
	return { ...base({ kind: way }, value), asks_for: way };
}

function askForQuantity(asking: Asking, quantities: Quantities): InputCell | undefined {
	const { written, base, say } = asking;
	const quantity = quantities.get(written.quantity ?? '');
	if (!quantity) {
		say(
			`“${String(written.quantity)}” is not a quantity of this workbook. workbook.yaml has ${[...quantities.keys()].join(', ')}.`,
			'quantity',
		);
		return undefined;
	}
	const amount = (text: string, field: string): number | undefined => {
		const read = writtenAmount(text, quantity, field);
		if ('value' in read) return read.value;
		say(read.problem, field);
		return undefined;
	};
	const range = (field: 'sensible' | 'limits'): Range | undefined => {
		const text = written[field];
		if (text === undefined) return undefined;
		const read = writtenRange(text, quantity, field);
		if (!('problem' in read)) return read;
		say(read.problem, field);
		return undefined;
	};
	const sensible = range('sensible');
	const limits = range('limits');
	if (sensible && limits && (sensible.low < limits.low || sensible.high > limits.high)) {
		say('The sensible range reaches beyond the limits; widen the limits or narrow it.', 'sensible');
	}
	const plusMinus =
		written.plus_minus === undefined ? 0 : (amount(written.plus_minus, 'plus_minus') ?? 0);
	if (plusMinus < 0) say('“plus_minus” is a size; write it without a sign.', 'plus_minus');
	if (written.dial !== undefined && !sameDimension(quantity.dimension, angle)) {
		say('Only an angle is read off the “dial” of a gauge.', 'dial');
	}
	const value = defaultOf(asking, amount, limits);
	const assumedPlusMinus = assumedOf(asking, amount);
	const repeat = repeatOf(asking, amount, plusMinus);
	const again = written.again === undefined ? undefined : amount(written.again, 'again');
	if (again !== undefined && !(again > 0 && again < plusMinus)) {
		say('“again” is what is left of “plus_minus”; it is more than nought, and less.', 'again');
	}
	const type: Type = { kind: 'quantity', dimension: quantity.dimension };
	return {
		...base(written.several ? { kind: 'list', of: type } : type, value),
		asks_for: written.several ? 'list' : 'quantity',
		quantity,
		plusMinus,
		...(repeat !== undefined && { repeat }),
		...(again !== undefined && { again }),
		...(written.taken !== undefined && { taken: written.taken }),
		...(written.same_face_as !== undefined && { sameFaceAs: written.same_face_as }),
		...(assumedPlusMinus !== undefined && { assumedPlusMinus }),
		...(sensible && { sensible }),
		...(limits && { limits }),
		...(written.dial !== undefined && { dial: written.dial }),
	};
}

type Amount = (text: string, field: string) => number | undefined;

/** The ± of what is assumed. */
function assumedOf({ written, say }: Asking, amount: Amount): number | undefined {
	if (written.assumed_plus_minus === undefined) return undefined;
	const size = amount(written.assumed_plus_minus, 'assumed_plus_minus');
	if (written.default === undefined && written.starts_as === undefined) {
		say(
			'“assumed_plus_minus” is of a “default” or of what it “starts_as”; give it one.',
			'assumed_plus_minus',
		);
	}
	if (size !== undefined && size < 0) {
		say('“assumed_plus_minus” is a size; write it without a sign.', 'assumed_plus_minus');
	}
	return size;
}

/** The part of a reading's ± that comes anew every time. */
function repeatOf({ written, say }: Asking, amount: Amount, plusMinus: number): number | undefined {
	if (written.repeat === undefined) {
		if (written.same_face_as !== undefined) {
			say(
				'“same_face_as” tells whose face is shared; say with “repeat” what is not.',
				'same_face_as',
			);
		}
		return undefined;
	}
	const repeat = amount(written.repeat, 'repeat');
	if (repeat !== undefined && !(repeat >= 0 && repeat <= plusMinus)) {
		say('“repeat” is a part of “plus_minus”; it is not negative and not larger.', 'repeat');
	}
	return repeat;
}

/** The default of a quantity, or of a list of them. */
function defaultOf(
	{ written, say }: Asking,
	amount: (text: string, field: string) => number | undefined,
	limits: Range | undefined,
): Value | undefined {
	let value: Value | undefined;
	if (Array.isArray(written.default)) {
		if (!written.several) say('Only an input with “several” has a list as its default.', 'default');
		value = written.default.map((text) => amount(String(text), 'default') ?? 0);
	} else if (written.default !== undefined) {
		const single = amount(String(written.default), 'default');
		value = written.several && single !== undefined ? [single] : single;
	}
	for (const each of Array.isArray(value) ? value : [value]) {
		if (typeof each === 'number' && limits && (each < limits.low || each > limits.high)) {
			say('The default lies outside the limits.', 'default');
		}
	}
	return value;
}
