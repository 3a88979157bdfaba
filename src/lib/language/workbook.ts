/** From the files of a workbook's folder to the workbook. */
import type { Token } from 'marked';
import { z } from 'zod';
import { dimensionNamed, dimensionNames, sameDimension } from '../units/dimension.ts';
import { functionTableOf } from './functions.ts';
import { buildGraph } from './build-graph.ts';
import type { Graph } from './graph.ts';
import { readCell, type Cell } from './kinds/index.ts';
import { amountShape, nameShape } from './kinds/reader.ts';
import { unitOf } from '../units/units.ts';
import { nearest } from '../units/nearest-word.ts';
import { readPage, type PageText } from './page.ts';
import { figuresInText } from './prose.ts';
import { unitSystems, type Quantities, type Quantity, type Shown } from '../units/quantities.ts';
import { readEntry } from '../units/entry.ts';
import type { Trade } from './trade.ts';
import type { Mention, Problem } from './types.ts';
import { readYaml, type YamlFound } from './yaml.ts';

const shownShape = z.strictObject({
	unit: z.string(),
	step: amountShape,
	decimals: z.number().int().min(0).max(9),
	divisions: z.number().int().min(0).max(64).optional(),
});

const workbookShape = z.strictObject({
	title: z.string().min(1),
	summary: z.string().min(1),
	/** File names of the pages without ending, in reading order. */
	pages: z.array(z.string()).min(1),
	/** File names of the scenarios without ending; the first is shown first. */
	scenarios: z.array(z.string()),
	/** Figures that stay in sight on every page. */
	standing: z.array(nameShape),
	/** Stand on every page. */
	cautions: z.array(z.string().min(1)),
	quantities: z.record(
		z.string(),
		z.strictObject({
			dimension: z.string(),
			'inch-pound': shownShape,
			metric: shownShape,
		}),
	),
});

const scenarioShape = z.strictObject({
	title: z.string().min(1),
	summary: z.string().min(1),
	units: z.enum(unitSystems),
	/** What is typed for each input. */
	values: z.record(nameShape, amountShape),
	/** The story, one part a page: Markdown with live figures of the scenario. */
	story: z.record(z.string(), z.string()),
	/** Kits of parts its owner compared: what each sets, all else stock. */
	options: z
		.array(z.strictObject({ name: z.string().min(1), values: z.record(nameShape, amountShape) }))
		.optional(),
});

export type PagePart =
	| { readonly part: 'prose'; readonly tokens: readonly Token[] }
	| { readonly part: 'cell'; readonly cell: Cell };

export interface Page extends Omit<PageText, 'parts'> {
	readonly parts: readonly PagePart[];
}

export interface Scenario extends z.infer<typeof scenarioShape> {
	readonly id: string;
}

export interface Workbook {
	/** Name of its folder. */
	readonly id: string;
	/** What it was read from, so that a worker can read it again. */
	readonly files: ReadonlyMap<string, string>;
	readonly title: string;
	readonly summary: string;
	readonly standing: readonly string[];
	readonly cautions: readonly string[];
	readonly quantities: Quantities;
	readonly pages: readonly Page[];
	readonly scenarios: readonly Scenario[];
	readonly graph: Graph;
	/** Every mistake on its pages, in reading order. */
	readonly problems: readonly Problem[];
}

/** Every cell of a workbook, in reading order. */
export function cellsOf({ pages }: Pick<Workbook, 'pages'>): Cell[] {
	return pages.flatMap(({ parts }) =>
		parts.flatMap((part) => (part.part === 'cell' ? [part.cell] : [])),
	);
}

/**
 * Reads a workbook.
 * @param id name of its folder
 * @param files text by path inside the folder: "workbook.yaml", "wedge.md", "scenarios/x.yaml"
 * @param trade what makes it a workbook of its trade
 * @throws Error when workbook.yaml is missing or cannot be read; without it there is no workbook
 */
export function readWorkbook(
	id: string,
	files: ReadonlyMap<string, string>,
	trade: Trade,
): Workbook {
	const problems: Problem[] = [];
	const whole = (text: string) => ({ text, line: 1, column: 1 });
	const head = readYaml(
		workbookShape,
		whole(files.get('workbook.yaml') ?? ''),
		'workbook.yaml',
		'',
	);
	if (!head.value) {
		throw new Error(
			`workbook.yaml cannot be used: ${head.problems.map(({ line, message }) => `line ${line}: ${message}`).join(' ')}`,
		);
	}
	const written = head.value;
	const quantities = readQuantities(written.quantities);

	const prose: (Mention & { page: string })[] = [];
	const cells: Cell[] = [];
	const pages = written.pages.map((pageId, index): Page => {
		const text = files.get(`${pageId}.md`);
		if (text === undefined) {
			problems.push({
				message: `There is no page ${pageId}.md; add the file or take it out of “pages”.`,
				page: 'workbook.yaml',
				cell: '',
				...placed(head.place(['pages', index])),
			});
		}
		const page = readPage(
			pageId,
			text ?? `---\ntitle: ${pageId}\nsummary: missing\ndocument: missing\n---\n`,
		);
		problems.push(...page.problems);
		const parts = page.parts.map((part): PagePart => {
			if (part.part === 'prose') {
				prose.push(...mentionsInProse(part.tokens, page.id, part.line));
				return { part: 'prose', tokens: part.tokens };
			}
			const read = readCell(part.block, { quantities });
			problems.push(...read.problems);
			cells.push(read.cell);
			problems.push(...unknownPages(read.cell, written.pages));
			return { part: 'cell', cell: read.cell };
		});
		return { ...page, parts };
	});

	const valuePlaces = new Map<string, YamlFound<unknown>['place']>();
	const scenarios = written.scenarios.flatMap((scenarioId, index): Scenario[] => {
		const file = `scenarios/${scenarioId}.yaml`;
		const text = files.get(file);
		if (text === undefined) {
			problems.push({
				message: `There is no ${file}; add the file or take it out of “scenarios”.`,
				page: 'workbook.yaml',
				cell: '',
				...placed(head.place(['scenarios', index])),
			});
			return [];
		}
		const found = readYaml(scenarioShape, whole(text), file, '');
		problems.push(...found.problems);
		if (!found.value) return [];
		valuePlaces.set(scenarioId, found.place);
		for (const [page, story] of Object.entries(found.value.story)) {
			const at = found.place(['story', page]);
			if (!written.pages.includes(page)) {
				problems.push({
					message: `The story tells of a page “${page}” that is not in the workbook.`,
					page: file,
					cell: '',
					...placed(at),
				});
			}
			for (const name of figuresInText(story)) {
				prose.push({ name, at, must: 'any', page: file });
			}
		}
		return [{ id: scenarioId, ...found.value }];
	});
	written.standing.forEach((name, index) => {
		prose.push({ name, at: head.place(['standing', index]), must: 'any', page: 'workbook.yaml' });
	});

	const graph = buildGraph(cells, prose, functionTableOf(trade.functions));
	problems.push(...graph.problems);
	const inputNames = graph.nodes.filter(({ input }) => input).map(({ id }) => id);
	for (const scenario of scenarios) {
		const given: PropertyKey[][] = [
			...Object.keys(scenario.values).map((name) => ['values', name]),
			...(scenario.options ?? []).flatMap(({ values }, index) =>
				Object.keys(values).map((name) => ['options', index, 'values', name]),
			),
		];
		for (const path of given) {
			const name = String(path.at(-1));
			const node = graph.byId.get(name);
			if (node?.input || node?.cell.kind === 'unreadable') continue;
			const at = valuePlaces.get(scenario.id)?.(path);
			problems.push({
				message: `The scenario gives “${name}” a value, but no input has that name.${nearest(name, inputNames)}`,
				page: `scenarios/${scenario.id}.yaml`,
				cell: '',
				...placed(at ?? { line: 1, column: 1 }),
			});
		}
	}
	const reading = ['workbook.yaml', ...written.pages];
	const place = (page: string): number => {
		const found = reading.indexOf(page);
		return found < 0 ? reading.length : found;
	};
	problems.sort((a, b) => place(a.page) - place(b.page) || a.line - b.line || a.column - b.column);
	return {
		id,
		files,
		title: written.title,
		summary: written.summary,
		standing: written.standing,
		cautions: written.cautions,
		quantities,
		pages,
		scenarios,
		graph,
		problems,
	};
}

/** An overview looks at pages by their ids. */
function unknownPages(cell: Cell, pages: readonly string[]): Problem[] {
	if (cell.kind !== 'overview') return [];
	const unknown = (cell.pages ?? []).filter((page) => !pages.includes(page));
	return unknown.map((page) => ({
		message: `There is no page “${page}” in this workbook.${nearest(page, pages)}`,
		page: cell.page,
		cell: `overview ${cell.name}`,
		line: cell.line,
		column: 1,
	}));
}

function placed({ line, column }: { line: number; column: number }): {
	line: number;
	column: number;
} {
	return { line, column };
}

function readQuantities(written: z.infer<typeof workbookShape>['quantities']): Quantities {
	const quantities = new Map<string, Quantity>();
	for (const [name, { dimension, ...systems }] of Object.entries(written)) {
		const known = dimensionNamed(dimension);
		if (!known) {
			throw new Error(
				`workbook.yaml: quantity “${name}” has dimension “${dimension}”, which is none of ${dimensionNames.join(', ')}.`,
			);
		}
		const shown = (system: (typeof unitSystems)[number]): Shown => {
			const { unit: unitName, step, decimals, divisions } = systems[system];
			const unit = unitName === '' ? { name: '', size: 1, dimension: known } : unitOf(unitName);
			if (!unit || !sameDimension(unit.dimension, known)) {
				throw new Error(
					`workbook.yaml: quantity “${name}” is a ${dimension}, and “${unitName}” is not a unit of that.`,
				);
			}
			const stepRead = readEntry(step, unit);
			if ('problem' in stepRead || !(stepRead.value > 0)) {
				throw new Error(
					`workbook.yaml: quantity “${name}” steps by “${step}”, which is not an amount above nothing.`,
				);
			}
			return { unit, step: stepRead.value, decimals, divisions: divisions ?? 0 };
		};
		quantities.set(name, {
			name,
			dimension: known,
			shown: { 'inch-pound': shown('inch-pound'), metric: shown('metric') },
		});
	}
	return quantities;
}

/** The figures quoted in a piece of prose, with the lines they stand on. */
function mentionsInProse(
	tokens: readonly Token[],
	page: string,
	line: number,
): (Mention & { page: string })[] {
	const found: (Mention & { page: string })[] = [];
	let at = line;
	for (const token of tokens) {
		if (token.type !== 'code') {
			const plain = withoutCode(token);
			let from = 0;
			for (const name of figuresInText(plain)) {
				from = plain.indexOf(`{${name}}`, from) + 1;
				const before = token.raw.slice(0, from);
				found.push({
					name,
					page,
					must: 'any',
					at: {
						text: name,
						line: at + before.split('\n').length - 1,
						column: before.length - before.lastIndexOf('\n'),
					},
				});
			}
		}
		at += token.raw.split('\n').length - 1;
	}
	return found;
}

/** The same text with what stands in backquotes blanked, so that places stay. */
function withoutCode(token: Token): string {
	return token.raw.replace(/`[^`]*`/g, (code) => code.replace(/[^\n]/g, ' '));
}
