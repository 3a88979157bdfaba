/** Ways to do a thing on the shipped trucks, held against the same things worked out by the pages themselves. */
import { atOnce } from '../../src/lib/engine/at-once.ts';
import { describe, expect, test } from 'vitest';
import { stockOf, waysOf, worstMark, sureOf, type Way } from '../../src/lib/answers/ways.ts';
import type { Figures } from '../../src/lib/answers/figures.ts';
import { checksOf } from '../../src/lib/engine/checks.ts';
import { runAll } from '../../src/lib/engine/run.ts';
import { jobFromScenario } from '../../src/lib/job/job.ts';
import { inputsOf, nextEntry, readingsOf } from '../../src/lib/job/reading.ts';
import type { WaysCell } from '../../src/lib/language/kinds/ways.ts';
import { cellsOf } from '../../src/lib/language/workbook.ts';
import { shipped } from '../language/shipped.ts';

const { graph, quantities, scenarios } = shipped;
const cells = cellsOf(shipped).filter((cell): cell is WaysCell => cell.kind === 'ways');
const wedge = cells.find(({ name }) => name === 'wedge_ways') as WaysCell;

/** A scenario's truck, with some of its entries typed anew. */
function truck(id: string, typed: Readonly<Record<string, string>> = {}) {
	const scenario = scenarios.find((each) => each.id === id);
	if (!scenario) throw new Error(`There is no scenario ${id}.`);
	const job = jobFromScenario(shipped, scenario, new Date(0));
	const entries = Object.fromEntries(
		Object.entries(typed).map(([name, text]) => {
			const input = graph.byId.get(name)?.input;
			if (!input) throw new Error(`There is no input ${name}.`);
			return [name, nextEntry(input, undefined, text, job.system)];
		}),
	);
	const readings = readingsOf(graph, { ...job, entries: { ...job.entries, ...entries } });
	const run = runAll(graph, inputsOf(readings));
	const figures: Figures = { graph, run, quantities, system: job.system };
	return {
		figures,
		reading: (name: string) => readings.get(name) ?? { standing: 'missing' as const },
	};
}
function valueIn({ run }: Figures, name: string): unknown {
	const node = graph.byId.get(name);
	return node && run.value(node.slot);
}
const labelled = (ways: readonly Way[], label: string): Figures =>
	(ways.find((way) => way.label === label) as Way).figures;

describe.each(scenarios.map(({ id }) => id))('the wedge on %s', (id) => {
	test('none is what the page works out without a wedge', () => {
		const { figures } = truck(id);
		const none = labelled(waysOf(wedge, figures), 'None');
		for (const joint of ['front_joint', 'rear_joint']) {
			// The one is solved from the stock spring, the other from the planned one: they meet to 5e-11 rad.
			expect(valueIn(none, joint)).toBeCloseTo(
				valueIn(figures, `${joint}_without_wedge`) as number,
				10,
			);
		}
	});

	test('as planned it is the plan, whichever way round that is', () => {
		const { figures } = truck(id, { wedge_angle: '-2.5' });
		const ways = waysOf(wedge, figures);
		const planned = valueIn(figures, 'thick_end_entered') as string;
		const same = labelled(
			ways,
			planned === 'forward' ? 'Thick end forward' : 'Thick end to the rear',
		);
		for (const name of ['front_joint', 'rear_joint', 'pinion_slope_after', 'rear_drop']) {
			expect(valueIn(same, name)).toBeCloseTo(valueIn(figures, name) as number, 12);
		}
	});

	test('the thick end is where the label says', () => {
		const ways = waysOf(wedge, truck(id).figures);
		expect(valueIn(labelled(ways, 'Thick end forward'), 'thick_end_entered')).toBe('forward');
		expect(valueIn(labelled(ways, 'Thick end to the rear'), 'thick_end_entered')).toBe(
			'to the rear',
		);
	});

	test('exactly one way is said to be best, and it misses by least', () => {
		const { figures } = truck(id);
		const ways = waysOf(wedge, figures);
		const misses = ways.map((way) => valueIn(way.figures, 'wedge_miss') as number);
		const best = ways.filter(({ say }) => /^(Leave|Fit|The best)/.test(say));
		expect(best).toHaveLength(1);
		expect(valueIn((best[0] as Way).figures, 'wedge_miss')).toBe(Math.min(...misses));
	});
});

test('what is in stands beside what is in hand only where they differ', () => {
	const labels = (typed: Readonly<Record<string, string>>) =>
		waysOf(wedge, truck('hanger-and-shackle', typed).figures).map(({ label }) => label);
	expect(labels({})).not.toContain('What is in');
	expect(labels({ wedge_in_hand: '2' })).toContain('What is in');
});

test('what is put back to stock is at its default, and a way that sets it has it', () => {
	const { figures } = truck('flip-and-wedge');
	for (const cell of cells) {
		const stock = stockOf(cell, figures);
		for (const name of cell.stock) {
			const input = graph.byId.get(name)?.input;
			if (input && 'default' in input) expect(stock.get(name)).toEqual(input.default);
		}
	}
});

test('a way without the wedge is as sure of the shaft as one with it, and its worst check marks it', () => {
	const { figures, reading } = truck('hanger-and-shackle');
	const slot = graph.byId.get('wedge_angle')?.slot as number;
	const joint = graph.byId.get('rear_joint')?.slot as number;
	const ways = waysOf(wedge, figures);
	const checks = checksOf(shipped).filter(({ name }) => wedge.checks.includes(name));
	const [none, forward, rear] = ways.map((way) => atOnce(sureOf(way, reading, [joint, slot])));
	// What is not there has no ±.
	expect(none?.[slot]?.size ?? 0).toBe(0);
	expect(forward?.[slot]?.size).toBeGreaterThan(0);
	expect(none?.[joint]?.size).toBeLessThan(rear?.[joint]?.size as number);
	expect(worstMark(checks, ways[2] as Way, undefined)).toBe('stop');
});
