/** The seals of the open job: made, and looked at. Loaded only for a job that has one, or is to have one. */
import { figuresOtherwise, figuresToKeep, type Otherwise } from '../answers/kept-figures.ts';
import type { Job } from '../job/job.ts';
import { newId } from '../job/new-id.ts';
import {
	brokenInWords,
	canHash,
	jobAsSealed,
	sealInBrief,
	sealInWords,
	sealOf,
	shortHash,
	stateOfSeals,
	type SealState,
} from '../job/seal.ts';
import type { OpenJob } from './open-job.svelte.ts';
import { partInWords, valueInWords } from './part-words.ts';

/** How a job stands to its last seal, as it is shown wherever the job is. */
export interface SealSaid {
	/** The state of the job it is said of. */
	readonly of: Job;
	readonly state: SealState;
	/** “Sealed 28 Nov 2026, unchanged”. */
	readonly line: string;
	/** The same for where there is little room: “sealed 28 Nov 2026”. */
	readonly brief: string;
	/** The first letters of the hash. */
	readonly letters: string;
	/** What is wrong with the seals; empty where nothing is. */
	readonly alarm: string;
}

/** What is to be said of the seals of a job; nothing where it has none. */
export async function sealSaid(of: Job): Promise<SealSaid | undefined> {
	const state = await stateOfSeals(of);
	return (
		state && {
			...{
				of,
				state,
				line: sealInWords(state),
				brief: sealInBrief(state),
				letters: shortHash(state.last.hash),
			},
			alarm: brokenInWords(state),
		}
	);
}

/** Each holds a whole job, and all of them are kept with every key. */
const mostSeals = 20;

/** Seals the open job as it stands. @returns why that cannot be; empty when it was done */
export async function seal(desk: OpenJob): Promise<string> {
	if (!canHash()) {
		return 'This browser works out seals only at an encrypted address (https), or where the workbook is served by this computer itself. Save the job to a file and seal it there.';
	}
	await desk.pagesRead;
	const { job, figures, program } = desk;
	if ((job.seals?.length ?? 0) >= mostSeals) {
		return `This job has ${mostSeals.toString()} seals, as many as it takes. Save it to a file, and go on in a copy of it.`;
	}
	if (job.clashes) {
		return 'Two windows typed different things. Say which of them it is, above the sheet, and then seal it.';
	}
	const made = await sealOf(job, figuresToKeep(figures), program, new Date());
	if (desk.job.id !== job.id) return 'Another job was opened meanwhile. Nothing was sealed.';
	desk.addSeal(made);
	return '';
}

/** Something typed that was changed since it was sealed. */
export interface ChangedPart {
	readonly part: string;
	readonly label: string;
	readonly then: string;
	readonly now: string;
}

/** What was changed since the last seal, and which figures come out otherwise. */
export function sinceSealed(
	{ state }: SealSaid,
	{ workbook, figures }: OpenJob,
): { readonly parts: readonly ChangedPart[]; readonly figures: readonly Otherwise[] } {
	return {
		parts: [...state.changes].map(([part, [then, now]]) => ({
			...{ part, label: partInWords(part, workbook) },
			...{ then: valueInWords(part, then), now: valueInWords(part, now) },
		})),
		figures: figuresOtherwise(state.sealed?.figures ?? {}, figures),
	};
}

/** Opens the job as one of its seals holds it, as a job of its own. @param at which, the first is 0 */
export function openAsSealed(desk: OpenJob, at: number): void {
	const then = jobAsSealed(desk.job.seals ?? [], at, newId());
	if (then) desk.open(then);
}
