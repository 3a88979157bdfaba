/** An `explain` cell: what it names has to be there, and what it says of the shipped trucks. */
import { expect, test } from 'vitest';
import { explainedInWords, slotsOfExplain } from '../../src/lib/answers/explained.ts';
import { inputPlusMinus } from '../../src/lib/answers/figures.ts';
import { plusMinusOfAll } from '../../src/lib/engine/plus-minus.ts';
import { runAll } from '../../src/lib/engine/run.ts';
import { jobFromScenario } from '../../src/lib/job/job.ts';
import { inputsOf, nextEntry, readingsOf } from '../../src/lib/job/reading.ts';
import { cellsOf } from '../../src/lib/language/workbook.ts';
import { figures as command } from '../../src/commands/figures-command.ts';
import { shipped } from '../language/shipped.ts';
import { fence, inputCell, placeOf, smallWorkbook } from '../language/small-workbook.ts';

const before = [
	inputCell('planned', 'length', 'default: 5 in'),
	inputCell('read', 'length'),
	inputCell('angle', 'angle', 'default: 1 deg'),
	fence('derive', 'off = read - planned  # Off the plan'),
].join('\n');
const page = (...lines: readonly string[]): string =>
	`${before}\n${fence('explain', 'name: tried', 'title: Tried', ...lines)}`;

test('what it says is kept as it is said', () => {
	const workbook = smallWorkbook({
		one: page(
			'read: [off]',
			'suspects:',
			'  - { label: Part, move: planned, likely: 1 in, look: here }',
			'  - { label: Tape, move: [planned, read], likely: 1/2 in, look: there }',
			'together: [{ label: It, expected: planned, found: read }]',
		),
	});
	expect(workbook.problems).toEqual([]);
	const part = workbook.pages[0]?.parts.at(-1);
	expect(part?.part === 'cell' && part.cell).toMatchObject({
		kind: 'explain',
		read: ['off'],
		suspects: [
			{ label: 'Part', move: ['planned'], likely: 'tried/0', look: 'here' },
			{ label: 'Tape', move: ['planned', 'read'], likely: 'tried/1', look: 'there' },
		],
		together: [{ label: 'It', expected: 'planned', found: 'read' }],
	});
});

test.each<[what: string, lines: string[], says: string, at: string]>([
	[
		'a suspect that is worked out',
		['read: [off]', 'suspects: [{ label: P, move: off, likely: 1 in, look: here }]'],
		'“off” is worked out, not asked for; only an input can be swept.',
		'off, likely',
	],
	[
		'an amount of another kind',
		['read: [off]', 'suspects: [{ label: P, move: planned, likely: 1 deg, look: here }]'],
		'This is an angle, but planned is a length.',
		'1 deg, look',
	],
	[
		'a figure nobody gives',
		['read: [of]', 'suspects: [{ label: P, move: planned, likely: 1 in, look: here }]'],
		'No cell gives “of”. Did you mean “off”?',
		'of]',
	],
])('%s is a mistake', (_, lines, says, at) => {
	const body = page(...lines);
	const { problems } = smallWorkbook({ one: body });
	expect(problems.map(({ message }) => message)).toEqual([says]);
	const [problem] = problems;
	const row = body.split('\n').findIndex((line) => line.includes(at));
	const column = (body.split('\n')[row] ?? '').lastIndexOf(at) + 1;
	expect(problem && placeOf(problem)).toBe(
		`one | explain tried | ${String(row + 1 + 5)}:${String(column)}`,
	);
});

/** What the bench says of a scenario, with some entries typed over. */
function said(scenario: string, sets: Readonly<Record<string, string>> = {}) {
	const found = shipped.scenarios.find(({ id }) => id === scenario);
	const cell = cellsOf(shipped).find(({ kind }) => kind === 'explain');
	if (!found || cell?.kind !== 'explain') throw new Error('No scenario, or no cell.');
	const { graph, quantities } = shipped;
	const job = jobFromScenario(shipped, found, new Date(0));
	const entries = { ...job.entries };
	for (const [name, typed] of Object.entries(sets)) {
		const input = graph.byId.get(name)?.input;
		if (input) entries[name] = nextEntry(input, undefined, typed, job.system);
	}
	const readings = readingsOf(graph, { ...job, entries });
	const figures = { graph, quantities, system: job.system, run: runAll(graph, inputsOf(readings)) };
	const sizeOf = (node: (typeof graph.nodes)[number]) =>
		inputPlusMinus(node, readings.get(node.id));
	const sure = plusMinusOfAll(graph, figures.run, sizeOf, slotsOfExplain(cell, figures));
	return explainedInWords(cell, figures, sure);
}

test('the truck whose front eyes are one hole low: the hole comes first, and is told', () => {
	const { word, says, causes } = said('hanger-and-shackle');
	expect(word).toBe('told');
	expect(says).toBe('Front eye: this alone explains it.');
	expect(causes[0]).toMatchObject({ label: 'Front eye', may: true });
	expect(causes[0]?.amount).toMatch(/^3\.0\d in ± 0\.1\d in, not 4 in$/);
	expect(causes[0]?.left).toBeLessThan(0.05);
	expect(causes[1]?.left).toBeGreaterThan(0.4);
	expect(causes.slice(1).some(({ may }) => may)).toBe(false);
});

test('with the hole it really is in, and for the other trucks, nothing is needed', () => {
	for (const { word, causes } of [
		said('hanger-and-shackle', { eye_raise_fitted: '3' }),
		...['flip-and-wedge', 'short-frame', 'block-over'].map((scenario) => said(scenario)),
	]) {
		expect(word).toBe('agrees');
		expect(causes).toEqual([]);
	}
});

test('a wedge back to front is told, by twice its angle', () => {
	// As it is entered turned round, the readings are those of one the right way.
	const { word, causes } = said('hanger-and-shackle', {
		eye_raise_fitted: '3',
		wedge_angle_fitted: '3.5',
	});
	expect(word).toBe('told');
	expect(causes[0]?.label).toBe('Wedge');
	expect(causes[0]?.amount).toMatch(/^−3\.[3-7]\d° ± 0\.\d\d°, not 3\.5°$/);
});

test('a left centre pin half an inch ahead of its hole is told by both wheelbases and the shaft', () => {
	// Springs 1080 mm apart and hubs 1520: 12.7 mm at the left spring are 15.3 at the left hub, 2.6 the other way at
	// the right one, and half of it at the pinion.
	const crooked = {
		wheelbase_left_after: String(2986 - 15.3),
		wheelbase_right_after: String(2986 + 2.6),
		shaft_length_after_read: String(1438 - 6.3),
	};
	const { word, causes } = said('block-over', crooked);
	expect(word).toBe('told');
	expect(causes[0]?.label).toBe('Left centre pin');
	expect(causes[0]?.amount).toMatch(/^1[1-4]\.\d mm ± \d\.\d mm, not 0 mm$/);
	// As it is entered so, nothing is wrong.
	expect(said('block-over', { ...crooked, axle_ahead_left_fitted: '12.7' }).word).toBe('agrees');
	// One tape read wrong moves nothing but itself.
	const misread = said('block-over', { wheelbase_left_after: '2971' });
	expect(misread.causes[0]?.label).toBe('Left wheelbase');
});

test('plan and readings together are surer than either', () => {
	const amount = (words: string | undefined): { value: number; plusMinus: number } => {
		const [, value, size] = /^([−\d.]+)° ± ([\d.]+)°$/.exec(words ?? '') ?? [];
		return { value: Number(value?.replace('−', '-')), plusMinus: Number(size) };
	};
	for (const { together } of [said('flip-and-wedge'), said('short-frame'), said('block-over')]) {
		expect(together.length).toBeGreaterThan(0);
		for (const { expected, found, both } of together) {
			const [plan, read, joint] = [expected, found, both].map(amount);
			expect(joint?.plusMinus).toBeLessThan(plan?.plusMinus ?? NaN);
			expect(joint?.plusMinus).toBeLessThan(read?.plusMinus ?? NaN);
		}
	}
});

test('what disagrees and is not explained is not reconciled', () => {
	// A length and a front lip that no one part brings about.
	const { word, together } = said('flip-and-wedge', {
		shaft_length_after_read: '1405',
		front_height_after: '740',
	});
	expect(word).toBe('none');
	for (const { both } of together) expect(both).toBeUndefined();
});

test('the terminal says it too', () => {
	const { out } = command(['hanger-and-shackle']);
	expect(out).toContain('Front eye: this alone explains it.');
	expect(out).toMatch(/ {2}Front eye: 3\.0\d in ± 0\.1\d in, not 4 in; \d % left over\./);
	const json = JSON.parse(command(['hanger-and-shackle', '--json']).out) as {
		explained: { name: string; word: string; causes: { label: string }[] }[];
	};
	expect(json.explained[0]).toMatchObject({ name: 'what_explains', word: 'told' });
	expect(json.explained[0]?.causes[0]?.label).toBe('Front eye');
	// The pinion and all three slopes are open there, and the shaft is in every joint.
	expect(out).toMatch(/\nMeasure again, both ways round: .*± [\d.]+° becomes ± [\d.]+°\./);
});
