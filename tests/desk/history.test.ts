/** Steps back and forward, as plain data: what a step changed, and nothing else, is taken back. */
import { describe, expect, test } from 'vitest';
import {
	goesOn,
	historyFrom,
	noHistory,
	opening,
	stepped,
	stepsToKeep,
	withFieldLeft,
	withReturnTo,
	withStep,
	type History,
	type KeptStep,
} from '../../src/lib/desk/history.ts';
import { stepInWords } from '../../src/lib/desk/part-words.ts';
import { withBlock, withEntry, withOption, withoutOption } from '../../src/lib/job/edits.ts';
import { blankJob, type Job } from '../../src/lib/job/job.ts';
import { inputCell, smallWorkbook } from '../language/small-workbook.ts';

const workbook = smallWorkbook({ one: inputCell('a', 'length') + inputCell('b', 'length') });
const blank = blankJob(workbook, 'metric', new Date('2026-11-25'));
const entered = (job: Job, name: string, typed: string): Job =>
	withEntry(job, name, { typed, system: 'metric', from: 'person' });
const typedIn = (job: Job, name: string): string | undefined => job.entries[name]?.typed;

/** A job and how it came to be. */
class Desk {
	job = blank;
	history: History = noHistory;

	type(name: string, typed: string): this {
		return this.change(entered(this.job, name, typed), `typed ${name}`);
	}
	change(job: Job, field: string): this {
		this.history = withStep(this.history, this.job, job, field);
		this.job = job;
		return this;
	}
	leave(): this {
		this.history = withFieldLeft(this.history);
		return this;
	}
	step(way: 'back' | 'forward'): boolean {
		const taken = stepped(this.history, this.job, way);
		if (!taken) return false;
		({ history: this.history, job: this.job } = taken);
		return true;
	}
}

test('keystrokes in one field are one step; leaving it, or another field, begins the next', () => {
	const desk = new Desk().type('a', '1');
	expect(goesOn(desk.history, 'typed a')).toBe(true);
	desk.type('a', '11').leave().type('a', '2').type('b', '3');
	expect(desk.history.past).toHaveLength(3);
	const seen: (string | undefined)[][] = [];
	while (desk.step('back')) seen.push([typedIn(desk.job, 'a'), typedIn(desk.job, 'b')]);
	expect(seen).toEqual([
		['2', undefined],
		['11', undefined],
		[undefined, undefined],
	]);
	while (desk.step('forward'));
	expect(typedIn(desk.job, 'a')).toBe('2');
	expect(typedIn(desk.job, 'b')).toBe('3');
});

test('a change after a step back ends what lay ahead, and is a step of its own', () => {
	const desk = new Desk().type('a', '1');
	expect(desk.step('back')).toBe(true);
	expect(goesOn(desk.history, 'typed a')).toBe(false);
	desk.type('a', '2');
	expect(desk.step('forward')).toBe(false);
	expect(desk.step('back')).toBe(true);
	expect(desk.step('back')).toBe(false);
});

test('what another window wrote since is left alone, and all else of the step is taken back', () => {
	const both = entered(entered(blank, 'a', '1'), 'b', '2');
	const desk = new Desk().change(both, 'adopt option x');
	desk.job = entered(entered(desk.job, 'b', '9'), 'c', '5');
	expect(desk.step('back')).toBe(true);
	expect(desk.job.entries).toEqual(entered(entered(blank, 'b', '9'), 'c', '5').entries);
	expect(desk.step('forward')).toBe(true);
	expect(typedIn(desk.job, 'a')).toBe('1');
	expect(typedIn(desk.job, 'b')).toBe('9');
	// Nothing stands any more of the next: it is passed over for the one before.
	const other = new Desk().type('a', '1').type('b', '2');
	other.job = entered(other.job, 'b', '9');
	expect(other.step('back')).toBe(true);
	expect(typedIn(other.job, 'a')).toBeUndefined();
	expect(typedIn(other.job, 'b')).toBe('9');
});

test('an option thrown away comes back whole and in its place', () => {
	const kits = ['one', 'two', 'three'].reduce((job, name) => withOption(job, name, {}), blank);
	const desk = new Desk();
	desk.job = entered(kits, 'a', '1');
	const id = kits.options?.[1]?.id ?? '';
	desk.change(withoutOption(desk.job, id), `drop option ${id}`);
	expect(desk.step('back')).toBe(true);
	expect(desk.job.options).toEqual(kits.options);
});

test('ten thousand steps are kept', () => {
	const desk = new Desk();
	for (let n = 0; n < 10_010; n++) {
		desk.history = withStep(desk.history, desk.job, desk.job, `typed ${n}`);
	}
	expect(desk.history.past).toHaveLength(10_000);
	expect(desk.history.past.at(-1)?.field).toBe('typed 10009');
});

test('opening another job is a step, and from there one leads forward again', () => {
	const history = opening('before');
	const back = stepped(history, blank, 'back');
	expect(back?.step.other).toBe('before');
	expect(back?.history).toBe(history);
	if (!back) throw new Error('no step');
	const there = withReturnTo(noHistory, { step: back.step, job: 'after' });
	const forward = stepped(there, blank, 'forward');
	expect(forward?.step.other).toBe('after');
	expect(forward?.history.future).toEqual([]);
});

describe('in the browser’s store', () => {
	/** What a store has after each of these histories was kept. */
	function kept(histories: readonly History[]): KeptStep[] {
		const records = new Map<string, KeptStep>();
		histories.reduce((before, now) => {
			const { write, drop } = stepsToKeep('j', before, now);
			for (const { id } of drop) records.delete(id);
			for (const step of write) records.set(step.id, structuredClone(step));
			return now;
		}, noHistory);
		return [...records.values()];
	}

	test('a history comes out as it went in, whenever it was kept, and each time only what is new is written', () => {
		const desk = new Desk();
		const histories: History[] = [];
		const does: (() => unknown)[] = [
			() => desk.type('a', '1'),
			() => desk.type('a', '12'),
			() => desk.type('b', '2'),
			() => desk.step('back'),
			() => desk.step('back'),
			() => desk.step('forward'),
			() => desk.type('b', '7'),
			() => desk.leave().type('b', '8'),
			() => desk.step('back'),
		];
		for (const act of does) {
			act();
			histories.push(desk.history);
			for (const times of [histories, [desk.history]]) {
				const { past, future } = historyFrom(kept(times));
				expect(past).toEqual(desk.history.past);
				expect(future).toEqual(desk.history.future);
			}
		}
		const { past } = desk.history;
		const more = new Desk();
		[more.job, more.history] = [desk.job, desk.history];
		more.type('a', 'more');
		const { write, drop } = stepsToKeep('j', desk.history, more.history);
		expect(write).toHaveLength(1);
		expect(drop).toHaveLength(1);
		expect(past.length).toBeGreaterThan(1);
	});

	test('what is no step is left out', () => {
		const [step] = kept([new Desk().type('a', '1').history]);
		const bad = [null, 7, {}, { ...step, n: 'one' }, { ...step, changes: { a: [1, 2] } }];
		expect(historyFrom([...bad, step]).past).toHaveLength(1);
		expect(historyFrom(bad)).toEqual({ ...noHistory, left: true });
	});
});

test('a step says what it changed, and from what to what', () => {
	const words = (desk: Desk): string => stepInWords(desk.history.past.at(-1), workbook);
	const desk = new Desk().type('a', '125').leave().type('a', '117').type('a', '117 1/2');
	expect(words(desk)).toBe('the a 125 → 117 1/2');
	desk.change(withBlock(desk.job, 'title', 'Mine'), 'block title');
	expect(words(desk)).toBe('title of the job “New job” → “Mine”');
	desk.change(entered(entered(desk.job, 'a', '1'), 'b', '2'), 'adopt option x');
	expect(words(desk)).toBe('the a 117 1/2 → 1, and 1 more');
	expect(stepInWords(undefined, workbook)).toBe('');
	expect(stepInWords(opening('x').past[0], workbook)).toBe('opening of another job');
});
