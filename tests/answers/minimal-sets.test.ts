/**
 * How little an answer needs: for each, the entries that alone give it, everything else left blank, and no
 * other entry is asked for. Every figure has a ± then, for what is assumed has one.
 */
import { describe, expect, test } from 'vitest';
import { blankJob, type Job } from '../../src/lib/job/job.ts';
import { inputsOf, nextEntry, readingsOf } from '../../src/lib/job/reading.ts';
import { inputPlusMinus } from '../../src/lib/answers/figures.ts';
import { plusMinusOfAll } from '../../src/lib/engine/plus-minus.ts';
import { runAll } from '../../src/lib/engine/run.ts';
import { shipped } from '../language/shipped.ts';

/** Inches and degrees, as typed on a truck that gets a hanger and wedges; parts have what is planned. */
const readings: Readonly<Record<string, string>> = {
	trans_slope: '5',
	shaft_slope: '7',
	pinion_slope: '4 1/2',
	shaft_length: '58',
	front_height: '33 1/2',
	rear_height: '36 1/4',
	trans_slope_after_read: '6',
	shaft_slope_after_read: '8',
	pinion_slope_after_read: '9',
	shaft_length_after_read: '57',
	front_height_after: '33 1/2',
	rear_height_after: '33 3/4',
};
const parts: Readonly<Record<string, string>> = { eye_raise: '4', wedge_angle: '-3' };

const slopes = ['trans_slope', 'shaft_slope', 'pinion_slope'];
const heights = ['front_height', 'rear_height'];

/** Answers, and the entries that give them. */
const sets: readonly { readonly from: readonly string[]; readonly give: readonly string[] }[] = [
	{
		from: ['trans_slope', 'shaft_slope'],
		give: ['front_joint_before', 'front_joint_before_signed'],
	},
	{
		from: ['pinion_slope', 'shaft_slope'],
		give: ['rear_joint_before', 'rear_joint_before_signed'],
	},
	{
		// To be parallel, the shaft between them does not count.
		from: ['trans_slope', 'pinion_slope'],
		give: ['wedge_wanted'],
	},
	{
		from: [...slopes, 'shaft_length'],
		give: [
			...['front_joint', 'rear_joint', 'front_joint_signed', 'rear_joint_signed'],
			...['shaft_length_after', 'shaft_length_change'],
		],
	},
	{
		from: [],
		give: ['rear_drop', 'pinion_turn', 'axle_forward', 'rake_change', 'headlamp_change'],
	},
	{ from: ['front_height'], give: ['front_height_expected'] },
	{ from: ['rear_height'], give: ['rear_height_expected'] },
	{
		from: ['trans_slope_after_read', 'shaft_slope_after_read'],
		give: ['front_joint_found', 'front_joint_found_signed'],
	},
	{
		from: ['pinion_slope_after_read', 'shaft_slope_after_read'],
		give: ['rear_joint_found', 'rear_joint_found_signed'],
	},
	{
		from: [
			...['trans_slope', 'pinion_slope'],
			...['trans_slope_after_read', 'pinion_slope_after_read'],
		],
		give: ['pinion_turn_found'],
	},
	{ from: ['rear_height', 'rear_height_after'], give: ['rear_lip_change', 'rear_drop_found'] },
	{ from: ['front_height', 'front_height_after'], give: ['front_lip_change'] },
	{ from: [...heights, ...heights.map((name) => `${name}_after`)], give: ['rake_change_found'] },
	{ from: ['shaft_length', 'shaft_length_after_read'], give: ['shaft_length_change_found'] },
];

function jobOf(names: readonly string[]): Job {
	let job = blankJob(shipped, 'inch-pound', new Date(0));
	const typed = { ...Object.fromEntries(names.map((name) => [name, readings[name]])), ...parts };
	for (const [name, text] of Object.entries(typed)) {
		const input = shipped.graph.byId.get(name)?.input;
		if (!input || text === undefined) throw new Error(`Nothing to type for “${name}”.`);
		job = {
			...job,
			entries: { ...job.entries, [name]: nextEntry(input, undefined, text, job.system) },
		};
	}
	return job;
}

const cases = sets.flatMap(({ from, give }) => give.map((name) => ({ name, from })));

describe.each(cases)('$name', ({ name, from }) => {
	const { graph } = shipped;
	const slot = graph.byId.get(name)?.slot ?? -1;
	const runOf = (names: readonly string[]) => {
		const read = readingsOf(graph, jobOf(names));
		return { read, run: runAll(graph, inputsOf(read)) };
	};

	test(`comes from ${from.join(', ') || 'the parts planned'} alone, with a ±`, () => {
		const { read, run } = runOf(from);
		expect(run.failure(slot)?.message).toBeUndefined();
		const sure = plusMinusOfAll(graph, run, (node) => inputPlusMinus(node, read.get(node.id)));
		const size = sure[slot]?.size ?? NaN;
		expect(size).toBeGreaterThan(0);
		expect(size).toBeLessThan(1);
	});

	test.each(from)('waits for %s, and says so', (left) => {
		const { run } = runOf(from.filter((each) => each !== left));
		expect(run.failure(slot)).toMatchObject({ why: 'not entered', from: [left] });
	});
});
