/**
 * What reading costs: all pages and stories read and checked beside the lexing of their Markdown, and a page edited
 * beside all pages read. On the shipped workbook.
 */
import { Lexer } from 'marked';
import { parse } from 'yaml';
import { workbookText } from '../../src/commands/workbook-folder.ts';
import { pack, unpack } from '../../src/lib/language/packed.ts';
import { readWorkbook, WorkbookReader } from '../../src/lib/language/read-workbook.ts';
import { lowering } from '../../src/lib/trade/lowering.ts';
import { quickest, times } from './quickest.ts';

/** The measurement as a small table. */
export function readingTable(): string {
	const files = workbookText('lowering');
	const workbook = readWorkbook('lowering', files, lowering);
	const packed = JSON.stringify(pack(workbook));
	const markdown = [...files].flatMap(([path, text]) => {
		if (path.endsWith('.md')) return [text];
		if (!path.startsWith('scenarios/')) return [];
		return Object.values((parse(text) as { story: Record<string, string> }).story);
	});

	const reader = new WorkbookReader(lowering);
	const wedge = files.get('wedge.md') ?? '';
	let edits = 0;
	const edit = (): void => {
		reader.read('lowering', new Map([...files, ['wedge.md', `${wedge}\nEdit ${edits++}.\n`]]));
	};
	edit();
	const [lexing = NaN, reading = NaN, edited = NaN, unpacking = NaN] = quickest(
		[
			times(2, () => {
				for (const text of markdown) new Lexer({ gfm: true }).lex(text);
			}),
			() => readWorkbook('lowering', files, lowering),
			times(2, edit),
			times(4, () => unpack(JSON.parse(packed) as ReturnType<typeof pack>, lowering)),
		],
		100,
	);
	const rows: readonly (readonly [what: string, ratio: number])[] = [
		['all pages and stories read, to lexing their Markdown', reading / (lexing / 2)],
		['one page edited, to all read', edited / 2 / reading],
		['trees unpacked, to all read', unpacking / 4 / reading],
	];
	const wide = Math.max(...rows.map(([what]) => what.length));
	return [
		`${'reading'.padEnd(wide)}  ratio`,
		...rows.map(([what, ratio]) => `${what.padEnd(wide)}  ${ratio.toFixed(2).padStart(5)}`),
	].join('\n');
}
