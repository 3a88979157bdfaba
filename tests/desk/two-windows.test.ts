/** Windows on one job: each sees what the others do, and nothing that anybody typed is lost without a word. */
import { describe, expect, test, vi } from 'vitest';
import { OpenJob } from '../../src/lib/desk/open-job.svelte.ts';
import { ShelfOfJobs } from '../../src/lib/desk/shelf.svelte.ts';
import { canonicalJson } from '../../src/lib/job/canonical.ts';
import { blankJob, type Job } from '../../src/lib/job/job.ts';
import { entryPart, partsOf } from '../../src/lib/job/parts.ts';
import { inputCell, smallWorkbook } from '../language/small-workbook.ts';
import { memoryStore, type MemoryStore } from './memory-store.ts';

const names = ['a', 'b', 'c', 'd'];
const workbook = smallWorkbook({ one: names.map((name) => inputCell(name, 'length')).join('\n') });
const text = () => Promise.reject(new Error('no page is read here'));
const first = blankJob(workbook, 'metric', new Date('2026-11-25'));
const settled = (what: () => void): Promise<void> => vi.waitFor(what, { timeout: 10_000 });

async function window(store: MemoryStore): Promise<OpenJob> {
	const job = new OpenJob({ workbook, hash: 'h', text }, store);
	await job.begin();
	return job;
}
const typedIn = (of: OpenJob, name: string): string | undefined => of.job.entries[name]?.typed;

describe('two windows on one job', () => {
	test('show what is typed in the other, whose steps back do not take it away', async () => {
		const store = memoryStore([first], first.id);
		const [here, there] = [await window(store), await window(store)];
		there.type('a', '1');
		await settled(() => expect(typedIn(here, 'a')).toBe('1'));
		here.type('b', '2');
		await settled(() => expect(typedIn(there, 'b')).toBe('2'));
		there.stepBack();
		expect(typedIn(there, 'a')).toBeUndefined();
		expect(typedIn(there, 'b')).toBe('2');
		await settled(() => expect(typedIn(here, 'a')).toBeUndefined());
		here.stepBack();
		expect(typedIn(here, 'b')).toBeUndefined();
		here.stepForward();
		there.stepForward();
		await settled(() => {
			for (const each of [here, there])
				expect([typedIn(each, 'a'), typedIn(each, 'b')]).toEqual(['1', '2']);
		});
		expect(here.job.clashes).toBeUndefined();
	});

	test('that type at once keep both values until somebody says which, whatever the clock says', async () => {
		for (const clock of ['2020-01-01', '2040-01-01']) {
			const store = memoryStore([first], first.id);
			const [here, there] = [await window(store), await window(store)];
			for (const typed of ['1', '11', '111']) here.type('a', typed);
			vi.setSystemTime(new Date(clock));
			for (const typed of ['2', '22', '222']) there.type('a', typed);
			there.type('b', '5');
			vi.useRealTimers();
			await settled(() => {
				for (const each of [here, there]) {
					const values = [
						typedIn(each, 'a'),
						...(each.job.clashes ?? []).map(({ value }) => (value as { typed: string }).typed),
					];
					expect(values.sort()).toEqual(['111', '222']);
					expect(typedIn(each, 'b')).toBe('5');
				}
			});
			const [clash] = here.job.clashes ?? [];
			if (!clash) throw new Error('no clash');
			const other = (clash.value as { typed: string }).typed;
			here.settle(clash, 'other');
			await settled(() => {
				expect(typedIn(there, 'a')).toBe(other);
				expect(there.job.clashes).toBeUndefined();
			});
			here.stepBack();
			expect(here.job.clashes).toEqual([clash]);
		}
	});

	test('of which one is asleep put together what both did when it wakes', async () => {
		const store = memoryStore([first], first.id);
		const [here, there] = [await window(store), await window(store)];
		there.keeping.listen = () => undefined;
		let wake = (): void => undefined;
		there.type('c', '3');
		await settled(() => expect(typedIn(here, 'c')).toBe('3'));
		const sleeping = new Promise<void>((resolve) => (wake = resolve));
		store.before = () => sleeping;
		there.type('a', '1');
		store.before = () => undefined;
		here.type('b', '2');
		wake();
		await settled(() => {
			for (const each of [here, there]) {
				expect(names.map((name) => typedIn(each, name))).toEqual(['1', '2', '3', undefined]);
			}
		});
	});

	test('each have their own open job, and one opened from the list is as the other left it', async () => {
		const store = memoryStore([first], first.id);
		const [here, there] = [await window(store), await window(store)];
		here.startBlank();
		await settled(() => expect(store.last).toBe(here.job.id));
		there.type('a', '70');
		await settled(() =>
			expect(store.records.get(first.id)).toMatchObject({ entries: { a: { typed: '70' } } }),
		);
		expect(here.job.id).not.toBe(there.job.id);
		await here.openKept(first);
		expect(typedIn(here, 'a')).toBe('70');
		// Its steps came with it.
		here.stepBack();
		expect(typedIn(here, 'a')).toBeUndefined();
	});

	test('of which one throws the job away: the other still has it, says so, and keeps what is typed next', async () => {
		const store = memoryStore([first], first.id);
		const [here, there] = [await window(store), await window(store)];
		here.type('a', '1');
		await settled(() => expect(typedIn(there, 'a')).toBe('1'));
		here.startBlank();
		await settled(() => expect(store.last).toBe(here.job.id));
		await new ShelfOfJobs(here.keeping).throwAway(first);
		await settled(() => expect(there.notKept).toContain('thrown away in another window'));
		// That somebody comes back to its window is no wish to have it again.
		there.keeping.tryAgain();
		there.keeping.look();
		await new Promise((resolve) => setTimeout(resolve, 20));
		expect(there.notKept).toContain('thrown away in another window');
		expect(store.records.has(first.id)).toBe(false);
		there.type('b', '2');
		await settled(() => expect(there.notKept).toBe(''));
		expect(store.records.get(first.id)).toMatchObject({
			entries: { a: { typed: '1' }, b: { typed: '2' } },
		});
	});
});

test('a job that is put back is kept again in a window that said it was thrown away, with what another typed', async () => {
	const store = memoryStore([first], first.id);
	const [here, there, third] = [await window(store), await window(store), await window(store)];
	here.type('a', '1');
	await settled(() => {
		for (const each of [there, third]) expect(typedIn(each, 'a')).toBe('1');
	});
	here.startBlank();
	await settled(() => expect(store.last).toBe(here.job.id));
	const shelf = new ShelfOfJobs(here.keeping);
	const [job] = here.shelf.filter(({ id }) => id === first.id);
	if (!job) throw new Error('it is not on the shelf');
	await shelf.throwAway(job);
	await settled(() => {
		for (const each of [there, third]) expect(each.notKept).toContain('thrown away');
	});
	await shelf.putBack(first.id);
	await settled(() => {
		for (const each of [there, third])
			expect([each.notKept, each.keeping.isWanting]).toEqual(['', false]);
	});
	there.type('b', '2');
	await settled(() => expect(typedIn(third, 'b')).toBe('2'));
	expect(store.records.get(first.id)).toMatchObject({
		entries: { a: { typed: '1' }, b: { typed: '2' } },
	});
	expect(third.job.clashes).toBeUndefined();

	// Kept again by one of them, it is so in the other too, and nothing of either is gone.
	await shelf.throwAway(here.shelf.find(({ id }) => id === first.id) ?? job);
	await settled(() => {
		for (const each of [there, third]) expect(each.notKept).toContain('thrown away');
	});
	third.type('c', '3');
	await settled(() => {
		expect([there.notKept, typedIn(there, 'c')]).toEqual(['', '3']);
		expect(there.job.clashes).toBeUndefined();
	});
});

test('a job is gone on with after the window was closed, steps and all', async () => {
	const store = memoryStore();
	const before = await window(store);
	before.type('a', '125');
	before.leave();
	before.type('a', '117 1/2');
	before.type('b', '2');
	await settled(() => expect(store.kept.size).toBe(3));
	const after = await window(store);
	expect(after.job).toEqual(before.job);
	expect(after.stepBackTakes).toBe('the b nothing → 2');
	after.stepBack();
	after.stepBack();
	expect(typedIn(after, 'a')).toBe('125');
	expect(after.said).toBe('Undone: the a 125 → 117 1/2');
	await settled(() =>
		expect([...store.kept.values()].filter(({ undone }) => undone)).toHaveLength(2),
	);
	const again = await window(store);
	again.stepForward();
	expect(typedIn(again, 'a')).toBe('117 1/2');
});

/** A course of whole numbers that is the same each time. */
function numbers(seed: number): (below: number) => number {
	let state = seed;
	return (below) => {
		state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
		return Math.floor((state / 2 ** 32) * below);
	};
}

/** A window that a browser lets sleep: it hears nothing, and what it is about to keep waits. */
async function drowsy(store: MemoryStore): Promise<{ desk: OpenJob; sleep: () => () => void }> {
	let awake = Promise.resolve();
	const keep: MemoryStore['keep'] = async (...what) => {
		await awake;
		return store.keep(...what);
	};
	const desk = await window({ ...store, keep });
	const { keeping } = desk;
	const sleep = (): (() => void) => {
		let wake = (): void => undefined;
		awake = new Promise((resolve) => (wake = resolve));
		keeping.look = () => undefined;
		return () => {
			wake();
			Reflect.deleteProperty(keeping, 'look');
			keeping.look();
		};
	};
	return { desk, sleep };
}

/** More of them in the long run. */
const rounds = Number(process.env['ROUNDS'] ?? 0);

test.each([
	[2, 1],
	[2, 2],
	[3, 3],
	[3, 4],
	...Array.from({ length: rounds }, (_, at): [number, number] => [2 + (at % 3), 5 + at]),
])(
	'%i windows that type at random, one of them asleep for a while, end in one state with every entry accounted for (%i)',
	async (count, seed) => {
		const random = numbers(seed);
		const store = memoryStore([first], first.id);
		store.before = () => new Promise((resolve) => setTimeout(resolve, random(4)));
		const beds = await Promise.all(Array.from({ length: count }, () => drowsy(store)));
		const windows = beds.map(({ desk }) => desk);
		/** The one that is asleep, and what wakes it. */
		let asleep: { at: number; wake: () => void } | undefined;
		/** By part and window: what it typed there last and nobody has seen and written over. */
		const open = new Map<string, string>();
		for (let n = 0; n < 150; n++) {
			if (n % 40 === 20) {
				const at = random(count);
				const wake = beds[at]?.sleep();
				if (wake) asleep = { at, wake };
			} else if (n % 40 === 0) {
				asleep?.wake();
				asleep = undefined;
			}
			const at = random(count);
			if (at === asleep?.at) continue;
			const here = windows[at];
			const name = names[random(names.length)] ?? '';
			if (!here) throw new Error('no window');
			const part = entryPart(name);
			const seen = partsOf(here.job).get(part);
			// What stands in the field is written over knowingly, whoever typed it.
			for (const [key, value] of open) {
				if (key.startsWith(part) && value === canonicalJson(seen)) open.delete(key);
			}
			here.type(name, `${n}`);
			here.leave();
			open.set(`${part} ${at}`, canonicalJson(partsOf(here.job).get(part)));
			if (random(3) === 0) await new Promise((resolve) => setTimeout(resolve, random(12)));
		}
		asleep?.wake();
		await settled(() => {
			const all = [...windows.map(({ job }) => job), store.records.get(first.id) as Job];
			expect(new Set(all.map(whole)).size).toBe(1);
		});
		const [{ job }] = windows as [OpenJob];
		const asked = job.clashes?.map(({ part, value }) => `${part} ${canonicalJson(value)}`) ?? [];
		for (const [key, value] of open) {
			const part = key.split(' ')[0] ?? '';
			const stands = canonicalJson(partsOf(job).get(part)) === value;
			expect(stands || asked.includes(`${part} ${value}`), `${key}: ${value}`).toBe(true);
		}
	},
);

/** All of a job but the hour; its clashes come in the order in which they were seen, which says nothing. */
function whole({ clashes = [], ...job }: Job): string {
	return canonicalJson({ ...job, changed: '', clashes: clashes.map(canonicalJson).sort() });
}
