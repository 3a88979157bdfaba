/**
 * What a sheet asks of the engine after an edit, beside the bare runs it takes: the lines between the
 * entries and what is shown, as straight-line code, one call a line. On the first shipped scenario.
 *
 * Bare is what nobody can do without: no line that an entry in between holds fast, and none for a figure
 * that has no ±. The parts of a ± are put in order when a figure is opened, and are in neither.
 */
import { readWorkbookFolder } from '../../src/commands/workbook-folder.ts';
import { figuresInSight, inputPlusMinus, type Figures } from '../../src/lib/answers/figures.ts';
import { optionColumns } from '../../src/lib/answers/options.ts';
import { checkResult, checksOf } from '../../src/lib/engine/checks.ts';
import { plusMinusOfAll } from '../../src/lib/engine/plus-minus.ts';
import { questionOf } from '../../src/lib/engine/reach.ts';
import { runAll } from '../../src/lib/engine/run.ts';
import { jobFromScenario, type Job } from '../../src/lib/job/job.ts';
import { inputsOf, readingsOf } from '../../src/lib/job/reading.ts';
import type { Node } from '../../src/lib/language/graph.ts';
import type { CompareCell } from '../../src/lib/language/kinds/compare.ts';
import { cellsOf } from '../../src/lib/language/workbook.ts';
import { OutOfRange } from '../../src/lib/mechanics/out-of-range.ts';
import { quickest, times } from './quickest.ts';
import type { Row } from './row.ts';
import { straightLine } from './straight-line.ts';

export function sightRows(): Row[] {
	const workbook = readWorkbookFolder('lowering');
	const { graph, scenarios, pages, quantities } = workbook;
	const [scenario] = scenarios;
	if (!scenario) throw new Error('There is no scenario to measure with.');
	const job = jobFromScenario(workbook, scenario, new Date(0));
	const readings = readingsOf(graph, job);
	const inputs = inputsOf(readings);
	const run = runAll(graph, inputs);
	const straight = straightLine(graph);
	straight.takeOver(run);
	const { rank } = graph;
	/** The lines on the way from some inputs to some slots, run bare. */
	const bareLines = (from: readonly number[], wanted: readonly number[]): (() => void) => {
		const entered = (slot: number): boolean => run.isEntered(slot);
		const slots = [...questionOf(graph, from, wanted, entered).between];
		slots.sort((a, b) => (rank[a] as number) - (rank[b] as number));
		const lines = slots.flatMap((slot) => straight.lines[slot] ?? []);
		return () => {
			for (const line of lines) {
				try {
					line();
				} catch (cause) {
					if (!(cause instanceof OutOfRange)) throw cause;
				}
			}
		};
	};

	const plusMinusOf = (node: Node): number => inputPlusMinus(node, readings.get(node.id));
	const sheets = pages.map(({ id }) => {
		const wanted = figuresInSight(workbook, id);
		const sure = plusMinusOfAll(graph, run, plusMinusOf, wanted);
		const figures = wanted.filter((slot) => sure[slot] && graph.nodes[slot]?.formula);
		const moves = graph.nodes.flatMap((node) => {
			const size = node.input && node.type?.kind === 'quantity' ? plusMinusOf(node) : 0;
			const here = run.number(node.slot);
			if (!(size > 0) || here === undefined) return [];
			return [{ place: node.slot, here, size, lines: bareLines([node.slot], figures) }];
		});
		const bare = (): void => {
			for (const { place, here, size, lines } of moves) {
				for (const moved of [here + 0.1 * size, here - 0.1 * size]) {
					straight.numbers[place] = moved;
					lines();
				}
				straight.numbers[place] = here;
			}
		};
		return { id, asked: () => void plusMinusOfAll(graph, run, plusMinusOf, wanted), bare };
	});

	const cell = cellsOf(workbook).find((each): each is CompareCell => each.kind === 'compare');
	if (!cell) throw new Error('There is no comparison to measure with.');
	const [option] = job.options ?? [];
	const six: Job = {
		...job,
		options: Array.from({ length: 6 }, (_, index) => ({
			id: String(index),
			name: `Option ${index}`,
			entries: option?.entries ?? {},
		})),
	};
	const checks = checksOf(workbook).filter(({ name }) => cell.checks.includes(name));
	const slotsOf = (names: readonly string[]): number[] =>
		names.flatMap((name) => graph.byId.get(name)?.slot ?? []);
	const shown = slotsOf(cell.show);
	const figures: Figures = { graph, quantities, system: job.system, run };
	const compared = (): void => {
		for (const { figures: column } of optionColumns(cell, six.options ?? [], figures)) {
			for (const slot of shown) column.run.value(slot);
			for (const check of checks) checkResult(graph, column.run, check);
		}
	};
	const conditions = checks.flatMap((check) => check.cases.map(({ condition }) => condition));
	const column = bareLines(slotsOf(cell.set), [...shown, ...slotsOf(conditions)]);

	const found = quickest(
		[
			times(3, () => runAll(graph, new Map())),
			times(3, () => runAll(graph, inputs)),
			compared,
			// The stock truck and six options; the plan has been run with already.
			times(7, column),
			...sheets.flatMap(({ asked, bare }) => [asked, bare]),
		],
		100,
	);
	const ratio = (index: number): number => (found[index] ?? NaN) / (found[index + 1] ?? NaN);
	return [
		{
			what: 'the workbook with nothing entered',
			against: 'one full run',
			ratio: ratio(0),
			reach: 1,
		},
		{
			what: 'comparison of six options',
			against: 'runs of what is shown, bare',
			ratio: ratio(2),
			reach: 1.2,
		},
		...sheets.map(({ id }, index): Row => ({
			what: `± in sight on ${id}`,
			against: 'entries × affected run × 2, bare',
			ratio: ratio(4 + 2 * index),
			reach: 1.2,
		})),
	];
}
