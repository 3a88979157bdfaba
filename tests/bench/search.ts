/**
 * What one combination of a search costs beside one plain run of everything, both measured in turn in one
 * run. Nothing is proved here: times differ from one computer to the next, their ratio much less.
 *
 * Beside the law of one arc, with the engine of 25 November 2026, the search of the kits with 50,400 combinations
 * was measured once, on 28 November 2026, seven times in turn in one run: 0.42 to 0.78 of its time by the
 * middle, 0.47 to 1.02 by the quickest, on three of the invented trucks.
 */
import { workbookText } from '../../src/commands/workbook-folder.ts';
import { jobFromScenario } from '../../src/lib/job/job.ts';
import { inputsOf, readingsOf } from '../../src/lib/job/reading.ts';
import { runAll } from '../../src/lib/engine/run.ts';
import { planSearch, searchAll } from '../../src/lib/engine/search.ts';
import { readWorkbook } from '../../src/lib/language/read-workbook.ts';
import { cellsOf } from '../../src/lib/language/workbook.ts';
import { lowering } from '../../src/lib/trade/lowering.ts';
import { fence, inputCell } from '../language/small-workbook.ts';
import { quickest, times } from './quickest.ts';

const page = [
	'---\ntitle: Tried\nsummary: For a measurement\ndocument: Test\n---\n',
	inputCell('bench_eyes', 'length', 'several: sizes'),
	inputCell('bench_shackles', 'length', 'several: sizes'),
	inputCell('bench_blocks', 'length', 'several: sizes'),
	inputCell('bench_wedges', 'angle', 'several: sizes'),
	fence(
		'search',
		...['name: bench', 'label: Kits', 'over:', '  - { input: eye_raise, sizes: bench_eyes }'],
		...['  - { input: shackle_longer, sizes: bench_shackles }'],
		...['  - { input: block, sizes: bench_blocks }'],
		...['  - { input: wedge_angle, sizes: bench_wedges }'],
		...['hold: [{ if: joints_differ <= 3 deg, label: Joints }]'],
		...['show: [rear_drop, joint_mismatch, slip_room_least, axle_forward]'],
		...['rank: [{ by: joints_differ, first: low }]'],
	),
].join('\n');

/** So many sizes, evenly from one to the other. */
function sizes(count: number, from: number, to: number): number[] {
	return Array.from({ length: count }, (_, index) => from + ((to - from) * index) / (count - 1));
}

/** The measurement as a small table. */
export function searchTable(): string {
	const files = workbookText('lowering');
	const head = (files.get('workbook.yaml') ?? '').replace('pages:\n', 'pages:\n  - tried\n');
	const workbook = readWorkbook(
		'lowering',
		new Map([...files, ['workbook.yaml', head], ['tried.md', page]]),
		lowering,
	);
	const { graph, scenarios } = workbook;
	const [scenario] = scenarios;
	if (!scenario) throw new Error('There is no scenario to measure with.');
	const inputs = inputsOf(readingsOf(graph, jobFromScenario(workbook, scenario, new Date(0))));
	const cell = cellsOf(workbook).find((each) => each.name === 'bench');
	if (cell?.kind !== 'search') throw new Error('The search of the measurement cannot be read.');

	const rows = [4, 12].map((wedges) => {
		inputs.set('bench_eyes', sizes(6, 0, 0.13));
		inputs.set('bench_shackles', sizes(6, -0.05, 0.05));
		inputs.set('bench_blocks', sizes(4, 0, 0.08));
		inputs.set('bench_wedges', sizes(wedges, -0.1, 0.1));
		const base = runAll(graph, inputs);
		const plan = planSearch(graph, base, cell);
		if ('why' in plan) throw new Error(plan.message);
		const [searched = NaN, plain = NaN] = quickest([
			() => searchAll(graph, base, plan),
			times(100, () => runAll(graph, inputs)),
		]);
		const [each, one] = [searched / plan.total, plain / 100];
		return [
			plan.total.toString().padStart(12),
			each.toFixed(1).padStart(18),
			one.toFixed(1).padStart(16),
			(each / one).toFixed(2).padStart(8),
		].join('');
	});
	return ['combinations  µs a combination  µs a plain run   ratio', ...rows].join('\n');
}
