/**
 * What one combination of a search costs beside one plain run of everything, both measured in turn in one
 * run. Nothing is proved here: times differ from one computer to the next, their ratio much less.
 */
import { readWorkbookFolder } from '../../src/commands/workbook-folder.ts';
import { readEntry } from '../../src/lib/worksheet/entry.ts';
import { runAll } from '../../src/lib/worksheet/run.ts';
import { planSearch, searchAll } from '../../src/lib/worksheet/search.ts';
import type { Value } from '../../src/lib/worksheet/types.ts';
import { readWorkbook } from '../../src/lib/worksheet/workbook.ts';
import { fence, inputCell } from '../worksheet/small-workbook.ts';

const rounds = 5;

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
		...['  - { input: seat_shift, sizes: bench_blocks }'],
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

/** Microseconds a piece of work takes, the quickest of some rounds. */
function quickest(work: () => void): number {
	let best = Infinity;
	for (let round = 0; round < rounds; round++) {
		const from = performance.now();
		work();
		best = Math.min(best, (performance.now() - from) * 1000);
	}
	return best;
}

/** The measurement as a small table. */
export function searchTable(): string {
	const { files } = readWorkbookFolder('lowering');
	const head = (files.get('workbook.yaml') ?? '').replace('pages:\n', 'pages:\n  - bench\n');
	const workbook = readWorkbook(
		'lowering',
		new Map([...files, ['workbook.yaml', head], ['bench.md', page]]),
	);
	const { graph, scenarios, pages } = workbook;
	const [scenario] = scenarios;
	const inputs = new Map<string, Value>();
	for (const { id, input } of graph.nodes) {
		if (!input) continue;
		if (input.default !== undefined) inputs.set(id, input.default);
		const typed = scenario?.values[id];
		if (typed === undefined) continue;
		if (input.asks_for !== 'quantity') {
			if (input.asks_for !== 'list') inputs.set(id, typed);
			continue;
		}
		const read = readEntry(typed, input.quantity.shown[scenario?.units ?? 'metric'].unit);
		if ('value' in read) inputs.set(id, read.value);
	}
	const cell = pages
		.flatMap(({ parts }) => parts.map((part) => (part.part === 'cell' ? part.cell : undefined)))
		.find((each) => each?.name === 'bench');
	if (cell?.kind !== 'search') throw new Error('The search of the measurement cannot be read.');

	const rows = [4, 12].map((wedges) => {
		inputs.set('bench_eyes', sizes(6, 0, 0.13));
		inputs.set('bench_shackles', sizes(6, -0.05, 0.05));
		inputs.set('bench_blocks', sizes(4, 0, 0.08));
		inputs.set('bench_wedges', sizes(wedges, -0.1, 0.1));
		const base = runAll(graph, inputs);
		const plan = planSearch(graph, base, cell);
		if ('why' in plan) throw new Error(plan.message);
		let searched = Infinity;
		let plain = Infinity;
		// In turn, so that both meet the same weather.
		for (let turn = 0; turn < 3; turn++) {
			searched = Math.min(searched, quickest(() => searchAll(graph, base, plan)) / plan.total);
			plain = Math.min(
				plain,
				quickest(() => {
					for (let each = 0; each < 100; each++) runAll(graph, inputs);
				}) / 100,
			);
		}
		return [
			plan.total.toString().padStart(12),
			searched.toFixed(1).padStart(18),
			plain.toFixed(1).padStart(16),
			(searched / plain).toFixed(2).padStart(8),
		].join('');
	});
	return ['combinations  µs a combination  µs a plain run   ratio', ...rows].join('\n');
}
