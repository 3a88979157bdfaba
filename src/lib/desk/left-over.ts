/**
 * What a window had not kept yet when it was left, as text that can be left behind at once: the database takes
 * a moment, and a page that goes has none.
 */
import { canonicalJson } from '../job/canonical.ts';
import type { Job } from '../job/job.ts';
import { merged, withClashes } from '../job/parts.ts';
import { NotAJob, storedJob } from '../job/shape.ts';
import { stepsFrom, type KeptStep, type StepsToKeep } from './history.ts';

interface LeftOver {
	readonly job: Job;
	/** What was kept of it when this window last saw that; none when it never was. */
	readonly base: Job | undefined;
	/** By part: values this window kept there, or was about to. */
	readonly own: ReadonlyMap<string, readonly string[]>;
	readonly steps: StepsToKeep;
}

/** A change as text: what is not there is left out, for JSON has no word for it. */
type ChangeText = readonly [part: string, { before?: unknown; after?: unknown }];

export function leftOverText({ job, base, own, steps }: LeftOver): string {
	const write = steps.write.map(({ changes, ...step }) => ({
		...step,
		changes: [...changes].map(([part, [before, after]]): ChangeText => [part, { before, after }]),
	}));
	return JSON.stringify({ job, base, own: [...own], steps: { write, drop: steps.drop } });
}

/** @returns undefined for what is none: storage is anybody's */
function leftOverFrom(text: string): LeftOver | undefined {
	try {
		const { job, base, own, steps } = JSON.parse(text) as {
			job: unknown;
			base?: unknown;
			own: [string, string[]][];
			steps: {
				write: (Omit<KeptStep, 'changes'> & { changes: ChangeText[] })[];
				drop: StepsToKeep['drop'];
			};
		};
		const write = steps.write.map(({ changes, ...step }) => ({
			...step,
			changes: new Map(
				changes.map(([part, { before, after }]) => [part, [before, after]] as const),
			),
		}));
		return {
			job: storedJob(job),
			base: base === undefined ? undefined : storedJob(base),
			own: new Map(own),
			steps: { write: stepsFrom(write), drop: [...steps.drop] },
		};
	} catch (cause) {
		if (cause instanceof NotAJob || cause instanceof SyntaxError || cause instanceof TypeError) {
			return undefined;
		}
		throw cause;
	}
}

/**
 * A job as it is kept, with what windows left over of it.
 * @param kept none when it never was kept
 * @param steps of it that are kept
 * @param texts what is left over of every job, each with its key
 * @returns undefined when none of them is of that job
 */
export function takenUp(
	id: string,
	kept: Job | undefined,
	steps: readonly unknown[],
	texts: readonly { readonly key: string; readonly text: string }[],
): { job: Job; steps: readonly unknown[]; leftOver: readonly string[] } | undefined {
	let job = kept;
	const leftOver: string[] = [];
	for (const { key, text } of texts) {
		const left = leftOverFrom(text);
		if (left?.job.id !== id) continue;
		job = withLeftOver(job, left);
		steps = stepsWithLeftOver(steps, left);
		leftOver.push(key);
	}
	return job && leftOver.length > 0 ? { job, steps, leftOver } : undefined;
}

/** A job as it is kept, with what was left over put to it. */
function withLeftOver(kept: Job | undefined, { job, base, own }: LeftOver): Job {
	if (!kept) return job;
	const all = merged(base ?? kept, job, kept);
	// What that window kept itself, on the way to what it left, is no question to ask.
	return withClashes(
		all,
		({ part, value }) => !(own.get(part)?.includes(canonicalJson(value)) ?? false),
	);
}

/** Steps as they are kept, with those that were left over. */
function stepsWithLeftOver(
	kept: readonly unknown[],
	{ steps: { write, drop } }: LeftOver,
): readonly unknown[] {
	const others = new Set([...write, ...drop].map(({ id }) => id));
	const stay = kept.filter((step) => !others.has((Object(step) as { id: string }).id));
	return [...stay, ...write];
}
