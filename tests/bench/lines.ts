/**
 * What the formulas of the shipped workbook cost, all of them at once: beside mathjs, which carries units
 * along, and beside the same as straight-line code.
 */
import { readWorkbookFolder } from '../../src/commands/workbook-folder.ts';
import { rerun, runAll } from '../../src/lib/engine/run.ts';
import { inputsOf, readingsOf } from '../../src/lib/job/reading.ts';
import { jobFromScenario } from '../../src/lib/job/job.ts';
import type { Graph, Node } from '../../src/lib/language/graph.ts';
import { typeOf } from '../../src/lib/language/type-check.ts';
import type { Type, Value } from '../../src/lib/language/types.ts';
import { graphByHand } from '../engine/graph-by-hand.ts';
import { forMathjs, mathjs, withCallsApart, withUnits } from '../engine/with-units.ts';
import { quickest, times } from './quickest.ts';
import type { Row } from './row.ts';
import { straightLine } from './straight-line.ts';

const everything = 'everything';
const one = new Map([[everything, 1]]);

/** The same graph with one entry more, which every line waits for: changing it touches them all. */
function withOneEntryForAll(graph: Graph): Graph {
	const { nodes, order } = graph;
	const slot = nodes.length;
	const like = nodes.find(({ input }) => input) as Node;
	const feeds = nodes.flatMap((node) => (node.formula ? [node.slot] : []));
	const more = [
		...nodes.map((node) => (node.formula ? { ...node, needs: [slot, ...node.needs] } : node)),
		{ ...like, slot, id: everything, label: everything, needs: [], feeds },
	];
	return {
		...graph,
		nodes: more,
		order: [slot, ...order],
		rank: [...graph.rank.map((rank) => rank + 1), 0],
		byId: new Map(more.map((node) => [node.id, node])),
	};
}

export function lineRows(): Row[] {
	const workbook = readWorkbookFolder('lowering');
	const { graph, scenarios } = workbook;
	const [scenario] = scenarios;
	if (!scenario) throw new Error('There is no scenario to measure with.');
	const inputs = inputsOf(readingsOf(graph, jobFromScenario(workbook, scenario, new Date(0))));
	const { lines, given, inputs: types, functions } = withCallsApart(graph);

	// The mechanics' results as entries beside the others.
	const apart = graphByHand(types, [...given, ...lines], functions);
	const apartRun = runAll(apart, inputs);
	const givenTypes = new Map(types);
	const entered = new Map<string, Value>(inputs);
	for (const [id] of given) {
		const node = apart.byId.get(id);
		const value = node && apartRun.value(node.slot);
		if (node?.type) givenTypes.set(id, node.type);
		if (value !== undefined) entered.set(id, value);
	}
	const bare = withOneEntryForAll(graphByHand(givenTypes, lines, functions));
	const bareRun = runAll(bare, new Map([...entered, ...one]));

	const typeOfName = (name: string): Type | undefined => bare.byId.get(name)?.type;
	const scope = new Map<string, unknown>();
	for (const [id, value] of entered) scope.set(id, withUnits(value, typeOfName(id) as Type));
	const compiled = bare.order.flatMap((slot) => {
		const node = bare.nodes[slot];
		if (!node?.formula) return [];
		const text = forMathjs(node.formula.tree, (tree) => typeOf(tree, typeOfName, functions));
		return [{ id: node.id, code: mathjs.compile(text) }];
	});
	const withItsUnits = (): void => {
		for (const { id, code } of compiled) scope.set(id, code.evaluate(scope));
	};

	const bareStraight = straightLine(bare);
	bareStraight.takeOver(bareRun);
	const touched = withOneEntryForAll(graph);
	const straight = straightLine(touched);
	const run = runAll(touched, new Map([...inputs, ...one]));
	straight.takeOver(run);
	const [byMathjs = NaN, edit = NaN, loop = NaN, byHand = NaN, whole = NaN, wholeByHand = NaN] =
		quickest(
			[
				withItsUnits,
				times(50, () => rerun(bare, bareRun, one)),
				times(50, () => bareRun.run(bareRun.program.all)),
				times(50, bareStraight.all),
				times(3, () => rerun(touched, run, one)),
				times(3, straight.all),
			],
			40,
		);
	const count = `${lines.length} lines`;
	return [
		{
			what: `an edit that touches every line (${count}), mechanics given`,
			against: 'mathjs with its units, compiled once',
			ratio: byMathjs / (edit / 50),
			reach: 60,
			more: true,
		},
		{
			what: '  the bare loop of it',
			against: 'the same',
			ratio: byMathjs / (loop / 50),
			more: true,
		},
		{ what: '  the edit', against: 'straight-line code', ratio: edit / byHand },
		{
			what: 'the same, mechanics in',
			against: 'straight-line code',
			ratio: whole / wholeByHand,
			reach: 1.5,
		},
	];
}
