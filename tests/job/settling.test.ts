/** The first reading after a job settles what was fitted; nothing else does, and nothing else is settled. */
import { expect, test } from 'vitest';
import { blankJob, type Job } from '../../src/lib/job/job.ts';
import { inputsOf, nextEntry, readingsOf } from '../../src/lib/job/reading.ts';
import { settledBy } from '../../src/lib/job/settling.ts';
import { runAll } from '../../src/lib/engine/run.ts';
import type { UnitSystem } from '../../src/lib/units/quantities.ts';
import { fence, inputCell, smallWorkbook } from '../language/small-workbook.ts';

const { graph, ...workbook } = smallWorkbook({
	one: [
		inputCell('height', 'length', 'plus_minus: 1/8 in'),
		inputCell('seat', 'length', 'default: 3 in'),
		inputCell('raise', 'length', 'part: true', 'default: 0 in'),
		inputCell('longer', 'length', 'part: true', 'default: 1/2 in'),
		inputCell('thick', 'length', 'part: true', 'starts_as: thick_worked_out'),
		inputCell('seat_after', 'length', 'part: true', 'starts_as: seat'),
		inputCell('raise_fitted', 'length', 'part: true', 'starts_as: raise'),
		inputCell('longer_fitted', 'length', 'part: true', 'starts_as: longer'),
		inputCell('thick_fitted', 'length', 'part: true', 'starts_as: thick_fitted_worked_out'),
		inputCell(
			'height_after',
			'length',
			'plus_minus: 1/8 in',
			'repeat: 1/16 in',
			'same_face_as: height',
		),
		inputCell(
			'height_again',
			'length',
			'plus_minus: 1/8 in',
			'repeat: 1/16 in',
			'same_face_as: height',
		),
		fence(
			'derive',
			'thick_worked_out = raise / 10  # Thick',
			'thick_fitted_worked_out = raise_fitted / 10  # Thick, fitted',
		),
	].join('\n'),
});

function job(typed: Readonly<Record<string, string>>, system: UnitSystem = 'inch-pound'): Job {
	let made = blankJob({ ...workbook, graph }, system, new Date(0));
	for (const [name, text] of Object.entries(typed)) {
		const input = graph.byId.get(name)?.input;
		if (!input) throw new Error(`No input “${name}”.`);
		const entry = nextEntry(input, made.entries[name], text, system);
		made = { ...made, entries: { ...made.entries, [name]: entry } };
	}
	return made;
}

function settled(of: Job, name: string): Record<string, string> {
	const run = runAll(graph, inputsOf(readingsOf(graph, of)));
	const entries = settledBy(graph, of, name, (slot) => run.value(slot));
	for (const { from } of Object.values(entries)) expect(from).toBe('person');
	return Object.fromEntries(Object.entries(entries).map(([id, { typed }]) => [id, typed]));
}

test('every part fitted gets what was planned for it: as typed, else the value in force', () => {
	expect(settled(job({ raise: '4 1/2 ± 1/16' }), 'height_after')).toEqual({
		raise_fitted: '4 1/2 ± 1/16',
		longer_fitted: '1/2',
		thick_fitted: '0.45',
	});
});

test('in the units they were typed in, and what has an entry keeps it', () => {
	const planned = job({ raise: '100', longer_fitted: '5' }, 'metric');
	const run = runAll(graph, inputsOf(readingsOf(graph, planned)));
	const switched = { ...planned, system: 'inch-pound' } as const;
	const entries = settledBy(graph, switched, 'height_after', (slot) => run.value(slot));
	expect(entries['raise_fitted']).toEqual({ typed: '100', system: 'metric', from: 'person' });
	expect(entries['thick_fitted']?.system).toBe('inch-pound');
	expect(entries['longer_fitted']).toBeUndefined();
});

test('what cannot be read leaves the one before it in force', () => {
	const half = nextEntryOver(job({ raise: '2' }), 'raise', '2x');
	expect(settled(half, 'height_after')['raise_fitted']).toBe('2');
});

test('only the first reading after the job does, and no other entry', () => {
	expect(settled(job({}), 'height')).toEqual({});
	expect(settled(job({}), 'raise')).toEqual({});
	expect(settled(job({ height_again: '30' }), 'height_after')).toEqual({});
	expect(settled(job({ height_after: '30' }), 'height_after')).toEqual({});
});

function nextEntryOver(of: Job, name: string, text: string): Job {
	const input = graph.byId.get(name)?.input;
	if (!input) throw new Error(`No input “${name}”.`);
	const entry = nextEntry(input, of.entries[name], text, of.system);
	return { ...of, entries: { ...of.entries, [name]: entry } };
}
