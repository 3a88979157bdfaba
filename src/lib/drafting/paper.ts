/** What a drawing is made of on paper, px: lines, words, callouts and handles, whatever they show. */
import type { CalloutBox } from './callout.ts';
import type { Handle } from './handle.ts';
import type { Lettering } from './lettering.ts';
import type { Ink, LineKind } from './lines.ts';
import type { Area, Place } from './shapes.ts';

/** A line on the paper, ready for an SVG path. */
export interface PaperStroke {
	readonly path: string;
	readonly kind: LineKind;
	/** What it is of, such as a part, or lettering, detail, callout, scale. */
	readonly part: string;
	readonly fill?: Ink;
	/** Another ink than its kind has. */
	readonly ink?: Ink;
	/** A field that lets what is under it through. */
	readonly faint?: boolean;
	/** True for what is not cut off at the edge of the picture. */
	readonly whole?: boolean;
}

/** Lines and lettering on a paper of its own. */
export interface Paper {
	readonly width: number;
	readonly height: number;
	/** Those under first. */
	readonly strokes: readonly PaperStroke[];
	readonly lettering: readonly Lettering[];
}

/** A drawing one can take hold of. */
export interface Drawing extends Paper {
	/** Where the picture is cut off. */
	readonly clip: Area;
	readonly callouts: readonly CalloutBox[];
	readonly handles: readonly Handle[];
}

/** To a hundredth of a px: shorter files, and a tenth of what a drawing is held to. */
export function px(value: number): string {
	return String(Math.round(value * 100) / 100);
}

/** A full circle. */
export function circlePath({ x, y }: Place, radius: number): string {
	const r = px(radius);
	return `M${px(x - radius)} ${px(y)}A${r} ${r} 0 1 1 ${px(x + radius)} ${px(y)}A${r} ${r} 0 1 1 ${px(x - radius)} ${px(y)}Z`;
}
