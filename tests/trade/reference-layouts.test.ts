/** The shipped pages against layouts solved outside this project, and against what the trade sees. */
import { describe, expect, test } from 'vitest';
import { blankJob, type Job } from '../../src/lib/job/job.ts';
import { inputsOf, nextEntry, readingsOf } from '../../src/lib/job/reading.ts';
import { unitOf } from '../../src/lib/units/units.ts';
import type { UnitSystem } from '../../src/lib/units/quantities.ts';
import { runAll } from '../../src/lib/engine/run.ts';
import { numberIn } from '../language/small-workbook.ts';
import { shipped } from '../language/shipped.ts';

type Layout = Readonly<Record<string, number | string>>;

/** The layouts, in inches, pounds and degrees. */
const stockA: Layout = {
	leaf_front: 24,
	leaf_rear: 30,
	leaf_rate: 160,
	leaf_rate_from: 'leaves',
	leaf_arch: 3.5,
	eye_to_pivot: 53.6,
	pivot_up: 4.6,
	shackle_length: 5,
	shackle_stands: 'hanging',
	spring_load: 850,
	spring_side: 'over',
	seat_to_axle: 3,
	seat_to_pad: 0,
	pinion_reach: 12,
	pinion_rise: -1.5,
	wheelbase: 118,
	trans_slope: 5,
	pinion_slope: 5,
	shaft_slope: 7,
	shaft_length: 58,
};
const stockB: Layout = {
	leaf_front: 22,
	leaf_rear: 30,
	leaf_rate: 180,
	leaf_rate_from: 'leaves',
	leaf_arch: 4,
	eye_to_pivot: 50.2,
	pivot_up: -4,
	shackle_length: 4.5,
	shackle_stands: 'standing',
	spring_load: 900,
	spring_side: 'over',
	seat_to_axle: 3.25,
	seat_to_pad: 0,
	pinion_reach: 11.5,
	pinion_rise: -1.25,
	wheelbase: 115,
	trans_slope: 4,
	pinion_slope: 3.5,
	shaft_slope: 6,
	shaft_length: 52,
};
const travel: Layout = { bump_travel: 3, droop_travel: 3 };

/** A job with these typed as bare numbers, each in the unit its field shows. */
function typedJob(layout: Layout, system: UnitSystem): Job {
	let job = blankJob(shipped, system, new Date(0));
	for (const [name, amount] of Object.entries(layout)) {
		const input = shipped.graph.byId.get(name)?.input;
		if (!input) throw new Error(`The workbook asks for no “${name}”.`);
		let typed = String(amount);
		if (typeof amount === 'number' && 'quantity' in input) {
			const { shown } = input.quantity;
			typed = String((amount * shown['inch-pound'].unit.size) / shown[system].unit.size);
		}
		const entry = nextEntry(input, undefined, typed, system);
		job = { ...job, entries: { ...job.entries, [name]: entry } };
	}
	return job;
}

/** SI figures by name, the layout typed as a person would. */
function figuresOf(layout: Layout, system: UnitSystem = 'inch-pound'): (name: string) => number {
	const readings = readingsOf(shipped.graph, typedJob(layout, system));
	for (const name of Object.keys(layout)) expect(readings.get(name)?.problem).toBeUndefined();
	const run = runAll(shipped.graph, inputsOf(readings));
	return (name) => numberIn(shipped, run, name);
}

const size = (unit: string): number => unitOf(unit)?.size ?? NaN;
const inch = size('in');
const degree = size('deg');

/**
 * Wanted figures with their units. Source: the layouts were solved independently of this project; the
 * agreement wanted is 1e-4 in the units shown.
 */
const layouts: readonly {
	readonly name: string;
	readonly stock: Layout;
	readonly job: Layout;
	readonly wanted: Readonly<Record<string, readonly [number, string]>>;
}[] = [
	{
		name: 'A, front hanger only',
		stock: stockA,
		job: { eye_raise: 4.5 },
		wanted: {
			rear_drop: [2.419844, 'in'],
			axle_forward: [0.685583, 'in'],
			pinion_turn: [4.972973, 'deg'],
			rake_change: [1.174809, 'deg'],
			pinion_slope_after: [11.147781, 'deg'],
			trans_slope_after: [6.174809, 'deg'],
			front_joint: [1.379785, 'deg'],
			rear_joint: [6.352757, 'deg'],
			shaft_length_after: [57.002462, 'in'],
			arch_after: [3.627871, 'in'],
			front_joint_bump: [4.105843, 'deg'],
			rear_joint_bump: [7.661304, 'deg'],
			shaft_length_bump_change: [0.558757, 'in'],
			axle_forward_bump_change: [-0.676664, 'in'],
			front_joint_droop: [1.506428, 'deg'],
			rear_joint_droop: [4.633624, 'deg'],
			shaft_length_droop_change: [-0.933849, 'in'],
			axle_forward_droop_change: [1.195975, 'in'],
			wind_up: [109714.2857, 'lbf in/rad'],
		},
	},
	{
		name: 'B, shackle pivot and shackle, standing',
		stock: stockB,
		job: { pivot_raise: 2, shackle_longer: 1.5 },
		wanted: {
			rear_drop: [1.569969, 'in'],
			axle_forward: [-0.452709, 'in'],
			pinion_turn: [-4.076244, 'deg'],
			rake_change: [0.782148, 'deg'],
			pinion_slope_after: [0.205904, 'deg'],
			trans_slope_after: [4.782148, 'deg'],
			front_joint: [1.125647, 'deg'],
			rear_joint: [5.701891, 'deg'],
			shaft_length_after: [52.445582, 'in'],
			arch_after: [3.934224, 'in'],
			front_joint_bump: [1.722421, 'deg'],
			rear_joint_bump: [4.880334, 'deg'],
			shaft_length_bump_change: [0.166332, 'in'],
			axle_forward_bump_change: [-0.279016, 'in'],
			front_joint_droop: [4.056601, 'deg'],
			rear_joint_droop: [6.600058, 'deg'],
			shaft_length_droop_change: [-0.521822, 'in'],
			axle_forward_droop_change: [0.783373, 'in'],
			wind_up: [108298.3425, 'lbf in/rad'],
		},
	},
];

test('the shipped workbook has no mistakes', () => {
	expect(shipped.problems).toEqual([]);
});

for (const { name, stock, job, wanted } of layouts) {
	describe(`layout ${name}`, () => {
		const found = figuresOf({ ...stock, ...travel, ...job });
		test.each(Object.entries(wanted))('%s', (figure, [value, unit]) => {
			expect(Math.abs(found(figure) / size(unit) - value)).toBeLessThan(1e-4);
		});

		test('typed in inches or in millimetres, the figures are the same', () => {
			const metric = figuresOf({ ...stock, ...travel, ...job }, 'metric');
			for (const figure of Object.keys(wanted)) {
				const difference = Math.abs(metric(figure) - found(figure));
				expect(difference / Math.abs(found(figure)), figure).toBeLessThan(1e-12);
			}
		});

		test('a job that changes nothing leaves everything exactly where it was', () => {
			const same = figuresOf(stock);
			for (const figure of [
				'rear_drop',
				'pinion_turn',
				'axle_forward',
				'rake_change',
				'shaft_length_change',
			]) {
				// Not toBe: a nought with a minus is a nought.
				expect(same(figure) === 0, figure).toBe(true);
			}
		});
	});
}

const swept = [
	'rear_drop',
	'axle_forward',
	'pinion_turn',
	'arch_after',
	'front_joint',
	'rear_joint',
	'shaft_length_after',
];

test('nothing jumps where the leaf goes flat', () => {
	const at = (arch: number): ReturnType<typeof figuresOf> =>
		figuresOf({ ...stockA, eye_raise: 2, leaf_arch: arch });
	for (const step of [1e-2, 1e-4, 1e-6, 1e-8]) {
		const [above, flat, below] = [at(step), at(0), at(-step)];
		for (const figure of swept) {
			// The figures go by about as much as the arch does: never a jump.
			expect(Math.abs(above(figure) - flat(figure)) / inch, figure).toBeLessThan(3 * step + 1e-11);
			expect(Math.abs(flat(figure) - below(figure)) / inch, figure).toBeLessThan(3 * step + 1e-11);
			// And evenly on both sides, so that there is no corner either.
			const bend = above(figure) - 2 * flat(figure) + below(figure);
			expect(Math.abs(bend) / inch, figure).toBeLessThan(step * step + 1e-11);
		}
	}
});

describe('signs', () => {
	test.each(['eye_raise', 'pivot_raise', 'shackle_longer', 'eye_forward', 'block'])(
		'%s the other way does the opposite, as far as it is small',
		(part) => {
			const little = 1e-3;
			const one = figuresOf({ ...stockA, [part]: little });
			const other = figuresOf({ ...stockA, [part]: -little });
			for (const figure of ['rear_drop', 'axle_forward', 'pinion_turn', 'shaft_length_change']) {
				expect(Math.abs(one(figure) + other(figure)) / inch, figure).toBeLessThan(5 * little ** 2);
			}
		},
	);

	// Common practice, no source.
	test('front eye up turns the pinion nose-up and lowers the truck', () => {
		for (const stock of [stockA, stockB]) {
			const found = figuresOf({ ...stock, eye_raise: 1 });
			expect(found('pinion_turn')).toBeGreaterThan(0);
			expect(found('rear_drop')).toBeGreaterThan(0);
			expect(found('rake_change')).toBeGreaterThan(0);
		}
	});

	// Common practice, no source.
	test('rear eye up turns it nose-down and lowers the truck', () => {
		for (const found of [
			figuresOf({ ...stockA, pivot_raise: 1 }),
			figuresOf({ ...stockB, pivot_raise: 1 }),
			figuresOf({ ...stockB, shackle_longer: 1 }),
		]) {
			expect(found('pinion_turn')).toBeLessThan(0);
			expect(found('rear_drop')).toBeGreaterThan(0);
		}
	});

	// Common practice, no source.
	test('a longer hanging shackle raises the truck', () => {
		expect(figuresOf({ ...stockA, shackle_longer: 1 })('rear_drop')).toBeLessThan(0);
	});

	test('a drop at the front turns the frame nose-down, and a lift block taken out only lowers', () => {
		expect(figuresOf({ ...stockA, front_drop: 2 })('rake_change')).toBeLessThan(0);
		const block = figuresOf({ ...stockA, block: -2 });
		// Next to none: the frame tips, and its weight with it.
		expect(Math.abs(block('pinion_turn')) / degree).toBeLessThan(0.03);
		// Straight up on its seat, which leans by a few degrees.
		expect(Math.abs(block('rear_drop') / inch - 2)).toBeLessThan(0.02);
	});

	test('a wedge turns the pinion by its own angle, and the spring a little more', () => {
		for (const wedge of [-6, -2, 3]) {
			const found = figuresOf({ ...stockA, wedge_angle: wedge });
			// The axle's centre goes with it, fore or aft, and leans on the spring there.
			expect(found('pinion_turn') / degree / wedge).toBeGreaterThan(1);
			expect(found('pinion_turn') / degree / wedge).toBeLessThan(1.03);
		}
	});
});

describe('what the trade sees when only the front eye of a leaf of about 54 in goes up', () => {
	// A plausible light truck: 54 in of leaf with its seat well forward, 2 in of loaded arch.
	const plausible = {
		...stockA,
		leaf_front: '21.5',
		leaf_rear: '32.5',
		leaf_arch: '2',
		eye_to_pivot: '54',
		wheelbase: '125',
	};
	// What to type for this drop, by halving.
	let [low, high] = [0, 8];
	for (let round = 0; round < 50; round++) {
		const middle = (low + high) / 2;
		const drop = figuresOf({ ...plausible, eye_raise: String(middle) })('rear_drop');
		if (drop < 3.5 * inch) low = middle;
		else high = middle;
	}
	const raised = { ...plausible, eye_raise: String(low) };
	const found = figuresOf(raised);
	const toFloor = (figures: typeof found): number =>
		(figures('pinion_slope_after') - 5 * degree) / degree;

	// Common practice, no source: all of these.
	test('with the rear 3½ in lower the pinion points up by roughly 8° to the floor', () => {
		expect(found('rear_drop') / inch).toBeCloseTo(3.5, 6);
		expect(toFloor(found)).toBeGreaterThan(7);
		expect(toFloor(found)).toBeLessThan(9);
	});

	test('of that, 1½ to 2° is rake', () => {
		expect(found('rake_change') / degree).toBeGreaterThan(1.5);
		expect(found('rake_change') / degree).toBeLessThan(2);
	});

	test('the joints come ½ to 1¼ in closer', () => {
		expect(-found('shaft_length_change') / inch).toBeGreaterThan(0.5);
		expect(-found('shaft_length_change') / inch).toBeLessThan(1.25);
	});

	test('wedges of 6° nose-down bring the pinion back to within 2° of where it was', () => {
		const wedged = figuresOf({ ...raised, wedge_angle: '-6' });
		expect(Math.abs(toFloor(wedged))).toBeLessThan(2);
	});
});
