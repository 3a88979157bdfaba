/** YAML read against a shape, every mistake a sentence with its place in the page. */
import { LineCounter, isMap, isScalar, parseDocument, type Document, type Node } from 'yaml';
import type { z } from 'zod';
import type { Problem, SourceText } from './types.ts';

export interface YamlFound<V> {
	/** Undefined when there were mistakes. */
	readonly value?: V;
	readonly problems: readonly Problem[];
	/** The place of the value at a path, for mistakes found later. */
	place(path: readonly PropertyKey[]): SourceText;
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
	const lines = new LineCounter();
	const document = parseDocument(source.text, { lineCounter: lines, prettyErrors: false });
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
		const quoted = isScalar(node) && /^["']/.test(source.text.slice(offset)) ? 1 : 0;
		return placeOf(offset + quoted, text);
	};
	if (document.errors.length > 0) {
		return {
			problems: document.errors.map((error) =>
				problem(
					`This is not readable YAML: ${error.message.replace(/\s+at line.*$/s, '')}. Write one “name: value” a line, and put a text that holds “: ” or “#” in quotes.`,
					placeOf(error.pos[0], ''),
				),
			),
			place,
		};
	}
	const found = shape.safeParse(document.toJS() ?? {});
	if (found.success) return { value: found.data, problems: [], place };
	return {
		problems: found.error.issues.flatMap((issue) => sentences(issue, document, place, problem)),
		place,
	};
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
	problem: (message: string, at: SourceText) => Problem,
): Problem[] {
	const field = issue.path.map(String).join('.') || 'the whole';
	const at = place(issue.path);
	switch (issue.code) {
		case 'unrecognized_keys':
			return issue.keys.map((key) => {
				const parent = nodeAt(document, issue.path);
				const pair = isMap(parent)
					? parent.items.find((item) => isScalar(item.key) && item.key.value === key)
					: undefined;
				const keyAt =
					pair && isScalar(pair.key) && pair.key.range ? place([...issue.path, key]) : at;
				return problem(
					`“${key}” is not a field that can stand here. Take it out or spell it as in DEVELOPERS.md.`,
					{
						...keyAt,
						column: 1,
					},
				);
			});
		case 'invalid_type': {
			const missing = document.getIn(issue.path) === undefined;
			return [
				problem(
					missing
						? `“${field}” is missing; give it ${wanted[issue.expected] ?? issue.expected}.`
						: `“${field}” has to be ${wanted[issue.expected] ?? issue.expected}.`,
					at,
				),
			];
		}
		case 'invalid_value':
			return [problem(`“${field}” has to be one of ${issue.values.map(String).join(', ')}.`, at)];
		case 'invalid_union':
			return [problem(`“${field}” is not written in any of the ways it can be.`, at)];
		default:
			return [problem(`“${field}” cannot be read: ${issue.message}.`, at)];
	}
}
