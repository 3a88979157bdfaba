/** What a run of everything costs, as a count that is the same each time and no timing. */
import { expect, test } from 'vitest';
import { posesOfRuns } from '../bench/poses.ts';

/** The design wants 120. What is over: the spring is solved some twenty times, a spring from a test six. */
const mostPoses = 165;

test.each(posesOfRuns().map(({ id, poses }) => [id, poses] as const))(
	'%s asks the law of the spring for %d poses',
	(_id, poses) => {
		expect(poses).toBeGreaterThan(0);
		expect(poses).toBeLessThanOrEqual(mostPoses);
	},
);
