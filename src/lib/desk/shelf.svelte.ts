/** The shelf of jobs: looking for one, copying one, throwing one away and having it back. */
import type { Job } from '../job/job.ts';
import { newId } from '../job/new-id.ts';
import { NotAJob, storedJob } from '../job/shape.ts';
import { reasonOf } from './job-store.ts';
import type { Keeping } from './keeping.svelte.ts';

/** How long a job that was thrown away can be put back, days. */
export const daysToPutBack = 30;
const dayLong = 24 * 60 * 60 * 1000;

/** A job that was thrown away and can be put back. */
export interface ThrownAwayJob {
	readonly job: Job;
	/** When it was thrown away, and when it goes for good, ISO 8601. */
	readonly when: string;
	readonly until: string;
}

/** What was thrown away, the last one first, and the ids of what is over its time by now. */
export function checkedThrownAway(
	found: readonly unknown[],
	now: Date,
): { readonly thrownAway: readonly ThrownAwayJob[]; readonly over: readonly string[] } {
	const thrownAway: ThrownAwayJob[] = [];
	const over: string[] = [];
	for (const each of found) {
		const { id, when, job } = Object(each) as Readonly<Record<string, unknown>>;
		const thrown = typeof when === 'string' ? Date.parse(when) : NaN;
		// What says nothing of its time is left alone.
		if (typeof id !== 'string' || typeof when !== 'string' || Number.isNaN(thrown)) continue;
		const until = thrown + daysToPutBack * dayLong;
		if (until <= now.getTime()) over.push(id);
		else {
			try {
				thrownAway.push({ job: storedJob(job), when, until: new Date(until).toISOString() });
			} catch (cause) {
				if (!(cause instanceof NotAJob)) throw cause;
			}
		}
	}
	thrownAway.sort((a, b) => b.when.localeCompare(a.when));
	return { thrownAway, over };
}

/**
 * When something is thrown away: now, or when the last job was changed where the clock says that is still to come.
 * With a clock that is set back it would be over its time at once when that is set right.
 */
export function thrownAwayAt(now: Date, shelf: readonly Job[]): string {
	const times = shelf.map(({ changed }) => changed).filter((time) => /^\d{4}-.*Z$/.test(time));
	return [...times, now.toISOString()].sort().at(-1) ?? '';
}

/** Letters as one looks for them: small, and without accents. */
const plain = (text: string): string => text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase();

/** The jobs whose title block has every one of some words. */
export function jobsWith(words: string, jobs: readonly Job[]): readonly Job[] {
	const wanted = plain(words).split(/\s+/);
	return jobs.filter(({ block }) => {
		const said = plain(Object.values(block).join(' '));
		return wanted.every((word) => said.includes(word));
	});
}

/** A copy of a job, as a job of its own: what was sealed is the other, and so it begins without seals. */
export function copyOf(job: Job, others: readonly Job[], now: Date): Job {
	const { seals: _seals, clashes: _clashes, ...rest } = job;
	const titles = new Set(others.map(({ block }) => block.title));
	const wish = `${job.block.title || 'Job without a title'}, copy`;
	let title = wish;
	for (let n = 2; titles.has(title); n++) title = `${wish} ${n.toString()}`;
	return { ...rest, id: newId(), block: { ...job.block, title }, changed: now.toISOString() };
}

export class ShelfOfJobs {
	readonly #keeping: Keeping;
	/** What was thrown away and can be put back, the last one first. */
	thrownAway: readonly ThrownAwayJob[] = $state.raw([]);
	/** What was done last, in words. */
	said = $state('');
	/** Id of the job it was done to, where that can be put back. */
	back = $state('');
	/** Why something could not be done; empty when it could. */
	problem = $state('');
	/** A job for which there is no room among the thrown away. */
	noRoomFor: Job | undefined = $state.raw();

	constructor(keeping: Keeping) {
		this.#keeping = keeping;
	}

	/** Looks what was thrown away; what is over its time goes for good. */
	async look(): Promise<void> {
		await this.#tried(() => this.#look());
	}

	async #look(): Promise<void> {
		const store = await this.#keeping.wholeShelf();
		const { thrownAway, over } = checkedThrownAway(await store.all(), new Date());
		for (const id of over) await store.drop(id);
		this.thrownAway = thrownAway;
	}

	async throwAway(job: Job): Promise<void> {
		this.noRoomFor = undefined;
		const done = await this.#tried(async () => {
			const store = await this.#keeping.wholeShelf();
			try {
				await store.throwAway(job.id, thrownAwayAt(new Date(), this.#keeping.shelf));
			} catch (cause) {
				if (cause instanceof Error && cause.name === 'QuotaExceededError') this.noRoomFor = job;
				throw cause;
			}
			await this.#keeping.shelfChanged(job.id, 'thrown away');
		});
		if (done) this.#say(`“${titleOf(job)}” is thrown away.`, job.id);
	}

	/** Where there is no room to have it among the thrown away. */
	async throwAwayForGood(job: Job): Promise<void> {
		this.noRoomFor = undefined;
		const done = await this.#tried(async () => {
			await (await this.#keeping.wholeShelf()).dropNow(job.id);
			await this.#keeping.shelfChanged(job.id, 'thrown away');
		});
		if (done) this.#say(`“${titleOf(job)}” is gone for good.`);
	}

	async putBack(id: string): Promise<void> {
		const found = this.thrownAway.find(({ job }) => job.id === id);
		const done = await this.#tried(async () => {
			const as = await (await this.#keeping.wholeShelf()).putBack(id, newId());
			if (as) await this.#keeping.shelfChanged(as, 'kept');
		});
		if (done && found) this.#say(`“${titleOf(found.job)}” is back.`);
	}

	/** Drops one that was thrown away. */
	async dropForGood({ job }: ThrownAwayJob): Promise<void> {
		const done = await this.#tried(async () => (await this.#keeping.wholeShelf()).drop(job.id));
		if (done) this.#say(`“${titleOf(job)}” is gone for good.`);
	}

	async copy(job: Job): Promise<void> {
		const copy = copyOf(job, this.#keeping.shelf, new Date());
		const done = await this.#tried(async () => {
			await (await this.#keeping.wholeShelf()).add(copy);
			await this.#keeping.shelfChanged(copy.id, 'kept');
		});
		if (done) this.#say(`“${titleOf(copy)}” is on the shelf.`);
	}

	#say(words: string, back = ''): void {
		[this.said, this.back] = [words, back];
	}

	/** @returns whether it was done */
	async #tried(work: () => Promise<unknown>): Promise<boolean> {
		this.problem = '';
		try {
			await work();
			await this.#look();
			return true;
		} catch (cause) {
			this.#say('');
			this.problem = `The browser did not do it (${reasonOf(cause)}). All jobs are as they were.`;
			return false;
		}
	}
}

export const titleOf = ({ block }: Job): string => block.title || 'Job without a title';
