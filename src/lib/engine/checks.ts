/** What a check says of a run. */
import type { Graph } from '../language/graph.ts';
import type { CheckCell, Level } from '../language/kinds/check.ts';
import type { Failure, Run } from './run.ts';
import { cellsOf, type Workbook } from '../language/workbook.ts';

/** Every check of a workbook, in reading order. */
export function checksOf(workbook: Workbook): CheckCell[] {
	return cellsOf(workbook).filter((cell) => cell.kind === 'check');
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
		const failure = run.failure(node.slot);
		if (failure) return failure;
		if (run.value(node.slot) === true) {
			return { level: each.level, because: each.because, do: each.do };
		}
	}
	return { level: 'clear', because: cell.clear };
}
