/** What a run of everything costs, as a count that is the same each time and no timing. */
import { expect, test } from 'vitest';
import { posesOfRuns } from '../bench/poses.ts';

/** The spring is solved some twenty times, a spring from a test three, each in three to five poses. */
const mostPoses = 120;

test.each(posesOfRuns().map(({ id, poses }) => [id, poses] as const))(
	'%s asks the law of the spring for %d poses',
	(_id, poses) => {
		expect(poses).toBeGreaterThan(0);
		expect(poses).toBeLessThanOrEqual(mostPoses);
	},
);
