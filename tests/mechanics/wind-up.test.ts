import { describe, expect, test } from 'vitest';
import { leafSpring, windUpStiffness } from '../../src/lib/mechanics/leaf-spring.ts';
import {
	axleLoadPulling,
	drivelineUnderTorque,
	engineWheelTorque,
	gripTorque,
	hardestTorque,
	pinionClimb,
	seatTorqueShare,
	roadLoadTorque,
} from '../../src/lib/mechanics/wind-up.ts';
import { degree, windUpRows } from './accuracy/rotating.ts';

for (const row of windUpRows()) {
	test(`${row.figure}, against ${row.against}`, () => {
		expect(row.error).toBeLessThanOrEqual(row.held);
	});
}

describe('the share of the torque that the seats take', () => {
	test.each([
		['springs over the axle', -0.075],
		['springs under it', 0.05],
		['the seat at its height', 0],
	])('%s: the moments on axle and wheels come to nothing', (_, seatToAxle) => {
		// Forces on axle and wheels, side view: the road's push at the floor and the spring's answer at the seat.
		const [radius, torque] = [0.34, 900];
		const push = torque / radius;
		const floor = { x: 0, z: -radius };
		const seat = { x: 0, z: -seatToAxle };
		const held = seatTorqueShare(radius, seatToAxle) * torque;
		// Nose-up moment about any place at all: the push forward, its answer backward, and what the seats hold.
		for (const about of [-1, 0, 0.3]) {
			const nosing = push * (about - floor.z) - push * (about - seat.z) - held;
			expect(nosing).toBeCloseTo(0, 9);
		}
	});

	test('is all of it when the seat stands at the height of the axle, and more above', () => {
		expect(seatTorqueShare(0.34, 0)).toBe(1);
		expect(seatTorqueShare(0.34, -0.0762)).toBeGreaterThan(1.2);
		expect(() => seatTorqueShare(0, 0)).toThrow(/The loaded tyre radius/);
	});
});

describe('pinion climb', () => {
	test('goes with torque, its sign too', () => {
		expect(pinionClimb(1000, 10_000)).toBe(0.05);
		expect(pinionClimb(-1000, 10_000)).toBe(-0.05);
	});

	test('a torque that would wrap the springs up is refused in words', () => {
		expect(() => pinionClimb(50_000, 10_000)).toThrow(/wind these springs up by/);
		expect(() => pinionClimb(-50_000, 10_000)).toThrow(/wind these springs up by/);
	});

	test('a degree or two at cruise to first gear on a road truck (common practice, no source)', () => {
		const stiffness = windUpStiffness(leafSpring(0.61, 0.76, 28_000));
		const cruise = pinionClimb(roadLoadTorque(1800, 29, 0.35, 0.012, 1.2, 1.225), stiffness);
		expect(cruise / degree).toBeGreaterThan(0.2);
		expect(cruise / degree).toBeLessThan(2);
	});

	test('a pinion set a degree or two below parallel comes up to it on a hill (common practice, no source)', () => {
		const stiffness = windUpStiffness(leafSpring(0.61, 0.76, 28_000));
		const [transmission, shaft] = [5 * degree, 7 * degree];
		const mismatch = (below: number, grade: number): number => {
			const torque = roadLoadTorque(1800, 25, 0.35, 0.012, 1.2, 1.225, grade);
			return drivelineUnderTorque(
				transmission,
				shaft,
				transmission - below * degree,
				1.4,
				0.3,
				-0.04,
				pinionClimb(torque, stiffness),
			).mismatch;
		};
		// Below parallel the rear joint has the greater angle; past parallel the front one.
		expect(mismatch(1, 0)).toBeGreaterThan(0);
		expect(mismatch(1, 0.06)).toBeLessThan(0);
		expect(mismatch(2, 0.06)).toBeGreaterThan(0);
		expect(mismatch(2, 0.12)).toBeLessThan(0);
	});
});

describe('torque', () => {
	test('road load by hand: 1800 kg at 30 m/s, 211.82 N rolling and 661.5 N of air on 0.35 m', () => {
		expect(roadLoadTorque(1800, 30, 0.35, 0.012, 1.2, 1.225)).toBeCloseTo(305.66, 2);
	});

	test('grade: what it takes to stand still on 1 in 10 is the weight along it', () => {
		expect(roadLoadTorque(1000, 0, 1, 0, 0, 0, 0.1)).toBeCloseTo(
			(9806.65 * 0.1) / Math.sqrt(1.01),
			9,
		);
		expect(roadLoadTorque(1000, 0, 1, 0, 0, 0, -0.1)).toBeLessThan(0);
	});

	test('power at the wheels is force times road speed', () => {
		const [speed, radius] = [25, 0.33];
		const power = (roadLoadTorque(1700, speed, radius, 0.013, 1.1, 1.2) * speed) / radius;
		expect(power).toBeCloseTo(1700 * 9.80665 * 0.013 * speed + 0.6 * 1.1 * speed ** 3, 6);
	});

	test('a pulling truck leans on its rear axle just as its own pull makes it', () => {
		const [load, grip, height, wheelbase] = [7000, 0.9, 0.65, 3];
		const pulling = axleLoadPulling(load, grip, height, wheelbase);
		expect(pulling).toBeCloseTo(load + (grip * pulling * height) / wheelbase, 9);
		expect(axleLoadPulling(load, grip, 0, wheelbase)).toBe(load);
		expect(() => axleLoadPulling(load, 2, 3, wheelbase)).toThrow(/stand up on its rear wheels/);
	});

	test('the less of engine and grip is what the axle sees', () => {
		const grip = gripTorque(7000, 0.9, 0.35);
		expect(grip).toBeCloseTo(2205, 9);
		const engine = engineWheelTorque(300, 3, 3.55, 0.9);
		expect(engine).toBeCloseTo(2875.5, 9);
		expect(hardestTorque(grip, engine)).toEqual({ torque: grip, gripLimited: true });
		expect(hardestTorque(grip, 1000)).toEqual({ torque: 1000, gripLimited: false });
	});
});

describe('the driveline under torque', () => {
	const rest = [5 * degree, 7 * degree, 3 * degree, 1.4, 0.3, -0.04] as const;

	test('with no climb is as it was, to the last bit', () => {
		const still = drivelineUnderTorque(...rest, 0);
		expect(still.shaftSlope).toBe(7 * degree);
		expect(still.front / degree).toBeCloseTo(2, 12);
		expect(still.rear / degree).toBeCloseTo(4, 12);
		expect(still.mismatch / degree).toBeCloseTo(2, 12);
	});

	test('a pinion two degrees down comes up to parallel when the joint is on the axle centre', () => {
		const up = drivelineUnderTorque(5 * degree, 7 * degree, 3 * degree, 1.4, 0, 0, 2 * degree);
		expect(up.mismatch).toBeCloseTo(0, 12);
		expect(up.pinionSlope / degree).toBeCloseTo(5, 12);
		expect(up.shaftSlope / degree).toBeCloseTo(7, 12);
	});

	test('the rising nose flattens the shaft by its rise over the shaft length', () => {
		const small = 1e-6;
		const up = drivelineUnderTorque(...rest, small);
		// The joint moves square to its arm from the axle centre; across the shaft, that is this much.
		const along = 0.3 * Math.cos(4 * degree) - 0.04 * Math.sin(4 * degree);
		expect((up.shaftSlope - 7 * degree) / small).toBeCloseTo(-along / 1.4, 5);
	});
});
