/**
 * The figures of a scenario in the terminal, for scripts and tests, by the same code as on the screen.
 * npm run --silent figures -- [SCENARIO | FILE] [--set name=value …] [--units metric] [--json]
 */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import {
	checkAnswer,
	inputPlusMinus,
	markOf,
	shownForNode,
	valueInWords,
	type Figures,
} from '../lib/answers/figures.ts';
import { explainedInWords } from '../lib/answers/explained.ts';
import { figuresLookedAt, nextInWords, type NextInWords } from '../lib/answers/next-reading.ts';
import { failureInWords } from '../lib/answers/failures.ts';
import { figuresOtherwise, type Otherwise } from '../lib/answers/kept-figures.ts';
import { readWithPages } from '../lib/desk/read-with-pages.ts';
import { blankJob, jobFromScenario, type Job } from '../lib/job/job.ts';
import type { KeptFigures } from '../lib/job/job-file.ts';
import { readJobFile } from '../lib/job/read-job-file.ts';
import { brokenInWords, sealInWords, stateBy, type SealState } from '../lib/job/seal.ts';
import { inputsOf, nextEntry, readingsOf } from '../lib/job/reading.ts';
import { checksOf } from '../lib/engine/checks.ts';
import { nearest } from '../lib/units/nearest-word.ts';
import { plusMinusOfAll } from '../lib/engine/plus-minus.ts';
import { problemInWords } from '../lib/language/problem.ts';
import { unitSystems, type UnitSystem } from '../lib/units/quantities.ts';
import { runAll, type Failure } from '../lib/engine/run.ts';
import type { Node } from '../lib/language/graph.ts';
import { showPlusMinus } from '../lib/units/shown.ts';
import type { ExplainCell } from '../lib/language/kinds/explain.ts';
import { cellsOf, type Workbook } from '../lib/language/workbook.ts';
import { readWorkbookFolder, workbookText } from './workbook-folder.ts';

const workbookId = 'lowering';

/** Something the person at the terminal can put right: one line, no trace. */
class Unusable extends Error {}

interface Wish {
	scenario: string | undefined;
	sets: (readonly [name: string, typed: string])[];
	system: UnitSystem | undefined;
	json: boolean;
}

const help = `npm run --silent figures -- [SCENARIO | FILE] [--set name=value …] [--units SYSTEM] [--json]

Prints every figure of a scenario, or of a job saved to a file, with its ±, what each check says of it, and what
would explain the readings after. Without either nothing is entered but what is set. A file's name ends in
.json; which of its figures are others now, and how it stands to its seal, is said too.

  --set name=value  enters a reading, as it would be typed: --set eye_raise="4 1/2 in"
  --units SYSTEM    ${unitSystems.join(' or ')}, in place of the scenario's own
  --json            for a script: figures in the units shown and in SI, the checks, and what would explain it
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
		throw new Unusable(`One scenario or file at a time: “${scenario ?? ''}” or “${second}”.`);
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

/** A job from its file, and the workbook with its own pages. Throws Unusable. */
function jobInFile(path: string): { workbook: Workbook; job: Job; kept: KeptFigures } {
	let text: string;
	try {
		text = readFileSync(path, 'utf8');
	} catch (cause) {
		throw new Unusable(`“${path}” cannot be read: ${cause instanceof Error ? cause.message : ''}`);
	}
	const read = readJobFile(text, path, workbookId);
	if ('problem' in read) throw new Unusable(read.problem.replace(/ Nothing was changed;.*$/, ''));
	const { job, figures: kept = {} } = read;
	const { pages = [] } = job;
	const workbook =
		pages.length > 0
			? readWithPages(workbookId, workbookText(workbookId), pages)
			: readWorkbookFolder(workbookId);
	return { workbook, job, kept };
}

/** The job of a scenario, or one with nothing entered. Throws Unusable. */
function jobOf(workbook: Workbook, wish: Wish): Job {
	const now = new Date();
	const ids = workbook.scenarios.map(({ id }) => id);
	const scenario = workbook.scenarios.find(({ id }) => id === wish.scenario);
	if (wish.scenario !== undefined && !scenario) {
		throw new Unusable(
			`There is no scenario “${wish.scenario}”.${nearest(wish.scenario, ids)} There are ${ids.join(', ')}. The name of a job's file ends in .json.`,
		);
	}
	return scenario
		? jobFromScenario(workbook, scenario, now)
		: blankJob(workbook, 'inch-pound', now);
}

/** The job with what is set. Throws Unusable. */
function withSets(workbook: Workbook, job: Job, wish: Wish): Job {
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
	/** What the file said otherwise. */
	readonly otherwise: readonly Otherwise[];
	/** How the job in the file stands to its seals. */
	readonly seals: SealState | undefined;
	/** By slot. */
	readonly plusMinus: ReturnType<typeof plusMinusOfAll>;
	/** What is printed, in the order of the workbook: all that is worked out and is one value. */
	readonly nodes: readonly Node[];
	readonly checks: ReturnType<typeof checksOf>;
	readonly explains: readonly ExplainCell[];
	/** What to read next for the checks that their ± leaves open. */
	readonly next: readonly NextInWords[];
}

/** Throws Unusable. */
function answerTo(wish: Wish): Answer {
	const inFile = wish.scenario?.endsWith('.json') ? jobInFile(wish.scenario) : undefined;
	const workbook = inFile?.workbook ?? readWorkbookFolder(workbookId);
	const [mistake] = workbook.problems;
	if (mistake) throw new Unusable(`The workbook has a mistake: ${problemInWords(mistake)}`);
	const job = withSets(workbook, inFile?.job ?? jobOf(workbook, wish), wish);
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
	const figures = { graph, quantities, system: job.system, run };
	// What is set is meant to change them.
	const isAsInFile = wish.sets.length === 0;
	const checks = checksOf(workbook);
	const within = checks.filter((cell) => {
		const found = checkAnswer(cell, figures, plusMinus);
		return !('failure' in found) && found.might.length > 1;
	});
	return {
		figures,
		otherwise: inFile && isAsInFile ? figuresOtherwise(inFile.kept, figures) : [],
		seals: inFile && isAsInFile ? sealsOf(inFile.job) : undefined,
		plusMinus,
		nodes: graph.nodes.filter(
			(node) => !node.input && !node.id.includes('/') && node.type?.kind !== 'record',
		),
		checks,
		explains: cellsOf(workbook).filter((cell) => cell.kind === 'explain'),
		next: nextInWords(
			figuresLookedAt(graph, within),
			figures,
			(name) => readings.get(name) ?? { standing: 'missing' },
		),
	};
}

/**
 * The whole sentence stands where it began; what hangs on that says so in short.
 * @param id of what has no value
 */
function whyNot(failure: Failure | undefined, id: string, { graph, system }: Figures): string {
	const [from] = failure?.from ?? [];
	if (!failure || failure.why !== 'out of range' || from === id || from === undefined) {
		return failure ? failureInWords(failure, system) : '';
	}
	return `Not known until this is put right: ${graph.byId.get(from)?.label ?? from}.`;
}

function figureAsJson(node: Node, { figures, plusMinus }: Answer): object {
	const { quantities, system, run } = figures;
	const value = run.value(node.slot);
	const shown = shownForNode(node, quantities, system);
	const unit = shown?.unit.name ?? '';
	if (value === undefined) {
		const failure = run.failure(node.slot);
		const why = failure ? failureInWords(failure, system) : 'no value';
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

function asJson(answer: Answer): string {
	const { figures, plusMinus, nodes, checks, explains, next, seals } = answer;
	const said = checks.map((cell) => {
		const found = checkAnswer(cell, figures, plusMinus);
		return 'failure' in found
			? { name: cell.name, level: 'unknown', text: failureInWords(found.failure, figures.system) }
			: { name: cell.name, level: markOf(found), text: `${found.text} ${found.do}`.trim() };
	});
	const byName = Object.fromEntries(nodes.map((node) => [node.id, figureAsJson(node, answer)]));
	const explained = explains.map((cell) => ({
		name: cell.name,
		...explainedInWords(cell, figures, plusMinus),
	}));
	const sealed = seals && {
		...{ standing: seals.standing, date: seals.sealed?.date ?? null, hash: seals.last.hash },
		changed: [...seals.changes.keys()],
	};
	return JSON.stringify({ figures: byName, checks: said, explained, next, sealed }, null, 2);
}

function asText({ figures, plusMinus, nodes, checks, explains, next }: Answer): string {
	const { quantities, system, run } = figures;
	const wide = Math.max(...nodes.map(({ id }) => id.length));
	const lines = nodes.map((node) => {
		const value = run.value(node.slot);
		const shown = shownForNode(node, quantities, system);
		const sure = plusMinus[node.slot];
		const text =
			value === undefined
				? `— ${whyNot(run.failure(node.slot), node.id, figures)}`
				: `${valueInWords(node, value, figures).padStart(14)}${sure && shown ? `  ${showPlusMinus(sure.size, shown)}` : ''}`;
		return `${node.id.padEnd(wide)}  ${text}`;
	});
	const said = checks.map((cell) => {
		const found = checkAnswer(cell, figures, plusMinus);
		return 'failure' in found
			? `${cell.label}: — ${whyNot(found.failure, cell.name, figures)}`
			: `${cell.label}: ${markOf(found)}. ${found.text} ${found.do}`.trim();
	});
	const explained = explains.flatMap((cell) => explainedAsText(cell, figures, plusMinus));
	const surer = next
		.slice(0, 3)
		.map(({ how, label, then, where }) => `${how}: ${label}. ${then}. ${where}`.trim());
	return [...lines, '', ...toPutRight(figures), ...said, '', ...surer, '', ...explained].join('\n');
}

/** What begins in a line that prints no value of its own, such as a spring that cannot be put together. */
function toPutRight({ graph, run, system }: Figures): string[] {
	return graph.nodes.flatMap(({ id, label, slot, type }) => {
		const failure = type?.kind === 'record' ? run.failure(slot) : undefined;
		const here = failure?.why === 'out of range' && failure.from[0] === id;
		return here ? [`${label || id}: ${failureInWords(failure, system)}`] : [];
	});
}

function explainedAsText(
	cell: ExplainCell,
	figures: Figures,
	plusMinus: Answer['plusMinus'],
): string[] {
	const { says, causes, together } = explainedInWords(cell, figures, plusMinus);
	return [
		`${cell.title}: ${says}`,
		...causes.map(
			({ label, look, amount, left }) =>
				`  ${label}: ${amount}; ${Math.round(left * 100).toString()} % left over. Look at: ${look}.`,
		),
		...together.map(
			({ label, expected, found, both }) =>
				`  ${label}: plan ${expected}, found ${found}${both === undefined ? '' : `, together ${both}`}`,
		),
	];
}

/** Node has the same SHA-256 as a browser, and need not be waited for. */
function sealsOf(job: Job): SealState | undefined {
	const hashes = (job.seals ?? []).map(({ record }) =>
		createHash('sha256').update(record).digest('hex'),
	);
	return stateBy(job, hashes);
}

/** How the job stands to its last seal, and what is wrong with its seals, each a line. */
function sealsAsText(state: SealState | undefined): string[] {
	if (!state) return [];
	const broken = brokenInWords(state);
	return [`${sealInWords(state)}. ${state.last.hash}\n`, ...(broken ? [`${broken}\n`] : [])];
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
		const answer = answerTo(wish);
		const text = wish.json ? asJson(answer) : asText(answer);
		const otherwise = answer.otherwise.map(
			({ label, before, now }) => `${label} is ${before} in the file and ${now} now.\n`,
		);
		const said = [...sealsAsText(answer.seals), ...otherwise].join('');
		return { out: `${forTerminal(text)}\n`, said: forTerminal(said), status: 0 };
	} catch (cause) {
		if (!(cause instanceof Unusable)) throw cause;
		const sentence = forTerminal(cause.message).replaceAll('\n', ' ');
		return { out: '', said: `${sentence}\n`, status: 1 };
	}
}
