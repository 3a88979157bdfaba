/**
 * The job that is open, with everything that follows from it, kept up to date at every keystroke.
 * One instance is handed down by context; components read it and call its methods, nothing else.
 */
import { createContext, untrack } from 'svelte';
import { figuresInSight, inputPlusMinus, slotsBehind } from '../answers/figures.ts';
import type { Figures, Showing, Standing, TruckState } from '../answers/figures.ts';
import { plusMinusInSteps, plusMinusOfAll, type PlusMinus } from '../engine/plus-minus.ts';
import { linked } from '../engine/reach.ts';
import * as edits from '../job/edits.ts';
import type { Program } from '../job/job-file.ts';
import { blankJob, jobFromScenario, scenarioEntries } from '../job/job.ts';
import type { Clash, Entry, Gauge, Job, Seal, TitleBlock } from '../job/job.ts';
import { clashPart, entryPart, sealPart, withParts } from '../job/parts.ts';
import { fieldText, nextEntry, typedInto, type Reading } from '../job/reading.ts';
import { settledBy } from '../job/settling.ts';
import { NotAJob, storedJob } from '../job/shape.ts';
import type { Graph, Node } from '../language/graph.ts';
import type { InputCell } from '../language/kinds/input.ts';
import { withShared, withWords, type PackedShared, type PackedWords } from '../language/packed.ts';
import type { TradeDrawing } from '../language/trade.ts';
import { cellsOf, type Page, type Scenario, type Workbook } from '../language/workbook.ts';
import type { UnitSystem } from '../units/quantities.ts';
import { Fields } from './fields.ts';
import {
	goesOn,
	noHistory,
	opening,
	stepped,
	withFieldLeft,
	withReturnTo,
	withStep,
	type History,
	type Taken,
} from './history.ts';
import type { JobStore } from './job-store.ts';
import { held, Keeping, type Held, type Missing } from './keeping.svelte.ts';
import { noMarks, type Marks } from './marks.ts';
import type { OpenedOtherwise } from './job-as-file.ts';
import type { SealSaid } from './seals.ts';
import { stepInWords } from './part-words.ts';
import { hangOn, LiveRun, type Readings } from './live-run.svelte.ts';
import { openWorkbook, type Shipped } from './reading.ts';
import { Taking } from './taking.svelte.ts';
import { following, type Turns, type When } from './turns.svelte.ts';

export const [getOpenJob, setOpenJob] = createContext<OpenJob>();

/** How sure the figures of a job on a graph are, by slot: those that were in sight. */
interface Sure {
	readonly graph: Graph;
	readonly job: string;
	readonly inSight: readonly number[];
	/** The change it was found after. */
	readonly touched: number;
	readonly all: readonly (PlusMinus | undefined)[];
}

/** The figures and their ± as one sees them who follows in turn. */
interface Seen {
	readonly figures: Figures;
	readonly plusMinus: Sure['all'];
}

/** The same for one who follows some names: how those stand that are inputs. */
interface Followed extends Seen {
	readonly reading: (name: string) => Reading;
}

/**
 * What a part of a sheet has before it: all figures, and when it follows them; what is folded away follows last.
 * Where it follows at once, whoever reads a figure follows that one alone.
 */
interface Sight {
	readonly when: () => When;
	readonly figures: Standing;
	readonly plusMinus: Sure['all'];
}

export const [getSight, setSight] = createContext<Sight>();

export class OpenJob {
	readonly #shipped: Shipped;
	/** Where it is kept, and whether it is. */
	readonly keeping: Keeping;
	/** The shipped workbook, with the words of the pages that were shown. */
	#told: Workbook;
	readonly #toldPages = new Set<string>();
	#sharedTold = false;
	/** What the trade of the workbook draws to scale; undefined until it was wanted and has come. */
	drawing: TradeDrawing | undefined = $state.raw();
	readonly #begunWith: Job;
	/** What was asked for before this began. */
	#asked: Promise<Held | Missing | undefined> | undefined;
	/** The stored truth. Replaced whole, never changed in place; see #take. */
	job: Job = $state.raw() as Job;
	/** What of it stays through most keys, apart: whoever needs only that does not look again at each. */
	system: UnitSystem = $state('inch-pound');
	gauge: Gauge | undefined = $state.raw();
	#id = $state('');
	#scenarioId: string | undefined = $state();
	/** The shipped workbook with the job's own pages. Replaced whole; a component keeps no piece of it. */
	workbook: Workbook = $state.raw() as Workbook;
	#live: LiveRun = $state.raw() as LiveRun;
	/** False until the browser's store has said which job was open last: before that, nothing can be entered. */
	begun = $state(false);
	/** The job that should be here and is not: until somebody says what to do, no other is shown in its place. */
	missing: Missing | undefined = $state.raw();
	/** What came out otherwise when the job was opened from a file; nothing where all is as it was. */
	otherwise: OpenedOtherwise | undefined = $state.raw();
	/** How the job stands to its last seal; nothing until that was looked at. */
	sealSaid: SealSaid | undefined = $state.raw();
	/** What the last step back or forward did, in words. */
	said = $state('');
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
	/** How readings are taken where a drawing is their form. */
	readonly taking = new Taking();
	readonly fields = new Fields();
	/** While a finger is on a key or on the glass: the figures follow it, and the ± waits until it rests. */
	moving = $state(false);
	#history: History = $state.raw(noHistory);
	/** Where turns are taken, so that figures are painted before what costs more; nowhere on a server. */
	turns: Turns | undefined = $state.raw();
	#sureLast: Sure | undefined;
	/** Counts how often the ± was found in steps; it holds while nothing behind what is in sight was touched. */
	#sureFound = $state(0);
	#held: Held;

	/** @param job to begin with; none is the first scenario, for someone who is here for the first time */
	constructor(
		shipped: Shipped,
		store: JobStore,
		job: Job = firstJob(shipped),
		marks: Marks = noMarks,
	) {
		this.#shipped = shipped;
		this.keeping = new Keeping(store, marks, {
			merged: (merged, before) => {
				if (merged === this.#held) this.#show(before, merged.job);
			},
			answered: () => {
				if (this.missing?.why === 'no answer' || this.#held.job === job) void this.lookAgain();
			},
		});
		this.#take(job);
		// Nobody has done anything to it: there is nothing to keep.
		this.#held = { ...held(job, noHistory), keptJob: job };
		this.keeping.open(this.#held);
		this.#begunWith = job;
		this.#told = shipped.workbook;
		if (shipped.atOnce) {
			this.drawing = shipped.atOnce.drawing;
			this.tellShared(shipped.atOnce.shared);
		}
		this.#adopt(this.#told);
		if (job.pages) this.pagesRead = this.#readPages();
	}

	/** Puts what a shipped page alone shows into the open workbook, before that page is shown. */
	tell(page: string, words: PackedWords | undefined): void {
		if (!words || this.#toldPages.has(page)) return;
		this.#toldPages.add(page);
		this.#withTold((each) => (each.id === page ? withWords(each, words) : each));
	}

	/** Puts those cells of shipped pages in that others show, before one does. */
	tellShared(shared: Readonly<Record<string, PackedShared>>): void {
		if (this.#sharedTold) return;
		this.#sharedTold = true;
		this.#withTold((each) =>
			this.#toldPages.has(each.id) ? each : withShared(each, shared[each.id] ?? {}),
		);
	}

	#withTold(change: (page: Page) => Page): void {
		const before = this.#told;
		this.#told = { ...before, pages: before.pages.map(change) };
		if (this.workbook === before) this.workbook = this.#told;
	}

	/** The prose that is folded away on a shipped page, by its place among that. */
	async foldedOf(page: string): Promise<NonNullable<PackedWords['folded']>> {
		return (await this.#shipped.folded?.(page)) ?? [];
	}

	/** What each scenario tells of a shipped page. */
	async storiesOf(page: string): Promise<Page['stories']> {
		return (await this.#shipped.stories?.(page)) ?? {};
	}

	/** Sees to it that the trade's drawing is there. */
	async loadDrawing(): Promise<void> {
		this.drawing ??= await this.#shipped.drawing?.();
	}

	/** Sees to it that the cells are there in full that one page shows of another. */
	async loadShared(): Promise<void> {
		if (this.#sharedTold) return;
		const shared = await this.#shipped.shared?.();
		if (shared) this.tellShared(shared);
	}

	/** An entry with its words, where they are there: with every sheet comes only what an entry is read by. */
	entryInFull(name: string): InputCell | undefined {
		return cellsOf(this.workbook).find(
			(cell): cell is InputCell => cell.kind === 'input' && cell.name === name,
		);
	}

	/** Whether the job still is what the page was written with. */
	get asWritten(): boolean {
		return this.job === this.#begunWith;
	}

	/** The workbook as it is shipped, without pages of the job's own. */
	get shippedWorkbook(): Workbook {
		return this.#shipped.workbook;
	}

	/** Version of the program. */
	get version(): string {
		return this.#shipped.version ?? '';
	}

	/** Jobs kept in this browser, latest first. */
	get shelf(): readonly Job[] {
		return this.keeping.shelf;
	}

	/** Why the browser will not keep the job, and what to do; empty while it does. */
	get notKept(): string {
		return this.keeping.notKept;
	}

	/** Asks the browser's store for what was open last, which takes its time, before anything is shown. */
	prepareToBegin(): void {
		this.#asked = this.keeping.last();
	}

	/** Goes on with what was open last, as soon as the browser's store answers. */
	async begin(): Promise<void> {
		this.keeping.listen();
		await this.lookAgain();
		this.begun = true;
		const prepared = this.keeping.prepareToLeave().catch(() => undefined);
		// What saves the job has to be here before it is needed: then the network may be gone.
		void import('./job-as-file.ts').catch(() => undefined);
		await this.keeping.lookAtShelf().catch((cause: unknown) => {
			this.keeping.fail(cause);
		});
		await prepared;
	}

	/** Looks for the job that was open last: at the beginning, and again while it is missed. */
	async lookAgain(): Promise<void> {
		const asked = this.#asked ?? this.keeping.last();
		this.#asked = undefined;
		const found = await asked;
		if (!found) return;
		this.missing = 'why' in found ? found : undefined;
		if (!('why' in found)) this.#goOnWith(found);
	}

	/** The job that is missed is not looked for any more. */
	forgetMissing(): void {
		if (this.missing) this.keeping.forget(this.missing);
		this.missing = undefined;
	}

	/** How amounts are shown. */
	readonly showing: Showing = $derived({
		quantities: this.workbook.quantities,
		system: this.system,
	});
	/** The scenario the job began from, while the workbook has it. */
	readonly scenario: Scenario | undefined = $derived.by(() =>
		this.workbook.scenarios.find(({ id }) => id === this.#scenarioId),
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
	 * What one needs who needs only some figures: the same objects until something behind those was touched, so
	 * that a sweep, a solve or an option is worked out again only then, and in its turn. Called while a
	 * component is made.
	 * @param names of what is needed
	 * @param when it follows where nothing is folded
	 */
	following(names: () => readonly string[], when?: () => When): Followed {
		const slots = $derived(slotsBehind(this.#live.graph, names()));
		let known: Sure | undefined;
		const sureNow = (): Sure => {
			const last = this.#sure;
			const same = known?.inSight === last.inSight && known.job === last.job;
			const touch = this.#live.lastSureTouch(slots);
			return (known = known && same && known.touched >= touch ? known : last);
		};
		let last: { touched: number; sure: Sure; read: number } | undefined;
		// All of it in one turn: what is drawn of figures and entries should not be drawn for each of them.
		const behind = this.inTurn(() => {
			const touched = this.#live.lastTouch(slots);
			const sure = sureNow();
			const read = this.#live.lastSureTouch(slots);
			const same = last?.touched === touched && last.sure === sure && last.read === read;
			return (last = same && last ? last : { touched, sure, read });
		}, when);
		const touched = $derived(behind.value.touched);
		const sure = $derived(behind.value.sure);
		const read = $derived(behind.value.read);
		const seen = this.#seen(
			() => touched,
			() => sure,
		);
		return {
			get figures() {
				return seen.figures;
			},
			get plusMinus() {
				return seen.plusMinus;
			},
			reading: (name) => {
				hangOn(read);
				return untrack(() => this.reading(name));
			},
		};
	}

	/** All figures as one part of a sheet sees them. Called while a component is made. */
	sight(when: () => When): Sight {
		const line = (): Turns | undefined => this.turns;
		const touched = following(line, () => this.#live.touched, when);
		/** A ± was waited for; it comes behind the figures. */
		const sure = following(
			line,
			() => this.#sure,
			() => (when() === 'at once' ? 'in turn' : when()),
		);
		const atOnce = (): boolean => when() === 'at once';
		const standing = <T>(read: (live: LiveRun) => T): T => {
			const live = this.#live;
			if (atOnce()) return read(live);
			hangOn(touched.value);
			return untrack(() => read(live));
		};
		const plusMinus = (): Sure['all'] => {
			const { graph, job, inSight, all } = sure.value;
			const isOfThis = graph === this.#live.graph && job === this.#id && inSight === this.#inSight;
			return isOfThis ? all : this.#sure.all;
		};
		const run: Standing['run'] = {
			value: (slot) => standing((live) => live.value(slot)),
			failure: (slot) => standing((live) => live.failure(slot)),
		};
		const figures: Standing = $derived({ ...this.showing, graph: this.#live.graph, run });
		return {
			when,
			get figures() {
				return figures;
			},
			get plusMinus() {
				return plusMinus();
			},
		};
	}

	/** @param touched another number when the figures may be others */
	#seen(touched: () => number, sure: () => Sure): Seen {
		const figures = $derived.by(() => {
			hangOn(touched());
			return this.#figuresNow();
		});
		return {
			get figures() {
				return figures;
			},
			get plusMinus() {
				return sure().all;
			},
		};
	}

	/**
	 * A value that follows another in its turn, last of all where it is folded away with the part of the sheet it
	 * is on. Called while a component is made.
	 */
	inTurn<T>(now: () => T, when: () => When = () => 'in turn'): { readonly value: T } {
		const sight = getSight();
		return following(
			() => this.turns,
			now,
			() => (sight.when() === 'at once' ? when() : sight.when()),
		);
	}

	/** How inputs stand, for one who follows in turn. Called while a component is made. */
	readings(when?: () => When): (name: string) => Reading {
		const read = this.inTurn(() => this.#live.readAgain, when);
		return (name) => {
			hangOn(read.value);
			return untrack(() => this.reading(name));
		};
	}

	/** Has those who follow in turn look again when the job was changed, or the ± found. It is an effect of a window. */
	stir(): void {
		hangOn([this.job, this.#live, this.#sure]);
		this.turns?.stir();
	}

	/**
	 * The ± of the figures in sight. It waits while a finger moves, and keeps the last one meanwhile; where turns
	 * are taken, an edit leaves it to be found in steps.
	 */
	readonly #sure: Sure = $derived.by(() => {
		hangOn(this.#sureFound);
		const last = this.#sureLast;
		const { graph, run } = this.#live;
		const [job, inSight] = [this.#id, this.#inSight];
		const waits = this.moving || (this.turns && last?.inSight === inSight);
		if (waits && last?.graph === graph && last.job === job) return last;
		const touched = this.#live.sureTouched;
		const all = untrack(() =>
			plusMinusOfAll(graph, run, (node) => this.plusMinusOf(node), inSight),
		);
		return (this.#sureLast = { graph, job, inSight, touched, all });
	});

	/** The ± of the figures in sight, by slot. */
	get plusMinus(): Sure['all'] {
		return this.#sure.all;
	}

	/**
	 * Finds the ± in steps when something it comes from was touched, as soon as the finger rests. It is an effect
	 * of the window that takes the turns.
	 * @returns ends it
	 */
	followPlusMinus(): (() => void) | undefined {
		const { turns, moving } = this;
		if (!turns || moving) return undefined;
		const { touched: before, graph, job, inSight } = this.#sure;
		const { run, sureTouched: touched } = this.#live;
		// A text that is in sight has no ±.
		const figures = inSight.filter((slot) => graph.nodes[slot]?.type?.kind === 'quantity');
		const behind = linked(graph, figures, 'needs');
		if (before >= this.#live.lastSureTouch(behind)) return undefined;
		const steps = untrack(() =>
			plusMinusInSteps(graph, run, (node) => this.plusMinusOf(node), inSight),
		);
		const step = (): boolean => {
			const { done, value } = steps.next();
			if (!done) return true;
			this.#sureLast = { graph, job, inSight, touched, all: value };
			this.#sureFound++;
			return false;
		};
		turns.take(step, 'in turn');
		return () => {
			turns.leave(step);
		};
	}

	/** The ± of an input, SI. */
	plusMinusOf(input: Node): number {
		return inputPlusMinus(input, this.#live.reading(input.id));
	}

	/** What stands in the field of an input; whoever reads it follows that input alone. */
	entry(name: string): Entry | undefined {
		this.#live.reading(name);
		return untrack(() => this.job.entries[name]);
	}

	/** How an input stands; whoever reads it follows that input alone. */
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
		return stepInWords(this.#history.past.at(-1), this.workbook);
	}

	/** What a step forward would bring again, in words. */
	get stepForwardBrings(): string {
		return stepInWords(this.#history.future.at(-1), this.workbook);
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
		const begun = half ? this.#history.past.at(-1)?.changes.get(entryPart(name)) : undefined;
		const before = begun ? (begun[0] as Entry | undefined) : current;
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
		this.#change(job, field, new Map([[name, reading]]), how === 'dragged' ? 'soon' : 'now');
	}

	/** The field was left: what is typed in it next is a step of its own, and what is finished is kept at once. */
	leave(): void {
		this.#history = withFieldLeft(this.#history);
		this.keeping.keepWaiting();
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
		const [entry, given] = [this.entry(name), this.#given[name]];
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
		const taken = stepped(this.#history, this.job, way);
		if (!taken) return;
		const { history, step, job } = taken;
		const words = stepInWords(step, this.workbook);
		if (step.other !== undefined) {
			void this.#stepTo(step.other, taken, way);
		} else {
			this.#history = history;
			if (isJob(job)) {
				this.#replace({ ...job, changed: new Date().toISOString() });
				this.#keep();
			}
		}
		this.said = `${way === 'back' ? 'Undone' : 'Redone'}: ${words}`;
	}

	/** One step that opens another job again. */
	async #stepTo(id: string, { history, step }: Taken, way: 'back' | 'forward'): Promise<void> {
		const from = this.job.id;
		const found =
			this.keeping.heldBefore(id) ?? (await this.keeping.heldOf(id).catch(() => undefined));
		if (!found || 'why' in found || this.job.id !== from) return;
		this.#history = history;
		if (way === 'back') found.history = withReturnTo(found.history, { step, job: from });
		this.#goOnWith(found);
		this.#keep();
	}

	/** Says which of the values of a clash it is: what stands here, or the other. */
	settle(clash: Clash, which: 'this' | 'other'): void {
		const values = new Map<string, unknown>([[clashPart(clash), undefined]]);
		if (which === 'other') values.set(clash.part, clash.value);
		const job = withParts(this.job, values);
		this.#change(
			isJob(job) ? job : withParts(this.job, new Map([[clashPart(clash), undefined]])),
			'settle',
		);
		this.leave();
	}

	/** Keeps the job as it stood as the record of a day. */
	addSeal(seal: Seal): void {
		this.#change(withParts(this.job, new Map([[sealPart(seal), seal]])), 'seal');
		this.leave();
	}

	startBlank(): void {
		this.open(blankJob(this.#shipped.workbook, this.system, new Date()));
	}

	startFrom(scenario: Scenario): void {
		this.open(jobFromScenario(this.#shipped.workbook, scenario, new Date()));
	}

	/** Opens a job that is new here; the one before stays kept, and one step back brings it again. */
	open(job: Job): void {
		this.forgetMissing();
		this.#goOnWith(held(job, opening(this.job.id)));
		this.#keep();
	}

	/** Opens a job kept in this browser, as it stands now: another window may have gone on with it. */
	async openKept({ id }: Job): Promise<void> {
		const here = this.keeping.heldBefore(id);
		const found = await this.keeping.heldOf(id).catch((cause: unknown) => {
			this.keeping.fail(cause);
		});
		const next = found && !('why' in found) ? found : here;
		if (!next) {
			this.missing = found && 'why' in found ? found : undefined;
			return;
		}
		this.forgetMissing();
		this.#goOnWith(next);
		this.#keep();
	}

	/** Another job is the open one. */
	#goOnWith(next: Held): void {
		this.#held = next;
		this.keeping.open(next);
		if (next.base) this.keeping.sayFound(next.job);
		this.said = '';
		this.otherwise = undefined;
		this.#history = withFieldLeft(next.history);
		this.#show(this.job, next.job);
	}

	/** The job as a file, with the figures as they are. */
	async file(): Promise<{ readonly name: string; readonly text: string }> {
		const { fileOf } = await import('./job-as-file.ts');
		return fileOf(this.job, this.program, this.figures);
	}

	/** What this is, as a file says it; nothing in a program that was not built. */
	get program(): Program | undefined {
		const { version, hash } = this.#shipped;
		return version === undefined ? undefined : { version, workbook: hash };
	}

	/** Opens a file; a sentence when that cannot be done. Figures that are others now are in `otherwise`. */
	async openFile(text: string, name: string): Promise<string | undefined> {
		const { openedFrom } = await import('./job-as-file.ts');
		const opened = openedFrom(text, name, this.#shipped.workbook.id);
		if ('problem' in opened) return opened.problem;
		this.open(opened.job);
		await this.pagesRead;
		if (this.job.id === opened.job.id) this.otherwise = opened.otherwise(this.figures);
		return undefined;
	}

	/**
	 * One step of change: figures first, then keeping it.
	 * @param when it is kept: soon where more of the same is likely to come at the next frame
	 */
	#change(job: Job, field: string, known?: Readings, when: 'now' | 'soon' = 'now'): void {
		if (job === this.job) return;
		this.#history = withStep(this.#history, this.job, job, field);
		this.said = '';
		const workbookHash = this.#shipped.hash;
		this.#replace({ ...job, workbookHash, changed: new Date().toISOString() }, known);
		this.#keep(when);
	}

	/** Brings everything in line with another state of the job. */
	#replace(job: Job, known?: Readings): void {
		this.#held.job = job;
		this.#show(this.job, job, known);
	}

	#take(job: Job): void {
		this.job = job;
		this.system = job.system;
		this.gauge = job.gauge;
		this.#id = job.id;
		this.#scenarioId = job.scenario;
	}

	/** Brings everything in line with another state of the job, or with another job. */
	#show(before: Job, job: Job, known?: Readings): void {
		this.#take(job);
		// The ± that waits is that of the job before.
		if (job.id !== before.id) this.moving = false;
		if (job.pages === before.pages) this.#live.follow(before, job, known);
		else if (!job.pages) this.#adopt(this.#told);
		else {
			this.#live.follow(before, job, known);
			this.pagesRead = this.#readPages();
		}
	}

	#keep(when: 'now' | 'soon' = 'now'): void {
		this.#held.history = this.#history;
		if (when === 'now') this.keeping.keep(this.#held);
		else this.keeping.keepSoon(this.#held);
	}

	/** Reads the job's own pages. Until they are read the workbook stays as it was; a newer wish overtakes. */
	async #readPages(): Promise<void> {
		const { pages } = this.job;
		this.pagesComing = true;
		try {
			const workbook = await openWorkbook({ ...this.#shipped, workbook: this.#told }, pages);
			if (this.job.pages === pages) this.#adopt(workbook);
		} catch (cause) {
			if (this.job.pages !== pages) return;
			const why = cause instanceof Error ? cause.message : String(cause);
			this.pagesComing = false;
			this.pagesProblem = `The pages of this job's own could not be read (${why}). They are kept. See that the workbook can be reached, and then load the page again.`;
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
}

/** What is put back into a job came from the store, where it may have been damaged. */
function isJob(job: Job): boolean {
	try {
		storedJob(job);
		return true;
	} catch (cause) {
		if (cause instanceof NotAJob) return false;
		throw cause;
	}
}

function firstJob({ workbook }: Shipped): Job {
	const [first] = workbook.scenarios;
	const now = new Date();
	return first ? jobFromScenario(workbook, first, now) : blankJob(workbook, 'inch-pound', now);
}
