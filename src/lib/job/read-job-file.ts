/** Reads the file of a job. Loaded only when one is opened. */
import { isTooDeep } from './depth.ts';
import { fileVersion, format, largestFile, sumOf, type Around } from './job-file.ts';
import type { Job } from './job.ts';
import { newId } from './new-id.ts';
import { fileIn } from './record-in-page.ts';
import { jobFrom, NotAJob } from './shape.ts';

/**
 * The job gets an id of its own, so opening never writes over another.
 * @param text what the file holds
 * @param name of the file, for the sentences
 * @param workbook id of the workbook at hand
 */
export function readJobFile(
	text: string,
	name: string,
	workbook: string,
): ({ readonly job: Job } & Around) | { readonly problem: string } {
	const problem = (sentence: string): { problem: string } => ({
		problem: `${sentence} Nothing was changed; the job you had is still open.`,
	});
	const wanted =
		'Choose a file that this workbook saved; its name ends in .ride-height.json, or .ride-height.html, unless it was renamed.';
	if (text.length > largestFile) {
		return problem(`“${name}” is far too large to be a job. ${wanted}`);
	}
	let found: unknown;
	try {
		found = JSON.parse(fileIn(text));
	} catch {
		const broken = text.includes(`"${format}"`);
		return problem(
			broken
				? `“${name}” is a job, but it breaks off or was damaged on the way, so it cannot be read. Copy it again from where it was saved.`
				: `“${name}” is not a job of this workbook. ${wanted}`,
		);
	}
	const head = isTooDeep(found) ? undefined : headOf(found);
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
	// Files of earlier versions have none.
	if (head.checksum !== undefined && head.checksum !== sumOf(head)) {
		return problem(
			`“${name}” is not as it was saved: it was damaged on the way, or changed by hand. Copy it again from where it was saved. If you changed it yourself, take out the line “checksum”.`,
		);
	}
	return { job, ...aroundIn(head) };
}

interface Head extends Readonly<Record<string, unknown>> {
	readonly version: number;
}

/** What stands around the job in its file; undefined where it says of itself that it is something else. */
function headOf(found: unknown): Head | undefined {
	const head = Object(found) as Readonly<Record<string, unknown>>;
	return head['format'] === format && Number.isInteger(head['version'])
		? (head as Head)
		: undefined;
}

/** What is said of the job, as far as it is what it should be: a figure that is none is no reason to refuse it. */
export function aroundIn(found: Readonly<Record<string, unknown>>): Around {
	const { program, figures } = found;
	const { version, workbook } = Object(program) as Readonly<Record<string, unknown>>;
	const plain = Object.entries(Object(figures) as object).filter(([, value]) =>
		['number', 'string', 'boolean'].includes(typeof value),
	);
	return {
		...(typeof version === 'string' &&
			typeof workbook === 'string' && { program: { version, workbook } }),
		...(plain.length > 0 && { figures: Object.fromEntries(plain) }),
	};
}
