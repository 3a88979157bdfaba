/**
 * A job as a file: saved, and opened again elsewhere with the same figures. It is JSON that reads well and
 * compares well: every field has its place, names in the order of the alphabet.
 *
 *   format     what it is
 *   version    of the file; see below
 *   checksum   of all the rest as canonical JSON; whoever changes the file by hand takes it out
 *   program    what it was saved with: its version, and the hash of the workbook's text
 *   job        what was typed, to the letter; see job.ts. A seal's record stands in it as what it says
 *   figures    what came of it then, SI, by name
 */
import type { Value } from '../language/types.ts';
import { canonicalJson } from './canonical.ts';
import { checksum } from './checksum.ts';
import type { Job, Seal } from './job.ts';

/** Says what the file is. */
export const format = 'ride-height-job';
/** Grows when an older program could no longer read what is written, or would lose some of it. */
export const fileVersion = 3;
/** A job without pages of its own is written as this, so that an older program opens it too. */
const versionWithoutPages = 2;
/** Letters. No job typed by hand comes near it. */
export const largestFile = 5_000_000;

/** What a file was saved with. */
export interface Program {
	readonly version: string;
	/** SHA-256 of the text of its workbook. */
	readonly workbook: string;
}

/** Figures by name, SI; a text or a yes or no is as it is. */
export type KeptFigures = Readonly<Record<string, Exclude<Value, object>>>;

/** What is known of a job beside itself. */
export interface Around {
	readonly program?: Program | undefined;
	readonly figures?: KeptFigures | undefined;
}

/** The text of the file of a job. */
export function writeJobFile(job: Job, { program, figures }: Around = {}): string {
	const { id: _id, seals, ...others } = job;
	const rest = { ...others, ...(seals && { seals: seals.map(readable) }) };
	const version = job.pages ? fileVersion : versionWithoutPages;
	const around = { ...(program && { program }), ...(figures && { figures }) };
	const head = { format, version, checksum: sumOf({ format, version, job: rest, ...around }) };
	const inPlace = JSON.parse(canonicalJson({ job: rest, ...around })) as object;
	return `${JSON.stringify({ ...head, ...inPlace }, null, '\t')}\n`;
}

/** A seal as it reads in a file; as the text that it is where that is not what a seal writes. */
function readable(seal: Seal): object {
	try {
		const record: unknown = JSON.parse(seal.record);
		if (isFields(record) && canonicalJson(record) === seal.record) return { ...seal, record };
	} catch {
		// It was damaged. It is kept to the letter, and said to be so wherever it is looked at.
	}
	return seal;
}

const isFields = (found: unknown): found is object =>
	typeof found === 'object' && found !== null && !Array.isArray(found);

/** The checksum of what stands in a file, wherever it stands in it. */
export function sumOf(file: Readonly<Record<string, unknown>>): string {
	return checksum(canonicalJson({ ...file, checksum: undefined }));
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
