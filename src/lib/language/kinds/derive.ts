/** `derive`: one or more lines `name = expression # label`. An indented line goes on with the one above. */
import { problemAt } from '../problem.ts';
import type { CellBase, Given, Problem, SourceText } from '../types.ts';
import { nameTaken, type KindReader } from './reader.ts';

export interface DeriveLine extends Given {
	readonly formula: SourceText;
}

export interface DeriveCell extends CellBase {
	readonly kind: 'derive';
	readonly gives: readonly DeriveLine[];
}

/** A line that cannot be read is a problem; the lines around it go on. */
export const readDerive: KindReader<DeriveCell> = (block) => {
	const { body, page } = block;
	const problems: Problem[] = [];
	const gives: DeriveLine[] = [];
	const say = (message: string, place: SourceText, at = 0): void => {
		problems.push(problemAt(message, page, `${block.kind} ${block.number.toString()}`, place, at));
	};
	const lines = body.text.split('\n');
	for (let index = 0; index < lines.length; index++) {
		const first = lines[index] ?? '';
		if (first.trim() === '' || first.startsWith('#')) continue;
		const line = body.line + index;
		let whole = first;
		while (/^[ \t]+\S/.test(lines[index + 1] ?? '')) whole += `\n${String(lines[++index])}`;
		const given = readLine({ text: whole, line, column: 1 }, say);
		if (given) gives.push(given);
	}
	const [first] = gives;
	if (!first && problems.length === 0) {
		say('This cell derives nothing. Write a line “name = formula # label”.', body);
	}
	return {
		cell: {
			kind: 'derive',
			name: first?.name ?? `${page}/${block.number.toString()}`,
			page,
			line: body.line - 1,
			gives,
			asks: [],
			mentions: [],
		},
		problems,
	};
};

/** One line with all that goes on below it. What is wrong with it is said; without a line when it gives none. */
function readLine(
	place: SourceText,
	say: (message: string, place: SourceText, at?: number) => void,
): DeriveLine | undefined {
	const { text, line } = place;
	const hash = labelBegins(text);
	const written = hash < 0 ? text : text.slice(0, hash);
	const label = hash < 0 ? '' : text.slice(hash + 1).trim();
	const match = /^([A-Za-z_][A-Za-z0-9_]*)\s*=(?!=)\s*/.exec(written);
	const name = match?.[1];
	if (!match || !name) {
		say('This line gives no name. Write “name = formula # label”.', place);
		return undefined;
	}
	const refusal = /^[a-z][a-z0-9_]*$/.test(name)
		? nameTaken(name)
		: `“${name}” is not a name: use small letters, figures and underscores.`;
	if (refusal) {
		say(refusal, place);
		return undefined;
	}
	if (label === '') {
		say(
			`“${name}” has no label. End its line with # and the words people know it by.`,
			place,
			written.length,
		);
	}
	if (label.includes('\n')) {
		say(
			`The label of “${name}” runs on into another line. Put # and the label at the very end, after the whole formula.`,
			place,
			hash,
		);
		return undefined;
	}
	return {
		name,
		label: label || name,
		at: { text: name, line, column: 1 },
		formula: {
			text: written.slice(match[0].length).trimEnd(),
			line,
			column: match[0].length + 1,
		},
	};
}

/** The # that begins the label, not one inside quotes. */
function labelBegins(text: string): number {
	let quoted = false;
	for (let at = 0; at < text.length; at++) {
		const character = text.charAt(at);
		if (character === '"') quoted = !quoted;
		if (character === '#' && !quoted) return at;
	}
	return -1;
}
