/**
 * What the stages of the worksheet hand to one another:
 * text of a page → cells → formulas → checked, ordered, compiled graph → figures.
 */
import type { Dimension } from '../units/dimension.ts';

/** What an expression is, known before any number is. */
export type Type =
	| { readonly kind: 'quantity'; readonly dimension: Dimension }
	| { readonly kind: 'choice'; readonly options: readonly string[] }
	| { readonly kind: 'flag' }
	| { readonly kind: 'text' }
	| { readonly kind: 'date' }
	| { readonly kind: 'list'; readonly of: Type }
	| RecordType;

/** A record with named fields, such as a spring at rest. Two records are alike when their names are. */
export interface RecordType {
	readonly kind: 'record';
	/** In the trade's words: "spring at rest". */
	readonly name: string;
	readonly fields: Readonly<Record<string, RecordField>>;
}

export interface RecordField {
	/** Its key in the value. */
	readonly key: string;
	readonly type: Type;
	readonly about: string;
}

/** A value while running: plain numbers in SI, choices and texts as strings, dates as yyyy-mm-dd. */
export type Value = number | string | boolean | readonly Value[] | RecordValue;

export interface RecordValue {
	readonly [key: string]: Value;
}

/** Something wrong with a page, for whoever writes pages. Lines and columns count from 1. */
export interface Problem {
	readonly message: string;
	readonly page: string;
	/** The cell's kind and name, "" for the page as a whole. */
	readonly cell: string;
	readonly line: number;
	readonly column: number;
}

/** A piece of a page's text and where it begins. */
export interface SourceText {
	readonly text: string;
	/** Of the first character, from 1. */
	readonly line: number;
	readonly column: number;
}

/** Something one cell gives to the whole workbook under a name. */
export interface Given {
	readonly name: string;
	readonly label: string;
	/** Where the name stands. */
	readonly at: SourceText;
	/**
	 * An input has a type from its cell, and perhaps a formula for what it starts as; a derivation has a
	 * formula that its type follows from.
	 */
	readonly type?: Type;
	readonly formula?: SourceText;
}

/** A formula whose result only the cell itself uses: the condition of a check, the end of a band. */
export interface Asked {
	/** One in the workbook: the cell's name, a slash, and a number. */
	readonly id: string;
	readonly formula: SourceText;
	/** What the cell can use. */
	readonly expects: 'flag' | 'quantity';
	/** Where given, the result has the dimension of this name, or of the formula with this id. */
	readonly like?: string;
}

/** A name a cell refers to outside a formula: what a chart sweeps and draws, a figure in prose. */
export interface Mention {
	readonly name: string;
	readonly at: SourceText;
	/**
	 * What it has to be: any name; a quantity; an input that asks for one; an entry, which is any input;
	 * the sizes another input is to take, which is a list; a record; or a cell by its own name.
	 */
	readonly must:
		'any' | 'quantity' | 'input' | 'entry' | 'sizes' | 'record' | 'check' | 'chart' | 'ways';
	/** For sizes: the input that is to take them. For a record: what kind of record. */
	readonly like?: string;
}

/** What every cell has, whatever its kind. */
export interface CellBase {
	readonly kind: string;
	/** One in the workbook; for a derivation its first name. */
	readonly name: string;
	readonly page: string;
	/** Line of its opening fence. */
	readonly line: number;
	readonly gives: readonly Given[];
	readonly asks: readonly Asked[];
	readonly mentions: readonly Mention[];
}

/** A fenced block of a page, not yet read. */
export interface Block {
	readonly kind: string;
	readonly page: string;
	/** What stands between the fences. `column` is 1. */
	readonly body: SourceText;
	/** Which cell of its page it is, from 1: names cells that have no name of their own. */
	readonly number: number;
}
