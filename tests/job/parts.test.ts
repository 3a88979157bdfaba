/** Parts of a job: taken apart and put together, and two windows' work on it made one. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { canonicalJson } from '../../src/lib/job/canonical.ts';
import * as edits from '../../src/lib/job/edits.ts';
import type { Entry, Job } from '../../src/lib/job/job.ts';
import { changesBetween, merged, partsOf, withParts } from '../../src/lib/job/parts.ts';

const typed = (text: string): Entry => ({ typed: text, system: 'metric', from: 'person' });
const job: Job = {
	id: 'a',
	workbook: 'small',
	system: 'metric',
	block: { title: 'T', owner: '', number: '', madeBy: '', checkedBy: '', date: '2026-11-25' },
	entries: { raise: typed('3'), span: typed('60') },
	options: [
		{ id: '1', name: 'Kit', entries: { raise: typed('1') } },
		{ id: '2', name: 'Kit 2', entries: { longer: typed('2') } },
	],
	pages: [{ id: 'mine', text: 'one' }],
	changed: '2026-11-25T00:00:00.000Z',
};
const names = ['raise', 'span', 'longer', '__proto__', 'constructor', 'a/b'];

/** Anything that may be done to a job, as edits one after the other. */
const edit: fc.Arbitrary<(job: Job) => Job> = fc.oneof(
	fc.tuple(fc.constantFrom(...names), fc.string({ maxLength: 4 })).map(
		([name, text]) =>
			(of: Job) =>
				edits.withEntry(of, name, typed(text)),
	),
	fc.constantFrom(...names).map((name) => (of: Job) => edits.withEntriesOf(of, [name], {})),
	fc.tuple(fc.constantFrom('title', 'owner'), fc.string({ maxLength: 4 })).map(
		([field, text]) =>
			(of: Job) =>
				edits.withBlock(of, field as 'title', text),
	),
	fc.constant((of: Job) => edits.withOption(of, 'Kit', { raise: typed('9') })),
	fc.nat(5).map((at) => (of: Job) => edits.withoutOption(of, idAt(of, at))),
	fc.tuple(fc.nat(5), fc.constantFrom(-1 as const, 1 as const)).map(
		([at, by]) =>
			(of: Job) =>
				edits.withOptionMoved(of, idAt(of, at), by),
	),
	fc.tuple(fc.nat(5), fc.constantFrom(...names), fc.string({ maxLength: 3 })).map(
		([at, name, text]) =>
			(of: Job) =>
				edits.withOptionEntry(of, idAt(of, at), name, text ? typed(text) : undefined),
	),
	fc.nat(5).map((at) => (of: Job) => edits.withOptionNamed(of, idAt(of, at), 'named')),
	fc.string({ maxLength: 3 }).map((text) => (of: Job) => edits.withPage(of, 'mine', text)),
	fc.constant((of: Job) => edits.withPage(of, 'other', 'text')),
	fc.constant((of: Job) => edits.withoutPage(of, 'mine')),
	fc
		.constantFrom('metric' as const, 'inch-pound' as const)
		.map((system) => (of: Job) => edits.withSystem(of, system)),
	fc.constant((of: Job) => edits.withGauge(of, { onWall: 90, turned: false })),
);

function idAt(of: Job, at: number): string {
	return edits.optionsOf(of)[at % Math.max(1, edits.optionsOf(of).length)]?.id ?? 'none';
}

const work = fc.array(edit, { maxLength: 8 });
const after = (of: Job, all: readonly ((job: Job) => Job)[]): Job =>
	all.reduce((now, each) => each(now), of);

/** All that makes a job, whatever the order in which its entries came. */
const whole = (of: Job): string => {
	const { changed: _changed, options, pages, ...rest } = of;
	return canonicalJson({ ...rest, options: options ?? [], pages: pages ?? [] });
};
const valuesOf = (changes: ReadonlyMap<string, readonly [unknown, unknown]>, which: 0 | 1) =>
	new Map([...changes].map(([part, both]): [string, unknown] => [part, both[which]]));

test('the changes between two states lead from the one to the other and back', () => {
	fc.assert(
		fc.property(work, work, (first, second) => {
			const before = after(job, first);
			const now = after(before, second);
			const changes = changesBetween(before, now);
			expect(whole(withParts(before, valuesOf(changes, 1)))).toBe(whole(now));
			expect(whole(withParts(now, valuesOf(changes, 0)))).toBe(whole(before));
		}),
		{ numRuns: 400 },
	);
});

test('what did not change stays the same object', () => {
	const now = withParts(job, new Map([['entry/raise', typed('4')]]));
	expect(now.entries['span']).toBe(job.entries['span']);
	expect(now.options).toBe(job.options);
	expect(now.pages).toBe(job.pages);
	expect(merged(job, now, job)).toBe(now);
	expect(merged(job, now, structuredClone(job))).toBe(now);
});

describe('two windows', () => {
	test('that changed different parts lose nothing, and nobody is asked', () => {
		const mine = edits.withOption(edits.withEntry(job, 'raise', typed('4')), 'Mine', {});
		const theirs = edits.withOption(edits.withBlock(job, 'title', 'U'), 'Theirs', {});
		const both = merged(job, mine, theirs);
		expect(both.entries['raise']?.typed).toBe('4');
		expect(both.block.title).toBe('U');
		expect(both.options?.map(({ name }) => name).sort()).toEqual([
			'Kit',
			'Kit 2',
			'Mine',
			'Theirs',
		]);
		expect(both.clashes).toBeUndefined();
	});

	test('that changed one part both have both values', () => {
		const mine = edits.withEntry(job, 'raise', typed('4'));
		const theirs = edits.withEntriesOf(edits.withEntry(job, 'span', typed('61')), ['raise'], {});
		const both = merged(job, mine, theirs);
		expect(both.entries).toEqual({ raise: typed('4'), span: typed('61') });
		expect(both.clashes).toEqual([{ part: 'entry/raise' }]);
		const other = merged(job, theirs, mine);
		expect(other.clashes).toEqual([{ part: 'entry/raise', value: typed('4') }]);
		// The same typed in both is no question.
		expect(merged(job, mine, edits.withEntry(job, 'raise', typed('4'))).clashes).toBeUndefined();
	});

	test('of which one threw an option away that the other worked on keep it', () => {
		const gone = edits.withoutOption(job, '1');
		const worked = edits.withOptionEntry(job, '1', 'longer', typed('7'));
		for (const both of [merged(job, gone, worked), merged(job, worked, gone)]) {
			expect(both.options?.find(({ id }) => id === '1')).toEqual({
				id: '1',
				name: 'Kit',
				entries: { raise: typed('1'), longer: typed('7') },
			});
			expect(both.clashes).toBeUndefined();
		}
	});

	test('every part that either changed is in the whole, as a part or as a clash', () => {
		fc.assert(
			fc.property(work, work, (first, second) => {
				const [mine, theirs] = [after(job, first), after(job, second)];
				const both = merged(job, mine, theirs);
				const parts = partsOf(both);
				const asked = new Set(both.clashes?.map((clash) => canonicalJson(clash)));
				for (const [part, [, value]] of changesBetween(job, theirs)) {
					if (part === 'options' || part === 'pages') continue;
					const clash = canonicalJson({ part, value });
					const stands = canonicalJson(parts.get(part)) === canonicalJson(value);
					const kept = value === undefined && part.startsWith('option/');
					expect(stands || asked.has(clash) || kept, part).toBe(true);
				}
				for (const [part, [, value]] of changesBetween(job, mine)) {
					if (part === 'options' || part === 'pages') continue;
					if (value === undefined && part.startsWith('option/')) continue;
					expect(canonicalJson(parts.get(part)), part).toBe(canonicalJson(value));
				}
				expect(Object.getPrototypeOf(both.entries)).toBe(Object.prototype);
			}),
			{ numRuns: 400 },
		);
	});
});

test('canonical JSON is as RFC 8785 has it', () => {
	// Section 3.2.3: sorted by UTF-16 code units, not by code points.
	const sorted = {
		'€': 'Euro Sign',
		'\r': 'Carriage Return',
		'\ufb33': 'Hebrew Letter Dalet With Dagesh',
		'1': 'One',
		'😀': 'Emoji: Grinning Face',
		'\u0080': 'Control',
		ö: 'Latin Small Letter O With Diaeresis',
	};
	expect(canonicalJson(sorted)).toBe(
		'{"\\r":"Carriage Return","1":"One","\u0080":"Control","ö":"Latin Small Letter O With Diaeresis","€":"Euro Sign","😀":"Emoji: Grinning Face","\ufb33":"Hebrew Letter Dalet With Dagesh"}',
	);
	// Section 3.2.2: numbers, literals and escapes.
	const sample = {
		numbers: [
			JSON.parse('333333333.33333329') as number,
			1e30,
			4.5,
			2e-3,
			0.000000000000000000000000001,
		],
		string: '\u20ac$\u000F\u000aA\'\u0042\u0022\u005c\\"/',
		literals: [null, true, false],
	};
	expect(canonicalJson(sample)).toBe(
		'{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}',
	);
});
