/** A scenario: what is typed for every input, and the story of each page. */
import { Lexer, type Token } from 'marked';
import { z } from 'zod';
import { unitSystems } from '../units/quantities.ts';
import { amountShape, nameShape } from './kinds/reader.ts';
import { figuresInText } from './prose.ts';
import type { Mention, Problem, SourceText } from './types.ts';
import type { Scenario } from './workbook.ts';
import { readYaml, type YamlFound } from './yaml.ts';

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

/** A scenario with what else its file holds. */
export interface ScenarioRead {
	/** None when the file has a mistake. */
	readonly scenario?: Scenario;
	/** Its story by page, and where each part begins. */
	readonly stories: readonly {
		readonly page: string;
		readonly tokens: readonly Token[];
		readonly at: SourceText;
	}[];
	/** The figures its story quotes. */
	readonly mentions: readonly (Mention & { readonly page: string })[];
	/** Every input it gives a value, and where that stands in the file. */
	readonly given: readonly { readonly name: string; readonly path: readonly PropertyKey[] }[];
	readonly place: YamlFound<unknown>['place'];
	readonly problems: readonly Problem[];
}

/**
 * Reads a scenario.
 * @param id its file name without the ending
 * @param text the whole file
 */
export function readScenario(id: string, text: string): ScenarioRead {
	const file = scenarioFile(id);
	const found = readYaml(scenarioShape, { text, line: 1, column: 1 }, file, '');
	const { problems, place } = found;
	if (!found.value) return { stories: [], mentions: [], given: [], problems, place };
	const { story, ...written } = found.value;
	const stories = Object.entries(story).map(([page, told]) => ({
		page,
		tokens: new Lexer({ gfm: true }).lex(told),
		at: place(['story', page]),
	}));
	const given = (path: readonly PropertyKey[], names: Readonly<Record<string, string>>) =>
		Object.keys(names).map((name) => ({ name, path: [...path, name] }));
	return {
		scenario: { id, ...written },
		stories,
		mentions: stories.flatMap(({ page, at }) =>
			figuresInText(story[page] ?? '').map((name) => ({ name, at, must: 'any', page: file })),
		),
		given: [
			...given(['values'], written.values),
			...(written.options ?? []).flatMap(({ values }, index) =>
				given(['options', index, 'values'], values),
			),
		],
		problems,
		place,
	};
}

/** Where a scenario stands in the folder of its workbook. */
export function scenarioFile(id: string): string {
	return `scenarios/${id}.yaml`;
}
