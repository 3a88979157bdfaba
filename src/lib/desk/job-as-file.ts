/**
 * The job as a file: written with its figures, and opened with what is otherwise now. It is loaded when the
 * job is open, so that it is there when the network is not.
 */
import type { Figures } from '../answers/figures.ts';
import { figuresOtherwise, figuresToKeep, type Otherwise } from '../answers/kept-figures.ts';
import { jobFileName, writeJobFile, type Program } from '../job/job-file.ts';
import type { Job } from '../job/job.ts';
import { readJobFile } from '../job/read-job-file.ts';

/** The file of a job with its figures as they are. */
export function fileOf(
	job: Job,
	program: Program | undefined,
	now: Figures,
): { readonly name: string; readonly text: string } {
	return {
		name: jobFileName(job),
		text: writeJobFile(job, { program, figures: figuresToKeep(now) }),
	};
}

/** What a file said that this program does not say of its job. */
export interface OpenedOtherwise {
	/** What it was saved with, where that is known. */
	readonly program: Program | undefined;
	readonly figures: readonly Otherwise[];
}

/**
 * @param text what the file holds
 * @param name of the file, for the sentences
 * @param workbook id of the workbook at hand
 */
export function openedFrom(
	text: string,
	name: string,
	workbook: string,
):
	| { readonly problem: string }
	| { readonly job: Job; readonly otherwise: (now: Figures) => OpenedOtherwise | undefined } {
	const read = readJobFile(text, name, workbook);
	if ('problem' in read) return read;
	const { job, program, figures: kept = {} } = read;
	return {
		job,
		otherwise: (now) => {
			const figures = figuresOtherwise(kept, now);
			return figures.length > 0 ? { program, figures } : undefined;
		},
	};
}
