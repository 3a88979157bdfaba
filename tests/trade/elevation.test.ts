/** The lines of the side elevation lie where the mechanics put the parts. */
import { expect, test } from 'vitest';
import { elevationOf, extentOf, type Place } from '../../src/lib/trade/elevation.ts';
import { axleFit } from '../../src/lib/mechanics/axle-fit.ts';
import { pinionJoint, transmissionJoint } from '../../src/lib/mechanics/driveshaft.ts';
import { leafSpring, springMount } from '../../src/lib/mechanics/leaf-spring.ts';
import { axleOf, springAtBaseline } from '../../src/lib/mechanics/spring-at-rest.ts';

const inch = 0.0254;
const away = (a: Place, b: Place): number => Math.hypot(a.x - b.x, a.y - b.y);

function drawn(arch: number, stands: boolean, pivotUp: number, rake = 0) {
	const leaf = leafSpring(24 * inch, 30 * inch, 28_000);
	const mount = springMount((arch > 2 ? 53.2 : 53.6) * inch, pivotUp * inch, 5 * inch, stands);
	const fit = axleFit(true, 3 * inch, inch, 0, 0, 0);
	const spring = springAtBaseline(leaf, mount, fit, arch * inch, 3500);
	const axle = axleOf(spring);
	const pinion = pinionJoint(axle, 12 * inch, -1.5 * inch, 0.08);
	const transmission = transmissionJoint(pinion, 58 * inch, 0.12);
	return {
		leaf,
		spring,
		drawing: elevationOf({ mount, spring, axle, pinion, transmission, tyre: 0.34, rake }),
	};
}

test.each([
	[3.5, false, 4.6],
	[1, false, 4.6],
	[-1.5, false, 4.6],
	[3, true, -4],
])(
	'arch %s in, standing %s: the drawn leaf is as long as the leaf and goes through its seat',
	(arch, stands, up) => {
		const { leaf, spring, drawing } = drawn(arch, stands, up);
		const lengths = drawing.leaf
			.slice(1)
			.map((place, index) => away(place, drawing.leaf[index] as Place));
		const length = lengths.reduce((sum, each) => sum + each, 0);
		// A polygon in a flat arc is shorter by a few parts in a hundred thousand.
		expect(length / leaf.length).toBeGreaterThan(0.9999);
		expect(length / leaf.length).toBeLessThanOrEqual(1 + 1e-9);
		expect(away(drawing.leaf[0] as Place, drawing.frontEye)).toBeLessThan(1e-9);
		expect(away(drawing.leaf.at(-1) as Place, drawing.rearEye)).toBeLessThan(1e-9);
		// On the polygon at the front half's length stands the seat, wherever the mechanics put it.
		let left = leaf.front * (length / leaf.length);
		const piece = lengths.findIndex((each) => (left -= each) < 0);
		const [a, b] = [drawing.leaf[piece] as Place, drawing.leaf[piece + 1] as Place];
		const share = 1 + left / (lengths[piece] as number);
		const on = { x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share };
		expect(away(on, drawing.seat)).toBeLessThan(2e-4);
		expect(away(drawing.pivot, drawing.rearEye)).toBeCloseTo(5 * inch, 9);
		expect(drawing.seat).toEqual({ x: -spring.seatX, y: -spring.seatZ });
	},
);

test('seen from the left: the front is left, down toward the rear runs down to the right', () => {
	const { drawing } = drawn(3.5, false, 4.6);
	expect(drawing.transmission.x).toBeLessThan(drawing.pinion.x);
	expect(drawing.frontEye.x).toBeLessThan(drawing.rearEye.x);
	const { x, y } = drawing.pinion;
	const slope = Math.atan2(y - drawing.transmission.y, x - drawing.transmission.x);
	expect(slope).toBeCloseTo(0.12, 12);
});

test('the floor touches the tyre, and with the nose up it falls away toward the front', () => {
	for (const rake of [0, 0.02, -0.02]) {
		const { drawing } = drawn(3.5, false, 4.6, rake);
		const [front, rear] = drawing.floor;
		const slope = (rear.y - front.y) / (rear.x - front.x);
		const below = front.y + slope * (drawing.axle.x - front.x) - drawing.axle.y;
		expect(below * Math.cos(Math.atan(slope))).toBeCloseTo(drawing.tyre, 12);
		// Paper counts y downward: nose-up, the front of the floor is the lower one.
		expect(Math.sign(front.y - rear.y)).toBe(Math.sign(rake));
	}
});

test('the paper holds everything', () => {
	const { drawing } = drawn(3.5, false, 4.6);
	const paper = extentOf([drawing], 0.1);
	for (const { x, y } of [...drawing.leaf, ...drawing.floor, drawing.pivot, drawing.transmission]) {
		expect(x).toBeGreaterThan(paper.x);
		expect(x).toBeLessThan(paper.x + paper.width);
		expect(y).toBeGreaterThan(paper.y);
		expect(y).toBeLessThan(paper.y + paper.height);
	}
});
