/**
 * From cells to a checked, ordered graph. Names are one flat namespace over the workbook: each is given
 * once; using one before it is given is fine, for order is found here. Each step below goes over drafts of
 * the nodes and leaves in them what it found; a mistake is told once, where it is.
 */
import { nearest } from '../units/nearest-word.ts';
import { withArticle } from '../units/shown.ts';
import { readFormula } from './formula.ts';
import type { FunctionTable } from './functions.ts';
import { orderOf, rankOf, type Graph, type Node } from './graph.ts';
import type { Cell } from './kinds/index.ts';
import type { InputCell } from './kinds/input.ts';
import { FormulaError, placeInPage } from './places.ts';
import { childrenOf, type Formula, type Tree } from './tree.ts';
import { TypeNotKnown } from './tree-type.ts';
import { typeOf } from './type-check.ts';
import { typeFits, typeInWords } from './type-words.ts';
import type { Mention, Problem, SourceText, Type } from './types.ts';

/** A node while it is made. */
interface Draft {
	slot: number;
	id: string;
	label: string;
	cell: Cell;
	at: SourceText;
	type?: Type;
	input?: InputCell;
	source?: SourceText;
	expects?: 'flag' | 'quantity';
	like?: string;
	formula?: Formula;
	broken?: string;
	needs: number[];
	feeds: number[];
}

/** Reads the formula of a text; one that has been read before may be given again. */
export type FormulaReader = (source: SourceText) => Formula;

/**
 * Builds the graph of a whole workbook.
 * @param cells of all pages, in order
 * @param prose the figures quoted in prose, and on which page
 * @param functions what formulas may call
 */
export function buildGraph(
	cells: readonly Cell[],
	prose: readonly (Mention & { readonly page: string })[],
	functions: FunctionTable,
	formulaOf: FormulaReader = readFormula,
): Graph {
	return new GraphBuilder(functions, formulaOf).build(cells, prose);
}

class GraphBuilder {
	private readonly functions: FunctionTable;
	private readonly formulaOf: FormulaReader;
	private readonly problems: Problem[] = [];
	private readonly drafts: Draft[] = [];
	private readonly byId = new Map<string, Draft>();
	/** Cells that give no name, by their own. */
	private readonly cellNames = new Map<string, Cell>();

	constructor(functions: FunctionTable, formulaOf: FormulaReader) {
		this.functions = functions;
		this.formulaOf = formulaOf;
	}

	build(cells: readonly Cell[], prose: readonly (Mention & { readonly page: string })[]): Graph {
		for (const cell of cells) this.addCell(cell);
		const unknownName = this.unknownName();
		for (const draft of this.drafts) this.readOne(draft, unknownName);
		const order = orderOf(
			this.drafts.map(({ needs }) => needs),
			(slots) => {
				const ring = slots.map((slot) => this.drafts[slot] as Draft);
				if (ring.every(({ broken }) => broken === undefined)) this.sayRing(ring);
			},
		);
		for (const { slot, needs } of this.drafts) {
			for (const needed of needs) this.drafts[needed]?.feeds.push(slot);
		}
		// Types follow from what a formula needs, so they are found in order.
		for (const slot of order) this.checkType(this.drafts[slot] as Draft);
		for (const cell of cells) {
			for (const mention of cell.mentions) {
				this.checkMention(mention, cell.page, cellInWords(cell), unknownName);
			}
		}
		for (const mention of prose) this.checkMention(mention, mention.page, 'prose', unknownName);
		return this.graph(order);
	}

	private say(draft: Draft, message: string, at = 0, source = draft.source ?? draft.at): void {
		this.problems.push({
			message,
			page: draft.cell.page,
			cell: cellInWords(draft.cell),
			...placeInPage(source, at),
		});
	}

	/** Drafts of all that a cell gives and asks. */
	private addCell(cell: Cell): void {
		const twin = cell.gives.length === 0 ? this.cellNames.get(cell.name) : undefined;
		if (twin) {
			this.problems.push({
				message: `Two cells are named “${cell.name}”: the other stands on page ${twin.page}, line ${twin.line.toString()}. Give one of them another name.`,
				page: cell.page,
				cell: cellInWords(cell),
				line: cell.line,
				column: 1,
			});
		}
		if (cell.gives.length === 0) this.cellNames.set(cell.name, cell);
		for (const given of cell.gives) {
			this.add({
				id: given.name,
				label: given.label,
				cell,
				at: given.at,
				...(given.type && { type: given.type }),
				...(cell.kind === 'input' && { input: cell }),
				...(given.formula && { source: given.formula }),
				...(cell.kind === 'unreadable' && {
					broken: `The cell of “${given.name}” has a mistake and cannot be read.`,
				}),
			});
		}
		if (twin) return;
		for (const asked of cell.asks) {
			this.add({
				id: asked.id,
				label: '',
				cell,
				at: asked.formula,
				source: asked.formula,
				expects: asked.expects,
				...(asked.like !== undefined && { like: asked.like }),
			});
		}
	}

	private add(fields: Omit<Draft, 'slot' | 'needs' | 'feeds'>): void {
		const draft: Draft = { ...fields, slot: this.drafts.length, needs: [], feeds: [] };
		const first = this.byId.get(draft.id);
		if (first) {
			this.say(
				draft,
				`“${draft.id}” is given twice: first by ${whereInWords(first)}, then here. Give one of them another name.`,
				0,
				draft.at,
			);
			return;
		}
		this.drafts.push(draft);
		this.byId.set(draft.id, draft);
	}

	/** What to say of a name that nobody gives. */
	private unknownName(): (name: string) => string {
		const names = [...this.byId.keys()].filter((id) => !id.includes('/'));
		return (name) =>
			this.functions.has(name)
				? `“${name}” is a function; call it with its values in brackets.`
				: `No cell gives “${name}”.${nearest(name, names)}`;
	}

	/** Reads a draft's formula and finds what it needs. */
	private readOne(draft: Draft, unknownName: (name: string) => string): void {
		if (!draft.source) return;
		try {
			const formula = this.formulaOf(draft.source);
			draft.formula = formula;
			for (const name of formula.names) {
				const needed = this.byId.get(name);
				if (!needed) {
					throw new FormulaError(unknownName(name), namePlace(formula.tree, name));
				}
				draft.needs.push(needed.slot);
			}
		} catch (cause) {
			if (!(cause instanceof FormulaError)) throw cause;
			this.say(draft, cause.message, cause.at);
			draft.broken = cause.message;
			draft.needs = [];
		}
	}

	private sayRing(ring: readonly Draft[]): void {
		const written = [...ring, ring[0] as Draft].map((each) => each.id).join(' → ');
		const places = ring.map((each) => `${each.id} on ${whereInWords(each)}`).join('; ');
		const message = `These names go in a circle, so none can be worked out: ${written}. They stand at: ${places}. Break the circle at one of them.`;
		for (const each of ring) {
			if (each === ring[0]) this.say(each, message);
			each.broken = message;
		}
	}

	/** What a name is, unless its own cell has a mistake. */
	private readonly typeOfName = (name: string): Type | undefined => {
		const draft = this.byId.get(name);
		return draft?.broken === undefined ? draft?.type : undefined;
	};

	/** Finds the type of a draft whose needs have theirs. */
	private checkType(draft: Draft): void {
		const { formula } = draft;
		if (!formula || draft.broken !== undefined) return;
		try {
			const type = typeOf(formula.tree, this.typeOfName, this.functions);
			if (draft.input) {
				checkStart(draft.input, type);
				return;
			}
			this.checkFits(draft, type, formula);
			draft.type = type;
		} catch (cause) {
			if (cause instanceof TypeNotKnown) {
				const needed = draft.needs
					.map((need) => this.drafts[need])
					.find((need) => !need?.type || need.broken);
				draft.broken = `It needs “${String(needed?.id)}”, which has a mistake of its own.`;
			} else if (cause instanceof FormulaError) {
				this.say(draft, cause.message, cause.at);
				draft.broken = cause.message;
			} else throw cause;
		}
	}

	/** Whether a type is what the formula is shown in, what its cell expects, and like what it has to be like. */
	private checkFits({ source, expects, like }: Draft, type: Type, { shownIn }: Formula): void {
		if (shownIn && !typeFits(type, { kind: 'quantity', dimension: shownIn.dimension })) {
			throw new FormulaError(
				`The formula is ${withArticle(typeInWords(type))} and cannot be shown in ${shownIn.name}.`,
				source?.text.search(/\bto\s+[^"]*$/) ?? 0,
			);
		}
		if (expects && type.kind !== expects) {
			throw new FormulaError(
				expects === 'flag'
					? `A condition is wanted here, such as rear_drop > 2 in; this is ${withArticle(typeInWords(type))}.`
					: `A quantity is wanted here; this is ${withArticle(typeInWords(type))}.`,
				0,
			);
		}
		const other = like === undefined ? undefined : this.typeOfName(like);
		if (other && !typeFits(type, other)) {
			const written = like?.includes('/') ? this.byId.get(like)?.source?.text : like;
			throw new FormulaError(
				`This is ${withArticle(typeInWords(type))}, but ${String(written)} is ${withArticle(typeInWords(other))}.`,
				0,
			);
		}
	}

	private checkMention(
		mention: Mention,
		page: string,
		cell: string,
		unknownName: (name: string) => string,
	): void {
		const message = ['check', 'chart', 'ways'].includes(mention.must)
			? cellProblem(mention, this.cellNames)
			: nameProblem(mention, this.byId, unknownName);
		if (message) this.problems.push({ message, page, cell, ...placeInPage(mention.at, 0) });
	}

	private graph(order: readonly number[]): Graph {
		const nodes = this.drafts.map(
			({ slot, id, label, cell, type, input, formula, broken, needs, feeds }): Node => ({
				slot,
				id,
				label,
				cell,
				needs,
				feeds,
				...(type && broken === undefined && { type }),
				...(input && { input }),
				...(formula && { formula }),
				...(formula?.shownIn && { shownIn: formula.shownIn }),
				...(broken !== undefined && { broken }),
			}),
		);
		return {
			nodes,
			order,
			rank: rankOf(order),
			byId: new Map(nodes.map((node) => [node.id, node])),
			problems: this.problems,
			functions: this.functions,
		};
	}
}

/** An input is of the type its cell says; what it starts as has to fit. */
function checkStart({ name, type: wanted, startsAs }: InputCell, type: Type): void {
	if (typeFits(type, wanted)) return;
	throw new FormulaError(
		`“${name}” is ${withArticle(typeInWords(wanted))}, but “${startsAs ?? ''}”, which it starts as, is ${withArticle(typeInWords(type))}.`,
		0,
	);
}

/** "input wheelbase": how a message names a cell. */
function cellInWords(cell: Cell): string {
	return `${cell.kind} ${cell.name}`;
}

function whereInWords(draft: Draft): string {
	return `page ${draft.cell.page}, line ${draft.at.line.toString()}`;
}

/** What is wrong with a name a cell refers to, if anything is. */
function nameProblem(
	{ name, must, like }: Mention,
	byId: ReadonlyMap<string, Draft>,
	unknownName: (name: string) => string,
): string | undefined {
	const found = byId.get(name);
	if (!found) return unknownName(name);
	// A mistake of its own is told where it is.
	if (must === 'any' || found.cell.kind === 'unreadable') return undefined;
	if ((must === 'input' || must === 'entry') && !found.input) {
		return `“${name}” is worked out, not asked for; only an input can be ${must === 'input' ? 'swept' : 'set'}.`;
	}
	const { type } = found;
	if (must === 'entry' || found.broken !== undefined || !type) return undefined;
	if (must === 'record') {
		return type.kind === 'record' && type.name === like
			? undefined
			: `“${name}” is ${withArticle(typeInWords(type))}; a ${String(like)} is wanted here.`;
	}
	if (must !== 'sizes') {
		return type.kind === 'quantity'
			? undefined
			: `“${name}” is ${withArticle(typeInWords(type))}; only a quantity can stand here.`;
	}
	if (!found.input || type.kind !== 'list') {
		return `“${name}” is ${withArticle(typeInWords(type))}; the sizes to try stand in an input with “several: sizes”.`;
	}
	const taken = byId.get(like ?? '')?.type;
	return taken?.kind === 'quantity' && !typeFits(type.of, taken)
		? `“${name}” is ${withArticle(typeInWords(type))}, but ${String(like)} is ${withArticle(typeInWords(taken))}.`
		: undefined;
}

/** What is wrong with the name of a cell, if anything is. One that cannot be read may be what is meant. */
function cellProblem(
	{ name, must }: Mention,
	cells: ReadonlyMap<string, Cell>,
): string | undefined {
	const found = cells.get(name);
	if (found?.kind === must || found?.kind === 'unreadable') return undefined;
	if (found) return `“${name}” is a cell of the kind ${found.kind}; only a ${must} can stand here.`;
	const known = [...cells.values()].filter(({ kind }) => kind === must).map((cell) => cell.name);
	return `No ${must} is named “${name}”.${nearest(name, known)}`;
}

function namePlace(tree: Tree, name: string): number {
	let place = 0;
	const walk = (part: Tree): boolean => {
		if (part.op === 'name' && part.name === name) {
			place = part.at;
			return true;
		}
		return childrenOf(part).some(walk);
	};
	walk(tree);
	return place;
}
