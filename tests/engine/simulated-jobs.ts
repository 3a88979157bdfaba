/**
 * Jobs made up by chance, with one thing wrong, for what a cell of the kind `explain` makes of them. A truck is
 * taken as a scenario enters it. What it truly is lies off every entry by chance, within its ±; the readings
 * after are what such a truck would show by the worksheet's own figures, read with the same gauge and tape. So
 * this tries what the readings can tell, not the law of the spring, which is held elsewhere.
 */
import { slotsOfExplain, suspectsOf } from '../../src/lib/answers/explained.ts';
import { inputPlusMinus } from '../../src/lib/answers/figures.ts';
import { workbookText } from '../../src/commands/workbook-folder.ts';
import { explain, type Explained, type Suspect } from '../../src/lib/engine/explain.ts';
import { normalQuantile } from '../../src/lib/engine/normal.ts';
import { plusMinusOfAll, type PlusMinus } from '../../src/lib/engine/plus-minus.ts';
import { otherwise, runAll, whatIf, type Run } from '../../src/lib/engine/run.ts';
import { jobFromScenario } from '../../src/lib/job/job.ts';
import { inputsOf, readingsOf } from '../../src/lib/job/reading.ts';
import type { Node } from '../../src/lib/language/graph.ts';
import { readWorkbook } from '../../src/lib/language/read-workbook.ts';
import { cellsOf, type Workbook } from '../../src/lib/language/workbook.ts';
import { lowering } from '../../src/lib/trade/lowering.ts';
import { unitOf } from '../../src/lib/units/units.ts';
import { drawing } from '../mechanics/accuracy/spring.ts';

const inch = unitOf('in')?.size ?? NaN;
const degree = unitOf('deg')?.size ?? NaN;
const pound = unitOf('lbf')?.size ?? NaN;

/** Readings after, and what the worksheet expects each to be. */
const expectedOf: Readonly<Record<string, string>> = {
	rear_height_after: 'rear_lip_expected',
	front_height_after: 'front_lip_expected',
	trans_slope_after_read: 'trans_slope_expected',
	shaft_slope_after_read: 'shaft_slope_expected',
	pinion_slope_after_read: 'pinion_slope_expected',
	shaft_length_after_read: 'shaft_length_fitted',
	wheelbase_left_after: 'wheelbase_left_expected',
	wheelbase_right_after: 'wheelbase_right_expected',
};

/** Something that is wrong: what the truck or the reading truly is, less what is entered. */
export interface Fault {
	readonly name: string;
	/** The inputs that are off, which is how its suspect is known. */
	readonly inputs: readonly string[];
	/** By how much, SI, where this is entered. */
	readonly by: (entered: number) => number;
	/** How often it comes first with a gauge that repeats to ¼°, at least. */
	readonly first: number;
	/** How often it does by the design, which had fewer suspects. */
	readonly design?: number;
}

export const faults: readonly Fault[] = [
	{
		name: 'front eye one hole low, 1 in',
		inputs: ['eye_raise_fitted'],
		by: () => -1 * inch,
		first: 1,
		design: 1,
	},
	{
		name: 'wedge back to front',
		inputs: ['wedge_angle_fitted'],
		by: (angle) => -2 * angle,
		first: 1,
		design: 1,
	},
	{
		name: 'pinion misread by 1½°',
		inputs: ['pinion_slope_after_read'],
		by: () => 1.5 * degree,
		first: 0.92,
		design: 0.94,
	},
	{
		name: '60 lbf a spring not counted',
		inputs: ['load_change_fitted'],
		by: () => -60 * pound,
		first: 0.88,
		design: 0.89,
	},
	{
		name: 'shackle ½ in off',
		inputs: ['shackle_longer_fitted'],
		by: () => 0.5 * inch,
		first: 0.7,
		design: 0.45,
	},
	{
		name: 'gauge 1° off on all three',
		inputs: ['trans_slope_after_read', 'shaft_slope_after_read', 'pinion_slope_after_read'],
		by: () => degree,
		first: 0.98,
	},
	{
		// An axle that stands further back on both springs shows the same but for a wheelbase that the tape hardly sees.
		name: 'length misread by ¼ in',
		inputs: ['shaft_length_after_read'],
		by: () => 0.25 * inch,
		first: 0.94,
	},
	{
		name: 'mount settled by ½ in',
		inputs: ['mount_shim_fitted'],
		by: () => -0.5 * inch,
		first: 0.97,
	},
	{
		name: 'rear lip misread by ½ in',
		inputs: ['rear_height_after'],
		by: () => 0.5 * inch,
		first: 0.7,
	},
	{
		name: 'shaft slope misread by 1½°',
		inputs: ['shaft_slope_after_read'],
		by: () => 1.5 * degree,
		first: 0.98,
	},
	{ name: 'front ½ in off', inputs: ['front_drop_fitted'], by: () => 0.5 * inch, first: 0.98 },
	{
		name: 'left centre pin ½ in ahead of its hole',
		inputs: ['axle_ahead_left_fitted'],
		by: () => 0.5 * inch,
		first: 0.98,
	},
	{
		name: 'both hangers ½ in ahead',
		inputs: ['axle_ahead_left_fitted', 'axle_ahead_right_fitted'],
		by: () => 0.5 * inch,
		first: 0.98,
	},
	{
		name: 'left wheelbase misread by ½ in',
		inputs: ['wheelbase_left_after'],
		by: () => 0.5 * inch,
		first: 0.97,
	},
];

/** A truck ready to be simulated. */
export interface Bench {
	readonly workbook: Workbook;
	readonly run: Run;
	/** By slot; of what the page names. It hangs on the readings after so little that it is found once. */
	readonly sure: readonly (PlusMinus | undefined)[];
	readonly read: readonly number[];
	readonly suspects: readonly Suspect[];
	/** Inputs with a ±, and that. */
	readonly unsure: readonly { readonly node: Node; readonly size: number }[];
}

/** A scenario, with what the workbook's own page holds against the plan and suspects. */
function benchOf(workbook: Workbook, scenario: string): Bench {
	const { graph, quantities } = workbook;
	const found = workbook.scenarios.find(({ id }) => id === scenario);
	const cell = cellsOf(workbook).find(({ kind }) => kind === 'explain');
	if (!found || cell?.kind !== 'explain') throw new Error(`No scenario “${scenario}”, or no cell.`);
	const readings = readingsOf(graph, jobFromScenario(workbook, found, new Date(0)));
	const run = runAll(graph, inputsOf(readings));
	const sizeOf = (node: Node): number => inputPlusMinus(node, readings.get(node.id));
	const figures = { graph, run, quantities, system: found.units };
	return {
		workbook,
		run,
		sure: plusMinusOfAll(graph, run, sizeOf, slotsOfExplain(cell, figures)),
		read: cell.read.map((name) => graph.byId.get(name)?.slot ?? NaN),
		suspects: [...suspectsOf(cell, figures).keys()],
		unsure: graph.nodes.flatMap((node) => {
			const size = node.input && node.type?.kind === 'quantity' ? sizeOf(node) : 0;
			return size > 0 && run.number(node.slot) !== undefined ? [{ node, size }] : [];
		}),
	};
}

/**
 * Every shipped truck, for a gauge that repeats to so much.
 * @param repeat degrees
 */
export function shippedBenches(repeat: string): Bench[] {
	const workbook = workbookForGauge(repeat);
	return workbook.scenarios.map(({ id }) => benchOf(workbook, id));
}

function workbookForGauge(repeat: string): Workbook {
	const files = [...workbookText('lowering')].map(([path, text]): [string, string] => [
		path,
		text.replaceAll(/^repeat: .* deg$/gm, `repeat: ${repeat} deg`),
	]);
	return readWorkbook('lowering', new Map(files), lowering);
}

/** Goes on for ever: what each simulated job comes to. */
function* simulated(bench: Bench, fault: Fault | undefined, seed: number): Generator<Explained> {
	const { workbook, run, sure, read, suspects, unsure } = bench;
	const { graph } = workbook;
	const draw = drawing(seed);
	const chance = (size: number): number => (size / 2) * normalQuantile(draw(1e-12, 1 - 1e-12));
	const afters = Object.entries(expectedOf).map(([after, expected]) => ({
		after,
		slot: graph.byId.get(expected)?.slot ?? NaN,
	}));
	const ordinary = unsure.filter(({ node }) => !(node.id in expectedOf));
	const moved = ordinary.map(({ node }) => node);
	for (const name of fault?.inputs ?? []) {
		const node = graph.byId.get(name);
		if (node && !(name in expectedOf) && !moved.includes(node)) moved.push(node);
	}
	const ask = whatIf(
		graph,
		run,
		moved.map(({ slot }) => slot),
		afters.map(({ slot }) => slot),
	);
	const sizes = new Map(unsure.map(({ node, size }) => [node.id, size]));
	const off = (name: string): number => {
		const slot = graph.byId.get(name)?.slot ?? -1;
		return fault?.inputs.includes(name) ? fault.by(run.number(slot) as number) : 0;
	};
	for (;;) {
		const faces = new Map<string, number>();
		const errorOf = (node: Node): number => {
			const size = sizes.get(node.id) ?? 0;
			const { input } = node;
			if (!input || !('repeat' in input) || input.repeat >= size) return chance(size);
			const face = input.sameFaceAs ?? node.id;
			const shared = faces.get(face) ?? chance(Math.sqrt(size ** 2 - input.repeat ** 2));
			faces.set(face, shared);
			return shared + chance(input.repeat);
		};
		const truth = ask(
			moved.map((node) => (run.number(node.slot) as number) - errorOf(node) + off(node.id)),
		);
		const shows = afters.map(({ slot }) => truth.number(slot));
		// A truck that cannot be put together so is no truck.
		if (shows.some((value) => value === undefined)) continue;
		const readings = new Map(
			afters.map(({ after }, index) => {
				const node = graph.byId.get(after) as Node;
				return [after, (shows[index] as number) + errorOf(node) - off(after)] as const;
			}),
		);
		yield explain(graph, otherwise(graph, run, readings), sure, read, suspects);
	}
}

/** What many jobs with one fault came to, as parts of one. */
export interface Tally {
	readonly jobs: number;
	/** The true cause came first. */
	readonly first: number;
	readonly agrees: number;
	/** One cause was told, the true one or another. */
	readonly toldRight: number;
	readonly toldWrong: number;
	/** It was said that the readings cannot tell, or that no one cause explains it. */
	readonly open: number;
}

/**
 * So many jobs, or a few more, over all trucks alike; one for which the fault is none, as a wedge that is not
 * there turned round, is left out.
 */
export function tallied(benches: readonly Bench[], fault: Fault | undefined, jobs: number): Tally {
	const trucks = benches.filter(
		({ workbook: { graph }, run }) =>
			!fault || fault.by(run.number(graph.byId.get(fault.inputs[0] ?? '')?.slot ?? -1) ?? 0) !== 0,
	);
	const each = Math.ceil(jobs / trucks.length);
	const count = { first: 0, agrees: 0, toldRight: 0, toldWrong: 0, open: 0 };
	for (const [index, bench] of trucks.entries()) {
		const all = simulated(bench, fault, index + 1);
		for (let job = 0; job < each; job++) {
			const { word, causes } = all.next().value as Explained;
			const named = causes[0]?.suspect.inputs.map(({ id }) => id).join();
			const right = fault !== undefined && named === fault.inputs.join();
			if (right) count.first++;
			if (word === 'agrees') count.agrees++;
			else if (word !== 'told') count.open++;
			else if (right) count.toldRight++;
			else count.toldWrong++;
		}
	}
	const all = each * trucks.length;
	const parts = Object.entries(count).map(([name, times]) => [name, times / all]);
	return { jobs: all, ...(Object.fromEntries(parts) as typeof count) };
}
