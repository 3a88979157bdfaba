/** The open job as a table of all its figures and entries. Loaded when it is wanted. */
import { figuresAsCsv } from '../answers/figures-csv.ts';
import { jobFileName } from '../job/job-file.ts';
import { stateOfSeals } from '../job/seal.ts';
import type { OpenJob } from './open-job.svelte.ts';

export async function tableOf(
	desk: OpenJob,
): Promise<{ readonly name: string; readonly text: string }> {
	await desk.pagesRead;
	const seals = await stateOfSeals(desk.job);
	const { job, workbook, figures } = desk;
	const text = figuresAsCsv({
		...{ job, workbook, figures, seals },
		reading: (name) => desk.reading(name),
	});
	return { name: jobFileName(job).replace(/\.ride-height\.json$/, '-figures.csv'), text };
}
