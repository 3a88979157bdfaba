/**
 * A drawing as a file: one SVG text with its colours and lines written out, so that it looks the same in any
 * program, and a picture made of it.
 */
import { calloutPath, hatchPath } from '../../drafting/callout.ts';
import { ring } from '../../drafting/handle.ts';
import { lineLooks, type Ink } from '../../drafting/lines.ts';
import type { Lettering } from '../../drafting/lettering.ts';
import {
	circlePath,
	px,
	type Drawing,
	type Paper,
	type PaperStroke,
} from '../../drafting/paper.ts';

/** What is drawn of a layout; a strip of details has the same. */
export type Drawable = Paper & Partial<Drawing>;

export type Palette = Readonly<Record<Ink, string>>;

/** The sheet in daylight. */
export const whiteprint: Palette = {
	line: '#1F2460',
	soft: '#575B86',
	pencil: '#C2331A',
	sepia: '#8A4B00',
	band: '#E4EBD9',
	'band-text': '#4A5A3A',
	rule: '#CFCEE2',
	paper: '#F6F5FB',
};

/** How much of a faint field's ink is seen. */
export const faintness = 0.32;

/** A text as it stands in an SVG. */
export const escaped = (text: string): string =>
	text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;');

function strokeText(stroke: PaperStroke, palette: Palette): string {
	const { width, dash, ink } = lineLooks[stroke.kind];
	const fill = stroke.fill ? palette[stroke.fill] : 'none';
	const faint = stroke.faint ? ` fill-opacity="${String(faintness)}"` : '';
	if (width === 0) return `<path d="${stroke.path}" fill="${fill}"${faint}/>`;
	const dashes = dash ? ` stroke-dasharray="${dash.join(' ')}"` : '';
	const colour = palette[stroke.ink ?? ink];
	return `<path d="${stroke.path}" fill="${fill}"${faint} stroke="${colour}" stroke-width="${String(width)}"${dashes}/>`;
}

function letteringText({ runs, callout }: Lettering, palette: Palette): string {
	return runs
		.map(({ text, x, y, size, ink, bold, width, turn }) => {
			// In a box of its own a word needs no paper behind it.
			const weight = `${bold ? ' font-weight="700"' : ''}${callout ? ' stroke="none"' : ''}`;
			const turned =
				Math.abs(turn) < 0.01 ? '' : ` transform="rotate(${px(turn)} ${px(x)} ${px(y)})"`;
			return `<text x="${px(x)}" y="${px(y)}" font-size="${String(size)}"${weight} fill="${palette[ink]}" textLength="${px(width)}" lengthAdjust="spacingAndGlyphs"${turned}>${escaped(text)}</text>`;
		})
		.join('');
}

/** The frame and the dash of a callout, by the state of its entry. */
function calloutText(box: NonNullable<Drawable['callouts']>[number], palette: Palette): string {
	const edge = { width: 1.2, dash: '', colour: palette.line, fill: palette.paper };
	if (box.state === 'untouched' || box.state === 'assumed') edge.dash = ' stroke-dasharray="4 3"';
	if (box.round && box.state === 'measured') edge.fill = palette.line;
	if (box.state === 'unreadable') edge.width = 2.4;
	if (box.state === 'in hand') Object.assign(edge, { width: 2.4, colour: palette.pencil });
	const frame = `<path d="${calloutPath(box)}" fill="${edge.fill}" stroke="${edge.colour}" stroke-width="${String(edge.width)}"${edge.dash}/>`;
	if (box.state !== 'unreadable') return frame;
	return `${frame}<path d="${hatchPath(box)}" stroke="${palette.rule}" stroke-width="0.8"/>`;
}

/**
 * A drawing as the text of an SVG file that needs nothing else. Where B612 is not at hand the text is set in
 * what is, to the same width.
 * @param title a sentence that says what is drawn
 * @param id that nothing else has in a file of several
 */
export function svgOf(
	drawing: Drawable,
	palette: Palette,
	title: string,
	id = 'elevation',
): string {
	const { width, height, strokes, lettering, clip, callouts = [], handles = [] } = drawing;
	const cut = strokes.filter(({ whole }) => !whole).map((stroke) => strokeText(stroke, palette));
	const whole = strokes.filter(({ whole }) => whole).map((stroke) => strokeText(stroke, palette));
	const edges = clip ?? { left: 0, top: 0, right: width, bottom: height };
	const rings = handles.map(
		({ place }) =>
			`<path d="${circlePath(place, ring / 2 - 1)}" fill="none" stroke="${palette.pencil}" stroke-width="2"/>`,
	);
	return [
		`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${px(width)} ${px(height)}" width="${px(width)}" height="${px(height)}" role="img" aria-label="${escaped(title)}" font-family="B612, Verdana, 'DejaVu Sans', sans-serif">`,
		`<title>${escaped(title)}</title>`,
		`<clipPath id="${id}"><path d="M${px(edges.left)} ${px(edges.top)}H${px(edges.right)}V${px(edges.bottom)}H${px(edges.left)}Z"/></clipPath>`,
		`<path d="M0 0H${px(width)}V${px(height)}H0Z" fill="${palette.paper}"/>`,
		`<g clip-path="url(#${id})" stroke-linejoin="round">${cut.join('')}</g>`,
		`<g>${whole.join('')}${rings.join('')}${callouts.map((box) => calloutText(box, palette)).join('')}</g>`,
		// Paper behind the letters keeps them clear of the thin lines that run under them.
		`<g paint-order="stroke" stroke="${palette.paper}" stroke-width="3" stroke-linejoin="round">${lettering.map((words) => letteringText(words, palette)).join('')}</g>`,
		'</svg>',
	].join('\n');
}

export function svgBlob(text: string): Blob {
	return new Blob([text], { type: 'image/svg+xml' });
}

/**
 * A picture of a drawing.
 * @param fine dots of it for one of the drawing; twice as fine as a screen where nothing is said
 * @throws Error where the browser cannot draw or store it
 */
export async function pngBlob(
	text: string,
	width: number,
	height: number,
	fine = 2,
): Promise<Blob> {
	const address = URL.createObjectURL(svgBlob(text));
	try {
		const image = new Image(width, height);
		image.src = address;
		await image.decode();
		const canvas = document.createElement('canvas');
		[canvas.width, canvas.height] = [fine * width, fine * height];
		canvas.getContext('2d')?.drawImage(image, 0, 0, canvas.width, canvas.height);
		const picture = await new Promise<Blob | null>((done) => {
			canvas.toBlob(done, 'image/png');
		});
		if (picture) return picture;
	} finally {
		URL.revokeObjectURL(address);
	}
	throw new Error('This browser could not make a picture of the drawing. Save it as SVG instead.');
}
