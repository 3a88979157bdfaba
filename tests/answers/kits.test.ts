/** What is said of a kit: what it sets, and how far it misses what is wanted. */
import { describe, expect, test } from 'vitest';
import { missInWords, reachOfClaims, setInWords, wantedOf } from '../../src/lib/answers/kits.ts';
import { differenceInWords, optionColumns } from '../../src/lib/answers/options.ts';
import type { Figures } from '../../src/lib/answers/figures.ts';
import { otherwise, runAll } from '../../src/lib/engine/run.ts';
import { jobFromScenario } from '../../src/lib/job/job.ts';
import { inputsOf, readingsOf } from '../../src/lib/job/reading.ts';
import { cellsOf } from '../../src/lib/language/workbook.ts';
import { shipped } from '../language/shipped.ts';

const { graph, quantities, scenarios } = shipped;
const [cell] = cellsOf(shipped).filter((each) => each.kind === 'compare');
if (!cell) throw new Error('The workbook compares no kits.');

function columnsOf(id: string) {
	const scenario = scenarios.find((each) => each.id === id);
	if (!scenario) throw new Error(`There is no scenario ${id}.`);
	const job = jobFromScenario(shipped, scenario, new Date(0));
	const run = runAll(graph, inputsOf(readingsOf(graph, job)));
	const figures: Figures = { graph, run, quantities, system: job.system };
	return optionColumns(cell as NonNullable<typeof cell>, job.options ?? [], figures);
}

const inch = 0.0254;
const [stock, plan, ...kits] = columnsOf('hanger-and-shackle');
if (!stock || !plan) throw new Error('There is no stock truck or no plan.');

test('a kit is told by what it changes, and by nothing that is stock', () => {
	const [hanger, near] = kits;
	if (!hanger || !near) throw new Error('There are no kits.');
	const names = cell.set.filter((name) => !/^(drop_claimed|parts_)/.test(name));
	expect(setInWords(names, hanger, stock)).toBe('front eye up 4 in, wedge, nose up −5°');
	expect(setInWords(names, near, stock)).toBe('shackle longer −1 in');
	expect(setInWords(names, stock, stock)).toBe('');
});

describe('a miss', () => {
	const { figures } = plan;
	const says = (miss: number, size: number): string =>
		missInWords(miss * inch, size * inch, 'rear_drop', figures);

	test('within its ± is as wanted, either way', () => {
		expect(says(0.1, 0.12)).toBe('as wanted');
		expect(says(-0.1, 0.12)).toBe('as wanted');
	});

	test('beyond it is short or over, without a sign', () => {
		expect(says(-0.78, 0.12)).toBe('0.78 in short');
		expect(says(2.53, 0.15)).toBe('2.53 in over');
	});

	test('that rounds to nothing is none', () => {
		expect(says(0.004, 0)).toBe('as wanted');
		expect(says(0.006, 0)).toBe('0.01 in over');
	});
});

test('what is wanted is entered as what it is worked out from', () => {
	const wanted = wantedOf(cell, plan.figures);
	if (!wanted) throw new Error('Nothing is wanted.');
	expect(wanted).toMatchObject({ said: true, words: '2 1/2 in', input: 'wanted_rear_height' });
	expect(wanted.typedFor(wanted.value)).toBe('33 1/4');
	expect(wanted.typedFor(3 * inch)).toBe('32 3/4');
	// As far as the entry may go.
	expect(wanted.least / inch).toBeCloseTo(35.75 - 100);
	expect(wanted.most / inch).toBeCloseTo(35.75 - 5);
});

test('what nobody has said is wanted can still be entered', () => {
	const { run } = plan.figures;
	const unsaid = otherwise(graph, run, new Map([['wanted_rear_height', undefined]]));
	const wanted = wantedOf(cell, { ...plan.figures, run: unsaid });
	expect(wanted?.said).toBe(false);
	expect(wanted?.typedFor(3 * inch)).toBe('32 3/4');
	const unread = otherwise(graph, run, new Map([['rear_height', undefined]]));
	expect(wantedOf(cell, { ...plan.figures, run: unread })).toBeUndefined();
});

test('a scale reaches past all it shows, and past nought', () => {
	const { low, high } = reachOfClaims([0.02, 0.13], 0.06);
	expect(low).toBeLessThan(0);
	expect(high).toBeGreaterThan(0.13);
	expect(reachOfClaims([]).high).toBeGreaterThan(reachOfClaims([]).low);
});

test('no figure stands beside itself as its own difference to the stock truck', () => {
	for (const column of [plan, ...kits]) {
		for (const name of cell.show) {
			const words = differenceInWords(name, column.figures, stock.figures);
			const node = graph.byId.get(name);
			const there = node && stock.figures.run.number(node.slot);
			// The stock truck drops by nothing, so a drop has no difference of its own.
			if (there === 0) expect(words, name).toBe('');
		}
	}
	// What the stock truck has already is told by how it changes.
	const joint = differenceInWords('rear_joint', plan.figures, stock.figures);
	expect(joint).toMatch(/°$/);
});

test('every kit of a finished job has what its seller claims', () => {
	for (const { id } of scenarios) {
		const slot = graph.byId.get(cell.claim ?? '')?.slot ?? -1;
		for (const { name, figures } of columnsOf(id).slice(2)) {
			expect(figures.run.number(slot), `${id}, ${name}`).toBeGreaterThan(0);
		}
	}
});
