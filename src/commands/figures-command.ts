/**
 * The figures of a scenario in the terminal, for scripts and tests, by the same code as on the screen.
 * npm run --silent figures -- [SCENARIO] [--set name=value …] [--units metric] [--json]
 */
import { parseArgs } from 'node:util';
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
import { runAll, type Failure } from '../lib/engine/run.ts';
import type { Node } from '../lib/language/graph.ts';
import { showPlusMinus } from '../lib/units/shown.ts';
import type { Workbook } from '../lib/language/workbook.ts';
import { readWorkbookFolder } from './workbook-folder.ts';

/** Something the person at the terminal can put right: one line, no trace. */
class Unusable extends Error {}

interface Wish {
	scenario: string | undefined;
	sets: (readonly [name: string, typed: string])[];
	system: UnitSystem | undefined;
	json: boolean;
}

const help = `npm run --silent figures -- [SCENARIO] [--set name=value …] [--units SYSTEM] [--json]

Prints every figure of a scenario, with its ±, and what each check says of it.
Without a scenario nothing is entered but what is set.

  --set name=value  enters a reading, as it would be typed: --set eye_raise="4 1/2 in"
  --units SYSTEM    ${unitSystems.join(' or ')}, in place of the scenario's own
  --json            for a script: figures in the units shown and in SI, and the checks
  --help            this`;

const options = {
	set: { type: 'string', multiple: true },
	units: { type: 'string' },
	json: { type: 'boolean' },
	help: { type: 'boolean' },
} as const;

const known = '--set name=value, --units, --json, --help';

/** What is asked for, or undefined when it is help. Throws Unusable. */
function wishOf(args: readonly string[]): Wish | undefined {
	// Not strict, so that what is wrong is said in the words of this command.
	const { values, positionals } = parseArgs({
		args: [...args],
		options,
		allowPositionals: true,
		strict: false,
	});
	for (const name of Object.keys(values)) {
		if (!(name in options)) {
			throw new Unusable(
				`${name.length > 1 ? '--' : '-'}${name} is not known here. Known are ${known}.`,
			);
		}
	}
	for (const name of ['json', 'help'] as const) {
		if (typeof values[name] === 'string') throw new Unusable(`--${name} takes no value.`);
	}
	if (values.help) return undefined;
	const [scenario, second] = positionals;
	if (second !== undefined) {
		throw new Unusable(`One scenario at a time: “${scenario ?? ''}” or “${second}”.`);
	}
	return {
		scenario,
		sets: (values.set ?? []).map((value) => setOf(given('--set', value))),
		system: values.units === undefined ? undefined : systemOf(given('--units', values.units)),
		json: values.json === true,
	};
}

function given(option: string, value: string | boolean): string {
	if (typeof value === 'string') return value;
	throw new Unusable(`${option} needs a value after it.`);
}

function setOf(value: string): readonly [name: string, typed: string] {
	const [, name, typed] = /^([^=\s]+)\s*=(.*)$/s.exec(value) ?? [];
	if (name === undefined || typed === undefined) {
		throw new Unusable(`--set ${value}: write it as name=value, such as eye_raise="4 1/2 in".`);
	}
	return [name, typed.trim()];
}

function systemOf(value: string): UnitSystem {
	const system = unitSystems.find((each) => each === value);
	if (system) return system;
	throw new Unusable(`--units ${value}: the systems of units are ${unitSystems.join(' and ')}.`);
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

interface Answer {
	readonly figures: Figures;
	/** By slot. */
	readonly plusMinus: ReturnType<typeof plusMinusOfAll>;
	/** What is printed, in the order of the workbook: all that is worked out and is one value. */
	readonly nodes: readonly Node[];
	readonly checks: ReturnType<typeof checksOf>;
}

/** Throws Unusable. */
function answerTo(workbook: Workbook, wish: Wish): Answer {
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
	return {
		figures: { graph, quantities, system: job.system, run },
		plusMinus,
		nodes: graph.nodes.filter(
			(node) => !node.input && !node.id.includes('/') && node.type?.kind !== 'record',
		),
		checks: checksOf(workbook),
	};
}

function figureAsJson(node: Node, { figures, plusMinus }: Answer): object {
	const { quantities, system, run } = figures;
	const value = run.value(node.slot);
	const shown = shownForNode(node, quantities, system);
	const unit = shown?.unit.name ?? '';
	if (value === undefined) {
		const why = run.failure(node.slot)?.message ?? 'no value';
		return { value: null, unit, si: null, plus_minus: null, why };
	}
	const size = shown?.unit.size ?? 1;
	const sure = plusMinus[node.slot]?.size;
	return {
		value: typeof value === 'number' ? value / size : value,
		unit,
		si: value,
		plus_minus: sure === undefined ? null : sure / size,
	};
}

/** “within” where the ± of its figures reaches across a limit. */
function levelOf({ level, might }: { level: string; might: readonly string[] }): string {
	return might.length > 1 ? 'within' : level;
}

function asJson(answer: Answer): string {
	const { figures, plusMinus, nodes, checks } = answer;
	const said = checks.map((cell) => {
		const found = checkAnswer(cell, figures, plusMinus);
		return 'failure' in found
			? { name: cell.name, level: 'unknown', text: found.failure.message }
			: { name: cell.name, level: levelOf(found), text: `${found.text} ${found.do}`.trim() };
	});
	const byName = Object.fromEntries(nodes.map((node) => [node.id, figureAsJson(node, answer)]));
	return JSON.stringify({ figures: byName, checks: said }, null, 2);
}

/** Why there is no value: in full the first time, and after that by where it stands in full. */
function saidOnce(): (name: string, failure: Failure | undefined) => string {
	const first = new Map<string, string>();
	return (name, failure) => {
		if (!failure) return '—';
		const { why, message } = failure;
		const before = why === 'out of range' ? first.get(message) : undefined;
		if (before !== undefined) return `— as ${before}`;
		first.set(message, name);
		return `— ${message}`;
	};
}

function asText({ figures, plusMinus, nodes, checks }: Answer): string {
	const { quantities, system, run } = figures;
	const reason = saidOnce();
	const wide = Math.max(...nodes.map(({ id }) => id.length));
	const lines = nodes.map((node) => {
		const value = run.value(node.slot);
		const shown = shownForNode(node, quantities, system);
		const sure = plusMinus[node.slot];
		const text =
			value === undefined
				? reason(node.id, run.failure(node.slot))
				: `${valueInWords(node, value, figures).padStart(14)}${sure && shown ? `  ${showPlusMinus(sure.size, shown)}` : ''}`;
		return `${node.id.padEnd(wide)}  ${text}`;
	});
	const said = checks.map((cell) => {
		const found = checkAnswer(cell, figures, plusMinus);
		return 'failure' in found
			? `${cell.label}: ${reason(cell.label, found.failure)}`
			: `${cell.label}: ${levelOf(found)}. ${found.text} ${found.do}`.trim();
	});
	return [...lines, '', ...said].join('\n');
}

/** What was typed may hold bytes that command a terminal: they show as what they are, something else. */
function forTerminal(text: string): string {
	return text.replace(/[^\P{Cc}\n]/gu, '\u{FFFD}');
}

/**
 * The command, without a terminal.
 * @param args what stands after its name
 * @returns what goes to the one stream and to the other, and the exit code
 */
export function figures(args: readonly string[]): { out: string; said: string; status: number } {
	try {
		const wish = wishOf(args);
		if (!wish) return { out: `${help}\n`, said: '', status: 0 };
		const answer = answerTo(readWorkbookFolder('lowering'), wish);
		const text = wish.json ? asJson(answer) : asText(answer);
		return { out: `${forTerminal(text)}\n`, said: '', status: 0 };
	} catch (cause) {
		if (!(cause instanceof Unusable)) throw cause;
		const sentence = forTerminal(cause.message).replaceAll('\n', ' ');
		return { out: '', said: `${sentence}\n`, status: 1 };
	}
}
