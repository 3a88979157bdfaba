/** What can be done to a job, each as a pure function from the job as it was to the job as it will be. */
import type { UnitSystem } from '../units/quantities.ts';
import {
	isPageId,
	type Entry,
	type Gauge,
	type Job,
	type KitOption,
	type TitleBlock,
} from './job.ts';
import { newId } from './new-id.ts';

/** Entries by the name of their input. */
export type Entries = Readonly<Record<string, Entry>>;

export function withEntry(job: Job, name: string, entry: Entry): Job {
	return { ...job, entries: { ...job.entries, [name]: entry } };
}

/** With entries for fields that have none; see settledBy. */
export function withSettled(job: Job, settled: Entries): Job {
	return { ...job, entries: { ...settled, ...job.entries } };
}

/** Some entries as they stand elsewhere, or gone where they do not. */
export function withEntriesOf(job: Job, names: readonly string[], others: Entries): Job {
	const kept = Object.entries(job.entries).filter(([name]) => !names.includes(name));
	return { ...job, entries: Object.fromEntries([...kept, ...Object.entries(of(names, others))]) };
}

/** Those of some entries that have one of these names. */
function of(names: readonly string[], entries: Entries): Entries {
	return Object.fromEntries(Object.entries(entries).filter(([name]) => names.includes(name)));
}

/** What the job plans for some inputs. */
export function planOf(job: Job, names: readonly string[]): Entries {
	return of(names, job.entries);
}

export function withBlock(job: Job, field: keyof TitleBlock, text: string): Job {
	return { ...job, block: { ...job.block, [field]: text } };
}

export function withSystem(job: Job, system: UnitSystem): Job {
	return { ...job, system };
}

/** @param gauge how it reads from now on; nothing where slopes are typed. What stands in fields keeps its meaning. */
export function withGauge(job: Job, gauge: Gauge | undefined): Job {
	const { gauge: _gauge, ...rest } = job;
	return gauge ? { ...rest, gauge } : rest;
}

export function optionsOf(job: Job): readonly KitOption[] {
	return job.options ?? [];
}

/**
 * One option more.
 * @param wish its name; a number goes behind one that another option has
 * @param at its place, the last one when left out
 */
export function withOption(job: Job, wish: string, entries: Entries, at?: number): Job {
	const options = [...optionsOf(job)];
	let name = wish;
	for (let n = 2; options.some((each) => each.name === name); n++) name = `${wish} ${n.toString()}`;
	options.splice(at ?? options.length, 0, { id: newId(), name, entries });
	return { ...job, options };
}

/** A copy of an option, right behind it. */
export function withOptionCopied(job: Job, id: string): Job {
	const index = optionsOf(job).findIndex((option) => option.id === id);
	const option = optionsOf(job)[index];
	return option ? withOption(job, `${option.name}, copy`, option.entries, index + 1) : job;
}

export function withOptionNamed(job: Job, id: string, name: string): Job {
	return withOptionChanged(job, id, (option) => ({ ...option, name }));
}

/** @param entry none where the input is to be stock again */
export function withOptionEntry(job: Job, id: string, input: string, entry?: Entry): Job {
	return withOptionChanged(job, id, (option) => {
		const { [input]: _before, ...others } = option.entries;
		return { ...option, entries: entry ? { ...others, [input]: entry } : others };
	});
}

function withOptionChanged(job: Job, id: string, change: (option: KitOption) => KitOption): Job {
	const options = optionsOf(job).map((option) => (option.id === id ? change(option) : option));
	return { ...job, options };
}

/** An option one place on: −1 toward the first, 1 toward the last. */
export function withOptionMoved(job: Job, id: string, by: -1 | 1): Job {
	const options = [...optionsOf(job)];
	const from = options.findIndex((option) => option.id === id);
	const moved = options[from];
	if (!moved || !options[from + by]) return job;
	options.splice(from, 1);
	options.splice(from + by, 0, moved);
	return { ...job, options };
}

export function withoutOption(job: Job, id: string): Job {
	return { ...job, options: optionsOf(job).filter((option) => option.id !== id) };
}

/**
 * An option made the job's plan.
 * @param inputs all that options may set; what this one leaves out goes back to stock
 */
export function withOptionAdopted(job: Job, id: string, inputs: readonly string[]): Job {
	const option = optionsOf(job).find((each) => each.id === id);
	if (!option) return job;
	const chosen = Object.entries(option.entries).map(([input, entry]): [string, Entry] => [
		input,
		{ ...entry, from: 'person' },
	]);
	return withEntriesOf(job, inputs, Object.fromEntries(chosen));
}

/**
 * A page of the job's own, written anew or in place of the one with its id.
 * @throws RangeError for what cannot be the id of a page; see isPageId
 */
export function withPage(job: Job, id: string, text: string): Job {
	if (!isPageId(id)) throw new RangeError(`“${id}” cannot be the address of a page.`);
	const pages = [...(job.pages ?? [])];
	const at = pages.findIndex((page) => page.id === id);
	if (at < 0) pages.push({ id, text });
	else pages[at] = { id, text };
	return { ...job, pages };
}

export function withoutPage(job: Job, id: string): Job {
	const { pages, ...rest } = job;
	const left = pages?.filter((page) => page.id !== id) ?? [];
	return left.length > 0 ? { ...rest, pages: left } : rest;
}
