/** The drawings of the finished jobs as their sheets ask for them, ± and all, at the sizes they stand in. */
import { askedOf, type Standing } from '../../../src/lib/answers/drawing.ts';
import { plusMinusOfAll } from '../../../src/lib/engine/plus-minus.ts';
import { runAll } from '../../../src/lib/engine/run.ts';
import { jobFromScenario, type Job } from '../../../src/lib/job/job.ts';
import { inputsOf, readingsOf } from '../../../src/lib/job/reading.ts';
import { inputPlusMinus } from '../../../src/lib/answers/figures.ts';
import type { DrawingCell } from '../../../src/lib/language/kinds/drawing.ts';
import { cellsOf } from '../../../src/lib/language/workbook.ts';
import { sideElevation } from '../../../src/lib/trade/drawing/elevation.ts';
import type { Layout } from '../../../src/lib/trade/drawing/layout.ts';
import type { UnitSystem } from '../../../src/lib/trade/drawing/view.ts';
import { shipped } from '../../language/shipped.ts';

/** What a sheet leaves its drawing at 1280 × 800, in either system of units, and at 1920 × 1080, in the job's own. */
const panes = { everyUnits: [827, 318], ownUnits: [1418, 535] } as const;

/** Sheets whose first drawing is folded away. */
const folded: ReadonlySet<string> = new Set(['why', 'wedge']);
/** The first drawing of every sheet that draws the truck and is no form. */
const sheetDrawings = shipped.pages.flatMap(({ id }) => {
	const drawing = cellsOf(shipped).find(
		(cell): cell is DrawingCell => cell.kind === 'drawing' && cell.page === id,
	);
	return drawing && drawing.crop !== 'shaft' && drawing.ask.length === 0 && !folded.has(id)
		? [{ sheet: id, drawing }]
		: [];
});

function standingOf(job: Job): Standing {
	const { graph, quantities } = shipped;
	const readings = readingsOf(graph, job);
	const reading = (name: string) => readings.get(name) ?? ({ standing: 'missing' } as const);
	const run = runAll(graph, inputsOf(readings));
	const drawn = sheetDrawings.flatMap(({ drawing }) => drawing.dimension);
	const plusMinus = plusMinusOfAll(
		graph,
		run,
		(node) => inputPlusMinus(node, reading(node.id)),
		drawn.flatMap((name) => graph.byId.get(name)?.slot ?? []),
	);
	return { figures: { graph, run, quantities, system: job.system }, plusMinus, reading };
}

const jobs = shipped.scenarios.flatMap((scenario) =>
	(['inch-pound', 'metric'] as const).map((system: UnitSystem) => {
		const job = jobFromScenario(shipped, scenario, new Date(0));
		const own = job.system === system;
		return { name: `${scenario.title}, ${system}`, own, standing: standingOf({ ...job, system }) };
	}),
);

function laidOut(
	drawing: DrawingCell,
	standing: Standing,
	[width, height]: readonly [number, number],
): Layout {
	const how = { width, height, crop: drawing.crop, still: 'frame', lettered: true } as const;
	const { drawing: layout } = sideElevation.draw(askedOf(drawing, shipped, standing, how));
	if (!layout) throw new Error(`${drawing.name} is not drawn.`);
	return layout as Layout;
}

/** Every drawing of every finished job at a desk. */
export function finishedDrawings() {
	return jobs.flatMap(({ name: job, own, standing }) =>
		sheetDrawings.flatMap(({ sheet, drawing }) =>
			[panes.everyUnits, ...(own ? [panes.ownUnits] : [])].map((pane) => ({
				...{ job, sheet, width: pane[0] },
				layout: laidOut(drawing, standing, pane),
			})),
		),
	);
}

/** The drawing that is a form, at 1280 × 800 and at 768, with the entries it asks for. */
export function finishedForms() {
	const drawing = cellsOf(shipped).find(
		(cell): cell is DrawingCell => cell.kind === 'drawing' && cell.ask.length > 0,
	);
	if (!drawing) throw new Error('No drawing is a form.');
	return jobs.flatMap(({ name: job, standing }) =>
		(
			[
				[827, 460],
				[742, 468],
			] as const
		).map((pane) => ({
			...{ job, width: pane[0], asked: drawing.ask },
			layout: laidOut(drawing, standing, pane),
		})),
	);
}
