/**
 * The steps a person can take back, as plain data: each change gives another history. A step holds what it
 * changed and nothing else, so that taking it back leaves alone what was done since, here or in another window.
 */
import { isSame } from '../job/canonical.ts';
import type { Job } from '../job/job.ts';
import { newId } from '../job/new-id.ts';
import { changesBetween, isOrder, partsOf, withParts, type Changes } from '../job/parts.ts';

/** One thing that was done. Each change of it gives another object. */
export interface Step {
	readonly id: string;
	/** Grows from step to step. */
	readonly n: number;
	/** What was done, and to which field: what goes on in the same field is the same step. */
	readonly field: string;
	/** What it changed, as it changed it last: taken back and brought again it may have been less. */
	readonly changes: Changes;
	/** The other job, where the step was to open one: the one before of a past step, the one after of a future one. */
	readonly other?: string;
}

export interface History {
	/** The last one is the next to go back to. */
	readonly past: readonly Step[];
	readonly future: readonly Step[];
	/** Whether the field was left: what is typed in it next is a step of its own. */
	readonly left: boolean;
}

export const noHistory: History = { past: [], future: [], left: false };

/** Steps that are kept of one job: more than anybody does in a day, and little beside a photograph. */
export const mostSteps = 10_000;

/** Whether a change of a field goes on with the last one: a run of keystrokes goes back as one. */
export function goesOn({ past, future, left }: History, field: string): boolean {
	return past.at(-1)?.field === field && !left && future.length === 0;
}

/**
 * @param before the job before the change
 * @param after the job it made
 */
export function withStep(history: History, before: Job, after: Job, field: string): History {
	const changes = changesBetween(before, after);
	const last = history.past.at(-1);
	if (last && goesOn(history, field)) {
		const whole = { ...last, changes: together(last.changes, changes) };
		return { past: [...history.past.slice(0, -1), whole], future: [], left: false };
	}
	return withNew(history, { field, changes });
}

/** The history of a job that has none yet. @param other id of the job that was open before */
export function opening(other: string): History {
	return { ...withNew(noHistory, { field: 'open', changes: new Map(), other }), left: true };
}

/** A history from which one step forward opens another job again. */
export function withReturnTo(
	history: History,
	{ step, job }: { step: Step; job: string },
): History {
	return { ...history, future: [...history.future, { ...step, other: job }] };
}

function withNew(history: History, step: Omit<Step, 'id' | 'n'>): History {
	const n = (history.past.at(-1)?.n ?? 0) + 1;
	const past = [...history.past.slice(1 - mostSteps), { id: newId(), n, ...step }];
	return { past, future: [], left: false };
}

/** Two runs of changes as one: from before the first to after the second. */
function together(first: Changes, second: Changes): Changes {
	const all = new Map(first);
	for (const [part, [before, after]] of second) {
		const from = all.has(part) ? all.get(part)?.[0] : before;
		if (isSame(from, after)) all.delete(part);
		else all.set(part, [from, after]);
	}
	return all;
}

export function withFieldLeft(history: History): History {
	return { ...history, left: true };
}

/** A step that was taken, back or forward. */
export interface Taken {
	readonly history: History;
	readonly step: Step;
	/** The job as it is then; the one that was open before, where the step opened another. */
	readonly job: Job;
}

/**
 * One step back from how things stand, or forward again; undefined when there is none. Only what still stands
 * as the step left it is changed; a step of which nothing does is passed over.
 */
export function stepped(history: History, now: Job, way: 'back' | 'forward'): Taken | undefined {
	const [from, to] = way === 'back' ? ([1, 0] as const) : ([0, 1] as const);
	let { past, future } = history;
	for (;;) {
		const step = (way === 'back' ? past : future).at(-1);
		if (!step) return undefined;
		if (way === 'back') past = past.slice(0, -1);
		else future = future.slice(0, -1);
		// Another job is opened by whoever asked. From that, the way back to this one is made anew; the way on
		// from this one stays, for it is part of how it came to be.
		if (step.other !== undefined) {
			return { history: way === 'back' ? history : { ...history, future }, step, job: now };
		}
		const parts = standing(step.changes, now, from);
		if (parts.length === 0) continue;
		const job = withParts(now, new Map(parts.map(([part, both]) => [part, both[to]])));
		const taken = { ...step, changes: new Map(parts) };
		if (way === 'back') future = [...future, taken];
		else past = [...past, taken];
		return { history: { past, future, left: history.left }, step: taken, job };
	}
}

/** The changes of a step whose parts are still as it left them. Of two orders either is as good. */
function standing(
	changes: Changes,
	now: Job,
	side: 0 | 1,
): [string, readonly [unknown, unknown]][] {
	const parts = partsOf(now);
	return [...changes].filter(
		([part, both]) => isOrder(part) || isSame(parts.get(part), both[side]),
	);
}

/** A step as the browser's store keeps it. */
export interface KeptStep extends Step {
	readonly job: string;
	/** Whether it was taken back. */
	readonly undone: boolean;
}

/** Steps of a job as they were kept, whoever's they are; what is none is left out. */
export function historyFrom(found: readonly unknown[]): History {
	const steps = stepsFrom(found).sort((a, b) => a.n - b.n || (a.id < b.id ? -1 : 1));
	const lastDone = steps.findLastIndex(({ undone }) => !undone);
	const plain = ({ id, n, field, changes, other }: KeptStep): Step => ({
		...{ id, n, field, changes },
		...(other !== undefined && { other }),
	});
	return {
		past: steps.filter(({ undone }) => !undone).map(plain),
		future: steps
			.slice(lastDone + 1)
			.map(plain)
			.reverse(),
		left: true,
	};
}

/** Those of what was found that are steps. */
export function stepsFrom(found: readonly unknown[]): KeptStep[] {
	return found.filter(isKeptStep);
}

function isKeptStep(found: unknown): found is KeptStep {
	const { id, n, field, changes, other, undone } = Object(found) as Partial<
		Record<keyof KeptStep, unknown>
	>;
	return (
		typeof id === 'string' &&
		typeof n === 'number' &&
		typeof field === 'string' &&
		typeof undone === 'boolean' &&
		['string', 'undefined'].includes(typeof other) &&
		changes instanceof Map &&
		[...changes].every(([part, both]) => typeof part === 'string' && Array.isArray(both))
	);
}

/** What has to be written and what taken out, so that a store that has the one history has the other. */
export interface StepsToKeep {
	readonly write: readonly KeptStep[];
	readonly drop: readonly Pick<KeptStep, 'job' | 'n' | 'id'>[];
}

/** @param job its id */
export function stepsToKeep(job: string, before: History, now: History): StepsToKeep {
	let same = Math.min(before.past.length, now.past.length);
	while (same > 0 && before.past[same - 1] !== now.past[same - 1]) same--;
	const beyond = ({ past, future }: History): Map<string, { step: Step; undone: boolean }> =>
		new Map<string, { step: Step; undone: boolean }>([
			...past.slice(same).map((step) => [step.id, { step, undone: false }] as const),
			// A way on to another job is for this visit only.
			...future
				.filter(({ other }) => other === undefined)
				.map((step) => [step.id, { step, undone: true }] as const),
		]);
	const [was, is] = [beyond(before), beyond(now)];
	const isKept = (id: string, step: Step, undone: boolean): boolean =>
		was.get(id)?.step === step && was.get(id)?.undone === undone;
	return {
		write: [...is].flatMap(([id, { step, undone }]) =>
			isKept(id, step, undone) ? [] : [{ ...step, job, undone }],
		),
		drop: [...was].flatMap(([id, { step }]) => (is.has(id) ? [] : [{ job, n: step.n, id }])),
	};
}
