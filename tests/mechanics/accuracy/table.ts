/** One table of how far the mechanics are from the truths outside them. */
import { rotatingRows } from './rotating.ts';
import {
	faults,
	shippedBenches,
	tallied,
	type Fault,
	type Tally,
} from '../../engine/simulated-jobs.ts';
import type { AccuracyRow } from './row.ts';
import { springRows, springSpread, type SpreadRow } from './spring.ts';
import { standingRows } from './standing.ts';

const number = (value: number): string => String(Number(value.toPrecision(2)));

/** Lines of words as aligned plain text, those columns to the right. */
function aligned(lines: readonly string[][], right: readonly number[]): string {
	const widths = (lines[0] ?? []).map((_, column) =>
		Math.max(...lines.map((line) => line[column]?.length ?? 0)),
	);
	return lines
		.map((line) =>
			line
				.map((text, column) => {
					const width = widths[column] ?? 0;
					return right.includes(column) ? text.padStart(width) : text.padEnd(width);
				})
				.join('  ')
				.trimEnd(),
		)
		.join('\n');
}

/** Rows of one number each: figures left, numbers right. */
export function tableOf(rows: readonly AccuracyRow[]): string {
	return aligned(
		[
			['figure', 'against', 'largest error', 'held', 'aimed at', 'unit'],
			...rows.map((row) => [
				row.figure,
				row.against,
				number(row.error),
				number(row.held),
				number(row.aimed),
				row.unit,
			]),
		],
		[2, 3, 4],
	);
}

/** Rows of many cases each, by what was done. */
export function spreadTable(rows: readonly SpreadRow[]): string {
	return aligned(
		[
			['spring, against an exact leaf', 'job', 'cases', 'rms', '95 of 100', 'worst', 'unit'],
			...rows.map((row) => [
				row.figure,
				row.kind,
				String(row.count),
				number(row.rms),
				number(row.most),
				number(row.worst),
				row.unit,
			]),
		],
		[2, 3, 4, 5],
	);
}

/** How many jobs are made up for each thing that may be wrong. */
const jobsEach = 1000;

/** What the readings after can tell of one thing wrong, in hundredths of the jobs made up with it. */
export function explainedTable(repeat: string): string {
	const benches = shippedBenches(repeat);
	const held = repeat === '0.25';
	const hundredths = (share: number): string => (share * 100).toFixed(1);
	const line = (name: string, tally: Tally, fault?: Fault): string[] => [
		name,
		String(tally.jobs),
		fault ? hundredths(tally.first) : '',
		...[held ? fault?.first : undefined, held ? fault?.design : undefined].map((share) =>
			share === undefined ? '' : hundredths(share),
		),
		...[tally.agrees, tally.toldRight, tally.toldWrong, tally.open].map(hundredths),
	];
	return aligned(
		[
			[
				`what is wrong, gauge repeats to ±${repeat}°`,
				'jobs',
				'comes first',
				'held',
				'by the design',
				'agrees',
				'told, rightly',
				'told, wrongly',
				'cannot tell',
			],
			line('nothing: agrees in 97 or more', tallied(benches, undefined, jobsEach)),
			...faults.map((fault) => line(fault.name, tallied(benches, fault, jobsEach), fault)),
		],
		[1, 2, 3, 4, 5, 6, 7, 8],
	);
}

/** The whole of it: spring, rotating parts, standing figures, the spring job by job, and what readings tell. */
export function accuracyTable(): string {
	const rows = [...springRows(), ...rotatingRows(), ...standingRows()];
	return [
		tableOf(rows),
		spreadTable(springSpread()),
		...['0.25', '0.5'].map((repeat) => explainedTable(repeat)),
	].join('\n\n');
}
