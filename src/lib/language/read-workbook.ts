/** From the files of a workbook's folder to the workbook, page by page: what has not changed is kept. */
import type { Token } from 'marked';
import { nearest } from '../units/nearest-word.ts';
import type { Quantities } from '../units/quantities.ts';
import { buildGraph } from './build-graph.ts';
import { readFormula } from './formula.ts';
import { functionTableOf, type FunctionTable } from './functions.ts';
import type { Graph } from './graph.ts';
import { readCell, type Cell } from './kinds/index.ts';
import { readPage } from './page.ts';
import { FormulaError, linesIn } from './places.ts';
import { figuresInText } from './prose.ts';
import { readScenario, scenarioFile, type ScenarioRead } from './read-scenario.ts';
import type { DrawnNames, Trade } from './trade.ts';
import type { Formula } from './tree.ts';
import type { Mention, Problem, SourceText } from './types.ts';
import { readHead, readQuantities, type WorkbookHead } from './workbook-head.ts';
import type { Errand, Page, PagePart, Section, Workbook } from './workbook.ts';
import type { YamlFound } from './yaml.ts';

type ProseMention = Mention & { readonly page: string };

/** What one page comes to by itself. Its stories stand in the scenarios. */
interface PageRead {
	readonly page: Omit<Page, 'stories'>;
	readonly cells: readonly Cell[];
	readonly mentions: readonly ProseMention[];
	readonly problems: readonly Problem[];
}

/** The last thing made of an input, kept for as long as the input is the same. */
interface Kept<Read> {
	readonly text: string;
	readonly read: Read;
}

/**
 * Reads a workbook.
 * @param id name of its folder
 * @param files text by path inside the folder: "workbook.yaml", "wedge.md", "scenarios/x.yaml"
 * @param trade what makes it a workbook of its trade
 * @throws Error when workbook.yaml is missing or cannot be read; without it there is no workbook
 */
export function readWorkbook(
	id: string,
	files: ReadonlyMap<string, string>,
	trade: Trade,
): Workbook {
	return new WorkbookReader(trade).read(id, files);
}

/**
 * Reads a workbook again and again while it is written. A page, a scenario and a formula are read again only
 * when their text has changed, or when the quantities of the workbook have; the graph is made anew, for a
 * name on one page may be needed on any other. What is kept comes back as the very same object.
 */
export class WorkbookReader {
	private readonly trade: Trade;
	private readonly functions: FunctionTable;
	private quantities: Kept<Quantities> | undefined;
	private pages: ReadonlyMap<string, Kept<PageRead>> = new Map();
	private scenarios: ReadonlyMap<string, Kept<ScenarioRead>> = new Map();
	private whole: ReadonlyMap<string, Page> = new Map();
	/** By their text, of this reading and the last. */
	private formulas = new Map<string, Formula | FormulaError>();
	private formulasBefore: ReadonlyMap<string, Formula | FormulaError> = new Map();
	/** Ids of the pages that the last reading read, for which nothing was kept. */
	pagesRead: readonly string[] = [];

	constructor(trade: Trade) {
		this.trade = trade;
		this.functions = functionTableOf(trade.functions);
	}

	/** As readWorkbook. */
	read(id: string, files: ReadonlyMap<string, string>): Workbook {
		const { head, place } = readHead(files.get('workbook.yaml') ?? '');
		const quantities = this.quantitiesOf(head);
		const missing: Problem[] = [];
		const textOf = textsIn(files, place, missing);
		const pages = this.readPages(head, quantities, (page, index) =>
			textOf(`${page}.md`, 'pages', index),
		);
		const scenarios = this.readScenarios(head, (scenario, index) =>
			textOf(scenarioFile(scenario), 'scenarios', index),
		);
		const cells = pages.flatMap((read) => read.cells);
		const standing = Object.keys(head.standing).map((name): ProseMention => {
			return { name, at: place(['standing', name]), must: 'any', page: 'workbook.yaml' };
		});
		const drawn = drawnNames(head, this.trade, place);
		const mentions = [...pages, ...scenarios].flatMap((read) => read.mentions);
		this.formulasBefore = this.formulas;
		this.formulas = new Map();
		const errands = errandsOf(head, place);
		const graph = buildGraph(
			cells,
			[...mentions, ...standing, ...errands.mentions, ...drawn.mentions],
			this.functions,
			this.formulaOf,
		);
		return {
			id,
			title: head.title,
			summary: head.summary,
			standing: Object.entries(head.standing).map(([name, caption]) => ({ name, caption })),
			errands: errands.list,
			packet: head.packet ?? [],
			cautions: head.cautions,
			...(head.drawing && { drawing: head.drawing }),
			quantities,
			pages: this.withStories(pages, scenarios),
			scenarios: scenarios.flatMap(({ scenario }) => scenario ?? []),
			graph,
			problems: inReadingOrder(head.pages, [
				...missing,
				...errandProblems(head, place),
				...packetProblems(head, place),
				...drawn.problems,
				...[...pages, ...scenarios].flatMap((read) => read.problems),
				...cells.flatMap((cell) => unknownPages(cell, head.pages)),
				...cells.flatMap((cell) => notOnDrawing(cell, head.drawing ?? {})),
				...scenarios.flatMap((read) => storyProblems(read, head.pages)),
				...graph.problems,
				...scenarios.flatMap((read) => valueProblems(read, graph)),
			]),
		};
	}

	private quantitiesOf({ quantities }: WorkbookHead): Quantities {
		const text = JSON.stringify(quantities);
		if (this.quantities?.text !== text) {
			this.quantities = { text, read: readQuantities(quantities) };
			this.pages = new Map();
		}
		return this.quantities.read;
	}

	private readPages(
		{ pages: ids }: WorkbookHead,
		quantities: Quantities,
		textOf: (page: string, index: number) => string | undefined,
	): readonly PageRead[] {
		const pagesRead: string[] = [];
		const pages = ids.map((id, index): [string, Kept<PageRead>] => {
			const text = textOf(id, index) ?? missingPage(id);
			const kept = this.pages.get(id);
			if (kept?.text === text) return [id, kept];
			pagesRead.push(id);
			return [id, { text, read: readWholePage(id, text, quantities, this.trade) }];
		});
		this.pages = new Map(pages);
		this.pagesRead = pagesRead;
		return pages.map(([, { read }]) => read);
	}

	private readScenarios(
		{ scenarios: ids }: WorkbookHead,
		textOf: (scenario: string, index: number) => string | undefined,
	): readonly ScenarioRead[] {
		const scenarios = ids.flatMap((id, index): [string, Kept<ScenarioRead>][] => {
			const text = textOf(id, index);
			if (text === undefined) return [];
			const kept = this.scenarios.get(id);
			return [[id, kept?.text === text ? kept : { text, read: readScenario(id, text) }]];
		});
		this.scenarios = new Map(scenarios);
		return scenarios.map(([, { read }]) => read);
	}

	/** Pages with what the scenarios tell of them. */
	private withStories(
		reads: readonly PageRead[],
		scenarios: readonly ScenarioRead[],
	): readonly Page[] {
		const pages = reads.map(({ page }): Page => {
			const stories: Record<string, readonly Token[]> = {};
			for (const { scenario, stories: told } of scenarios) {
				const story = told.find((each) => each.page === page.id);
				if (scenario && story) stories[scenario.id] = story.tokens;
			}
			const kept = this.whole.get(page.id);
			return kept?.sections === page.sections && sameValues(kept.stories, stories)
				? kept
				: { ...page, stories };
		});
		this.whole = new Map(pages.map((page) => [page.id, page]));
		return pages;
	}

	private readonly formulaOf = (source: SourceText): Formula => {
		const { text } = source;
		const read = this.formulas.get(text) ?? this.formulasBefore.get(text) ?? tried(source);
		this.formulas.set(text, read);
		if (read instanceof FormulaError) throw read;
		return read;
	};
}

/** The texts of the files that workbook.yaml lists; those that are not there are put among the missing. */
function textsIn(
	files: ReadonlyMap<string, string>,
	place: YamlFound<unknown>['place'],
	missing: Problem[],
): (file: string, list: 'pages' | 'scenarios', index: number) => string | undefined {
	return (file, list, index) => {
		const text = files.get(file);
		if (text !== undefined) return text;
		const { line, column } = place([list, index]);
		missing.push({
			message: `There is no ${list === 'pages' ? 'page ' : ''}${file}; add the file or take it out of “${list}”.`,
			page: 'workbook.yaml',
			cell: '',
			line,
			column,
		});
		return undefined;
	};
}

/** A formula, or what is wrong with it. */
function tried(source: SourceText): Formula | FormulaError {
	try {
		return readFormula(source);
	} catch (cause) {
		if (cause instanceof FormulaError) return cause;
		throw cause;
	}
}

function sameValues(
	one: Readonly<Record<string, unknown>>,
	other: Readonly<Record<string, unknown>>,
): boolean {
	const names = Object.keys(one);
	return (
		names.length === Object.keys(other).length && names.every((name) => one[name] === other[name])
	);
}

/** Stands in for the text of a page that is not there. */
function missingPage(id: string): string {
	return `---\ntitle: ${id}\nsummary: missing\ndocument: missing\n---\n`;
}

function readWholePage(
	id: string,
	text: string,
	quantities: Quantities,
	{ drawing }: Trade,
): PageRead {
	const { sections, problems, ...page } = readPage(id, text);
	const cells: Cell[] = [];
	const mentions: ProseMention[] = [];
	const found: Problem[] = [...problems];
	const read = sections.map((section): Section => ({
		...section,
		parts: section.parts.map((part): PagePart => {
			if (part.part === 'prose') {
				mentions.push(...mentionsInProse(part.tokens, id, part.line));
				return { part: 'prose', tokens: part.tokens };
			}
			const { cell, problems: mistakes } = readCell(part.block, { quantities, drawing });
			found.push(...mistakes);
			cells.push(cell);
			return { part: 'cell', cell };
		}),
	}));
	return {
		page: { ...page, sections: read, parts: read.flatMap(({ parts }) => parts) },
		cells,
		mentions,
		problems: found,
	};
}

function inReadingOrder(pages: readonly string[], problems: Problem[]): readonly Problem[] {
	const reading = ['workbook.yaml', ...pages];
	const place = (page: string): number => {
		const found = reading.indexOf(page);
		return found < 0 ? reading.length : found;
	};
	return problems.sort(
		(a, b) => place(a.page) - place(b.page) || a.line - b.line || a.column - b.column,
	);
}

/** An overview looks at pages by their ids. */
function unknownPages(cell: Cell, pages: readonly string[]): Problem[] {
	if (cell.kind !== 'overview') return [];
	const unknown = (cell.pages ?? []).filter((page) => !pages.includes(page));
	return unknown.map((page) => ({
		message: `There is no page “${page}” in this workbook.${nearest(page, pages)}`,
		page: cell.page,
		cell: `overview ${cell.name}`,
		line: cell.line,
		column: 1,
	}));
}

/** The names that drawings are made from, each to be what the trade says, and what it has no use for. */
function drawnNames(
	{ drawing = {} }: WorkbookHead,
	trade: Trade,
	place: ReturnType<typeof readHead>['place'],
): { mentions: ProseMention[]; problems: Problem[] } {
	const sections = trade.drawing?.sections ?? {};
	const mentions: ProseMention[] = [];
	const problems: Problem[] = [];
	const unknown = (path: readonly string[], word: string, known: readonly string[]): void => {
		const { line, column } = place(['drawing', ...path]);
		const message = `“${word}” is nothing that a drawing is made from.${nearest(word, known)} Take it out, or write one of ${known.join(', ')}.`;
		problems.push({ message, page: 'workbook.yaml', cell: '', line, column });
	};
	for (const [section, keys] of Object.entries(drawing)) {
		const known = sections[section];
		if (!known) {
			unknown([section], section, Object.keys(sections));
			continue;
		}
		for (const [key, names] of Object.entries(keys)) {
			const drawn = known[key];
			if (!drawn) {
				unknown([section, key], key, Object.keys(known));
				continue;
			}
			names.forEach((name) => {
				mentions.push({
					name,
					at: { ...place(['drawing', section, key]), text: name },
					page: 'workbook.yaml',
					...drawn,
				});
			});
		}
	}
	return { mentions, problems };
}

/** What a drawing moves, dimensions and asks for has a place on it, by the sections of workbook.yaml. */
const onDrawing = {
	entry: { field: 'move', sections: ['handles'] },
	any: { field: 'dimension', sections: ['dimensions'] },
	input: { field: 'ask', sections: ['readings', 'dimensions'] },
} as const;

/** A drawing moves, dimensions and asks for only what workbook.yaml says where to find on it. */
function notOnDrawing(cell: Cell, names: DrawnNames): Problem[] {
	if (cell.kind !== 'drawing') return [];
	return cell.mentions.flatMap(({ name, must, at: { line, column } }) => {
		const { field, sections } = onDrawing[must as keyof typeof onDrawing];
		const known = sections.flatMap((section) => Object.values(names[section] ?? {}).flat());
		if (known.includes(name)) return [];
		const under = sections.map((section) => `“${section}”`).join(' or ');
		const message = `“${field}” has ${name}, which has no place on the drawing.${nearest(name, known)} workbook.yaml names those that have one under “drawing”, ${under}.`;
		return { message, page: cell.page, cell: `drawing ${cell.name}`, line, column };
	});
}

/** A story may be told only of pages there are. */
function storyProblems({ scenario, stories }: ScenarioRead, pages: readonly string[]): Problem[] {
	return stories
		.filter(({ page }) => !pages.includes(page))
		.map(({ page, at: { line, column } }) => ({
			message: `The story tells of a page “${page}” that is not in the workbook.`,
			page: scenarioFile(scenario?.id ?? ''),
			cell: '',
			line,
			column,
		}));
}

/** A scenario gives values to inputs alone. */
function valueProblems(
	{ scenario, given, place }: ScenarioRead,
	{ nodes, byId }: Graph,
): Problem[] {
	const inputs = nodes.filter(({ input }) => input).map(({ id }) => id);
	return given.flatMap(({ name, path }) => {
		const node = byId.get(name);
		if (node?.input || node?.cell.kind === 'unreadable') return [];
		const { line, column } = place(path);
		return {
			message: `The scenario gives “${name}” a value, but no input has that name.${nearest(name, inputs)}`,
			page: scenarioFile(scenario?.id ?? ''),
			cell: '',
			line,
			column,
		};
	});
}

/** The figures quoted in a piece of prose, with the lines they stand on. */
function mentionsInProse(
	tokens: readonly Token[],
	page: string,
	line: number,
): (Mention & { page: string })[] {
	const found: (Mention & { page: string })[] = [];
	let at = line;
	for (const token of tokens) {
		if (token.type !== 'code' && token.raw.includes('{')) {
			const plain = withoutCode(token);
			let from = 0;
			for (const name of figuresInText(plain)) {
				from = plain.indexOf(`{${name}}`, from) + 1;
				const before = token.raw.slice(0, from);
				found.push({
					name,
					page,
					must: 'any',
					at: {
						text: name,
						line: at + linesIn(before),
						column: before.length - before.lastIndexOf('\n'),
					},
				});
			}
		}
		at += linesIn(token.raw);
	}
	return found;
}

/** The same text with what stands in backquotes blanked, so that places stay. */
function withoutCode(token: Token): string {
	return token.raw.replace(/`[^`]*`/g, (code) => code.replace(/[^\n]/g, ' '));
}

/** The errands of a workbook, and the names they speak of. */
function errandsOf(
	{ errands = [] }: WorkbookHead,
	place: YamlFound<unknown>['place'],
): { readonly list: readonly Errand[]; readonly mentions: readonly ProseMention[] } {
	const mentions = errands.flatMap(({ ask, answer, checks = [] }, index): ProseMention[] => {
		const named = (
			field: string,
			names: readonly string[],
			must: ProseMention['must'],
		): ProseMention[] =>
			names.map((name, at) => ({
				name,
				at: place(['errands', index, field, at]),
				must,
				page: 'workbook.yaml',
			}));
		return [
			...named('ask', ask, 'entry'),
			...named('answer', answer, 'any'),
			...named('checks', checks, 'check'),
		];
	});
	return { list: errands.map((each) => ({ ...each, checks: each.checks ?? [] })), mentions };
}

/** An errand goes on at a page that there is. */
function errandProblems(
	{ errands = [], pages }: WorkbookHead,
	place: YamlFound<unknown>['place'],
): Problem[] {
	return errands.flatMap(({ then }, index) =>
		noSuchPage(then, pages, place(['errands', index, 'then'])),
	);
}

/** A packet is of pages that there are. */
function packetProblems(
	{ packet = [], pages }: WorkbookHead,
	place: YamlFound<unknown>['place'],
): Problem[] {
	return packet.flatMap((page, index) => noSuchPage(page, pages, place(['packet', index])));
}

function noSuchPage(
	page: string,
	pages: readonly string[],
	{ line, column }: { readonly line: number; readonly column: number },
): Problem[] {
	if (pages.includes(page)) return [];
	const message = `There is no page “${page}” in this workbook.${nearest(page, pages)}`;
	return [{ message, page: 'workbook.yaml', cell: '', line, column }];
}
