/** What a check says of a run. */
import type { Graph } from './graph.ts';
import type { CheckCell, Level } from './kinds/check.ts';
import type { Failure, Run } from './run.ts';
import type { Workbook } from './workbook.ts';

/** Every check of a workbook, in reading order, with the page it stands on. */
export function checksOf({ pages }: Workbook): { page: string; cell: CheckCell }[] {
	return pages.flatMap(({ id, parts }) =>
		parts.flatMap((part) =>
			part.part === 'cell' && part.cell.kind === 'check' ? [{ page: id, cell: part.cell }] : [],
		),
	);
}

export interface CheckResult {
	readonly level: Level;
	/** Why, with figures in braces still to be filled in. */
	readonly because: string;
	/** What to do; nothing to do when clear. */
	readonly do?: string;
}

/** The first condition that holds, or clear; a failure when a condition cannot be worked out. */
export function checkResult(graph: Graph, run: Run, cell: CheckCell): CheckResult | Failure {
	for (const each of cell.cases) {
		const node = graph.byId.get(each.condition);
		if (!node) continue;
		const failure = run.failures[node.slot];
		if (failure) return failure;
		if (run.values[node.slot] === true) {
			return { level: each.level, because: each.because, do: each.do };
		}
	}
	return { level: 'clear', because: cell.clear };
}
