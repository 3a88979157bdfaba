/**
 * A job sealed as the record of a day: all of it and its figures as canonical JSON (RFC 8785), and the SHA-256 of
 * that. Whoever has the letters of the hash, as the printed sheet has them, can tell whether what was sealed is
 * still the same. It shows a change; it proves neither who sealed it nor when, for anybody can seal anything anew.
 * Each seal names the one before it, so that none is taken out unseen while a later one stands.
 */
import { canonicalJson } from './canonical.ts';
import type { KeptFigures, Program } from './job-file.ts';
import type { Job, Seal } from './job.ts';
import { isTooDeep } from './depth.ts';
import { changesBetween, type Changes } from './parts.ts';
import { aroundIn } from './read-job-file.ts';
import { jobFrom, NotAJob } from './shape.ts';

/** Says what the record is. */
const format = 'ride-height-record';

/** What a seal holds. */
export interface Sealed {
	/** The first is 1. */
	readonly revision: number;
	/** yyyy-mm-dd, as the calendar of the computer had it. */
	readonly date: string;
	/** Hash of the seal before it. */
	readonly before?: string;
	/** What it was sealed with. */
	readonly program?: Program | undefined;
	/** As it was, without its id, its seals, and what windows had to settle. */
	readonly job: Job;
	/** As they were. */
	readonly figures?: KeptFigures | undefined;
}

/** All of a job that can be sealed. */
function sealedPart(job: Job): Omit<Job, 'id' | 'seals' | 'clashes'> {
	const { id: _id, seals: _seals, clashes: _clashes, ...rest } = job;
	return rest;
}

/** Whether hashes can be worked out here: a browser does so only at an encrypted address or the computer's own. */
export function canHash(): boolean {
	return (globalThis.crypto as Partial<Crypto> | undefined)?.subtle !== undefined;
}

async function hashOf(text: string): Promise<string> {
	const hash = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(text));
	return Array.from(new Uint8Array(hash), (byte) => byte.toString(16).padStart(2, '0')).join('');
}

/**
 * A seal of a job as it stands.
 * @param day on which it is sealed, where it is
 */
export async function sealOf(
	job: Job,
	figures: KeptFigures,
	program: Program | undefined,
	day: Date,
): Promise<Seal> {
	const before = job.seals?.at(-1);
	const record = canonicalJson({
		format,
		revision: (job.seals?.length ?? 0) + 1,
		date: calendarDay(day),
		...{ before: before?.hash, program, job: sealedPart(job), figures },
	});
	return { hash: await hashOf(record), record };
}

/** The day a calendar on the wall has: yyyy-mm-dd. */
function calendarDay(day: Date): string {
	const two = (n: number): string => n.toString().padStart(2, '0');
	const year = day.getFullYear().toString().padStart(4, '0');
	return `${year}-${two(day.getMonth() + 1)}-${two(day.getDate())}`;
}

/** What a seal holds, as far as it can be read; undefined where it is no record. */
export function sealedIn(seal: Seal): Sealed | undefined {
	let found: unknown;
	try {
		found = JSON.parse(seal.record);
	} catch {
		return undefined;
	}
	if (isTooDeep(found)) return undefined;
	const { revision, date, before, job, ...rest } = Object(found) as Readonly<
		Record<string, unknown>
	>;
	if (rest['format'] !== format || typeof revision !== 'number') return undefined;
	if (typeof date !== 'string' || !/^\d{4}-\d{2}-\d{2}$/.test(date)) return undefined;
	try {
		return {
			...{ revision, date, job: jobFrom(job, ''), ...aroundIn(rest) },
			...(typeof before === 'string' && { before }),
		};
	} catch (cause) {
		if (cause instanceof NotAJob) return undefined;
		throw cause;
	}
}

/** What was changed in a job since it was sealed. */
export function changedSince({ job: then }: Sealed, now: Job): Changes {
	return changesBetween(then, { ...sealedPart(now), id: '' });
}

/** A job as it was sealed, with that seal and those before it. @param id of its own */
export function jobAsSealed(seals: readonly Seal[], at: number, id: string): Job | undefined {
	const seal = seals[at];
	const then = seal && sealedIn(seal);
	return then && { ...then.job, id, seals: seals.slice(0, at + 1) };
}

/** How a job stands to its last seal. */
export type SealStanding =
	/** All is as it was sealed. */
	| 'unchanged'
	/** The seal holds, and the job went on. */
	| 'changed'
	/** A seal holds something else than what was sealed, or one is gone. */
	| 'broken';

/** What can be said of the seals of a job. */
export interface SealState {
	readonly standing: SealStanding;
	/** Whether the hashes could be looked at here. */
	readonly looked: boolean;
	readonly last: Seal;
	/** Of the last; nothing where it cannot be read. */
	readonly sealed?: Sealed;
	readonly changes: Changes;
	/** Numbers of seals that hold something else than what was sealed, the first is 1. */
	readonly broken: readonly number[];
	/** Numbers of seals that name one before them that is not here. */
	readonly orphaned: readonly number[];
}

/** Looks at all seals of a job; undefined where it has none. */
export async function stateOfSeals(job: Job): Promise<SealState | undefined> {
	const records = (job.seals ?? []).map(({ record }) => record);
	return stateBy(job, canHash() ? await Promise.all(records.map(hashOf)) : undefined);
}

/**
 * The same where the hashes are worked out by somebody else.
 * @param hashes of what each seal holds; undefined where they cannot be worked out
 */
export function stateBy(job: Job, hashes: readonly string[] | undefined): SealState | undefined {
	const { seals = [] } = job;
	const last = seals.at(-1);
	if (!last) return undefined;
	const all = seals.map(sealedIn);
	const numbered = (is: (at: number) => boolean): number[] =>
		seals.flatMap((_, at) => (is(at) ? [at + 1] : []));
	const fits = (at: number): boolean => !hashes || hashes[at] === seals[at]?.hash;
	const broken = numbered((at) => !fits(at) || !all[at]);
	const earlier = (at: number): readonly string[] => seals.slice(0, at).map(({ hash }) => hash);
	const orphaned = numbered((at) => {
		const before = all[at]?.before;
		return before !== undefined && !earlier(at).includes(before);
	});
	const sealed = all.at(-1);
	const changes: Changes = sealed ? changedSince(sealed, job) : new Map();
	return {
		standing:
			broken.length + orphaned.length > 0 ? 'broken' : changes.size > 0 ? 'changed' : 'unchanged',
		looked: hashes !== undefined,
		...{ last, changes, broken, orphaned },
		...(sealed && { sealed }),
	};
}

const months = 'Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec'.split(' ');

/** A day as one says it: 28 Nov 2026. @param day yyyy-mm-dd */
export function dayInWords(day: string): string {
	const [year = '', month = '', of = ''] = day.split('-');
	return `${Number(of).toString()} ${months[Number(month) - 1] ?? month} ${year}`;
}

/** As much of a hash as a person compares: its first sixteen letters, by four. */
export function shortHash(hash: string): string {
	return (hash.slice(0, 16).match(/.{1,4}/gu) ?? []).join(' ');
}

/** What changed, as one counts it: 3 entries, title block. */
function countedInWords(changes: Changes): string {
	const parts = [...changes.keys()];
	const entries = parts.filter((part) => /^entry\/|^option\/[^/]*\//.test(part)).length;
	const others = kindWords.filter(([kind]) => parts.some((part) => kind.test(part)));
	return [
		...(entries > 0 ? [entries === 1 ? '1 entry' : `${entries.toString()} entries`] : []),
		...others.map(([, words]) => words),
	].join(', ');
}

const kindWords: readonly (readonly [parts: RegExp, words: string])[] = [
	[/^block\//, 'title block'],
	[/^options$|^option\/[^/]*$/, 'options'],
	[/^pages?(\/|$)/, 'sheets'],
	[/^job\/system$/, 'units'],
	[/^job\/gauge$/, 'gauge'],
	[/^job\/(?!system$|gauge$)/, 'other things'],
];

/** In a line how a job stands to its last seal: “Sealed 28 Nov 2026, unchanged”. */
export function sealInWords(state: SealState): string {
	const { standing, looked, sealed, changes, broken } = state;
	const when = sealed ? `Sealed ${dayInWords(sealed.date)}` : 'Sealed';
	// Not those of the job, for it is not known what they were.
	if (standing === 'broken') {
		return broken.length > 0
			? `${when}: the seal is broken`
			: `${when}: an earlier seal was taken out`;
	}
	const said =
		standing === 'unchanged'
			? `${when}, unchanged`
			: `${when}, changed since: ${countedInWords(changes)}`;
	return looked ? said : `${said} (its hash cannot be looked at here)`;
}

/** The same in so few letters that it stands on a phone beside a title: “sealed 28 Nov 2026, changed since”. */
export function sealInBrief({ standing, looked, sealed, broken }: SealState): string {
	if (standing === 'broken') return broken.length > 0 ? 'seal broken' : 'a seal is gone';
	const when = sealed ? `sealed ${dayInWords(sealed.date)}` : 'sealed';
	if (standing === 'changed') return `${when}, changed since`;
	return looked ? when : `${when}, not looked at`;
}

/** What is wrong with the seals, as sentences; empty where nothing is. */
export function brokenInWords({ broken, orphaned }: SealState): string {
	const named = (numbers: readonly number[]): string => numbers.join(' and ');
	return [
		...(broken.length > 0
			? [
					`Seal ${named(broken)} of this job does not fit what it holds: the sealed part was changed after it was sealed, or damaged. Ask for the file again from whoever sealed it, or hold the figures against the printed sheet.`,
				]
			: []),
		...(orphaned.length > 0
			? [
					`Seal ${named(orphaned)} names one before it that is not in this job: it was taken out. Ask for the file again from whoever sealed it.`,
				]
			: []),
	].join(' ');
}

/** What a seal is good for, and what not. */
export const whatASealIs =
	'A seal shows whether anything was changed after it. It proves neither who sealed it nor when: anybody can seal a job anew. Hold its letters against those on a printed sheet.';
