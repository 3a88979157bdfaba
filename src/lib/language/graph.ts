/**
 * From cells to a checked, ordered graph. Names are one flat namespace over the workbook: each
 * is given once; using one before it is given is fine, for order is found here.
 *
 * A node is one value: an input, a derived figure, or a formula only its cell uses. Its slot is its index
 * in `nodes`. `order` is such that every node stands after all it needs.
 */
import { FormulaError, placeInPage, readFormula, type Formula, type Tree } from './formula.ts';
import type { FunctionTable } from './functions.ts';
import type { Cell } from './kinds/index.ts';
import type { InputCell } from './kinds/input.ts';
import type { Unit } from '../units/units.ts';
import { nearest } from '../units/nearest-word.ts';
import { withArticle } from '../units/shown.ts';
import { TypeNotKnown, typeOf } from './type-check.ts';
import { typeFits, typeInWords } from './type-words.ts';
import type { Mention, Problem, SourceText, Type } from './types.ts';

export interface Node {
	readonly slot: number;
	/** The name for an input or a derived figure; for a formula of a cell its id, which has a slash. */
	readonly id: string;
	readonly label: string;
	readonly cell: Cell;
	/** Undefined when the node has a mistake. */
	readonly type?: Type;
	readonly input?: InputCell;
	readonly formula?: Formula;
	readonly shownIn?: Unit;
	/** Why it can never be run: its own mistake, or that of a name it needs. */
	readonly broken?: string;
	/** Slots it reads directly. */
	readonly needs: readonly number[];
	/** Slots that read it directly. */
	readonly feeds: readonly number[];
}

export interface Graph {
	readonly nodes: readonly Node[];
	readonly order: readonly number[];
	/** Place of each slot in `order`. */
	readonly rank: readonly number[];
	readonly byId: ReadonlyMap<string, Node>;
	readonly problems: readonly Problem[];
	/** What its formulas call. */
	readonly functions: FunctionTable;
}

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
): Graph {
	const problems: Problem[] = [];
	const drafts: Draft[] = [];
	const byId = new Map<string, Draft>();
	const say = (draft: Draft, message: string, at = 0, source = draft.source ?? draft.at): void => {
		problems.push({
			message,
			page: draft.cell.page,
			cell: cellInWords(draft.cell),
			...placeInPage(source, at),
		});
	};
	const add = (fields: Omit<Draft, 'slot' | 'needs' | 'feeds'>): void => {
		const draft: Draft = { ...fields, slot: drafts.length, needs: [], feeds: [] };
		const first = byId.get(draft.id);
		if (first) {
			say(
				draft,
				`“${draft.id}” is given twice: first by ${whereInWords(first)}, then here. Give one of them another name.`,
				0,
				draft.at,
			);
			return;
		}
		drafts.push(draft);
		byId.set(draft.id, draft);
	};
	const cellNames = new Map<string, Cell>();
	for (const cell of cells) {
		const twin = cell.gives.length === 0 ? cellNames.get(cell.name) : undefined;
		if (twin) {
			problems.push({
				message: `Two cells are named “${cell.name}”: the other stands on page ${twin.page}, line ${twin.line}. Give one of them another name.`,
				page: cell.page,
				cell: cellInWords(cell),
				line: cell.line,
				column: 1,
			});
		}
		if (cell.gives.length === 0) cellNames.set(cell.name, cell);
		for (const given of cell.gives) {
			add({
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
		if (twin) continue;
		for (const asked of cell.asks) {
			add({
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

	const names = [...byId.keys()].filter((id) => !id.includes('/'));
	const unknownName = (name: string): string =>
		functions.has(name)
			? `“${name}” is a function; call it with its values in brackets.`
			: `No cell gives “${name}”.${nearest(name, names)}`;

	// Read each formula and find what it needs.
	for (const draft of drafts) {
		if (!draft.source) continue;
		try {
			const formula = readFormula(draft.source);
			draft.formula = formula;
			for (const name of formula.names) {
				const needed = byId.get(name);
				if (!needed) {
					throw new FormulaError(unknownName(name), namePlace(formula.tree, name));
				}
				draft.needs.push(needed.slot);
			}
		} catch (cause) {
			if (!(cause instanceof FormulaError)) throw cause;
			say(draft, cause.message, cause.at);
			draft.broken = cause.message;
			draft.needs = [];
		}
	}

	const order = orderOf(drafts, (ring) => {
		const written = [...ring, ring[0] as Draft].map((each) => each.id).join(' → ');
		const places = ring.map((each) => `${each.id} on ${whereInWords(each)}`).join('; ');
		for (const each of ring) {
			const message = `These names go in a circle, so none can be worked out: ${written}. They stand at: ${places}. Break the circle at one of them.`;
			if (each === ring[0]) say(each, message);
			each.broken = message;
		}
	});

	for (const draft of drafts) {
		for (const needed of draft.needs) drafts[needed]?.feeds.push(draft.slot);
	}

	// Types follow from what a formula needs, so they are found in order; a mistake is told once, where it is.
	const typeOfName = (name: string): Type | undefined => {
		const draft = byId.get(name);
		return draft?.broken === undefined ? draft?.type : undefined;
	};
	const treeType = (tree: Tree): Type => typeOf(tree, typeOfName, functions);
	for (const slot of order) {
		const draft = drafts[slot] as Draft;
		if (!draft.formula || draft.broken !== undefined) continue;
		try {
			const { tree, shownIn } = draft.formula;
			const type = treeType(tree);
			if (shownIn && !typeFits(type, { kind: 'quantity', dimension: shownIn.dimension })) {
				throw new FormulaError(
					`The formula is ${withArticle(typeInWords(type))} and cannot be shown in ${shownIn.name}.`,
					draft.source?.text.search(/\bto\s+[^"]*$/) ?? 0,
				);
			}
			if (draft.expects && type.kind !== draft.expects) {
				throw new FormulaError(
					draft.expects === 'flag'
						? `A condition is wanted here, such as rear_drop > 2 in; this is ${withArticle(typeInWords(type))}.`
						: `A quantity is wanted here; this is ${withArticle(typeInWords(type))}.`,
					0,
				);
			}
			const like = draft.like === undefined ? undefined : typeOfName(draft.like);
			if (like && !typeFits(type, like)) {
				const other = draft.like?.includes('/') ? byId.get(draft.like)?.source?.text : draft.like;
				throw new FormulaError(
					`This is ${withArticle(typeInWords(type))}, but ${other} is ${withArticle(typeInWords(like))}.`,
					0,
				);
			}
			draft.type = type;
		} catch (cause) {
			if (cause instanceof TypeNotKnown) {
				const needed = draft.needs
					.map((need) => drafts[need])
					.find((need) => !need?.type || need.broken);
				draft.broken = `It needs “${needed?.id}”, which has a mistake of its own.`;
			} else if (cause instanceof FormulaError) {
				say(draft, cause.message, cause.at);
				draft.broken = cause.message;
			} else throw cause;
		}
	}

	const checkMention = (mention: Mention, page: string, cell: string): void => {
		const message =
			mention.must === 'check' || mention.must === 'chart'
				? cellProblem(mention, cellNames)
				: nameProblem(mention, byId, unknownName);
		if (message) problems.push({ message, page, cell, ...placeInPage(mention.at, 0) });
	};
	for (const cell of cells) {
		for (const mention of cell.mentions) checkMention(mention, cell.page, cellInWords(cell));
	}
	for (const mention of prose) checkMention(mention, mention.page, 'prose');

	const nodes = drafts.map(
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
	const rank: number[] = [];
	order.forEach((slot, index) => {
		rank[slot] = index;
	});
	const named = new Map(nodes.map((node) => [node.id, node]));
	return { nodes, order, rank, byId: named, problems, functions };
}

/** "input wheelbase": how a message names a cell. */
function cellInWords(cell: Cell): string {
	return `${cell.kind} ${cell.name}`;
}

function whereInWords(draft: Draft): string {
	return `page ${draft.cell.page}, line ${draft.at.line}`;
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
			: `“${name}” is ${withArticle(typeInWords(type))}; a ${like} is wanted here.`;
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
		? `“${name}” is ${withArticle(typeInWords(type))}, but ${like} is ${withArticle(typeInWords(taken))}.`
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

/** The parts of a part. */
export function childrenOf(tree: Tree): readonly Tree[] {
	switch (tree.op) {
		case 'field':
		case 'negative':
		case 'not':
			return [tree.of];
		case 'call':
			return tree.args;
		case 'both':
		case 'either':
		case 'comparison':
		case 'arithmetic':
			return [tree.left, tree.right];
		case 'if':
			return [tree.condition, tree.then, tree.otherwise];
		default:
			return [];
	}
}

/** Depth-first order; each ring found is reported once and its members left standing where they are. */
function orderOf(drafts: readonly Draft[], onRing: (ring: Draft[]) => void): number[] {
	const order: number[] = [];
	const state = new Uint8Array(drafts.length); // 0 not seen, 1 on the path, 2 done
	const path: Draft[] = [];
	const visit = (draft: Draft): void => {
		state[draft.slot] = 1;
		path.push(draft);
		for (const need of draft.needs) {
			const needed = drafts[need] as Draft;
			if (state[need] === 1) {
				// The ring as it is read: each name uses the next.
				const ring = path.slice(path.indexOf(needed));
				if (ring.every((each) => each.broken === undefined)) onRing(ring);
			} else if (state[need] === 0) visit(needed);
		}
		path.pop();
		state[draft.slot] = 2;
		order.push(draft.slot);
	};
	for (const draft of drafts) if (state[draft.slot] === 0) visit(draft);
	return order;
}
