/** A job in a link: there and back, and whatever else may come in one. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { canonicalJson } from '../../src/lib/job/canonical.ts';
import { withBlock, withEntry, withOption, withOptionMoved } from '../../src/lib/job/edits.ts';
import { blankJob, jobFromScenario, type Job } from '../../src/lib/job/job.ts';
import { jobAsLink, jobFromLink, linkStart } from '../../src/lib/job/link.ts';
import { shipped } from '../language/shipped.ts';

const now = new Date('2026-11-25');
const jobs: readonly Job[] = [
	blankJob(shipped, 'metric', now),
	...shipped.scenarios.map((scenario) => jobFromScenario(shipped, scenario, now)),
];
/** All of a job but ids, which are of the place. */
const whole = ({ options, ...job }: Job): string =>
	canonicalJson({ ...job, id: '', options: options?.map((each) => ({ ...each, id: '' })) });

async function thereAndBack(job: Job): Promise<Job> {
	const found = await jobFromLink(await jobAsLink(job, shipped), shipped);
	if ('problem' in found) throw new Error(found.problem);
	return found.job;
}

describe('a job in a link', () => {
	test('is the same job, as a job of its own', async () => {
		for (const job of jobs) {
			const [first] = job.options ?? [];
			const more = [
				job,
				withOption(withBlock(job, 'title', 'Größer 🛻'), 'Kit', {}),
				...(first ? [withOptionMoved(job, first.id, 1)] : []),
				{ ...job, workbookHash: 'abc', more: { than: ['is', null] }, none: null } as Job,
			];
			for (const each of more) {
				const back = await thereAndBack(each);
				expect(whole(back)).toBe(whole(each));
				expect(back.id).not.toBe(each.id);
			}
		}
	});

	test('of whatever is typed', async () => {
		await fc.assert(
			fc.asyncProperty(
				fc.constantFrom(...jobs),
				fc.dictionary(fc.string(), fc.string(), { maxKeys: 5 }),
				async (job, typed) => {
					const edited = Object.entries(typed).reduce(
						(of, [name, text]) =>
							withEntry(of, name, { typed: text, system: 'metric', from: 'person' }),
						job,
					);
					expect(whole(await thereAndBack(edited))).toBe(whole(edited));
				},
			),
			{ numRuns: 60 },
		);
	});

	test('is short where it began from a scenario, and holds nothing an address cannot', async () => {
		const [, job] = jobs;
		if (!job) throw new Error('no scenario');
		const changed = withEntry(job, 'eye_raise', {
			typed: '3 1/2',
			system: 'inch-pound',
			from: 'person',
		});
		const link = await jobAsLink(changed, shipped);
		expect(link).toMatch(/^job=1\.[\w-]+$/);
		expect(link.length).toBeLessThan(
			(await jobAsLink({ ...changed, scenario: 'none' }, shipped)).length / 3,
		);
	});
});

describe('a link that holds no job', () => {
	test('is answered with a sentence, whatever was done to it', async () => {
		const [, job] = jobs;
		if (!job) throw new Error('no scenario');
		const link = await jobAsLink(job, shipped);
		const bad = [linkStart, `${linkStart}!`, 'job=9.abc', link.slice(0, -9)];
		for (const each of bad) expect(await jobFromLink(each, shipped)).toHaveProperty('problem');
		await fc.assert(
			fc.asyncProperty(fc.nat(link.length - 1), fc.constantFrom(...'aZ0-_'), async (at, letter) => {
				const found = await jobFromLink(link.slice(0, at) + letter + link.slice(at + 1), shipped);
				// The same letter, or bits behind the end: what opens is the job.
				if ('problem' in found) expect(found.problem).toMatch(/^This link .*\.$/);
				else expect(whole(found.job)).toBe(whole(job));
			}),
			{ numRuns: 300 },
		);
	});

	test('is not expanded without end', async () => {
		const zeros = new Blob([new Uint8Array(50_000_000)]);
		const stream = zeros.stream().pipeThrough(new CompressionStream('deflate-raw'));
		const bytes = Buffer.from(await new Response(stream).arrayBuffer());
		expect(bytes.length).toBeLessThan(100_000);
		const found = await jobFromLink(linkStart + bytes.toString('base64url'), shipped);
		expect('problem' in found && found.problem).toContain('breaks off');
	});

	test('or the difference to an example that is another now, is refused', async () => {
		const [, job] = jobs;
		if (!job) throw new Error('no scenario');
		const link = await jobAsLink(job, shipped);
		const [first, ...rest] = shipped.scenarios;
		if (!first) throw new Error('no scenario');
		const changed = { ...shipped, scenarios: [{ ...first, values: { wheelbase: '1' } }, ...rest] };
		const found = await jobFromLink(link, changed);
		expect('problem' in found && found.problem).toContain('has otherwise');
	});
});
