/** What is done to the shelf of jobs as a whole, in the browser's database. Loaded only where the shelf is shown. */
import type { Job } from '../job/job.ts';
import { everything, type Ask, type Opened } from './job-store.ts';

/** A job as it was when it was thrown away. */
export interface ThrownAway {
	readonly id: string;
	/** As it was found; it is checked when it comes back. */
	readonly job: unknown;
	/** ISO 8601. */
	readonly when: string;
}

/** Every promise rejects where the store's own do. Each does all of it or nothing. */
export interface WholeShelf {
	/** What was thrown away and is still here, whoever put it there. */
	all(): Promise<readonly unknown[]>;
	/** Takes a job off the shelf and puts it among the thrown away; what was done to it stays with it. @param when ISO 8601 */
	throwAway(id: string, when: string): Promise<void>;
	/**
	 * Puts one back on the shelf.
	 * @param other id that it gets where another window kept a job of its own id again
	 * @returns the id it is back under; empty when there is none
	 */
	putBack(id: string, other: string): Promise<string>;
	/** Drops one that was thrown away, for good. */
	drop(id: string): Promise<void>;
	/** Takes a job off the shelf for good: where there is no room to have it among the thrown away. */
	dropNow(id: string): Promise<void>;
	/** One more on the shelf. */
	add(job: Job): Promise<void>;
}

export function wholeShelfOf(ask: Ask): WholeShelf {
	return {
		all: () => ask((shelf) => shelf.getAll('thrown')),
		throwAway: (id, when) => ask((shelf) => takeOff(shelf, id, when)),
		putBack: (id, other) => ask((shelf) => putBack(shelf, id, other)),
		drop: (id) => ask((shelf) => drop(shelf, id)),
		dropNow: (id) => ask((shelf) => takeOff(shelf, id)),
		add: (job) =>
			ask(async (shelf) => {
				await shelf.put('jobs', job);
			}),
	};
}

/** @param when it is thrown away; without it, it goes for good */
async function takeOff(shelf: Opened, id: string, when?: string): Promise<void> {
	const change = shelf.transaction(['jobs', 'facts', 'steps', 'thrown'], 'readwrite');
	const { done } = change;
	done.catch(() => undefined);
	const [jobs, facts] = [change.objectStore('jobs'), change.objectStore('facts')];
	const job: unknown = await jobs.get(id);
	await Promise.all([
		...(when !== undefined && job !== undefined
			? [change.objectStore('thrown').put({ id, job, when })]
			: [change.objectStore('steps').delete(everything(id))]),
		jobs.delete(id),
		facts.get('current').then((current) => (current === id ? facts.delete('current') : undefined)),
	]);
	await done;
}

async function putBack(shelf: Opened, id: string, other: string): Promise<string> {
	const change = shelf.transaction(['jobs', 'thrown'], 'readwrite');
	const { done } = change;
	done.catch(() => undefined);
	const [jobs, thrown] = [change.objectStore('jobs'), change.objectStore('thrown')];
	const [found, here] = await Promise.all([thrown.get(id), jobs.getKey(id)]);
	if (!found) return '';
	const as = here === undefined ? id : other;
	await Promise.all([jobs.put({ ...(found.job as Job), id: as }), thrown.delete(id)]);
	await done;
	return as;
}

async function drop(shelf: Opened, id: string): Promise<void> {
	const change = shelf.transaction(['jobs', 'steps', 'thrown'], 'readwrite');
	const { done } = change;
	done.catch(() => undefined);
	const here = await change.objectStore('jobs').getKey(id);
	await Promise.all([
		change.objectStore('thrown').delete(id),
		...(here === undefined ? [change.objectStore('steps').delete(everything(id))] : []),
	]);
	await done;
}
