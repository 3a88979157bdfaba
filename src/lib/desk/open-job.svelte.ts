/**
 * The job that is open, with everything that follows from it, kept up to date at every keystroke.
 * One instance is handed down by context; components read it and call its methods, nothing else.
 */
import { createContext } from 'svelte';
import type { Node } from '../language/graph.ts';
import { plusMinusOfAll } from '../engine/plus-minus.ts';
import type { UnitSystem } from '../units/quantities.ts';
import { linked } from '../engine/reach.ts';
import { rerun, runAll, type Run } from '../engine/run.ts';
import type { Value } from '../language/types.ts';
import type { Scenario, Workbook } from '../language/workbook.ts';
import { figuresInSight, inputPlusMinus, type Figures } from '../answers/figures.ts';
import {
	blankJob,
	jobFromScenario,
	scenarioEntries,
	type Entry,
	type Job,
	type KitOption,
	type TitleBlock,
} from '../job/job.ts';
import { readJobFile } from '../job/job-file.ts';
import type { JobStore } from './job-store.ts';
import {
	fieldText,
	inputsOf,
	nextEntry,
	readingOf,
	readingsOf,
	type Reading,
} from '../job/reading.ts';

export const [getOpenJob, setOpenJob] = createContext<OpenJob>();

/** Keystrokes in one field are one step back. */
interface Step {
	readonly job: Job;
	readonly field: string;
}

export class OpenJob {
	readonly workbook: Workbook;
	readonly #store: JobStore;
	/** The stored truth. Replaced whole, never changed in place. */
	job: Job = $state.raw() as Job;
	/** Jobs kept in this browser, latest first. */
	shelf: readonly Job[] = $state.raw([]);
	/** Set when the browser will not keep the job. */
	notKept = $state('');
	/** Id of the sheet in front of the person. */
	page = $state('');
	/** The figure being pointed at, whose sources and followers show themselves. */
	pointed: string | undefined = $state();
	/** Readings and run are changed in place; these count their changes. */
	#readAgain = $state(0);
	#ranAgain = $state(0);
	#run: Run;
	#readings: Map<string, Reading>;
	#past: Step[] = $state.raw([]);
	#future: Step[] = $state.raw([]);
	#left = false;
	#saving: Promise<void> = Promise.resolve();
	readonly #others: BroadcastChannel | undefined;

	constructor(workbook: Workbook, store: JobStore, job: Job) {
		this.workbook = workbook;
		this.#store = store;
		this.job = job;
		this.#readings = readingsOf(workbook.graph, job);
		this.#run = runAll(workbook.graph, inputsOf(this.#readings));
		if (typeof BroadcastChannel !== 'undefined') {
			this.#others = new BroadcastChannel('ride-height');
			// The same job changed in another window: show what stands there now. A step back from here would
			// take what was typed there away with it.
			this.#others.onmessage = ({ data }) => {
				if (data !== this.job.id) return;
				void this.#store.get(this.job.id).then((found) => {
					if (found?.id !== this.job.id || found.changed <= this.job.changed) return;
					this.#past = [];
					this.#future = [];
					this.#replace(found);
				});
			};
		}
	}

	/** Opens what was open last, or a scenario for someone who is here for the first time. */
	static async begin(workbook: Workbook, store: JobStore): Promise<OpenJob> {
		const first = workbook.scenarios[0];
		const now = new Date();
		const fresh = first
			? jobFromScenario(workbook, first, now)
			: blankJob(workbook, 'inch-pound', now);
		try {
			const id = await store.current();
			const kept = id === undefined ? undefined : await store.get(id);
			const open = new OpenJob(workbook, store, kept ?? fresh);
			open.shelf = await store.all();
			return open;
		} catch (cause) {
			const open = new OpenJob(workbook, store, fresh);
			open.#sayNotKept(cause);
			return open;
		}
	}

	readonly system: UnitSystem = $derived(this.job.system);
	/** The scenario the job began from, while the workbook has it. */
	readonly scenario: Scenario | undefined = $derived.by(() =>
		this.workbook.scenarios.find(({ id }) => id === this.job.scenario),
	);
	/** What that gives. */
	#given: Readonly<Record<string, Entry>> = $derived(
		this.scenario ? scenarioEntries(this.scenario) : {},
	);
	#inSight: readonly number[] = $derived.by(() => figuresInSight(this.workbook, this.page));

	/** The figures as they are now, with the ± of those in sight; reading it follows every change. */
	readonly figures: Figures = $derived.by(() => {
		void this.#ranAgain;
		const { graph, quantities } = this.workbook;
		return {
			graph,
			quantities,
			system: this.system,
			run: this.#run,
			plusMinus: plusMinusOfAll(graph, this.#run, (node) => this.plusMinusOf(node), this.#inSight),
		};
	});

	/** The ± of an input, SI. */
	plusMinusOf(input: Node): number {
		return inputPlusMinus(input, this.#readings.get(input.id));
	}

	/** How an input stands. */
	reading(name: string): Reading {
		void this.#readAgain;
		return this.#readings.get(name) ?? { standing: 'missing' };
	}

	/** Slots of all that the figure pointed at came from. */
	sources: ReadonlySet<number> = $derived(this.#linkedToPointed('needs'));
	/** Slots of all that it feeds. */
	fed: ReadonlySet<number> = $derived(this.#linkedToPointed('feeds'));

	#linkedToPointed(links: 'needs' | 'feeds'): ReadonlySet<number> {
		const { graph } = this.workbook;
		const node = this.pointed === undefined ? undefined : graph.byId.get(this.pointed);
		if (!node) return new Set();
		const found = new Set(linked(graph, [node.slot], links));
		found.delete(node.slot);
		return found;
	}

	get canStepBack(): boolean {
		return this.#past.length > 0;
	}

	get canStepForward(): boolean {
		return this.#future.length > 0;
	}

	/**
	 * Types into a field, as every keystroke does.
	 * @param how stepping by a button is one step back by itself, apart from what was typed before
	 */
	type(name: string, typed: string, how: 'typed' | 'stepped' = 'typed'): void {
		const input = this.workbook.graph.byId.get(name)?.input;
		if (!input) return;
		const field = `${how} ${name}`;
		const current = this.job.entries[name];
		// Half of what is being typed is no reading: while “33 kg” cannot be read, 33 does not stay in force.
		const half = this.#goesOn(field) && current && typed.startsWith(current.typed.trimEnd());
		const before = half ? this.#past.at(-1)?.job.entries[name] : current;
		const entry = nextEntry(input, before, typed, this.job.system);
		this.#change({ ...this.job, entries: { ...this.job.entries, [name]: entry } }, field);
	}

	/** Whether typing goes on in the field it was in last: a run of keystrokes that goes back as one. */
	#goesOn(field: string): boolean {
		return this.#past.at(-1)?.field === field && !this.#left && this.#future.length === 0;
	}

	/** The field was left: what is typed in it next is a step of its own. */
	leave(): void {
		this.#left = true;
	}

	/** Puts a field back: to its scenario's value where the job has a scenario, else to nothing entered. */
	putBack(name: string): void {
		this.#putBack([name], `put back ${name}`);
	}

	/** Puts every field of a page back, as one step. */
	putPageBack(page: string): void {
		this.#putBack(this.#inputsOn(page), `put back page ${page}`);
	}

	canPutPageBack(page: string): boolean {
		return this.#inputsOn(page).some((name) => this.canPutBack(name));
	}

	#inputsOn(page: string): string[] {
		const { nodes } = this.workbook.graph;
		return nodes.filter(({ input }) => input?.page === page).map(({ id }) => id);
	}

	#putBack(names: readonly string[], field: string): void {
		this.#change({ ...this.job, entries: this.#withEntries(names, this.#given) }, field);
	}

	/** Says of what stands in a field that it was measured, or that it is only assumed. */
	setMeasured(name: string, measured: boolean): void {
		const input = this.workbook.graph.byId.get(name)?.input;
		const reading = this.reading(name);
		if (!input || reading.value === undefined) return;
		const { system } = this;
		// A value nobody typed is typed here, so that it stays when the page's own changes.
		const entry = this.job.entries[name] ?? {
			typed: fieldText(input, undefined, reading, system),
			system,
		};
		const said: Entry = { ...entry, from: measured ? 'person' : 'assumed' };
		this.#change(
			{ ...this.job, entries: { ...this.job.entries, [name]: said } },
			`measured ${name}`,
		);
	}

	/** Whether putting a field back would change anything. */
	canPutBack(name: string): boolean {
		const [entry, given] = [this.job.entries[name], this.#given[name]];
		return (
			entry?.typed !== given?.typed ||
			entry?.system !== given?.system ||
			entry?.from !== given?.from
		);
	}

	/** The job's entries with those of some inputs as they stand elsewhere, or gone where they do not. */
	#withEntries(
		names: readonly string[],
		others: Readonly<Record<string, Entry>>,
	): Record<string, Entry> {
		const kept = Object.entries(this.job.entries).filter(([name]) => !names.includes(name));
		const taken = Object.entries(others).filter(([name]) => names.includes(name));
		return Object.fromEntries([...kept, ...taken]);
	}

	/** Adds a kit of parts; inputs that are not given stay stock. */
	addOption(name: string, typed: Readonly<Record<string, string>>): void {
		const { system } = this.job;
		const entries = Object.entries(typed).flatMap(([input, text]): [string, Entry][] => {
			const cell = this.workbook.graph.byId.get(input)?.input;
			return cell ? [[input, nextEntry(cell, undefined, text, system)]] : [];
		});
		this.#addOption(name, Object.fromEntries(entries), this.#options.length);
	}

	/** Adds what the job plans now for these inputs, so that it can be gone back to. */
	addPlanAsOption(name: string, inputs: readonly string[]): void {
		const entries = inputs.flatMap((input): [string, Entry][] => {
			const entry = this.job.entries[input];
			return entry ? [[input, entry]] : [];
		});
		this.#addOption(name, Object.fromEntries(entries), this.#options.length);
	}

	copyOption(id: string): void {
		const index = this.#options.findIndex((option) => option.id === id);
		const option = this.#options[index];
		if (option) this.#addOption(`${option.name}, copy`, option.entries, index + 1);
	}

	/** Types into a field of an option. One that is emptied is stock again. */
	typeInOption(id: string, input: string, typed: string): void {
		const cell = this.workbook.graph.byId.get(input)?.input;
		if (!cell) return;
		this.#changeOption(id, `option ${id} ${input}`, (option) => {
			const { [input]: before, ...others } = option.entries;
			const entries: Record<string, Entry> = others;
			if (typed !== '') entries[input] = nextEntry(cell, before, typed, this.system);
			return { ...option, entries };
		});
	}

	renameOption(id: string, name: string): void {
		this.#changeOption(id, `option ${id} name`, (option) => ({ ...option, name }));
	}

	/** Moves an option by one place: −1 toward the first, 1 toward the last. */
	moveOption(id: string, by: -1 | 1): void {
		const options = [...this.#options];
		const from = options.findIndex((option) => option.id === id);
		const moved = options[from];
		if (!moved || !options[from + by]) return;
		options.splice(from, 1);
		options.splice(from + by, 0, moved);
		this.#change({ ...this.job, options }, `move option ${id}`);
	}

	dropOption(id: string): void {
		const options = this.#options.filter((option) => option.id !== id);
		this.#change({ ...this.job, options }, `drop option ${id}`);
	}

	/**
	 * Makes an option the job's plan, as one step.
	 * @param inputs all that options may set; what this one leaves out goes back to stock
	 */
	adoptOption(id: string, inputs: readonly string[]): void {
		const option = this.#options.find((each) => each.id === id);
		if (!option) return;
		const chosen = Object.entries(option.entries).map(([input, entry]): [string, Entry] => [
			input,
			{ ...entry, from: 'person' },
		]);
		const entries = this.#withEntries(inputs, Object.fromEntries(chosen));
		this.#change({ ...this.job, entries }, `adopt option ${id}`);
	}

	get #options(): readonly KitOption[] {
		return this.job.options ?? [];
	}

	/** @param wish its name; a number goes behind one that another option has */
	#addOption(wish: string, entries: KitOption['entries'], at: number): void {
		const options = [...this.#options];
		let name = wish;
		for (let n = 2; options.some((each) => each.name === name); n++) name = `${wish} ${n}`;
		options.splice(at, 0, { id: crypto.randomUUID(), name, entries });
		this.#change({ ...this.job, options }, 'add option');
		this.leave();
	}

	#changeOption(id: string, field: string, change: (option: KitOption) => KitOption): void {
		const options = this.#options.map((option) => (option.id === id ? change(option) : option));
		this.#change({ ...this.job, options }, field);
	}

	setBlock(field: keyof TitleBlock, text: string): void {
		this.#change({ ...this.job, block: { ...this.job.block, [field]: text } }, `block ${field}`);
	}

	setSystem(system: UnitSystem): void {
		this.#change({ ...this.job, system }, 'units');
	}

	stepBack(): void {
		const step = this.#past.at(-1);
		if (!step) return;
		this.#past = this.#past.slice(0, -1);
		this.#future = [...this.#future, { job: this.job, field: step.field }];
		this.#replace({ ...step.job, changed: new Date().toISOString() });
		this.#keep();
	}

	stepForward(): void {
		const step = this.#future.at(-1);
		if (!step) return;
		this.#future = this.#future.slice(0, -1);
		this.#past = [...this.#past, { job: this.job, field: step.field }];
		this.#replace({ ...step.job, changed: new Date().toISOString() });
		this.#keep();
	}

	startBlank(): void {
		this.open(blankJob(this.workbook, this.job.system, new Date()));
	}

	startFrom(scenario: Scenario): void {
		this.open(jobFromScenario(this.workbook, scenario, new Date()));
	}

	/** Opens another job; the one before stays kept, and one step back brings it again. */
	open(job: Job): void {
		this.#past = [...this.#past.slice(-199), { job: this.job, field: 'open' }];
		this.#future = [];
		this.#left = true;
		this.#replace(job);
		this.#keep();
	}

	/** Opens a job kept in this browser, as it stands now: another window may have gone on with it. */
	async openKept(kept: Job): Promise<void> {
		const now = await this.#store.get(kept.id).catch(() => undefined);
		this.open(now ?? kept);
	}

	/** Opens a file; a sentence when that cannot be done. */
	openFile(text: string, name: string): string | undefined {
		const read = readJobFile(text, name, this.workbook.id);
		if ('problem' in read) return read.problem;
		this.open(read.job);
		return undefined;
	}

	async remove(id: string): Promise<void> {
		try {
			await this.#store.remove(id);
			this.shelf = await this.#store.all();
		} catch (cause) {
			this.#sayNotKept(cause);
		}
	}

	/** One step of change: figures first, then keeping it. */
	#change(job: Job, field: string): void {
		if (!this.#goesOn(field)) {
			this.#past = [...this.#past.slice(-199), { job: this.job, field }];
		}
		this.#left = false;
		this.#future = [];
		this.#replace({ ...job, changed: new Date().toISOString() });
		this.#keep();
	}

	/** Brings readings and run in line with another state of the job, running only what is reached. */
	#replace(job: Job): void {
		const changed = new Map<string, Value | undefined>();
		let read = false;
		let otherwiseSure = false;
		for (const node of this.workbook.graph.nodes) {
			if (!node.input) continue;
			if (job.entries[node.id] === this.job.entries[node.id] && job.system === this.job.system) {
				continue;
			}
			const reading = readingOf(node.input, job);
			const before = this.#readings.get(node.id);
			if (before?.value !== reading.value) changed.set(node.id, reading.value);
			if (before?.plusMinus !== reading.plusMinus) otherwiseSure = true;
			this.#readings.set(node.id, reading);
			read = true;
		}
		this.job = job;
		if (read) this.#readAgain++;
		if (changed.size === 0 && !otherwiseSure) return;
		rerun(this.workbook.graph, this.#run, changed);
		this.#ranAgain++;
	}

	/** Keeps the job in the browser; a newer state overtakes one still waiting. */
	#keep(): void {
		const { job } = this;
		this.#saving = this.#saving
			.then(async () => {
				if (job.id === this.job.id && job !== this.job) return;
				await this.#store.put(job);
				await this.#store.setCurrent(job.id);
				this.shelf = [job, ...this.shelf.filter(({ id }) => id !== job.id)];
				this.notKept = '';
				this.#others?.postMessage(job.id);
			})
			.catch((cause: unknown) => this.#sayNotKept(cause));
	}

	#sayNotKept(cause: unknown): void {
		const why = cause instanceof Error ? cause.message : String(cause);
		this.notKept = `This browser does not keep the job (${why}). Save it to a file before you close the page.`;
	}
}
