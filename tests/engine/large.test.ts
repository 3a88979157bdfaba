/** Workbooks of a size nobody writes by hand: nothing goes round by the stack. */
import { expect, test } from 'vitest';
import { plusMinusOfAll } from '../../src/lib/engine/plus-minus.ts';
import { rerun, runAll, whatIf } from '../../src/lib/engine/run.ts';
import type { Node } from '../../src/lib/language/graph.ts';
import { arithmeticTree, graphByHand, nameTree, numberTree } from './graph-by-hand.ts';
import type { Line } from './with-units.ts';

const count = 10_000;
const lines = Array.from({ length: count }, (_, cell): Line => [
	`c${cell}`,
	arithmeticTree(nameTree(cell === 0 ? 'entry' : `c${cell - 1}`), '+', numberTree(1)),
]);

test.each([
	['first line first', lines],
	['last line first', [...lines].reverse()],
])('a chain of 10,000 lines, %s', (_, written) => {
	const graph = graphByHand(['entry'], written);
	const slot = (name: string): number => (graph.byId.get(name) as Node).slot;
	const end = slot(`c${count - 1}`);
	const run = runAll(graph, new Map([['entry', 1]]));
	expect(run.value(end)).toBe(count + 1);
	expect(rerun(graph, run, new Map([['entry', 2]]))).toHaveLength(count);
	expect(run.value(end)).toBe(count + 2);
	expect(whatIf(graph, run, [slot('entry')], [end])([5]).value(end)).toBe(count + 5);
	expect(plusMinusOfAll(graph, run, () => 0.5, [end])[end]?.size).toBeCloseTo(0.5, 9);

	const nothing = runAll(graph, new Map());
	expect(nothing.failure(end)).toEqual({
		why: 'not entered',
		message: 'entry is not entered yet.',
		from: ['entry'],
	});
	const divided = arithmeticTree(numberTree(1), '/', nameTree('entry'));
	const broken = graphByHand(['entry'], [...lines.slice(1), ['c0', divided]]);
	const failing = runAll(broken, new Map([['entry', 0]]));
	const last = broken.byId.get(`c${count - 1}`) as Node;
	expect(failing.failure(last.slot)).toMatchObject({ why: 'out of range', from: ['c0'] });
});
