/**
 * A job in a link: compressed, in the part of an address that no server ever sees. A job that began from a
 * scenario goes as its difference to that, which is far shorter. Loaded only when one is made or opened.
 */
import type { Workbook } from '../language/workbook.ts';
import { canonicalJson } from './canonical.ts';
import { isTooDeep } from './depth.ts';
import { checksum } from './checksum.ts';
import { largestFile } from './job-file.ts';
import { jobFromScenario, type Job } from './job.ts';
import { newId } from './new-id.ts';
import { changesBetween, withParts } from './parts.ts';
import { jobFrom, NotAJob } from './shape.ts';

/** How the part of the address begins; the number is the version of what follows. */
export const linkStart = 'job=1.';

/** What is in a link, as JSON. */
interface Carried {
	/** Checksum of the scenario's own job, so that a difference is never laid on another. */
	readonly on?: string;
	readonly scenario?: string;
	/** By part: what stands there, or an empty list where it was taken out. */
	readonly changes?: Readonly<Record<string, readonly unknown[]>>;
	readonly job?: unknown;
	/** Checksum of the job that it has to come to. */
	readonly sum: string;
}

/** A job as it travels: ids are of the place, and questions of two windows are for them to settle. */
function travelling(job: Job): Job {
	const { clashes: _clashes, options, ...rest } = job;
	return {
		...rest,
		id: '',
		...(options && { options: options.map((each, at) => ({ ...each, id: `o${at.toString()}` })) }),
	};
}

/** The job a scenario gives, always the same. */
function scenarioJob(workbook: Workbook, id: string | undefined): Job | undefined {
	const scenario = workbook.scenarios.find((each) => each.id === id);
	return scenario && travelling(jobFromScenario(workbook, scenario, new Date(0)));
}

/**
 * What goes behind the # of the address.
 * @param workbook as shipped
 */
export async function jobAsLink(job: Job, workbook: Workbook): Promise<string> {
	const now = travelling(job);
	const sum = checksum(canonicalJson(now));
	const whole: Carried = { job: now, sum };
	const packed = await compressed(JSON.stringify(whole));
	const base = scenarioJob(workbook, job.scenario);
	if (!base) return linkStart + packed;
	const changes = Object.fromEntries(
		[...changesBetween(base, now)].map(([part, [, value]]) => [
			part,
			value === undefined ? [] : [value],
		]),
	);
	const difference: Carried = {
		...{ scenario: job.scenario ?? '', on: checksum(canonicalJson(base)), sum },
		// What is no part goes along: when and with what it was last changed.
		changes: {
			...changes,
			'job/changed': [now.changed],
			'job/workbookHash': now.workbookHash === undefined ? [] : [now.workbookHash],
		},
	};
	const short = await compressed(JSON.stringify(difference));
	return linkStart + (short.length < packed.length ? short : packed);
}

/**
 * @param fragment what stands behind the # of an address
 * @param workbook as shipped
 */
export async function jobFromLink(
	fragment: string,
	workbook: Workbook,
): Promise<{ readonly job: Job } | { readonly problem: string }> {
	if (!fragment.startsWith(linkStart)) {
		return {
			problem: 'This link is of another version of the workbook. Ask for the job as a file.',
		};
	}
	let found: unknown;
	try {
		found = JSON.parse(await expanded(fragment.slice(linkStart.length)));
		if (isTooDeep(found)) throw new RangeError('far too deep');
	} catch {
		return {
			problem:
				'This link breaks off or was changed on the way. Ask for it again, or for the job as a file.',
		};
	}
	const {
		scenario,
		on,
		changes,
		job: whole,
		sum,
	} = Object(found) as Partial<Record<keyof Carried, unknown>>;
	try {
		const job =
			changes === undefined
				? jobFrom(whole, '')
				: laidOn(scenarioJob(workbook, typeof scenario === 'string' ? scenario : ''), on, changes);
		if (!job) {
			return {
				problem:
					'This link is the difference to an example that this version of the workbook has otherwise. Ask for the job as a file.',
			};
		}
		if (sum !== checksum(canonicalJson(travelling(job)))) throw new NotAJob(['job']);
		if (job.workbook !== workbook.id) {
			return {
				problem: `This link belongs to another workbook, “${job.workbook}”. Open it from there.`,
			};
		}
		return { job: { ...job, id: newId() } };
	} catch (cause) {
		if (!(cause instanceof NotAJob)) throw cause;
		return {
			problem: `This link holds no job that can be opened (${cause.where.join(' › ')}). Ask for it again, or for the job as a file.`,
		};
	}
}

/** A difference laid on a scenario's job; nothing where that is not the one it was made to. @throws NotAJob */
function laidOn(base: Job | undefined, on: unknown, changes: unknown): Job | undefined {
	if (!base || on !== checksum(canonicalJson(base))) return undefined;
	const values = new Map<string, unknown>();
	for (const [part, value] of Object.entries(Object(changes) as object)) {
		if (!Array.isArray(value)) throw new NotAJob([part]);
		values.set(part, value[0]);
	}
	return jobFrom(withParts(base, values), '');
}

async function compressed(text: string): Promise<string> {
	const stream = new Blob([text]).stream().pipeThrough(new CompressionStream('deflate-raw'));
	const bytes = new Uint8Array(await new Response(stream).arrayBuffer());
	const letters = Array.from(bytes, (byte) => String.fromCharCode(byte)).join('');
	return btoa(letters).replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', '');
}

/** @throws for what is not compressed, breaks off, or is far larger than any job */
async function expanded(packed: string): Promise<string> {
	const letters = atob(packed.replaceAll('-', '+').replaceAll('_', '/'));
	const bytes = Uint8Array.from(letters, (letter) => letter.charCodeAt(0));
	const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('deflate-raw'));
	const reader = stream.getReader();
	const decoder = new TextDecoder('utf-8', { fatal: true });
	let text = '';
	for (;;) {
		const { done, value } = await reader.read();
		if (done) return text + decoder.decode();
		text += decoder.decode(value, { stream: true });
		if (text.length > largestFile) {
			await reader.cancel();
			throw new RangeError('far too large');
		}
	}
}
