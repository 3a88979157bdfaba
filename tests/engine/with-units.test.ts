/** Every formula of every shipped page comes out as mathjs works it out with units. */
import type { Unit as MathUnit } from 'mathjs';
import { describe, expect, test } from 'vitest';
import { runAll } from '../../src/lib/engine/run.ts';
import { inputsOf, readingsOf } from '../../src/lib/job/reading.ts';
import { jobFromScenario } from '../../src/lib/job/job.ts';
import type { Node } from '../../src/lib/language/graph.ts';
import { typeOf } from '../../src/lib/language/type-check.ts';
import { sameDimension } from '../../src/lib/units/dimension.ts';
import { shipped } from '../language/shipped.ts';
import { graphByHand } from './graph-by-hand.ts';
import { forMathjs, known, mathjs, siOf, withCallsApart, withUnits } from './with-units.ts';

const { lines: everyLine, given, inputs: everyInput, functions } = withCallsApart(shipped.graph);

describe.each(shipped.scenarios.map((scenario) => [scenario.id, scenario] as const))(
	'%s',
	(_id, scenario) => {
		const entered = inputsOf(
			readingsOf(shipped.graph, jobFromScenario(shipped, scenario, new Date(0))),
		);
		// What is entered does not follow what it starts as; what is not has no value but that.
		const lines = everyLine.filter(([id]) => !entered.has(id));
		const followers = new Set(lines.map(([id]) => id));
		const inputs = new Map([...everyInput].filter(([id]) => !followers.has(id)));
		const graph = graphByHand(inputs, [...given, ...lines], functions);
		const run = runAll(graph, entered);
		const whole = runAll(shipped.graph, entered);

		test('every formula', () => {
			const scope = new Map<string, unknown>();
			for (const { id, slot, type } of graph.nodes) {
				const value = run.value(slot);
				if (type && value !== undefined) scope.set(id, withUnits(value, type));
			}
			let compared = 0;
			for (const [id, tree] of lines) {
				const { slot, type } = graph.byId.get(id) as Node;
				const value = run.value(slot);
				expect(value, id).toStrictEqual(whole.value(shipped.graph.byId.get(id)?.slot ?? -1));
				if (value === undefined || !type) continue;
				const text = forMathjs(tree, (part) =>
					typeOf(part, (name) => graph.byId.get(name)?.type, functions),
				);
				const found: unknown = mathjs.evaluate(text, scope);
				compared++;
				if (type.kind !== 'quantity') {
					if (type.kind !== 'record') expect(found, `${id} = ${text}`).toBe(value);
					continue;
				}
				const outside = siOf(found as MathUnit | number);
				if (known(type.dimension)) {
					expect(sameDimension(outside.dimension, type.dimension), `${id} = ${text}`).toBe(true);
				}
				const off = Math.abs(outside.value - (value as number));
				expect(off, `${id} = ${text}`).toBeLessThanOrEqual(
					1e-11 * Math.abs(value as number) + 1e-15,
				);
			}
			expect(compared).toBeGreaterThan(0.9 * lines.length);
		});
	},
);
