/** The steps a person can take back, as plain data: each change gives another history. */
import type { Job } from '../job/job.ts';

/** How a job stood before a change, and what was changed. */
interface Step {
	readonly job: Job;
	readonly field: string;
}

export interface History {
	/** The last one is the next to go back to. */
	readonly past: readonly Step[];
	readonly future: readonly Step[];
	/** Whether the field was left: what is typed in it next is a step of its own. */
	readonly left: boolean;
}

export const noHistory: History = { past: [], future: [], left: false };

/** As many steps back as are kept. */
const most = 200;

/** Whether a change of a field goes on with the last one: a run of keystrokes goes back as one. */
export function goesOn({ past, future, left }: History, field: string): boolean {
	return past.at(-1)?.field === field && !left && future.length === 0;
}

/** @param before the job before the change */
export function withStep(history: History, before: Job, field: string): History {
	const past = goesOn(history, field)
		? history.past
		: [...history.past.slice(1 - most), { job: before, field }];
	return { past, future: [], left: false };
}

export function withFieldLeft(history: History): History {
	return { ...history, left: true };
}

/** One step back from how things stand, or forward again; undefined when there is none. */
export function stepped(
	{ past, future, left }: History,
	now: Job,
	way: 'back' | 'forward',
): { readonly history: History; readonly job: Job } | undefined {
	const step = (way === 'back' ? past : future).at(-1);
	if (!step) return undefined;
	const here = { job: now, field: step.field };
	const history =
		way === 'back'
			? { past: past.slice(0, -1), future: [...future, here], left }
			: { past: [...past, here], future: future.slice(0, -1), left };
	return { history, job: step.job };
}
