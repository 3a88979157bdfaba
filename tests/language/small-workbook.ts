/** A workbook from page texts written in the test itself. */
import type { Problem, Value } from '../../src/lib/language/types.ts';
import type { Node } from '../../src/lib/language/graph.ts';
import { runAll, type Failure, type Run } from '../../src/lib/engine/run.ts';
import { readWorkbook } from '../../src/lib/language/read-workbook.ts';
import type { Workbook } from '../../src/lib/language/workbook.ts';
import { lowering } from '../../src/lib/trade/lowering.ts';

const quantities = `
quantities:
  number: { dimension: number, inch-pound: { unit: "", step: 0.1, decimals: 3 }, metric: { unit: "", step: 0.1, decimals: 3 } }
  length:
    dimension: length
    inch-pound: { unit: in, step: 1/16, decimals: 2, divisions: 16 }
    metric: { unit: mm, step: 1, decimals: 1 }
  angle:
    dimension: angle
    inch-pound: { unit: deg, step: 0.1, decimals: 2 }
    metric: { unit: deg, step: 0.1, decimals: 2 }
  force:
    dimension: force
    inch-pound: { unit: lbf, step: 10, decimals: 0 }
    metric: { unit: N, step: 50, decimals: 0 }
`;

/** What `body` stands below in a page: its first line is line 6 of the page. */
const head = '---\ntitle: A page\nsummary: For a test\ndocument: Test\n---\n';
export const linesOfHead = 5;

interface More {
	readonly scenarios?: readonly string[];
	readonly pages?: readonly string[];
	readonly standing?: readonly string[];
	readonly files?: Readonly<Record<string, string>>;
}

/** The ± an input states on its page; nought where it states none. */
export function statedPlusMinus({ input }: Node): number {
	return input?.asks_for === 'quantity' ? input.plusMinus : 0;
}

/** A workbook whose pages have these bodies; page ids are the keys. */
export function smallWorkbook(bodies: Readonly<Record<string, string>>, more: More = {}): Workbook {
	return readWorkbook('small', smallFiles(bodies, more), lowering);
}

/** The text of a page with this body. */
export function pageText(body: string): string {
	return head + body;
}

/** The files of such a workbook, text by path. */
export function smallFiles(
	bodies: Readonly<Record<string, string>>,
	more: More = {},
): Map<string, string> {
	const list = (names: readonly string[] = []): string => `[${names.join(', ')}]`;
	const files = new Map(Object.entries(bodies).map(([id, body]) => [`${id}.md`, pageText(body)]));
	files.set(
		'workbook.yaml',
		[
			'title: Small',
			'summary: For a test',
			`pages: ${list(more.pages ?? Object.keys(bodies))}`,
			`scenarios: ${list(more.scenarios)}`,
			`standing: { ${(more.standing ?? []).map((name) => `${name}: ${name}`).join(', ')} }`,
			'cautions: []',
		].join('\n') + quantities,
	);
	for (const [path, text] of Object.entries(more.files ?? {})) files.set(path, text);
	return files;
}

/** An input cell for a quantity. */
export function inputCell(name: string, quantity: string, ...lines: readonly string[]): string {
	return fence('input', `name: ${name}`, `label: The ${name}`, `quantity: ${quantity}`, ...lines);
}

export function fence(kind: string, ...lines: readonly string[]): string {
	return `\`\`\`${kind}\n${lines.join('\n')}\n\`\`\`\n`;
}

/** Runs it with these entries in SI, defaults standing in for the rest. */
export function runOf(workbook: Workbook, entries: Readonly<Record<string, Value>> = {}): Run {
	const inputs = new Map<string, Value>();
	for (const { input, id } of workbook.graph.nodes) {
		const value = Object.hasOwn(entries, id) ? entries[id] : input?.default;
		if (input && value !== undefined) inputs.set(id, value);
	}
	return runAll(workbook.graph, inputs);
}

/** How every slot of a run stands, apart from the run itself. */
export function stateOf(run: Run): { value: Value | undefined; failure: Failure | undefined }[] {
	return run.graph.nodes.map(({ slot }) => ({
		value: run.value(slot),
		failure: run.failure(slot),
	}));
}

/** The value of a name in a run. */
export function valueIn(workbook: Workbook, run: Run, name: string): Value | undefined {
	const node = workbook.graph.byId.get(name);
	if (!node) throw new Error(`No node “${name}”.`);
	return run.value(node.slot);
}

/** The value of a name as a number. */
export function numberIn(workbook: Workbook, run: Run, name: string): number {
	const value = valueIn(workbook, run, name);
	if (typeof value !== 'number') {
		const node = workbook.graph.byId.get(name);
		const why = node && run.failure(node.slot);
		throw new Error(`“${name}” has no number: ${why?.message ?? String(value)}`);
	}
	return value;
}

/** page cell line:column */
export function placeOf({ page, cell, line, column }: Problem): string {
	return `${page} | ${cell} | ${line}:${column}`;
}
