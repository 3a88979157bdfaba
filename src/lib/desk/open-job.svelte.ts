/**
 * The job that is open, with everything that follows from it, kept up to date at every keystroke.
 * One instance is handed down by context; components read it and call its methods, nothing else.
 */
import { createContext } from 'svelte';
import { figuresInSight, inputPlusMinus, slotsBehind } from '../answers/figures.ts';
import type { Figures, Showing, TruckState } from '../answers/figures.ts';
import { plusMinusOfAll, type PlusMinus } from '../engine/plus-minus.ts';
import { linked } from '../engine/reach.ts';
import * as edits from '../job/edits.ts';
import { readJobFile } from '../job/job-file.ts';
import { blankJob, jobFromScenario, scenarioEntries } from '../job/job.ts';
import type { Entry, Gauge, Job, TitleBlock } from '../job/job.ts';
import { fieldText, nextEntry, typedInto, type Reading } from '../job/reading.ts';
import { settledBy } from '../job/settling.ts';
import type { Graph, Node } from '../language/graph.ts';
import type { Scenario, Workbook } from '../language/workbook.ts';
import type { UnitSystem } from '../units/quantities.ts';
import { goesOn, noHistory, stepped, withFieldLeft, withStep, type History } from './history.ts';
import { checkedShelf, type JobStore, type SetAside } from './job-store.ts';
import { hangOn, LiveRun, type Readings } from './live-run.svelte.ts';
import { openWorkbook, type Shipped } from './reading.ts';

export const [getOpenJob, setOpenJob] = createContext<OpenJob>();

/** How sure the figures of a graph are, by slot. */
interface Sure {
	readonly graph: Graph | undefined;
	readonly all: readonly (PlusMinus | undefined)[];
}

export class OpenJob {
	readonly #shipped: Shipped;
	readonly #store: JobStore;
	/** The stored truth. Replaced whole, never changed in place. */
	job: Job = $state.raw() as Job;
	/** The shipped workbook with the job's own pages. Replaced whole; a component keeps no piece of it. */
	workbook: Workbook = $state.raw() as Workbook;
	#live: LiveRun = $state.raw() as LiveRun;
	/** Jobs kept in this browser, latest first. */
	shelf: readonly Job[] = $state.raw([]);
	/** What the browser keeps among the jobs and is none; it is left as it is. */
	setAside: readonly SetAside[] = $state.raw([]);
	/** False until the browser's store has said which job was open last: before that, nothing can be entered. */
	begun = $state(false);
	/** Set when the browser will not keep the job. */
	notKept = $state('');
	/** Whether pages of the job are still being read. */
	pagesComing = $state(false);
	/** Set when they could not be. */
	pagesProblem = $state('');
	/** Settles when the open workbook has the pages of the job. */
	pagesRead: Promise<void> = Promise.resolve();
	/** Id of the sheet in front of the person. */
	page = $state('');
	/** Which state of the truck the standing figures are of. */
	state: TruckState = $state('plan');
	/** The figure being pointed at, whose sources and followers show themselves. */
	pointed: string | undefined = $state();
	/** While a finger is on a key or on the glass: the figures follow it, and the ± waits until it rests. */
	moving = $state(false);
	#history: History = $state.raw(noHistory);
	#sureLast: Sure = { graph: undefined, all: [] };
	#saving: Promise<void> = Promise.resolve();
	#others: BroadcastChannel | undefined;

	/** @param job to begin with; none is the first scenario, for someone who is here for the first time */
	constructor(shipped: Shipped, store: JobStore, job: Job = firstJob(shipped)) {
		this.#shipped = shipped;
		this.#store = store;
		this.job = job;
		this.#adopt(shipped.workbook);
		if (job.pages) this.pagesRead = this.#readPages();
	}

	/** What the trade of the workbook draws to scale. */
	get drawing(): Shipped['drawing'] {
		return this.#shipped.drawing;
	}

	/** Goes on with what was open last, as soon as the browser's store answers. */
	async begin(): Promise<void> {
		this.listen();
		try {
			const id = await this.#store.current();
			const kept = id === undefined ? undefined : await this.#kept(id);
			if (kept) this.#replace(kept);
			this.begun = true;
			await this.#lookAtShelf();
		} catch (cause) {
			this.begun = true;
			this.#sayNotKept(cause);
		}
	}

	/** Hears what other windows do to the same job. */
	listen(): void {
		if (this.#others || typeof BroadcastChannel === 'undefined') return;
		this.#others = new BroadcastChannel('ride-height');
		// The same job changed in another window: show what stands there now. A step back from here would
		// take what was typed there away with it.
		this.#others.onmessage = ({ data }) => {
			if (data !== this.job.id) return;
			void this.#kept(this.job.id).then((found) => {
				if (found?.id !== this.job.id || found.changed <= this.job.changed) return;
				this.#history = noHistory;
				this.#replace(found);
			});
		};
	}

	readonly system: UnitSystem = $derived(this.job.system);
	/** How amounts are shown. */
	readonly showing: Showing = $derived({
		quantities: this.workbook.quantities,
		system: this.system,
	});
	/** The scenario the job began from, while the workbook has it. */
	readonly scenario: Scenario | undefined = $derived.by(() =>
		this.workbook.scenarios.find(({ id }) => id === this.job.scenario),
	);
	/** What that gives. */
	#given: edits.Entries = $derived(this.scenario ? scenarioEntries(this.scenario) : {});
	/** Names of figures and checks that are in sight beside the sheet's own. */
	alsoInSight: readonly string[] = $state.raw([]);
	#inSight: readonly number[] = $derived.by(() =>
		figuresInSight(this.workbook, this.page, this.state, this.alsoInSight),
	);

	/** The figures as they are now, at once; reading it follows every change. */
	readonly figures: Figures = $derived.by(() => {
		hangOn(this.#live.touched);
		return this.#figuresNow();
	});

	#figuresNow(): Figures {
		return { ...this.showing, graph: this.#live.graph, run: this.#live.run };
	}

	/**
	 * The figures for one who needs only some: the same object until something behind those was touched, so
	 * that a sweep, a solve or an option is worked out again only then. Called while a component is made.
	 * @param names of what is needed
	 */
	following(names: () => readonly string[]): { readonly figures: Figures } {
		const slots = $derived(slotsBehind(this.#live.graph, names()));
		const touch = $derived(this.#live.lastTouch(slots));
		const figures = $derived.by(() => {
			hangOn(touch);
			return this.#figuresNow();
		});
		return {
			get figures() {
				return figures;
			},
		};
	}

	/** The ± of the figures in sight, by slot. It waits while a finger moves, and keeps the last one meanwhile. */
	readonly plusMinus: Sure['all'] = $derived.by(() => {
		const { graph } = this.#live;
		if (this.moving && this.#sureLast.graph === graph) return this.#sureLast.all;
		hangOn(this.#live.sureTouched);
		const all = plusMinusOfAll(
			graph,
			this.#live.run,
			(node) => this.plusMinusOf(node),
			this.#inSight,
		);
		this.#sureLast = { graph, all };
		return all;
	});

	/** The ± of an input, SI. */
	plusMinusOf(input: Node): number {
		return inputPlusMinus(input, this.#live.reading(input.id));
	}

	/** How an input stands. */
	reading(name: string): Reading {
		return this.#live.reading(name) ?? { standing: 'missing' };
	}

	/** Names of entries that no page asks for. They are kept: the page may come back. */
	readonly unclaimed: readonly string[] = $derived.by(() => {
		if (this.pagesComing) return [];
		const all = [this.job, ...edits.optionsOf(this.job)].map(({ entries }) => entries);
		const names = new Set(all.flatMap((entries) => Object.keys(entries)));
		return [...names].filter((name) => !this.workbook.graph.byId.get(name)?.input);
	});

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
		return this.#history.past.length > 0;
	}

	get canStepForward(): boolean {
		return this.#history.future.length > 0;
	}

	/** What a step back would take away, in words; nothing when there is none. */
	get stepBackTakes(): string {
		return this.#inWords(this.#history.past.at(-1)?.field);
	}

	/** What a step forward would bring again, in words. */
	get stepForwardBrings(): string {
		return this.#inWords(this.#history.future.at(-1)?.field);
	}

	/** A field of the history as a person would call it: its entry's label, or what was done. */
	#inWords(field = ''): string {
		const name = field.split(' ').find((word) => this.workbook.graph.byId.has(word));
		const label = name && this.workbook.graph.byId.get(name)?.label;
		return label ? label.charAt(0).toLowerCase() + label.slice(1) : field;
	}

	#input(name: string) {
		return this.workbook.graph.byId.get(name)?.input;
	}

	/**
	 * Types into a field, as every keystroke does.
	 * @param how stepping by a button is one step back by itself, apart from what was typed before; so is a drag,
	 * and so is taking what was likely meant by a text that cannot be read
	 */
	type(
		name: string,
		typed: string,
		how: 'typed' | 'stepped' | 'dragged' | 'offered' = 'typed',
	): void {
		const input = this.#input(name);
		if (!input) return;
		const field = `${how} ${name}`;
		const current = this.job.entries[name];
		// Half of what is being typed is no reading: while “33 kg” cannot be read, 33 does not stay in force.
		const half =
			goesOn(this.#history, field) && current && typed.startsWith(current.typed.trimEnd());
		const before = half ? this.#history.past.at(-1)?.job.entries[name] : current;
		// What a step or a handle types is a slope, whatever the gauge's dial would show.
		const gauges = { typed: this.job.gauge, offered: current?.gauge };
		const gauge = how === 'typed' || how === 'offered' ? gauges[how] : undefined;
		const { entry, reading } = typedInto(input, before, typed, this.system, gauge);
		const { graph } = this.workbook;
		const { run } = this.#live;
		const settled =
			reading.value === undefined
				? {}
				: settledBy(graph, this.job, name, (slot) => run.value(slot));
		const job = edits.withEntry(edits.withSettled(this.job, settled), name, entry);
		this.#change(job, field, new Map([[name, reading]]));
	}

	/** The field was left: what is typed in it next is a step of its own. */
	leave(): void {
		this.#history = withFieldLeft(this.#history);
	}

	/** Puts a field back: to its scenario's value where the job has a scenario, else to nothing entered. */
	putBack(name: string): void {
		this.#change(edits.withEntriesOf(this.job, [name], this.#given), `put back ${name}`);
	}

	/** Puts every field of a page back, as one step. */
	putPageBack(page: string): void {
		const names = this.#inputsOn(page);
		this.#change(edits.withEntriesOf(this.job, names, this.#given), `put back page ${page}`);
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

	canPutPageBack(page: string): boolean {
		return this.#inputsOn(page).some((name) => this.canPutBack(name));
	}

	#inputsOn(page: string): string[] {
		const { nodes } = this.workbook.graph;
		return nodes.filter(({ input }) => input?.page === page).map(({ id }) => id);
	}

	/** Says of what stands in a field that it was measured, or that it is only assumed. */
	setMeasured(name: string, measured: boolean): void {
		const input = this.#input(name);
		const reading = this.reading(name);
		if (!input || reading.value === undefined) return;
		const { system } = this;
		// A value nobody typed is typed here, so that it stays when the page's own changes.
		const entry = this.job.entries[name] ?? {
			typed: fieldText(input, undefined, reading, system),
			system,
		};
		const said: Entry = { ...entry, from: measured ? 'person' : 'assumed' };
		this.#change(edits.withEntry(this.job, name, said), `measured ${name}`);
	}

	/** Adds a kit of parts; inputs that are not given stay stock. */
	addOption(name: string, typed: Readonly<Record<string, string>>): void {
		const entries = Object.entries(typed).flatMap(([input, text]): [string, Entry][] => {
			const cell = this.#input(input);
			return cell ? [[input, nextEntry(cell, undefined, text, this.system)]] : [];
		});
		this.#addOption(edits.withOption(this.job, name, Object.fromEntries(entries)));
	}

	/** Adds what the job plans now for these inputs, so that it can be gone back to. */
	addPlanAsOption(name: string, inputs: readonly string[]): void {
		this.#addOption(edits.withOption(this.job, name, edits.planOf(this.job, inputs)));
	}

	copyOption(id: string): void {
		this.#addOption(edits.withOptionCopied(this.job, id));
	}

	#addOption(job: Job): void {
		this.#change(job, 'add option');
		this.leave();
	}

	/** Types into a field of an option. One that is emptied is stock again. */
	typeInOption(id: string, input: string, typed: string): void {
		const cell = this.#input(input);
		const option = edits.optionsOf(this.job).find((each) => each.id === id);
		if (!cell || !option) return;
		const before = option.entries[input];
		const entry = typed === '' ? undefined : nextEntry(cell, before, typed, this.system);
		this.#change(edits.withOptionEntry(this.job, id, input, entry), `option ${id} ${input}`);
	}

	renameOption(id: string, name: string): void {
		this.#change(edits.withOptionNamed(this.job, id, name), `option ${id} name`);
	}

	/** Moves an option by one place: −1 toward the first, 1 toward the last. */
	moveOption(id: string, by: -1 | 1): void {
		this.#change(edits.withOptionMoved(this.job, id, by), `move option ${id}`);
	}

	dropOption(id: string): void {
		this.#change(edits.withoutOption(this.job, id), `drop option ${id}`);
	}

	/**
	 * Makes an option the job's plan, as one step.
	 * @param inputs all that options may set; what this one leaves out goes back to stock
	 */
	adoptOption(id: string, inputs: readonly string[]): void {
		this.#change(edits.withOptionAdopted(this.job, id, inputs), `adopt option ${id}`);
	}

	setBlock(field: keyof TitleBlock, text: string): void {
		this.#change(edits.withBlock(this.job, field, text), `block ${field}`);
	}

	/** Says how the gauge reads, so that fields take what its dial shows; nothing for slopes. */
	setGauge(gauge: Gauge | undefined): void {
		this.#change(edits.withGauge(this.job, gauge), 'gauge');
	}

	setSystem(system: UnitSystem): void {
		this.#change(edits.withSystem(this.job, system), 'units');
	}

	/**
	 * Writes a page of the job's own, or writes over it. Every entry stays, also one whose input is gone.
	 * @param id its address
	 * @param text the whole page
	 * @returns settles when the open workbook has it
	 * @throws RangeError for what cannot be an address; see isPageId
	 */
	setPage(id: string, text: string): Promise<void> {
		this.#change(edits.withPage(this.job, id, text), `page ${id}`);
		return this.pagesRead;
	}

	/** Takes a page of the job's own out; a shipped one it stood in for is there again. */
	removePage(id: string): Promise<void> {
		this.#change(edits.withoutPage(this.job, id), `remove page ${id}`);
		return this.pagesRead;
	}

	stepBack(): void {
		this.#step('back');
	}

	stepForward(): void {
		this.#step('forward');
	}

	#step(way: 'back' | 'forward'): void {
		const step = stepped(this.#history, this.job, way);
		if (!step) return;
		this.#history = step.history;
		this.#replace({ ...step.job, changed: new Date().toISOString() });
		this.#keep();
	}

	startBlank(): void {
		this.open(blankJob(this.#shipped.workbook, this.system, new Date()));
	}

	startFrom(scenario: Scenario): void {
		this.open(jobFromScenario(this.#shipped.workbook, scenario, new Date()));
	}

	/** Opens another job; the one before stays kept, and one step back brings it again. */
	open(job: Job): void {
		this.#history = withFieldLeft(withStep(withFieldLeft(this.#history), this.job, 'open'));
		this.#replace(job);
		this.#keep();
	}

	/** Opens a job kept in this browser, as it stands now: another window may have gone on with it. */
	async openKept(kept: Job): Promise<void> {
		const now = await this.#kept(kept.id).catch(() => undefined);
		this.open(now ?? kept);
	}

	/** Opens a file; a sentence when that cannot be done. */
	openFile(text: string, name: string): string | undefined {
		const read = readJobFile(text, name, this.#shipped.workbook.id);
		if ('problem' in read) return read.problem;
		this.open(read.job);
		return undefined;
	}

	async remove(id: string): Promise<void> {
		try {
			await this.#store.remove(id);
			await this.#lookAtShelf();
		} catch (cause) {
			this.#sayNotKept(cause);
		}
	}

	/** One step of change: figures first, then keeping it. */
	#change(job: Job, field: string, known?: Readings): void {
		if (job === this.job) return;
		this.#history = withStep(this.#history, this.job, field);
		const workbookHash = this.#shipped.hash;
		this.#replace({ ...job, workbookHash, changed: new Date().toISOString() }, known);
		this.#keep();
	}

	/** Brings everything in line with another state of the job, or with another job. */
	#replace(job: Job, known?: Readings): void {
		const before = this.job;
		this.job = job;
		// The ± that waits is that of the job before.
		if (job.id !== before.id) this.moving = false;
		if (job.pages === before.pages) this.#live.follow(before, job, known);
		else if (!job.pages) this.#adopt(this.#shipped.workbook);
		else {
			this.#live.follow(before, job, known);
			this.pagesRead = this.#readPages();
		}
	}

	/** Reads the job's own pages. Until they are read the workbook stays as it was; a newer wish overtakes. */
	async #readPages(): Promise<void> {
		const { pages } = this.job;
		this.pagesComing = true;
		try {
			const workbook = await openWorkbook(this.#shipped, pages);
			if (this.job.pages === pages) this.#adopt(workbook);
		} catch (cause) {
			if (this.job.pages !== pages) return;
			const why = cause instanceof Error ? cause.message : String(cause);
			this.pagesComing = false;
			this.pagesProblem = `The pages of this job's own could not be read (${why}). They are kept. Load the page again.`;
		}
	}

	/** Another workbook: the job as it stands, on its graph. */
	#adopt(workbook: Workbook): void {
		this.pagesComing = false;
		this.pagesProblem = '';
		if (workbook === this.workbook && this.#live.graph === workbook.graph) return;
		this.workbook = workbook;
		this.#live = new LiveRun(workbook.graph, this.job);
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
			.catch((cause: unknown) => {
				this.#sayNotKept(cause);
			});
	}

	/** A job of the browser's store; undefined when there is none of that id, or what is there is none. */
	async #kept(id: string): Promise<Job | undefined> {
		return checkedShelf([await this.#store.get(id)]).jobs[0];
	}

	async #lookAtShelf(): Promise<void> {
		const { jobs, setAside } = checkedShelf(await this.#store.all());
		[this.shelf, this.setAside] = [jobs, setAside];
	}

	#sayNotKept(cause: unknown): void {
		const why = cause instanceof Error ? cause.message : String(cause);
		this.notKept = `This browser does not keep the job (${why}). Save it to a file before you close the page.`;
	}
}

function firstJob({ workbook }: Shipped): Job {
	const [first] = workbook.scenarios;
	const now = new Date();
	return first ? jobFromScenario(workbook, first, now) : blankJob(workbook, 'inch-pound', now);
}
