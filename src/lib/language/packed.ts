/**
 * A workbook as plain data, for where it is not read but shown: packed when the program is built, unpacked in
 * a browser, or in a worker beside the page. What only a reader of text needs is left out: the text of
 * formulas, and places inside cells. Words stand apart, page by page, for a sheet shows its own alone.
 *
 * Nothing here, nor what it uses, needs a parser.
 */
import type { Token, Tokens } from 'marked';
import type { Dimension } from '../units/dimension.ts';
import type { Quantities, Quantity, Shown } from '../units/quantities.ts';
import { functionTableOf } from './functions.ts';
import type { Cell } from './kinds/index.ts';
import { knownUnit, packNode, unpackGraph, type PackedNode } from './packed-graph.ts';
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
	readonly cautions: readonly string[];
	readonly drawing?: Workbook['drawing'];
	readonly quantities: readonly PackedQuantity[];
	readonly pages: readonly PackedPage[];
	readonly scenarios: readonly Scenario[];
	readonly nodes: readonly PackedNode[];
	readonly order: readonly number[];
	readonly problems: readonly Problem[];
}

/** The words of one page: its prose, part by part, what each scenario tells of it, and what its cells explain. */
export interface PackedWords {
	readonly prose: readonly (readonly Token[])[];
	/** By name of the cell. */
	readonly notes: Readonly<Record<string, CellNotes>>;
	readonly stories: Readonly<Record<string, readonly Token[]>>;
}

/** What a cell says beside itself on its own page, and nowhere else. */
type CellNotes = Partial<Readonly<Record<(typeof notes)[number], string>>>;
const notes = ['how', 'about'] as const;

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

/** A cell with the fields of its kind, and what all cells have cut short. */
interface PackedCell {
	readonly kind: Cell['kind'];
	readonly name: string;
	readonly line: number;
	/** What an input gives is told by its own name and label. */
	readonly gives?: readonly (readonly [name: string, label: string])[];
	readonly asks?: readonly (readonly [id: string, expects: 'flag' | 'quantity'])[];
	readonly mentions?: readonly (readonly [name: string, must: Mention['must'], like?: string])[];
	/** The name of an input's quantity. */
	readonly quantity?: string;
	readonly [field: string]: unknown;
}

/** Packs all of a workbook but its words. */
export function pack(workbook: Workbook): Packed {
	const { id, title, summary, standing, cautions, errands, drawing, scenarios, problems, graph } =
		workbook;
	const cells = new Map(cellsOf(workbook).map((cell, index) => [cell, index]));
	return {
		...{ id, title, summary, standing, cautions, errands, scenarios, problems },
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
				parts: section.parts.map((part) => (part.part === 'prose' ? 0 : packCell(part.cell))),
			})),
		})),
		nodes: graph.nodes.map((node) => packNode(node, cells.get(node.cell) ?? 0)),
		order: graph.order,
	};
}

/** Packs the words of a page. */
export function packWords({ parts, stories }: Page): PackedWords {
	return {
		prose: parts.flatMap((part) => (part.part === 'prose' ? [packTokens(part.tokens)] : [])),
		notes: Object.fromEntries(
			parts.flatMap((part) => {
				const own = part.part === 'cell' ? notesOf(part.cell) : {};
				return part.part === 'cell' && Object.keys(own).length > 0 ? [[part.cell.name, own]] : [];
			}),
		),
		stories: Object.fromEntries(
			Object.entries(stories).map(([scenario, tokens]) => [scenario, packTokens(tokens)]),
		),
	};
}

/**
 * The workbook that was packed. Its pages have no words until they are put in by `withWords`.
 * @param trade what it was read with
 */
export function unpack(packed: Packed, trade: Trade): Workbook {
	const { id, title, summary, standing, cautions, errands, scenarios, problems } = packed;
	const quantities: Quantities = new Map(
		packed.quantities.map((each) => [each.name, unpackQuantity(each)]),
	);
	const pages = packed.pages.map((page) => unpackPage(page, quantities));
	const functions = functionTableOf(trade.functions);
	return {
		...{ id, title, summary, standing, cautions, errands, scenarios, problems, quantities, pages },
		...(packed.drawing && { drawing: packed.drawing }),
		graph: unpackGraph(packed.nodes, packed.order, cellsOf({ pages }), functions),
	};
}

/** A page of an unpacked workbook with its words. */
export function withWords(page: Page, { prose, stories, notes: told }: PackedWords): Page {
	let next = 0;
	const sections = page.sections.map((section): Section => ({
		...section,
		parts: section.parts.map((part) =>
			part.part === 'prose'
				? { part: 'prose', tokens: prose[next++] ?? [] }
				: { part: 'cell', cell: { ...part.cell, ...told[part.cell.name] } },
		),
	}));
	return { ...page, sections, parts: sections.flatMap(({ parts }) => parts), stories };
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

/** The notes of a cell that has any. */
function notesOf(cell: Cell): CellNotes {
	const fields = cell as unknown as CellNotes;
	return Object.fromEntries(notes.flatMap((note) => (fields[note] ? [[note, fields[note]]] : [])));
}

function packCell(cell: Cell): PackedCell {
	const { gives, asks, mentions, page: _page, ...own } = cell;
	const { type: _type, quantity, ...fields } = { type: 0, quantity: undefined, ...own };
	return {
		...fields,
		...Object.fromEntries(notes.filter((note) => note in own).map((note) => [note, ''])),
		...(quantity && { quantity: quantity.name }),
		...(gives.length > 0 &&
			cell.kind !== 'input' && { gives: gives.map(({ name, label }) => [name, label] as const) }),
		...(asks.length > 0 && { asks: asks.map(({ id, expects }) => [id, expects] as const) }),
		...(mentions.length > 0 && {
			mentions: mentions.map(({ name, must, like }) =>
				like === undefined ? ([name, must] as const) : ([name, must, like] as const),
			),
		}),
	};
}

function unpackPage({ sections, ...page }: PackedPage, quantities: Quantities): Page {
	const read = sections.map((section): Section => ({
		...section,
		parts: section.parts.map((part): PagePart =>
			part === 0
				? { part: 'prose', tokens: [] }
				: { part: 'cell', cell: unpackCell(part, page.id, quantities) },
		),
	}));
	return { ...page, sections: read, parts: read.flatMap(({ parts }) => parts), stories: {} };
}

function unpackCell(packed: PackedCell, page: string, quantities: Quantities): Cell {
	const { asks = [], mentions = [], quantity: named, ...fields } = packed;
	const gives = packed.kind === 'input' ? [[packed.name, String(packed['label'])] as const] : [];
	const quantity = named === undefined ? undefined : quantities.get(named);
	const type = packed.kind === 'input' ? inputType(packed, quantity) : undefined;
	/** Places inside a cell are left out; it begins here. */
	const at = { text: '', line: packed.line, column: 1 };
	// The fields of its kind are those of the cell that was packed.
	return {
		...fields,
		page,
		...(quantity && { quantity }),
		...(type && { type }),
		gives: (packed.gives ?? gives).map(([name, label]) => ({
			name,
			label,
			at,
			...(type && { type }),
		})),
		asks: asks.map(([id, expects]) => ({ id, expects, formula: at })),
		mentions: mentions.map(([name, must, like]) => ({
			name,
			must,
			at,
			...(like !== undefined && { like }),
		})),
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
