/** Answers one request. It runs in the worker; tests call it as it is. */
import { runAll } from '../run.ts';
import { mostCombinations, planSearch, searching } from '../search.ts';
import { unpack } from '../../language/packed.ts';
import { cellsOf } from '../../language/workbook.ts';
import type { Trade } from '../../language/trade.ts';
import type { SearchReply, SearchRequest } from './messages.ts';

/** Milliseconds between two words about how far it is. */
const everySo = 100;

/**
 * @param trade what the workbook is read with
 * @param say takes each reply; the last one is an answer or a problem
 * @param clock milliseconds, only for when to tell how far it is
 */
export function handleSearch(
	{ workbook: packed, inputs, cell: name, without }: SearchRequest,
	trade: Trade,
	say: (reply: SearchReply) => void,
	clock: () => number = () => performance.now(),
): void {
	const workbook = unpack(packed, trade);
	const { graph } = workbook;
	const cell = cellsOf(workbook).find((each) => each.kind === 'search' && each.name === name);
	if (cell?.kind !== 'search') {
		say({ problem: `This workbook has no search named “${name}”.` });
		return;
	}
	const base = runAll(graph, new Map(inputs));
	const plan = planSearch(graph, base, cell, without);
	if ('why' in plan) {
		say({ problem: plan.message });
		return;
	}
	const { total } = plan;
	if (total > mostCombinations) {
		say({
			problem: `${total.toString()} combinations are more than the ${mostCombinations.toString()} that are tried.`,
		});
		return;
	}
	const steps = searching(graph, base, plan);
	let told = clock();
	for (;;) {
		const step = steps.next();
		if (step.done) {
			say({ answer: step.value });
			return;
		}
		const now = clock();
		if (now - told >= everySo) {
			say({ done: step.value, total });
			told = now;
		}
	}
}
