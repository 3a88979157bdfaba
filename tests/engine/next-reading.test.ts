/** What to measure next: against every ± worked out anew with that one reading better. */
import { describe, expect, test } from 'vitest';
import { inputPlusMinus } from '../../src/lib/answers/figures.ts';
import { nextReadings } from '../../src/lib/engine/next-reading.ts';
import { plusMinusOfAll } from '../../src/lib/engine/plus-minus.ts';
import { runAll } from '../../src/lib/engine/run.ts';
import { jobFromScenario } from '../../src/lib/job/job.ts';
import { inputsOf, readingsOf } from '../../src/lib/job/reading.ts';
import type { Node } from '../../src/lib/language/graph.ts';
import { shipped } from '../language/shipped.ts';
import {
	fence,
	inputCell,
	runOf,
	smallWorkbook,
	statedPlusMinus,
} from '../language/small-workbook.ts';

describe('by hand', () => {
	const workbook = smallWorkbook({
		one: [
			inputCell('coarse', 'length', 'default: 5 in', 'plus_minus: 0.4 in'),
			inputCell('fine', 'length', 'default: 3 in', 'plus_minus: 0.3 in'),
			inputCell('elsewhere', 'length', 'default: 3 in', 'plus_minus: 2 in'),
			fence('derive', 'sum = coarse + fine  # Sum'),
		].join('\n'),
	});
	const { graph } = workbook;
	const run = runOf(workbook);
	const wanted = [graph.byId.get('sum')?.slot ?? NaN];
	const inch = 0.0254;
	const found = nextReadings(graph, run, statedPlusMinus, () => 0.1 * inch, wanted);

	test('the one that takes most off comes first; what the figure does not hang on is not named', () => {
		expect(found.map(({ input }) => input.id)).toEqual(['coarse', 'fine']);
		const [helped] = found[0]?.helps ?? [];
		// √(0.4² + 0.3²) = 0.5 becomes √(0.1² + 0.3²).
		expect((helped?.from ?? NaN) / inch).toBeCloseTo(0.5, 6);
		expect((helped?.to ?? NaN) / inch).toBeCloseTo(Math.sqrt(0.1), 6);
		expect(found[0]?.gain).toBeCloseTo(1 - Math.sqrt(0.1) / 0.5, 6);
	});

	test('a reading that cannot be had better, or hardly helps, is not named', () => {
		expect(nextReadings(graph, run, statedPlusMinus, () => undefined, wanted)).toEqual([]);
		expect(nextReadings(graph, run, statedPlusMinus, statedPlusMinus, wanted)).toEqual([]);
		const little = (node: Node) => 0.97 * statedPlusMinus(node);
		expect(nextReadings(graph, run, statedPlusMinus, little, wanted)).toEqual([]);
	});
});

describe('on the shipped trucks', () => {
	test.each(shipped.scenarios.map(({ id }) => id))('%s', (id) => {
		const { graph } = shipped;
		const scenario = shipped.scenarios.find((each) => each.id === id);
		if (!scenario) throw new Error(`No scenario “${id}”.`);
		const readings = readingsOf(graph, jobFromScenario(shipped, scenario, new Date(0)));
		const run = runAll(graph, inputsOf(readings));
		const now = (node: Node): number => inputPlusMinus(node, readings.get(node.id));
		const wanted = ['rear_joint', 'rear_joint_found', 'pinion_turn_found'].map(
			(name) => graph.byId.get(name)?.slot ?? NaN,
		);
		const half = (node: Node): number => now(node) / 2;
		const found = nextReadings(graph, run, now, half, wanted);
		expect(found.length).toBeGreaterThan(0);
		for (const { input, helps } of found) {
			const then = plusMinusOfAll(
				graph,
				run,
				(node) => (node === input ? half(node) : now(node)),
				wanted,
			);
			for (const { slot, to } of helps) {
				expect(Math.abs(to / (then[slot]?.size ?? NaN) - 1), input.id).toBeLessThan(1e-9);
			}
		}
	});
});
