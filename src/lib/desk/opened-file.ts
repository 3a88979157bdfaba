/** Opens the file of a job and looks what is otherwise now. Loaded only when a file is opened. */
import type { Figures } from '../answers/figures.ts';
import { figuresOtherwise, type Otherwise } from '../answers/kept-figures.ts';
import type { Program } from '../job/job-file.ts';
import type { Job } from '../job/job.ts';
import { readJobFile } from '../job/read-job-file.ts';

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
