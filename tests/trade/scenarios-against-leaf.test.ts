/**
 * Every shipped scenario, through the worksheet as a person opens it, against the exact leaf of
 * tests/mechanics/large-deflection-leaf.ts. Readings and parts come from the scenario; mount, spring,
 * seat and axle are put together here anew.
 *
 * How close. The worksheet takes the loaded leaf for one arc. With the load as it was, both leaves
 * start from one measured arch and the parts hardly bend them: a drop from parts within ½ %. A change
 * of load does bend them, and there one arc is a little stiff: a drop from load within 5 %. The rear
 * drop is the two together, and what the load leaves uncertain is as much of the arch. The turn comes
 * from where the ends of the spring are: within 0.03°, a twentieth of what a gauge repeats to.
 */
import { expect, describe, test } from 'vitest';
import { jobFromScenario } from '../../src/lib/job/job.ts';
import { inputsOf, readingsOf } from '../../src/lib/job/reading.ts';
import { unitOf } from '../../src/lib/units/units.ts';
import { runAll } from '../../src/lib/engine/run.ts';
import {
	taperedLeaf,
	taperedLeafAtArch,
	taperedLeafAtLoad,
	usualFloor,
	type TaperedLeafAtRest,
} from '../mechanics/large-deflection-leaf.ts';
import { shipped } from '../language/shipped.ts';
import { numberIn, valueIn } from '../language/small-workbook.ts';

const degree = unitOf('deg')?.size ?? NaN;
const millimetre = unitOf('mm')?.size ?? NaN;

const ofParts = 0.005;
const ofLoad = 0.05;

test('there are scenarios, with parts moved and with the load changed', () => {
	const changing = (name: string): string[] =>
		shipped.scenarios.filter(({ values }) => values[name] !== '0').map(({ id }) => id);
	expect(shipped.scenarios.length).toBeGreaterThan(0);
	for (const name of ['eye_raise', 'pivot_raise', 'shackle_longer', 'seat_shift', 'load_change']) {
		expect(changing(name), name).not.toEqual([]);
	}
});

for (const scenario of shipped.scenarios) {
	const job = jobFromScenario(shipped, scenario, new Date(0));
	const run = runAll(shipped.graph, inputsOf(readingsOf(shipped.graph, job)));
	const figure = (name: string): number => numberIn(shipped, run, name);

	const stock = {
		eyeX: 0,
		eyeZ: 0,
		pivotX: -figure('eye_to_pivot'),
		pivotZ: figure('pivot_up'),
		shackleLength: figure('shackle_length'),
		stands: valueIn(shipped, run, 'shackle_stands') === 'standing',
	};
	const moved = {
		...stock,
		eyeX: figure('eye_forward'),
		eyeZ: figure('eye_raise'),
		pivotX: stock.pivotX + figure('pivot_forward'),
		pivotZ: stock.pivotZ + figure('pivot_raise'),
		shackleLength: stock.shackleLength + figure('shackle_longer'),
	};
	const load = figure('spring_load');

	/** Height of an axle so far above its seat, tipped with it and by the wedge. */
	const axleHeight = (rest: TaperedLeafAtRest, above: number, wedge: number): number =>
		rest.seatZ + above * Math.cos(rest.seatTurn + wedge);

	// From leaves drawn out thin at the eyes to leaves that keep a third of their stiffness there.
	describe.each([0.02, usualFloor, 1 / 3])(`${scenario.id}, stiffness at the eyes %f`, (floor) => {
		const leaf = taperedLeaf(figure('leaf_front'), figure('leaf_rear'), figure('leaf_rate'), floor);
		const before = taperedLeafAtArch(leaf, stock, figure('leaf_arch'), load);
		const withParts = taperedLeafAtLoad(leaf, before, moved, load);
		const after = taperedLeafAtLoad(leaf, withParts, moved, load + figure('load_change'));

		const heightBefore = axleHeight(before, figure('seat_to_axle'), 0);
		const seatAfter = figure('seat_to_axle') + figure('seat_shift');
		const wedge = figure('wedge_angle');
		const fromParts = axleHeight(withParts, seatAfter, wedge) - heightBefore;
		const rearDrop = axleHeight(after, seatAfter, wedge) - heightBefore;
		const fromLoad = rearDrop - fromParts;
		const parts = ofParts * Math.abs(fromParts);
		const loads = ofLoad * Math.abs(fromLoad);

		test('the drop from parts', () => {
			expect(Math.abs(figure('drop_from_parts') - fromParts)).toBeLessThan(parts);
		});

		test('the drop from load', () => {
			expect(Math.abs(figure('drop_from_load') - fromLoad)).toBeLessThanOrEqual(loads);
		});

		test('the rear drop', () => {
			// What smaller tyres bring is no matter of the spring.
			const withTyres = rearDrop + figure('rear_tyre_smaller');
			expect(Math.abs(figure('rear_drop') - withTyres)).toBeLessThan(parts + loads);
		});

		test('the turn that the spring gives the pinion', () => {
			const turn = after.seatTurn - before.seatTurn;
			expect(Math.abs(figure('turn_from_spring') - turn)).toBeLessThan(0.03 * degree);
		});

		test('the arch', () => {
			// With the load as it was the arch comes out to a tenth of a millimetre.
			const off = Math.abs(figure('arch_after') - after.arch);
			expect(off).toBeLessThan(loads + 0.1 * millimetre + parts);
		});
	});
}
