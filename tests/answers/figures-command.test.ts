/** The figures command, as a script would call it. */
import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { figures } from '../../src/commands/figures-command.ts';
import { readWorkbookFolder } from '../../src/commands/workbook-folder.ts';
import { withPage } from '../../src/lib/job/edits.ts';
import { writeJobFile, type KeptFigures } from '../../src/lib/job/job-file.ts';
import { jobFromScenario, type Job } from '../../src/lib/job/job.ts';
import { sealOf } from '../../src/lib/job/seal.ts';
import { fence, pageText } from '../language/small-workbook.ts';

const command = fileURLToPath(new URL('../../src/commands/figures.js', import.meta.url));

const caseA =
	'leaf_front=24 leaf_rear=30 leaf_rate=160 leaf_arch=3.5 eye_to_pivot=53.6 pivot_up=4.6 ' +
	'shackle_length=5 shackle_stands=hanging spring_load=850 spring_side=over seat_to_axle=3 seat_to_pad=0 ' +
	'leaf_rate_from=leaves pinion_reach=12 pinion_rise=-1.5 wheelbase=118 trans_slope=5 pinion_slope=5 shaft_slope=7 shaft_length=58 eye_raise=4.5';

test('reference layout A comes out as JSON, in the units shown and in SI', () => {
	const { status, out } = figures(['--json', ...caseA.split(' ').flatMap((set) => ['--set', set])]);
	expect(status).toBe(0);
	const found = JSON.parse(out);
	expect(found.figures.rear_drop.unit).toBe('in');
	expect(found.figures.rear_drop.value).toBeCloseTo(2.419844, 5);
	expect(found.figures.rear_drop.si).toBeCloseTo(2.419844 * 0.0254, 7);
	expect(found.figures.rear_drop.plus_minus).toBeGreaterThan(0);
	expect(found.figures.rear_joint.value).toBeCloseTo(6.352757, 5);
	expect(found.figures.rear_height_expected.value).toBeNull();
	const [check] = found.checks;
	expect(Object.keys(check)).toEqual(['name', 'level', 'text']);
});

test('parts too short to reach are one sentence, once, with the gap in the units asked for', () => {
	const { out } = figures(['hanger-and-shackle', '--set', 'eye_to_pivot=70']);
	const told = out.split('\n').filter((line) => line.includes('cannot be assembled'));
	expect(told).toHaveLength(1);
	expect(told[0]).toMatch(/^The spring as it stands: .*The shackle is too short by [\d.]+ in;/);
	expect(told[0]).not.toContain('mm');
});

test.each([
	[['no-such-scenario'], 'There is no scenario “no-such-scenario”'],
	[['--set', 'leaf_fron=24'], 'Did you mean “leaf_front”?'],
	[['--set', 'leaf_front=abc'], '“abc” stands where a number was expected'],
	[['--set', 'leaf_front=\u001B[2J'], '\u{FFFD}[2J'],
	[['--set', 'rear_drop=2'], 'worked out, so it cannot be set'],
	[['--unit', 'metric'], '--unit is not known here'],
	[['-u', 'metric'], '-u is not known here'],
	[['--set'], '--set needs a value after it'],
	[['--set', '=3'], 'write it as name=value'],
	[['--units', 'imperial'], 'the systems of units are'],
	[['--json=yes'], '--json takes no value'],
	[['one', 'two'], 'One scenario or file at a time'],
	[['\u001B[31mred\nnext\u009B1m'], 'There is no scenario “\u{FFFD}[31mred next\u{FFFD}1m”'],
])('%j is answered with one clear line and a non-zero exit', (args, sentence) => {
	const { status, out, said } = figures(args);
	expect(status).not.toBe(0);
	expect(out).toBe('');
	expect(said).toContain(sentence);
	expect(said.trim().split('\n')).toHaveLength(1);
});

test('help names every option', () => {
	const { status, out } = figures(['--help']);
	expect(status).toBe(0);
	for (const option of ['--set', '--units', '--json', '--help']) expect(out).toContain(option);
});

test('the command answers on its streams and with its exit code', () => {
	const { status, stdout, stderr } = spawnSync(process.execPath, [command, 'no-such-scenario'], {
		encoding: 'utf8',
	});
	expect(status).toBe(1);
	expect(stdout).toBe('');
	expect(stderr).toMatch(/^There is no scenario “no-such-scenario”.*\n$/);
});

test('a reader that closes the pipe ends it without a word', async () => {
	const running = spawn(process.execPath, [command, '--json'], { stdio: 'pipe' });
	running.stdout.destroy();
	let said = '';
	running.stderr.on('data', (piece) => (said += String(piece)));
	const [status] = await once(running, 'close');
	expect(said).toBe('');
	expect(status).toBe(0);
});

test('a job saved to a file has its figures, and those that are others now are named', () => {
	const workbook = readWorkbookFolder('lowering');
	const [scenario] = workbook.scenarios;
	if (!scenario) throw new Error('no scenario');
	const page = pageText(fence('derive', 'my_own = 2 * rear_drop  # Twice the drop'));
	const job = withPage(jobFromScenario(workbook, scenario, new Date('2026-11-25')), 'mine', page);
	const { si } = JSON.parse(figures([scenario.id, '--json']).out).figures.rear_drop;
	const path = join(mkdtempSync(join(tmpdir(), 'job-')), 'my.json');
	const run = (kept: KeptFigures) => {
		writeFileSync(path, writeJobFile(job, { figures: kept }));
		return figures([path, '--json']);
	};
	const same = run({ rear_drop: si, my_own: 2 * si });
	expect(same.status).toBe(0);
	expect(same.said).toBe('');
	expect(JSON.parse(same.out).figures.my_own.si).toBeCloseTo(2 * si, 12);
	expect(run({ rear_drop: si, my_own: si, gone_by: 1 }).said).toMatch(
		/^gone by is 1 in the file and not asked any more now\.\nTwice the drop is .* in the file and .* now\.\n$/,
	);
	writeFileSync(path, '{');
	expect(figures([path])).toEqual({
		...{ out: '', status: 1 },
		said: `“${path}” is not a job of this workbook. Choose a file that this workbook saved; its name ends in .ride-height.json, or .ride-height.html, unless it was renamed.\n`,
	});
	rmSync(dirname(path), { recursive: true });
	expect(figures([path]).said).toContain('cannot be read');
});

test('it says how a job in a file stands to its seal', async () => {
	const workbook = readWorkbookFolder('lowering');
	const [scenario] = workbook.scenarios;
	if (!scenario) throw new Error('no scenario');
	const plain = jobFromScenario(workbook, scenario, new Date('2026-11-25'));
	const seal = await sealOf(plain, {}, undefined, new Date(2026, 10, 28, 12));
	const path = join(mkdtempSync(join(tmpdir(), 'job-')), 'my.json');
	const run = (job: Job, ...args: string[]) => {
		writeFileSync(path, writeJobFile(job));
		return figures([path, ...args]);
	};
	const job = { ...plain, seals: [seal] };
	expect(run(job).said).toBe(`Sealed 28 Nov 2026, unchanged. ${seal.hash}\n`);
	const on = { ...job, entries: { ...job.entries, eye_raise: { ...plainEntry, typed: '77' } } };
	const { out, said } = run(on, '--json');
	expect(said).toBe(`Sealed 28 Nov 2026, changed since: 1 entry. ${seal.hash}\n`);
	expect(JSON.parse(out).sealed).toEqual({
		...{ standing: 'changed', date: '2026-11-28', hash: seal.hash, changed: ['entry/eye_raise'] },
	});
	const forged = {
		...seal,
		record: seal.record.replace('"date":"2026-11-28"', '"date":"2026-11-27"'),
	};
	expect(run({ ...job, seals: [forged] }).said).toContain('Seal 1 of this job does not fit');
	rmSync(dirname(path), { recursive: true });
});

const plainEntry = { system: 'metric', from: 'person' } as const;
