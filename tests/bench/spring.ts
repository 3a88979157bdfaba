/**
 * What the law of the spring costs: poses and passes for each solve, bytes made anew for each pose, and
 * the time of a solve beside the poses it is made of.
 *
 * The law of one arc that stood before asked for 931 poses in a run of the whole worksheet, 18 a solve, and
 * made 613 bytes anew for each.
 */
import { springMountMoved } from '../../src/lib/mechanics/leaf-spring.ts';
import { shackleRoom } from '../../src/lib/mechanics/shackle-room.ts';
import { springAfterJob, springAtBaseline } from '../../src/lib/mechanics/spring-at-rest.ts';
import { bearingAt, poseAt, posesTaken } from '../../src/lib/mechanics/spring-pose.ts';
import { droopEnd, springAtRise } from '../../src/lib/mechanics/spring-travel.ts';
import { springWoundUp } from '../../src/lib/mechanics/spring-wind-up.ts';
import { afterJob, drawing, drawnJobs, drawnTrucks } from '../mechanics/accuracy/spring.ts';
import { inch, pound } from '../mechanics/accuracy/layouts.ts';
import { posesOfRuns } from './poses.ts';
import { quickest, times } from './quickest.ts';

const trucks = drawnTrucks(28, 1);

/** The middle and the worst of what a piece of work takes in poses, and its passes for each pose. */
function costRow(what: string, works: readonly (() => unknown)[]): string {
	const costs = works.flatMap((work) => {
		const { poses, passes } = posesTaken;
		try {
			work();
		} catch {
			return [];
		}
		return { poses: posesTaken.poses - poses, passes: posesTaken.passes - passes };
	});
	const poses = costs.map((cost) => cost.poses).sort((a, b) => a - b);
	const each = costs.map((cost) => cost.passes / cost.poses).sort((a, b) => a - b);
	const middle = Math.floor(costs.length / 2);
	return [
		what.padEnd(28),
		String(costs.length).padStart(6),
		String(poses[middle]).padStart(8),
		String(poses.at(-1)).padStart(7),
		(each[middle] ?? NaN).toFixed(1).padStart(15),
	].join('');
}

function poseRows(): string[] {
	const draw = drawing(7);
	const each = (work: (truck: (typeof trucks)[number]) => unknown): (() => unknown)[] =>
		trucks.map((truck) => () => work(truck));
	return [
		'a solve                      cases  poses     worst   passes a pose',
		costRow(
			'baseline',
			each(({ leaf, mount, fit, arch, load }) => springAtBaseline(leaf, mount, fit, arch, load)),
		),
		costRow(
			'after a job',
			trucks.flatMap((truck) => drawnJobs(draw).map((job) => () => afterJob(truck, job))),
		),
		costRow(
			'3 in of bump',
			each(({ base }) => springAtRise(base, 3 * inch)),
		),
		costRow(
			'3 in of droop',
			each(({ base }) => springAtRise(base, -3 * inch)),
		),
		costRow(
			'end of droop',
			each(({ base }) => droopEnd(base, 75 * pound)),
		),
		costRow(
			'wind-up',
			each(({ base }) => springWoundUp(base, 1500, 0.36)),
		),
		costRow(
			'room of the shackle',
			each(({ base }) => shackleRoom(base)),
		),
	];
}

/** Bytes made anew for each pose in a long row of poses, the compiler warmed up. */
function bytesForEachPose(): number {
	const [truck] = trucks;
	if (!truck) throw new Error('There is no truck to measure with.');
	const bearing = bearingAt(truck.base);
	const { curvature, difference } = truck.base;
	const poses = (count: number): void => {
		for (let each = 0; each < count; each++) {
			poseAt(bearing, curvature * (1 + (each % 100) / 1000), difference);
		}
	};
	poses(100_000);
	// The least of some rounds: where the heap is swept in between, the difference says nothing.
	const found = Array.from({ length: 9 }, () => {
		const before = process.memoryUsage().heapUsed;
		poses(20_000);
		return (process.memoryUsage().heapUsed - before) / 20_000;
	});
	return Math.min(...found.filter((bytes) => bytes >= 0));
}

/** The measurement as a small table. */
export function springTable(): string {
	const [truck] = trucks;
	if (!truck) throw new Error('There is no truck to measure with.');
	const { leaf, mount, fit, load, base } = truck;
	const moved = springMountMoved(mount, 3 * inch, 0, 0.5 * inch, 0, 0.5 * inch);
	const stance = { wheelbase: truck.wheelbase, frontDrop: 0, rearTyreDrop: 0 };
	const bearing = bearingAt(base);
	const before = posesTaken.poses;
	springAfterJob(base, leaf, moved, fit, 0, load, stance);
	const poses = posesTaken.poses - before;
	const [law = NaN, bare = NaN] = quickest([
		times(200, () => springAfterJob(base, leaf, moved, fit, 0, load, stance)),
		times(200 * poses, () => poseAt(bearing, base.curvature * 1.01, base.difference)),
	]);
	return [
		...poseRows(),
		'',
		...posesOfRuns().map(
			({ id, poses }) => `poses in a run of everything, ${id.padEnd(20)} ${poses}`,
		),
		'',
		`bytes made anew for each pose          ${bytesForEachPose().toFixed(1)}`,
		`a solve over its ${poses} poses by themselves  ${(law / bare).toFixed(2)}`,
	].join('\n');
}
