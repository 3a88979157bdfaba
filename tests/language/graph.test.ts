/** The graph of large workbooks: however long its chains, it is ordered, and its rings are found. */
import { expect, test } from 'vitest';
import { runAll } from '../../src/lib/engine/run.ts';
import { fence, inputCell, numberIn, runOf, smallWorkbook } from './small-workbook.ts';

const count = 10_000;

/** Each line needs the one below it; the last one needs what is given. */
const lastLineFirst = Array.from({ length: count }, (_, index) => {
	const needs = index === count - 1 ? 'given' : `line_${index + 1}`;
	return `line_${index} = ${needs} + 1 in  # Line ${index}`;
});

test('a chain of ten thousand lines written last line first is put in order and run', () => {
	const workbook = smallWorkbook({
		one: fence('derive', ...lastLineFirst) + inputCell('given', 'length'),
	});
	expect(workbook.problems).toEqual([]);
	const { order, nodes, rank } = workbook.graph;
	expect(order).toHaveLength(count + 1);
	for (const { slot, needs } of nodes) {
		for (const need of needs) expect(rank[need]).toBeLessThan(rank[slot] ?? -1);
	}
	const run = runOf(workbook, { given: 0 });
	expect(numberIn(workbook, run, 'line_0') / 0.0254).toBeCloseTo(count, 6);
	expect(runAll(workbook.graph, new Map()).failure(0)?.from).toEqual(['given']);
});

test('a ring of ten thousand lines is told once', () => {
	const ring = lastLineFirst.with(-1, `line_${count - 1} = line_0 + 1 in  # Line ${count - 1}`);
	const { problems, graph } = smallWorkbook({ one: fence('derive', ...ring) });
	expect(problems).toHaveLength(1);
	expect(problems[0]?.message).toContain('These names go in a circle');
	expect(problems[0]?.message).toContain(`line_${count - 1} → line_0`);
	expect(graph.nodes.every(({ broken }) => broken !== undefined)).toBe(true);
});
