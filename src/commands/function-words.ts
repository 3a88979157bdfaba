/** The words of function rows as data: what `/functions/` shows. */
import type { FunctionInWords } from '../lib/language/function-row.ts';
import { functionTableOf } from '../lib/language/functions.ts';
import { typeInWords } from '../lib/language/type-words.ts';
import { lowering } from '../lib/trade/lowering.ts';
import type { Type } from '../lib/language/types.ts';

/** Every function, plain mathematics first. */
export function functionsInWords(): FunctionInWords[] {
	return [...functionTableOf(lowering.functions).values()].map((row) => ({
		name: row.name,
		about: row.about,
		source: row.source,
		example: row.example,
		parameters: row.parameters.map(({ name, type, about }) => ({
			name,
			type: type ? typeInWords(type) : '',
			about,
		})),
		...(row.result && { gives: typeInWords(row.result) }),
		fields: fieldsOf(row.result),
	}));
}

function fieldsOf(type: Type | undefined): FunctionInWords['fields'] {
	if (type?.kind !== 'record') return [];
	return Object.entries(type.fields).map(([name, { type: of, about }]) => ({
		name,
		type: typeInWords(of),
		about,
	}));
}
