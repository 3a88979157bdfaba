/** What an answer rests on: it stands exactly while asking again would give the same. */
import { describe, expect, test } from 'vitest';
import { Footing, readsOf } from '../../src/lib/engine/footing.ts';
import { otherwise, rerun, runAll, whatIf } from '../../src/lib/engine/run.ts';
import { linked } from '../../src/lib/engine/reach.ts';
import type { Node } from '../../src/lib/language/graph.ts';
import { shipped } from '../language/shipped.ts';
import { fence, inputCell, runOf, smallWorkbook } from '../language/small-workbook.ts';
import { layoutA } from '../trade/layout-a.ts';

describe('the footing of an answer', () => {
	const small = smallWorkbook({
		one: [
			inputCell('swept', 'number', 'default: 1'),
			inputCell('beside', 'number', 'default: 2'),
			inputCell('held', 'number', 'default: 3'),
			inputCell('apart', 'number', 'default: 4'),
			fence(
				'derive',
				'limited = min(held, 3)  # L',
				'drawn = swept * beside + limited  # D',
				'other = 2 * apart  # O',
				'hidden = swept + apart  # H',
			),
		].join('\n'),
	});
	const { graph } = small;
	const slot = (name: string): number => (graph.byId.get(name) as Node).slot;
	const slots = readsOf(graph, [slot('swept')], [slot('drawn')]);

	test('is what lies beside the way from the entry to the figure', () => {
		expect([...slots].sort()).toEqual([slot('beside'), slot('limited')].sort());
	});

	test.each([
		['swept', 7, true],
		['apart', 7, true],
		['beside', 7, false],
		// It is held at 3 all the same.
		['held', 8, true],
		['held', 2, false],
		['beside', undefined, false],
	])('%s becoming %s leaves it standing: %s', (name, value, stands) => {
		const run = runOf(small);
		const footing = new Footing(run, slots);
		expect(footing.stands(run)).toBe(true);
		rerun(graph, run, new Map([[name, value]]));
		expect(footing.stands(run)).toBe(stands);
	});

	test('on the shipped pages an answer differs only where its footing went', () => {
		const run = runAll(shipped.graph, layoutA());
		const [input, figure] = ['eye_raise', 'rear_joint'].map(
			(name) => (shipped.graph.byId.get(name) as Node).slot,
		) as [number, number];
		const reads = readsOf(shipped.graph, [input], [figure]);
		const answer = (): unknown => {
			const ask = whatIf(shipped.graph, run, [input], [figure]);
			return [0.02, 0.05].map((value) => ask([value]).value(figure));
		};
		let [stood, fell] = [0, 0];
		for (const node of shipped.graph.nodes) {
			const before = layoutA().get(node.id);
			if (!node.input || typeof before !== 'number') continue;
			const footing = new Footing(run, reads);
			const first = answer();
			rerun(shipped.graph, run, new Map([[node.id, before * 1.01 + 1e-4]]));
			if (footing.stands(run)) {
				expect(answer(), node.id).toEqual(first);
				stood++;
			} else {
				expect(linked(shipped.graph, reads, 'needs').has(node.slot), node.id).toBe(true);
				fell++;
			}
			rerun(shipped.graph, run, new Map([[node.id, before]]));
		}
		expect(stood).toBeGreaterThan(20);
		expect(fell).toBeGreaterThan(5);
	});
});

describe('a run that is left for later', () => {
	test('comes to what a run at once comes to, whatever is asked of it first', () => {
		const { graph } = shipped;
		const base = runAll(graph, layoutA());
		const changed = new Map([
			['eye_raise', 0.04],
			['shackle_length', undefined],
			['wedge_angle', 0.01],
		]);
		const eager = runAll(graph, layoutA());
		rerun(graph, eager, changed);
		for (const order of [graph.order, [...graph.order].reverse()]) {
			const run = otherwise(graph, base, changed);
			for (const slot of order) {
				expect(run.value(slot)).toStrictEqual(eager.value(slot));
				expect(run.failure(slot)).toStrictEqual(eager.failure(slot));
			}
		}
		// An edit on top of what nobody has asked for yet.
		const run = otherwise(graph, base, changed);
		const more = new Map([['shackle_length', layoutA().get('shackle_length')]]);
		rerun(graph, run, more);
		rerun(graph, eager, more);
		for (const { slot } of graph.nodes) {
			expect(run.value(slot)).toStrictEqual(eager.value(slot));
		}
	});
});
