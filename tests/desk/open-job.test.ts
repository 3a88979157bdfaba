/** The open job as a person uses it: options, putting back, what is measured, two windows, and undoing it. */
import { describe, expect, test } from 'vitest';
import { blankJob, jobFromScenario, type Job } from '../../src/lib/job/job.ts';
import { OpenJob } from '../../src/lib/desk/open-job.svelte.ts';
import { optionColumns } from '../../src/lib/answers/options.ts';
import { fieldText, readingOf } from '../../src/lib/job/reading.ts';
import { cellsOf } from '../../src/lib/language/workbook.ts';
import { fence, inputCell, numberIn, smallWorkbook } from '../language/small-workbook.ts';
import { memoryStore, type MemoryStore } from './memory-store.ts';

const inch = 0.0254;
const workbook = smallWorkbook(
	{
		one: [
			inputCell('raise', 'length', 'part: true', 'default: 0 in', 'plus_minus: 1/8 in'),
			inputCell('longer', 'length', 'part: true', 'default: 0 in'),
			inputCell('span', 'length', 'plus_minus: 1/8 in'),
			inputCell('read', 'length', 'several: readings', 'default: [1 in, 1.5 in]'),
			inputCell('nose', 'angle', 'dial: face', 'limits: -45 deg to 45 deg'),
			fence('derive', 'drop = raise + longer / 2  # Drop', 'whole = drop + span  # Whole'),
		].join('\n'),
		two: [
			fence('derive', 'half = whole / 2  # Half'),
			fence('compare', 'name: kits', 'title: Kits', 'set: [raise, longer]', 'show: [drop]'),
		].join('\n'),
	},
	{
		scenarios: ['told'],
		standing: ['drop'],
		files: {
			'scenarios/told.yaml': [
				...['title: Told', 'summary: S', 'units: inch-pound', 'story: {}'],
				...['values: { raise: 4 1/2, span: 60 }'],
				...[
					'options: [{ name: Hanger, values: { raise: 3 } }, { name: Shackle, values: { longer: -2 } }]',
				],
			].join('\n'),
		},
	},
);
const set = ['raise', 'longer'];

function told(): Job {
	const [scenario] = workbook.scenarios;
	if (!scenario) throw new Error('no scenario');
	return jobFromScenario(workbook, scenario, new Date('2026-11-25'));
}

function begun(job: Job = told(), store: MemoryStore = memoryStore()): OpenJob {
	const text = () => Promise.reject(new Error('no page is read here'));
	const open = new OpenJob({ workbook, hash: 'h', text }, store, job);
	open.keeping.listen();
	return open;
}

function inches(job: OpenJob, name: string): number {
	return numberIn(workbook, job.figures.run, name) / inch;
}

/** The option of this name. */
function optionOf(job: OpenJob, name: string) {
	const option = job.job.options?.find((each) => each.name === name);
	if (!option) throw new Error(`No option “${name}”.`);
	return option;
}

/** A value of an option's column, inches. */
function inColumn(job: OpenJob, name: string, figure: string): number {
	const [cell] = cellsOf(workbook).filter((each) => each.kind === 'compare');
	if (!cell) throw new Error('no comparison');
	const column = optionColumns(cell, job.job.options ?? [], job.figures).find(
		(each) => each.name === name,
	);
	if (!column) throw new Error(`No column “${name}”.`);
	return numberIn(workbook, column.figures.run, figure) / inch;
}

describe('typing', () => {
	test('what cannot be read holds the amount from before it was begun, not half of it', () => {
		const job = begun();
		for (const typed of ['3', '33', '33 ', '33 k', '33 kg']) job.type('raise', typed);
		expect(job.reading('raise').problem).toContain('4 1/2 in stays in force');
		expect(inches(job, 'raise')).toBeCloseTo(4.5, 12);
		const blank = begun(blankJob(workbook, 'inch-pound', new Date('2026-11-25')));
		for (const typed of ['3', '33', '33 kg']) blank.type('span', typed);
		expect(blank.reading('span').value).toBeUndefined();
		expect(blank.reading('span').problem).toBeDefined();
		// Written over, not gone on with: what was read stays.
		job.type('raise', '5');
		job.type('raise', 'six');
		expect(inches(job, 'raise')).toBeCloseTo(5, 12);
		// Left and come back to, what was read stays.
		blank.type('span', '33');
		blank.leave();
		blank.type('span', '33 kg');
		expect(inches(blank, 'span')).toBeCloseTo(33, 12);
	});

	test('a ± typed with the reading is carried on instead of the page’s own', () => {
		const job = begun();
		const sureOf = (name: string): number => {
			const node = workbook.graph.byId.get(name);
			return (job.plusMinus[node?.slot ?? -1]?.size ?? NaN) / inch;
		};
		job.page = 'one';
		expect(sureOf('drop')).toBeCloseTo(1 / 8, 9);
		for (const [typed, sure] of [
			['4 1/2 ± 1/4', 1 / 4],
			['4 1/2 +- 1/2 in', 1 / 2],
			['4.5 in +/- 2.54 mm', 0.1],
			['4 1/2 ± 0', 0],
			['4 1/2', 1 / 8],
		] as const) {
			job.type('raise', typed);
			expect(inches(job, 'raise')).toBeCloseTo(4.5, 12);
			expect(sureOf('drop')).toBeCloseTo(sure, 9);
		}
		for (const [typed, words] of [
			['4 ±', 'After the ±'],
			['4 ± -1', 'below nothing'],
			['4 ± 2 deg', 'a length is wanted here'],
		] as const) {
			job.type('raise', typed);
			expect(job.reading('raise').problem).toContain(words);
			expect(inches(job, 'raise')).toBeCloseTo(4.5, 12);
		}
		job.type('raise', '4 ± 1/4');
		job.setSystem('metric');
		const input = workbook.graph.byId.get('raise')?.input;
		if (!input) throw new Error('no input');
		expect(fieldText(input, job.job.entries['raise'], job.reading('raise'), 'metric')).toBe(
			'101.6 ± 6.35',
		);
	});
});

test('the first reading after the job settles what was fitted, and one step takes both back', () => {
	const measured = smallWorkbook({
		one: [
			inputCell('height', 'length', 'plus_minus: 1/8 in'),
			inputCell('raise', 'length', 'part: true', 'default: 0 in'),
			inputCell('raise_fitted', 'length', 'part: true', 'starts_as: raise'),
			inputCell(
				...['height_after', 'length', 'plus_minus: 1/8 in'],
				...['repeat: 1/16 in', 'same_face_as: height'],
			),
			fence('derive', 'drop_fitted = raise_fitted / 2  # Drop'),
		].join('\n'),
	});
	const job = blankJob(measured, 'inch-pound', new Date('2026-11-25'));
	const text = () => Promise.reject(new Error('no page is read here'));
	const open = new OpenJob({ workbook: measured, hash: 'h', text }, memoryStore(), job);
	const drop = (): number => numberIn(measured, open.figures.run, 'drop_fitted') / inch;
	open.type('raise', '2');
	expect(drop()).toBeCloseTo(1, 12);
	for (const typed of ['3', '33', '33 1/2']) open.type('height_after', typed);
	expect(open.job.entries['raise_fitted']).toEqual({
		typed: '2',
		system: 'inch-pound',
		from: 'person',
	});
	open.type('raise', '4');
	expect(drop()).toBeCloseTo(1, 12);
	open.stepBack();
	open.stepBack();
	expect(open.job.entries).toEqual({ raise: { typed: '2', system: 'inch-pound', from: 'person' } });
	open.type('raise', '4');
	expect(drop()).toBeCloseTo(2, 12);
});

test('another job is opened as one step, and one step brings the one before again', () => {
	const job = begun();
	job.type('raise', '3');
	const before = job.job;
	job.startBlank();
	expect(job.reading('raise').standing).toBe('assumed');
	job.stepBack();
	expect(job.job.id).toBe(before.id);
	expect(inches(job, 'raise')).toBeCloseTo(3, 12);
	job.stepBack();
	expect(inches(job, 'raise')).toBeCloseTo(4.5, 12);
});

describe('an option', () => {
	test('becomes the plan as one step, stock where it says nothing, and one step takes it back', () => {
		const job = begun();
		const before = job.job;
		job.adoptOption(optionOf(job, 'Shackle').id, set);
		expect(inches(job, 'drop')).toBeCloseTo(-1, 12);
		expect(job.reading('longer').standing).toBe('entered');
		expect(job.reading('raise').standing).toBe('assumed');
		job.stepBack();
		expect(job.job.entries).toEqual(before.entries);
		expect(job.job.options).toEqual(before.options);
		expect(inches(job, 'drop')).toBeCloseTo(4.5, 12);
		job.stepForward();
		expect(inches(job, 'drop')).toBeCloseTo(-1, 12);
	});

	test('that took a scenario’s entry out of the plan lets it be put back', () => {
		const job = begun();
		expect(job.canPutPageBack('one')).toBe(false);
		job.adoptOption(optionOf(job, 'Shackle').id, set);
		expect(job.canPutBack('raise')).toBe(true);
		job.putBack('raise');
		expect(job.reading('raise')).toEqual({
			value: 4.5 * inch,
			understood: '4 1/2 in',
			standing: 'scenario',
		});
		expect(job.canPutBack('raise')).toBe(false);
	});

	test('keeps the amount it was typed with when the units are switched', () => {
		const job = begun();
		const { id } = optionOf(job, 'Hanger');
		job.setSystem('metric');
		expect(inColumn(job, 'Hanger', 'drop')).toBeCloseTo(3, 12);
		const { input } = workbook.graph.byId.get('raise') ?? {};
		const entry = optionOf(job, 'Hanger').entries['raise'];
		if (!input || !entry) throw new Error('no entry of the hanger');
		const reading = readingOf(input, { ...job.job, entries: { raise: entry } });
		expect(fieldText(input, entry, reading, job.system)).toBe('76.2');
		job.adoptOption(id, set);
		expect(inches(job, 'drop')).toBeCloseTo(3, 12);
		job.typeInOption(id, 'raise', '100');
		expect(inColumn(job, 'Hanger', 'drop')).toBeCloseTo(100 / 25.4, 12);
	});

	test('with an entry that cannot be read stands on the one before, also as the plan', () => {
		const job = begun();
		const { id } = optionOf(job, 'Hanger');
		job.typeInOption(id, 'raise', 'three');
		job.typeInOption(id, 'longer', 'two');
		expect(inColumn(job, 'Hanger', 'drop')).toBeCloseTo(3, 12);
		job.adoptOption(id, set);
		expect(inches(job, 'drop')).toBeCloseTo(3, 12);
		expect(job.reading('raise').problem).toContain('3 in stays in force');
		expect(job.job.entries['raise']?.typed).toBe('three');
		expect(job.job.entries['longer']?.typed).toBe('two');
	});

	test('has stock again where its field is emptied', () => {
		const job = begun();
		job.typeInOption(optionOf(job, 'Hanger').id, 'raise', '');
		expect(optionOf(job, 'Hanger').entries).toEqual({});
		expect(inColumn(job, 'Hanger', 'drop')).toBe(0);
		job.stepBack();
		expect(inColumn(job, 'Hanger', 'drop')).toBeCloseTo(3, 12);
	});

	test('that is kept of the plan is the plan, and no two get one name', () => {
		const job = begun();
		for (let time = 0; time < 3; time++) job.addPlanAsOption('Plan kept', set);
		job.type('raise', '1');
		expect(inColumn(job, 'Plan kept', 'drop')).toBeCloseTo(4.5, 12);
		const names = job.job.options?.map(({ name }) => name);
		expect(names).toEqual(['Hanger', 'Shackle', 'Plan kept', 'Plan kept 2', 'Plan kept 3']);
		job.stepBack();
		job.stepBack();
		expect(job.job.options).toHaveLength(4);
	});
});

describe('what an entry is', () => {
	test('readings that a page gives are measured as they are, in either system', () => {
		for (const system of ['inch-pound', 'metric'] as const) {
			const job = begun();
			job.setSystem(system);
			const before = job.reading('read').value as number[];
			job.setMeasured('read', true);
			expect(job.reading('read')).toMatchObject({ standing: 'entered' });
			expect(job.reading('read').problem).toBeUndefined();
			const now = job.reading('read').value as number[];
			expect(now).toHaveLength(before.length);
			now.forEach((value, index) => expect(value).toBeCloseTo(before[index] ?? NaN, 9));
			job.setMeasured('read', false);
			expect(job.reading('read').standing).toBe('assumed');
		}
	});

	test('nothing entered can not be measured', () => {
		const job = begun(blankJob(workbook, 'metric', new Date('2026-11-25')));
		job.setMeasured('span', true);
		expect(job.job.entries).toEqual({});
	});

	test('a job from before its scenario had an entry can take it over', () => {
		const { options: _none, ...old } = told();
		const { span: _new, ...entries } = old.entries;
		const job = begun({ ...old, entries });
		expect(job.reading('span').standing).toBe('missing');
		job.putPageBack('one');
		expect(inches(job, 'whole')).toBeCloseTo(64.5, 12);
		expect(job.canPutPageBack('one')).toBe(false);
		job.addOption('Option', { raise: '2' });
		expect(inColumn(job, 'Option', 'drop')).toBeCloseTo(2, 12);
	});

	test('a job from a scenario that is gone keeps its entries, and putting back clears', () => {
		const job = begun({ ...told(), scenario: 'gone' });
		expect(job.scenario).toBeUndefined();
		expect(inches(job, 'whole')).toBeCloseTo(64.5, 12);
		job.putBack('raise');
		expect(job.reading('raise').standing).toBe('assumed');
	});
});

describe('the ±', () => {
	const sizes = (job: OpenJob): (number | undefined)[] =>
		['drop', 'whole', 'half'].map((name) => {
			const size = job.plusMinus[workbook.graph.byId.get(name)?.slot ?? -1]?.size;
			return size === undefined ? undefined : size / inch;
		});
	const [drop, whole] = [1 / 8, Math.hypot(1 / 8, 1 / 8)];
	const close = (value: number): number => expect.closeTo(value, 9) as number;

	test('is there for the sheet in front and the standing figures', () => {
		const job = begun();
		expect(sizes(job)).toEqual([close(drop), undefined, undefined]);
		job.page = 'one';
		expect(sizes(job)).toEqual([close(drop), close(whole), undefined]);
		job.page = 'two';
		expect(sizes(job)).toEqual([close(drop), undefined, close(whole / 2)]);
	});

	test('waits while a finger moves and keeps the last one; the figures follow at once', () => {
		const job = begun();
		job.page = 'one';
		expect(sizes(job)[0]).toEqual(close(drop));
		job.moving = true;
		job.type('raise', '5 ± 1/2');
		expect(inches(job, 'raise')).toBeCloseTo(5, 12);
		expect(sizes(job)[0]).toEqual(close(drop));
		job.moving = false;
		expect(sizes(job)[0]).toEqual(close(1 / 2));
		// Another job does not get the ± of the one before, however fast it is opened.
		job.moving = true;
		job.open(told());
		expect(sizes(job)[0]).toEqual(close(drop));
	});

	test('goes with the entry it belongs to', () => {
		const job = begun();
		job.page = 'one';
		job.type('raise', '0');
		// A part that is stock is not measured.
		expect(sizes(job)).toEqual([0, close(1 / 8), undefined]);
	});
});

describe('a field that is read off a dial', () => {
	const slope = (job: OpenJob): number => (job.reading('nose').value as number) * (180 / Math.PI);

	test('takes what is offered as the dial would show it, and a step as the slope it is', () => {
		const job = begun();
		job.setGauge({ onWall: 90, turned: false });
		job.type('nose', '4');
		const [offer] = job.reading('nose').offers ?? [];
		job.type('nose', offer?.text ?? '', 'offered');
		expect(job.job.entries['nose']?.typed).toBe('90 - 4');
		expect(slope(job)).toBeCloseTo(4, 9);
		job.type('nose', '4.1', 'stepped');
		expect(slope(job)).toBeCloseTo(4.1, 9);
	});
});
