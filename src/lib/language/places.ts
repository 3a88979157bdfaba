/** Where something stands in a page, and a mistake that has its place. */
import type { SourceText } from './types.ts';

/** A formula that cannot be read or does not fit together, with its place in the formula's text. */
export class FormulaError extends Error {
	override name = 'FormulaError';
	readonly at: number;
	constructor(message: string, at: number) {
		super(message);
		this.at = at;
	}
}

/** Line and column in the page of an offset into a piece of its text. */
export function placeInPage(source: SourceText, at: number): { line: number; column: number } {
	const before = source.text.slice(0, at).split('\n');
	const last = before[before.length - 1] ?? '';
	return {
		line: source.line + before.length - 1,
		column: before.length === 1 ? source.column + last.length : last.length + 1,
	};
}

/** How many lines end in a text, or in part of it. */
export function linesIn(text: string, end = text.length, from = 0): number {
	let lines = 0;
	for (let at = text.indexOf('\n', from); at >= 0 && at < end; at = text.indexOf('\n', at + 1)) {
		lines++;
	}
	return lines;
}
