/** Prose that quotes live figures: a name in braces, `{rear_drop}`. */
import type { Token } from 'marked';

/** A run of text, or a figure quoted by name. */
export type ProsePiece = { readonly text: string } | { readonly figure: string };

const quoted = /\{([a-z][a-z0-9_]*)\}/g;

/** Splits text at the names in braces. Braces around anything else stay text. */
export function proseOf(text: string): ProsePiece[] {
	const pieces: ProsePiece[] = [];
	let from = 0;
	for (const match of text.matchAll(quoted)) {
		if (match.index > from) pieces.push({ text: text.slice(from, match.index) });
		pieces.push({ figure: match[1] ?? '' });
		from = match.index + match[0].length;
	}
	if (from < text.length) pieces.push({ text: text.slice(from) });
	return pieces;
}

/** The names quoted anywhere in Markdown that was read. */
export function figuresInTokens(tokens: readonly Token[]): string[] {
	// A brace of the tokens themselves has no name behind it.
	return figuresInText(JSON.stringify(tokens));
}

/** The names quoted in a text. */
export function figuresInText(text: string): string[] {
	return text.includes('{') ? [...text.matchAll(quoted)].map(([, name = '']) => name) : [];
}
