/**
 * Every figure of every scenario with its ±, to the last bit, as it was before the code moved to its rooms
 * and the engine was made faster. What moved must not have changed a figure.
 */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { inputPlusMinus, shownForNode } from '../../src/lib/answers/figures.ts';
import { plusMinusOfAll } from '../../src/lib/engine/plus-minus.ts';
import { runAll } from '../../src/lib/engine/run.ts';
import { jobFromScenario } from '../../src/lib/job/job.ts';
import { inputsOf, readingsOf } from '../../src/lib/job/reading.ts';
import { shipped } from '../language/shipped.ts';

/** By scenario and name: the value, SI, and its ± in the unit it is shown in; null where there is none. */
type Kept = Record<string, Record<string, [value: unknown, plusMinus: number | null]>>;

const kept = JSON.parse(
	readFileSync(new URL('./figures-as-they-were.json', import.meta.url), 'utf8'),
) as Kept;

test.each(shipped.scenarios.map((scenario) => [scenario.id, scenario] as const))(
	'%s',
	(id, scenario) => {
		const { graph, quantities } = shipped;
		const readings = readingsOf(graph, jobFromScenario(shipped, scenario, new Date(0)));
		const run = runAll(graph, inputsOf(readings));
		const plusMinus = plusMinusOfAll(graph, run, (node) =>
			inputPlusMinus(node, readings.get(node.id)),
		);
		const wanted = Object.entries(kept[id] ?? {});
		expect(wanted.length).toBe(394);
		for (const [name, [value, sure]] of wanted) {
			const node = graph.byId.get(name);
			if (!node) throw new Error(`“${name}” is gone.`);
			const shown = shownForNode(node, quantities, scenario.units);
			const size = plusMinus[node.slot]?.size;
			const now = run.value(node.slot) ?? null;
			// JSON knows no minus before nought.
			expect(typeof now === 'number' ? now + 0 : now, name).toStrictEqual(value);
			expect(size === undefined ? null : size / (shown?.unit.size ?? 1), name).toBe(sure);
		}
	},
);
