/**
 * All figures and entries of a job as a table for a spreadsheet program, after RFC 4180: lines that end in CR LF,
 * a head, every text in quotes. It begins with a byte order mark, without which such programs take ° and ± for
 * other letters. A text that one could take for a formula has an apostrophe before it, so that nothing that was
 * typed is ever run; numbers are bare, with a point, in the unit beside them and in SI.
 */
import { plusMinusOfAll } from '../engine/plus-minus.ts';
import type { Entry, Job } from '../job/job.ts';
import type { Reading } from '../job/reading.ts';
import { sealInWords, type SealState } from '../job/seal.ts';
import type { Node } from '../language/graph.ts';
import type { Value } from '../language/types.ts';
import { cellsOf, type Workbook } from '../language/workbook.ts';
import { failureInWords } from './failures.ts';
import {
	inputPlusMinus,
	shownForNode,
	truckStates,
	valueInWords,
	type Figures,
} from './figures.ts';

const head = [
	...['kind', 'sheet', 'name', 'label', 'of', 'value', 'plus_minus', 'unit'],
	...['si_value', 'si_plus_minus', 'typed', 'from', 'why_not'],
] as const;

/** A line of the table by the names of its columns; what is left out is empty. */
type Line = Readonly<Partial<Record<(typeof head)[number], string | number>>>;

/** What begins so is a formula, or a command, to one program or another; some look past blanks. */
const formulaLike = /^[\s\p{Cc}]*[=+\-@|%＝＋－＠]|^[\t\r\n]/u;

function cell(content: string | number | undefined): string {
	if (content === undefined || content === '') return '';
	if (typeof content === 'number') return String(content);
	const harmless = formulaLike.test(content) ? `'${content}` : content;
	return `"${harmless.replaceAll('"', '""')}"`;
}

/** Twelve digits: more than any reading has, and none of the noise of binary numbers. */
const plain = (value: number): number => Number(value.toPrecision(12));

/** What a job and its run come to. */
export interface OfJob {
	readonly job: Job;
	readonly workbook: Workbook;
	readonly figures: Figures;
	readonly reading: (name: string) => Reading;
	readonly seals?: SealState | undefined;
}

/** The table. The ± of everything is worked out for it, which takes its time. */
export function figuresAsCsv(of: OfJob): string {
	const lines = [...blockLines(of), ...nodeLines(of), ...optionLines(of)];
	const rows = [
		head.map((name) => `"${name}"`),
		...lines.map((line) => head.map((name) => cell(line[name]))),
	];
	return `\u{FEFF}${rows.map((row) => `${row.join(',')}\r\n`).join('')}`;
}

function blockLines({ job, seals }: OfJob): Line[] {
	const fields = Object.entries(job.block).map(([name, typed]): Line => ({
		kind: 'title block',
		name,
		typed: String(typed),
	}));
	const seal = seals && { typed: `${sealInWords(seals)}. ${seals.last.hash}` };
	return [...fields, ...(seal ? [{ kind: 'title block', name: 'seal', ...seal }] : [])];
}

function nodeLines(of: OfJob): Line[] {
	const { figures, workbook, reading } = of;
	const { graph, run } = figures;
	const nodes = graph.nodes.filter(({ id, type }) => !id.includes('/') && type?.kind !== 'record');
	const plusMinus = plusMinusOfAll(
		graph,
		run,
		(node) => inputPlusMinus(node, reading(node.id)),
		nodes.map(({ slot }) => slot),
	);
	const sheets = new Map(
		cellsOf(workbook).flatMap(({ page, gives }) => gives.map(({ name }) => [name, page] as const)),
	);
	return nodes.map((node): Line => {
		const sure = node.input ? inputPlusMinus(node, reading(node.id)) : plusMinus[node.slot]?.size;
		return {
			kind: node.input ? 'entry' : 'figure',
			sheet: node.input?.page ?? sheets.get(node.id) ?? '',
			...{ name: node.id, label: node.label, of: stateOf(node) },
			...amounts(node, run.value(node.slot), sure, figures),
			...(node.input
				? entered(of.job.entries[node.id], reading(node.id))
				: { why_not: whyNot(node, figures) }),
		};
	});
}

/** Of which state of the truck something is: before the job, as planned, as fitted, as found after it. */
function stateOf({ id }: Node): string {
	const found = ['before', ...truckStates].find((state) => id.endsWith(`_${state}`));
	return found ?? '';
}

function amounts(
	node: Node,
	value: Value | undefined,
	sure: number | undefined,
	of: Figures,
): Line {
	if (value === undefined) return {};
	if (typeof value !== 'number') return { value: valueInWords(node, value, of) };
	const shown = shownForNode(node, of.quantities, of.system);
	const size = shown?.unit.size ?? 1;
	return {
		...{ value: plain(value / size), unit: shown?.unit.name ?? '', si_value: plain(value) },
		...(sure !== undefined && { plus_minus: plain(sure / size), si_plus_minus: plain(sure) }),
	};
}

const fromWords = {
	person: 'measured or chosen',
	assumed: 'assumed',
	scenario: 'the example',
} as const;

/** What was typed, to the letter, and where it comes from. */
function entered(entry: Entry | undefined, { problem, standing }: Reading): Line {
	if (!entry) return { from: standing === 'missing' ? 'not entered' : 'the page' };
	return { typed: entry.typed, from: fromWords[entry.from], why_not: problem ?? '' };
}

function whyNot(node: Node, { run, system }: Figures): string {
	const failure = run.failure(node.slot);
	return failure ? failureInWords(failure, system) : '';
}

/** What each kit sets. */
function optionLines({ job, workbook }: OfJob): Line[] {
	return (job.options ?? []).flatMap(({ name: option, entries }) =>
		Object.entries(entries).map(([name, entry]): Line => ({
			...{ kind: 'kit', name, label: workbook.graph.byId.get(name)?.label ?? '', of: option },
			...{ typed: entry.typed, from: fromWords[entry.from] },
		})),
	);
}
