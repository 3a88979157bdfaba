/** Dragging, keys and typing come to the same values. */
import { expect, test } from 'vitest';
import { dragged, keyed, placeAt, snapped } from '../../../src/lib/drafting/handle.ts';
import {
	handleNames,
	handleOf,
	type TruckHandleEntry,
} from '../../../src/lib/trade/drawing/handles.ts';
import { layoutOf } from '../../../src/lib/trade/drawing/layout.ts';
import { requestOf } from './request.ts';
import { degree, finishedJob, inch, layoutB, truck } from './trucks.ts';

const entry = (
	name: TruckHandleEntry['name'],
	more: Partial<TruckHandleEntry> = {},
): TruckHandleEntry => ({
	name,
	value: 0,
	step: name === 'wedge' ? 0.5 * degree : inch / 16,
	least: name === 'wedge' ? -8 * degree : -6 * inch,
	most: name === 'wedge' ? 8 * degree : 6 * inch,
	label: name,
	valueText: '0',
	...more,
});

test.each(handleNames)('%s: to a place and back gives the same value, on every step', (name) => {
	for (const typed of [finishedJob, layoutB]) {
		for (const still of ['frame', 'floor'] as const) {
			const done = truck(typed);
			const { view, shown } = layoutOf(
				requestOf(done, [880, 395], 'before and plan', 'inch-pound', { still }),
			);
			const handle = handleOf(entry(name), shown, view);
			expect(Math.hypot(handle.direction.x, handle.direction.y)).toBeCloseTo(1, 12);
			for (let steps = -16; steps <= 16; steps++) {
				const value = steps * handle.step;
				const place = placeAt(handle, value);
				const [right, down] = [place.x - handle.place.x, place.y - handle.place.y];
				expect(dragged(handle, right, down)).toBeCloseTo(value, 12);
				// What goes across the line of the handle does not count.
				const [x, y] = [-handle.direction.y * 30, handle.direction.x * 30];
				expect(dragged(handle, right + x, down + y)).toBeCloseTo(value, 12);
			}
		}
	}
});

test('lengths are dragged to scale, and up is up in the frame', () => {
	const { view, shown } = layoutOf(
		requestOf(truck(finishedJob), [880, 395], 'before and plan', 'inch-pound'),
	);
	const eye = handleOf(entry('frontEye'), shown, view);
	expect(dragged(eye, 0, -view.scale * 2 * inch)).toBeCloseTo(2 * inch, 12);
	const shackle = handleOf(entry('shackle'), shown, view);
	// A hanging shackle grows downward.
	expect(dragged(shackle, 0, view.scale * inch)).toBeGreaterThan(0.8 * inch);
	const wedge = handleOf(entry('wedge'), shown, view);
	expect(wedge.perUnit * wedge.step).toBeGreaterThanOrEqual(5 - 1e-9);
	expect(dragged(wedge, 0, -3 * wedge.perUnit * degree)).toBeCloseTo(3 * degree, 9);
});

test('values snap to the step or the hole and stay within their limits', () => {
	const plain = entry('frontEye', { step: inch / 16, least: -inch, most: 2.03 * inch });
	expect(snapped(plain, 1.02 * inch)).toBeCloseTo(inch, 12);
	expect(snapped(plain, 9)).toBeCloseTo(2 * inch, 12);
	expect(snapped(plain, -9)).toBeCloseTo(-inch, 12);
	expect(Object.is(snapped(plain, -0.0001), 0)).toBe(true);
	const holes = entry('frontEye', { stops: [0, 2 * inch, 3 * inch, 4 * inch], most: 3.5 * inch });
	expect(snapped(holes, 0.9 * inch)).toBe(0);
	expect(snapped(holes, 2.6 * inch)).toBe(3 * inch);
	expect(snapped(holes, 9)).toBe(3 * inch);
});

test('keys: one step, four with Shift or a page key, and the ends', () => {
	const handle = entry('frontEye', { value: inch });
	const inches = (key: string, shift = false): number | undefined => {
		const value = keyed(handle, key, shift);
		return value === undefined ? undefined : value / inch;
	};
	expect(inches('ArrowUp')).toBeCloseTo(1 + 1 / 16, 12);
	expect(inches('ArrowRight')).toBeCloseTo(1 + 1 / 16, 12);
	expect(inches('ArrowDown', true)).toBeCloseTo(1 - 4 / 16, 12);
	expect(inches('PageUp')).toBeCloseTo(1 + 4 / 16, 12);
	expect(inches('Home')).toBeCloseTo(-6, 12);
	expect(inches('End')).toBeCloseTo(6, 12);
	expect(inches('a')).toBeUndefined();
});

test('keys over holes go from hole to hole, and an odd value goes on the way asked for', () => {
	const stops = [0, 2, 3, 4, 5].map((hole) => hole * inch);
	const between = entry('frontEye', { stops, value: 2.4 * inch });
	expect(keyed(between, 'ArrowUp', false)).toBe(3 * inch);
	expect(keyed(between, 'ArrowDown', false)).toBe(2 * inch);
	expect(keyed(between, 'ArrowUp', true)).toBe(5 * inch);
	expect(keyed({ ...between, value: 5 * inch }, 'ArrowUp', false)).toBe(5 * inch);
	const odd = entry('frontEye', { value: 5.99 * inch });
	expect(keyed(odd, 'ArrowUp', false)).toBeCloseTo(6 * inch, 12);
	expect(keyed({ ...odd, most: 6 * inch, value: 6.2 * inch }, 'ArrowUp', false)).toBe(6.2 * inch);
});
