/**
 * A job as its parts, each of which changes by itself: so a step back takes back what it changed and nothing
 * else, and what two windows typed is put together part by part.
 *
 *   entry/NAME             what is typed in a field
 *   block/FIELD            a field of the title block
 *   option/ID              an option, all but its entries
 *   option/ID/NAME         what it sets
 *   options                their ids, in order
 *   page/ID                a page of the job's own
 *   pages                  their ids, in order
 *   clash/…                a part two windows changed at once
 *   seal/HASH              the record of a day
 *   job/FIELD              any other field of the job
 *
 * Only what a person changes is a part: the id, the hash of the workbook and the hour are not.
 */
import { canonicalJson, isSame } from './canonical.ts';
import type { Clash, Entry, Job, KitOption, OwnPage, Seal } from './job.ts';

/** What stands in a part before and after; undefined where there is no such part. */
export type Changes = ReadonlyMap<string, readonly [before: unknown, after: unknown]>;

export const entryPart = (name: string): string => `entry/${name}`;

/** The first words of a part's name, and the rest of it. */
export function wordsOf(part: string): { readonly kind: string; readonly rest: string } {
	const at = part.indexOf('/');
	return at < 0 ? { kind: part, rest: '' } : { kind: part.slice(0, at), rest: part.slice(at + 1) };
}

/** The id of an option and the name of an input, of what follows `option/`; ids have no stroke. */
export function optionWords(rest: string): { readonly id: string; readonly name: string } {
	const at = rest.indexOf('/');
	return at < 0 ? { id: rest, name: '' } : { id: rest.slice(0, at), name: rest.slice(at + 1) };
}

export const clashPart = (clash: Clash): string => `clash/${canonicalJson(clash)}`;

export const sealPart = ({ hash }: Seal): string => `seal/${hash}`;

const noParts: readonly string[] = ['id', 'workbookHash', 'changed'] satisfies (keyof Job)[];

export function partsOf(job: Job): Map<string, unknown> {
	const { entries, block, options, pages, clashes, seals, ...others } = job;
	const parts = new Map<string, unknown>();
	for (const [field, value] of Object.entries(others)) {
		if (!noParts.includes(field)) parts.set(`job/${field}`, value);
	}
	for (const [field, value] of Object.entries(block)) parts.set(`block/${field}`, value);
	for (const [name, value] of Object.entries(entries)) parts.set(entryPart(name), value);
	if (options)
		parts.set(
			'options',
			options.map(({ id }) => id),
		);
	for (const { id, entries: sets, ...rest } of options ?? []) {
		parts.set(`option/${id}`, rest);
		for (const [name, value] of Object.entries(sets)) parts.set(`option/${id}/${name}`, value);
	}
	if (pages)
		parts.set(
			'pages',
			pages.map(({ id }) => id),
		);
	for (const { id, ...page } of pages ?? []) parts.set(`page/${id}`, page);
	for (const clash of clashes ?? []) parts.set(clashPart(clash), clash);
	for (const seal of seals ?? []) parts.set(sealPart(seal), seal);
	return parts;
}

/** A job with those of its entries that another does not share with it: at a key all but one are the same objects. */
function unlike(job: Job, other: Job): Job {
	const entries = Object.entries(job.entries).filter(
		([name, entry]) => other.entries[name] !== entry,
	);
	return { ...job, entries: Object.fromEntries(entries) };
}

/** What has to change in one job to make another of it. */
export function changesBetween(before: Job, after: Job): Map<string, readonly [unknown, unknown]> {
	const changes = new Map<string, readonly [unknown, unknown]>();
	if (before === after) return changes;
	const [old, now] = [partsOf(unlike(before, after)), partsOf(unlike(after, before))];
	for (const part of new Set([...old.keys(), ...now.keys()])) {
		const [was, is] = [old.get(part), now.get(part)];
		if (!isSame(was, is)) changes.set(part, [was, is]);
	}
	return changes;
}

type Fields = Readonly<Record<string, unknown>>;

/** Fields with one set, or gone where it is undefined. */
function withField(fields: Fields, name: string, value: unknown): Fields {
	if (value !== undefined) return { ...fields, [name]: value };
	return Object.fromEntries(Object.entries(fields).filter(([each]) => each !== name));
}

/** A job with one part as given, or without it where that is undefined. All else stays the same object. */
function withPart(job: Job, part: string, value: unknown): Job {
	const { kind, rest } = wordsOf(part);
	switch (kind) {
		case 'entry':
			return { ...job, entries: withField(job.entries, rest, value) as Job['entries'] };
		case 'block':
			return {
				...job,
				block: withField({ ...job.block }, rest, value ?? '') as unknown as Job['block'],
			};
		case 'option':
			return withOptionPart(job, rest, value);
		case 'options':
			return job.options ? { ...job, options: inOrder(job.options, value) } : job;
		case 'page':
			return withList(job, 'pages', changedIn(job.pages ?? [], rest, value as OwnPage | undefined));
		case 'pages':
			return job.pages ? { ...job, pages: inOrder(job.pages, value) } : job;
		case 'clash': {
			const others = (job.clashes ?? []).filter((clash) => clashPart(clash) !== part);
			return withList(job, 'clashes', value === undefined ? others : [...others, value as Clash]);
		}
		case 'seal': {
			const others = (job.seals ?? []).filter(({ hash }) => hash !== rest);
			return withList(job, 'seals', value === undefined ? others : [...others, value as Seal]);
		}
		default:
			return withField({ ...job }, rest, value) as unknown as Job;
	}
}

/** A list of the job, or no field at all where it is empty and was not there. */
function withList<K extends 'pages' | 'clashes' | 'seals'>(
	job: Job,
	field: K,
	list: NonNullable<Job[K]>,
): Job {
	if (list.length > 0) return { ...job, [field]: list };
	const { [field]: _gone, ...rest } = job;
	return rest as Job;
}

function withOptionPart(job: Job, rest: string, value: unknown): Job {
	const { id, name } = optionWords(rest);
	const options = job.options ?? [];
	const option = options.find((each) => each.id === id);
	if (name === '') {
		const changed = value && { entries: option?.entries ?? {}, ...value };
		return { ...job, options: changedIn(options, id, changed as KitOption | undefined) };
	}
	// What belongs to an option that is gone went with it.
	if (!option) return job;
	const entries = withField(option.entries, name, value) as Record<string, Entry>;
	return { ...job, options: changedIn(options, id, { ...option, entries }) };
}

/** A list with the one of this id set, at its place or at the end; or without it. */
function changedIn<T extends { readonly id: string }>(
	list: readonly T[],
	id: string,
	value: T | undefined,
): T[] {
	if (value === undefined) return list.filter((each) => each.id !== id);
	const changed = { ...value, id };
	return list.some((each) => each.id === id)
		? list.map((each) => (each.id === id ? changed : each))
		: [...list, changed];
}

/** A list in the order of these ids; what they do not name stays behind what it stood behind. */
function inOrder<T extends { readonly id: string }>(list: readonly T[], ids: unknown): T[] {
	const wanted = Array.isArray(ids) ? ids : [];
	const ordered = wanted.flatMap((id) => list.filter((each) => each.id === id));
	list.forEach((each, index) => {
		if (wanted.includes(each.id)) return;
		const before = list[index - 1];
		ordered.splice(before ? ordered.indexOf(before) + 1 : 0, 0, each);
	});
	return ordered;
}

/** Orders and what belongs to an option come when the options and pages themselves are there. */
const late = (part: string): number =>
	part === 'options' || part === 'pages' ? 2 : /^option\/[^/]*\//.test(part) ? 1 : 0;

/** A job with some parts as given; undefined takes a part out. */
export function withParts(job: Job, values: ReadonlyMap<string, unknown>): Job {
	return [...values]
		.sort(([a], [b]) => late(a) - late(b))
		.reduce((before, [part, value]) => withPart(before, part, value), job);
}

/** Parts in which nobody typed anything: which of two orders holds is no question to ask. */
export const isOrder = (part: string): boolean => part === 'options' || part === 'pages';

/**
 * What two windows made of one job, put together part by part: what only one changed is as that one has it;
 * where both did, `mine` stands and the other is kept beside it as a clash. No clock is asked.
 * @param base the job both began from
 * @returns `mine` itself where the other changed nothing
 */
export function merged(base: Job, mine: Job, theirs: Job): Job {
	const [here, there] = [changesBetween(base, mine), changesBetween(base, theirs)];
	if (there.size === 0) return mine;
	const values = new Map<string, unknown>();
	for (const [part, [, value]] of there) {
		if (!here.has(part)) values.set(part, value);
		else if (!isOrder(part) && !isSame(here.get(part)?.[1], value)) {
			const clash: Clash = { part, ...(value !== undefined && { value }) };
			values.set(clashPart(clash), clash);
		}
	}
	keepWhatWasWorkedOn(base, here, there, values);
	const changed = mine.changed > theirs.changed ? mine.changed : theirs.changed;
	return { ...withParts(mine, values), changed };
}

/** An option that one threw away while the other worked on it stays, as the other has it. */
function keepWhatWasWorkedOn(
	base: Job,
	here: Changes,
	there: Changes,
	values: Map<string, unknown>,
): void {
	const touches = (changes: Changes, option: string): boolean =>
		[...changes.keys()].some((part) => part === option || part.startsWith(`${option}/`));
	const all = partsOf(base);
	for (const { id } of base.options ?? []) {
		const option = `option/${id}`;
		const gone = (changes: Changes): boolean =>
			changes.has(option) && changes.get(option)?.[1] === undefined;
		const isOf = (part: string): boolean => part === option || part.startsWith(`${option}/`);
		if (gone(there) && !gone(here) && touches(here, option)) {
			for (const part of [...values.keys()]) if (isOf(part)) values.delete(part);
			dropClashes(values, option);
		} else if (gone(here) && !gone(there) && touches(there, option)) {
			for (const [part, value] of all) if (isOf(part)) values.set(part, value);
			for (const [part, [, value]] of there) if (isOf(part)) values.set(part, value);
			dropClashes(values, option);
		}
	}
}

/** What is settled by keeping an option needs no question. */
function dropClashes(values: Map<string, unknown>, option: string): void {
	for (const [key, value] of [...values]) {
		const { part } = Object(value) as { part?: unknown };
		if (key.startsWith('clash/') && typeof part === 'string' && part.startsWith(option)) {
			values.delete(key);
		}
	}
}

/** A job whose clashes are only those that hold for the question. */
export function withClashes(job: Job, holds: (clash: Clash) => boolean): Job {
	const clashes = job.clashes?.filter(holds) ?? [];
	return clashes.length === (job.clashes?.length ?? 0) ? job : withList(job, 'clashes', clashes);
}
