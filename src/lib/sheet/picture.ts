/**
 * A job as a picture to show to other people: the truck as it was under the truck as it is, to scale, and what the
 * drop did. It says nothing of the owner, and the name of the job only where that is wished.
 */
import { askedOf } from '$lib/answers/drawing.ts';
import { figureInWords, nameInState } from '$lib/answers/figures.ts';
import { escaped, pngBlob, svgOf, whiteprint } from '$lib/cells/drawing/save.ts';
import type { OpenJob } from '$lib/desk/open-job.svelte.ts';

/** px, and how many figures stand in a row below the drawing. */
const shapes = {
	wide: { width: 1200, height: 630, drawing: 400, abreast: 5 },
	square: { width: 1080, height: 1080, drawing: 560, abreast: 2 },
} as const;
export type Shape = keyof typeof shapes;

const states = { plan: 'as planned', fitted: 'as fitted', found: 'as found' } as const;
const edge = 40;
const head = 90;

/**
 * The picture as the text of an SVG.
 * @param named whether it says the name of the job
 * @throws Error where the truck cannot be drawn yet
 */
export function pictureText(job: OpenJob, shape: Shape, named: boolean): string {
	const { width, height, drawing, abreast } = shapes[shape];
	const { state, workbook, figures, drawing: trade } = job;
	const names = workbook.drawing?.['dimensions'] ?? {};
	const dimension = (trade?.foremost ?? []).flatMap((key) => names[key]?.[0] ?? []);
	const drawn = trade?.draw(
		askedOf(
			{
				show: ['before', state],
				move: [],
				dimension: state === 'plan' ? dimension : [],
				detail: false,
			},
			workbook,
			{ figures, plusMinus: job.plusMinus, reading: (name) => job.reading(name) },
			{
				...{ width: width - 2 * edge, height: drawing, crop: trade.whole },
				...({ still: 'floor', lettered: true } as const),
			},
		),
	);
	if (!drawn?.drawing) {
		throw new Error('there is no drawing yet: the readings of the truck as it stands are missing');
	}
	const inside = svgOf(drawn.drawing, whiteprint, drawn.title).replace(
		'<svg ',
		`<svg x="${String(edge)}" y="${String(head)}" `,
	);
	const top = head + drawing + 30;
	const step = (width - 2 * edge) / abreast;
	const told = workbook.standing.flatMap(({ name, caption }, index) => {
		const here = nameInState(name, state);
		const shown = workbook.graph.byId.has(here) ? here : name;
		const x = edge + (index % abreast) * step;
		const y = top + Math.floor(index / abreast) * 110;
		return [
			lettering(x, y, 22, 'soft', caption),
			lettering(x, y + 44, 38, 'line', figureInWords(shown, figures), true),
		];
	});
	const title = named && job.job.block.title ? job.job.block.title : 'Before and after';
	return [
		`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${String(width)} ${String(height)}" width="${String(width)}" height="${String(height)}" font-family="B612, Verdana, 'DejaVu Sans', sans-serif">`,
		`<path d="M0 0H${String(width)}V${String(height)}H0Z" fill="${whiteprint.paper}"/>`,
		lettering(edge, 60, 34, 'line', title.slice(0, 60), true),
		inside,
		...told,
		lettering(edge, height - 18, 16, 'soft', `Dashed: before. Solid: ${states[state]}. To scale.`),
		'</svg>',
	].join('\n');
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
