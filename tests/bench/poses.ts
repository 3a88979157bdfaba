/**
 * How often a run of the whole worksheet asks the law of the spring for a pose, by scenario; the same counts
 * are held by tests/answers/cost.test.ts. The law of one arc asked for 931 of its poses in a run.
 */
import { posesTaken } from '../../src/lib/mechanics/spring-pose.ts';
import { jobFromScenario } from '../../src/lib/job/job.ts';
import { inputsOf, readingsOf } from '../../src/lib/job/reading.ts';
import { runAll } from '../../src/lib/engine/run.ts';
import { shipped } from '../language/shipped.ts';

/** Poses of one run of everything, by scenario. */
export function posesOfRuns(): { readonly id: string; readonly poses: number }[] {
	return shipped.scenarios.map((scenario) => {
		const job = jobFromScenario(shipped, scenario, new Date(0));
		const inputs = inputsOf(readingsOf(shipped.graph, job));
		const before = posesTaken.poses;
		runAll(shipped.graph, inputs);
		return { id: scenario.id, poses: posesTaken.poses - before };
	});
}
