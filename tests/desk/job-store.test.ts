/** What the browser kept is looked at like a file: jobs are jobs, and what is none is named and let be. */
import { expect, test } from 'vitest';
import { checkedShelf, type JobStore } from '../../src/lib/desk/job-store.ts';
import { OpenJob } from '../../src/lib/desk/open-job.svelte.ts';
import { blankJob, jobFromScenario, type Job } from '../../src/lib/job/job.ts';
import { shipped } from '../language/shipped.ts';

const text = () => Promise.reject(new Error('no page is read here'));
const builtWith = { workbook: shipped, hash: 'h', text };
const [scenario] = shipped.scenarios;
if (!scenario) throw new Error('the workbook has no scenario');
const kept: Job = {
	...jobFromScenario(shipped, scenario, new Date('2026-11-25')),
	workbookHash: 'abc',
	pages: [{ id: 'a-page', text: 'text' }],
};

const bad: readonly [name: string, record: unknown, where: string][] = [
	['nothing of a job', { id: 'x' }, 'job › workbook'],
	['a word', 'x', 'job'],
	['nothing', null, 'job'],
	['no id', { ...kept, id: undefined }, 'job › id'],
	['no block', { ...kept, id: 'x', block: null }, 'job › block'],
	[
		'a date that is none',
		{ ...kept, id: 'x', block: { ...kept.block, date: 5 } },
		'job › block › date',
	],
	['a strange system', { ...kept, id: 'x', system: 'cubits' }, 'job › system'],
	['a list of entries', { ...kept, id: 'x', entries: [] }, 'job › entries'],
	[
		'an entry from nowhere',
		{ ...kept, id: 'x', entries: { raise: { typed: '1', system: 'metric', from: 'moon' } } },
		'job › entries › raise › from',
	],
	['options that are no list', { ...kept, id: 'x', options: {} }, 'job › options'],
	[
		'a page at an address that is none',
		{ ...kept, id: 'x', pages: [{ id: '../x', text: '' }] },
		'job › pages › 0 › id',
	],
];

test('a job comes out as it went in, without what no job has', () => {
	const older = { ...kept, id: 'older', changed: '2020-01-01T00:00:00.000Z' };
	const { jobs, setAside } = checkedShelf([older, undefined, { ...kept, more: 1 }]);
	expect(jobs).toEqual([kept, older]);
	expect(setAside).toEqual([]);
});

test.each(bad)('%s is set aside, and named by its part', (_name, record, where) => {
	const { jobs, setAside } = checkedShelf([record, kept]);
	expect(jobs).toEqual([kept]);
	expect(setAside.map((each) => each.where)).toEqual([where]);
});

/** A store that holds these, of which one was open last. */
function holding(records: readonly unknown[], current: string): JobStore {
	const done = () => Promise.resolve();
	return {
		all: () => Promise.resolve(records),
		get: (id) =>
			Promise.resolve(records.find((each) => (Object(each) as { id?: unknown }).id === id)),
		put: done,
		remove: done,
		current: () => Promise.resolve(current),
		setCurrent: done,
	};
}

test.each(bad)(
	'with %s kept as the open job the program opens all the same',
	async (_name, record) => {
		const good = blankJob(shipped, 'metric', new Date('2026-11-25'));
		const job = new OpenJob(builtWith, holding([record, good], 'x'));
		expect(job.begun).toBe(false);
		await job.begin();
		expect(job.begun).toBe(true);
		expect(job.scenario?.id).toBe(scenario.id);
		expect(job.shelf).toEqual([good]);
		expect(job.setAside).toHaveLength(1);
		expect(job.notKept).toBe('');
	},
);

test('what was open last takes the place of the example, and no step back brings that', async () => {
	const good = blankJob(shipped, 'metric', new Date('2026-11-25'));
	const job = new OpenJob(builtWith, holding([good], good.id));
	await job.begin();
	expect(job.job).toEqual(good);
	expect(job.canStepBack).toBe(false);
});

test('where the browser keeps nothing, that is said, and the example can be worked with', async () => {
	const broken: JobStore = {
		...holding([], ''),
		current: () => Promise.reject(new Error('storage is off')),
	};
	const job = new OpenJob(builtWith, broken);
	await job.begin();
	expect(job.notKept).toContain('storage is off');
	expect(job.begun).toBe(true);
	expect(job.scenario?.id).toBe(scenario.id);
});
