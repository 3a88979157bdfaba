/** The search: against brute force, one plain run for each combination, to the last bit. */
import { describe, expect, test } from 'vitest';
import type { Node } from '../../src/lib/language/graph.ts';
import type { SearchCell } from '../../src/lib/language/kinds/search.ts';
import { runAll, type Run } from '../../src/lib/engine/run.ts';
import {
	mostCombinations,
	planSearch,
	ranked,
	rowOf,
	searchAll,
	searching,
	type SearchAnswer,
	type SearchPlan,
} from '../../src/lib/engine/search.ts';
import { handleSearch } from '../../src/lib/engine/worker/handle.ts';
import type { SearchReply, SearchRequest } from '../../src/lib/engine/worker/messages.ts';
import type { Value } from '../../src/lib/language/types.ts';
import { workbookText } from '../../src/commands/workbook-folder.ts';
import { pack } from '../../src/lib/language/packed.ts';
import { readWorkbook } from '../../src/lib/language/read-workbook.ts';
import { cellsOf, type Workbook } from '../../src/lib/language/workbook.ts';
import { lowering } from '../../src/lib/trade/lowering.ts';
import { layoutA } from '../trade/layout-a.ts';
import { fence, inputCell, runOf, smallWorkbook, stateOf } from '../language/small-workbook.ts';

function cellOf(workbook: Workbook, name: string): SearchCell {
	const cell = cellsOf(workbook).find((each) => each.name === name);
	if (cell?.kind !== 'search') throw new Error(`No search “${name}”.`);
	return cell;
}

function planOf(workbook: Workbook, run: Run, name: string): SearchPlan {
	const plan = planSearch(workbook.graph, run, cellOf(workbook, name));
	if ('why' in plan) throw new Error(plan.message);
	return plan;
}

function nodeOf({ graph }: Workbook, name: string): Node {
	const node = graph.byId.get(name);
	if (!node) throw new Error(`No node “${name}”.`);
	return node;
}

function rowsOf(answer: SearchAnswer): number[][] {
	return Array.from({ length: answer.kept }, (_, index) => [...rowOf(answer, index)]);
}

/** Every combination by itself, each from the beginning, written as plainly as can be. */
function bruteForce(
	workbook: Workbook,
	entered: ReadonlyMap<string, Value>,
	cell: SearchCell,
): Omit<SearchAnswer, 'rows' | 'failure'> & { rows: number[][]; reasons: string[] } {
	let combinations: number[][] = [[]];
	for (const { sizes } of cell.over) {
		const list = entered.get(sizes) as readonly number[];
		combinations = combinations.flatMap((before) => list.map((size) => [...before, size]));
	}
	const turnedAway = cell.hold.map(() => 0);
	const rows: number[][] = [];
	const reasons: string[] = [];
	for (const combination of combinations) {
		const inputs = new Map(entered);
		cell.over.forEach(({ input }, index) => inputs.set(input, combination[index] as number));
		const run = runAll(workbook.graph, inputs);
		let verdict: 'kept' | 'failed' | number = 'kept';
		for (const [index, { condition }] of cell.hold.entries()) {
			const { slot } = nodeOf(workbook, condition);
			if (run.failure(slot)) verdict = 'failed';
			else if (run.value(slot) !== true) verdict = index;
			if (verdict === 'failed') reasons.push(run.failure(slot)?.message ?? '');
			if (verdict !== 'kept') break;
		}
		const slots = cell.figures.map((name) => nodeOf(workbook, name).slot);
		if (verdict === 'kept') {
			const missing = slots.find((slot) => run.failure(slot));
			if (missing !== undefined) {
				verdict = 'failed';
				reasons.push(run.failure(missing)?.message ?? '');
			}
		}
		if (typeof verdict === 'number') turnedAway[verdict] = (turnedAway[verdict] ?? 0) + 1;
		if (verdict === 'kept') {
			rows.push([...combination, ...slots.map((slot) => run.value(slot) as number)]);
		}
	}
	return {
		total: combinations.length,
		failed: reasons.length,
		turnedAway,
		kept: rows.length,
		rows,
		reasons,
	};
}

/** The shipped pages and one with a search over them. */
const tried = readWorkbook(
	'lowering',
	new Map([
		...workbookText('lowering'),
		[
			'workbook.yaml',
			(workbookText('lowering').get('workbook.yaml') ?? '').replace(
				'pages:\n',
				'pages:\n  - tried\n',
			),
		],
		[
			'tried.md',
			[
				'---\ntitle: Tried\nsummary: For a test\ndocument: Test\n---\n',
				inputCell('try_eye', 'length', 'several: sizes', 'default: [0 in, 2 in, 4 1/2 in, 30 in]'),
				inputCell('try_shackle', 'length', 'several: sizes', 'default: [0 in, -1 in, -2 in, 1 in]'),
				inputCell('try_block', 'length', 'several: sizes', 'default: [0 in, 1 in, 2 in]'),
				inputCell(
					'try_wedge',
					'angle',
					'several: sizes',
					'default: [0 deg, -2 deg, -4 deg, 2 deg]',
				),
				fence(
					'search',
					'name: tried_kits',
					'label: Kits',
					'over:',
					'  - { input: eye_raise, sizes: try_eye }',
					'  - { input: shackle_longer, sizes: try_shackle }',
					'  - { input: block, sizes: try_block }',
					'  - { input: wedge_angle, sizes: try_wedge }',
					'hold:',
					'  - { if: rear_drop >= 2 in and rear_drop <= 5 in, label: The drop }',
					'  - { if: joints_differ <= 3 deg, label: The joints }',
					'show: [rear_drop, joint_mismatch, axle_forward, shaft_length_change]',
					'rank:',
					'  - { by: joints_differ, first: low }',
					'  - { by: rear_drop, first: high }',
					'chart: { bottom: rear_drop, up: pinion_turn }',
				),
			].join('\n'),
		],
	]),
	lowering,
);

describe('on the shipped workbook', () => {
	const cell = cellOf(tried, 'tried_kits');
	const entered = layoutA();
	for (const name of ['try_eye', 'try_shackle', 'try_block', 'try_wedge']) {
		entered.set(name, nodeOf(tried, name).input?.default as Value);
	}
	const base = runAll(tried.graph, entered);
	const plan = planOf(tried, base, 'tried_kits');
	const answer = searchAll(tried.graph, base, plan);
	const truth = bruteForce(tried, entered, cell);

	test('the page is sound', () => {
		expect(tried.problems.filter(({ page }) => page === 'tried')).toEqual([]);
		expect(cell.figures).toEqual([
			...['rear_drop', 'joint_mismatch', 'axle_forward', 'shaft_length_change'],
			...['joints_differ', 'pinion_turn'],
		]);
	});

	test('every row, in order, to the last bit', () => {
		expect(answer.kept).toBeGreaterThan(5);
		expect(rowsOf(answer)).toStrictEqual(truth.rows);
	});

	test('every count', () => {
		expect(plan.total).toBe(4 * 4 * 3 * 4);
		const { total, failed, turnedAway, kept } = answer;
		expect({ total, failed, turnedAway, kept }).toEqual({
			total: truth.total,
			failed: truth.failed,
			turnedAway: truth.turnedAway,
			kept: truth.kept,
		});
		// Each way out is taken by some, so that none is proved by nothing.
		for (const count of [failed, kept, ...turnedAway]) expect(count).toBeGreaterThan(0);
		expect(failed + kept + turnedAway.reduce((sum, count) => sum + count, 0)).toBe(total);
	});

	test('why the first that cannot be assembled cannot', () => {
		expect(answer.failure?.why).toBe('out of range');
		expect(answer.failure?.message).toBe(truth.reasons[0]);
	});

	test('a kept row entered by hand gives its figures', () => {
		const row = rowOf(answer, answer.kept - 1);
		const inputs = new Map(entered);
		cell.over.forEach(({ input }, index) => inputs.set(input, row[index] as number));
		const run = runAll(tried.graph, inputs);
		cell.figures.forEach((name, index) => {
			expect(row[cell.over.length + index]).toBe(run.value(nodeOf(tried, name).slot));
		});
	});

	test('the run it starts from stays as it was, and a second search gives the same', () => {
		const copy = stateOf(base);
		expect(searchAll(tried.graph, base, plan)).toStrictEqual(answer);
		expect(stateOf(base)).toStrictEqual(copy);
	});

	test('what the plan has for the inputs that are tried does not matter', () => {
		const other = new Map(entered).set('eye_raise', 0.7).set('wedge_angle', 0.1);
		const run = runAll(tried.graph, other);
		expect(searchAll(tried.graph, run, planOf(tried, run, 'tried_kits'))).toStrictEqual(answer);
		other.delete('eye_raise');
		const without = runAll(tried.graph, other);
		expect(searchAll(tried.graph, without, planOf(tried, without, 'tried_kits'))).toStrictEqual(
			answer,
		);
	});

	test('a condition that need not hold turns nothing away, here and beside the page', () => {
		const [, joints] = cell.hold;
		const kept = { ...cell, hold: cell.hold.slice(0, 1) };
		const wide = bruteForce(tried, entered, kept);
		const open = planSearch(tried.graph, base, cell, [joints?.condition ?? '']);
		if ('why' in open) throw new Error(open.message);
		const found = searchAll(tried.graph, base, open);
		expect(found.kept).toBeGreaterThan(answer.kept);
		expect(found.kept).toBe(wide.kept);
		expect(found.turnedAway).toEqual(wide.turnedAway);
		expect([...found.rows]).toEqual(wide.rows.flat());
		const replies: SearchReply[] = [];
		handleSearch(
			{
				workbook: pack(tried),
				inputs: [...entered],
				cell: 'tried_kits',
				without: [joints?.condition ?? ''],
			},
			lowering,
			(reply) => replies.push(reply),
		);
		expect(replies.at(-1)).toStrictEqual({ answer: found });
	});

	describe('beside the page', () => {
		const request: SearchRequest = {
			workbook: pack(tried),
			inputs: [...entered],
			cell: 'tried_kits',
			without: [],
		};
		const repliesTo = (asked: SearchRequest, clock?: () => number): SearchReply[] => {
			const replies: SearchReply[] = [];
			// As it arrives: copied on its way there and on its way back.
			handleSearch(
				structuredClone(asked),
				lowering,
				(reply) => replies.push(structuredClone(reply)),
				clock,
			);
			return replies;
		};

		test('the same answer to the last bit', () => {
			expect(repliesTo(request).at(-1)).toStrictEqual({ answer });
		});

		test('and how far it is, on the way', () => {
			// A clock on which each combination takes 40 ms: every third is told.
			let now = 0;
			const replies = repliesTo(request, () => (now += 40));
			const told = replies.slice(0, -1);
			expect(told).toEqual(
				Array.from({ length: plan.total / 3 }, (_, index) => ({
					done: 3 * (index + 1),
					total: plan.total,
				})),
			);
			expect(replies.at(-1)).toStrictEqual({ answer });
		});

		test('a search that is not there', () => {
			expect(repliesTo({ ...request, cell: 'nobody' })).toEqual([
				{ problem: 'This workbook has no search named “nobody”.' },
			]);
			expect(repliesTo({ ...request, cell: 'joints_alike' })).toHaveLength(1);
		});

		test('an entry that is missing', () => {
			const inputs = request.inputs.filter(([name]) => name !== 'leaf_arch');
			expect(repliesTo({ ...request, inputs })).toEqual([
				{ problem: `${nodeOf(tried, 'leaf_arch').label} is not entered yet.` },
			]);
		});

		test('more combinations than are tried', () => {
			const hundred = Array.from({ length: 100 }, (_, index) => index / 1000);
			const inputs = [
				...request.inputs.filter(([name]) => name !== 'try_eye' && name !== 'try_shackle'),
				['try_eye', hundred] as const,
				['try_shackle', hundred] as const,
				['try_block', hundred] as const,
			];
			expect(repliesTo({ ...request, inputs })).toEqual([
				{ problem: `4000000 combinations are more than the ${mostCombinations} that are tried.` },
			]);
		});
	});
});

describe('in small', () => {
	const page = (...search: readonly string[]): string =>
		[
			inputCell('a', 'number'),
			inputCell('b', 'number', 'default: 5'),
			inputCell('other', 'number', 'default: 1'),
			inputCell('list_a', 'number', 'several: sizes', 'default: [3, 1, 2]'),
			inputCell('list_b', 'number', 'several: sizes', 'default: [10, -4, 0, 10]'),
			inputCell('no_list', 'number', 'several: sizes'),
			inputCell('angles', 'angle', 'several: sizes', 'default: [1 deg]'),
			fence(
				'derive',
				'sum = a + b  # Sum',
				'root = sqrt(b)  # Root',
				'apart = 2 * other  # Apart',
				'late = sum - other  # Late',
			),
			fence('search', 'name: tried', 'label: Tried', ...search),
		].join('\n');
	const small = (...search: readonly string[]): Workbook => smallWorkbook({ one: page(...search) });
	const over = ['over:', '  - { input: a, sizes: list_a }', '  - { input: b, sizes: list_b }'];
	const bySum = ['rank: [{ by: sum, first: low }]'];
	const searched = (workbook: Workbook, entries: Readonly<Record<string, Value>> = {}) => {
		const run = runOf(workbook, entries);
		return searchAll(workbook.graph, run, planOf(workbook, run, 'tried'));
	};

	test('the lists in the order they are typed, the last one fastest, each size once', () => {
		const workbook = small(...over, 'show: [sum]', ...bySum);
		expect(workbook.problems).toEqual([]);
		expect(rowsOf(searched(workbook))).toEqual([
			[3, 10, 13],
			[3, -4, -1],
			[3, 0, 3],
			[1, 10, 11],
			[1, -4, -3],
			[1, 0, 1],
			[2, 10, 12],
			[2, -4, -2],
			[2, 0, 2],
		]);
	});

	test('each step is one more that is done', () => {
		const workbook = small(...over, 'show: [sum]', ...bySum);
		const run = runOf(workbook);
		const plan = planOf(workbook, run, 'tried');
		expect([...searching(workbook.graph, run, plan)]).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9]);
	});

	test('a condition counts before a figure, the first condition before the second', () => {
		const workbook = small(
			...over,
			...['hold:', '  - { if: b < 5, label: low }', '  - { if: root > 1, label: rooted }'],
			...['  - { if: a < 3, label: small }', 'show: [root]', 'rank: [{ by: root, first: low }]'],
		);
		// b = 10 is turned away at once; b = −4 has no root; b = 0 has a root that is not above 1.
		expect(searched(workbook)).toMatchObject({
			total: 9,
			failed: 3,
			turnedAway: [3, 3, 0],
			kept: 0,
		});
		expect(searched(workbook, { list_b: [10, -4, 4] })).toMatchObject({
			total: 9,
			failed: 3,
			turnedAway: [3, 0, 1],
			kept: 2,
		});
	});

	test('a figure that has no value takes its combination with it', () => {
		const workbook = small(...over, 'show: [sum, root]', ...bySum);
		const answer = searched(workbook);
		expect(answer).toMatchObject({ total: 9, failed: 3, turnedAway: [], kept: 6 });
		expect(answer.failure?.message).toMatch(/^Root comes out as no finite number/);
	});

	test('none kept', () => {
		const workbook = small(
			...over,
			...['hold: [{ if: sum > 100, label: much }]', 'show: [sum]', ...bySum],
		);
		const answer = searched(workbook);
		expect(answer).toMatchObject({ total: 9, failed: 0, turnedAway: [9], kept: 0 });
		expect(answer.failure).toBeUndefined();
		expect(rowsOf(answer)).toEqual([]);
		expect([...ranked(answer, 2, 'low')]).toEqual([]);
	});

	test('a figure that none of them changes stays as the plan has it', () => {
		const workbook = small(...over, 'show: [apart, late]', ...bySum);
		for (const row of rowsOf(searched(workbook, { other: 7 }))) {
			expect(row.slice(2)).toEqual([
				14,
				(row[0] ?? 0) + (row[1] ?? 0) - 7,
				(row[0] ?? 0) + (row[1] ?? 0),
			]);
		}
	});

	test('ranked by any column, low or high first, equal ones as they were tried', () => {
		const workbook = small(...over, 'show: [sum]', ...bySum);
		const answer = searched(workbook);
		const inOrder = (column: number, first: 'low' | 'high'): (number | undefined)[] =>
			[...ranked(answer, column, first)].map((row) => rowOf(answer, row)[2]);
		expect(inOrder(2, 'low')).toEqual([-3, -2, -1, 1, 2, 3, 11, 12, 13]);
		expect(inOrder(2, 'high')).toEqual([13, 12, 11, 3, 2, 1, -1, -2, -3]);
		expect(inOrder(0, 'low')).toEqual([11, -3, 1, 12, -2, 2, 13, -1, 3]);
		expect(inOrder(0, 'high')).toEqual([13, -1, 3, 12, -2, 2, 11, -3, 1]);
	});

	test('a list or an entry that is missing is named before anything is tried', () => {
		const lists = small(
			...['over:', '  - { input: a, sizes: list_a }', '  - { input: b, sizes: no_list }'],
			...['show: [sum]', ...bySum],
		);
		expect(planSearch(lists.graph, runOf(lists), cellOf(lists, 'tried'))).toMatchObject({
			why: 'not entered',
			message: 'The no_list is not entered yet.',
		});
		const entries = small(
			...[
				'over: [{ input: a, sizes: list_a }]',
				'show: [late]',
				'rank: [{ by: late, first: low }]',
			],
		);
		const inputs = new Map<string, Value>([['list_a', [1, 2]]]);
		const run = runAll(entries.graph, inputs.set('other', 1));
		expect(planSearch(entries.graph, run, cellOf(entries, 'tried'))).toMatchObject({
			why: 'not entered',
			message: 'The b is not entered yet.',
		});
	});

	test('a mistake on the page is the reason', () => {
		const workbook = small(
			...over,
			...['hold: [{ if: sum > 1 deg, label: wrong }]', 'show: [sum]', ...bySum],
		);
		expect(planSearch(workbook.graph, runOf(workbook), cellOf(workbook, 'tried'))).toMatchObject({
			why: 'mistake on the page',
		});
	});

	test.each<[what: string, lines: string[], says: string]>([
		[
			'sizes of another dimension',
			['over: [{ input: a, sizes: angles }]', 'show: [sum]', ...bySum],
			'“angles” is a list of angle, but a is a number.',
		],
		[
			'sizes that are one value',
			['over: [{ input: a, sizes: other }]', 'show: [sum]', ...bySum],
			'“other” is a number; the sizes to try stand in an input with “several: sizes”.',
		],
		[
			'sizes that are worked out',
			['over: [{ input: a, sizes: apart }]', 'show: [sum]', ...bySum],
			'“apart” is a number; the sizes to try stand in an input with “several: sizes”.',
		],
		[
			'sizes nobody gives',
			['over: [{ input: a, sizes: list_c }]', 'show: [sum]', ...bySum],
			'No cell gives “list_c”. Did you mean “list_a”?',
		],
		[
			'an input that is worked out',
			['over: [{ input: sum, sizes: list_a }]', 'show: [sum]', ...bySum],
			'“sum” is worked out, not asked for; only an input can be swept.',
		],
		[
			'an input that is a list',
			['over: [{ input: list_a, sizes: list_a }]', 'show: [sum]', ...bySum],
			'“list_a” is a list of number; only a quantity can stand here.',
		],
		[
			'an input twice',
			['over: [{ input: a, sizes: list_a }, { input: a, sizes: list_b }]', 'show: [sum]', ...bySum],
			'“a” stands here twice. Give it one list with all its sizes.',
		],
		[
			'a condition that is none',
			[...over, 'hold: [{ if: sum, label: x }]', 'show: [sum]', ...bySum],
			'A condition is wanted here, such as rear_drop > 2 in; this is a number.',
		],
		[
			'a figure nobody gives',
			[...over, 'show: [summ]', ...bySum],
			'No cell gives “summ”. Did you mean “sum”?',
		],
		[
			'a rank nobody gives',
			[...over, 'show: [sum]', 'rank: [{ by: rooot, first: low }]'],
			'No cell gives “rooot”. Did you mean “root”?',
		],
		[
			'a rank without an order',
			[...over, 'show: [sum]', 'rank: [{ by: sum, first: best }]'],
			'“rank.0.first” has to be one of low, high.',
		],
		[
			'a chart of a list',
			[...over, 'show: [sum]', ...bySum, 'chart: { bottom: sum, up: list_a }'],
			'“list_a” is a list of number; only a quantity can stand here.',
		],
	])('%s', (_, lines, says) => {
		expect(small(...lines).problems.map(({ message }) => message)).toEqual([says]);
	});
});
