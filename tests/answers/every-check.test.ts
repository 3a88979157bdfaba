/**
 * Every check can be driven to each of its levels by entries within their limits, from one of the shipped
 * scenarios. What never comes is a limit nobody needs, or a condition that is written wrong.
 */
import { expect, test } from 'vitest';
import { jobFromScenario } from '../../src/lib/job/job.ts';
import { inputsOf, readingsOf } from '../../src/lib/job/reading.ts';
import { checkResult, checksOf } from '../../src/lib/engine/checks.ts';
import type { Node } from '../../src/lib/language/graph.ts';
import type { CheckCell } from '../../src/lib/language/kinds/check.ts';
import { levels, type Level } from '../../src/lib/language/levels.ts';
import { linked } from '../../src/lib/engine/reach.ts';
import { runAll, whatIf, type Run } from '../../src/lib/engine/run.ts';
import type { Value } from '../../src/lib/language/types.ts';
import { shipped } from '../language/shipped.ts';

const { graph } = shipped;
const starts = shipped.scenarios.map((scenario) =>
	runAll(
		graph,
		inputsOf(readingsOf(graph, jobFromScenario(shipped, scenario, new Date('2026-11-25')))),
	),
);

function conditionsOf(cell: CheckCell): number[] {
	return cell.cases.flatMap(({ condition }) => graph.byId.get(condition)?.slot ?? []);
}

/** The entries a check hangs on. */
function entriesBehind(cell: CheckCell): Node[] {
	return [...linked(graph, conditionsOf(cell), 'needs')].flatMap((slot) => {
		const node = graph.nodes[slot];
		return node?.input ? [node] : [];
	});
}

/** Values an entry can take, over its limits and more closely around where it is. */
function valuesOf({ input }: Node, here: Value | undefined): Value[] {
	if (!input) return [];
	if (input.asks_for === 'choice') return Object.keys(input.choices);
	if (!('quantity' in input)) return [];
	const { limits, sensible } = input;
	const wide = limits ?? sensible;
	if (!wide) return [];
	const spread = (low: number, high: number): number[] =>
		Array.from({ length: 41 }, (_, step) => low + ((high - low) * step) / 40);
	const numbers = [
		...spread(wide.low, wide.high),
		...(sensible ? spread(sensible.low, sensible.high) : []),
		...(typeof here === 'number' && here !== 0 ? spread(here * 0.5, here * 1.5) : []),
	].filter((value) => value >= wide.low && value <= wide.high);
	if (input.asks_for === 'quantity') return numbers;
	const readings = Array.isArray(here) ? here.filter((each) => typeof each === 'number') : [];
	return numbers.flatMap((value): Value[] => [
		readings.map(() => value),
		[...readings.slice(1), value],
	]);
}

/** A repeatable series of numbers in [0, 1): a linear congruence, Knuth's constants. */
function series(): () => number {
	let state = 1n;
	return () => {
		state = (state * 6364136223846793005n + 1442695040888963407n) % 2n ** 64n;
		return Number(state >> 11n) / 2 ** 53;
	};
}

function levelsReached(cell: CheckCell): Set<Level> {
	const wanted = 1 + new Set(cell.cases.map(({ level }) => level)).size;
	const reached = new Set<Level>();
	const look = (run: Run): void => {
		const result = checkResult(graph, run, cell);
		if ('level' in result) reached.add(result.level);
	};
	const behind = entriesBehind(cell);
	const slots = conditionsOf(cell);
	starts.forEach(look);
	for (const start of starts) {
		for (const node of behind) {
			const ask = whatIf(graph, start, [node.slot], slots);
			for (const value of valuesOf(node, start.value(node.slot))) {
				look(ask([value]));
				if (reached.size === wanted) return reached;
			}
		}
	}
	// One entry alone was not enough: several at once, the same ones each time.
	const next = series();
	for (const start of starts) {
		const ask = whatIf(
			graph,
			start,
			behind.map(({ slot }) => slot),
			slots,
		);
		const choices = behind.map((node) => valuesOf(node, start.value(node.slot)));
		for (let tries = 0; tries < 3000; tries++) {
			const values = behind.map(({ slot }, index): Value => {
				const from = choices[index] ?? [];
				const here = start.value(slot) as Value;
				return next() < 0.3 && from.length > 0
					? (from[Math.floor(next() * from.length)] ?? here)
					: here;
			});
			if (values.some((value) => value === undefined)) break;
			look(ask(values));
			if (reached.size === wanted) return reached;
		}
	}
	return reached;
}

test.each(checksOf(shipped).map((cell) => ({ page: cell.page, name: cell.name, cell })))(
	'$name on $page comes to each of its levels',
	({ cell }) => {
		const told = new Set<Level>(['clear', ...cell.cases.map(({ level }) => level)]);
		expect([...levelsReached(cell)].sort()).toEqual(
			levels.filter((level) => told.has(level)).sort(),
		);
	},
	60_000,
);
