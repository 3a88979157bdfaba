/** Running: an edit runs what it reaches and no more, failures stay where they belong, asking changes nothing. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { checkResult } from '../../src/lib/engine/checks.ts';
import type { Tree } from '../../src/lib/language/tree.ts';
import { choice, flag, row } from '../../src/lib/language/function-row.ts';
import type { Graph, Node } from '../../src/lib/language/graph.ts';
import { otherwise, rerun, runAll, whatIf, type Run } from '../../src/lib/engine/run.ts';
import { sweep } from '../../src/lib/engine/sweep.ts';
import type { Value } from '../../src/lib/language/types.ts';
import { layoutA } from '../trade/layout-a.ts';
import { shipped } from '../language/shipped.ts';
import {
	fence,
	inputCell,
	numberIn,
	runOf,
	smallWorkbook,
	valueIn,
	stateOf,
} from '../language/small-workbook.ts';

const { graph } = shipped;

function nodeOf(of: Graph, id: string): Node {
	const node = of.byId.get(id);
	if (!node) throw new Error(`No node “${id}”.`);
	return node;
}

/** What hangs on some names, found from the words of the formulas alone. */
function downstream(of: Graph, names: readonly string[]): Set<string> {
	const found = new Set<string>();
	const touched = new Set(names);
	for (let grown = true; grown;) {
		grown = false;
		for (const { id, formula } of of.nodes) {
			if (!formula || found.has(id) || !formula.names.some((name) => touched.has(name))) continue;
			found.add(id);
			touched.add(id);
			grown = true;
		}
	}
	return found;
}

/** The same graph with every formula counted, by a function that is called before anything else in it. */
function counted(of: Graph): { graph: Graph; count: (id: string) => number; reset: () => void } {
	const counts = new Map<string, number>();
	const counting = row({
		name: 'count',
		about: 'Counts.',
		source: 'a test',
		example: 'count("one")',
		takes: [['id', choice(...of.nodes.map(({ id }) => id)), 'of the formula']],
		gives: flag,
		run: (id: string) => {
			counts.set(id, (counts.get(id) ?? 0) + 1);
			return true;
		},
	});
	const nodes = of.nodes.map((node): Node => {
		if (!node.formula) return node;
		const { tree } = node.formula;
		const condition: Tree = {
			op: 'call',
			name: 'count',
			args: [{ op: 'choice', value: node.id, at: 0 }],
			at: 0,
		};
		const watched: Tree = { op: 'if', condition, then: tree, otherwise: tree, at: 0 };
		return { ...node, formula: { ...node.formula, tree: watched } };
	});
	return {
		graph: {
			...of,
			nodes,
			byId: new Map(nodes.map((node) => [node.id, node])),
			functions: new Map([...of.functions, ['count', counting]]),
		},
		count: (id) => counts.get(id) ?? 0,
		reset: () => counts.clear(),
	};
}

const inputs = graph.nodes.filter(({ input }) => input);

/** Something a person could have entered for an input, or nothing. */
function entryFor({ input }: Node): fc.Arbitrary<Value | undefined> {
	if (!input) throw new Error('not an input');
	const nothing = fc.constant(undefined);
	switch (input.asks_for) {
		case 'choice':
			return fc.constantFrom(...Object.keys(input.choices));
		case 'text':
			return fc.string();
		case 'date':
			return fc.constant('2026-11-25');
		default: {
			const { low, high } = input.sensible ?? input.limits ?? { low: 0, high: 1 };
			const amount = fc.double({ min: low, max: high, noNaN: true });
			const wild = fc.double({ min: -1e3, max: 1e3, noNaN: true });
			if (input.asks_for === 'list') return fc.array(amount, { minLength: 1, maxLength: 4 });
			return fc.oneof(
				{ weight: 12, arbitrary: amount },
				{ weight: 1, arbitrary: wild },
				{ weight: 1, arbitrary: nothing },
			);
		}
	}
}

const edit = fc
	.constantFrom(...inputs)
	.chain((node) => entryFor(node).map((value): [string, Value | undefined] => [node.id, value]));
/** Each a set of entries changed at once. */
const edits = fc.array(fc.array(edit, { minLength: 1, maxLength: 3 }), {
	minLength: 1,
	maxLength: 6,
});

function applied(to: ReadonlyMap<string, Value>, change: Iterable<[string, Value | undefined]>) {
	const next = new Map(to);
	for (const [name, value] of change) {
		if (value === undefined) next.delete(name);
		else next.set(name, value);
	}
	return next;
}

/** An input with an entry of its own does not follow what it starts as. */
const ownEntry = (id: string): boolean => layoutA().has(id);

describe('an edit', () => {
	test('runs what hangs on it, each once, after all it needs', () => {
		const watched = counted(graph);
		const run = runAll(watched.graph, layoutA());
		for (const input of inputs) {
			watched.reset();
			const value = layoutA().get(input.id);
			const ran = rerun(watched.graph, run, new Map([[input.id, value]]));
			const wanted = downstream(graph, [input.id]);
			// It may follow what it starts as, where its entry is taken away.
			if (input.formula) wanted.add(input.id);
			expect(new Set(ran.map(({ id }) => id)), input.id).toEqual(wanted);
			expect(ran).toHaveLength(wanted.size);
			const done = new Set<number>();
			const later = new Set(ran.map(({ slot }) => slot));
			for (const node of ran) {
				for (const need of node.needs) expect(!later.has(need) || done.has(need)).toBe(true);
				done.add(node.slot);
			}
			// One expectation for all of them: one each would be half a million.
			const wrong = graph.nodes.filter(({ id, slot }) => {
				// Where its entry is taken away it follows what it starts as at once.
				if (id === input.id) return false;
				// What waits for an entry is passed by; everything else that hangs on it is run once.
				const waits = run.failure(slot)?.why === 'not entered';
				return watched.count(id) !== (wanted.has(id) && !waits && !ownEntry(id) ? 1 : 0);
			});
			expect(
				wrong.map(({ id }) => id),
				`after ${input.id}`,
			).toEqual([]);
		}
	});

	test('runs everything once to begin with, in an order that can be', () => {
		const watched = counted(graph);
		const run = runAll(watched.graph, layoutA());
		for (const { id, slot, formula } of graph.nodes) {
			const waits = run.failure(slot)?.why === 'not entered';
			const runs = formula && !waits && !ownEntry(id) ? 1 : 0;
			expect(watched.count(id), id).toBe(runs);
		}
		expect([...graph.order].sort((a, b) => a - b)).toEqual(graph.nodes.map(({ slot }) => slot));
		const done = new Set<number>();
		for (const slot of graph.order) {
			for (const need of graph.nodes[slot]?.needs ?? []) expect(done.has(need)).toBe(true);
			done.add(slot);
		}
	});

	test('what nothing needs is not run for what it does not touch', () => {
		const small = smallWorkbook({
			one: [
				inputCell('a', 'length', 'default: 1 in'),
				inputCell('b', 'length', 'default: 2 in'),
				fence('derive', 'last = twice + b  # L', 'twice = 2 * a  # T', 'other = 3 * b  # O'),
			].join('\n'),
		});
		const run = runOf(small);
		const ran = rerun(small.graph, run, new Map([['a', 1]]));
		expect(ran.map(({ id }) => id)).toEqual(['twice', 'last']);
		expect(numberIn(small, run, 'last')).toBeCloseTo(2 + 2 * 0.0254, 12);
		expect(rerun(small.graph, run, new Map([['nobody', 1]]))).toEqual([]);
		expect(rerun(small.graph, run, new Map([['twice', 1]]))).toEqual([]);
		expect(numberIn(small, run, 'twice')).toBe(2);
	});

	test('any edits leave the same state as a fresh run, to the last bit', () => {
		fc.assert(
			fc.property(edits, (list) => {
				let entered = layoutA();
				const run = runAll(graph, entered);
				for (const change of list) {
					entered = applied(entered, change);
					rerun(graph, run, new Map(change));
				}
				// toStrictEqual tells 0 from −0 and a hole from undefined.
				expect(stateOf(run)).toStrictEqual(stateOf(runAll(graph, entered)));
			}),
			{ numRuns: 300 },
		);
	});

	test('every slot has a value or a failure, never both, never neither', () => {
		fc.assert(
			fc.property(edits, (list) => {
				const run = runAll(graph, applied(layoutA(), list.flat()));
				graph.nodes.forEach(({ id, slot }) => {
					expect((run.value(slot) === undefined) !== (run.failure(slot) === undefined), id).toBe(
						true,
					);
					const failure = run.failure(slot);
					if (failure) {
						expect(failure.message).toMatch(/\.$/);
						expect(failure.from.length).toBeGreaterThan(0);
					}
				});
			}),
			{ numRuns: 200 },
		);
	});
});

describe('a failure', () => {
	const small = smallWorkbook({
		one: [
			inputCell('a', 'number', 'default: 1'),
			inputCell('b', 'number'),
			inputCell('c', 'number'),
			inputCell('gap', 'length'),
			fence(
				'derive',
				'root = sqrt(a)  # The root',
				'share = 1 / a  # The share',
				'uses = root + share  # Uses both',
				'far = 2 * uses  # Far',
				'sound = 3 * a  # Sound',
				'waits = b + c  # Waits',
				'waits_far = waits + b + a  # Waits far',
				'waits_and_fails = root + b  # Both',
				'leaf = leaf_spring(gap, gap, 5 N/mm)  # Leaf',
				'of_leaf = leaf.length  # Of the leaf',
				'guarded = a > 0 ? root : 0  # Guarded',
				'hidden = min(1 / (1 / a), 5)  # Hidden',
			),
			fence(
				'check',
				...['name: level', 'label: Level', 'when:', '  - level: stop', '    if: share > 2'],
				...['    because: b', '    do: d', 'clear: c', 'source: common practice, no source'],
			),
			fence(
				'check',
				...['name: direct', 'label: D', 'when:', '  - level: stop', '    if: a / (a - a) > 2'],
				...['    because: b', '    do: d', 'clear: c', 'source: common practice, no source'],
			),
		].join('\n'),
	});

	test('is carried to what needs it, and everything else goes on', () => {
		expect(small.problems).toEqual([]);
		const run = runOf(small, { a: -4 });
		const failure = run.failure(nodeOf(small.graph, 'root').slot);
		expect(failure).toEqual({
			why: 'out of range',
			message:
				'The root comes out as no finite number: something is divided by nothing, or an angle has no such sine. Check the entries it comes from.',
			from: ['root'],
		});
		for (const name of ['uses', 'far', 'waits_and_fails']) {
			expect(run.failure(nodeOf(small.graph, name).slot)).toBe(failure);
			expect(valueIn(small, run, name)).toBeUndefined();
		}
		expect(numberIn(small, run, 'sound')).toBe(-12);
		expect(numberIn(small, run, 'share')).toBe(-0.25);
	});

	test('goes when its cause goes', () => {
		const run = runOf(small, { a: -4 });
		rerun(small.graph, run, new Map([['a', 4]]));
		expect(numberIn(small, run, 'far')).toBe(4.5);
		expect(run.failure(nodeOf(small.graph, 'far').slot)).toBeUndefined();
	});

	test('what is divided by nothing fails, and no check calls it clear', () => {
		const run = runOf(small, { a: 0 });
		expect(run.failure(nodeOf(small.graph, 'share').slot)?.message).toMatch(
			/^The share comes out as no finite number/,
		);
		const [level, direct] = ['level', 'direct'].map((name) => {
			const { cell } = nodeOf(small.graph, `${name}/0`);
			return cell.kind === 'check' ? checkResult(small.graph, run, cell) : undefined;
		});
		expect(level).toMatchObject({ why: 'out of range', from: ['share'] });
		expect(direct).toMatchObject({
			why: 'out of range',
			message: expect.stringMatching(/^a \/ \(a - a\) comes out as no finite number/),
		});
	});

	test('entries that are missing are listed by name', () => {
		const run = runOf(small);
		const failureOf = (name: string) => run.failure(nodeOf(small.graph, name).slot);
		expect(failureOf('b')).toEqual({
			why: 'not entered',
			message: 'The b is not entered yet.',
			from: ['b'],
		});
		for (const name of ['waits', 'waits_far']) {
			expect(failureOf(name)).toEqual({
				why: 'not entered',
				message: 'These are not entered yet: The b, The c.',
				from: ['b', 'c'],
			});
		}
		expect(failureOf('of_leaf')?.from).toEqual(['gap']);
		rerun(small.graph, run, new Map([['b', 2]]));
		expect(failureOf('waits_far')?.from).toEqual(['c']);
		expect(failureOf('waits_far')?.message).toBe('The c is not entered yet.');
		rerun(small.graph, run, new Map([['c', 3]]));
		expect(numberIn(small, run, 'waits_far')).toBe(8);
		rerun(small.graph, run, new Map([['b', undefined]]));
		expect(failureOf('waits_far')?.from).toEqual(['b']);
	});

	test('of the mechanics is its own sentence, and only what hangs on it stops', () => {
		const run = runAll(graph, layoutA().set('shackle_length', 0.01));
		const rest = run.failure(nodeOf(graph, 'rear_drop').slot);
		expect(rest).toMatchObject({ why: 'out of range', from: ['spring_before'] });
		expect(rest?.message).toMatch(/^The parts cannot be assembled: .* [Cc]heck .*\.$/);
		const stopped = downstream(graph, ['spring_before']).add('spring_before');
		const whole = runAll(graph, layoutA());
		for (const { id, slot } of graph.nodes) {
			if (id === 'shackle_length' || downstream(graph, ['shackle_length']).has(id)) continue;
			expect(stopped.has(id)).toBe(false);
			expect(run.value(slot)).toEqual(whole.value(slot));
		}
	});

	test('with nothing entered, every figure that waits says for what', () => {
		const run = runAll(graph, new Map());
		const missing = new Set(inputs.map(({ id }) => id));
		for (const { id, slot, input, needs } of graph.nodes) {
			if (input || needs.length === 0) continue;
			const failure = run.failure(slot);
			expect(failure?.why, id).toBe('not entered');
			for (const name of failure?.from ?? []) expect(missing.has(name)).toBe(true);
			const reaches = failure?.from.every((name) => downstream(graph, [name]).has(id));
			expect(reaches, id).toBe(true);
		}
	});
});

describe('asking “what if”', () => {
	const quantities = inputs.filter(({ input }) => input?.asks_for === 'quantity');
	const asked = fc
		.uniqueArray(fc.constantFrom(...quantities), { minLength: 1, maxLength: 3 })
		.chain((nodes) =>
			fc.record({
				nodes: fc.constant(nodes),
				turns: fc.array(
					fc.tuple(...nodes.map((node) => entryFor(node).map((value) => value ?? 0))),
					{ minLength: 1, maxLength: 3 },
				),
			}),
		);

	test('gives what a run with those entries gives, again and again, and leaves its base alone', () => {
		const base = runAll(graph, layoutA());
		const before = stateOf(base);
		const wanted = ['rear_drop', 'front_joint', 'rear_joint', 'shaft_length_change', 'pinion_turn'];
		const slots = wanted.map((name) => nodeOf(graph, name).slot);
		fc.assert(
			fc.property(asked, ({ nodes, turns }) => {
				const ask = whatIf(
					graph,
					base,
					nodes.map(({ slot }) => slot),
					slots,
				);
				for (const values of turns) {
					const found: Run = ask(values);
					const entered = applied(
						layoutA(),
						nodes.map((node, index): [string, Value | undefined] => [node.id, values[index]]),
					);
					const fresh = runAll(graph, entered);
					for (const slot of slots) {
						expect(found.value(slot)).toBe(fresh.value(slot));
						expect(found.failure(slot)).toEqual(fresh.failure(slot));
					}
				}
				expect(stateOf(base)).toStrictEqual(before);
			}),
			{ numRuns: 150 },
		);
	});

	test('runs only what leads from the entries asked about to the figures wanted', () => {
		const watched = counted(graph);
		const base = runAll(watched.graph, layoutA());
		watched.reset();
		const ask = whatIf(
			watched.graph,
			base,
			[nodeOf(graph, 'eye_raise').slot],
			[nodeOf(graph, 'rear_drop').slot],
		);
		ask([0.1]);
		ask([0.2]);
		const below = downstream(graph, ['eye_raise']);
		for (const { id } of graph.nodes) {
			const leads = id === 'rear_drop' || downstream(graph, [id]).has('rear_drop');
			expect(watched.count(id), id).toBe(below.has(id) && leads ? 2 : 0);
		}
	});

	test('goes no further than an entry that follows another until it has a value of its own', () => {
		const watched = counted(
			smallWorkbook({
				one: [
					inputCell('planned', 'number'),
					inputCell('fitted', 'number', 'starts_as: planned'),
					fence('derive', 'own = 2 * fitted  # O', 'both = own + planned  # B'),
				].join('\n'),
			}).graph,
		);
		const slot = (name: string): number => nodeOf(watched.graph, name).slot;
		const asked = (entered: Readonly<Record<string, Value>>): Value | undefined => {
			const base = runAll(watched.graph, new Map(Object.entries(entered)));
			watched.reset();
			const ask = whatIf(watched.graph, base, [slot('planned')], [slot('both')]);
			return ask([10]).value(slot('both'));
		};
		expect(asked({ planned: 1 })).toBe(30);
		expect(['fitted', 'own', 'both'].map((id) => watched.count(id))).toEqual([1, 1, 1]);
		expect(asked({ planned: 1, fitted: 5 })).toBe(20);
		expect(['fitted', 'own', 'both'].map((id) => watched.count(id))).toEqual([0, 0, 1]);
	});

	test('what has no value at one amount is told with its reason, and has one at the next', () => {
		const page = [
			inputCell('entry', 'number'),
			inputCell('missing', 'number'),
			fence(
				'derive',
				'part = 1 / entry  # P',
				'whole = part + 1  # W',
				'apart = 2 * entry  # A',
				'waits = entry + missing  # M',
				'broken = entry + nothing_of_that_name  # B',
			),
		];
		const small = smallWorkbook({ one: page.join('\n') });
		const slots = ['part', 'whole', 'apart', 'waits', 'broken'].map(
			(name) => nodeOf(small.graph, name).slot,
		);
		for (const wanted of [slots, slots.slice(0, 3)]) {
			const base = runAll(small.graph, new Map([['entry', 1]]));
			const ask = whatIf(small.graph, base, [nodeOf(small.graph, 'entry').slot], wanted);
			for (const amount of [2, 4, 0, 0, 5, 1, 0, 8]) {
				const found = ask([amount]);
				const fresh = runAll(small.graph, new Map([['entry', amount]]));
				for (const slot of wanted) {
					expect(found.value(slot)).toBe(fresh.value(slot));
					expect(found.failure(slot)).toEqual(fresh.failure(slot));
				}
			}
		}
	});

	test('an entry that is missing can be asked about', () => {
		const entered = layoutA();
		entered.delete('leaf_arch');
		const base = runAll(graph, entered);
		const ask = whatIf(
			graph,
			base,
			[nodeOf(graph, 'leaf_arch').slot],
			[nodeOf(graph, 'rear_drop').slot],
		);
		const found = ask([3.5 * 0.0254]);
		expect(numberIn(shipped, found, 'rear_drop')).toBe(
			numberIn(shipped, runAll(graph, layoutA()), 'rear_drop'),
		);
		expect(base.value(nodeOf(graph, 'rear_drop').slot)).toBeUndefined();
	});

	test('a sweep gives a value for every step, both ends among them', () => {
		const base = runAll(graph, layoutA());
		const before = stateOf(base);
		const [drop, turn] = [nodeOf(graph, 'rear_drop').slot, nodeOf(graph, 'pinion_turn').slot];
		const inch = 0.0254;
		const { slot } = nodeOf(graph, 'eye_raise');
		const swept = sweep(graph, base, slot, -inch, 8 * inch, 19, [drop, turn]);
		expect(stateOf(base)).toStrictEqual(before);
		expect(swept.gap).toBeUndefined();
		expect(swept.at).toHaveLength(19);
		expect(swept.at[0]).toBe(-inch);
		expect(swept.at[18]).toBeCloseTo(8 * inch, 15);
		swept.at.forEach((value, step) => {
			const fresh = runAll(graph, layoutA().set('eye_raise', value));
			expect(swept.found[0]?.[step]).toBe(fresh.value(drop));
			expect(swept.found[1]?.[step]).toBe(fresh.value(turn));
		});
	});

	test('a sweep over places without an answer has gaps there, and the first reason', () => {
		const base = runAll(graph, layoutA());
		const drop = nodeOf(graph, 'rear_drop').slot;
		const { slot } = nodeOf(graph, 'shackle_longer');
		const swept = sweep(graph, base, slot, -0.2, 0.05, 26, [drop, slot]);
		const values = swept.found[0] ?? [];
		expect(values).toHaveLength(26);
		expect(values[0]).toBeUndefined();
		expect(values[25]).toBeTypeOf('number');
		expect(swept.gap?.at).toBe(-0.2);
		expect(swept.gap?.failure.why).toBe('out of range');
		// The swept input itself has its value at every step.
		expect(swept.found[1]).toEqual(swept.at);
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
