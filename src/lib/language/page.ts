/**
 * From the text of a page to its front matter, prose and blocks. marked's lexer splits the Markdown; a
 * fenced block with a word after its fence is a cell of that kind; a heading begins a section.
 */
import { Lexer, type Token, type Tokens } from 'marked';
import { z } from 'zod';
import { nearest } from '../units/nearest-word.ts';
import { linesIn } from './places.ts';
import type { Block, Problem } from './types.ts';
import { depths, type Depth } from './workbook.ts';
import { readYaml } from './yaml.ts';

const frontMatter = z.strictObject({
	title: z.string().min(1),
	/** What it is called where there is little room. */
	short: z.string().min(1).max(14).optional(),
	summary: z.string().min(1),
	/** ISO 7200: what sort of sheet this is. */
	document: z.string().min(1),
	/** How deep a section lies, by its heading; on the first screen when left out. */
	sections: z.record(z.string(), z.enum(depths)).optional(),
});
type FrontMatter = z.infer<typeof frontMatter>;

type TextPart =
	| { readonly part: 'prose'; readonly tokens: readonly Token[]; readonly line: number }
	| { readonly part: 'block'; readonly block: Block };

/** A page split, its blocks not yet read. */
export interface PageText {
	/** From its file name. */
	readonly id: string;
	readonly title: string;
	/** What it is called where there is little room; its file name unless the page says another. */
	readonly short: string;
	readonly summary: string;
	readonly document: string;
	readonly sections: readonly {
		readonly title?: string;
		readonly depth: Depth;
		readonly parts: readonly TextPart[];
	}[];
	readonly problems: readonly Problem[];
}

/**
 * Splits one page. A page whose front matter cannot be read still gives its parts.
 * @param id its file name without the ending
 * @param text the whole file
 */
export function readPage(id: string, text: string): PageText {
	const source = text.replace(/^\uFEFF/, '').replace(/\r\n?/g, '\n');
	const head = /^---[ \t]*\n([\s\S]*?)\n---[ \t]*(?:\n|$)/.exec(source);
	const { front, depthPlaces, problems } = readFront(id, head?.[1]);
	const line = head ? head[0].split('\n').length : 1;
	const splitter = new Splitter(id, front, line, problems);
	splitter.split(source.slice(head?.[0].length ?? 0));
	const { sections } = splitter;
	const titles = sections.flatMap(({ title }) => title ?? []);
	for (const [title, place] of depthPlaces) {
		if (titles.includes(title)) continue;
		problems.push({
			message: `“${title}” is no heading of this page.${nearest(title, titles)} A section begins with a line “## ${title}”.`,
			page: id,
			cell: '',
			...place,
		});
	}
	const { title, summary, document, short = inWords(id) } = front;
	return { id, title, short, summary, document, sections, problems };
}

/** A file name as a word: `my-hitch` is “My hitch”. */
function inWords(id: string): string {
	return id.charAt(0).toUpperCase() + id.slice(1).replaceAll('-', ' ');
}

/** The front matter, and where each depth of a section is written. */
function readFront(
	id: string,
	text: string | undefined,
): {
	front: FrontMatter;
	depthPlaces: (readonly [title: string, place: { line: number; column: number }])[];
	problems: Problem[];
} {
	const none: FrontMatter = { title: id, summary: '', document: '' };
	if (text === undefined) {
		return {
			front: none,
			depthPlaces: [],
			problems: [
				{
					message:
						'The page does not begin with its front matter. Begin it with a line ---, then title, summary and document, then a line ---.',
					page: id,
					cell: '',
					line: 1,
					column: 1,
				},
			],
		};
	}
	const found = readYaml(frontMatter, { text, line: 2, column: 1 }, id, '');
	const front = found.value ?? none;
	return {
		front,
		depthPlaces: Object.keys(front.sections ?? {}).map((title) => {
			const { line, column } = found.place(['sections', title]);
			return [title, { line, column }];
		}),
		problems: [...found.problems],
	};
}

/** Quotes, lists and words set apart, one in the other. What is shown goes as deep, and a browser not for ever. */
const deepest = 20;

function isDeeper(token: Token, than: number): boolean {
	if (than === 0) return true;
	const deeper = (inside: Token): boolean => isDeeper(inside, than - 1);
	const cellIsDeeper = ({ tokens }: Tokens.TableCell): boolean => tokens.some(deeper);
	const { tokens, items, header, rows } = token as {
		readonly tokens?: readonly Token[];
		readonly items?: readonly Token[];
		readonly header?: readonly Tokens.TableCell[];
		readonly rows?: readonly (readonly Tokens.TableCell[])[];
	};
	return (
		(tokens?.some(deeper) ?? false) ||
		(items?.some(deeper) ?? false) ||
		(header?.some(cellIsDeeper) ?? false) ||
		(rows?.some((row) => row.some(cellIsDeeper)) ?? false)
	);
}

/** Goes down a page, token by token, and gathers its sections. */
class Splitter {
	readonly sections: { title?: string; depth: Depth; parts: TextPart[] }[] = [];
	private parts: TextPart[] = [];
	private prose: Token[] = [];
	private proseLine: number;
	private cells = 0;
	private readonly page: string;
	private readonly front: FrontMatter;
	private readonly problems: Problem[];
	private line: number;

	constructor(page: string, front: FrontMatter, line: number, problems: Problem[]) {
		this.page = page;
		this.front = front;
		this.line = line;
		this.proseLine = line;
		this.problems = problems;
	}

	split(text: string): void {
		this.sections.push({ depth: 'first', parts: this.parts });
		for (const token of this.tokensOf(text)) {
			if (isDeeper(token, deepest)) {
				this.tooDeep();
				this.line += linesIn(token.raw);
				continue;
			}
			const fenced = token.type === 'code' ? (token as Tokens.Code) : undefined;
			const kind = fenced?.lang?.trim();
			if (fenced && kind) {
				this.endProse();
				this.block(kind, fenced);
			} else {
				if (token.type === 'heading' && (token as Tokens.Heading).depth <= 2) this.section(token);
				if (this.prose.length === 0) this.proseLine = this.line;
				this.prose.push(token);
			}
			this.line += linesIn(token.raw);
		}
		this.endProse();
		if (this.sections[0]?.parts.length === 0) this.sections.shift();
	}

	/** Nothing of a text that goes deeper into itself than the reader does. */
	private tokensOf(text: string): readonly Token[] {
		try {
			return new Lexer({ gfm: true }).lex(text);
		} catch (cause) {
			if (!(cause instanceof RangeError)) throw cause;
			this.tooDeep();
			return [];
		}
	}

	private tooDeep(): void {
		this.problems.push({
			message: `Here one thing stands in another, as a quote in a quote, more than ${deepest.toString()} deep, and it is left out. Write it flatter.`,
			page: this.page,
			cell: '',
			line: this.line,
			column: 1,
		});
	}

	/** Begins a section; its heading is the first of its prose. */
	private section(heading: Token): void {
		this.endProse();
		const title = (heading as Tokens.Heading).text;
		this.parts = [];
		this.sections.push({
			title,
			depth: this.front.sections?.[title] ?? 'first',
			parts: this.parts,
		});
	}

	private endProse(): void {
		if (this.prose.some((token) => token.type !== 'space')) {
			this.parts.push({ part: 'prose', tokens: this.prose, line: this.proseLine });
		}
		this.prose = [];
	}

	private block(kind: string, { raw, text }: Tokens.Code): void {
		this.cells++;
		if (!/\n {0,3}(?:`{3,}|~{3,})\s*$/.test(raw)) {
			this.problems.push({
				message:
					'This cell is opened and never closed, so the rest of the page went into it. Close it with a line ```.',
				page: this.page,
				cell: `${kind} ${this.cells.toString()}`,
				line: this.line,
				column: 1,
			});
		}
		this.parts.push({
			part: 'block',
			block: {
				kind,
				page: this.page,
				number: this.cells,
				body: { text, line: this.line + 1, column: 1 },
			},
		});
	}
}
