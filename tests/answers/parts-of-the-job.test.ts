/**
 * Parts of the job beyond spring and joints, each by a road of its own: by hand, by another figure of the
 * workbook, or by numbers put together here.
 */
import { describe, expect, test } from 'vitest';
import { answerTo } from './answer-to.ts';

const truck = 'hanger-and-shackle';

describe('what clears', () => {
	test('a block takes from each gap what it lifts there', () => {
		// The axle of this truck lies over its springs: a block lifts it straight up and turns next to nothing.
		const gaps = ['over_shaft_gap=150', 'over_shaft_ahead=0', 'over_pinion_gap=190'];
		const { figure } = answerTo('block-over', ...gaps, 'exhaust_gap=200', 'bump_travel=90');
		const rise = figure('axle_rise_at_rest');
		expect(figure('over_pinion_ride')).toBeCloseTo(190 - rise, 0);
		// Over the joint itself the shaft comes up as the pinion does.
		expect(150 - figure('over_shaft_ride')).toBeCloseTo(190 - figure('over_pinion_ride'), 0);
		expect(figure('exhaust_bump')).toBeCloseTo(200 - rise - 90, 6);
	});

	test('a gap is least at an end of the travel, and the charts’ line ends there', () => {
		const { figure } = answerTo(truck);
		const [bump, droop] = [answerTo(truck, 'axle_rise=3.25'), answerTo(truck, 'axle_rise=-2.625')];
		for (const gap of ['over_shaft', 'under_shaft', 'over_pinion', 'exhaust']) {
			expect(bump.figure(`${gap}_travel`)).toBeCloseTo(figure(`${gap}_bump`), 9);
			expect(droop.figure(`${gap}_travel`)).toBeCloseTo(figure(`${gap}_droop`), 9);
			for (const rise of [-2, -1, 1, 2, 3]) {
				const between = answerTo(truck, `axle_rise=${String(rise)}`).figure(`${gap}_travel`);
				expect(between).toBeGreaterThanOrEqual(figure(`${gap}_least`) - 1e-9);
			}
		}
	});

	test('a notch in the wrong place stops the job, and none is asked of a truck without one', () => {
		const { figure, level } = answerTo('flip-and-wedge', 'notch_ahead=90', 'notch_length=220');
		// 220 mm less a 76 mm tube, half each way, less what the wheel stands off its middle at full bump.
		expect(figure('notch_room_least')).toBeCloseTo(
			72 - Math.abs(figure('wheel_forward_bump') - 90),
			6,
		);
		expect(level('notch_clears')).toBe('stop');
		expect(answerTo(truck, 'notch_ahead=4', 'notch_length=4').level('notch_clears')).toBe('clear');
	});
});

describe('what it may carry', () => {
	test('by hand: plate 4300, weighed 3060; rear axle 2300, weighed 1280, the load 8 in ahead of it', () => {
		const { figure, level } = answerTo(truck);
		const share = 1 - 8 / figure('wheelbase_after');
		expect(figure('payload_after')).toBeCloseTo(1020 / share, 6);
		expect(level('payload_allowed')).toBe('clear');
		expect(answerTo(truck, 'payload_wanted=1200').level('payload_allowed')).toBe('stop');
		// With the plate at 4000 there are 940 left, and the whole truck is at its limit first.
		expect(answerTo(truck, 'gross_rating=4000').figure('payload_after')).toBeCloseTo(940, 6);
	});

	test('a load ahead of the rear axle weighs on the front one too, and its plate stops it', () => {
		// 1780 on the scale and 500 a wheelbase’s 40th to 48th part ahead: 8 in of 117.22.
		const { figure, level } = answerTo(truck);
		expect(figure('front_axle_loaded')).toBeCloseTo(
			1780 + (500 * 8) / figure('wheelbase_after'),
			6,
		);
		expect(level('front_axle_allowed')).toBe('clear');
		expect(answerTo(truck, 'front_axle_rating=1700').level('front_axle_allowed')).toBe('stop');
	});

	test('tyres of 900 lbf each hold the rear axle to 1800', () => {
		expect(answerTo(truck, 'tyre_load=900').figure('rear_allowed')).toBeCloseTo(1800, 6);
	});

	test('a leaf out takes from the rated load what it takes from the rate', () => {
		const { figure } = answerTo(truck, 'leaves_out=1', 'leaf_rate_times=0.777778');
		// Stress of a leaf, 12 F l / (b t² (2 n_g + 3 n_f)), Khurmi & Gupta, Machine Design (from memory):
		// one of full length and three shorter ones, then two.
		expect(figure('leaf_out_stress')).toBeCloseTo((3 * 1 + 2 * 3) / (3 * 1 + 2 * 2), 9);
		// 2300 on the plate, 340 of it axle and wheels.
		expect(figure('spring_rated')).toBeCloseTo(980, 9);
		expect(figure('spring_rated_after')).toBeCloseTo((980 * 7) / 9, 2);
		expect(figure('rear_allowed')).toBeCloseTo(340 + (2 * 980 * 7) / 9, 2);
	});
});

describe('what the speedometer says', () => {
	test('on 12 1/2 in instead of 13 1/8: 65 shown are 61.9, and the gear wants a tooth more', () => {
		const { figure, level } = answerTo(truck, 'rear_tyre_smaller=5/8', 'wheel_sensors=all');
		expect(figure('speed_true')).toBeCloseTo(61.90476, 4);
		expect(figure('odometer_hundred')).toBeCloseTo(105, 9);
		expect(figure('speedometer_teeth_after')).toBe(20);
		expect(figure('tyres_unlike')).toBeCloseTo(5, 9);
		expect(level('antilock_tyres')).not.toBe('clear');
	});

	test('smaller all round is nothing to anti-lock brakes, and a bigger tyre shows too little', () => {
		const both = ['rear_tyre_smaller=5/8', 'front_tyre_smaller=5/8', 'wheel_sensors=all'];
		const alike = answerTo(truck, ...both);
		expect(Math.abs(alike.figure('tyres_unlike'))).toBeLessThan(0.01);
		expect(alike.level('antilock_tyres')).toBe('clear');
		expect(answerTo(truck, 'rear_tyre_smaller=-5/8').level('speedometer_right')).toBe('caution');
	});
});

describe('whether it is square', () => {
	test('half an inch over 56 in is half a degree, and the left pin has to go forward', () => {
		const sides = ['wheelbase_left_after=117 1/2', 'wheelbase_right_after=117', 'rear_track=56'];
		const { figure, level } = answerTo(truck, ...sides, 'springs_apart=42');
		expect(figure('thrust_angle')).toBeCloseTo((Math.asin(0.5 / 56) * 180) / Math.PI, 9);
		expect(figure('left_pin_forward')).toBeCloseTo(0.375, 9);
		expect(level('axle_is_square')).not.toBe('clear');
		expect(answerTo(truck).level('axle_is_square')).toBe('clear');
	});
});

describe('a shim under the transmission mount', () => {
	test('tips the transmission by its thickness over the distance to the engine’s mounts', () => {
		const [plain, shimmed] = [answerTo(truck), answerTo(truck, 'mount_shim=1/2')];
		const tilt = (Math.atan2(0.5, 33) * 180) / Math.PI;
		expect(plain.figure('trans_slope_after') - shimmed.figure('trans_slope_after')).toBeCloseTo(
			tilt,
			9,
		);
	});
});

describe('a bar that holds the axle', () => {
	const bar = ['holder_ahead=36', 'holder_gap=1/8', 'holder_rate=6000'];

	test('takes from the climb, and the allowance, the wedge and the joints under power follow', () => {
		const without = answerTo(truck);
		const withBar = answerTo(truck, ...bar, 'axle_holder=bars');
		expect(withBar.figure('climb_without_holder')).toBe(without.figure('pinion_climb'));
		expect(withBar.figure('pinion_climb')).toBeLessThan(without.figure('pinion_climb') - 0.5);
		expect(withBar.figure('hardest_climb')).toBeLessThan(without.figure('hardest_climb') - 1);
		expect(withBar.figure('rear_joint_power')).not.toBe(without.figure('rear_joint_power'));
		// Half the climb, to the half degree, and between ½° and 2°.
		const half = Math.round(withBar.figure('pinion_climb')) / 2;
		expect(withBar.figure('wind_up_suggested')).toBeCloseTo(Math.max(0.5, half), 9);
	});

	test('one snubber does as two bars of half its rate', () => {
		const two = answerTo(truck, ...bar, 'axle_holder=bars', 'holder_rate=3000');
		const one = answerTo(truck, ...bar, 'axle_holder=snubber');
		expect(one.figure('pinion_climb')).toBeCloseTo(two.figure('pinion_climb'), 9);
		expect(one.figure('holder_force')).toBeCloseTo(2 * two.figure('holder_force'), 6);
	});

	test('one that ends far ahead of the front eye ends the travel, and is said to', () => {
		const long = answerTo(truck, 'axle_holder=bars', 'holder_ahead=40');
		expect(long.level('holder_over_travel')).toBe('caution');
		const ladder = answerTo(truck, 'axle_holder=ladder', 'holder_ahead=45');
		expect(ladder.level('holder_over_travel')).toBe('stop');
		// The droop it has is a place of the travel: where that lies, a line from the axle’s centre ends as it is said to.
		const down = answerTo(truck, 'axle_rise=-2.625');
		const turned =
			down.figure('pinion_slope_travel') - answerTo(truck).figure('pinion_slope_travel');
		expect(ladder.figure('holder_end_droop')).toBeCloseTo(
			-2.625 + (45 * turned * Math.PI) / 180,
			1,
		);
	});
});

describe('which front it has', () => {
	test('torsion bars: the drop is the one measured, it takes travel, and nothing is said of a coil', () => {
		const { figure, level, text } = answerTo(
			truck,
			...['front_kind=torsion', 'front_part_drop=1 1/2', 'spindle_drop=0', 'coils_trimmed=1'],
		);
		expect(figure('front_drop_from_trim')).toBeCloseTo(1.5, 9);
		expect(figure('front_bump_left')).toBeCloseTo(3.5 - 1.5, 9);
		for (const check of ['coil_bind', 'trimmed_too_much', 'coil_seated', 'frequencies_together']) {
			expect(level(check), check).toBe('unknown');
			expect(text(check)).toMatch(/stands on 0 coils/);
		}
	});

	test('a dropped beam takes no travel, and caster goes with the rake on any front', () => {
		const beam = answerTo(truck, 'front_kind=solid', 'front_part_drop=3', 'front_drop=3');
		expect(beam.figure('front_bump_left')).toBeCloseTo(3.5, 9);
		for (const { figure } of [beam, answerTo(truck)]) {
			expect(figure('caster_after')).toBeCloseTo(1.5 + figure('rake_change'), 9);
		}
		expect(beam.figure('caster_after')).toBeLessThan(1.5);
	});
});
