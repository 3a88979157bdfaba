/** What was found against what was planned: a part in the wrong hole, a shaft in two pieces, an order. */
import { expect, test } from 'vitest';
import { shipped } from '../language/shipped.ts';
import { answerTo } from './answer-to.ts';

const foundChecks = ['rear_height_found', 'pinion_found'] as const;

test('a front eye one hole low is found, and told from a rear one', () => {
	const { figure, plusMinus, level } = answerTo('hanger-and-shackle');
	for (const check of foundChecks) expect(level(check)).toBe('caution');
	expect(Math.abs(figure('front_eye_missing') - 1)).toBeLessThan(0.15);
	expect(figure('front_eye_missing')).toBeGreaterThan(2 * plusMinus('front_eye_missing'));
	expect(Math.abs(figure('rear_eye_missing'))).toBeLessThan(plusMinus('rear_eye_missing'));
	expect(level('order_length_measured')).not.toBe('clear');
});

test('with the hole it really is in, nothing is missing', () => {
	const { figure, plusMinus, level } = answerTo('hanger-and-shackle', 'eye_raise_fitted=3');
	for (const check of foundChecks) expect(level(check)).toBe('within');
	for (const off of ['rear_lip_off', 'pinion_turn_off', 'shaft_length_off']) {
		expect(Math.abs(figure(off))).toBeLessThan(plusMinus(off));
	}
});

test('the other three trucks are as planned', () => {
	for (const scenario of ['flip-and-wedge', 'short-frame', 'block-over']) {
		const { level } = answerTo(scenario);
		for (const check of foundChecks) expect(level(check)).toBe('within');
	}
});

test('a shaft in two pieces is judged by its three joints', () => {
	const readings = [
		'trans_slope_after_read=4',
		'shaft_slope_after_read=6.5',
		'pinion_slope_after_read=3.5',
		'centre_shaft_slope_after_read=4.5',
	];
	const one = answerTo('hanger-and-shackle', ...readings);
	// 6.5° less 4° in front and 6.5° less 3.5° at the rear.
	expect(one.figure('joints_left_found')).toBeCloseTo(0.5, 6);
	const two = answerTo('hanger-and-shackle', ...readings, 'shaft_pieces=two');
	expect(two.figure('centre_first_found')).toBeCloseTo(0.5, 6);
	expect(two.figure('front_joint_found')).toBeCloseTo(2, 6);
	expect(two.figure('rear_joint_found')).toBeCloseTo(3, 6);
	// Aimed at the front piece, a degree below it for the climb, and not at the transmission.
	expect(two.figure('wedge_correction')).toBeCloseTo(0, 6);
	expect(one.figure('wedge_correction')).toBeCloseTo(-0.5, 6);
	expect(two.level('order_taken_right')).toBe('clear');
});

test('a shaft in two pieces is chosen once, and its rear piece is the shaft of every sheet', () => {
	const two = answerTo('short-frame', 'shaft_pieces=two', 'frame_shortened=0', 'shaft_length=40');
	const one = answerTo('short-frame', 'trans_slope=4', 'frame_shortened=0', 'shaft_length=40');
	// What is ahead of the rear piece is the front piece, at 4°: as if a transmission stood so.
	for (const name of [
		...[
			'front_joint',
			'rear_joint',
			'shaft_length_after',
			'shaft_length_change',
			'slip_room_least',
		],
		...['joint_most_travel', 'front_joint_cruise', 'wedge_wanted', 'shaft_order_bottomed'],
	]) {
		expect(two.figure(name), name).toBeCloseTo(one.figure(name), 6);
	}
	// The transmission itself reads 3.2°, and has a joint of its own.
	expect(two.figure('centre_first_joint')).toBeCloseTo(0.8, 6);
	// In one plane, yokes in line: √|β₁² − β₂² + β₃²|, VDI 2722 (from memory).
	const level = answerTo('short-frame', 'shaft_pieces=two', 'pinion_offset_left=0');
	const [first = NaN, second = NaN, third = NaN] = [
		...['centre_first_joint', 'front_joint', 'rear_joint'],
	].map((name) => level.figure(name) ** 2);
	expect(level.figure('joint_left_over')).toBeCloseTo(
		Math.sqrt(Math.abs(first - second + third)),
		2,
	);
	// The longer of the two pieces whirls first.
	const long = answerTo('short-frame', 'shaft_pieces=two', 'centre_shaft_length=60');
	expect(long.figure('tube_length_usual')).toBe(60);
});

test('a spacer at the centre bearing turns the front piece about the transmission joint', () => {
	const plain = answerTo('short-frame', 'shaft_pieces=two');
	const spaced = answerTo('short-frame', 'shaft_pieces=two', 'centre_bearing_lowered=0.5');
	// 24 in at 4°, its rear end half an inch down.
	const [along, down] = [24 * Math.cos((4 * Math.PI) / 180), 24 * Math.sin((4 * Math.PI) / 180)];
	const turned = (Math.atan2(down + 0.5, along) * 180) / Math.PI - 4;
	expect(spaced.figure('centre_first_joint') - plain.figure('centre_first_joint')).toBeCloseTo(
		turned,
		6,
	);
	expect(spaced.figure('drive_slope_after') - plain.figure('drive_slope_after')).toBeCloseTo(
		turned,
		6,
	);
});

test('parts are chosen for all three joints, and the order has both pieces', () => {
	// Nothing moved: 2.7° and 3.2° make ½° in front, and 6° less 2.7° make 3.3° behind the bearing. In one plane the
	// third undoes both at √(3.3² − 0.5²), VDI 2722 (from memory).
	const third = Math.sqrt(3.3 ** 2 - 0.5 ** 2);
	const two = answerTo(
		'short-frame',
		...['shaft_pieces=two', 'centre_shaft_slope=2.7', 'shaft_slope=6', 'pinion_offset_left=0'],
		...['eye_raise', 'pivot_raise', 'load_change', 'wedge_angle'].map((name) => `${name}=0`),
		...['frame_shortened=0', 'front_drop=0', `pinion_slope=${(6 - third).toFixed(6)}`],
	);
	expect(two.figure('centre_first_joint')).toBeCloseTo(0.5, 6);
	expect(two.figure('rear_joint_that_cancels')).toBeCloseTo(third, 4);
	expect(two.figure('rear_joint')).toBeCloseTo(third, 4);
	// The chain itself, exactly over a turn, leaves next to nothing, though the pair that moves is not alike.
	expect(two.figure('joints_left')).toBeLessThan(0.1);
	expect(two.figure('joints_differ')).toBeCloseTo(3.3 - third, 4);
	expect(two.figure('mismatch_usual')).toBe(3);
	expect(two.figure('order_front_length')).toBeCloseTo(24, 9);
	const one = answerTo('short-frame');
	expect(one.figure('joints_left')).toBe(one.figure('joints_differ'));
	expect(one.figure('rear_joint_that_cancels')).toBeCloseTo(one.figure('front_joint'), 9);
	expect(one.figure('order_front_length')).toBe(0);
});

test('an order carries no wall thickness that nobody measured', () => {
	const order = shipped.pages.find(({ id }) => id === 'order');
	const quoted = JSON.stringify(order?.parts.flatMap((p) => (p.part === 'prose' ? p.tokens : [])));
	expect(quoted).toContain('{order_tube_wall}');
	expect(quoted).not.toContain('{tube_wall}');
	const wall = shipped.graph.byId.get('order_tube_wall')?.input;
	expect(wall).toMatchObject({ name: 'order_tube_wall' });
	expect(wall?.default).toBeUndefined();
	expect(wall?.startsAs).toBeUndefined();
});
