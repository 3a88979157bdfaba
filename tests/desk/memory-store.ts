/** A store as the browser's, in memory: shared by windows, and made to fail or to be slow where a test wants it. */
import type { KeptStep } from '../../src/lib/desk/history.ts';
import type { ThrownAway } from '../../src/lib/desk/whole-shelf.ts';
import type { JobStore } from '../../src/lib/desk/job-store.ts';

export interface MemoryStore extends JobStore {
	/** What is kept, by id: copies, as a database gives and takes them. */
	readonly records: Map<string, unknown>;
	readonly kept: Map<string, KeptStep>;
	readonly thrown: Map<string, ThrownAway>;
	/** What is opened next in a window that never was. */
	last: string | undefined;
	/** Called before anything is read or written; what it throws, the store throws. */
	before: () => Promise<void> | void;
}

export function memoryStore(records: readonly unknown[] = [], last?: string): MemoryStore {
	const idOf = (record: unknown, at: number): string => {
		const { id } = Object(record) as { id?: unknown };
		return typeof id === 'string' ? id : `without an id ${at}`;
	};
	const store: MemoryStore = {
		records: new Map(records.map((record, at) => [idOf(record, at), structuredClone(record)])),
		kept: new Map(),
		thrown: new Map(),
		last,
		before: () => undefined,
		async all() {
			await store.before();
			return [...store.records.values()].map((each) => structuredClone(each));
		},
		async get(id) {
			await store.before();
			return structuredClone(store.records.get(id));
		},
		async keep(id, next, { write, drop } = { write: [], drop: [] }) {
			await store.before();
			const job = next(structuredClone(store.records.get(id)));
			store.records.set(id, structuredClone(job));
			store.last = id;
			const key = (step: Pick<KeptStep, 'job' | 'n' | 'id'>): string =>
				[step.job, step.n, step.id].join();
			for (const step of drop) store.kept.delete(key(step));
			for (const step of write) store.kept.set(key(step), structuredClone(step));
			return structuredClone(job);
		},
		async wholeShelf() {
			await store.before();
			return {
				all: async () => [...store.thrown.values()].map((each) => structuredClone(each)),
				async throwAway(id, when) {
					await store.before();
					if (store.records.has(id)) {
						store.thrown.set(id, { id, when, job: store.records.get(id) });
					}
					store.records.delete(id);
					if (store.last === id) store.last = undefined;
				},
				async putBack(id, other) {
					await store.before();
					const found = store.thrown.get(id);
					if (!found) return '';
					const as = store.records.has(id) ? other : id;
					store.records.set(as, { ...Object(found.job), id: as });
					store.thrown.delete(id);
					return as;
				},
				async drop(id) {
					await store.before();
					store.thrown.delete(id);
					if (store.records.has(id)) return;
					for (const [key, { job }] of store.kept) if (job === id) store.kept.delete(key);
				},
				async dropNow(id) {
					await store.before();
					store.records.delete(id);
					for (const [key, { job }] of store.kept) if (job === id) store.kept.delete(key);
				},
				async add(job) {
					await store.before();
					store.records.set(job.id, structuredClone(job));
				},
			};
		},
		async current() {
			await store.before();
			return store.last;
		},
		async steps(id) {
			await store.before();
			return [...store.kept.values()]
				.filter(({ job }) => job === id)
				.map((step) => structuredClone(step));
		},
	};
	return store;
}
