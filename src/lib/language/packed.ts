/**
 * A workbook as plain data, for where it is not read but shown: packed when the program is built, unpacked in
 * a browser, or in a worker beside the page. What only a reader of text needs is left out: the text of
 * formulas, and places inside cells. What is needed only where a page is shown stands apart, page by page: its
 * words, and of its cells all but the names they give and what an entry is read by. The prose of what is folded
 * comes behind that.
 *
 * Nothing here, nor what it uses, needs a parser.
 */
import type { Token, Tokens } from 'marked';
import type { Dimension } from '../units/dimension.ts';
import type { Quantities, Quantity, Shown } from '../units/quantities.ts';
import { functionTableOf } from './functions.ts';
import type { Cell } from './kinds/index.ts';
import {
	idsOf,
	knownUnit,
	packNodes,
	placesOf,
	unpackGraph,
	type PackedNode,
} from './packed-graph.ts';
import type { Trade } from './trade.ts';
import type { Mention, Problem, Type } from './types.ts';
import {
	cellsOf,
	type Depth,
	type Errand,
	type Page,
	type PagePart,
	type Scenario,
	type Section,
	type Workbook,
} from './workbook.ts';

/** A workbook but for its words. */
export interface Packed {
	readonly id: string;
	readonly title: string;
	readonly summary: string;
	readonly standing: Workbook['standing'];
	readonly errands: readonly Errand[];
	readonly packet: readonly string[];
	readonly cautions: readonly string[];
	readonly drawing?: Workbook['drawing'];
	readonly quantities: readonly PackedQuantity[];
	readonly pages: readonly PackedPage[];
	readonly scenarios: readonly PackedScenario[];
	readonly nodes: readonly PackedNode[];
	readonly problems: readonly Problem[];
}

/** What one page alone shows: its prose, part by part, its cells in full, and what each scenario tells of it. */
export interface PackedWords {
	readonly prose: readonly (readonly Token[])[];
	/** The places in `prose` of what has there no more than its heading, for the rest of it is folded away. */
	readonly later: readonly number[];
	/** Of each cell, in order. */
	readonly cells: readonly CellInFull[];
	/** The rest of each of those. May come later. */
	readonly folded?: readonly (readonly Token[])[];
	/** May come later than the rest. */
	readonly stories?: Readonly<Record<string, readonly Token[]>>;
}

/** Cells of a page in full, by name, that other pages show too. */
export type PackedShared = Readonly<Record<string, CellInFull>>;

/** What a cell has beside its names: the fields of its kind, and what all cells have cut short. */
interface CellInFull {
	readonly line: number;
	readonly asks?: readonly (readonly [id: string, expects: 'flag' | 'quantity'])[];
	readonly mentions?: readonly (readonly [name: string, must: Mention['must'], like?: string])[];
	readonly [field: string]: unknown;
}

interface PackedScenario extends Omit<Scenario, 'values'> {
	/** What is typed for each input of the workbook, in order; nought where it gives nothing. */
	readonly typed: readonly (string | 0)[];
	/** What it gives for names of no input. */
	readonly values?: Scenario['values'];
}

interface PackedQuantity {
	readonly name: string;
	readonly dimension: Dimension;
	readonly shown: readonly [inchPound: PackedShown, metric: PackedShown];
}

type PackedShown = readonly [unit: string, step: number, decimals: number, divisions: number];

interface PackedPage extends Pick<Page, 'id' | 'title' | 'short' | 'summary' | 'document'> {
	readonly sections: readonly {
		readonly title?: string;
		readonly depth: Depth;
		/** A nought stands for prose. */
		readonly parts: readonly (PackedCell | 0)[];
	}[];
}

/**
 * A cell as every page needs it: an input with all that its entry is read by, a search with all that it goes
 * through beside the page, any other with its names alone.
 */
interface PackedCell {
	readonly kind: Cell['kind'];
	/** Left out where it is the first name the cell gives. */
	readonly name?: string;
	/**
	 * What it gives, by label where the names are those of its nodes. What an input gives is told by its own
	 * name and label.
	 */
	readonly gives?: readonly string[] | readonly (readonly [name: string, label: string])[];
	/** The name of an input's quantity. */
	readonly quantity?: string;
	readonly [field: string]: unknown;
}

/** Packs all of a workbook but its words. */
export function pack(workbook: Workbook): Packed {
	const { id, title, summary, standing, cautions, errands, packet, drawing, scenarios } = workbook;
	const { problems, graph } = workbook;
	const cells = cellsOf(workbook);
	const placeOf = placesOf(cells);
	const names = new Map(cells.map((cell): [Cell | undefined, string[]] => [cell, []]));
	for (const { id, cell } of graph.nodes) {
		if (!id.includes('/')) names.get(cells[placeOf(cell)])?.push(id);
	}
	return {
		...{ id, title, summary, standing, cautions, errands, packet, problems },
		scenarios: scenarios.map((scenario) => packScenario(scenario, inputsIn(cells))),
		...(drawing && { drawing }),
		quantities: [...workbook.quantities.values()].map(({ name, dimension, shown }) => ({
			name,
			dimension,
			shown: [packShown(shown['inch-pound']), packShown(shown.metric)],
		})),
		pages: workbook.pages.map((page) => ({
			id: page.id,
			title: page.title,
			short: page.short,
			summary: page.summary,
			document: page.document,
			sections: page.sections.map((section) => ({
				...section,
				parts: section.parts.map((part) =>
					part.part === 'prose' ? 0 : packCell(part.cell, names.get(part.cell) ?? []),
				),
			})),
		})),
		nodes: packNodes(graph.nodes, cells),
	};
}

/** Depths of sections that are not folded away, on the screen or on paper. */
const inSight = new Set<Depth>(['first', 'paper', 'card']);

/** Packs what a page alone shows. */
export function packWords({ sections, parts, stories }: Page): PackedWords {
	const prose: (readonly Token[])[] = [];
	const [later, folded]: [number[], (readonly Token[])[]] = [[], []];
	for (const section of sections) {
		for (const [at, part] of section.parts.entries()) {
			if (part.part !== 'prose') continue;
			const tokens = packTokens(part.tokens);
			// A heading that begins a section stands on what it is folded into.
			const head = at === 0 && tokens[0]?.type === 'heading' ? 1 : 0;
			if (inSight.has(section.depth) || tokens.length === head) prose.push(tokens);
			else {
				later.push(prose.length);
				folded.push(tokens.slice(head));
				prose.push(tokens.slice(0, head));
			}
		}
	}
	return {
		...{ prose, later, folded },
		cells: parts.flatMap((part) => (part.part === 'cell' ? [packInFull(part.cell)] : [])),
		stories: Object.fromEntries(
			Object.entries(stories).map(([scenario, tokens]) => [scenario, packTokens(tokens)]),
		),
	};
}

/**
 * Packs what one page shows of another, and an errand of any, by page: every check, every drawing, the charts that
 * options are compared by, and the entries that errands ask for and drawings move.
 */
export function packShared({
	pages,
	errands,
}: Pick<Workbook, 'pages' | 'errands'>): Record<string, PackedShared> {
	const cells = cellsOf({ pages });
	const wanted = new Set([
		...cells.flatMap((cell) =>
			cell.kind === 'compare' && cell.chart !== undefined ? [cell.chart] : [],
		),
		...errands.flatMap(({ ask }) => ask),
		...cells.flatMap((cell) => (cell.kind === 'drawing' ? cell.move : [])),
	]);
	return Object.fromEntries(
		pages.map((page) => [
			page.id,
			Object.fromEntries(
				cellsOf({ pages: [page] }).flatMap((cell) =>
					['check', 'drawing', 'ways'].includes(cell.kind) || wanted.has(cell.name)
						? [[cell.name, packInFull(cell)]]
						: [],
				),
			),
		]),
	);
}

/**
 * The workbook that was packed. Its pages have no words, and their cells but for inputs nothing beside the names
 * they give, until `withWords` puts them in.
 * @param trade what it was read with
 */
export function unpack(packed: Packed, trade: Trade): Workbook {
	const { id, title, summary, standing, cautions, errands, packet, problems } = packed;
	const quantities: Quantities = new Map(
		packed.quantities.map((each) => [each.name, unpackQuantity(each)]),
	);
	const packedCells = packed.pages.flatMap(({ sections }) =>
		sections.flatMap(({ parts }) => parts.filter((part) => part !== 0)),
	);
	const ids = idsOf(packed.nodes, packedCells);
	const names = packedCells.map((): string[] => []);
	packed.nodes.forEach(([, place], slot) => {
		const id = ids[slot] ?? '';
		if (!id.includes('/')) names[place]?.push(id);
	});
	const namesOf = new Map(packedCells.map((cell, place) => [cell, names[place] ?? []]));
	const pages = packed.pages.map((page) => unpackPage(page, quantities, namesOf));
	const cells = cellsOf({ pages });
	const scenarios = packed.scenarios.map((each) => unpackScenario(each, inputsIn(cells)));
	const functions = functionTableOf(trade.functions);
	return {
		...{ id, title, summary, standing, cautions, errands, packet, scenarios, problems },
		...{ quantities, pages },
		...(packed.drawing && { drawing: packed.drawing }),
		graph: unpackGraph(packed.nodes, ids, cells, functions),
	};
}

/** A page of an unpacked workbook with its words, and its cells in full. */
export function withWords(page: Page, words: PackedWords): Page {
	const { prose, later, folded = [], stories = {}, cells } = words;
	const proseAt = (place: number): PagePart => {
		const [tokens, rest] = [prose[place] ?? [], later.indexOf(place)];
		if (rest < 0) return { part: 'prose', tokens };
		return { part: 'prose', tokens: [...tokens, ...(folded[rest] ?? [])], later: rest };
	};
	let nextProse = 0;
	let nextCell = 0;
	return withParts({ ...page, stories }, (part) =>
		part.part === 'prose'
			? proseAt(nextProse++)
			: { part: 'cell', cell: inFull(part.cell, cells[nextCell++]) },
	);
}

/** A page of an unpacked workbook with those cells in full that other pages show. */
export function withShared(page: Page, shared: PackedShared): Page {
	return withParts(page, (part) =>
		part.part === 'cell' ? { part: 'cell', cell: inFull(part.cell, shared[part.cell.name]) } : part,
	);
}

function withParts(page: Page, change: (part: PagePart) => PagePart): Page {
	const sections = page.sections.map((section): Section => ({
		...section,
		parts: section.parts.map(change),
	}));
	return { ...page, sections, parts: sections.flatMap(({ parts }) => parts) };
}

/** Names of the inputs among cells, in order. */
function inputsIn(cells: readonly Cell[]): string[] {
	return cells.flatMap(({ kind, name }) => (kind === 'input' ? [name] : []));
}

function packScenario(
	{ values, ...scenario }: Scenario,
	inputs: readonly string[],
): PackedScenario {
	const others = Object.entries(values).filter(([name]) => !inputs.includes(name));
	return {
		...scenario,
		typed: inputs.map((name) => values[name] ?? 0),
		...(others.length > 0 && { values: Object.fromEntries(others) }),
	};
}

function unpackScenario(
	{ typed, values, ...scenario }: PackedScenario,
	inputs: readonly string[],
): Scenario {
	const given = inputs.flatMap((name, at): [string, string][] => {
		const text = typed[at];
		return typeof text === 'string' ? [[name, text]] : [];
	});
	return { ...scenario, values: { ...Object.fromEntries(given), ...values } };
}

function packShown({ unit, step, decimals, divisions }: Shown): PackedShown {
	return [unit.name, step, decimals, divisions];
}

function unpackQuantity({ name, dimension, shown: [inchPound, metric] }: PackedQuantity): Quantity {
	const shown = ([unit, step, decimals, divisions]: PackedShown): Shown => ({
		unit: unit === '' ? { name: '', size: 1, dimension } : knownUnit(unit),
		step,
		decimals,
		divisions,
	});
	return { name, dimension, shown: { 'inch-pound': shown(inchPound), metric: shown(metric) } };
}

/** Kinds that are packed with their fields for every page. */
const everywhere = new Set<Cell['kind']>(['input', 'search']);

/** Fields that even of those only their own page needs. */
const ofItsPage = new Set(['how', 'about', 'line', 'asks', 'mentions']);

function packCell(cell: Cell, names: readonly string[]): PackedCell {
	const { kind, name, gives } = cell;
	if (!everywhere.has(kind)) {
		const known =
			gives.length === names.length && gives.every(({ name }, at) => name === names[at]);
		return {
			kind,
			...(!(known && name === names[0]) && { name }),
			...(gives.length > 0 && {
				gives: known
					? gives.map(({ label }) => label)
					: gives.map(({ name, label }) => [name, label] as const),
			}),
		};
	}
	const { gives: _gives, page: _page, ...own } = cell;
	const { type: _type, quantity, ...fields } = { type: 0, quantity: undefined, ...own };
	return {
		...{ kind, name },
		...Object.fromEntries(Object.entries(fields).filter(([field]) => !ofItsPage.has(field))),
		...(quantity && { quantity: quantity.name }),
	};
}

/** What packCell leaves out. */
function packInFull(cell: Cell): CellInFull {
	const { kind, name: _name, page: _page, line, gives: _gives, asks, mentions, ...fields } = cell;
	const own = Object.entries(fields).filter(
		([field]) => !everywhere.has(kind) || ofItsPage.has(field),
	);
	return {
		...Object.fromEntries(own),
		line,
		...(asks.length > 0 && { asks: asks.map(({ id, expects }) => [id, expects] as const) }),
		...(mentions.length > 0 && {
			mentions: mentions.map(({ name, must, like }) =>
				like === undefined ? ([name, must] as const) : ([name, must, like] as const),
			),
		}),
	};
}

/** Places inside a cell are left out. */
const nowhere = { text: '', line: 0, column: 0 };

function inFull(cell: Cell, full: CellInFull | undefined): Cell {
	if (!full) return cell;
	const { asks = [], mentions = [], ...fields } = full;
	// The fields of its kind are those of the cell that was packed.
	return {
		...cell,
		...fields,
		asks: asks.map(([id, expects]) => ({ id, expects, formula: nowhere })),
		mentions: mentions.map(([name, must, like]) => ({
			name,
			must,
			at: nowhere,
			...(like !== undefined && { like }),
		})),
	};
}

function unpackPage(
	{ sections, ...page }: PackedPage,
	quantities: Quantities,
	namesOf: ReadonlyMap<PackedCell, readonly string[]>,
): Page {
	const read = sections.map((section): Section => ({
		...section,
		parts: section.parts.map((part): PagePart =>
			part === 0
				? { part: 'prose', tokens: [] }
				: { part: 'cell', cell: unpackCell(part, page.id, quantities, namesOf.get(part) ?? []) },
		),
	}));
	return { ...page, sections: read, parts: read.flatMap(({ parts }) => parts), stories: {} };
}

/** @param names of its nodes */
function unpackCell(
	packed: PackedCell,
	page: string,
	quantities: Quantities,
	names: readonly string[],
): Cell {
	const { name = names[0] ?? '', quantity: named, gives = [], ...fields } = packed;
	const own = packed.kind === 'input' ? [[name, String(packed['label'])] as const] : [];
	const given = gives.map((each, at) =>
		typeof each === 'string' ? ([names[at] ?? '', each] as const) : each,
	);
	const quantity = named === undefined ? undefined : quantities.get(named);
	const type = packed.kind === 'input' ? inputType(packed, quantity) : undefined;
	return {
		...fields,
		...{ name, page },
		...(quantity && { quantity }),
		...(type && { type }),
		gives: [...own, ...given].map(([name, label]) => ({
			name,
			label,
			at: nowhere,
			...(type && { type }),
		})),
		...{ line: 0, asks: [], mentions: [] },
	} as unknown as Cell;
}

function inputType({ asks_for, choices }: PackedCell, quantity: Quantity | undefined): Type {
	if (asks_for === 'choice') return { kind: 'choice', options: Object.keys(choices as object) };
	if (asks_for === 'text' || asks_for === 'date') return { kind: asks_for };
	if (!quantity) throw new Error('packed: an input without its quantity');
	const type: Type = { kind: 'quantity', dimension: quantity.dimension };
	return asks_for === 'list' ? { kind: 'list', of: type } : type;
}

/** Tokens that are shown by what is inside them; of all others the text is. */
const holders = new Set(['heading', 'paragraph', 'blockquote', 'strong', 'em', 'link']);

/** Tokens with only what is shown of them. */
function packTokens(tokens: readonly Token[]): Token[] {
	return tokens
		.filter(({ type }) => type !== 'space' && type !== 'html')
		.map((token) => packToken(token) as Token);
}

function packToken(token: Token): object {
	const { type } = token;
	if (type === 'list') {
		const { ordered, items } = token as Tokens.List;
		return { type, ordered, items: items.map((item) => ({ tokens: packTokens(item.tokens) })) };
	}
	if (type === 'table') {
		const { header, rows } = token as Tokens.Table;
		const cells = (row: readonly Tokens.TableCell[]) =>
			row.map((cell) => ({ tokens: packTokens(cell.tokens) }));
		return { type, header: cells(header), rows: rows.map(cells) };
	}
	const inside = 'tokens' in token ? token.tokens : undefined;
	if (inside && (type === 'text' || holders.has(type))) {
		return {
			type,
			...(type === 'heading' && { depth: (token as Tokens.Heading).depth }),
			...(type === 'link' && { href: (token as Tokens.Link).href }),
			tokens: packTokens(inside),
		};
	}
	return 'text' in token ? { type, text: token.text as string } : { type, raw: token.raw };
}
