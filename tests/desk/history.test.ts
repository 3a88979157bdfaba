/** Steps back and forward, as plain data. */
import { expect, test } from 'vitest';
import { blankJob, type Job } from '../../src/lib/job/job.ts';
import {
	goesOn,
	noHistory,
	stepped,
	withFieldLeft,
	withStep,
	type History,
} from '../../src/lib/desk/history.ts';
import { smallWorkbook } from '../language/small-workbook.ts';

const blank = blankJob(smallWorkbook({ one: '' }), 'metric', new Date('2026-11-25'));
const state = (id: string): Job => ({ ...blank, id });

function back(history: History, now: Job) {
	const step = stepped(history, now, 'back');
	if (!step) throw new Error('There is no step back.');
	return step;
}

test('keystrokes in one field are one step; leaving it, or another field, begins the next', () => {
	let history = withStep(noHistory, state('0'), 'typed a');
	expect(goesOn(history, 'typed a')).toBe(true);
	history = withStep(history, state('1'), 'typed a');
	expect(history.past).toHaveLength(1);
	history = withStep(withFieldLeft(history), state('2'), 'typed a');
	history = withStep(history, state('3'), 'typed b');
	expect(history.past.map(({ job }) => job.id)).toEqual(['0', '2', '3']);
	const first = back(history, state('4'));
	expect(first.job.id).toBe('3');
	expect(back(first.history, first.job).job.id).toBe('2');
});

test('a step back is undone by one forward, and a change after it ends what lay ahead', () => {
	const history = withStep(noHistory, state('0'), 'typed a');
	const was = back(history, state('1'));
	expect(was.job.id).toBe('0');
	expect(stepped(was.history, was.job, 'forward')?.job.id).toBe('1');
	// Typing in the same field after a step back is a step of its own.
	expect(goesOn(was.history, 'typed a')).toBe(false);
	const on = withStep(was.history, was.job, 'typed a');
	expect(stepped(on, state('2'), 'forward')).toBeUndefined();
	expect(stepped(noHistory, state('0'), 'back')).toBeUndefined();
});

test('the last two hundred steps are kept', () => {
	let history = noHistory;
	for (let n = 0; n < 250; n++) history = withStep(history, state(String(n)), `typed ${n}`);
	expect(history.past).toHaveLength(200);
	expect(history.past.at(-1)?.job.id).toBe('249');
});
