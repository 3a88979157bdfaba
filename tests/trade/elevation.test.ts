/** The side elevation is drawn where the figures put the parts, in every state of every scenario. */
import { expect, test } from 'vitest';
import { askedOf } from '../../src/lib/answers/drawing.ts';
import { runAll } from '../../src/lib/engine/run.ts';
import { blankJob, jobFromScenario, type Job } from '../../src/lib/job/job.ts';
import { inputsOf, readingsOf } from '../../src/lib/job/reading.ts';
import { cellsOf } from '../../src/lib/language/workbook.ts';
import type { AxlePlace } from '../../src/lib/mechanics/axle-fit.ts';
import type { JointPlace } from '../../src/lib/mechanics/driveshaft.ts';
import type { SpringPlace } from '../../src/lib/mechanics/spring-pose.ts';
import { sideElevation } from '../../src/lib/trade/drawing/elevation.ts';
import type { Layout } from '../../src/lib/trade/drawing/layout.ts';
import { placeOf } from '../../src/lib/trade/drawing/places.ts';
import { stateOf, type StateName } from '../../src/lib/trade/drawing/states.ts';
import { toPaper } from '../../src/lib/trade/drawing/view.ts';
import { shipped } from '../language/shipped.ts';

const moment = new Date(0);
const jobs = shipped.scenarios.map((scenario): [string, Job] => [
	scenario.id,
	jobFromScenario(shipped, scenario, moment),
]);

function standingOf(job: Job) {
	const readings = readingsOf(shipped.graph, job);
	const run = runAll(shipped.graph, inputsOf(readings));
	const { graph, quantities } = shipped;
	return {
		figures: { graph, run, quantities, system: job.system },
		reading: (name: string) => readings.get(name) ?? ({ standing: 'missing' } as const),
		value: (name: string) => run.value(graph.byId.get(name)?.slot ?? -1),
	};
}

const wide = { width: 880, height: 395, crop: 'drive', still: 'frame', lettered: true } as const;
const cell = {
	show: ['before', 'plan'],
	move: ['eye_raise', 'shackle_longer', 'wedge_angle'],
	dimension: ['axle_rise_at_rest', 'rear_drop', 'shaft_length_after', 'eye_raise'],
	detail: true,
};

/** With other entries than the job has. */
function withEntries(job: Job, typed: Readonly<Record<string, string>>): Job {
	const more = Object.entries(typed).map(([name, text]) => [
		name,
		{ typed: text, system: job.system },
	]);
	return { ...job, entries: { ...job.entries, ...Object.fromEntries(more) } };
}

/** Every corner and end of the strokes of a part. */
function cornersOf(layout: Layout, part: string): { x: number; y: number }[] {
	return layout.strokes
		.filter((stroke) => stroke.part === part)
		.flatMap(({ path }) =>
			[...path.matchAll(/(-?[\d.]+) (-?[\d.]+)(?=[A-Z]|$)/g)].map(([, x, y]) => ({
				x: Number(x),
				y: Number(y),
			})),
		);
}

const nearest = (places: readonly { x: number; y: number }[], to: { x: number; y: number }) =>
	Math.min(...places.map(({ x, y }) => Math.hypot(x - to.x, y - to.y)));

const figuresOf = {
	before: ['spring_before', 'axle_before', 'pinion_joint_before', 'trans_joint_before'],
	plan: ['spring_after', 'axle_after', 'pinion_joint_after', 'trans_joint_after'],
} as const;

test.each(jobs)('%s: drawn to a tenth of a pixel where the figures are', (_, job) => {
	const standing = standingOf(job);
	for (const show of ['before', 'plan'] as const) {
		const asked = askedOf({ ...cell, show: [show] }, shipped, standing, wide);
		const layout = sideElevation.draw(asked).drawing as Layout;
		const [spring, axle, pinion, transmission] = figuresOf[show].map(standing.value) as unknown as [
			SpringPlace,
			AxlePlace,
			JointPlace,
			JointPlace,
		];
		const { view, shown } = layout;
		const at = (x: number, z: number) => toPaper(view, shown, { x, z });
		const leaf = cornersOf(layout, 'spring');
		expect(nearest(leaf, at(spring.mount.eyeX, spring.mount.eyeZ))).toBeLessThan(0.1);
		expect(nearest(leaf, at(spring.rearEyeX, spring.rearEyeZ))).toBeLessThan(0.1);
		for (const [place, figure] of [
			['axle', axle],
			['jointRear', pinion],
			['jointFront', transmission],
		] as const) {
			const drawn = placeOf(place, shown, view, 0) ?? { x: NaN, y: NaN };
			expect(nearest([drawn], at(figure.x, figure.z))).toBeLessThan(0.1);
		}
		const { front, rear, turn } = shown.spring;
		expect(front.curvature - rear.curvature).toBeCloseTo(spring.difference, 12);
		expect(turn).toBe(spring.seatTurn);
	}
});

test.each(jobs)('%s: every state with its figures is drawn', (_, job) => {
	const standing = standingOf(job);
	for (const name of ['before', 'plan', 'fitted', 'travel'] as StateName[]) {
		const { state, waits } = stateOf(askedOf(cell, shipped, standing, wide), name);
		expect({ name, waits }).toEqual({ name, waits: [] });
		expect(state?.assumed?.has('shaft')).toBe(false);
	}
});

test('what was found is drawn where it was found, and left out with its names before', () => {
	const [, job] = jobs[0] as [string, Job];
	const asked = (of: Job) => askedOf({ ...cell, show: ['found'] }, shipped, standingOf(of), wide);
	const bare = { ...job, entries: { ...job.entries } };
	delete bare.entries['rear_height_after'];
	expect(sideElevation.draw(asked(bare))).toMatchObject({ waits: ['spring_found'] });
	const found = withEntries(job, {
		rear_height_after: '33 in',
		front_height_after: '32 in',
		trans_slope_after_read: '4 deg',
		shaft_slope_after_read: '3 deg',
		pinion_slope_after_read: '2 deg',
	});
	const { value } = standingOf(found);
	const { state } = stateOf(asked(found), 'found');
	const rise = (state?.axle.z ?? NaN) - (value('spring_before') as unknown as SpringPlace).axleZ;
	expect(rise).toBeCloseTo(value('axle_rise_found') as number, 6);
	// To the floor as it was read.
	expect((state?.pinion.slope ?? NaN) + (state?.rake ?? NaN)).toBeCloseTo((2 * Math.PI) / 180, 9);
});

test('a blank job has a truck in sight, its driveline assumed and said so', () => {
	const asked = askedOf(cell, shipped, standingOf(blankJob(shipped, 'metric', moment)), wide);
	const drawn = sideElevation.draw(asked);
	const layout = drawn.drawing as Layout;
	for (const part of ['pinion', 'shaft', 'transmission', 'spring'] as const) {
		expect(layout.shown.assumed?.has(part)).toBe(true);
	}
	const heavy = layout.strokes.filter(({ part, kind }) => part === 'shaft' && kind === 'planned');
	expect(heavy).toEqual([]);
	const words = layout.lettering.flatMap(({ runs }) => runs.map(({ text }) => text));
	expect(words).toContain('driveline assumed, not measured');
});

test('of three slopes alone both joints are drawn as they stood', () => {
	const job = withEntries(blankJob(shipped, 'inch-pound', moment), {
		trans_slope: '3.5',
		shaft_slope: '4.5',
		pinion_slope: '4',
	});
	const { drawing } = sideElevation.draw(askedOf(cell, shipped, standingOf(job), wide));
	const words = (drawing?.lettering ?? []).flatMap(({ runs }) => runs.map(({ text }) => text));
	expect(words).toContain('front joint before, angle drawn ×10');
	expect(words).toContain('1.00°');
	expect(words).toContain('0.50°');
});

test('parts that cannot be put together are drawn open, with one dimension', () => {
	const [, job] = jobs[0] as [string, Job];
	const open = withEntries(job, { shackle_longer: '-3.9 in', eye_raise: '10 in' });
	const asked = askedOf(cell, shipped, standingOf(open), wide);
	const drawn = sideElevation.draw(asked);
	const layout = drawn.drawing as Layout;
	const { shackleEnd, rearEye } = layout.shown;
	expect(shackleEnd).toBeDefined();
	const gap = Math.hypot((shackleEnd?.x ?? 0) - rearEye.x, (shackleEnd?.z ?? 0) - rearEye.z);
	expect(gap).toBeGreaterThan(0.001);
	const words = layout.lettering.flatMap(({ runs }) => runs.map(({ text }) => text));
	expect(words.filter((text) => text.includes('these do not meet'))).toHaveLength(1);
	expect(words).not.toContain('A');
});

test('the axle travels where the figures put it, and its slider has both ends', () => {
	const [, job] = jobs[0] as [string, Job];
	const moved = withEntries(job, { axle_rise: '1 in' });
	const standing = standingOf(moved);
	const travelling = { ...cell, show: ['plan'], move: ['axle_rise'] };
	const drawn = sideElevation.draw(askedOf(travelling, shipped, standing, wide));
	const layout = drawn.drawing as Layout;
	const axle = standing.value('axle_travel') as unknown as AxlePlace;
	expect(layout.shown.axle).toEqual({ x: axle.x, z: axle.z });
	expect(drawn.slider?.input).toBe('axle_rise');
	expect(drawn.slider?.value).toBeCloseTo(0.0254, 9);
	expect(drawn.slider?.least).toBeLessThan(0);
	expect(drawn.slider?.most).toBeGreaterThan(0);
});

test('at ride a drawing that can travel is drawn over the truck as it stood', () => {
	const [, job] = jobs[0] as [string, Job];
	const travelling = { ...cell, show: ['before', 'plan'], move: ['axle_rise'] };
	const titleAt = (rise: string): string => {
		const standing = standingOf(withEntries(job, { axle_rise: rise }));
		return sideElevation.draw(askedOf(travelling, shipped, standing, wide)).title;
	};
	expect(titleAt('0 in')).toContain('as planned, over the truck as it stands');
	expect(titleAt('1 in')).toContain('with its axle moved, over the truck as planned');
});

test('a plank is drawn from eye to eye, now and before, and says which way the nose went', () => {
	const [, job] = jobs[0] as [string, Job];
	const standing = standingOf(job);
	const turned = { ...cell, show: ['before', 'plan'], move: [], dimension: ['pinion_turn'] };
	const layout = sideElevation.draw(askedOf(turned, shipped, standing, wide)).drawing as Layout;
	const words = layout.lettering.flatMap(({ runs }) => runs.map(({ text }) => text));
	const turn = standing.value('pinion_turn') as number;
	const nose = words.filter((text) => text.startsWith('nose '));
	expect(nose).toHaveLength(1);
	expect(nose[0]).toMatch(turn > 0 ? /^nose up \d/ : /^nose down \d/);
	// Two straight lines of the spring, each from one eye to the other.
	const { frontEye, rearEye } = layout.shown;
	const planks = layout.strokes.filter(
		({ part, path }) => part === 'spring' && /^M[^A-Z]*L[^A-Z]*$/.test(path),
	);
	expect(planks.map(({ kind }) => kind).sort()).toEqual(['axis', 'before']);
	const shown = planks.find(({ kind }) => kind === 'axis');
	const [x1, y1, x2, y2] = (shown?.path.match(/-?[\d.]+/g) ?? []).map(Number) as [
		number,
		number,
		number,
		number,
	];
	const long = Math.hypot(frontEye.x - rearEye.x, frontEye.z - rearEye.z) * layout.view.scale;
	expect(Math.hypot(x2 - x1, y2 - y1)).toBeCloseTo(long, 1);
});

test('a handle says what it did in one sentence', () => {
	const [, job] = jobs[0] as [string, Job];
	const asked = askedOf(cell, shipped, standingOf(job), wide);
	expect(sideElevation.says(asked, 'eye_raise')).toMatch(
		/^Front eye up .+ in: rear drop .+ in, front joint .+°, rear joint .+°\.$/,
	);
});

test('pages draw only what workbook.yaml has a place for', () => {
	expect(shipped.problems).toEqual([]);
	expect(cellsOf(shipped).filter(({ kind }) => kind === 'drawing').length).toBeGreaterThan(1);
});

test('a ring is drawn round the place of each entry that is marked, and round nothing else', () => {
	const [, job] = jobs[0] as [string, Job];
	const whole = { ...wide, crop: 'whole', lettered: false } as const;
	const mark = ['eye_raise_fitted', 'rear_height_after', 'wheelbase'];
	const { drawing } = sideElevation.draw(
		askedOf(cell, shipped, standingOf(job), { ...whole, mark }),
	);
	const layout = drawing as Layout;
	const rings = layout.strokes.filter(({ part }) => part === 'mark');
	// An entry that has no place on the truck is not marked.
	expect(rings).toHaveLength(2);
	for (const [index, place] of (['frontEye', 'rearLip'] as const).entries()) {
		const centre = placeOf(place, layout.shown, layout.view, 0);
		const [, left = NaN, y = NaN] = (
			/^M(-?[\d.]+) (-?[\d.]+)/.exec(rings[index]?.path ?? '') ?? []
		).map(Number);
		expect(y).toBeCloseTo(centre?.y ?? NaN, 1);
		expect(left + 9).toBeCloseTo(centre?.x ?? NaN, 1);
	}
});
