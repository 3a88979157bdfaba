/**
 * The figures of a scenario in the terminal, for scripts and tests, by the same code as on the screen.
 * npm run --silent figures -- [SCENARIO] [--set name=value …] [--units metric] [--json]
 */
import {
	checkAnswer,
	inputPlusMinus,
	shownForNode,
	valueInWords,
	type Figures,
} from '../lib/answers/figures.ts';
import { blankJob, jobFromScenario, type Job } from '../lib/job/job.ts';
import { inputsOf, nextEntry, readingsOf } from '../lib/job/reading.ts';
import { checksOf } from '../lib/engine/checks.ts';
import { nearest } from '../lib/units/nearest-word.ts';
import { plusMinusOfAll } from '../lib/engine/plus-minus.ts';
import { problemInWords } from '../lib/language/problem.ts';
import { unitSystems, type UnitSystem } from '../lib/units/quantities.ts';
import { runAll } from '../lib/engine/run.ts';
import { showPlusMinus } from '../lib/units/shown.ts';
import type { Workbook } from '../lib/language/workbook.ts';
import { readWorkbookFolder } from './workbook-folder.ts';

/** Something the person at the terminal can put right: one line, no trace. */
class Unusable extends Error {}

interface Wish {
	scenario?: string;
	sets: [name: string, typed: string][];
	system?: UnitSystem;
	json: boolean;
}

function wishOf(args: readonly string[]): Wish {
	const wish: Wish = { sets: [], json: false };
	for (let index = 0; index < args.length; index++) {
		const arg = args[index] ?? '';
		if (arg === '--json') wish.json = true;
		else if (arg === '--set' || arg === '--units') {
			const value = args[++index];
			if (value === undefined) throw new Unusable(`${arg} needs a value after it.`);
			if (arg === '--set') {
				const match = /^([^=\s]+)\s*=(.*)$/s.exec(value);
				if (!match)
					throw new Unusable(
						`--set ${value}: write it as name=value, such as eye_raise="4 1/2 in".`,
					);
				wish.sets.push([match[1] ?? '', (match[2] ?? '').trim()]);
			} else {
				const system = unitSystems.find((each) => each === value);
				if (!system)
					throw new Unusable(
						`--units ${value}: the systems of units are ${unitSystems.join(' and ')}.`,
					);
				wish.system = system;
			}
		} else if (arg.startsWith('-')) {
			throw new Unusable(`${arg} is not known here. Known are --set name=value, --units, --json.`);
		} else if (wish.scenario !== undefined) {
			throw new Unusable(`One scenario at a time: “${wish.scenario}” or “${arg}”.`);
		} else wish.scenario = arg;
	}
	return wish;
}

function jobOf(workbook: Workbook, wish: Wish): Job {
	const now = new Date();
	const ids = workbook.scenarios.map(({ id }) => id);
	const scenario = workbook.scenarios.find(({ id }) => id === wish.scenario);
	if (wish.scenario !== undefined && !scenario) {
		throw new Unusable(
			`There is no scenario “${wish.scenario}”.${nearest(wish.scenario, ids)} There are ${ids.join(', ')}.`,
		);
	}
	const job = scenario
		? jobFromScenario(workbook, scenario, now)
		: blankJob(workbook, 'inch-pound', now);
	const entries = { ...job.entries };
	const system = wish.system ?? job.system;
	for (const [name, typed] of wish.sets) {
		const input = workbook.graph.byId.get(name)?.input;
		if (!input) {
			const inputs = workbook.graph.nodes.flatMap((node) => (node.input ? [node.id] : []));
			throw new Unusable(
				workbook.graph.byId.has(name)
					? `“${name}” is worked out, so it cannot be set. Set what it comes from.`
					: `No input is named “${name}”.${nearest(name, inputs)}`,
			);
		}
		entries[name] = nextEntry(input, undefined, typed, system);
	}
	return { ...job, system, entries };
}

/** What the command prints. Throws Unusable with one clear line. */
function answer(workbook: Workbook, wish: Wish): string {
	const [mistake] = workbook.problems;
	if (mistake) throw new Unusable(`The workbook has a mistake: ${problemInWords(mistake)}`);
	const job = jobOf(workbook, wish);
	const { graph, quantities } = workbook;
	const readings = readingsOf(graph, job);
	for (const [name] of wish.sets) {
		const problem = readings.get(name)?.problem;
		if (problem) throw new Unusable(`--set ${name}: ${problem}`);
	}
	const run = runAll(graph, inputsOf(readings));
	const plusMinus = plusMinusOfAll(graph, run, (node) =>
		inputPlusMinus(node, readings.get(node.id)),
	);
	const all: Figures = { graph, quantities, system: job.system, run };
	const nodes = graph.nodes.filter(
		(node) => !node.input && !node.id.includes('/') && node.type?.kind !== 'record',
	);
	const checks = checksOf(workbook);
	if (wish.json) {
		const figures = Object.fromEntries(
			nodes.map((node) => {
				const value = run.value(node.slot);
				const shown = shownForNode(node, quantities, job.system);
				if (value === undefined) {
					const why = run.failure(node.slot)?.message ?? 'no value';
					return [
						node.id,
						{ value: null, unit: shown?.unit.name ?? '', si: null, plus_minus: null, why },
					];
				}
				const size = shown?.unit.size ?? 1;
				const sure = plusMinus[node.slot]?.size;
				return [
					node.id,
					{
						value: typeof value === 'number' ? value / size : value,
						unit: shown?.unit.name ?? '',
						si: value,
						plus_minus: sure === undefined ? null : sure / size,
					},
				];
			}),
		);
		const said = checks.map((cell) => {
			const found = checkAnswer(cell, all);
			return 'failure' in found
				? { name: cell.name, level: 'unknown', text: found.failure.message }
				: { name: cell.name, level: found.level, text: `${found.text} ${found.do}`.trim() };
		});
		return JSON.stringify({ figures, checks: said }, null, 2);
	}
	const wide = Math.max(...nodes.map(({ id }) => id.length));
	const lines = nodes.map((node) => {
		const value = run.value(node.slot);
		const shown = shownForNode(node, quantities, job.system);
		const sure = plusMinus[node.slot];
		const text =
			value === undefined
				? `— ${run.failure(node.slot)?.message ?? ''}`
				: `${valueInWords(node, value, all).padStart(14)}${sure && shown ? `  ${showPlusMinus(sure.size, shown)}` : ''}`;
		return `${node.id.padEnd(wide)}  ${text}`;
	});
	const said = checks.map((cell) => {
		const found = checkAnswer(cell, all);
		return 'failure' in found
			? `${cell.label}: — ${found.failure.message}`
			: `${cell.label}: ${found.level}. ${found.text} ${found.do}`.trim();
	});
	return [...lines, '', ...said].join('\n');
}

/** Prints the figures; one clear line and exit code 1 when the wish cannot be met. */
export function main(args: readonly string[]): void {
	try {
		process.stdout.write(`${answer(readWorkbookFolder('lowering'), wishOf(args))}\n`);
	} catch (cause) {
		if (!(cause instanceof Unusable)) throw cause;
		process.stderr.write(`${cause.message}\n`);
		process.exitCode = 1;
	}
}
