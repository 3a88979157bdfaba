/**
 * One person's job: what was typed for each input, kept exactly as typed. Plain data, so that it can be
 * stored, saved to a file and undone by keeping the one before.
 */
import type { UnitSystem } from '../units/quantities.ts';
import type { Scenario, Workbook } from '../language/workbook.ts';
import { newId } from './new-id.ts';

/** Where an entry comes from: measured or chosen by the person, the scenario's, or only assumed by the person. */
export const origins = ['person', 'scenario', 'assumed'] as const;
export type Origin = (typeof origins)[number];

/**
 * How the gauge of a job reads, asked once: then a field takes what its dial shows, and the slope follows.
 */
export interface Gauge {
	/** What it shows against a plumb wall, degrees; on a level floor it shows the other of the two. */
	readonly onWall: 0 | 90;
	/** Whether it counts the other way: a reading without a sign is then a slope up toward the rear. */
	readonly turned: boolean;
}

/** What was typed in one field. */
export interface Entry {
	/** To the letter. */
	readonly typed: string;
	/** The system shown when it was typed: what a bare number was meant in. */
	readonly system: UnitSystem;
	readonly from: Origin;
	/** How the gauge read when it was typed, where its dial was typed: what is typed keeps its meaning. */
	readonly gauge?: Gauge;
	/** The entry before it that could be read, while this one cannot. It stays in force. */
	readonly held?: Omit<Entry, 'held'>;
}

/** A kit of parts to compare: what it sets, and nothing else of the job. */
export interface KitOption {
	readonly id: string;
	readonly name: string;
	/** What it sets by input; an input without an entry stays as it is on the stock truck. */
	readonly entries: Readonly<Record<string, Entry>>;
}

/** The fields of the title block a person fills in (ISO 7200). */
export interface TitleBlock {
	/** What the job is called; the vehicle, mostly. */
	readonly title: string;
	readonly owner: string;
	readonly number: string;
	readonly madeBy: string;
	readonly checkedBy: string;
	/** yyyy-mm-dd */
	readonly date: string;
}

/** A page that belongs to the job and not to the workbook as it is shipped. */
export interface OwnPage {
	/** Its address; one that a shipped page has stands in for that. */
	readonly id: string;
	/** The whole of it, as in a file of a workbook. */
	readonly text: string;
}

/** A part of the job that two windows changed at once: what was typed in the one that kept it first. */
export interface Clash {
	/** Which part; see parts.ts. */
	readonly part: string;
	/** What stood there in the other window; nothing where it was taken out. */
	readonly value?: unknown;
}

/** The job as the record of a day; see seal.ts. */
export interface Seal {
	/** SHA-256 of the record, hexadecimal. */
	readonly hash: string;
	/** What was sealed, as canonical JSON, to the letter: it is never written anew. */
	readonly record: string;
}

/** Whether a page can have this id: a word for an address, and none that the program itself has. */
export function isPageId(id: string): boolean {
	return /^[a-z][a-z0-9-]*$/.test(id) && id !== 'functions';
}

export interface Job {
	readonly id: string;
	/** The workbook's folder. */
	readonly workbook: string;
	/** SHA-256 of the text of the workbook it was last changed with; none in a job older than that. */
	readonly workbookHash?: string;
	/** The scenario it began from. */
	readonly scenario?: string;
	readonly system: UnitSystem;
	/** Where nothing is said of it, fields take slopes. */
	readonly gauge?: Gauge;
	readonly block: TitleBlock;
	readonly entries: Readonly<Record<string, Entry>>;
	readonly options?: readonly KitOption[];
	readonly pages?: readonly OwnPage[];
	/** What two windows changed at once, until somebody has said which of both it is. */
	readonly clashes?: readonly Clash[];
	/** Earliest first. */
	readonly seals?: readonly Seal[];
	/** When it was last changed, ISO 8601. */
	readonly changed: string;
}

function newJob(workbook: Workbook, title: string, now: Date): Job {
	const changed = now.toISOString();
	return {
		id: newId(),
		workbook: workbook.id,
		system: 'inch-pound',
		block: { title, owner: '', number: '', madeBy: '', checkedBy: '', date: changed.slice(0, 10) },
		entries: {},
		changed,
	};
}

/** A job with nothing entered. */
export function blankJob(workbook: Workbook, system: UnitSystem, now: Date): Job {
	return { ...newJob(workbook, 'New job', now), system };
}

/** A job with every value of a scenario, each marked as the scenario's. */
export function jobFromScenario(workbook: Workbook, scenario: Scenario, now: Date): Job {
	return {
		...newJob(workbook, scenario.title, now),
		system: scenario.units,
		scenario: scenario.id,
		entries: scenarioEntries(scenario),
		...(scenario.options && {
			options: scenario.options.map(({ name, values }) => ({
				id: newId(),
				name,
				entries: scenarioEntries({ ...scenario, values }),
			})),
		}),
	};
}

/** What a scenario gives, as entries that are marked as its own. */
export function scenarioEntries({ values, units }: Scenario): Record<string, Entry> {
	const entries = Object.entries(values).map(([name, typed]): [string, Entry] => [
		name,
		{ typed, system: units, from: 'scenario' },
	]);
	return Object.fromEntries(entries);
}
