/** What an answer still waits for: all that is to be entered, and of parts that change nothing as they come, one. */
import { expect, test } from 'vitest';
import { waitsFor } from '../../src/lib/answers/figures.ts';
import { knownOf } from '../../src/lib/answers/known.ts';
import { runAll } from '../../src/lib/engine/run.ts';
import { blankJob } from '../../src/lib/job/job.ts';
import { inputsOf, nextEntry, readingsOf } from '../../src/lib/job/reading.ts';
import { shipped } from '../language/shipped.ts';

const { graph, quantities } = shipped;

/** A blank job with some entries typed, in inches and degrees. */
function standing(typed: Readonly<Record<string, string>>) {
	const job = blankJob(shipped, 'inch-pound', new Date(0));
	const entries = Object.fromEntries(
		Object.entries(typed).map(([name, text]) => {
			const input = graph.byId.get(name)?.input;
			if (!input) throw new Error(`There is no entry “${name}”.`);
			return [name, nextEntry(input, undefined, text, job.system)];
		}),
	);
	const readings = readingsOf(graph, { ...job, entries });
	return {
		figures: { graph, quantities, system: job.system, run: runAll(graph, inputsOf(readings)) },
		reading: (name: string) => readings.get(name) ?? { standing: 'missing' as const },
	};
}
const asked = ['trans_slope', 'eye_raise', 'shackle_longer', 'slip_room_wanted'].flatMap(
	(name) => graph.byId.get(name) ?? [],
);
const anyOf = (typed: Readonly<Record<string, string>>, of = asked): readonly string[] => {
	const { figures, reading } = standing(typed);
	return knownOf(['rear_drop'], figures, reading, of).anyOf.map(({ id }) => id);
};

test('of what parts do nothing is known before one of them is entered, be it as nought', () => {
	expect(anyOf({})).toEqual(['eye_raise', 'shackle_longer']);
	expect(anyOf({ shackle_longer: '-1 1/2' })).toEqual([]);
	expect(anyOf({ eye_raise: '0' })).toEqual([]);
	expect(anyOf({}, [])).toEqual([]);
});

test('several figures wait for all that any of them waits for, each named once', () => {
	const { figures } = standing({ shaft_slope: '6' });
	const names = ['rear_drop', 'front_joint_before', 'rear_joint_before'];
	expect(waitsFor(names, figures)?.from).toEqual(['trans_slope', 'pinion_slope']);
	expect(waitsFor(['rear_drop'], figures)).toBeUndefined();
});
