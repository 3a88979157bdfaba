/**
 * Takes the words of function rows out of what comes with every sheet, where nobody reads them: `/functions/`
 * has them as data, from function-words.ts.
 */
import type { ESTree, Plugin } from 'vite';

/** In a build, empties the words of the files that hold rows of the trade. */
export function withoutFunctionWords(): Plugin {
	return {
		name: 'without-function-words',
		apply: 'build',
		// Behind what makes JavaScript of it.
		enforce: 'post',
		transform: {
			filter: { id: /\/src\/lib\/trade\/rows\/.*\.ts$/ },
			handler(code) {
				return { code: emptied(code, this.parse(code)), map: null };
			},
		},
	};
}

/**
 * A file of rows without its words.
 * @param program the same as a tree
 */
export function emptied(code: string, program: Part): string {
	let left = code;
	// From the last to the first, so that places before them stay.
	for (const { start, end } of wordsIn(program).sort((a, b) => b.start - a.start)) {
		left = `${left.slice(0, start)}''${left.slice(end)}`;
	}
	return left;
}

type Part = ESTree.Node;
const ofRow = new Set(['about', 'source', 'example']);

/**
 * Where words stand: the `about`, `source` and `example` of a row, and the last of three where a parameter or
 * a field is told as its name, its kind and a phrase.
 */
function wordsIn(part: Part): Part[] {
	const found: Part[] = [];
	if (part.type === 'ObjectExpression') {
		for (const each of part.properties) {
			if (each.type === 'Property' && each.key.type === 'Identifier' && ofRow.has(each.key.name)) {
				found.push(each.value);
			}
		}
	}
	if (part.type === 'ArrayExpression' && part.elements.length === 3) {
		const [name, kind, phrase] = part.elements;
		if (isText(name) && !isText(kind) && phrase && isText(phrase)) found.push(phrase);
	}
	const inside = Object.values(part).flat().filter(isPart);
	return [...found, ...inside.flatMap(wordsIn)];
}

function isText(part: Part | null | undefined): boolean {
	return part?.type === 'Literal' && typeof part.value === 'string';
}

function isPart(value: unknown): value is Part {
	return typeof value === 'object' && value !== null && 'type' in value;
}
