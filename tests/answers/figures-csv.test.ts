/** The figures as a table for a spreadsheet program: whole, readable, and nothing in it runs. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { figuresAsCsv } from '../../src/lib/answers/figures-csv.ts';
import { runAll } from '../../src/lib/engine/run.ts';
import { withBlock, withEntry } from '../../src/lib/job/edits.ts';
import { jobFromScenario, type Job } from '../../src/lib/job/job.ts';
import { inputsOf, readingsOf } from '../../src/lib/job/reading.ts';
import { shipped } from '../language/shipped.ts';
import { inputCell, smallWorkbook } from '../language/small-workbook.ts';
import { answerTo } from './answer-to.ts';

/** Reads a table letter by letter, by the grammar of RFC 4180, section 2. @throws for what is none */
function rowsOf(text: string): string[][] {
	const record = /(?:"((?:[^"]|"")*)"|([^",\r\n]*))(,|\r\n)/y;
	const rows: string[][] = [[]];
	while (record.lastIndex < text.length) {
		const found = record.exec(text);
		if (!found) throw new Error('no table');
		const [, quoted, bare = '', end] = found;
		rows.at(-1)?.push(quoted?.replaceAll('""', '"') ?? bare);
		if (end === '\r\n') rows.push([]);
	}
	return rows.slice(0, -1);
}

function tableOf(job: Job, workbook = shipped) {
	const { graph, quantities } = workbook;
	const readings = readingsOf(graph, job);
	const text = figuresAsCsv({
		...{ job, workbook },
		figures: { graph, quantities, system: job.system, run: runAll(graph, inputsOf(readings)) },
		reading: (name) => readings.get(name) ?? { standing: 'missing' },
	});
	const [head = [], ...rows] = rowsOf(text.replace(/^\u{FEFF}/u, ''));
	const lines = rows.map((row) => Object.fromEntries(head.map((name, at) => [name, row[at]])));
	return { text, rows, lines, line: (name: string) => lines.find((each) => each['name'] === name) };
}

const scenario = shipped.scenarios.find(({ id }) => id === 'hanger-and-shackle');
if (!scenario) throw new Error('no scenario');
const job = jobFromScenario(shipped, scenario, new Date('2026-11-25'));

test('it has every figure with unit and ±, as the terminal says them, and every entry as it was typed', () => {
	const { text, rows, line } = tableOf(job);
	expect(text.startsWith('\u{FEFF}"kind","sheet","name"')).toBe(true);
	expect(new Set(rows.map((row) => row.length))).toEqual(new Set([13]));
	const { figure, plusMinus } = answerTo('hanger-and-shackle');
	for (const name of ['rear_drop', 'front_joint_before', 'rear_joint_found', 'rear_joint_fitted']) {
		expect(Number(line(name)?.['value'])).toBeCloseTo(figure(name), 9);
		expect(Number(line(name)?.['plus_minus'])).toBeCloseTo(plusMinus(name), 9);
	}
	expect(line('rear_drop')).toMatchObject({ kind: 'figure', unit: 'in' });
	expect(line('front_joint_before')).toMatchObject({ of: 'before', unit: 'deg' });
	expect(line('rear_joint_found')).toMatchObject({ of: 'found' });
	const { values } = scenario;
	for (const [name, typed] of Object.entries(values)) {
		const guarded = /^[=+\-@]/.test(typed) ? `'${typed}` : typed;
		expect(line(name)).toMatchObject({ kind: 'entry', typed: guarded, from: 'the example' });
	}
	const inputs = shipped.graph.nodes.filter(({ input }) => input);
	for (const { id } of inputs) expect(line(id)?.['kind']).toBe('entry');
});

test('an entry says where it comes from, and one that cannot be read says why', () => {
	const typed = (typedText: string, from: 'person' | 'assumed') =>
		tableOf(withEntry(job, 'wheelbase', { typed: typedText, system: 'metric', from })).line(
			'wheelbase',
		);
	expect(typed('2997 ± 3', 'person')).toMatchObject({
		...{ typed: '2997 ± 3', from: 'measured or chosen', si_value: '2.997' },
		si_plus_minus: '0.003',
	});
	expect(typed('2997', 'assumed')).toMatchObject({ from: 'assumed' });
	expect(typed('long', 'person')?.['why_not']).toContain('“long”');
});

test('whatever was typed comes through, in one cell, and none begins as a formula does', () => {
	const small = smallWorkbook({ one: inputCell('a', 'length') });
	const blank: Job = { ...job, entries: {}, options: [] };
	const nasty = fc.oneof(
		fc.string({ unit: 'binary' }),
		fc
			.constantFrom(...'=+-@|%\t\r\n,"\'＝＋－＠')
			.chain((first) => fc.string().map((rest) => first + rest)),
		fc.constant('=HYPERLINK("http://x")'),
		fc.constant(' =1+1'),
	);
	fc.assert(
		fc.property(nasty, nasty, (title, typed) => {
			const entry = { typed, system: 'metric', from: 'person' } as const;
			const { line, lines } = tableOf(
				withEntry(withBlock(blank, 'title', title), 'a', entry),
				small,
			);
			for (const [name, text] of [
				['title', title],
				['a', typed],
			] as const) {
				expect([text, `'${text}`]).toContain(line(name)?.['typed']);
			}
			for (const { typed: cell = '' } of lines) {
				expect(cell.trimStart()).not.toMatch(/^[=+\-@|%\t\r\n＝＋－＠]/);
			}
		}),
		{ numRuns: 60 },
	);
});
