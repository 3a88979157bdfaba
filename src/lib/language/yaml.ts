/**
 * YAML read against a shape, every mistake a sentence with its place in the page. What is plain and right is
 * read the quick way; all else, and so every mistake, by the library.
 */
import { LineCounter, isMap, isScalar, parseDocument, visit, type Document, type Node } from 'yaml';
import type { z } from 'zod';
import { linesIn } from './places.ts';
import { readPlainYaml, type PlainYaml } from './plain-yaml.ts';
import type { Problem, SourceText } from './types.ts';

export interface YamlFound<V> {
	/** Undefined when there were mistakes. */
	readonly value?: V;
	readonly problems: readonly Problem[];
	/** The place of the value at a path, for mistakes found later. */
	readonly place: (path: readonly PropertyKey[]) => SourceText;
}

/**
 * Reads YAML of one shape.
 * @param shape what it has to look like
 * @param source the YAML and where it begins in the page
 */
export function readYaml<V>(
	shape: z.ZodType<V>,
	source: SourceText,
	page: string,
	cell: string,
): YamlFound<V> {
	const plain = readPlainYaml(source.text);
	const right = plain && shape.safeParse(plain.value);
	if (plain && right?.success) {
		return { value: right.data, problems: [], place: plainPlaces(plain, source) };
	}
	return readByLibrary(shape, source, page, cell);
}

/** Where each path stands, or the nearest part above it that there is. */
function plainPlaces(plain: PlainYaml, source: SourceText): YamlFound<unknown>['place'] {
	const { text, line, column } = source;
	// Most are asked for from first to last, so lines are counted on from the one before.
	let counted = { at: 0, lines: 0 };
	return (path) => {
		let found = plain;
		for (const key of path) {
			const part = found.parts?.get(key);
			if (!part) break;
			found = part;
		}
		const { at, text: written = '' } = found;
		const known = counted.at <= at ? counted : { at: 0, lines: 0 };
		counted = { at, lines: known.lines + linesIn(text, at, known.at) };
		return {
			text: written,
			line: line + counted.lines,
			column: (counted.lines === 0 ? column - 1 : 0) + at - text.lastIndexOf('\n', at - 1),
		};
	};
}

/** Reads all that YAML can be, and says what is wrong with it. */
export function readByLibrary<V>(
	shape: z.ZodType<V>,
	source: SourceText,
	page: string,
	cell: string,
): YamlFound<V> {
	const lines = new LineCounter();
	const document = parseDocument(source.text, {
		lineCounter: lines,
		prettyErrors: false,
		logLevel: 'error',
	});
	const placeOf = (offset: number, text: string): SourceText => {
		const { line, col } = lines.linePos(offset);
		return {
			text,
			line: source.line + Math.max(line, 1) - 1,
			column: (line <= 1 ? source.column - 1 : 0) + Math.max(col, 1),
		};
	};
	const problem = (message: string, at: SourceText): Problem => ({
		message,
		page,
		cell,
		line: at.line,
		column: at.column,
	});
	const place = (path: readonly PropertyKey[]): SourceText => {
		const node = nodeAt(document, path);
		const offset = node?.range?.[0] ?? 0;
		const text = isScalar(node) ? String(node.source ?? node.value) : '';
		// Past the quote, or past the line with > or | of a text that begins on the next.
		const opening = isScalar(node)
			? /^(?:["']|[>|][^\n]*\n\s*)/.exec(source.text.slice(offset))
			: null;
		return placeOf(offset + (opening?.[0].length ?? 0), text);
	};
	const unreadable = unreadableIn(document, placeOf, problem);
	if (unreadable.length > 0) return { problems: unreadable, place };
	const found = shape.safeParse(document.toJS() ?? {});
	if (found.success) return { value: found.data, problems: [], place };
	return {
		problems: found.error.issues.flatMap((issue) =>
			sentences(issue, document, place, placeOf, problem),
		),
		place,
	};
}

/** What keeps it from being read at all: what is no YAML, and a text that would stand for another. */
function unreadableIn(
	document: Document,
	placeOf: (offset: number, text: string) => SourceText,
	problem: (message: string, at: SourceText) => Problem,
): Problem[] {
	if (document.errors.length > 0) {
		return document.errors.map((error) =>
			problem(
				`This is not readable YAML: ${error.message.replace(/\s+at line.*$/s, '')}. Write one “name: value” a line, and put a text that holds “: ” or “#” in quotes.`,
				placeOf(error.pos[0], ''),
			),
		);
	}
	let alias: SourceText | undefined;
	visit(document, {
		Alias(_, { range, source: name }) {
			alias ??= placeOf(range?.[0] ?? 0, name);
		},
	});
	if (!alias) return [];
	return [
		problem(
			`This is not readable YAML: “*${alias.text}” would stand for something else. Put a text that begins with * in quotes.`,
			alias,
		),
	];
}

function nodeAt(document: Document, path: readonly PropertyKey[]): Node | undefined {
	for (let length = path.length; length >= 0; length--) {
		const found = length === 0 ? document.contents : document.getIn(path.slice(0, length), true);
		if (found) return found as Node;
	}
	return undefined;
}

const wanted: Readonly<Record<string, string>> = {
	string: 'a text',
	number: 'a number',
	boolean: 'true or false',
	array: 'a list',
	object: 'a group of “name: value” lines',
	record: 'a group of “name: value” lines',
};

function sentences(
	issue: z.core.$ZodIssue,
	document: Document,
	place: (path: readonly PropertyKey[]) => SourceText,
	placeOf: (offset: number, text: string) => SourceText,
	problem: (message: string, at: SourceText) => Problem,
): Problem[] {
	const field = issue.path.map(String).join('.');
	const at = place(issue.path);
	if (issue.path.length > 0 && document.getIn(issue.path) === undefined) {
		const what = issue.code === 'invalid_type' ? wanted[issue.expected] : undefined;
		return [problem(`“${field}” is missing; ${what ? `give it ${what}` : 'add it'}.`, at)];
	}
	switch (issue.code) {
		case 'unrecognized_keys':
			return issue.keys.map((key) => {
				const parent = nodeAt(document, issue.path);
				const pair = isMap(parent)
					? parent.items.find((item) => isScalar(item.key) && String(item.key.value) === key)
					: undefined;
				const range = pair && isScalar(pair.key) ? pair.key.range : undefined;
				return problem(
					`“${key}” is not a field that can stand here. Take it out or spell it as in DEVELOPERS.md.`,
					range ? placeOf(range[0], key) : at,
				);
			});
		case 'invalid_type':
			return [
				problem(
					`${field ? `“${field}”` : 'What stands here'} has to be ${wanted[issue.expected] ?? issue.expected}.`,
					at,
				),
			];
		case 'invalid_key':
			return [
				problem(
					`“${String(issue.path.at(-1))}” cannot stand here as a name: ${issue.issues[0]?.message ?? issue.message}.`,
					at,
				),
			];
		case 'invalid_value':
			return [problem(`“${field}” has to be one of ${issue.values.map(String).join(', ')}.`, at)];
		case 'invalid_union':
			return [problem(`“${field}” is not written in any of the ways it can be.`, at)];
		default:
			return [problem(`“${field}” cannot be read: ${issue.message}.`, at)];
	}
}
