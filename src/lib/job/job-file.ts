/** A job as a file: saved, and opened again elsewhere with the same figures. */
import type { Job } from './job.ts';
import { newId } from './new-id.ts';
import { jobFrom, NotAJob } from './shape.ts';

/** Says what the file is. */
const format = 'ride-height-job';
/** Grows when an older program could no longer read what is written, or would lose some of it. */
const fileVersion = 3;
/** A job without pages of its own is written as this, so that an older program opens it too. */
const versionWithoutPages = 2;
/** No job typed by hand comes near it. */
const largestFile = 5_000_000;

/** The text of the file of a job. */
export function writeJobFile(job: Job): string {
	const { id: _id, ...rest } = job;
	const version = job.pages ? fileVersion : versionWithoutPages;
	return `${JSON.stringify({ format, version, job: rest }, null, '\t')}\n`;
}

/** A name for the file, from the job's title. */
export function jobFileName(job: Job): string {
	const words = job.block.title
		.normalize('NFKD')
		.replace(/[^A-Za-z0-9]+/g, '-')
		.replace(/^-+|-+$/g, '')
		.toLowerCase()
		.slice(0, 60);
	return `${words || 'job'}.ride-height.json`;
}

/**
 * Reads the file of a job. The job gets an id of its own, so opening never writes over another.
 * @param text what the file holds
 * @param name of the file, for the sentences
 * @param workbook id of the workbook at hand
 */
export function readJobFile(
	text: string,
	name: string,
	workbook: string,
): { readonly job: Job } | { readonly problem: string } {
	const problem = (sentence: string): { problem: string } => ({
		problem: `${sentence} Nothing was changed; the job you had is still open.`,
	});
	const wanted =
		'Choose a file that this workbook saved; its name ends in .ride-height.json unless it was renamed.';
	if (text.length > largestFile) {
		return problem(`“${name}” is far too large to be a job. ${wanted}`);
	}
	let found: unknown;
	try {
		found = JSON.parse(text);
	} catch {
		const broken = text.includes(`"${format}"`);
		return problem(
			broken
				? `“${name}” is a job, but it breaks off or was damaged on the way, so it cannot be read. Copy it again from where it was saved.`
				: `“${name}” is not a job of this workbook. ${wanted}`,
		);
	}
	const head = headOf(found);
	if (!head) return problem(`“${name}” is not a job of this workbook. ${wanted}`);
	if (head.version > fileVersion) {
		return problem(
			`“${name}” was saved by a later version of the workbook (file version ${head.version.toString()}; this one reads up to ${fileVersion.toString()}). Open it where it was saved, or bring this workbook up to date.`,
		);
	}
	let job: Job;
	try {
		job = jobFrom(head.job, newId());
	} catch (cause) {
		if (!(cause instanceof NotAJob)) throw cause;
		return problem(
			`“${name}” is a job, but a part of it is missing or is not what it should be (${cause.where.join(' › ')}). Copy it again from where it was saved.`,
		);
	}
	if (job.workbook !== workbook) {
		return problem(`“${name}” belongs to another workbook, “${job.workbook}”. Open it from there.`);
	}
	return { job };
}

/** What stands around the job in its file; undefined where it says of itself that it is something else. */
function headOf(found: unknown): { readonly version: number; readonly job: unknown } | undefined {
	if (typeof found !== 'object' || found === null) return undefined;
	const head = found as { format?: unknown; version?: unknown; job?: unknown };
	return head.format === format && typeof head.version === 'number'
		? { version: head.version, job: head.job }
		: undefined;
}
