import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
	axleSquare,
	frameTurn,
	headlampAimDistance,
	headlampRise,
	rearDropForTurn,
	rearDropToLevel,
	turnOfHeights,
	tyreInOpening,
	wheelbaseAfter,
} from '../../src/lib/mechanics/stance.ts';
import { degree, inch, stanceRows } from './accuracy/standing.ts';

const drop = fc.double({ min: -0.3, max: 0.3, noNaN: true });
const height = fc.double({ min: 0.2, max: 1.2, noNaN: true });
const wheelbase = fc.double({ min: 2, max: 4, noNaN: true });

describe('stance', () => {
	it.each(stanceRows())('$figure: $against', ({ error, held }) => {
		expect(error).toBeLessThanOrEqual(held);
	});
});

describe('turn of the frame', () => {
	it('is none when both ends drop alike', () => {
		fc.assert(
			fc.property(drop, wheelbase, (down, base) => {
				expect(frameTurn(down, down, base)).toBe(0);
			}),
		);
	});

	it('is nose-up when the rear drops', () => {
		expect(frameTurn(0, 0.05, 3)).toBeGreaterThan(0);
		expect(turnOfHeights(0.6, 0.55, 3)).toBeGreaterThan(0);
	});

	it('gives the drop back', () => {
		fc.assert(
			fc.property(drop, drop, wheelbase, (front, rear, base) => {
				expect(rearDropForTurn(frameTurn(front, rear, base), front, base)).toBeCloseTo(rear, 12);
			}),
		);
	});

	it('comes to the same from heights as from drops on a truck that stood level', () => {
		fc.assert(
			fc.property(height, drop, drop, wheelbase, (stock, front, rear, base) => {
				fc.pre(stock > 0.3 + Math.max(front, rear) / 2 && stock - front >= 0 && stock - rear >= 0);
				expect(turnOfHeights(stock - front, stock - rear, base)).toBeCloseTo(
					frameTurn(front, rear, base),
					12,
				);
			}),
		);
	});

	it('is none once the rear drops to level', () => {
		fc.assert(
			fc.property(
				height,
				height,
				fc.double({ min: 1, max: 3, noNaN: true }),
				wheelbase,
				(f, r, apart, base) => {
					const down = rearDropToLevel(f, r, apart, base);
					// The turn the truck had, and the turn the drop gives it.
					expect(turnOfHeights(f, r, apart) + frameTurn(0, down, base)).toBeCloseTo(0, 12);
				},
			),
		);
	});
});

describe('headlamps', () => {
	it('are aimed at 25 ft (SAE J599, from memory): 7.62 m by NIST SP 811', () => {
		expect(headlampAimDistance).toBeCloseTo(7.62, 14);
		expect(headlampAimDistance / inch).toBeCloseTo(300, 10);
	});

	it('go up with the nose, 5.24 in for a degree (300 in times tan 1°)', () => {
		expect(headlampRise(degree) / inch).toBeCloseTo(5.2365, 4);
		expect(headlampRise(-degree)).toBe(-headlampRise(degree));
		expect(headlampRise(0)).toBe(0);
	});

	it('rise at 25 ft as the rear drops, by the lever of the wheelbase', () => {
		fc.assert(
			fc.property(drop, wheelbase, (down, base) => {
				expect(headlampRise(frameTurn(0, down, base))).toBeCloseTo(
					(down * headlampAimDistance) / base,
					12,
				);
			}),
		);
	});
});

describe('wheelbase and wheel opening', () => {
	it('shortens by what the axle goes forward and what the frame loses', () => {
		expect(wheelbaseAfter(118 * inch, 0.66 * inch, 0) / inch).toBeCloseTo(117.34, 10);
		expect(wheelbaseAfter(118 * inch, 0.66 * inch, 6 * inch) / inch).toBeCloseTo(111.34, 10);
		expect(wheelbaseAfter(3, 0, 0)).toBe(3);
		expect(() => wheelbaseAfter(1, 0.5, 0.6)).toThrow(
			/^The wheelbase after the job is -100 mm \(-3.937 in\)/,
		);
	});

	it('centres the tyre by as much seat shift as it stands off', () => {
		fc.assert(
			fc.property(height, height, drop, (ahead, behind, forward) => {
				const stands = tyreInOpening(ahead, behind, forward);
				expect(stands.ahead + stands.behind).toBeCloseTo(ahead + behind, 12);
				const centred = tyreInOpening(stands.ahead, stands.behind, -stands.forwardOfMiddle);
				expect(centred.ahead).toBeCloseTo(centred.behind, 12);
				expect(centred.forwardOfMiddle).toBeCloseTo(0, 12);
			}),
		);
	});

	it('comes to the same in two halves as in the whole', () => {
		fc.assert(
			fc.property(height, height, drop, (ahead, behind, forward) => {
				const half = tyreInOpening(ahead, behind, forward / 2);
				const halves = tyreInOpening(half.ahead, half.behind, forward / 2);
				const whole = tyreInOpening(ahead, behind, forward);
				expect(halves.ahead).toBeCloseTo(whole.ahead, 12);
				expect(halves.forwardOfMiddle).toBeCloseTo(whole.forwardOfMiddle, 12);
				expect(wheelbaseAfter(wheelbaseAfter(3, forward / 2, 0), forward / 2, 0)).toBeCloseTo(
					wheelbaseAfter(3, forward, 0),
					12,
				);
			}),
		);
	});
});

describe('a crooked axle', () => {
	/** Rear hubs of an axle turned about its middle; front hubs straight across, 2.9 m ahead. x forward, y left. */
	function hubs(turn: number, track: number) {
		const at = (left: 1 | -1): { x: number; y: number } => ({
			x: -Math.sin(turn) * left * (track / 2),
			y: Math.cos(turn) * left * (track / 2),
		});
		// The tape lies along the truck, from plumb mark to plumb mark.
		return { left: 2.9 - at(1).x, right: 2.9 - at(-1).x, leftHub: at(1), rightHub: at(-1) };
	}

	it('is found again from its hubs, turned either way', () => {
		fc.assert(
			fc.property(
				fc.double({ min: -0.2, max: 0.2, noNaN: true }),
				fc.double({ min: 1.2, max: 1.8, noNaN: true }),
				(turn, track) => {
					const { left, right } = hubs(turn, track);
					expect(axleSquare(left, right, track, 1).thrustAngle).toBeCloseTo(turn, 10);
				},
			),
		);
	});

	it('rolls square to the line through its hubs: left side longer, toward the left', () => {
		const { left, right, leftHub, rightHub } = hubs(0.01, 1.45);
		expect(left).toBeGreaterThan(right);
		// The way it rolls: a quarter turn from right hub to left hub, toward the front.
		const roll = { x: leftHub.y - rightHub.y, y: -(leftHub.x - rightHub.x) };
		expect(roll.x).toBeGreaterThan(0);
		expect(Math.atan2(roll.y, roll.x)).toBeCloseTo(
			axleSquare(left, right, 1.45, 1).thrustAngle,
			10,
		);
	});

	it('comes square when its left pin is moved by what it says', () => {
		const { left, right } = hubs(0.008, 1.45);
		const { leftPinForward } = axleSquare(left, right, 1.45, 1.05);
		// Turned about the right pin: the left hub goes forward, the right hub a little back.
		const turned = leftPinForward / 1.05;
		const beyond = (1.45 - 1.05) / 2;
		const after = { left: left - turned * (1.05 + beyond), right: right + turned * beyond };
		expect(after.left).toBeCloseTo(after.right, 10);
	});
});
