/**
 * The kinds of cell: one row each. A kind is the word after the fence, a reader here, and a component of
 * the same name under src/lib/cells/.
 */
import { placeInPage } from '../places.ts';
import { nearest } from '../../units/nearest-word.ts';
import { problemInBlock } from '../problem.ts';
import type { Block, CellBase, Problem } from '../types.ts';
import { readAgainst, type AgainstCell } from './against.ts';
import { readBars, type BarsCell } from './bars.ts';
import { readChart, type ChartCell } from './chart.ts';
import { readCheck, type CheckCell } from './check.ts';
import { readCompare, type CompareCell } from './compare.ts';
import { readDerive, type DeriveCell } from './derive.ts';
import { readDrawing, type DrawingCell } from './drawing.ts';
import { readExplain, type ExplainCell } from './explain.ts';
import { readInput, type InputCell } from './input.ts';
import { readKnown, type KnownCell } from './known.ts';
import { readOverview, type OverviewCell } from './overview.ts';
import type { KindReader } from './reader.ts';
import { readSearch, type SearchCell } from './search.ts';
import { readSolve, type SolveCell } from './solve.ts';
import { readWays, type WaysCell } from './ways.ts';

export const kinds = {
	input: readInput,
	derive: readDerive,
	chart: readChart,
	check: readCheck,
	bars: readBars,
	drawing: readDrawing,
	known: readKnown,
	overview: readOverview,
	compare: readCompare,
	solve: readSolve,
	search: readSearch,
	against: readAgainst,
	ways: readWays,
	explain: readExplain,
} satisfies Record<string, KindReader<CellBase>>;

/**
 * A block that could not be read, so that its place on the page still says why. An input among them still
 * gives its name, and another cell keeps its own, so that what needs it is not told that nobody does.
 */
export interface UnreadableCell extends CellBase {
	readonly kind: 'unreadable';
	readonly text: string;
}

export type Cell =
	| InputCell
	| DeriveCell
	| ChartCell
	| CheckCell
	| BarsCell
	| DrawingCell
	| KnownCell
	| OverviewCell
	| CompareCell
	| SolveCell
	| SearchCell
	| AgainstCell
	| WaysCell
	| ExplainCell
	| UnreadableCell;

/** Reads a block as its kind says. */
export function readCell(
	block: Block,
	context: Parameters<KindReader<CellBase>>[1],
): { cell: Cell; problems: readonly Problem[] } {
	const reader: KindReader<Cell> | undefined = Object.hasOwn(kinds, block.kind)
		? kinds[block.kind as keyof typeof kinds]
		: undefined;
	if (!reader) {
		const known = Object.keys(kinds);
		return {
			cell: unreadable(block),
			problems: [
				{
					...problemInBlock(
						`“${block.kind}” is not a kind of cell.${nearest(block.kind, known)} The kinds are ${known.join(', ')}.`,
						block,
					),
					line: block.body.line - 1,
				},
			],
		};
	}
	const { cell, problems } = reader(block, context);
	return { cell: cell ?? unreadable(block), problems };
}

function unreadable(block: Block): UnreadableCell {
	const named = /^name:[ \t]*([a-z][a-z0-9_]*)[ \t]*$/m.exec(block.body.text);
	const name = named?.[1] ?? '';
	const at = named ? named.index + named[0].indexOf(name, 'name:'.length) : 0;
	const gives = block.kind === 'input' && name !== '';
	return {
		kind: 'unreadable',
		name: gives || name === '' ? `${block.page}/${block.number.toString()}` : name,
		page: block.page,
		line: block.body.line - 1,
		text: block.body.text,
		gives: gives ? [{ name, label: name, at: { text: name, ...placeInPage(block.body, at) } }] : [],
		asks: [],
		mentions: [],
	};
}
