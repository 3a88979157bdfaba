/** Jobs kept in the browser, in IndexedDB. */
import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import type { Job } from '../job/job.ts';
import { NotAJob, storedJob } from '../job/shape.ts';

interface Shelf extends DBSchema {
	jobs: { key: string; value: Job };
	/** Single facts by name: which job is open. */
	facts: { key: string; value: string };
}

/**
 * Where jobs are kept. Every promise rejects when the browser will not keep anything. What comes out may have
 * been put there by another version, or by another program: checkedShelf says what of it are jobs.
 */
export interface JobStore {
	all(): Promise<readonly unknown[]>;
	get(id: string): Promise<unknown>;
	put(job: Job): Promise<void>;
	remove(id: string): Promise<void>;
	/** Id of the job that was open last. */
	current(): Promise<string | undefined>;
	setCurrent(id: string): Promise<void>;
}

/** Something kept among the jobs that is none. */
export interface SetAside {
	/** What it is kept under; empty when not even that can be told. */
	readonly id: string;
	/** The part that is missing or is not what it should be. */
	readonly where: string;
}

/** What was kept, checked as a file is: the jobs, the one changed last first, and what is none. */
export function checkedShelf(found: readonly unknown[]): {
	readonly jobs: Job[];
	readonly setAside: SetAside[];
} {
	const jobs: Job[] = [];
	const setAside: SetAside[] = [];
	for (const each of found) {
		if (each === undefined) continue;
		try {
			jobs.push(storedJob(each));
		} catch (cause) {
			if (!(cause instanceof NotAJob)) throw cause;
			const { id } = Object(each) as { id?: unknown };
			setAside.push({ id: typeof id === 'string' ? id : '', where: cause.where.join(' › ') });
		}
	}
	jobs.sort((a, b) => b.changed.localeCompare(a.changed));
	return { jobs, setAside };
}

/** The store of this browser. */
export function jobStore(): JobStore {
	let opened: Promise<IDBPDatabase<Shelf>> | undefined;
	const shelf = (): Promise<IDBPDatabase<Shelf>> =>
		(opened ??= openDB<Shelf>('ride-height', 1, {
			upgrade(database) {
				database.createObjectStore('jobs', { keyPath: 'id' });
				database.createObjectStore('facts');
			},
		}));
	return {
		all: async () => (await shelf()).getAll('jobs'),
		get: async (id) => (await shelf()).get('jobs', id),
		async put(job) {
			await (await shelf()).put('jobs', job);
		},
		remove: async (id) => (await shelf()).delete('jobs', id),
		async current() {
			const id: unknown = await (await shelf()).get('facts', 'current');
			return typeof id === 'string' ? id : undefined;
		},
		async setCurrent(id) {
			await (await shelf()).put('facts', id, 'current');
		},
	};
}
