/** What is said between the page and the worker that searches. Plain data: it is copied on its way. */
import type { SearchAnswer } from '../search.ts';
import type { Packed } from '../../language/packed.ts';
import type { Value } from '../../language/types.ts';

/** From the page, once. */
export interface SearchRequest {
	readonly workbook: Packed;
	/** Name and value of each input in force, SI. */
	readonly inputs: readonly (readonly [name: string, value: Value])[];
	/** Name of the search cell. */
	readonly cell: string;
	/** Ids of its conditions that need not hold. */
	readonly without: readonly string[];
}

/** From the worker: how far it is, again and again, and in the end an answer or why there is none. */
export type SearchReply =
	| { readonly done: number; readonly total: number }
	| { readonly answer: SearchAnswer }
	| { readonly problem: string };
