/** What can be done to a job: each edit gives another job and leaves the one before as it was. */
import { describe, expect, test } from 'vitest';
import * as edits from '../../src/lib/job/edits.ts';
import type { Entry, Job } from '../../src/lib/job/job.ts';

const typed = (text: string): Entry => ({ typed: text, system: 'metric', from: 'scenario' });

/** Frozen through and through, so that an edit that writes into it throws. */
function frozen<T>(value: T): T {
	if (typeof value === 'object' && value !== null) Object.values(value).forEach(frozen);
	return Object.freeze(value);
}

const job: Job = frozen({
	id: 'a',
	workbook: 'small',
	system: 'metric',
	block: { title: 'T', owner: '', number: '', madeBy: '', checkedBy: '', date: '2026-11-25' },
	entries: { raise: typed('3'), span: typed('60') },
	options: [
		{ id: '1', name: 'Kit', entries: { raise: typed('1') } },
		{ id: '2', name: 'Kit 2', entries: { longer: typed('2') } },
	],
	changed: '2026-11-25T00:00:00.000Z',
});
const names = (of: Job): string[] => edits.optionsOf(of).map(({ name }) => name);

test('an entry is typed, and some are put back to what another source gives', () => {
	expect(edits.withEntry(job, 'raise', typed('4')).entries).toEqual({
		raise: typed('4'),
		span: typed('60'),
	});
	const others = { raise: typed('9'), longer: typed('8') };
	// Only those named: span goes, for the others have none; longer stays away, for it is not named.
	expect(edits.withEntriesOf(job, ['raise', 'span'], others).entries).toEqual({
		raise: typed('9'),
	});
	expect(edits.planOf(job, ['raise', 'gone'])).toEqual({ raise: typed('3') });
});

describe('options', () => {
	test('no two get one name, and a copy stands behind what it is of', () => {
		expect(names(edits.withOption(job, 'Kit', {}))).toEqual(['Kit', 'Kit 2', 'Kit 3']);
		const copied = edits.withOptionCopied(job, '1');
		expect(names(copied)).toEqual(['Kit', 'Kit, copy', 'Kit 2']);
		expect(edits.optionsOf(copied)[1]?.entries).toEqual({ raise: typed('1') });
	});

	test('are moved within the list and never out of it', () => {
		expect(names(edits.withOptionMoved(job, '2', -1))).toEqual(['Kit 2', 'Kit']);
		expect(edits.withOptionMoved(job, '1', -1)).toBe(job);
		expect(edits.withOptionMoved(job, '2', 1)).toBe(job);
		expect(edits.withOptionMoved(job, 'gone', 1)).toBe(job);
	});

	test('an entry of one is changed, or taken out, and the other option stays the same object', () => {
		const changed = edits.withOptionEntry(job, '1', 'longer', typed('5'));
		expect(edits.optionsOf(changed)[0]?.entries).toEqual({
			raise: typed('1'),
			longer: typed('5'),
		});
		expect(edits.optionsOf(changed)[1]).toBe(edits.optionsOf(job)[1]);
		expect(edits.optionsOf(edits.withOptionEntry(job, '1', 'raise'))[0]?.entries).toEqual({});
		expect(names(edits.withoutOption(job, '1'))).toEqual(['Kit 2']);
	});

	test('one made the plan is the person’s, and what it leaves out is stock', () => {
		expect(edits.withOptionAdopted(job, '2', ['raise', 'longer']).entries).toEqual({
			span: typed('60'),
			longer: { ...typed('2'), from: 'person' },
		});
		expect(edits.withOptionAdopted(job, 'gone', ['raise'])).toBe(job);
	});
});

describe('pages of its own', () => {
	test('are added at the end, written over in place, and taken out', () => {
		const one = edits.withPage(edits.withPage(job, 'a-page', 'x'), 'b', 'y');
		expect(edits.withPage(one, 'a-page', 'z').pages).toEqual([
			{ id: 'a-page', text: 'z' },
			{ id: 'b', text: 'y' },
		]);
		const left = edits.withoutPage(edits.withoutPage(one, 'a-page'), 'b');
		expect(left).toEqual(job);
		expect('pages' in left).toBe(false);
	});

	test.each(['', 'A page', '../x', '9', 'functions', 'ü'])(
		'“%s” cannot be the address of one',
		(id) => {
			expect(() => edits.withPage(job, id, '')).toThrow(RangeError);
		},
	);
});
