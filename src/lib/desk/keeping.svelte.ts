/**
 * Keeps jobs in the browser's store, and puts together what other windows keep there. One thing at a time: what
 * is read and written of a job in this window never overlaps. What could not be kept is tried again until it is.
 */
import type { Clash, Job } from '../job/job.ts';
import { canonicalJson, isSame } from '../job/canonical.ts';
import { changesBetween, merged, withClashes } from '../job/parts.ts';
import type * as leftOver from './left-over.ts';
import { historyFrom, noHistory, stepsToKeep, type History } from './history.ts';
import type { WholeShelf } from './whole-shelf.ts';
import { checkedShelf, reasonOf, type JobStore, type DamagedRecord } from './job-store.ts';
import type { Marks } from './marks.ts';

/** A job in this window. */
export interface Held {
	job: Job;
	history: History;
	/** As it was last seen in the store; none when it never was there. */
	base?: Job | undefined;
	/** The same as text, where this window wrote it. */
	baseText?: string;
	/** What of this window is in the store. */
	keptJob?: Job | undefined;
	keptHistory: History;
	/** Where what was left over of it stands, which is in the job. */
	leftOver?: readonly string[];
	/** Thrown away in another window, and not worked on since: it is kept again when somebody wants it. */
	thrownAway?: boolean;
}

/** A job that is not in the store. */
export function held(job: Job, history: History): Held {
	return { job, history, keptHistory: noHistory };
}

/** A job that should be here and is not. */
export interface Missing {
	readonly id: string;
	/** Its title, where that is remembered. */
	readonly title: string;
	/** When it was last kept, ISO 8601; empty where that is not known. */
	readonly kept: string;
	readonly why: 'gone' | 'damaged' | 'no answer';
	/** What is left of a damaged one. */
	readonly rest?: unknown;
}

/** Whoever has the open job. */
interface Listener {
	/** The job of one held is another now: it was put together with what another window did. */
	merged(held: Held, before: Job): void;
	/** The store answers again after it did not. */
	answered(): void;
}

/** What windows tell each other. */
interface Message {
	readonly job: string;
	readonly what: 'kept' | 'thrown away';
}

/** Values of one part that this window kept one after the other; older ones than these nobody asks about. */
const mostOwn = 50;
/** For how long nothing moves until a job whose drawing is dragged is kept, and how long that is waited for at most, ms. */
const pause = 250;
const longestPause = 2000;
/** How long it waits until it tries again, milliseconds: longer each time, up to the last. */
const waits = [1000, 2000, 5000, 10_000, 30_000];

export class Keeping {
	readonly #store: JobStore;
	readonly #marks: Marks;
	readonly #tellJob: Listener;
	/** Jobs kept in this browser, latest first. */
	shelf: readonly Job[] = $state.raw([]);
	/** What the browser keeps among the jobs and is none; it is left as it is. */
	damaged: readonly DamagedRecord[] = $state.raw([]);
	/** When the open job was last kept, ISO 8601; empty while it never was. */
	keptAt = $state('');
	/** Whether the last thing that was done to the open job is on its way to being kept. */
	isComing = $state(false);
	/** Why the browser does not keep the job; empty while it does. */
	notKept = $state('');
	/** The browser may clear what it keeps when it runs short; undefined until it was asked. */
	mayClear: boolean | undefined = $state();
	#saving: Promise<void> = Promise.resolve();
	/** The job that waits until nothing moves, and since when. */
	#pausing:
		| { readonly of: Held; readonly since: number; readonly timer: ReturnType<typeof setTimeout> }
		| undefined;
	#waiting: ReturnType<typeof setTimeout> | undefined;
	#tries = 0;
	#open: Held | undefined;
	/** Jobs that were open in this window before. */
	readonly #before = new Map<string, Held>();
	#windows: BroadcastChannel | undefined;
	#leftOver: typeof leftOver | undefined;
	/** By part: what this window kept there, the last one last. */
	readonly #own = new Map<string, string[]>();

	constructor(store: JobStore, marks: Marks, listener: Listener) {
		this.#store = store;
		this.#marks = marks;
		this.#tellJob = listener;
	}

	/** Another job is open in this window. */
	open(job: Held): void {
		this.keepWaiting();
		if (this.#open) this.#before.set(this.#open.job.id, this.#open);
		this.#open = job;
		this.#own.clear();
		this.keptAt = '';
		if (job.leftOver) this.keep(job);
	}

	/** A job that was open in this window before. */
	heldBefore(id: string): Held | undefined {
		return this.#before.get(id);
	}

	/** Whether something of a person's is nowhere but in this window. */
	get isWanting(): boolean {
		return this.notKept !== '' && this.#unkept().length > 0;
	}

	#unkept(): Held[] {
		const all = [...this.#before.values(), ...(this.#open ? [this.#open] : [])];
		return all.filter((each) => each.keptJob !== each.job);
	}

	/** Hears what other windows do to the same job. */
	listen(): void {
		if (this.#windows || typeof BroadcastChannel === 'undefined') return;
		this.#windows = new BroadcastChannel('ride-height');
		this.#windows.onmessage = ({ data }: MessageEvent<Message>) => {
			const { job, what } = data;
			if (what === 'thrown away') this.#before.delete(job);
			if (job === this.#open?.job.id) {
				if (what === 'kept') this.look();
				else this.#sayThrownAway(this.#open);
			}
			void this.lookAtShelf().catch(() => undefined);
		};
	}

	#tell(job: string, what: Message['what']): void {
		this.#windows?.postMessage({ job, what } satisfies Message);
	}

	#sayThrownAway(of: Held): void {
		of.keptJob = undefined;
		of.thrownAway = true;
		this.notKept =
			'This job was thrown away in another window. It is still here: change something and it is kept again, or save it to a file.';
	}

	/**
	 * Keeps a job when nothing has moved for a moment, so that it is in the way of no frame. A window that goes
	 * before leaves over what is not kept.
	 */
	keepSoon(job: Held): void {
		this.isComing = true;
		const now = performance.now();
		if (this.#pausing?.of !== job) this.keepWaiting();
		const since = this.#pausing?.since ?? now;
		clearTimeout(this.#pausing?.timer);
		const wait = Math.min(pause, since + longestPause - now);
		const timer = setTimeout(() => {
			this.keep(job);
		}, wait);
		this.#pausing = { of: job, since, timer };
	}

	/** Keeps at once what waits for that moment. */
	keepWaiting(): void {
		if (this.#pausing) this.keep(this.#pausing.of);
	}

	/** Keeps the open job as it stands when its turn comes. */
	keep(job = this.#open): void {
		if (!job) return;
		if (this.#pausing?.of === job) {
			clearTimeout(this.#pausing.timer);
			this.#pausing = undefined;
		}
		this.isComing = true;
		this.#saving = this.#saving
			.then(() => this.#keepNow(job))
			.catch((cause: unknown) => {
				this.fail(cause);
			})
			.then(() => {
				this.isComing = this.#unkept().length > 0;
				if (!this.isComing) this.#marks.leave('');
			});
	}

	/** The window may be gone in a moment: what is not kept of the open job is left over, without waiting. */
	leave(): void {
		const of = this.#open;
		if (!of || (of.keptJob === of.job && of.keptHistory === of.history)) return;
		const { job, base, keptHistory, history } = of;
		const own = this.#own;
		const steps = stepsToKeep(job.id, keptHistory, history);
		const text = this.#leftOver?.leftOverText({ job, base, own, steps });
		if (text === undefined) return;
		this.#marks.leave(text);
		this.#marks.write({ id: job.id, title: job.block.title, kept: this.keptAt.slice(0, 16) });
	}

	/** Fetches what writes what is left over: when it is needed there is no time to. */
	async prepareToLeave(): Promise<typeof leftOver> {
		return (this.#leftOver ??= await import('./left-over.ts'));
	}

	async #keepNow(of: Held): Promise<void> {
		const { job, history, base } = of;
		if (of.keptJob === job && of.keptHistory === history) return;
		if (of === this.#open) this.#remember(base, job);
		const kept = await this.#store.keep(
			job.id,
			(found) => {
				// What this window wrote last, which no other has touched, needs no reading and no putting together.
				if (base && JSON.stringify(found) === of.baseText) return job;
				const [theirs] = checkedShelf([found]).jobs;
				return theirs ? this.#together(base ?? theirs, job, theirs) : job;
			},
			stepsToKeep(job.id, of.keptHistory, history),
		);
		of.base = kept;
		of.baseText = JSON.stringify(kept);
		of.keptHistory = history;
		of.keptJob = job;
		of.thrownAway = false;
		for (const key of of.leftOver ?? []) this.#marks.dropLeft(key);
		delete of.leftOver;
		if (kept !== job) this.#takeIn(of, job, kept);
		this.shelf = [of.job, ...this.shelf.filter(({ id }) => id !== job.id)];
		if (of === this.#open) this.#sayKept(of.job);
		this.#tell(job.id, 'kept');
	}

	#sayKept(job: Job): void {
		const now = new Date().toISOString();
		this.keptAt = now;
		this.notKept = '';
		this.#tries = 0;
		this.#marks.write({ id: job.id, title: job.block.title, kept: now.slice(0, 16) });
		if (this.mayClear === undefined) void this.#askToStay();
		for (const each of this.#unkept()) this.keep(each);
	}

	/** Asks the browser, once, not to clear what it keeps when it runs short. */
	async #askToStay(): Promise<void> {
		this.mayClear = true;
		// Only where the address is encrypted or the computer's own does a browser have it.
		const { storage } = (globalThis.navigator as Partial<Navigator> | undefined) ?? {};
		try {
			if (storage) this.mayClear = !((await storage.persisted()) || (await storage.persist()));
		} catch {
			// It cannot say: then it may.
		}
	}

	/** Looks what another window made of the open job: it may have slept through what they told. */
	look(): void {
		const of = this.#open;
		if (!of?.base) return;
		this.#saving = this.#saving
			.then(async () => {
				const theirs = await this.kept(of.job.id);
				if (!theirs || !of.base) return;
				const base = of.base;
				of.base = theirs;
				delete of.baseText;
				this.#takeIn(of, base, theirs);
				if (of.thrownAway) this.#isBack(of, theirs);
			})
			.catch((cause: unknown) => {
				this.fail(cause);
			});
	}

	/** A job that was thrown away was put back, or kept again, in another window. */
	#isBack(of: Held, theirs: Job): void {
		of.thrownAway = false;
		if (!isSame(of.job, theirs)) {
			this.keep(of);
			return;
		}
		of.keptJob = of.job;
		if (of === this.#open) this.#sayKept(of.job);
	}

	/** Puts what is kept into the job of this window. @param base what both began from */
	#takeIn(of: Held, base: Job, theirs: Job): void {
		const before = of.job;
		const all = merged(base, before, theirs);
		const now = this.#withoutOvertaken(all);
		if (now === before) return;
		const isKept = of.keptJob === before;
		if (isKept) of.keptJob = now;
		of.job = now;
		this.#tellJob.merged(of, before);
		// What is kept still asks about something that was written over here since.
		if (isKept && now !== all) {
			of.keptJob = undefined;
			this.keep(of);
		}
	}

	#together(base: Job, mine: Job, theirs: Job): Job {
		return this.#withoutOvertaken(merged(base, mine, theirs));
	}

	#withoutOvertaken(job: Job): Job {
		return withClashes(job, (clash) => !this.#isOvertaken(clash));
	}

	/** Whether a clash is about something this window itself wrote over since: the first letters of a word. */
	#isOvertaken({ part, value }: Clash): boolean {
		const own = this.#own.get(part);
		return own?.slice(0, -1).includes(canonicalJson(value)) ?? false;
	}

	#remember(base: Job | undefined, job: Job): void {
		if (!base) return;
		for (const [part, [, value]] of changesBetween(base, job)) {
			const own = this.#own.get(part) ?? [];
			this.#own.set(part, [...own.slice(1 - mostOwn), canonicalJson(value)]);
		}
	}

	/** The browser does not keep what it should: says so, and tries again by and by. */
	fail(cause: unknown): void {
		this.notKept = `This browser does not keep the job (${reasonOf(cause)}). Save it to a file before you close the page.`;
		clearTimeout(this.#waiting);
		const wait = waits[Math.min(this.#tries++, waits.length - 1)];
		this.#waiting = setTimeout(() => {
			this.tryAgain();
		}, wait);
		// In a terminal nothing waits for it.
		(this.#waiting as { unref?: () => void }).unref?.();
	}

	/**
	 * Tries again to keep what is not kept.
	 * @param asked by somebody who sees it: then also what was thrown away in another window
	 */
	tryAgain(asked = false): void {
		clearTimeout(this.#waiting);
		const unkept = this.#unkept().filter(({ thrownAway }) => asked || !thrownAway);
		for (const each of unkept) this.keep(each);
		if (unkept.length > 0 || this.#open?.thrownAway) return;
		this.lookAtShelf().then(
			() => {
				this.notKept = '';
				this.#tries = 0;
				this.#tellJob.answered();
			},
			(cause: unknown) => {
				this.fail(cause);
			},
		);
	}

	/** A job of the store; undefined when there is none of that id, or what is there is none. */
	async kept(id: string): Promise<Job | undefined> {
		return checkedShelf([await this.#store.get(id)]).jobs[0];
	}

	/** A job of the store with what was done to it. @throws what the store throws */
	async heldOf(id: string): Promise<Held | Missing> {
		this.keepWaiting();
		const [found, steps] = await Promise.all([this.#store.get(id), this.#store.steps(id)]);
		const [keptJob] = checkedShelf([found]).jobs;
		const keptHistory = historyFrom(steps);
		const isKept = { base: keptJob, keptJob, keptHistory };
		const all = found === undefined || keptJob ? this.#marks.left() : [];
		if (all.length > 0) {
			const { takenUp } = await this.prepareToLeave();
			const taken = takenUp(id, keptJob, steps, all);
			if (taken) return { ...taken, history: historyFrom(taken.steps), ...isKept };
		}
		if (!keptJob) return this.#missing(id, found);
		return { job: keptJob, history: keptHistory, ...isKept };
	}

	#missing(id: string, found: unknown): Missing {
		const mark = this.#marks.read();
		const { title, kept } = mark?.id === id ? mark : { title: '', kept: '' };
		const why = found === undefined ? 'gone' : 'damaged';
		return { id, title, kept, why, ...(found !== undefined && { rest: found }) };
	}

	/** What this window, or else the last one, had open; nothing for somebody who is here for the first time. */
	async last(): Promise<Held | Missing | undefined> {
		const mark = this.#marks.read();
		try {
			const id = mark?.id ?? (await this.#store.current());
			return id === undefined ? undefined : await this.heldOf(id);
		} catch (cause) {
			this.fail(cause);
			return mark && { ...mark, why: 'no answer' };
		}
	}

	/** That the open job is in the store, as it is. */
	sayFound(job: Job): void {
		this.keptAt = job.changed;
		this.#marks.write({ id: job.id, title: job.block.title, kept: job.changed.slice(0, 16) });
	}

	/** The job that is missed is not looked for any more. */
	forget({ id }: Missing): void {
		this.#marks.clear(id);
	}

	async lookAtShelf(): Promise<void> {
		const { jobs, damaged } = checkedShelf(await this.#store.all());
		[this.shelf, this.damaged] = [jobs, damaged];
	}

	/** What is done to the shelf as a whole. */
	async wholeShelf(): Promise<WholeShelf> {
		// A job that is on its way into the store would come after it was thrown away.
		this.keepWaiting();
		await this.#saving;
		return this.#store.wholeShelf();
	}

	/** A job went from the shelf, or came to it: other windows hear of it. */
	async shelfChanged(id: string, what: Message['what']): Promise<void> {
		if (what === 'thrown away') {
			this.#before.delete(id);
			this.#marks.clear(id);
		}
		this.#tell(id, what);
		await this.lookAtShelf();
	}
}
