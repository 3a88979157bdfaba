/** Callouts: an entry shown on a drawing, in a box or a numbered circle with a leader to its place. */
import { circlePath, px } from './paper.ts';
import type { Place } from './shapes.ts';

/** How an entry stands. */
export type EntryState = 'untouched' | 'assumed' | 'measured' | 'unreadable' | 'in hand';

/** An entry as it is shown on the drawing. */
export interface CalloutBox {
	readonly name: string;
	readonly state: EntryState;
	readonly x: number;
	readonly y: number;
	readonly width: number;
	readonly height: number;
	/** True where it is only a numbered circle. */
	readonly round: boolean;
	/** Where its leader points, px. */
	readonly at: Place;
}

/** The frame of a callout as a path, for a saved file. */
export function calloutPath({ x, y, width, height, round }: CalloutBox): string {
	if (round) return circlePath({ x: x + width / 2, y: y + height / 2 }, width / 2);
	return `M${px(x)} ${px(y)}H${px(x + width)}V${px(y + height)}H${px(x)}Z`;
}

/** The hatching of an entry that cannot be read. */
export function hatchPath({ x, y, width, height, round }: CalloutBox): string {
	if (round) return '';
	let path = '';
	for (let from = 8 - height; from < width; from += 8) {
		const [left, right] = [Math.max(from, 0), Math.min(from + height, width)];
		const [low, high] = [y + height - (left - from), y + height - (right - from)];
		path += `M${px(x + left)} ${px(low)}L${px(x + right)} ${px(high)}`;
	}
	return path;
}
