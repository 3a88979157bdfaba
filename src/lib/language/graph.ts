/**
 * The checked, ordered graph of a workbook. A node is one value: an input, a derived figure, or a formula
 * only its cell uses. Its slot is its index in `nodes`. `order` is such that every node stands after all it
 * needs.
 */
import type { Unit } from '../units/units.ts';
import type { FunctionTable } from './functions.ts';
import type { Cell } from './kinds/index.ts';
import type { InputCell } from './kinds/input.ts';
import type { Formula } from './tree.ts';
import type { Problem, Type } from './types.ts';

export interface Node {
	readonly slot: number;
	/** The name for an input or a derived figure; for a formula of a cell its id, which has a slash. */
	readonly id: string;
	readonly label: string;
	readonly cell: Cell;
	/** Undefined when the node has a mistake. */
	readonly type?: Type;
	readonly input?: InputCell;
	readonly formula?: Formula;
	readonly shownIn?: Unit;
	/** Why it can never be run: its own mistake, or that of a name it needs. */
	readonly broken?: string;
	/** Slots it reads directly. */
	readonly needs: readonly number[];
	/** Slots that read it directly. */
	readonly feeds: readonly number[];
}

export interface Graph {
	readonly nodes: readonly Node[];
	readonly order: readonly number[];
	/** Place of each slot in `order`. */
	readonly rank: readonly number[];
	readonly byId: ReadonlyMap<string, Node>;
	readonly problems: readonly Problem[];
	/** What its formulas call. */
	readonly functions: FunctionTable;
}

/** The place of each slot in an order. */
export function rankOf(order: readonly number[]): number[] {
	const rank: number[] = [];
	order.forEach((slot, index) => {
		rank[slot] = index;
	});
	return rank;
}
