/** What a check says of a run. */
import type { Graph } from '../language/graph.ts';
import type { CheckCell } from '../language/kinds/check.ts';
import { levels, type Level } from '../language/levels.ts';
import type { PlusMinus } from './plus-minus.ts';
import type { Failure, Run } from './run.ts';
import { verdictOf, type Verdict } from './verdict.ts';
import { cellsOf, type Workbook } from '../language/workbook.ts';

/** Every check of a workbook, in reading order. */
export function checksOf(workbook: Workbook): CheckCell[] {
	return cellsOf(workbook).filter((cell) => cell.kind === 'check');
}

export interface CheckResult {
	/** By the figures as they are. */
	readonly level: Level;
	/** The levels it may come to within the ± of its figures, mildest first; only its own where it is sure. */
	readonly might: readonly Level[];
	/** Why, with figures in braces still to be filled in. */
	readonly because: string;
	/** What to do; nothing to do when clear. */
	readonly do?: string;
}

/**
 * Whether its ± leaves open if anything is wrong at all. Where none of the levels is clear something is, and a ±
 * is no comfort.
 */
export function isWithin(might: readonly Level[]): boolean {
	return might.length > 1 && might.includes('clear');
}

/**
 * The first condition that holds, or clear; a failure when a condition cannot be worked out.
 * @param plusMinus of the figures by slot; without it every figure counts as certain
 */
export function checkResult(
	graph: Graph,
	run: Run,
	cell: CheckCell,
	plusMinus: readonly (PlusMinus | undefined)[] = [],
): CheckResult | Failure {
	const might: Level[] = [];
	/** The first case that holds by the figures as they are. */
	let first: CheckCell['cases'][number] | undefined;
	let settled = false;
	for (const each of cell.cases) {
		const slot = graph.byId.get(each.condition)?.slot;
		if (slot === undefined) continue;
		if (run.fails(slot)) {
			if (!first) return run.failure(slot) as Failure;
			break;
		}
		const verdict: Verdict = settled ? 'fails' : verdictOf(graph, run, plusMinus, slot);
		if (verdict !== 'fails') might.push(each.level);
		settled ||= verdict === 'holds';
		if (!first && run.value(slot) === true) first = each;
	}
	if (!settled) might.push('clear');
	const { level, because } = first ?? { level: 'clear', because: cell.clear };
	const may = levels.filter((each) => might.includes(each));
	return {
		level,
		might: may,
		because: isWithin(may) ? (cell.within ?? because) : because,
		...(first && { do: first.do }),
	};
}
