/** A job on one graph: only what an edit reaches is touched, and what is typed is read once. */
import { expect, onTestFinished, test, vi } from 'vitest';
import * as typedReading from '../../src/lib/units/typed-reading.ts';
import { LiveRun } from '../../src/lib/desk/live-run.svelte.ts';
import { withEntry, withSystem } from '../../src/lib/job/edits.ts';
import { blankJob, type Job } from '../../src/lib/job/job.ts';
import { typedInto } from '../../src/lib/job/reading.ts';
import { namesIn, slotsBehind } from '../../src/lib/answers/figures.ts';
import { cellsOf } from '../../src/lib/language/workbook.ts';
import { fence, inputCell, numberIn, smallWorkbook } from '../language/small-workbook.ts';

const workbook = smallWorkbook({
	one: [
		inputCell('raise', 'length', 'default: 0 in', 'plus_minus: 1/8 in'),
		inputCell('other', 'length', 'default: 1 in'),
		fence('derive', 'drop = raise + 1 in  # Drop', 'apart = other * 2  # Apart'),
		fence(
			'chart',
			'name: drawn',
			'title: Drawn',
			'sweep: [{ input: raise, from: 0 in, to: other }]',
			'draw: [drop]',
		),
	].join('\n'),
});
const { graph } = workbook;
const blank = blankJob(workbook, 'inch-pound', new Date('2026-11-25'));

/** A job on the graph, and how to type into it. */
function live() {
	const run = new LiveRun(graph, blank);
	let job: Job = blank;
	const go = (to: Job, known?: Parameters<LiveRun['follow']>[2]): void => {
		run.follow(job, to, known);
		job = to;
	};
	const type = (name: string, typed: string): void => {
		const input = graph.byId.get(name)?.input;
		if (!input) throw new Error(`No input “${name}”.`);
		const { entry, reading } = typedInto(input, job.entries[name], typed, job.system);
		go(withEntry(job, name, entry), new Map([[name, reading]]));
	};
	return {
		run,
		type,
		system: () => go(withSystem(job, 'metric')),
		touch: (...names: readonly string[]) => run.lastTouch(slotsBehind(graph, names)),
	};
}

test('what stands behind a figure is touched by an edit of it, and by no other', () => {
	const { type, touch } = live();
	const before = [touch('drop'), touch('apart')];
	type('raise', '3');
	expect(touch('drop')).toBeGreaterThan(before[0] ?? NaN);
	expect(touch('apart')).toBe(before[1]);
	// The same amount in other words moves nothing, nor does what cannot be read.
	const after = touch('drop', 'apart');
	type('raise', '3.0');
	type('raise', '3.0 furlongs');
	expect(touch('drop', 'apart')).toBe(after);
});

test('a chart hangs on what it sweeps, on the ends of that, and on what it draws', () => {
	const { type, touch } = live();
	const chart = cellsOf(workbook).find(({ kind }) => kind === 'chart');
	if (!chart) throw new Error('no chart');
	const names = namesIn(chart);
	type('other', '4');
	const first = touch(...names);
	expect(first).toBeGreaterThan(0);
	type('raise', '4');
	expect(touch(...names)).toBeGreaterThan(first);
});

test('other units move no figure', () => {
	const { run, type, system, touch } = live();
	type('raise', '3');
	const before = touch('drop');
	system();
	expect(touch('drop')).toBe(before);
	expect(numberIn(workbook, run.run, 'drop')).toBeCloseTo(4 * 0.0254, 12);
});

test('another ± of the same amount touches no figure, but how sure they are', () => {
	const { run, type } = live();
	type('raise', '3');
	const { touched, sureTouched } = run;
	type('raise', '3 ± 1/2');
	expect(run.touched).toBe(touched);
	expect(run.sureTouched).toBeGreaterThan(sureTouched);
});

test('what is typed is read once a keystroke', () => {
	const { type } = live();
	const reading = vi.spyOn(typedReading, 'readQuantity');
	onTestFinished(() => {
		reading.mockRestore();
	});
	for (const typed of ['3', '33', '33.5']) {
		reading.mockClear();
		type('raise', typed);
		expect(reading).toHaveBeenCalledTimes(1);
	}
});
