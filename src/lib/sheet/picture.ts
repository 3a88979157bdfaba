/**
 * A job as a picture to show to other people: the truck as it was under the truck as it is, to scale, and what the
 * drop did, with its ±. It says nothing of the owner, and the name of the job only where that is wished.
 */
import { askedOf } from '$lib/answers/drawing.ts';
import { jointsOf } from '$lib/answers/drawn-names.ts';
import { figuresInSight, nameInState, shownForNode, valueInWords } from '$lib/answers/figures.ts';
import { escaped, pngBlob, svgOf, whiteprint } from '$lib/cells/drawing/save.ts';
import type { OpenJob } from '$lib/desk/open-job.svelte.ts';
import { plusMinusOfAll, type PlusMinus } from '$lib/engine/plus-minus.ts';
import type { Drawn, TradeDrawing } from '$lib/language/trade.ts';
import { showPlusMinus } from '$lib/units/shown.ts';

const edge = 40;
/** px: where the drawings begin, and how high the figures below them are. */
const [head, foot] = [104, 150];

/** px, and how high the drawings are of all of it and of where it moves: a truck is long, a square has room for both. */
const shapes = {
	wide: { width: 1200, height: 630, whole: 376, closer: 0 },
	square: { width: 1080, height: 1080, whole: 366, closer: 460 },
} as const;
export type Shape = keyof typeof shapes;

const states = { plan: 'as planned', fitted: 'as fitted', found: 'as found' } as const;

/**
 * The picture as the text of an SVG.
 * @param named whether it says the name of the job
 * @throws Error where the truck cannot be drawn yet
 */
export function pictureText(job: OpenJob, shape: Shape, named: boolean): string {
	const { width, height, whole, closer } = shapes[shape];
	const trade = job.drawing;
	if (!trade) throw new Error('this workbook draws nothing');
	const inside = width - 2 * edge;
	const sure = sureOf(job, trade);
	const crops = [
		{ crop: trade.whole, top: head, tall: whole },
		{ crop: trade.narrowForm, top: head + whole, tall: closer },
	];
	const drawings = crops
		.filter(({ tall }) => tall > 0)
		.map(({ crop, top, tall }) =>
			placed(drawn(job, trade, sure, { crop, width: inside, height: tall }), edge, top, crop),
		);
	const { title } = job.job.block;
	const words = named && title ? title : 'Before and after';
	const invented = job.job.scenario === undefined ? '' : 'An invented truck, no record. ';
	return [
		`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${String(width)} ${String(height)}" width="${String(width)}" height="${String(height)}" font-family="B612, Verdana, 'DejaVu Sans', sans-serif">`,
		`<path d="M0 0H${String(width)}V${String(height)}H0Z" fill="${whiteprint.paper}"/>`,
		lettering(edge, 54, fitting(words, 34, inside), 'line', words, true),
		lettering(
			edge,
			86,
			20,
			'line',
			`${invented}Dashed: before. Solid: ${states[job.state]}. To scale.`,
		),
		...drawings,
		...figuresOf(job, sure, inside, height - foot),
		'</svg>',
	].join('\n');
}

/** What is dimensioned on the drawing of all of it. */
function dimensioned({ state, workbook }: OpenJob, { foremost }: TradeDrawing): string[] {
	const names = workbook.drawing?.['dimensions'] ?? {};
	return state === 'plan' ? foremost.flatMap((key) => names[key]?.[0] ?? []) : [];
}

/** By slot. */
type Sure = readonly (PlusMinus | undefined)[];

/** The ± of all that stands on it, by slot: the sheet in sight may show others, and not yet. */
function sureOf(job: OpenJob, trade: TradeDrawing): Sure {
	const { state, workbook, figures } = job;
	const drawn = [...dimensioned(job, trade), ...jointsOf([state], workbook.drawing)];
	const slots = figuresInSight(workbook, '', state, drawn);
	return plusMinusOfAll(figures.graph, figures.run, (node) => job.plusMinusOf(node), slots);
}

/** The truck before and now. @throws Error where that cannot be drawn yet */
function drawn(
	job: OpenJob,
	trade: TradeDrawing,
	sure: Sure,
	{ crop, width, height }: { crop: string; width: number; height: number },
): Drawn {
	const { state, workbook, figures } = job;
	const isAll = crop === trade.whole;
	const dimension = isAll ? dimensioned(job, trade) : [];
	const found = trade.draw(
		askedOf(
			{ show: ['before', state], move: [], dimension, detail: !isAll },
			workbook,
			{ figures, plusMinus: sure, reading: (name) => job.reading(name) },
			{ width, height, crop, still: 'floor', lettered: true },
		),
	);
	if (!found.drawing) {
		throw new Error('there is no drawing yet: the readings of the truck as it stands are missing');
	}
	return found;
}

function placed({ drawing, title }: Drawn, x: number, y: number, id: string): string {
	const text = drawing ? svgOf(drawing, whiteprint, title, id) : '';
	return text.replace('<svg ', `<svg x="${String(x)}" y="${String(y)}" `);
}

/** The standing figures side by side, each with its ±. */
function figuresOf(job: OpenJob, sure: Sure, width: number, top: number): string[] {
	const { workbook, showing } = job;
	const { byId } = workbook.graph;
	const step = width / workbook.standing.length;
	return workbook.standing.flatMap(({ name, caption }, index) => {
		const node = byId.get(nameInState(name, job.state)) ?? byId.get(name);
		const value = node && job.figures.run.value(node.slot);
		const words = node && value !== undefined ? valueInWords(node, value, showing) : '—';
		const shown = node && shownForNode(node, workbook.quantities, job.system);
		const size = (node && sure[node.slot]?.size) ?? 0;
		const isClear = typeof value !== 'number' || Math.abs(value) > size;
		const x = edge + index * step;
		return [
			lettering(x, top + 34, 20, 'soft', caption),
			lettering(x, top + 78, fitting(words, 34, step - 12), 'line', words, isClear),
			...(size > 0 && shown
				? [lettering(x, top + 112, 22, 'soft', showPlusMinus(size, shown))]
				: []),
		];
	});
}

/** The size of letters in which a text goes into a width: bold ones are seven tenths as wide as high, or less. */
function fitting(text: string, size: number, width: number): number {
	return Math.min(size, width / (0.7 * text.length));
}

function lettering(
	x: number,
	y: number,
	size: number,
	ink: 'line' | 'soft',
	text: string,
	bold = false,
): string {
	return `<text x="${String(x)}" y="${String(y)}" font-size="${String(size)}"${bold ? ' font-weight="700"' : ''} fill="${whiteprint[ink]}">${escaped(text)}</text>`;
}

/** @throws Error as `pictureText` does, and where the browser cannot draw it */
export async function pictureOf(job: OpenJob, shape: Shape, named: boolean): Promise<Blob> {
	await job.loadDrawing();
	const { width, height } = shapes[shape];
	return pngBlob(pictureText(job, shape, named), width, height, 1);
}
