/**
 * From the text of a page to its front matter, prose and blocks. marked's lexer splits the Markdown; a
 * fenced block with a word after its fence is a cell of that kind.
 */
import { Lexer, type Token, type Tokens } from 'marked';
import { z } from 'zod';
import type { Block, Problem } from './types.ts';
import { readYaml } from './yaml.ts';

const frontMatter = z.strictObject({
	title: z.string().min(1),
	summary: z.string().min(1),
	/** ISO 7200: what sort of sheet this is. */
	document: z.string().min(1),
});

export type PagePart =
	| { readonly part: 'prose'; readonly tokens: readonly Token[]; readonly line: number }
	| { readonly part: 'block'; readonly block: Block };

export interface PageText {
	/** From its file name. */
	readonly id: string;
	readonly title: string;
	readonly summary: string;
	readonly document: string;
	readonly parts: readonly PagePart[];
	readonly problems: readonly Problem[];
}

/**
 * Splits one page. A page whose front matter cannot be read still gives its parts.
 * @param id its file name without the ending
 * @param text the whole file
 */
export function readPage(id: string, text: string): PageText {
	const source = text.replace(/^\uFEFF/, '').replace(/\r\n?/g, '\n');
	const problems: Problem[] = [];
	const head = /^---[ \t]*\n([\s\S]*?)\n---[ \t]*(?:\n|$)/.exec(source);
	let front: z.infer<typeof frontMatter> = { title: id, summary: '', document: '' };
	let line = 1;
	if (head) {
		const found = readYaml(frontMatter, { text: head[1] ?? '', line: 2, column: 1 }, id, '');
		if (found.value) front = found.value;
		problems.push(...found.problems);
		line += head[0].split('\n').length - 1;
	} else {
		problems.push({
			message:
				'The page does not begin with its front matter. Begin it with a line ---, then title, summary and document, then a line ---.',
			page: id,
			cell: '',
			line: 1,
			column: 1,
		});
	}
	const parts: PagePart[] = [];
	let prose: Token[] = [];
	let proseLine = line;
	let cells = 0;
	const endProse = (): void => {
		if (prose.some((token) => token.type !== 'space')) {
			parts.push({ part: 'prose', tokens: prose, line: proseLine });
		}
		prose = [];
	};
	for (const token of new Lexer({ gfm: true }).lex(source.slice(head?.[0].length ?? 0))) {
		const fenced = token.type === 'code' ? (token as Tokens.Code) : undefined;
		const kind = fenced?.lang?.trim();
		if (fenced && kind) {
			endProse();
			cells++;
			if (!/\n {0,3}(?:`{3,}|~{3,})\s*$/.test(token.raw)) {
				problems.push({
					message:
						'This cell is opened and never closed, so the rest of the page went into it. Close it with a line ```.',
					page: id,
					cell: `${kind} ${cells}`,
					line,
					column: 1,
				});
			}
			parts.push({
				part: 'block',
				block: {
					kind,
					page: id,
					number: cells,
					body: { text: fenced.text, line: line + 1, column: 1 },
				},
			});
		} else {
			if (prose.length === 0) proseLine = line;
			prose.push(token);
		}
		line += token.raw.split('\n').length - 1;
	}
	endProse();
	return { id, ...front, parts, problems };
}
