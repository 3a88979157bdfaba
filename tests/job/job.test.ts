/** A job: what was typed, what is in force, and the file that carries it elsewhere. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { canonicalJson } from '../../src/lib/job/canonical.ts';
import { checksum } from '../../src/lib/job/checksum.ts';
import { blankJob, jobFromScenario, type Job } from '../../src/lib/job/job.ts';
import { jobFileName, writeJobFile } from '../../src/lib/job/job-file.ts';
import { readJobFile } from '../../src/lib/job/read-job-file.ts';
import {
	inputsOf,
	nextEntry,
	readTyped,
	readingOf,
	readingsOf,
} from '../../src/lib/job/reading.ts';
import type { InputCell } from '../../src/lib/language/kinds/input.ts';
import { runAll } from '../../src/lib/engine/run.ts';
import { shipped } from '../language/shipped.ts';
import { fence, smallWorkbook, stateOf } from '../language/small-workbook.ts';

const { graph } = shipped;
const now = new Date('2026-11-25T08:00:00Z');

function scenarioJob(): Job {
	const [scenario] = shipped.scenarios;
	if (!scenario) throw new Error('the workbook has no scenario');
	return jobFromScenario(shipped, scenario, now);
}

function inputNamed(name: string): InputCell {
	const input = graph.byId.get(name)?.input;
	if (!input) throw new Error(`no input ${name}`);
	return input;
}

/** The job with something else typed in one field. */
function typed(job: Job, name: string, text: string): Job {
	const entry = nextEntry(inputNamed(name), job.entries[name], text, job.system);
	return { ...job, entries: { ...job.entries, [name]: entry } };
}

/** Damaged files tried; more of them in the long run. */
const runs = Number(process.env['RUNS'] ?? 2500);

/** A file without its checksum, as programs wrote it before, and as one has it who changes it by hand. */
const unsigned = (text: string): string => text.replace(/^\t"checksum".*\n/m, '');

describe('the file of a job', () => {
	test('opened again it holds every entry to the letter and gives the same figures', () => {
		const job = typed(typed(scenarioJob(), 'eye_raise', '3-1/4"'), 'wheelbase', 'nonsense');
		const read = readJobFile(writeJobFile(job), 'x.json', 'lowering');
		if ('problem' in read) throw new Error(read.problem);
		expect(read.job.id).not.toBe(job.id);
		expect(read.job.entries).toEqual(job.entries);
		expect(read.job.block).toEqual(job.block);
		const figures = (of: Job) => stateOf(runAll(graph, inputsOf(readingsOf(graph, of))));
		expect(figures(read.job)).toEqual(figures(job));
	});

	test('holds the options, and one of the first version, which had none, is opened too', () => {
		const job = scenarioJob();
		const read = (text: string) => {
			const found = readJobFile(text, 'x.json', 'lowering');
			if ('problem' in found) throw new Error(found.problem);
			return found.job;
		};
		expect(job.options?.length).toBeGreaterThan(0);
		expect(read(writeJobFile(job)).options).toEqual(job.options);
		const { options: _options, ...first } = job;
		const old = read(unsigned(writeJobFile(first)).replace('"version": 2', '"version": 1'));
		expect(old.options).toBeUndefined();
		expect(old.entries).toEqual(job.entries);
	});

	const text = writeJobFile(scenarioJob());
	test.each([
		['empty', '', 'is not a job of this workbook'],
		['truncated', text.slice(0, text.length - 40), 'breaks off or was damaged'],
		['foreign', '{"cells": []}', 'is not a job of this workbook'],
		['a bare number', '7', 'is not a job of this workbook'],
		[
			'later version',
			text.replace('"version": 2', '"version": 4'),
			'file version 4; this one reads up to 3',
		],
		[
			'another workbook',
			text.replace('"workbook": "lowering"', '"workbook": "lifting"'),
			'belongs to another workbook, “lifting”',
		],
		['a part missing', text.replace('"block"', '"blocks"'), '(job › block)'],
		['far too large', `${text}${' '.repeat(5_000_001)}`, 'far too large'],
	])('%s: a sentence, and nothing changed', (_name, content, sentence) => {
		const read = readJobFile(content, 'x.json', 'lowering');
		expect(read).toHaveProperty('problem');
		if ('problem' in read) {
			expect(read.problem).toContain(sentence);
			expect(read.problem).toContain('“x.json”');
			expect(read.problem).toContain('Nothing was changed');
		}
	});

	test('with a byte that is another is refused, or means what it meant: never with an entry changed', () => {
		const job = scenarioJob();
		const good = Buffer.from(writeJobFile(job, { figures: { rear_drop: 0.0615 } }));
		const plain = (of: Job): string => canonicalJson({ ...of, id: '' });
		let opened = 0;
		fc.assert(
			fc.property(fc.nat(good.length - 1), fc.integer({ min: 1, max: 255 }), (at, by) => {
				const bytes = Buffer.from(good);
				bytes[at] = (bytes[at] ?? 0) ^ by;
				const read = readJobFile(bytes.toString('utf8'), 'x.json', 'lowering');
				if ('problem' in read) expect(read.problem).toMatch(/^“x\.json” .*Nothing was changed/s);
				else {
					opened++;
					expect(plain(read.job)).toBe(plain(job));
				}
			}),
			{ numRuns: runs },
		);
		// White space between fields, and the name of the checksum itself.
		expect(opened).toBeLessThan(runs / 4);
	});

	test('changed by hand it says so, and opens without its checksum', () => {
		const changed = writeJobFile(scenarioJob()).replace('"title": "', '"title": "My ');
		const refused = readJobFile(changed, 'x.json', 'lowering');
		expect('problem' in refused && refused.problem).toContain('take out the line “checksum”');
		const read = readJobFile(unsigned(changed), 'x.json', 'lowering');
		expect('job' in read && read.job.block.title).toMatch(/^My /);
	});

	test('is the same text whatever the order in which things were typed, and written otherwise it is as good', () => {
		const job = scenarioJob();
		const turned = { ...job, entries: Object.fromEntries(Object.entries(job.entries).reverse()) };
		expect(writeJobFile(turned)).toBe(writeJobFile(job));
		const close = JSON.stringify(JSON.parse(writeJobFile(job))).replaceAll('","', '" ,\r\n"');
		expect(readJobFile(close, 'x.json', 'lowering')).toHaveProperty('job');
	});

	test('keeps what only a later version knows, in every part', () => {
		const job = scenarioJob();
		const later = {
			...job,
			tyres: { load: 'C' },
			block: { ...job.block, approvedBy: 'A' },
			entries: { ...job.entries, raise: { typed: '1', system: 'metric', from: 'person', seen: 2 } },
			options: [{ id: 'a', name: 'A', entries: {}, colour: 'red' }],
			pages: [{ id: 'mine', text: '', author: 'me' }],
		} as unknown as Job;
		const read = readJobFile(writeJobFile(later), 'x.json', 'lowering');
		if ('problem' in read) throw new Error(read.problem);
		expect({ ...read.job, id: later.id }).toEqual(later);
	});

	test('gives each option an id of its own that the comparison can use', () => {
		const kit = (id: string) => ({ id, name: id, entries: {} });
		const job = { ...scenarioJob(), options: ['stock', 'a', 'a', 'plan', 'x/y', ''].map(kit) };
		const read = readJobFile(writeJobFile(job), 'x.json', 'lowering');
		expect('job' in read && read.job.options?.map(({ id }) => id)).toEqual([
			...['stock-2', 'a', 'a-2', 'plan-2', 'x-y', 'option'],
		]);
		expect('job' in read && read.job.options?.map(({ name }) => name)).toEqual(
			job.options.map(({ name }) => name),
		);
	});

	test('its checksum is the one that everybody has', () => {
		// The check value of CRC-32 in its usual form, common knowledge of the trade of data: from memory.
		expect(checksum('123456789')).toBe('cbf43926');
		expect(checksum('')).toBe('00000000');
	});

	test('entries of inputs this workbook does not have are kept', () => {
		const job = scenarioJob();
		const strange: Job = {
			...job,
			entries: { ...job.entries, gone_input: { typed: '5', system: 'metric', from: 'person' } },
		};
		const read = readJobFile(writeJobFile(strange), 'x.json', 'lowering');
		expect('job' in read && read.job.entries['gone_input']?.typed).toBe('5');
	});

	test('its name comes from the title and is safe for any disk', () => {
		const job = scenarioJob();
		const named = (title: string) => jobFileName({ ...job, block: { ...job.block, title } });
		expect(named('Old Farm Truck / 2nd try')).toBe('old-farm-truck-2nd-try.ride-height.json');
		expect(named('../..')).toBe('job.ride-height.json');
	});
});

describe('what is typed and what is in force', () => {
	test('what cannot be read leaves the last good value in force, through any number of keystrokes', () => {
		let job = typed(blankJob(shipped, 'inch-pound', now), 'wheelbase', '118');
		for (const text of ['118x', '118xy', '', 'no']) job = typed(job, 'wheelbase', text);
		const reading = readingOf(inputNamed('wheelbase'), job);
		expect(reading.value).toBeCloseTo(118 * 0.0254, 12);
		expect(reading.standing).toBe('entered');
		expect(reading.problem).toContain('118 in stays in force');
		expect(job.entries['wheelbase']?.typed).toBe('no');
	});

	test('a bare number keeps the unit it was typed in when the units are switched', () => {
		const job = typed(blankJob(shipped, 'inch-pound', now), 'wheelbase', '118');
		const switched: Job = { ...job, system: 'metric' };
		expect(readingOf(inputNamed('wheelbase'), switched).value).toBe(
			readingOf(inputNamed('wheelbase'), job).value,
		);
	});

	test('beyond the limits it is refused with the limits; beyond the sensible range it is used with a caution', () => {
		const blank = blankJob(shipped, 'inch-pound', now);
		const absurd = readingOf(inputNamed('front_height'), typed(blank, 'front_height', '9000'));
		expect(absurd.value).toBeUndefined();
		expect(absurd.problem).toContain(
			'9000 in cannot be right here: it has to lie within 5 in to 100 in',
		);
		const unusual = readingOf(inputNamed('front_height'), typed(blank, 'front_height', '60'));
		expect(unusual.value).toBeCloseTo(60 * 0.0254, 12);
		expect(unusual.caution).toContain('60 in is unusual');
	});

	test('what was typed is shown back as it was understood, in the units of the job', () => {
		const blank = blankJob(shipped, 'inch-pound', now);
		const job = typed(blank, 'wheelbase', '2997 mm ± 3');
		expect(readingOf(inputNamed('wheelbase'), job).understood).toBe('117.992 in ± 0.118 in');
		const switched: Job = { ...job, system: 'metric' };
		expect(readingOf(inputNamed('wheelbase'), switched).understood).toBe('2997 mm ± 3 mm');
		const held = readingOf(inputNamed('wheelbase'), typed(job, 'wheelbase', '11x'));
		expect(held.understood).toBe('117.992 in ± 0.118 in');
		const list = typed(blank, 'block_sizes', '1-1/2, 2-1/2');
		expect(readingOf(inputNamed('block_sizes'), list).understood).toBe('1 1/2 in; 2 1/2 in');
	});

	test('what could mean two things is asked, with texts that mean one in the units they were typed in', () => {
		const job = typed(blankJob(shipped, 'inch-pound', now), 'front_height', '33-35');
		const reading = readingOf(inputNamed('front_height'), job);
		expect(reading.value).toBeUndefined();
		expect(reading.offers).toEqual([
			expect.objectContaining({ text: '33 to 35', understood: '34 in ± 1 in' }),
		]);
		const switched = readingOf(inputNamed('front_height'), { ...job, system: 'metric' });
		expect(switched.problem).toContain('“33-35”');
		expect(switched.offers).toBeUndefined();
	});

	test('a slope read from plumb is offered as such', () => {
		const job = typed(blankJob(shipped, 'metric', now), 'trans_slope', '86.2');
		const reading = readingOf(inputNamed('trans_slope'), job);
		expect(reading.problem).toContain('It may have been read from plumb.');
		expect(reading.offers).toEqual([
			expect.objectContaining({ text: '90 - 86.2', understood: '3.8°' }),
		]);
	});

	test('a date is taken when a calendar has that day', () => {
		const page = fence('input', 'name: measured_on', 'label: Measured on', 'date: true');
		const { input } = smallWorkbook({ one: page }).graph.byId.get('measured_on') ?? {};
		if (!input) throw new Error('no input measured_on');
		for (const day of ['2026-11-25', '2024-02-29', '2000-02-29', '2026-12-31']) {
			expect(readTyped(input, day, 'metric')).toEqual({ value: day });
		}
		for (const none of ['2026-02-31', '2026-02-29', '1900-02-29', '2026-04-31', '2026-13-01']) {
			expect(readTyped(input, none, 'metric')).toEqual({
				problem: `“${none}” is a day no calendar has. Look at the month and the day again.`,
			});
		}
		for (const other of ['25.11.2026', '2026-11', '2026-11-25T10:00']) {
			expect(readTyped(input, other, 'metric')).toEqual({
				problem: `“${other}” is not a date. Give it as year-month-day, such as 2026-11-25.`,
			});
		}
	});

	test('each entry knows where it comes from', () => {
		const job = scenarioJob();
		expect(readingOf(inputNamed('wheelbase'), job).standing).toBe('scenario');
		expect(readingOf(inputNamed('wheelbase'), typed(job, 'wheelbase', '119')).standing).toBe(
			'entered',
		);
		const blank = blankJob(shipped, 'metric', now);
		expect(readingOf(inputNamed('front_height'), blank).standing).toBe('missing');
		expect(readingOf(inputNamed('eye_raise'), blank)).toEqual({ standing: 'assumed', value: 0 });
	});
});
