/** What to measure next, as a person is told. */
import { expect, test } from 'vitest';
import { checksOf } from '../../src/lib/engine/checks.ts';
import { figuresLookedAt, nextInWords } from '../../src/lib/answers/next-reading.ts';
import { runAll } from '../../src/lib/engine/run.ts';
import { blankJob, jobFromScenario, type Job } from '../../src/lib/job/job.ts';
import { inputsOf, nextEntry, readingsOf } from '../../src/lib/job/reading.ts';
import { shipped } from '../language/shipped.ts';
import { inputCell, smallWorkbook } from '../language/small-workbook.ts';

const { graph, quantities, errands } = shipped;

function next(job: Job, names: readonly string[]) {
	const readings = readingsOf(graph, job);
	const run = runAll(graph, inputsOf(readings));
	const figures = { graph, quantities, system: job.system, run };
	return nextInWords(names, figures, (name) => readings.get(name) ?? { standing: 'missing' });
}

function typed(job: Job, sets: Readonly<Record<string, string>>): Job {
	const entries = { ...job.entries };
	for (const [name, text] of Object.entries(sets)) {
		const input = graph.byId.get(name)?.input;
		if (input) entries[name] = nextEntry(input, undefined, text, job.system);
	}
	return { ...job, entries };
}

const blank = blankJob(shipped, 'inch-pound', new Date(0));
const slopes = { trans_slope: '5', shaft_slope: '7', pinion_slope: '4' };
const answerOf = (errand: string): readonly string[] =>
	errands.find(({ id }) => id === errand)?.answer ?? [];

test('three slopes read once: one of them again, and it says what comes of it', () => {
	const found = next(typed(blank, slopes), answerOf('joints'));
	expect(found.map(({ name }) => name).sort()).toEqual(Object.keys(slopes).sort());
	// The shaft is in both joints. √(½² + ½²) becomes √(½² + ¼²).
	expect(found[0]).toMatchObject({
		name: 'shaft_slope',
		how: 'Measure again, both ways round',
	});
	expect(found[0]?.then).toMatch(/joint.*: ± 0\.71° becomes ± 0\.56°$/);
	expect(found[0]?.where).toContain('from under the truck');
});

test('what was read finely need not be read again', () => {
	const fine = typed(blank, { ...slopes, shaft_slope: '7 ± 0.25' });
	expect(next(fine, answerOf('joints')).map(({ name }) => name)).not.toContain('shaft_slope');
	const coarse = typed(blank, { ...slopes, pinion_slope: '4 ± 2' });
	const [first] = next(coarse, answerOf('joints'));
	expect(first).toMatchObject({ name: 'pinion_slope' });
	expect(first?.then).toMatch(/± 2\.06° becomes ± 0\.71°$/);
});

test('what nobody has read comes before what was read, and is not read “again”', () => {
	const [first] = next(typed(blank, { ...slopes, eye_raise: '4' }), ['rear_drop']);
	expect(first?.how).toBe('Measure next');
	expect(graph.byId.get(first?.name ?? '')?.input?.part).toBe(false);
	const known = ['leaf_front', 'leaf_rear', 'shackle_length'];
	expect(known).toContain(first?.name);
});

test('a stock reading that has been read after is not asked for again', () => {
	for (const scenario of shipped.scenarios) {
		const job = jobFromScenario(shipped, scenario, new Date(0));
		const names = next(job, ['pinion_turn_off', 'rear_joint_off_signed']).map(({ name }) => name);
		for (const gone of [...Object.keys(slopes), 'shaft_length', 'rear_height']) {
			expect(names).not.toContain(gone);
		}
	}
});

test('where the truck has to go on stands, it is said', () => {
	const job = typed(blank, {
		...slopes,
		shaft_length: '58',
		slip_room: '1',
		bump_travel: '3 ± 1/4',
	});
	const droop = next(job, ['slip_engaged_least', 'rear_joint_droop']).find(
		({ name }) => name === 'droop_travel',
	);
	expect(droop?.where).toBe('The truck goes on stands for it.');
});

test('a check looks at the figures of its conditions', () => {
	const checks = checksOf(shipped).filter(({ name }) => name === 'rear_height_found');
	expect(figuresLookedAt(graph, checks)).toEqual(['rear_lip_off', 'load_not_counted']);
});

test('a second reading is finer than the first, or a mistake of the page', () => {
	const { problems } = smallWorkbook({
		one: inputCell('a', 'length', 'plus_minus: 1/8 in', 'again: 1/4 in'),
	});
	expect(problems.map(({ message }) => message)).toEqual([
		'“again” is what is left of “plus_minus”; it is more than nought, and less.',
	]);
});
