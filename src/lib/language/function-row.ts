/** What a row of the function table is, and how a trade function is written as one. */
import { dimensionNamed } from '../units/dimension.ts';
import { typeFits, typeInWords } from './type-words.ts';
import type { RecordField, RecordType, Type, Value } from './types.ts';

export interface WorksheetFunction {
	readonly name: string;
	/** One sentence. */
	readonly about: string;
	/** Where the formula comes from. */
	readonly source: string;
	/** A call of it as a page may write it. */
	readonly example: string;
	readonly parameters: readonly {
		readonly name: string;
		readonly type?: Type;
		readonly about: string;
	}[];
	/** The result's type where it does not hang on what goes in. */
	readonly result?: Type;
	readonly takes: (count: number) => boolean;
	readonly takesInWords: string;
	/**
	 * The result's type for these arguments. `refuse` makes the error for the argument at an index,
	 * given in words what it should have been.
	 */
	readonly resultOf: (
		args: readonly Type[],
		refuse: (index: number, wanted: string) => Error,
	) => Type;
	readonly run: (...args: Value[]) => Value;
}

/** A type together with what its values are in TypeScript, so that a row's `run` is checked. */
export interface Kind<V> {
	readonly type: Type;
	/** Never there; carries V. */
	readonly value?: V;
}

/** A quantity of a named dimension, as a number in SI. */
export function quantity(dimension: string): Kind<number> {
	const found = dimensionNamed(dimension);
	if (!found) throw new Error(`function-row: no dimension “${dimension}”`);
	return { type: { kind: 'quantity', dimension: found } };
}

export function choice<const Option extends string>(...options: Option[]): Kind<Option> {
	return { type: { kind: 'choice', options } };
}

export function list(of: Kind<number>): Kind<readonly number[]> {
	return { type: { kind: 'list', of: of.type } };
}

export const flag: Kind<boolean> = { type: { kind: 'flag' } };

/**
 * A record by its name in the trade, with the fields a formula may read: what each is called there, its
 * key in the value, its kind, one phrase. Keys without a row stay inside the mechanics.
 */
export function record<V extends object>(
	name: string,
	fields: Readonly<
		Record<string, readonly [key: keyof V & string, kind: Kind<unknown>, about: string]>
	>,
): Kind<V> & { readonly type: RecordType } {
	const read: Record<string, RecordField> = {};
	for (const [field, [key, kind, about]] of Object.entries(fields)) {
		read[field] = { key, type: kind.type, about };
	}
	return { type: { kind: 'record', name, fields: read } };
}

type ValueOf<K> = K extends Kind<infer V> ? V : never;
type Parameters = readonly (readonly [name: string, kind: Kind<unknown>, about: string])[];
type ValuesOf<P extends Parameters> = { [Index in keyof P]: ValueOf<P[Index][1]> };

/** A trade function as a row of the table. All its parameters have to be given. */
export function row<const P extends Parameters, V>(written: {
	readonly name: string;
	readonly about: string;
	readonly source: string;
	readonly example: string;
	readonly takes: P;
	readonly gives: Kind<V>;
	readonly run: (...args: ValuesOf<P>) => V;
}): WorksheetFunction {
	const parameters = written.takes.map(([name, kind, about]) => ({ name, type: kind.type, about }));
	const result = written.gives.type;
	return {
		name: written.name,
		about: written.about,
		source: written.source,
		example: written.example,
		parameters,
		result,
		takes: (count) => count === parameters.length,
		takesInWords: `${parameters.length.toString()} ${parameters.length === 1 ? 'value' : 'values'}`,
		resultOf(args, refuse) {
			parameters.forEach(({ type }, index) => {
				const found = args[index];
				if (!found || !typeFits(found, type)) throw refuse(index, typeInWords(type));
			});
			return result;
		},
		// The type check has let through only arguments of the kinds in `takes`.
		run: written.run as unknown as (...args: Value[]) => Value,
	};
}

/**
 * One function that takes lists of either of two dimensions: rows alike but for that, told apart by
 * their first parameter.
 */
export function eitherRow(one: WorksheetFunction, other: WorksheetFunction): WorksheetFunction {
	const { name, about, source, example, takes, takesInWords, run } = one;
	const first = (row: WorksheetFunction): Type | undefined => row.parameters[0]?.type;
	const fits = (row: WorksheetFunction, found: Type | undefined): boolean => {
		const wanted = first(row);
		return found !== undefined && wanted !== undefined && typeFits(found, wanted);
	};
	return {
		name,
		about,
		source,
		example,
		parameters: one.parameters.map((parameter, index) =>
			index === 0 ? { name: parameter.name, about: parameter.about } : parameter,
		),
		takes,
		takesInWords,
		resultOf(args, refuse) {
			const row = [one, other].find((each) => fits(each, args[0]));
			if (row) return row.resultOf(args, refuse);
			const wanted = [one, other].flatMap((each) => first(each) ?? []);
			throw refuse(0, wanted.map(typeInWords).join(' or '));
		},
		run,
	};
}

/** A row of the function table in words. */
export interface FunctionInWords {
	readonly name: string;
	readonly about: string;
	readonly source: string;
	readonly example: string;
	readonly parameters: readonly {
		readonly name: string;
		/** What it has to be; '' where that hangs on the other parameters. */
		readonly type: string;
		readonly about: string;
	}[];
	/** What it gives; undefined where that hangs on what goes in. */
	readonly gives?: string;
	/** The fields of a record it gives. */
	readonly fields: readonly {
		readonly name: string;
		readonly type: string;
		readonly about: string;
	}[];
}
