/** A job sealed as the record of a day: what is told of it, and that no change of what was sealed passes. */
import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { canonicalJson } from '../../src/lib/job/canonical.ts';
import { withBlock, withEntry, withSystem } from '../../src/lib/job/edits.ts';
import { jobFromScenario, type Job, type Seal } from '../../src/lib/job/job.ts';
import { writeJobFile } from '../../src/lib/job/job-file.ts';
import { jobAsLink, jobFromLink } from '../../src/lib/job/link.ts';
import { merged, partsOf, withParts } from '../../src/lib/job/parts.ts';
import { readJobFile } from '../../src/lib/job/read-job-file.ts';
import {
	brokenInWords,
	jobAsSealed,
	sealedIn,
	sealInBrief,
	sealInWords,
	sealOf,
	shortHash,
	stateOfSeals,
	type SealState,
} from '../../src/lib/job/seal.ts';
import { storedJob } from '../../src/lib/job/shape.ts';
import { shipped } from '../language/shipped.ts';

const runs = Number(process.env['RUNS'] ?? 300);
/** At noon, so that it is the same day wherever the tests run. */
const day = new Date(2026, 10, 28, 12);
const figures = { rear_drop: 0.0615, is_low: true, said: 'so' };
const program = { version: '0.1.0', workbook: 'abc' };

function plainJob(): Job {
	const [scenario] = shipped.scenarios;
	if (!scenario) throw new Error('the workbook has no scenario');
	return jobFromScenario(shipped, scenario, new Date('2026-11-25T08:00:00Z'));
}

async function withSeal(job: Job, on = day): Promise<Job> {
	return { ...job, seals: [...(job.seals ?? []), await sealOf(job, figures, program, on)] };
}

function typed(job: Job, name: string, text: string): Job {
	return withEntry(job, name, { typed: text, system: 'metric', from: 'person' });
}

async function stateOf(job: Job): Promise<SealState> {
	const state = await stateOfSeals(job);
	if (!state) throw new Error('no seal');
	return state;
}

function opened(text: string): Job {
	const read = readJobFile(text, 'x.json', 'lowering');
	if ('problem' in read) throw new Error(read.problem);
	return read.job;
}

const sealsOf = ({ seals = [] }: Job): Seal[] => [...seals];

describe('a sealed job', () => {
	test('carries the SHA-256 of its canonical JSON, as another implementation works it out', async () => {
		const job = plainJob();
		const [seal] = sealsOf(await withSeal(job));
		expect(seal?.hash).toBe(
			createHash('sha256')
				.update(seal?.record ?? '')
				.digest('hex'),
		);
		const { id: _id, ...rest } = job;
		const record = {
			...{ format: 'ride-height-record', revision: 1, date: '2026-11-28' },
			...{ program, job: rest, figures },
		};
		expect(seal?.record).toBe(canonicalJson(record));
		expect(shortHash('0123456789abcdef0123')).toBe('0123 4567 89ab cdef');
	});

	test('says that it is unchanged, and what was changed since, in words that are counted', async () => {
		const job = await withSeal(plainJob());
		expect(sealInWords(await stateOf(job))).toBe('Sealed 28 Nov 2026, unchanged');
		expect(sealInBrief(await stateOf(job))).toBe('sealed 28 Nov 2026');
		const one = typed(job, 'eye_raise', '77');
		expect(sealInWords(await stateOf(one))).toBe('Sealed 28 Nov 2026, changed since: 1 entry');
		expect(sealInBrief(await stateOf(one))).toBe('sealed 28 Nov 2026, changed since');
		const more = withSystem(withBlock(typed(one, 'wheelbase', '3001'), 'owner', 'A'), 'metric');
		expect(sealInWords(await stateOf(more))).toBe(
			'Sealed 28 Nov 2026, changed since: 2 entries, title block, units',
		);
		// What is put back is as it was; when it was changed last, and with which workbook, is no entry.
		const back = { ...job, changed: '2031-01-01', workbookHash: 'other', id: 'elsewhere' };
		expect(sealInWords(await stateOf(back))).toBe('Sealed 28 Nov 2026, unchanged');
	});

	test('keeps earlier seals as they were, with their day, hash and figures, and opens as it was', async () => {
		const first = await withSeal(plainJob());
		const second = await withSeal(typed(first, 'eye_raise', '77'), new Date(2026, 11, 1, 12));
		expect(sealsOf(second)[0]).toEqual(sealsOf(first)[0]);
		const [one, two] = sealsOf(second).map(sealedIn);
		expect(one).toMatchObject({ revision: 1, date: '2026-11-28', figures, program });
		expect(two).toMatchObject({ revision: 2, date: '2026-12-01', before: sealsOf(first)[0]?.hash });
		expect(sealInWords(await stateOf(second))).toBe('Sealed 1 Dec 2026, unchanged');
		const was = jobAsSealed(sealsOf(second), 0, 'new');
		expect(was).toEqual({ ...first, id: 'new' });
	});

	test('tells when an earlier seal was taken out, and when one holds something else', async () => {
		const second = await withSeal(typed(await withSeal(plainJob()), 'eye_raise', '77'));
		const without = { ...second, seals: sealsOf(second).slice(1) };
		expect(sealInWords(await stateOf(without))).toContain('an earlier seal was taken out');
		expect(sealInBrief(await stateOf(without))).toBe('a seal is gone');
		expect(brokenInWords(await stateOf(without))).toMatch(/^Seal 1 names one before it/);
		const [one, two] = sealsOf(second);
		if (!one || !two) throw new Error('no seals');
		const forged = { ...two, record: two.record.replace('"typed":"77"', '"typed":"78"') };
		expect(forged.record).not.toBe(two.record);
		const state = await stateOf({ ...second, seals: [one, forged] });
		expect(state).toMatchObject({ standing: 'broken', broken: [2] });
		expect(brokenInWords(state)).toMatch(/^Seal 2 of this job does not fit what it holds/);
	});

	test('is the same after a file, a link, the store, and two windows that sealed it both', async () => {
		const job = typed(await withSeal(await withSeal(plainJob())), 'eye_raise', '77');
		expect(opened(writeJobFile(job)).seals).toEqual(job.seals);
		const found = await jobFromLink(await jobAsLink(job, shipped), shipped);
		expect('job' in found && found.job.seals).toEqual(job.seals);
		expect(storedJob(structuredClone(job))).toEqual(job);
		expect(withParts({ ...plainJob(), id: job.id }, partsOf(job)).seals).toEqual(job.seals);

		const base = plainJob();
		const [mine, theirs] = [await withSeal(base), await withSeal(typed(base, 'eye_raise', '78'))];
		const both = merged(base, mine, theirs);
		expect(both.clashes).toBeUndefined();
		expect(new Set(both.seals)).toEqual(new Set([...sealsOf(mine), ...sealsOf(theirs)]));
		expect((await stateOf(both)).broken).toEqual([]);
	});

	test('keeps its seals from job to file to job, whatever was typed before it was sealed', async () => {
		await fc.assert(
			fc.asyncProperty(
				fc.dictionary(fc.string(), fc.string({ unit: 'binary' }), { maxKeys: 5 }),
				fc.dictionary(fc.string(), fc.jsonValue(), { maxKeys: 3 }),
				async (entries, later) => {
					const edited = Object.entries(entries).reduce(
						(of, [name, text]) => typed(of, name, text),
						{ ...later, ...plainJob() },
					);
					const job = await withSeal(edited);
					const back = opened(writeJobFile(job));
					expect(back.seals).toEqual(job.seals);
					expect((await stateOf(back)).standing).toBe('unchanged');
				},
			),
			{ numRuns: Math.ceil(Math.min(runs, 4000) / 40) },
		);
	});

	test('of which a byte is another in what was sealed says so, or is refused, or means the same', async () => {
		const job = await withSeal(plainJob());
		const [seal] = sealsOf(job);
		// Without the checksum, which alone would refuse nearly all of it.
		const text = writeJobFile(job).replace(/^\t"checksum".*\n/m, '');
		const good = Buffer.from(text);
		const from = good.indexOf('"seals"');
		const end = good.indexOf(']', good.indexOf('"workbook": "abc"', from));
		expect(from).toBeGreaterThan(0);
		let told = 0;
		await fc.assert(
			fc.asyncProperty(
				fc.integer({ min: from + 12, max: end }),
				fc.integer({ min: 1, max: 255 }),
				async (at, by) => {
					const bytes = Buffer.from(good);
					bytes[at] = (bytes[at] ?? 0) ^ by;
					const read = readJobFile(bytes.toString('utf8'), 'x.json', 'lowering');
					if ('problem' in read) return;
					const state = await stateOfSeals(read.job);
					if (state?.standing === 'broken') told++;
					// White space between fields.
					else expect(read.job.seals).toEqual([seal]);
				},
			),
			{ numRuns: runs },
		);
		expect(told).toBeGreaterThan(runs / 5);
	});
});

const anywhere = fc.noBias(fc.nat());
/** What may become of a file on the way: a byte that is another, a piece that is gone, twice there, or something else. */
const damage = fc.oneof(
	fc.record({ at: anywhere, by: fc.integer({ min: 1, max: 255 }) }),
	fc.record({ at: anywhere, gone: fc.integer({ min: 1, max: 400 }) }),
	fc.record({ at: anywhere, twice: fc.integer({ min: 1, max: 4000 }) }),
	fc.record({
		at: anywhere,
		instead: fc.constantFrom(
			...[
				'null',
				'7',
				'-1e999',
				'[]',
				'{}',
				'""',
				'"seals"',
				'[[[[]]]]',
				'{"__proto__":{"bad":1}}',
			],
			...['{"constructor":{"prototype":{"bad":1}}}', '"\\ud800"', '"a\u0000b"', 'true'],
		),
	}),
);

type Damage = typeof damage extends fc.Arbitrary<infer T> ? T : never;

/** A text with one place of it damaged; a value is put in place of another that begins there or after. */
function damaged(text: string, how: Damage): string {
	const at = how.at % text.length;
	if ('instead' in how) {
		const value = /"(?:[^"\\]|\\.)*"(?!:)|-?\d[\d.e+-]*|true|false|null|\{\}|\[\]/g;
		value.lastIndex = at;
		const found = value.exec(text);
		if (!found) return text;
		return text.slice(0, found.index) + how.instead + text.slice(found.index + found[0].length);
	}
	if ('gone' in how) return text.slice(0, at) + text.slice(at + how.gone);
	if ('twice' in how) return text.slice(0, at + how.twice) + text.slice(at);
	const bytes = Buffer.from(text);
	const place = how.at % bytes.length;
	bytes[place] = (bytes[place] ?? 0) ^ how.by;
	return bytes.toString('utf8');
}

test('a damaged file with seals in it is refused with a sentence, or opens as a job that is the same from file to file', async () => {
	const changed = typed(await withSeal(plainJob()), 'eye_raise', '77');
	const job = { ...(await withSeal(changed)), pages: [{ id: 'mine', text: '# Mine' }] };
	const file = writeJobFile(job, { program, figures });
	// With and without the checksum, which alone would refuse nearly all of it.
	const texts = [file, file.replace(/^\t"checksum".*\n/m, '')];
	const before = Object.getOwnPropertyNames(Object.prototype).join();
	let [opens, tells] = [0, 0];
	await fc.assert(
		fc.asyncProperty(fc.constantFrom(...texts, texts[1] ?? ''), damage, async (text, how) => {
			const read = readJobFile(damaged(text, how), 'x.json', 'lowering');
			if ('problem' in read) {
				expect(read.problem).toMatch(/^“x\.json” .*Nothing was changed/s);
				return;
			}
			opens++;
			const again = opened(writeJobFile(read.job));
			expect({ ...again, id: '' }).toEqual({ ...read.job, id: '' });
			const state = await stateOfSeals(read.job);
			if (state?.standing === 'broken') tells++;
			expect(Object.hasOwn(Object.prototype, 'bad')).toBe(false);
		}),
		{ numRuns: runs },
	);
	expect(Object.getOwnPropertyNames(Object.prototype).join()).toBe(before);
	expect(opens).toBeGreaterThan(runs / 10);
	expect(tells).toBeGreaterThan(runs / 20);
});

describe('what is no seal', () => {
	test('is kept to the letter and told to be broken, and none stands twice', async () => {
		const [good] = sealsOf(await withSeal(plainJob()));
		if (!good) throw new Error('no seal');
		const deep = `${'['.repeat(100_000)}${']'.repeat(100_000)}`;
		for (const record of ['', '{', '7', '[]', '{"b":1,"a":2}', '{"format":"x"}', deep]) {
			const job = { ...plainJob(), seals: [{ hash: 'a', record }] };
			expect(opened(writeJobFile(job)).seals).toEqual(job.seals);
			const state = await stateOf(job);
			expect(state).toMatchObject({ standing: 'broken', broken: [1] });
			expect(sealInWords(state)).toBe('Sealed: the seal is broken');
			expect(sealInBrief(state)).toBe('seal broken');
		}
		const twice = writeJobFile({ ...plainJob(), seals: [good, good] });
		const read = readJobFile(twice, 'x.json', 'lowering');
		expect('problem' in read && read.problem).toContain('(job › seals › 1 › hash)');
	});

	test('a file that lies deep in itself is refused with a sentence', () => {
		const text = writeJobFile(plainJob());
		const deep = `${'{"a":'.repeat(50_000)}1${'}'.repeat(50_000)}`;
		const read = readJobFile(
			text.replace('"job": {', `"job": { "a": ${deep},`),
			'x.json',
			'lowering',
		);
		expect('problem' in read && read.problem).toContain('is not a job of this workbook');
	});
});
