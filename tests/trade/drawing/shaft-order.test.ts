/** The drawing of a shaft order: lengths to scale, the yoke full size on paper, no lettering over lettering. */
import { expect, test } from 'vitest';
import { overlap } from '../../../src/lib/drafting/shapes.ts';
import type { DrawingAsked, DrawnFigure } from '../../../src/lib/language/trade.ts';
import { sideElevation } from '../../../src/lib/trade/drawing/elevation.ts';
import type { UnitSystem } from '../../../src/lib/units/quantities.ts';
import { unitOf } from '../../../src/lib/units/units.ts';

const inch = 0.0254;

function shownIn(system: UnitSystem): NonNullable<DrawnFigure['shown']> {
	const unit = unitOf(system === 'metric' ? 'mm' : 'in');
	if (!unit) throw new Error('Inches and millimetres are units.');
	return { unit, step: inch / 16, decimals: 2, divisions: system === 'metric' ? 0 : 16 };
}

/** An order by its figures, in. */
function asked(
	figures: Readonly<Record<string, number>>,
	more: Partial<DrawingAsked> = {},
): DrawingAsked {
	const system = more.system ?? 'inch-pound';
	return {
		width: 678,
		height: 336,
		crop: 'shaft',
		still: 'frame',
		system,
		show: ['order'],
		move: [],
		dimension: [],
		detail: false,
		lettered: true,
		names: {
			order: {
				at_ride: ['taped', 'planned'],
				bottomed: ['bottomed'],
				room: ['room'],
				longest: ['longest'],
				shortest: ['shortest'],
				spline: ['spline'],
				tube: ['tube'],
				wall: ['wall'],
			},
		},
		figure: (name) => {
			const value = figures[name];
			if (value === undefined) return undefined;
			return { label: name, value: value * inch, shown: shownIn(system), plusMinus: inch / 16 };
		},
		...more,
	};
}

const order = {
	taped: 56,
	planned: 55.8,
	bottomed: 55,
	room: 1,
	longest: 56.48,
	shortest: 55.33,
	spline: 3.12,
	tube: 3,
	wall: 0.083,
};

function drawnBy(of: DrawingAsked) {
	const { drawing } = sideElevation.draw(of);
	if (!drawing) throw new Error('It is not drawn.');
	const texts = drawing.lettering.flatMap(({ runs }) => runs);
	return { drawing, texts, all: texts.map(({ text }) => text).join('|') };
}

/** Left end of the words, or their middle where they stand in the middle of their place. */
function middleOf(texts: ReturnType<typeof drawnBy>['texts'], words: string): number {
	const run = texts.find(({ text }) => text === words);
	if (!run) throw new Error(`“${words}” is not there.`);
	return run.x + run.width / 2;
}

test('on paper an inch of the yoke’s rule is an inch, which CSS says is 96 px', () => {
	const { texts, all } = drawnBy(asked(order, { paper: true }));
	expect(middleOf(texts, '1') - middleOf(texts, '0')).toBeCloseTo(96, 1);
	expect(middleOf(texts, 'at ride 56 in') - middleOf(texts, '0')).toBeCloseTo(96, 1);
	expect(all).toContain('full size: where it stands out');
});

test('on a screen, whose inch nobody knows, nothing is called full size but on paper', () => {
	expect(drawnBy(asked(order)).all).toContain('Full size on paper.');
	expect(drawnBy(asked(order)).all).not.toContain('Lay a rule');
});

test('in millimetres ten of them are 9.6/25.4 in', () => {
	const { texts } = drawnBy(asked(order, { paper: true, system: 'metric' }));
	expect(middleOf(texts, '20') - middleOf(texts, '10')).toBeCloseTo((96 * 10) / 25.4, 1);
});

test('what was measured stands as it is, what was worked out in brackets', () => {
	const { all } = drawnBy(asked(order));
	for (const words of ['|56 in|', '|55 in|', '(55 5/16 in)', '(56 1/2 in)', '× 0.083 in wall']) {
		expect(all).toContain(words);
	}
	expect(all).toContain('5/16 in is left before it bottoms at the shortest');
});

test('a length that only the plan has says so, and no heavy line is drawn of it', () => {
	const { taped, ...planned } = order;
	expect(taped).toBe(56);
	const { drawing, all } = drawnBy(asked(planned));
	expect(all).toContain('By the plan, not measured: no shaft is ordered from this.');
	expect(all).toContain('(55 13/16 in)');
	const tube = drawing.strokes.find(({ path, part }) => part === 'shaft' && path.endsWith('Z'));
	expect(tube?.kind).toBe('unmeasured');
});

test('without any length it is drawn as nobody measured it, without a number, and what it waits for is named', () => {
	const { drawing, waits } = sideElevation.draw(asked({}));
	expect(drawing?.strokes.some(({ kind }) => kind === 'planned')).toBe(false);
	expect(drawing?.strokes.some(({ kind }) => kind === 'unmeasured')).toBe(true);
	const said = drawing?.lettering.flatMap(({ runs }) => runs.map(({ text }) => text)) ?? [];
	expect(said.join(' ')).toMatch(/not read yet/);
	expect(said.join(' ')).not.toMatch(/\d/);
	expect(waits).toEqual(['planned']);
});

test('no lettering lies over other lettering or past the edge, at any size', () => {
	for (const system of ['inch-pound', 'metric'] as const) {
		for (const [width, height] of [
			[296, 196],
			[336, 196],
			[560, 300],
			[678, 336],
			[840, 590],
			[1180, 700],
		] as const) {
			for (const [shortest, longest] of [
				[55.33, 56.48],
				[55.9, 56.05],
				[55.05, 57.9],
			] as const) {
				const of = asked({ ...order, shortest, longest }, { width, height, system });
				const { lettering } = drawnBy(of).drawing;
				const words = (index: number): string =>
					`${system} ${String(width)}: ${lettering[index]?.runs.map(({ text }) => text).join(' ') ?? ''}`;
				for (const [index, { shape }] of lettering.entries()) {
					expect(shape.left, words(index)).toBeGreaterThanOrEqual(0);
					expect(shape.right, words(index)).toBeLessThanOrEqual(width);
					for (let other = index + 1; other < lettering.length; other++) {
						const second = lettering[other];
						const over = second && overlap(shape, second.shape);
						expect(over, `${words(index)} over ${words(other)}`).toBe(false);
					}
				}
			}
		}
	}
});
