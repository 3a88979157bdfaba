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

/**
 * Depth-first order of slots by what each needs; each ring found is told once and its members left standing where
 * they are. The path is kept in a list of its own, so that a chain may be as long as it likes.
 * @param onRing takes the slots of a ring as it is read: each needs the next
 */
export function orderOf(
	needs: readonly (readonly number[])[],
	onRing: (ring: readonly number[]) => void = () => undefined,
): number[] {
	const order: number[] = [];
	const onPath = new Uint8Array(needs.length);
	const done = new Uint8Array(needs.length);
	for (const first of needs.keys()) {
		if (done[first]) continue;
		const path: { slot: number; next: number }[] = [{ slot: first, next: 0 }];
		onPath[first] = 1;
		for (let last = path.at(-1); last; last = path.at(-1)) {
			const { slot } = last;
			const need = needs[slot]?.[last.next++];
			if (need === undefined) {
				path.pop();
				onPath[slot] = 0;
				done[slot] = 1;
				order.push(slot);
			} else if (onPath[need]) {
				onRing(path.slice(path.findIndex((each) => each.slot === need)).map(({ slot }) => slot));
			} else if (!done[need]) {
				path.push({ slot: need, next: 0 });
				onPath[need] = 1;
			}
		}
	}
	return order;
}

/** The place of each slot in an order. */
export function rankOf(order: readonly number[]): number[] {
	const rank: number[] = [];
	order.forEach((slot, index) => {
		rank[slot] = index;
	});
	return rank;
}
