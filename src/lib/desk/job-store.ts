/** Jobs kept in the browser, in IndexedDB. */
import { openDB, type DBSchema, type IDBPDatabase, type StoreNames } from 'idb';
import type { Job } from '../job/job.ts';
import { NotAJob, storedJob } from '../job/shape.ts';
import type { WholeShelf, ThrownAway } from './whole-shelf.ts';
import type { KeptStep, StepsToKeep } from './history.ts';

export interface Shelf extends DBSchema {
	jobs: { key: string; value: Job };
	/** Single facts by name: which job was opened last. */
	facts: { key: string; value: string };
	/** What was done to each job, step by step. */
	steps: { key: [job: string, n: number, id: string]; value: KeptStep };
	/** Jobs thrown away, for a while. Their steps stay where they are. */
	thrown: { key: string; value: ThrownAway };
}

/**
 * Where jobs are kept. Every promise rejects when the browser will not keep anything, or does not answer in
 * time; asking again begins anew. What comes out may have been put there by another version, or by another
 * program: checkedShelf says what of it are jobs.
 */
export interface JobStore {
	all(): Promise<readonly unknown[]>;
	get(id: string): Promise<unknown>;
	/**
	 * Keeps a job, and as the one that was opened last; all of it or nothing, and no other window between.
	 * @param next from what is kept of it by now to what is to be kept
	 * @returns what is kept
	 */
	keep(id: string, next: (kept: unknown) => Job, steps?: StepsToKeep): Promise<Job>;
	/** What is done to the shelf as a whole; it comes when it is wanted. */
	wholeShelf(): Promise<WholeShelf>;
	/** Id of the job that was opened last, in whichever window. */
	current(): Promise<string | undefined>;
	/** What was done to a job; see historyFrom. */
	steps(id: string): Promise<readonly unknown[]>;
}

/** Something kept among the jobs that is none. */
export interface DamagedRecord {
	/** What it is kept under; empty when not even that can be told. */
	readonly id: string;
	/** The part that is missing or is not what it should be. */
	readonly where: string;
}

/** What was kept, checked as a file is: the jobs, the one changed last first, and what is none. */
export function checkedShelf(found: readonly unknown[]): {
	readonly jobs: Job[];
	readonly damaged: DamagedRecord[];
} {
	const jobs: Job[] = [];
	const damaged: DamagedRecord[] = [];
	for (const each of found) {
		if (each === undefined) continue;
		try {
			jobs.push(storedJob(each));
		} catch (cause) {
			if (!(cause instanceof NotAJob)) throw cause;
			const { id } = Object(each) as { id?: unknown };
			damaged.push({ id: typeof id === 'string' ? id : '', where: cause.where.join(' › ') });
		}
	}
	jobs.sort((a, b) => b.changed.localeCompare(a.changed));
	return { jobs, damaged };
}

/** Why a store would not do something, in words that follow a bracket; never empty. */
export function reasonOf(cause: unknown): string {
	if (!(cause instanceof Error)) return String(cause) || 'it gives no reason';
	return reasons.get(cause.name) ?? (cause.message || cause.name || 'it gives no reason');
}

/** By the names that the standard gives them. */
const reasons: ReadonlyMap<string, string> = new Map([
	['QuotaExceededError', 'the disk, or this page’s share of it, is full'],
	['SecurityError', 'storage is switched off for this page'],
	['VersionError', 'a later version of the workbook was here; load the page again'],
	['InvalidStateError', 'its database was closed'],
]);

/** A store that never answers is none. Far beyond what a slow disk takes, and short enough to wait for. */
const longestWait = 6000;

/** @param wait milliseconds */
async function inTime<T>(work: Promise<T>, wait: number): Promise<T> {
	let timer: ReturnType<typeof setTimeout> | undefined;
	const late = new Promise<never>((_, reject) => {
		timer = setTimeout(() => {
			reject(new Error('its database does not answer'));
		}, wait);
	});
	try {
		return await Promise.race([work, late]);
	} finally {
		clearTimeout(timer);
	}
}

export const everything = (job: string): IDBKeyRange => IDBKeyRange.bound([job], [job, []]);

export type Opened = IDBPDatabase<Shelf>;

/** Does something with the database, and answers in time or not at all. */
export type Ask = <T>(work: (shelf: Opened) => Promise<T>) => Promise<T>;

/** Opens the database. @param gone is called when it was closed from outside */
function openShelf(gone: () => void): Promise<Opened> {
	return openDB<Shelf>('ride-height', 3, {
		upgrade(database, before) {
			if (before < 1) {
				database.createObjectStore('jobs', { keyPath: 'id' });
				database.createObjectStore('facts');
			}
			if (before < 2) database.createObjectStore('steps', { keyPath: ['job', 'n', 'id'] });
			database.createObjectStore('thrown', { keyPath: 'id' });
		},
		// A later version of the program wants to open it: it is not kept waiting.
		blocking(_now, _wanted, event) {
			(event.target as IDBDatabase).close();
			gone();
		},
		terminated: gone,
	});
}

const close = (shelf: Opened): void => {
	shelf.close();
};

/** The store of this browser. */
export function jobStore(wait = longestWait): JobStore {
	let opened: Promise<Opened> | undefined;
	const forget = (): void => {
		opened = undefined;
	};
	const tried = async <T>(work: (shelf: Opened) => Promise<T>): Promise<T> => {
		const opening = (opened ??= openShelf(forget));
		try {
			return await inTime(opening.then(work), wait);
		} catch (cause) {
			// It may have been closed or cleared in between: whoever asks next gets another.
			if (opened === opening) forget();
			void opening.then(close, () => undefined);
			throw cause;
		}
	};
	/** Once more where only the connection was closed. */
	const ask: Ask = (work) =>
		tried(work).catch((cause: unknown) => {
			if (cause instanceof Error && cause.name === 'InvalidStateError') return tried(work);
			throw cause;
		});
	return {
		all: () => ask((shelf) => shelf.getAll('jobs')),
		get: (id) => ask((shelf) => shelf.get('jobs', id)),
		keep: (id, next, steps) => ask((shelf) => keepIn(shelf, id, next, steps)),
		wholeShelf: async () => (await import('./whole-shelf.ts')).wholeShelfOf(ask),
		current: () =>
			ask(async (shelf) => {
				const id: unknown = await shelf.get('facts', 'current');
				return typeof id === 'string' ? id : undefined;
			}),
		steps: (id) => ask((shelf) => shelf.getAll('steps', everything(id))),
	};
}

const allStores: StoreNames<Shelf>[] = ['jobs', 'facts', 'steps'];

async function keepIn(
	shelf: Opened,
	id: string,
	next: (kept: unknown) => Job,
	steps: StepsToKeep = { write: [], drop: [] },
): Promise<Job> {
	// The next edit waits for this one, and for the disk itself it would wait long: what is handed to the system
	// outlives a browser that is killed, though not a power cut in that moment.
	const change = shelf.transaction(allStores, 'readwrite', { durability: 'relaxed' });
	const done = change.done;
	// Whoever waits for something else hears of it first; this one is looked at below.
	done.catch(() => undefined);
	const jobs = change.objectStore('jobs');
	const job = next(await jobs.get(id));
	const history = change.objectStore('steps');
	await Promise.all([
		jobs.put(job),
		change.objectStore('facts').put(id, 'current'),
		...steps.drop.map(({ job: of, n, id: step }) => history.delete([of, n, step])),
		...steps.write.map((step) => history.put(step)),
	]);
	await done;
	return job;
}
