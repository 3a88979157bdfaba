/** What a gauge's dial shows is typed as it stands, and the slope follows from how the gauge reads. */
import { describe, expect, test } from 'vitest';
import { withGauge } from '../../src/lib/job/edits.ts';
import { blankJob, type Gauge, type Job } from '../../src/lib/job/job.ts';
import { writeJobFile } from '../../src/lib/job/job-file.ts';
import { readJobFile } from '../../src/lib/job/read-job-file.ts';
import { fieldText, nextEntry, readingOf, slopeOnDial } from '../../src/lib/job/reading.ts';
import { inputCell, smallWorkbook } from '../language/small-workbook.ts';

const workbook = smallWorkbook({
	one: [
		inputCell('pinion', 'angle', 'dial: face', 'limits: -45 deg to 45 deg'),
		inputCell('shaft', 'angle', 'dial: along', 'limits: -45 deg to 45 deg'),
		inputCell('lean', 'angle', 'dial: lean', 'limits: -80 deg to 80 deg'),
		inputCell('other', 'angle'),
		inputCell('lists', 'angle', 'dial: along', 'several: readings', 'limits: -45 deg to 45 deg'),
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
	['shaft', '82.4', wall0, 7.6],
	['shaft', '5.5', undefined, 5.5],
	['pinion', '3.8', { onWall: 0, turned: true } satisfies Gauge, -3.8],
	['lean', '78', wall90, 12],
	['lean', '12', { onWall: 0, turned: true } satisfies Gauge, 12],
	['other', '86.2', wall90, 86.2],
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

	test('on the other face than asked for is offered as the slope it makes', () => {
		const { reading } = typed('pinion', '4 ± 1/4', wall90);
		expect(reading.problem).toContain('it lay along the shaft');
		expect(reading.offers).toEqual([
			{
				text: '90 - 4 ± 1/4',
				value: expect.closeTo(4 * degree) as number,
				understood: '4° ± 0.25°',
			},
		]);
	});
});

describe('a list of readings', () => {
	test('is the slopes that the dial makes', () => {
		const { reading } = typed('lists', '82.5; 82 3/4; 91', wall0);
		expect((reading.value as number[]).map((each) => each / degree)).toEqual([
			expect.closeTo(7.5, 9),
			expect.closeTo(7.25, 9),
			expect.closeTo(-1, 9),
		]);
		expect(reading.understood).toBe('7.5°; 7.25°; −1°');
	});

	test('taken on the other face is offered, with what was taken rightly left as it is', () => {
		const { reading } = typed('lists', '82.5; 5', wall0);
		expect(reading.offers?.map(({ text, understood }) => [text, understood])).toEqual([
			['82.5; 90 - 5', '7.5°; 5°'],
		]);
	});
});

/**
 * A gauge of plain geometry: the directions of the shaft and of a face square to it are laid out at a slope,
 * and the dial shows the angle of what it lies on to level, or to plumb.
 */
test.each([-12, -3, 0, 5.5, 18])('reads a line at %d° whatever it lies on and counts', (slope) => {
	const [level, fall] = [Math.cos(slope * degree), Math.sin(slope * degree)];
	const toLevel = { along: Math.atan2(fall, level), face: Math.atan2(level, fall) };
	const toPlumb = { along: Math.atan2(level, fall), face: Math.atan2(fall, level) };
	for (const dial of ['along', 'face'] as const) {
		for (const [shown, onWall] of [
			[toPlumb[dial], 0],
			[toLevel[dial], 90],
		] as const) {
			expect(slopeOnDial(shown, dial, { onWall, turned: false }) / degree).toBeCloseTo(slope, 12);
			expect(slopeOnDial(shown, dial, { onWall, turned: true }) / degree).toBeCloseTo(-slope, 12);
		}
	}
});

test('only an angle is read off a dial', () => {
	const { problems } = smallWorkbook({ one: inputCell('wide', 'length', 'dial: face') });
	expect(problems.map(({ message }) => message)).toEqual([
		'Only an angle is read off the “dial” of a gauge.',
	]);
});
