import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
	shaftOrder,
	slipLeft,
	slipRoomAtRide,
	splineBeyondTravel,
} from '../../src/lib/mechanics/slip.ts';
import { inch, slipRows } from './accuracy/standing.ts';

const length = fc.double({ min: 0.5, max: 2, noNaN: true });
const change = fc.double({ min: -0.1, max: 0.1, noNaN: true });
const part = fc.double({ min: 0, max: 0.2, noNaN: true });

describe('slip of the driveshaft', () => {
	it.each(slipRows())('$figure: $against', ({ error, held }) => {
		expect(error).toBeLessThanOrEqual(held);
	});

	it('leaves what was there when no length changes', () => {
		fc.assert(
			fc.property(length, part, part, (ride, engagement, room) => {
				const left = slipLeft(ride, engagement, room, ride, ride, ride);
				expect(left.leastEngagement).toBe(engagement);
				expect(left.leastRoom).toBe(room);
			}),
		);
	});

	it('neither makes nor loses spline: engagement and room add up to the same everywhere', () => {
		fc.assert(
			fc.property(
				length,
				length,
				length,
				length,
				part,
				part,
				(measured, ride, bump, droop, e, r) => {
					const left = slipLeft(measured, e, r, ride, bump, droop);
					expect(left.engagementAtRide + left.roomAtRide).toBeCloseTo(e + r, 12);
					expect(left.engagementAtBump + left.roomAtBump).toBeCloseTo(e + r, 12);
					expect(left.engagementAtDroop + left.roomAtDroop).toBeCloseTo(e + r, 12);
				},
			),
		);
	});

	it('comes to the same in two halves of a change as in the whole', () => {
		fc.assert(
			fc.property(length, change, part, part, (before, grown, over, under) => {
				const after = before + grown;
				// Enough of both that neither runs out half way.
				const engagement = 0.1 + over;
				const room = 0.1 + under;
				const half = (before + after) / 2;
				const whole = slipLeft(before, engagement, room, after, after, after);
				const first = slipLeft(before, engagement, room, half, half, half);
				const second = slipLeft(
					half,
					first.engagementAtRide,
					first.roomAtRide,
					after,
					after,
					after,
				);
				expect(second.leastEngagement).toBeCloseTo(whole.leastEngagement, 12);
				expect(second.leastRoom).toBeCloseTo(whole.leastRoom, 12);
			}),
		);
	});

	it('counts what is left where the shaft is longest, in bump if it grows there', () => {
		const left = slipLeft(1.4, 0.1, 0.04, 1.4, 1.414, 1.377);
		expect(left.leastEngagement).toBeCloseTo(0.086, 12);
		expect(left.leastEngagement).toBe(left.engagementAtBump);
		expect(left.leastRoom).toBe(left.roomAtDroop);
	});

	it('orders the ride length with an inch of room and an inch of spline over (common practice, no source)', () => {
		expect(slipRoomAtRide).toBe(inch); // NIST SP 811: 25.4 mm
		expect(splineBeyondTravel).toBe(inch);
		const order = shaftOrder(56 * inch, 55.6 * inch, 56.7 * inch, 0.25 * inch);
		expect(order.length / inch).toBeCloseTo(56, 12);
		expect(order.bottomedLength / inch).toBeCloseTo(55, 12);
		expect(order.splineNeeded / inch).toBeCloseTo(1 + 0.7 + 1, 12);
	});

	it('gives more room at ride when the travel takes more than an inch', () => {
		const order = shaftOrder(56 * inch, 54.8 * inch, 56.2 * inch, 0.25 * inch);
		expect(order.roomAtRide / inch).toBeCloseTo(1.45, 12);
	});

	it('orders a shaft that keeps what was wanted over the whole travel', () => {
		fc.assert(
			fc.property(length, length, length, part, (ride, bump, droop, kept) => {
				fc.pre(Math.min(bump, droop) - kept > 0.1 && ride > 0.2);
				const order = shaftOrder(ride, bump, droop, kept);
				const left = slipLeft(
					ride,
					order.splineNeeded - order.roomAtRide,
					order.roomAtRide,
					ride,
					bump,
					droop,
				);
				expect(left.leastEngagement).toBeCloseTo(splineBeyondTravel, 12);
				expect(left.leastRoom).toBeGreaterThanOrEqual(kept - 1e-12);
				expect(left.roomAtRide).toBeGreaterThanOrEqual(slipRoomAtRide);
			}),
		);
	});

	it('refuses less than no spline', () => {
		expect(() => slipLeft(1.4, -0.1, 0.04, 1.4, 1.4, 1.4)).toThrow(
			/^The spline engagement is -100 mm \(-3.937 in\)/,
		);
	});
});
