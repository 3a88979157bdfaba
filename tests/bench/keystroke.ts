/**
 * What a keystroke costs beside one run of everything: the figures that hang on the entry, and the ± of
 * all figures or of those a sheet shows; and what is asked once the finger rests: what would explain the
 * readings, and what to read next. On the first shipped scenario.
 */
import { readWorkbookFolder } from '../../src/commands/workbook-folder.ts';
import { explainedInWords, slotsOfExplain } from '../../src/lib/answers/explained.ts';
import { figuresInSight, inputPlusMinus } from '../../src/lib/answers/figures.ts';
import { figuresLookedAt, nextInWords } from '../../src/lib/answers/next-reading.ts';
import { checksOf } from '../../src/lib/engine/checks.ts';
import { jobFromScenario } from '../../src/lib/job/job.ts';
import { inputsOf, readingsOf } from '../../src/lib/job/reading.ts';
import type { Node } from '../../src/lib/language/graph.ts';
import { plusMinusOfAll } from '../../src/lib/engine/plus-minus.ts';
import { linked } from '../../src/lib/engine/reach.ts';
import { rerun, runAll } from '../../src/lib/engine/run.ts';
import { cellsOf } from '../../src/lib/language/workbook.ts';
import { quickest, times } from './quickest.ts';

/** The measurement as a small table. */
export function keystrokeTable(): string {
	const workbook = readWorkbookFolder('lowering');
	const { graph, scenarios, pages, quantities, errands } = workbook;
	const [scenario] = scenarios;
	if (!scenario) throw new Error('There is no scenario to measure with.');
	const job = jobFromScenario(workbook, scenario, new Date(0));
	const readings = readingsOf(graph, job);
	const inputs = inputsOf(readings);
	const run = runAll(graph, inputs);

	const reach = ({ slot }: Node): number => linked(graph, [slot], 'feeds').size;
	const entries = graph.nodes
		.filter(({ id, input }) => input && inputs.has(id))
		.sort((a, b) => reach(a) - reach(b));
	const change = ({ id }: Node): (() => void) =>
		times(20, () => rerun(graph, run, new Map([[id, inputs.get(id)]])));
	const plusMinusOf = (node: Node): number => inputPlusMinus(node, readings.get(node.id));
	const plusMinus = (wanted?: readonly number[]) => (): void => {
		plusMinusOfAll(graph, run, plusMinusOf, ...(wanted ? [wanted] : []));
	};
	const figures = { graph, quantities, system: job.system, run };
	const rested = cellsOf(workbook).flatMap((cell): (readonly [string, () => void, number])[] => {
		if (cell.kind !== 'explain') return [];
		const sure = plusMinusOfAll(graph, run, plusMinusOf, slotsOfExplain(cell, figures));
		const checks = checksOf(workbook).filter(({ page }) => page === cell.page);
		const next = (names: readonly string[]) => (): void => {
			nextInWords(names, figures, (name) => readings.get(name) ?? { standing: 'missing' });
		};
		return [
			[`rested: explain on ${cell.page}`, () => void explainedInWords(cell, figures, sure), 1],
			[`rested: next reading, checks of ${cell.page}`, next(figuresLookedAt(graph, checks)), 1],
			...errands.map(
				({ id, answer }) => [`rested: next reading, errand ${id}`, next(answer), 1] as const,
			),
		];
	});
	const works: readonly (readonly [what: string, work: () => void, count: number])[] = [
		['one run of everything', times(4, () => runAll(graph, inputs)), 4],
		...[0.5, 0.9, 1].map((share) => {
			const entry = entries[Math.ceil(share * (entries.length - 1))] as Node;
			const what = `an entry changed: ${entry.id} reaches ${reach(entry) - 1}`;
			return [what, change(entry), 20] as const;
		}),
		['± of every figure', plusMinus(), 1],
		...pages.map(({ id }) => {
			const wanted = figuresInSight(workbook, id);
			return [`± in sight on ${id}`, plusMinus(wanted), 1] as const;
		}),
		...rested,
	];
	const found = quickest(works.map(([, work]) => work));
	const cost = works.map(([, , count], index) => (found[index] ?? NaN) / count);
	const wide = Math.max(...works.map(([what]) => what.length));
	return [
		`${'a keystroke'.padEnd(wide)}  runs of everything`,
		...works.map(([what], index) => {
			const ratio = (cost[index] ?? NaN) / (cost[0] ?? NaN);
			return `${what.padEnd(wide)}  ${ratio.toFixed(2).padStart(18)}`;
		}),
	].join('\n');
}
