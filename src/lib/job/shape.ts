/**
 * What a job has to look like when it comes from outside: from a file, or from the browser's own store, which
 * another version may have written. Written by hand because it is on the road to the first figure, where a
 * schema library costs more than all else of a job.
 */
import { unitSystems } from '../units/quantities.ts';
import { canonicalJson } from './canonical.ts';
import {
	isPageId,
	origins,
	type Clash,
	type Entry,
	type Gauge,
	type Job,
	type KitOption,
	type OwnPage,
	type Seal,
} from './job.ts';

/** What was found is no job; `where` is the path to the part that is missing or wrong. */
export class NotAJob extends Error {
	readonly where: readonly string[];
	constructor(where: readonly string[]) {
		super(`A part of the job is missing or is not what it should be: ${where.join(' › ')}.`);
		this.where = where;
	}
}

/** Gives a value back as what it is, or throws NotAJob. */
type Reader<T> = (found: unknown, where: readonly string[]) => T;

const text: Reader<string> = (found, where) => {
	if (typeof found !== 'string') throw new NotAJob(where);
	return found;
};

function oneOf<T extends string>(words: readonly T[]): Reader<T> {
	return (found, where) => {
		const word = words.find((each) => each === found);
		if (word === undefined) throw new NotAJob(where);
		return word;
	};
}

function fieldsOf(found: unknown, where: readonly string[]): Record<string, unknown> {
	if (typeof found !== 'object' || found === null || Array.isArray(found)) throw new NotAJob(where);
	return found as Record<string, unknown>;
}

function record<T>(of: Reader<T>): Reader<Record<string, T>> {
	return (found, where) =>
		Object.fromEntries(
			Object.entries(fieldsOf(found, where)).map(([name, each]) => [
				name,
				of(each, [...where, name]),
			]),
		);
}

function list<T>(of: Reader<T>): Reader<T[]> {
	return (found, where) => {
		if (!Array.isArray(found)) throw new NotAJob(where);
		return found.map((each: unknown, index) => of(each, [...where, String(index)]));
	};
}

/** A field that may be left out; nothing at all when it is. */
function optional<K extends string, T>(
	fields: Readonly<Record<string, unknown>>,
	name: K,
	of: Reader<T>,
	where: readonly string[],
): { readonly [key in K]?: T } {
	const found = fields[name];
	return found === undefined ? {} : ({ [name]: of(found, [...where, name]) } as { [key in K]: T });
}

/** Fields that are not known here: another version may know them, so they are kept as they are. */
function unknownOf(
	fields: Readonly<Record<string, unknown>>,
	known: readonly string[],
): Record<string, unknown> {
	const isKept = (name: string): boolean => name !== '__proto__' && !known.includes(name);
	return Object.fromEntries(Object.entries(fields).filter(([name]) => isKept(name)));
}

const gauge: Reader<Gauge> = (found, where) => {
	const { onWall, turned } = fieldsOf(found, where);
	if (onWall !== 0 && onWall !== 90) throw new NotAJob([...where, 'onWall']);
	if (typeof turned !== 'boolean') throw new NotAJob([...where, 'turned']);
	return { onWall, turned };
};

const plainEntry: Reader<Omit<Entry, 'held'>> = (found, where) => {
	const fields = fieldsOf(found, where);
	const { typed, system, from } = fields;
	return {
		...unknownOf(fields, ['typed', 'system', 'from', 'gauge', 'held']),
		typed: text(typed, [...where, 'typed']),
		system: oneOf(unitSystems)(system, [...where, 'system']),
		from: oneOf(origins)(from, [...where, 'from']),
		...optional(fields, 'gauge', gauge, where),
	};
};

const entry: Reader<Entry> = (found, where) => ({
	...plainEntry(found, where),
	...optional(fieldsOf(found, where), 'held', plainEntry, where),
});

const option: Reader<KitOption> = (found, where) => {
	const fields = fieldsOf(found, where);
	const { id, name, entries } = fields;
	return {
		...unknownOf(fields, ['id', 'name', 'entries']),
		id: text(id, [...where, 'id']),
		name: text(name, [...where, 'name']),
		entries: record(entry)(entries, [...where, 'entries']),
	};
};

/** Ids that a comparison uses itself. */
const columnIds: readonly string[] = ['stock', 'plan'];

/** Options, each with an id of its own that the program can use: it is nothing a person ever typed. */
const options: Reader<KitOption[]> = (found, where) => {
	const taken = new Set(columnIds);
	return list(option)(found, where).map((each) => {
		const plain = each.id.replace(/[^A-Za-z0-9-]+/g, '-').slice(0, 64) || 'option';
		let id = plain;
		for (let n = 2; taken.has(id); n++) id = `${plain}-${n.toString()}`;
		taken.add(id);
		return id === each.id ? each : { ...each, id };
	});
};

const ownPage: Reader<OwnPage> = (found, where) => {
	const page = fieldsOf(found, where);
	const id = text(page['id'], [...where, 'id']);
	if (!isPageId(id)) throw new NotAJob([...where, 'id']);
	return { ...unknownOf(page, ['id', 'text']), id, text: text(page['text'], [...where, 'text']) };
};

/** A list in which each has another key: of two, one would never be seen. */
function listBy<K extends string, T extends Readonly<Record<K, string>>>(
	key: K,
	of: Reader<T>,
): Reader<T[]> {
	return (found, where) => {
		const all = list(of)(found, where);
		const twice = all.findIndex((one, at) => all.findIndex((each) => each[key] === one[key]) < at);
		if (twice >= 0) throw new NotAJob([...where, String(twice), key]);
		return all;
	};
}

/** What was sealed stays as it is to the letter; in a file it stands as what it says. */
const seal: Reader<Seal> = (found, where) => {
	const fields = fieldsOf(found, where);
	const { hash, record: sealed } = fields;
	return {
		...unknownOf(fields, ['hash', 'record']),
		hash: text(hash, [...where, 'hash']),
		record:
			typeof sealed === 'string' ? sealed : canonicalJson(fieldsOf(sealed, [...where, 'record'])),
	};
};

/** What stands in it is checked when somebody takes it: then it becomes a part of the job. */
const clash: Reader<Clash> = (found, where) => {
	const { part, value } = fieldsOf(found, where);
	return { part: text(part, [...where, 'part']), ...(value !== undefined && { value }) };
};

const blockFields = ['title', 'owner', 'number', 'madeBy', 'checkedBy', 'date'];

const block: Reader<Job['block']> = (found, where) => {
	const fields = fieldsOf(found, where);
	const field = (name: string): string => text(fields[name], [...where, name]);
	return {
		...unknownOf(fields, blockFields),
		title: field('title'),
		owner: field('owner'),
		number: field('number'),
		madeBy: field('madeBy'),
		checkedBy: field('checkedBy'),
		date: field('date'),
	};
};

const jobFields: readonly string[] = [
	...['id', 'workbook', 'workbookHash', 'scenario', 'system', 'gauge', 'block', 'entries'],
	...['options', 'pages', 'clashes', 'seals', 'changed'],
];

/**
 * Reads a job from whatever was found where one should be. Fields that are not known here are kept.
 * @param id what it is called here
 * @throws NotAJob
 */
export function jobFrom(found: unknown, id: string): Job {
	const where = ['job'];
	const job = fieldsOf(found, where);
	return {
		...unknownOf(job, jobFields),
		id,
		workbook: text(job['workbook'], [...where, 'workbook']),
		...optional(job, 'workbookHash', text, where),
		...optional(job, 'scenario', text, where),
		system: oneOf(unitSystems)(job['system'], [...where, 'system']),
		...optional(job, 'gauge', gauge, where),
		block: block(job['block'], [...where, 'block']),
		entries: record(entry)(job['entries'], [...where, 'entries']),
		...optional(job, 'options', options, where),
		...optional(job, 'pages', listBy('id', ownPage), where),
		...optional(job, 'clashes', list(clash), where),
		...optional(job, 'seals', listBy('hash', seal), where),
		changed: text(job['changed'], [...where, 'changed']),
	};
}

/**
 * Reads a job from the browser's own store, which keeps its id with it.
 * @throws NotAJob
 */
export function storedJob(found: unknown): Job {
	return jobFrom(found, text(fieldsOf(found, ['job'])['id'], ['job', 'id']));
}
