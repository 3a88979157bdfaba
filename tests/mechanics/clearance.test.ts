import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
	hoseSlack,
	mountToMount,
	notchRoom,
	placeOnAxle,
	roomAboveAxle,
	shaftRise,
	shockMotionRatio,
	shockOverTravel,
	shockStroke,
	tyreToFender,
} from '../../src/lib/mechanics/clearance.ts';
import { OutOfRange } from '../../src/lib/mechanics/out-of-range.ts';
import { clearanceRows, inch } from './accuracy/standing.ts';

// Without the negative zero, which no tape reads.
const some = fc.double({ min: -0.5, max: 0.5, noNaN: true }).map((value) => value + 0);
const part = fc.double({ min: 0, max: 0.3, noNaN: true });

describe('clearances', () => {
	it.each(clearanceRows())('$figure: $against', ({ error, held }) => {
		expect(error).toBeLessThanOrEqual(held);
	});
});

describe('room above the axle', () => {
	it('loses to a drop what the drop is, and gains what stop and notch give', () => {
		const room = roomAboveAxle(4 * inch, 5.5 * inch, 3 * inch, 1 * inch, 2 * inch);
		expect(room.toBumpStop / inch).toBeCloseTo(2, 12);
		expect(room.toFrame / inch).toBeCloseTo(4.5, 12);
		expect(room.stopSqueeze / inch).toBeCloseTo(2.5, 12);
		expect(room.stopMetFirst).toBe(true);
	});

	it('says so when the frame is met before the stop', () => {
		expect(roomAboveAxle(0.1, 0.12, 0.05, 0.03, 0).stopMetFirst).toBe(false);
	});

	it('is as it was when nothing changes, and two halves make the whole', () => {
		fc.assert(
			fc.property(some, some, some, (stop, frame, rise) => {
				const same = roomAboveAxle(stop, frame, 0, 0, 0);
				expect([same.toBumpStop, same.toFrame]).toEqual([stop, frame]);
				const half = roomAboveAxle(stop, frame, rise / 2, 0, 0);
				const halves = roomAboveAxle(half.toBumpStop, half.toFrame, rise / 2, 0, 0);
				const whole = roomAboveAxle(stop, frame, rise, 0, 0);
				expect(halves.toBumpStop).toBeCloseTo(whole.toBumpStop, 12);
				expect(halves.toFrame).toBeCloseTo(whole.toFrame, 12);
			}),
		);
	});
});

describe('shock', () => {
	it('keeps its mount at the same distance from the axle centre however the axle turns', () => {
		fc.assert(
			fc.property(some, some, some, (ahead, above, turn) => {
				const place = placeOnAxle({ x: -1.3, z: -0.2, turn }, ahead, above);
				expect(Math.hypot(place.x + 1.3, place.z + 0.2)).toBeCloseTo(Math.hypot(ahead, above), 12);
			}),
		);
		expect(placeOnAxle({ x: 1, z: 2, turn: 0 }, 0.1, -0.2)).toEqual({ x: 1.1, z: 1.8 });
	});

	it('is the third side of a right triangle: 12 in over, 16 in up is 20 in', () => {
		const stroke = shockOverTravel(
			0,
			12 * inch,
			16 * inch,
			3 * inch,
			4 * inch,
			14 * inch,
			24 * inch,
		);
		expect(stroke.ride / inch).toBeCloseTo(20, 12);
		expect(stroke.bump / inch).toBeCloseTo(Math.sqrt(144 + 169), 12);
		expect(stroke.droop / inch).toBeCloseTo(Math.sqrt(144 + 400), 12);
		expect(stroke.closingShare).toBeCloseTo(0.6, 12);
		expect(stroke.openingShare).toBeCloseTo(0.4, 12);
		expect(stroke.leftClosing / inch).toBeCloseTo(Math.sqrt(313) - 14, 12);
		expect(stroke.leftOpening / inch).toBeCloseTo(24 - Math.sqrt(544), 12);
		expect(shockMotionRatio(0, 12 * inch, 9 * inch)).toBeCloseTo(0.6, 12);
	});

	it('has a motion ratio that adds up, millimetre by millimetre, to the stroke it takes', () => {
		let shortened = 0;
		for (let rise = 0.0005; rise < 0.1; rise += 0.001) {
			shortened += 0.001 * shockMotionRatio(0.05, 0.2, 0.35 - rise);
		}
		const stroke = shockOverTravel(0.05, 0.2, 0.35, 0.1, 0, 0.2, 0.6);
		expect(shortened).toBeCloseTo(stroke.ride - stroke.bump, 7);
	});

	it('is as long as it was with no travel, and two halves of the travel make the whole', () => {
		fc.assert(
			fc.property(some, some, some, part, part, (forward, sideways, up, bump, droop) => {
				const still = shockOverTravel(forward, sideways, up, 0, 0, 0.2, 0.6);
				expect([still.bump, still.droop]).toEqual([still.ride, still.ride]);
				const whole = shockOverTravel(forward, sideways, up, bump, droop, 0.2, 0.6);
				const second = (moved: number) =>
					shockOverTravel(forward, sideways, up + moved, bump / 2, droop / 2, 0.2, 0.6);
				expect(second(-bump / 2).bump).toBeCloseTo(whole.bump, 12);
				expect(second(droop / 2).droop).toBeCloseTo(whole.droop, 12);
				expect(hoseSlack(0.7, forward, sideways, up + droop / 2, droop / 2)).toBeCloseTo(
					hoseSlack(0.7, forward, sideways, up, droop),
					12,
				);
			}),
		);
	});

	it('leans no further when forward and sideways change places', () => {
		fc.assert(
			fc.property(some, some, some, (forward, sideways, up) => {
				expect(mountToMount(forward, sideways, up)).toBeCloseTo(
					mountToMount(-sideways, forward, up),
					14,
				);
			}),
		);
	});

	it('refuses a shock that is no longer open than closed, and mounts in one place', () => {
		expect(() => shockStroke(0.4, 0.3, 0.5, 0.6, 0.3)).toThrow(OutOfRange);
		expect(() => shockStroke(0.4, 0.3, 0.5, 0.6, 0.3)).toThrow(
			/300 mm .* open and 600 mm .* closed/,
		);
		expect(() => shockMotionRatio(0, 0, 0)).toThrow(
			/^The distance between the shock mounts is 0 mm/,
		);
	});
});

describe('tyre and hose', () => {
	it('measures the gap to the lip from the floor up', () => {
		expect(tyreToFender(0.8, 0.34, 0.36, 0)).toBeCloseTo(0.1, 12);
		expect(tyreToFender(0.8, 0.34, 0.36, 0.12)).toBeCloseTo(-0.02, 12);
	});

	it('finds the hose slack by laying it out: 3-4-12 is 13', () => {
		expect(hoseSlack(14 * inch, 3 * inch, 4 * inch, 8 * inch, 4 * inch) / inch).toBeCloseTo(1, 12);
		expect(hoseSlack(12 * inch, 3 * inch, 4 * inch, 8 * inch, 4 * inch)).toBeLessThan(0);
	});

	it('takes from the slack never more than the axle falls', () => {
		fc.assert(
			fc.property(some, some, some, part, (x, y, z, droop) => {
				const lost = hoseSlack(0.5, x, y, z, 0) - hoseSlack(0.5, x, y, z, droop);
				expect(Math.abs(lost)).toBeLessThanOrEqual(droop + 1e-12);
			}),
		);
	});
});

/** The shaft between two joints, by its two ends alone. */
function between(front: { x: number; z: number }, rear: { x: number; z: number }) {
	return {
		length: Math.hypot(front.x - rear.x, front.z - rear.z),
		slope: Math.atan2(front.z - rear.z, front.x - rear.x),
	};
}

describe('what lies over the shaft', () => {
	const front = { x: 1.1, z: 0.12 };
	const was = { x: -0.3, z: -0.06 };

	it('is found by walking along both shafts, ten thousand steps each', () => {
		fc.assert(
			fc.property(some, some, part, (forward, up, ahead) => {
				const is = { x: was.x + forward / 5, z: was.z + up / 2 };
				const place = was.x + 0.2 + ahead;
				const heightAt = (rear: { x: number; z: number }): number => {
					let nearest = { off: Infinity, z: NaN };
					for (let step = 0; step <= 10_000; step++) {
						const share = step / 10_000;
						const x = rear.x + share * (front.x - rear.x);
						const off = Math.abs(x - place);
						if (off < nearest.off) nearest = { off, z: rear.z + share * (front.z - rear.z) };
					}
					return nearest.z;
				};
				const rise = shaftRise(was, between(front, was), is, between(front, is), 0.2 + ahead);
				// Half a step of 0.15 mm, at most as steep as this.
				expect(Math.abs(rise - (heightAt(is) - heightAt(was)))).toBeLessThan(1.5e-4);
			}),
			{ numRuns: 40 },
		);
	});

	it('comes up by all of it over the pinion, by half halfway, by none at the transmission', () => {
		const is = { x: was.x, z: was.z + 0.08 };
		const rise = (ahead: number): number =>
			shaftRise(was, between(front, was), is, between(front, is), ahead);
		expect(rise(0)).toBeCloseTo(0.08, 12);
		expect(rise(0.7)).toBeCloseTo(0.04, 12);
		expect(rise(1.4)).toBeCloseTo(0, 12);
	});

	it('refuses a place ahead of the shaft', () => {
		const shaft = between(front, was);
		expect(() => shaftRise(was, shaft, was, shaft, 1.6)).toThrow(/1600 mm .* ends after 1400 mm/);
	});
});

describe('a notch', () => {
	it('holds a 3 in tube in 11 in with 4 in each way, less what it stands off the middle', () => {
		const { ahead, behind, least } = notchRoom(11 * inch, 0.5 * inch, 3 * inch, 1.25 * inch);
		expect(ahead / inch).toBeCloseTo(3.25, 12);
		expect(behind / inch).toBeCloseTo(4.75, 12);
		expect(least / inch).toBeCloseTo(3.25, 12);
	});
});
