import { describe, expect, test } from 'vitest';
import {
	axleLoadPulling,
	engineWheelTorque,
	gripTorque,
	hardestTorque,
	roadLoadTorque,
} from '../../src/lib/mechanics/wind-up.ts';
import { windUpRows } from './accuracy/rotating.ts';

for (const row of windUpRows()) {
	test(`${row.figure}, against ${row.against}`, () => {
		expect(row.error).toBeLessThanOrEqual(row.held);
	});
}

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
