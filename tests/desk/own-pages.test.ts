/** Pages of a job's own: written, edited, taken back; with only what changed read again, and nothing lost. */
import { describe, expect, test, vi } from 'vitest';
import { OpenJob } from '../../src/lib/desk/open-job.svelte.ts';
import { jobFromScenario, type Job } from '../../src/lib/job/job.ts';
import { writeJobFile } from '../../src/lib/job/job-file.ts';
import { readJobFile } from '../../src/lib/job/read-job-file.ts';
import { fence, inputCell, numberIn, pageText, smallFiles } from '../language/small-workbook.ts';
import { smallWorkbook } from '../language/small-workbook.ts';
import { memoryStore } from './memory-store.ts';

const inch = 0.0254;
const bodies = {
	one: inputCell('raise', 'length', 'default: 0 in', 'plus_minus: 1/8 in'),
	two: fence('derive', 'half = raise / 2  # Half'),
};
const more = {
	scenarios: ['told'],
	files: {
		'scenarios/told.yaml':
			'title: Told\nsummary: S\nunits: inch-pound\nstory: {}\nvalues: { raise: 4 }',
	},
};
const workbook = smallWorkbook(bodies, more);
const files = smallFiles(bodies, more);
const own = (...lines: readonly string[]): string =>
	pageText([inputCell('lift', 'length'), fence('derive', ...lines)].join('\n'));

function begun(from?: Job) {
	const text = vi.fn(() => Promise.resolve<ReadonlyMap<string, string>>(files));
	const job = new OpenJob({ workbook, hash: 'hash', text }, memoryStore(), from);
	const inches = (name: string): number => {
		expect(job.figures.graph).toBe(job.workbook.graph);
		return numberIn(job.workbook, job.figures.run, name) / inch;
	};
	return { job, text, inches, ids: () => job.workbook.pages.map(({ id }) => id) };
}

test('one is written, has its figures, is edited, and goes with a step back', async () => {
	const { job, inches, ids } = begun();
	job.type('raise', '6');
	await job.setPage('mine', own('both = lift + half  # Both'));
	expect(ids()).toEqual(['one', 'two', 'mine']);
	expect(job.workbook.problems).toEqual([]);
	job.type('lift', '2');
	expect(inches('both')).toBeCloseTo(5, 12);

	await job.setPage('mine', own('both = lift + raise  # Both'));
	expect(inches('both')).toBeCloseTo(8, 12);
	job.stepBack();
	await job.pagesRead;
	expect(inches('both')).toBeCloseTo(5, 12);
	for (const _step of ['lift', 'page', 'raise']) job.stepBack();
	expect(ids()).toEqual(['one', 'two']);
	expect(inches('half')).toBeCloseTo(2, 12);
	job.stepForward();
	job.stepForward();
	await job.pagesRead;
	expect(ids()).toEqual(['one', 'two', 'mine']);
});

test('only the page that changed is read again', async () => {
	const { job } = begun();
	await job.setPage('mine', own('both = lift + half  # Both'));
	const before = job.workbook.pages;
	await job.setPage('mine', own('both = lift - half  # Both'));
	const after = job.workbook.pages;
	expect(after.map((page, index) => page === before[index])).toEqual([true, true, false]);
	expect(after[2]?.parts[0]).toEqual(before[2]?.parts[0]);
});

test('without any, nothing that reads a page is asked for', async () => {
	const { job, text } = begun();
	job.startBlank();
	await job.pagesRead;
	expect(text).not.toHaveBeenCalled();
	expect(job.workbook).toBe(workbook);
});

test('an entry whose input is gone is kept and named, and is there again with its page', async () => {
	const { job, inches } = begun();
	await job.setPage('mine', own('both = lift + half  # Both'));
	job.type('lift', '2');
	await job.setPage('mine', pageText('Nothing is asked for.'));
	expect(job.unclaimed).toEqual(['lift']);
	await job.removePage('mine');
	expect(job.unclaimed).toEqual(['lift']);
	expect(job.job.entries['lift']?.typed).toBe('2');
	await job.setPage('mine', own('both = lift + half  # Both'));
	expect(job.unclaimed).toEqual([]);
	expect(inches('both')).toBeCloseTo(4, 12);
});

test('one with a shipped page’s address stands in for it until it is taken out', async () => {
	const { job, inches, ids } = begun();
	await job.setPage('two', pageText(fence('derive', 'half = raise / 4  # Half')));
	expect(ids()).toEqual(['one', 'two']);
	expect(inches('half')).toBeCloseTo(1, 12);
	await job.removePage('two');
	expect(inches('half')).toBeCloseTo(2, 12);
});

test('a mistake on one is said there, and the other figures stay', async () => {
	const { job, inches } = begun();
	await job.setPage('mine', own('both = lift + nothing  # Both'));
	expect(job.workbook.problems.map(({ page }) => page)).toEqual(['mine']);
	expect(inches('half')).toBeCloseTo(2, 12);
});

test('the newest of several quick edits is what is read in the end', async () => {
	const { job, inches } = begun();
	job.type('raise', '8');
	for (const by of [1, 2, 3, 4])
		void job.setPage('mine', pageText(fence('derive', `q = raise / ${by}  # Q`)));
	await job.pagesRead;
	expect(inches('q')).toBeCloseTo(2, 12);
	// All of that was one page being written: one step.
	job.stepBack();
	expect(job.job.pages).toBeUndefined();
	expect(job.workbook).toBe(workbook);
});

test('when what reads pages cannot be had, that is said and nothing is lost', async () => {
	const { job, text, inches } = begun();
	text.mockRejectedValueOnce(new Error('no line'));
	await job.setPage('mine', own('both = lift + half  # Both'));
	expect(job.pagesProblem).toContain('no line');
	expect(job.job.pages).toHaveLength(1);
	expect(inches('half')).toBeCloseTo(2, 12);
	await job.setPage('mine', own('both = lift - half  # Both'));
	expect(job.pagesProblem).toBe('');
	expect(job.workbook.pages).toHaveLength(3);
});

describe('in a file', () => {
	test('they go with the job, which names the workbook it was changed with', async () => {
		const { job } = begun();
		await job.setPage('mine', own('both = lift + half  # Both'));
		job.type('lift', '2');
		expect(job.job.workbookHash).toBe('hash');
		const read = readJobFile(writeJobFile(job.job), 'x.json', 'small');
		if ('problem' in read) throw new Error(read.problem);
		expect(read.job).toEqual({ ...job.job, id: read.job.id });
		const other = begun(read.job);
		expect(other.job.pagesComing).toBe(true);
		await other.job.pagesRead;
		expect(other.inches('both')).toBeCloseTo(4, 12);
	});

	test('an older program is told that it would lose them; one without is read by it too', () => {
		const [scenario] = workbook.scenarios;
		if (!scenario) throw new Error('no scenario');
		const plain = jobFromScenario(workbook, scenario, new Date('2026-11-25'));
		expect(writeJobFile(plain)).toContain('"version": 2');
		expect(writeJobFile({ ...plain, pages: [{ id: 'mine', text: '' }] })).toContain('"version": 3');
	});
});
