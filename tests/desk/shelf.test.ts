/** The shelf of jobs: one is found, copied, thrown away, and put back with all that was done to it. */
import { describe, expect, test, vi } from 'vitest';
import { OpenJob } from '../../src/lib/desk/open-job.svelte.ts';
import {
	checkedThrownAway,
	copyOf,
	daysToPutBack,
	jobsWith,
	ShelfOfJobs,
	thrownAwayAt,
} from '../../src/lib/desk/shelf.svelte.ts';
import { withBlock } from '../../src/lib/job/edits.ts';
import { blankJob, type Job } from '../../src/lib/job/job.ts';
import { inputCell, smallWorkbook } from '../language/small-workbook.ts';
import { memoryStore, type MemoryStore } from './memory-store.ts';

const workbook = smallWorkbook({ one: inputCell('a', 'length') });
const text = () => Promise.reject(new Error('no page is read here'));
const named = (title: string): Job =>
	withBlock(blankJob(workbook, 'metric', new Date('2026-11-25')), 'title', title);

async function windowOn(store: MemoryStore): Promise<{ desk: OpenJob; shelf: ShelfOfJobs }> {
	const desk = new OpenJob({ workbook, hash: 'h', text }, store);
	await desk.begin();
	const shelf = new ShelfOfJobs(desk.keeping);
	await shelf.look();
	return { desk, shelf };
}

const titles = (jobs: readonly Job[]): string[] => jobs.map(({ block }) => block.title);

describe('a job that is thrown away', () => {
	test('is off the shelf, and back again after a reload with its steps', async () => {
		const [one, other] = [named('One'), named('Other')];
		const store = memoryStore([one, other], one.id);
		const first = await windowOn(store);
		first.desk.type('a', '5');
		await first.desk.openKept(other);
		const kept = store.records.get(one.id);
		await first.shelf.throwAway(one);
		expect(first.shelf.said).toBe('“One” is thrown away.');
		expect(titles(first.desk.shelf)).toEqual(['Other']);
		expect([...store.records.keys()]).toEqual([other.id]);

		const later = await windowOn(store);
		expect(titles(later.shelf.thrownAway.map(({ job }) => job))).toEqual(['One']);
		await later.shelf.putBack(one.id);
		expect(later.shelf.thrownAway).toEqual([]);
		expect(store.records.get(one.id)).toEqual(kept);
		await later.desk.openKept(one);
		later.desk.stepBack();
		expect(later.desk.job.entries).toEqual({});
	});

	test('takes nothing from a window that went on with it: it comes back beside that', async () => {
		const [one, other] = [named('One'), named('Other')];
		const store = memoryStore([one, other], other.id);
		const { shelf } = await windowOn(store);
		await shelf.throwAway(one);
		store.records.set(one.id, withBlock(one, 'owner', 'went on'));
		await shelf.putBack(one.id);
		const found = [...store.records.values()].filter((each) => (each as Job).block.title === 'One');
		expect(found.map((each) => (each as Job).block.owner).sort()).toEqual(['', 'went on']);
	});

	test('goes for good when its time is over, and not an hour before', async () => {
		const job = named('One');
		const when = '2026-11-28T12:00:00.000Z';
		const end = Date.parse(when) + daysToPutBack * 24 * 60 * 60 * 1000;
		const found = [{ id: job.id, when, job }];
		const hour = 60 * 60 * 1000;
		expect(checkedThrownAway(found, new Date(end - hour))).toEqual({
			thrownAway: [{ job, when, until: new Date(end).toISOString() }],
			over: [],
		});
		expect(checkedThrownAway(found, new Date(end))).toEqual({ thrownAway: [], over: [job.id] });
		// What no program of ours wrote is neither shown nor dropped.
		const strange = [7, null, { id: job.id, job }, { id: job.id, when: 'soon', job }];
		expect(checkedThrownAway(strange, new Date(end))).toEqual({ thrownAway: [], over: [] });

		const store = memoryStore([named('Other')]);
		store.thrown.set(job.id, { id: job.id, when: '2001-01-01T00:00:00.000Z', job });
		const { shelf } = await windowOn(store);
		expect(shelf.thrownAway).toEqual([]);
		expect(store.thrown.size).toBe(0);
	});

	test('is there as long where the clock was set back, and is set right again', async () => {
		const [one, other] = [named('One'), named('Other')];
		const store = memoryStore([one, other], other.id);
		const { shelf } = await windowOn(store);
		vi.setSystemTime(new Date('2001-01-01T00:00:00Z'));
		await shelf.throwAway(one);
		vi.useRealTimers();
		expect(titles(shelf.thrownAway.map(({ job }) => job))).toEqual(['One']);
		const right = new Date(other.changed).getTime() + (daysToPutBack - 1) * 24 * 60 * 60 * 1000;
		const found = [...store.thrown.values()];
		expect(checkedThrownAway(found, new Date(right)).over).toEqual([]);
		expect(thrownAwayAt(new Date('2027-01-01'), [one])).toBe('2027-01-01T00:00:00.000Z');
		// What another program says of a time is no time.
		expect(thrownAwayAt(new Date('2027-01-01'), [{ ...one, changed: 'soon' }])).toMatch(/^2027/);
	});

	test('where there is no room to put it back from stays, until somebody says for good', async () => {
		const [one, other] = [named('One'), named('Other')];
		const store = memoryStore([one, other], other.id);
		const { shelf, desk } = await windowOn(store);
		store.before = () => {
			throw new DOMException('', 'QuotaExceededError');
		};
		await shelf.throwAway(one);
		expect(shelf.problem).toContain('is full');
		// The store did not open at all here; where it opens and has no room, that is told apart.
		store.before = () => undefined;
		const { throwAway: _throwAway, ...rest } = await store.wholeShelf();
		store.wholeShelf = () =>
			Promise.resolve({
				...rest,
				throwAway: () => Promise.reject(new DOMException('', 'QuotaExceededError')),
			});
		await shelf.throwAway(one);
		expect(shelf.noRoomFor).toBe(one);
		expect(store.records.has(one.id)).toBe(true);
		await shelf.throwAwayForGood(one);
		expect(shelf.problem).toBe('');
		expect(titles(desk.shelf)).toEqual(['Other']);
	});
});

test('a copy is a job of its own, by a name that no other has, and begins without seals', async () => {
	const one = { ...named('One'), seals: [{ hash: 'a', record: '{}' }] };
	const copy = copyOf(one, [one], new Date());
	expect(copy).not.toHaveProperty('seals');
	expect(copy.id).not.toBe(one.id);
	expect(copyOf(one, [one, copy], new Date()).block.title).toBe('One, copy 2');
	const store = memoryStore([one], one.id);
	const { desk, shelf } = await windowOn(store);
	await shelf.copy(desk.job);
	expect(titles(desk.shelf).sort()).toEqual(['One', 'One, copy']);
	expect(desk.job.id).toBe(one.id);
	expect(store.last).toBe(one.id);
});

test('a job is found by any words of its title block, with and without accents', () => {
	const jobs = [named('Grün’s Truck'), withBlock(named('Other'), 'owner', 'Old Farm')];
	expect(titles(jobsWith('', jobs))).toHaveLength(2);
	expect(titles(jobsWith(' TRUCK grun', jobs))).toEqual(['Grün’s Truck']);
	expect(titles(jobsWith('farm other', jobs))).toEqual(['Other']);
	expect(jobsWith('farm truck', jobs)).toEqual([]);
});
