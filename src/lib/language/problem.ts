/** Making problems: what is wrong on a page, with its place. */
import type { Block, Problem, SourceText } from './types.ts';
import { placeInPage } from './places.ts';

/** A problem at an offset into a piece of a page's text. */
export function problemAt(
	message: string,
	page: string,
	cell: string,
	source: SourceText,
	at = 0,
): Problem {
	return { message, page, cell, ...placeInPage(source, at) };
}

/** A problem at an offset into a block. */
export function problemInBlock(message: string, block: Block, at = 0): Problem {
	return problemAt(message, block.page, `${block.kind} ${block.number.toString()}`, block.body, at);
}

/** "measure, input wheelbase, line 12, column 3: …" */
export function problemInWords(problem: Problem): string {
	const cell = problem.cell ? `, ${problem.cell}` : '';
	return `${problem.page}${cell}, line ${problem.line.toString()}, column ${problem.column.toString()}: ${problem.message}`;
}
