/** What a gauge's dial shows is typed as it stands, and the slope follows from how the gauge reads. */
import { describe, expect, test } from 'vitest';
import { withGauge } from '../../src/lib/job/edits.ts';
import { blankJob, type Gauge, type Job } from '../../src/lib/job/job.ts';
import { readJobFile, writeJobFile } from '../../src/lib/job/job-file.ts';
import { fieldText, nextEntry, readingOf } from '../../src/lib/job/reading.ts';
import { inputCell, smallWorkbook } from '../language/small-workbook.ts';

const workbook = smallWorkbook({
	one: [
		inputCell('pinion', 'angle', 'dial: face', 'limits: -45 deg to 45 deg'),
		inputCell('shaft', 'angle', 'dial: along', 'limits: -45 deg to 45 deg'),
		inputCell('lean', 'angle'),
	].join('\n'),
});
const degree = Math.PI / 180;

function typed(name: string, text: string, gauge?: Gauge) {
	const input = workbook.graph.byId.get(name)?.input;
	if (!input) throw new Error(`No input “${name}”.`);
	const blank = withGauge(blankJob(workbook, 'inch-pound', new Date(0)), gauge);
	const entry = nextEntry(input, undefined, text, 'inch-pound', gauge);
	const job: Job = { ...blank, entries: { [name]: entry } };
	return { input, entry, job, reading: readingOf(input, job) };
}

/** Nought on a wall; nought on a floor. */
const wall0: Gauge = { onWall: 0, turned: false };
const wall90: Gauge = { onWall: 90, turned: false };

test.each([
	// A yoke's face that leans 3.8° back: the dial shows 86.2 where it shows 90 on a wall.
	['pinion', '86.2', wall90, 3.8],
	['pinion', '-86.2', wall90, -3.8],
	['pinion', '3.8', wall0, 3.8],
	['shaft', '5 1/2', wall90, 5.5],
	['shaft', '84', wall0, 6],
	['shaft', '5.5', undefined, 5.5],
	['pinion', '3.8', { onWall: 0, turned: true } satisfies Gauge, -3.8],
	['lean', '86.2', wall90, 86.2],
] as const)('%s typed %s', (name, text, gauge, degrees) => {
	const { reading } = typed(name, text, gauge);
	expect((reading.value as number) / degree).toBeCloseTo(degrees, 9);
	expect(reading.problem).toBeUndefined();
});

describe('what was typed', () => {
	test('is shown as the slope it makes, and with its ±', () => {
		expect(typed('pinion', '86.2 ± 0.5', wall90).reading).toMatchObject({
			understood: '3.8° ± 0.5°',
			plusMinus: 0.5 * degree,
		});
	});

	test('keeps its meaning when the gauge is said to read otherwise, and in the other system', () => {
		const { input, entry, job } = typed('pinion', '86.2', wall90);
		const other: Job = { ...withGauge(job, wall0), system: 'metric' };
		const reading = readingOf(input, other);
		expect((reading.value as number) / degree).toBeCloseTo(3.8, 9);
		expect(fieldText(input, entry, reading, 'metric')).toBe('86.2');
	});

	test('goes through a file', () => {
		const { job } = typed('pinion', '86.2', wall90);
		const read = readJobFile(writeJobFile(job), 'a file', 'small');
		expect('job' in read && { ...read.job, id: job.id }).toEqual(job);
	});

	test('that makes no slope is refused', () => {
		expect(typed('pinion', '20', wall90).reading.problem).toContain('70° cannot be right here');
	});
});

test('only an angle is read off a dial', () => {
	const { problems } = smallWorkbook({ one: inputCell('wide', 'length', 'dial: face') });
	expect(problems.map(({ message }) => message)).toEqual([
		'Only an angle is read off the “dial” of a gauge.',
	]);
});
