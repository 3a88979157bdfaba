/** One table of how far the mechanics are from the truths outside them. */
import { rotatingRows } from './rotating.ts';
import type { AccuracyRow } from './row.ts';
import { springRows } from './spring.ts';
import { standingRows } from './standing.ts';

/** Rows as aligned plain text: figures left, numbers right. */
export function tableOf(rows: readonly AccuracyRow[]): string {
	const number = (value: number): string => String(Number(value.toPrecision(2)));
	const lines = [
		['figure', 'against', 'largest error', 'held', 'aimed at', 'unit'],
		...rows.map((row) => [
			row.figure,
			row.against,
			number(row.error),
			number(row.held),
			number(row.aimed),
			row.unit,
		]),
	];
	const widthOf = (column: number): number =>
		Math.max(...lines.map((line) => line[column]?.length ?? 0));
	const widths = [0, 1, 2, 3, 4, 5].map(widthOf);
	return lines
		.map((line) =>
			line
				.map((text, column) => {
					const width = widths[column] ?? 0;
					return column >= 2 && column <= 4 ? text.padStart(width) : text.padEnd(width);
				})
				.join('  ')
				.trimEnd(),
		)
		.join('\n');
}

/** The whole table: spring, rotating parts, standing figures. */
export function accuracyTable(): string {
	return tableOf([...springRows(), ...rotatingRows(), ...standingRows()]);
}
