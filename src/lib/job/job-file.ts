/** A job as a file: saved, and opened again elsewhere with the same figures. */
import { z } from 'zod';
import { unitSystems } from '../units/quantities.ts';
import { origins, type Entry, type Job } from './job.ts';

/** Says what the file is. */
const format = 'ride-height-job';
/** Grows when an older program could no longer read what is written. */
const fileVersion = 2;
/** No job typed by hand comes near it. */
const largestFile = 5_000_000;

const entryFields = {
	typed: z.string(),
	system: z.enum(unitSystems),
	from: z.enum(origins),
};
const entryShape = z.object({ ...entryFields, held: z.object(entryFields).optional() });

const jobShape = z.object({
	workbook: z.string(),
	scenario: z.string().optional(),
	system: z.enum(unitSystems),
	block: z.object({
		title: z.string(),
		owner: z.string(),
		number: z.string(),
		madeBy: z.string(),
		checkedBy: z.string(),
		date: z.string(),
	}),
	entries: z.record(z.string(), entryShape),
	options: z
		.array(
			z.object({ id: z.string(), name: z.string(), entries: z.record(z.string(), entryShape) }),
		)
		.optional(),
	changed: z.string(),
});

/** The text of the file of a job. */
export function writeJobFile(job: Job): string {
	const { id: _id, ...rest } = job;
	return `${JSON.stringify({ format, version: fileVersion, job: rest }, null, '\t')}\n`;
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
	const head = z.object({ format: z.literal(format), version: z.number() }).safeParse(found);
	if (!head.success) return problem(`“${name}” is not a job of this workbook. ${wanted}`);
	if (head.data.version > fileVersion) {
		return problem(
			`“${name}” was saved by a later version of the workbook (file version ${head.data.version}; this one reads up to ${fileVersion}). Open it where it was saved, or bring this workbook up to date.`,
		);
	}
	const read = z.object({ job: jobShape }).safeParse(found);
	if (!read.success) {
		const where = read.error.issues[0]?.path.map(String).join(' › ') ?? 'job';
		return problem(
			`“${name}” is a job, but a part of it is missing or is not what it should be (${where}). Copy it again from where it was saved.`,
		);
	}
	const { entries, scenario, options, ...rest } = read.data.job;
	if (rest.workbook !== workbook) {
		return problem(
			`“${name}” belongs to another workbook, “${rest.workbook}”. Open it from there.`,
		);
	}
	return {
		job: {
			...rest,
			id: crypto.randomUUID(),
			...(scenario !== undefined && { scenario }),
			entries: entriesOf(entries),
			...(options && {
				options: options.map((option) => ({ ...option, entries: entriesOf(option.entries) })),
			}),
		},
	};
}

function entriesOf(read: Record<string, z.infer<typeof entryShape>>): Record<string, Entry> {
	return Object.fromEntries(
		Object.entries(read).map(([field, { held, ...entry }]): [string, Entry] => [
			field,
			held ? { ...entry, held } : entry,
		]),
	);
}
