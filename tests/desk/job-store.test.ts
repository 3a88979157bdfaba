/** What the browser kept is looked at like a file: jobs are jobs, and what is none is named and let be. */
import { describe, expect, test, vi } from 'vitest';
import { checkedShelf, reasonOf } from '../../src/lib/desk/job-store.ts';
import { ShelfOfJobs } from '../../src/lib/desk/shelf.svelte.ts';
import { OpenJob } from '../../src/lib/desk/open-job.svelte.ts';
import { blankJob, jobFromScenario, type Job } from '../../src/lib/job/job.ts';
import { shipped } from '../language/shipped.ts';
import type { Mark, Marks } from '../../src/lib/desk/marks.ts';
import { memoryStore, type MemoryStore } from './memory-store.ts';

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

test('a job comes out as it went in, with what only another version knows', () => {
	const older = { ...kept, id: 'older', changed: '2020-01-01T00:00:00.000Z' };
	const later = { ...kept, more: { than: 'this' }, block: { ...kept.block, approvedBy: 'A' } };
	const { jobs, damaged } = checkedShelf([older, undefined, later]);
	expect(jobs).toEqual([later, older]);
	expect(damaged).toEqual([]);
});

test.each(bad)('%s is said to be damaged, and named by its part', (_name, record, where) => {
	const { jobs, damaged } = checkedShelf([record, kept]);
	expect(jobs).toEqual([kept]);
	expect(damaged.map((each) => each.where)).toEqual([where]);
});

/** What a browser remembers beside its database. */
function marksOf(
	mark?: Mark,
	left = new Map<string, string>(),
): Marks & { mark: Mark | undefined; leftOver: Map<string, string> } {
	const own = `window ${left.size}`;
	const marks = {
		mark,
		leftOver: left,
		leave: (text: string) => void (text === '' ? left.delete(own) : left.set(own, text)),
		left: () => [...left].map(([key, text]) => ({ key, text })),
		dropLeft: (key: string) => void left.delete(key),
		read: () => marks.mark,
		write: (now: Mark) => void (marks.mark = now),
		clear: (id: string) => void (marks.mark?.id === id && (marks.mark = undefined)),
	};
	return marks;
}

/** A window that is opened on a store. */
async function opened(store: MemoryStore, marks = marksOf()): Promise<OpenJob> {
	const job = new OpenJob(builtWith, store, undefined, marks);
	await job.begin();
	return job;
}

const good = blankJob(shipped, 'metric', new Date('2026-11-25'));
const settled = (what: () => void): Promise<void> => vi.waitFor(what, { timeout: 10_000 });

test('what was open last takes the place of the example, and no step back brings that', async () => {
	const job = await opened(memoryStore([good], good.id));
	expect(job.job).toEqual(good);
	expect(job.canStepBack).toBe(false);
	expect(job.missing).toBeUndefined();
});

describe('a job that is not there', () => {
	const mark: Mark = { id: 'x', title: 'My truck', kept: '2026-11-20T08:00' };

	test.each(bad.filter(([, record]) => (Object(record) as { id?: unknown }).id === 'x'))(
		'with %s in it is said to be damaged, and what is left can be had',
		async (_name, record) => {
			const job = await opened(memoryStore([record, good], 'x'));
			expect(job.begun).toBe(true);
			expect(job.missing).toMatchObject({ id: 'x', why: 'damaged', rest: record });
			expect(job.shelf).toEqual([good]);
			expect(job.keeping.damaged).toHaveLength(1);
			await job.openKept(good);
			expect(job.missing).toBeUndefined();
			expect(job.job).toEqual(good);
		},
	);

	test('because the store was cleared is missed by its title, and another opened last is not shown', async () => {
		for (const store of [memoryStore(), memoryStore([good], good.id)]) {
			const job = await opened(store, marksOf(mark));
			expect(job.missing).toEqual({ ...mark, why: 'gone' });
		}
	});

	test('is not missed when it was thrown away, nor when somebody is here for the first time', async () => {
		const store = memoryStore([good, { ...good, id: 'x' }], 'x');
		const marks = marksOf(mark);
		const job = await opened(store, marks);
		await job.openKept(good);
		await new ShelfOfJobs(job.keeping).throwAway({ ...good, id: 'x' });
		expect((await opened(store, marks)).job.id).toBe(good.id);
		expect((await opened(memoryStore())).missing).toBeUndefined();
	});

	test('because the store does not answer is missed, and is there when it does', async () => {
		const store = memoryStore([{ ...good, id: 'x' }], 'x');
		store.before = () => Promise.reject(new Error('its database does not answer'));
		const job = await opened(store, marksOf(mark));
		expect(job.begun).toBe(true);
		expect(job.missing?.why).toBe('no answer');
		store.before = () => undefined;
		await settled(() => expect(job.missing).toBeUndefined());
		expect(job.job.id).toBe('x');
		await settled(() => expect(job.notKept).toBe(''));
	});

	test('whether or not it comes back, nothing is missed once another is begun', async () => {
		const marks = marksOf(mark);
		const job = await opened(memoryStore(), marks);
		job.startBlank();
		expect(job.missing).toBeUndefined();
		await settled(() => expect(marks.mark?.id).toBe(job.job.id));
	});
});

describe('where the browser keeps nothing', () => {
	test('that is said with a reason, and the example can be worked with', async () => {
		const store = memoryStore();
		store.before = () => Promise.reject(new Error('storage is off'));
		const job = await opened(store);
		expect(job.notKept).toContain('storage is off');
		expect(job.begun).toBe(true);
		expect(job.scenario?.id).toBe(scenario.id);
		expect(job.keeping.isWanting).toBe(false);
		store.before = () => undefined;
	});

	test('what was typed holds the door, and is kept as soon as it can be', async () => {
		const store = memoryStore();
		const job = await opened(store);
		store.before = () => Promise.reject(new DOMException('', 'QuotaExceededError'));
		job.type('wheelbase', '111');
		await settled(() => expect(job.notKept).toContain('is full'));
		expect(job.keeping.isWanting).toBe(true);
		job.type('wheelbase', '112');
		store.before = () => undefined;
		await settled(() => expect(job.notKept).toBe(''));
		expect(job.keeping.isWanting).toBe(false);
		expect(store.records.get(job.job.id)).toMatchObject({
			entries: { wheelbase: { typed: '112' } },
		});
	});

	test('a job that was left for another is kept then too', async () => {
		const store = memoryStore();
		const job = await opened(store);
		store.before = () => Promise.reject(new Error('no'));
		job.type('wheelbase', '111');
		const { id } = job.job;
		job.startBlank();
		await settled(() => expect(job.notKept).not.toBe(''));
		store.before = () => undefined;
		job.keeping.tryAgain();
		await settled(() => expect([...store.records.keys()].sort()).toEqual([id, job.job.id].sort()));
	});

	test('the reason is never empty', () => {
		const causes = [new Error(''), new DOMException('', ''), '', undefined, { toString: () => '' }];
		for (const cause of causes) expect(reasonOf(cause)).not.toBe('');
		expect(reasonOf(new DOMException('', 'AbortError'))).toBe('AbortError');
	});
});

describe('a window that is left before the last of it is kept', () => {
	const never = (): Promise<void> => new Promise(() => undefined);
	/** The next window on the same store and what is beside it. */
	const after = async (store: MemoryStore, marks: ReturnType<typeof marksOf>): Promise<OpenJob> => {
		store.before = () => undefined;
		return opened(store, marksOf(marks.mark, marks.leftOver));
	};

	test('leaves it over, and the next one has it with its step back, and keeps it', async () => {
		const store = memoryStore([good], good.id);
		const marks = marksOf();
		const job = await opened(store, marks);
		job.type('wheelbase', '29');
		await settled(() => expect(job.keeping.isComing).toBe(false));
		job.keeping.leave();
		expect(marks.leftOver.size).toBe(0);
		store.before = never;
		job.type('wheelbase', '299');
		job.type('wheelbase', '2990');
		job.keeping.leave();

		const next = await after(store, marks);
		expect(next.job.entries['wheelbase']?.typed).toBe('2990');
		await settled(() => {
			expect(store.records.get(good.id)).toEqual(next.job);
			expect(marks.leftOver.size).toBe(0);
		});
		next.stepBack();
		expect(next.job.entries['wheelbase']).toBeUndefined();
		next.stepForward();
		expect(next.job.entries['wheelbase']?.typed).toBe('2990');
	});

	test('asks nothing about what it had half kept itself, and about what another typed it does', async () => {
		for (const [other, clashes] of [
			['299', 0],
			['3000', 1],
		] as const) {
			const store = memoryStore([good], good.id);
			const marks = marksOf();
			const job = await opened(store, marks);
			let release = (): void => undefined;
			store.before = () => new Promise((done) => (release = done));
			job.type('wheelbase', '299');
			await settled(() => expect(job.keeping.isComing).toBe(true));
			await new Promise((turn) => setTimeout(turn));
			job.type('wheelbase', '2990');
			job.keeping.leave();
			store.before = never;
			if (other === '299') release();
			else {
				const theirs = structuredClone(good);
				const entry = { ...job.job.entries['wheelbase'], typed: other };
				store.records.set(good.id, { ...theirs, entries: { wheelbase: entry } });
			}
			await new Promise((turn) => setTimeout(turn));
			const next = await after(store, marks);
			expect(next.job.entries['wheelbase']?.typed).toBe('2990');
			expect(next.job.clashes ?? []).toHaveLength(clashes);
		}
	});

	test('that began a job which never was kept leads to it', async () => {
		const store = memoryStore([good], good.id);
		const marks = marksOf();
		const job = await opened(store, marks);
		store.before = never;
		job.startBlank();
		job.type('wheelbase', '3000');
		const { id } = job.job;
		job.keeping.leave();
		const next = await after(store, marks);
		expect(next.missing).toBeUndefined();
		expect(next.job.id).toBe(id);
		expect(next.job.entries['wheelbase']?.typed).toBe('3000');
		await settled(() => expect([...store.records.keys()]).toEqual([good.id, id]));
	});

	test.each([
		'',
		'null',
		'[]',
		'{"job":{}}',
		'{"job":null,"own":[],"steps":{"write":[{}],"drop":[]}}',
	])('%j is none', async (text) => {
		const marks = marksOf(undefined, new Map([['someone', text]]));
		const job = await opened(memoryStore([good], good.id), marks);
		expect(job.job).toEqual(good);
	});
});
