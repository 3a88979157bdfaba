/** A drawing's request from a job's figures: what the trade is told of every name it draws from. */
import type { PlusMinus } from '../engine/plus-minus.ts';
import { isMeasured, type Reading } from '../job/reading.ts';
import type { DrawingCell } from '../language/kinds/drawing.ts';
import type { DrawingAsked, DrawnFigure } from '../language/trade.ts';
import type { Workbook } from '../language/workbook.ts';
import { shownForNode, type Figures } from './figures.ts';

/** How a job stands, as far as a drawing needs it. */
export interface Standing {
	readonly figures: Figures;
	/** By slot; without it every figure counts as certain. */
	readonly plusMinus?: readonly (PlusMinus | undefined)[];
	readonly reading: (name: string) => Reading;
}

/** What the trade is told of a name. */
function figureOf(
	name: string,
	{ figures, plusMinus, reading }: Standing,
): DrawnFigure | undefined {
	const { graph, run, quantities, system } = figures;
	const node = graph.byId.get(name);
	if (!node) return undefined;
	const { input, label } = node;
	const value = run.value(node.slot);
	const bounds = input && 'quantity' in input ? (input.sensible ?? input.limits) : undefined;
	const read = input && reading(name);
	const stands = read?.standing;
	return {
		label,
		value,
		why: value === undefined ? run.failure(node.slot)?.why : undefined,
		plusMinus: plusMinus?.[node.slot]?.size,
		shown: shownForNode(node, quantities, system),
		...(input && {
			input: {
				entered: !isMeasured(input) || stands === 'entered' || stands === 'scenario',
				unreadable: read?.problem !== undefined,
				least: bounds?.low ?? -Infinity,
				most: bounds?.high ?? Infinity,
			},
		}),
	};
}

/** What a cell asks of the trade, by how the job stands. */
export function askedOf(
	cell: Pick<DrawingCell, 'show' | 'move' | 'dimension' | 'detail'> &
		Partial<Pick<DrawingCell, 'ask'>>,
	{ drawing = {} }: Pick<Workbook, 'drawing'>,
	standing: Standing,
	how: Pick<
		DrawingAsked,
		| 'width'
		| 'height'
		| 'crop'
		| 'still'
		| 'lettered'
		| 'brief'
		| 'paper'
		| 'keep'
		| 'resting'
		| 'numbered'
		| 'mark'
		| 'blank'
	>,
	laid: readonly { readonly letter: string; readonly standing: Standing }[] = [],
): DrawingAsked {
	const { show, move, dimension, detail, ask = [] } = cell;
	return {
		...how,
		...{ show, move, dimension, detail, ask },
		system: standing.figures.system,
		names: drawing,
		figure: (name) => figureOf(name, standing),
		...(laid.length > 0 && {
			laid: laid.map(({ letter, standing: its }) => ({
				letter,
				figure: (name: string) => figureOf(name, its),
			})),
		}),
	};
}
