/** Jobs kept in the browser, in IndexedDB. */
import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import type { Job } from '../job/job.ts';

interface Shelf extends DBSchema {
	jobs: { key: string; value: Job };
	/** Single facts by name: which job is open. */
	facts: { key: string; value: string };
}

/** Where jobs are kept. Every promise rejects when the browser will not keep anything. */
export interface JobStore {
	all(): Promise<Job[]>;
	get(id: string): Promise<Job | undefined>;
	put(job: Job): Promise<void>;
	remove(id: string): Promise<void>;
	/** Id of the job that was open last. */
	current(): Promise<string | undefined>;
	setCurrent(id: string): Promise<void>;
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
		async all() {
			const jobs = await (await shelf()).getAll('jobs');
			return jobs.sort((a, b) => b.changed.localeCompare(a.changed));
		},
		get: async (id) => (await shelf()).get('jobs', id),
		async put(job) {
			await (await shelf()).put('jobs', job);
		},
		remove: async (id) => (await shelf()).delete('jobs', id),
		current: async () => (await shelf()).get('facts', 'current'),
		async setCurrent(id) {
			await (await shelf()).put('facts', id, 'current');
		},
	};
}
