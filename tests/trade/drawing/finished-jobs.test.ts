/** What the finished jobs' drawings must show, as every sheet asks for them at the sizes it leaves them. */
import { expect, test } from 'vitest';
import { lineShape, overlap, type Place, type Shape } from '../../../src/lib/drafting/shapes.ts';
import type { Layout } from '../../../src/lib/trade/drawing/layout.ts';
import { usual } from '../../../src/lib/trade/drawing/outline.ts';
import { toPaper } from '../../../src/lib/trade/drawing/view.ts';
import { finishedDrawings, finishedForms } from './finished-jobs.ts';

const drawings = finishedDrawings();

function linesOf(layout: Layout, part: string): Shape[] {
	return layout.strokes
		.filter((stroke) => stroke.part === part && stroke.kind !== 'edge')
		.flatMap(({ path }) => {
			const numbers = (path.match(/-?[\d.]+/g) ?? []).map(Number);
			const places = Array.from({ length: numbers.length / 2 }, (_, index): Place => ({
				x: numbers[2 * index] ?? NaN,
				y: numbers[2 * index + 1] ?? NaN,
			}));
			return places.slice(1).map((to, index) => lineShape(places[index] ?? to, to, 1));
		});
}

test('every sheet that draws the truck is looked at in every job', () => {
	expect(new Set(drawings.map(({ sheet }) => sheet)).size).toBe(8);
	expect(drawings).toHaveLength(8 * 4 * 3);
});

test('no word lies on a line of the frame or the floor', () => {
	const found = drawings.flatMap(({ job, sheet, width, layout }) =>
		['frame', 'floor'].flatMap((part) =>
			linesOf(layout, part).flatMap((line) =>
				layout.lettering
					.filter(({ shape, callout }) => !callout && overlap(shape, line))
					.map(
						({ runs }) => `${sheet} ${String(width)} ${job}: ${runs[0]?.text ?? ''} on the ${part}`,
					),
			),
		),
	);
	expect(found).toEqual([]);
});

test('what may be moved is in sight, and so is the wheel that it carries', () => {
	const cut = drawings.flatMap(({ job, sheet, width, layout }) => {
		const { shown, view, clip, handles } = layout;
		const { x, y } = toPaper(view, shown, shown.axle);
		const tyre = shown.tyres.rear * usual.freeTyre * view.scale;
		const wheel: Place[] = [
			{ x, y: y - tyre },
			{ x: x - tyre, y },
			{ x: x + tyre, y },
		];
		const asked = { angles: 3, speed: 4 }[sheet];
		const out = [...handles.map(({ place }) => place), ...wheel].filter(
			(place) => place.x < 0 || place.x > width || place.y < clip.top || place.y > clip.bottom,
		);
		const missing = asked !== undefined && handles.length < asked;
		return out.length > 0 || missing ? [`${sheet} ${String(width)} ${job}`] : [];
	});
	expect(cut).toEqual([]);
});

test('the gap under the stop is dimensioned where it is what the sheet is about', () => {
	const left = drawings
		.filter(({ sheet }) => sheet === 'travel')
		.flatMap(({ job, width, layout }) =>
			layout.leftOut.some(({ name }) => name === 'stopGap') ? [`${job} ${String(width)}`] : [],
		);
	expect(left).toEqual([]);
});

test('a form has a box for everything that it asks for', () => {
	for (const { job, width, asked, layout } of finishedForms()) {
		const boxes = layout.callouts.map(({ name }) => name);
		expect(new Set(boxes), `${job}, ${String(width)} px`).toEqual(new Set(asked));
	}
});
