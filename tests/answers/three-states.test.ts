/**
 * Before, plan, fitted and found keep apart: once what was fitted is settled, planning on moves no figure of
 * what was fitted or found, and no check of it. Until then what was fitted follows the plan.
 */
import { describe, expect, test } from 'vitest';
import { nameInState, truckStates } from '../../src/lib/answers/figures.ts';
import { blankJob, jobFromScenario, type Job } from '../../src/lib/job/job.ts';
import { withEntry, withSettled } from '../../src/lib/job/edits.ts';
import { inputsOf, nextEntry, readingsOf } from '../../src/lib/job/reading.ts';
import { settledBy } from '../../src/lib/job/settling.ts';
import { checkResult, checksOf } from '../../src/lib/engine/checks.ts';
import { linked } from '../../src/lib/engine/reach.ts';
import { runAll, type Run } from '../../src/lib/engine/run.ts';
import { shipped } from '../language/shipped.ts';
import { layoutATyped } from '../trade/layout-a.ts';

const { graph } = shipped;

/** Types as the open job does: the first reading after settles what was fitted. */
function typed(job: Job, entries: Readonly<Record<string, string>>): Job {
	let next = job;
	for (const [name, text] of Object.entries(entries)) {
		const input = graph.byId.get(name)?.input;
		if (!input) throw new Error(`No input “${name}”.`);
		const run = runOf(next);
		const settled = settledBy(graph, next, name, (slot) => run.value(slot));
		const entry = nextEntry(input, next.entries[name], text, next.system);
		next = withEntry(withSettled(next, settled), name, entry);
	}
	return next;
}

function runOf(job: Job): Run {
	const readings = readingsOf(graph, job);
	for (const [name, { problem }] of readings) expect(problem, name).toBeUndefined();
	return runAll(graph, inputsOf(readings));
}

const planned = typed(blankJob(shipped, 'inch-pound', new Date(0)), {
	...layoutATyped,
	wedge_angle: '-6',
});
const readingsAfter = {
	front_height_after: '33 1/2',
	rear_height_after: '34',
	trans_slope_after_read: '6',
	shaft_slope_after_read: '7 1/2',
	pinion_slope_after_read: '5 1/4',
	shaft_length_after_read: '57',
};
const measured = typed(planned, readingsAfter);

/** Another plan in every part that stays one. */
const planOn: Readonly<Record<string, string>> = {
	eye_raise: '3',
	eye_forward: '1/4',
	pivot_raise: '1/2',
	pivot_forward: '-1/4',
	shackle_longer: '1/2',
	block: '1/4',
	wedge_angle: '-3',
	leaf_rate_times: '0.95',
	free_arch_change: '-1/4',
	mount_shim: '1/4',
	load_change: '-40',
	front_drop: '1',
	frame_shortened: '1',
};

/** Figures of what was fitted and found, by their names; those with a value. */
const figures = graph.nodes.filter(
	({ id, formula, type }) =>
		formula && type?.kind === 'quantity' && /_(fitted|found)(_signed)?$/.test(id),
);

describe('after the readings', () => {
	test('there are figures of what was fitted and of what was found', () => {
		const run = runOf(measured);
		const alive = figures.filter(({ slot }) => !run.fails(slot)).map(({ id }) => id);
		expect(alive.filter((id) => id.includes('_fitted')).length).toBeGreaterThan(15);
		expect(alive.filter((id) => id.includes('_found')).length).toBeGreaterThan(4);
	});

	test.each(Object.entries(planOn))('planning %s %s on moves none of them', (name, text) => {
		const [before, after] = [runOf(measured), runOf(typed(measured, { [name]: text }))];
		for (const { id, slot } of figures) expect(after.value(slot), id).toBe(before.value(slot));
	});

	test('nor all of it at once, nor a check of what was found', () => {
		const [before, after] = [runOf(measured), runOf(typed(measured, planOn))];
		expect(after.value(graph.byId.get('rear_drop')?.slot ?? -1)).not.toBe(
			before.value(graph.byId.get('rear_drop')?.slot ?? -1),
		);
		for (const { id, slot } of figures) expect(after.value(slot), id).toBe(before.value(slot));
		const readAgain = new Set(
			Object.keys(readingsAfter).map((name) => graph.byId.get(name)?.slot ?? -1),
		);
		let compared = 0;
		for (const cell of checksOf(shipped)) {
			const slots = cell.cases.flatMap(({ condition }) => graph.byId.get(condition)?.slot ?? []);
			const behind = linked(graph, slots, 'needs');
			if (![...readAgain].some((slot) => behind.has(slot))) continue;
			compared++;
			expect(checkResult(graph, after, cell), cell.name).toEqual(checkResult(graph, before, cell));
		}
		expect(compared).toBeGreaterThan(4);
	});
});

test('before them, what was fitted follows the plan', () => {
	const [before, after] = [runOf(planned), runOf(typed(planned, { eye_raise: '3' }))];
	for (const name of ['rear_drop', 'pinion_turn', 'axle_forward']) {
		const [plan, fitted] = [name, `${name}_fitted`].map((id) => graph.byId.get(id)?.slot ?? -1);
		expect(after.value(fitted ?? -1), name).toBe(after.value(plan ?? -1));
		expect(after.value(fitted ?? -1), name).not.toBe(before.value(fitted ?? -1));
	}
});

test('a wedge of -6° that is in is not taken for one of -3° that is planned next', () => {
	const slot = graph.byId.get('wedge_to_fit')?.slot ?? -1;
	const was = runOf(measured).number(slot);
	expect(was).toBeDefined();
	expect(runOf(typed(measured, { wedge_angle: '-3' })).number(slot)).toBe(was);
	expect(measured.entries['wedge_angle_fitted']?.typed).toBe('-6');
});

test.each(shipped.scenarios.map((scenario) => [scenario.id, scenario] as const))(
	'%s, as shipped, has what was fitted settled where it was measured after',
	(_id, scenario) => {
		const job = jobFromScenario(shipped, scenario, new Date(0));
		const [before, after] = [runOf(job), runOf(typed(job, { eye_raise: '0', wedge_angle: '0' }))];
		for (const { id, slot } of figures) expect(after.value(slot), id).toBe(before.value(slot));
	},
);

test.each(shipped.scenarios.map((scenario) => [scenario.id, scenario] as const))(
	'%s has every figure that stays in sight in every state',
	(_id, scenario) => {
		const run = runOf(jobFromScenario(shipped, scenario, new Date(0)));
		for (const { name } of shipped.standing) {
			for (const state of truckStates) {
				const figure = nameInState(name, state);
				expect(run.number(graph.byId.get(figure)?.slot ?? -1), figure).toBeDefined();
			}
		}
	},
);
