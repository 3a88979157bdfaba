/** A workbook packed and unpacked is the one that was read, but for what only a reader of text needs. */
import { existsSync, readFileSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { pack, packWords, unpack, withWords } from '../../src/lib/language/packed.ts';
import type { Workbook } from '../../src/lib/language/workbook.ts';
import { lowering } from '../../src/lib/trade/lowering.ts';
import { shipped } from './shipped.ts';
import { fence, inputCell, smallWorkbook } from './small-workbook.ts';

/** As it arrives in a browser, with the words of every page. */
function sent(workbook: Workbook): Workbook {
	const packed = JSON.parse(JSON.stringify(pack(workbook))) as ReturnType<typeof pack>;
	const unpacked = unpack(packed, lowering);
	const pages = unpacked.pages.map((page, index) => {
		const words = packWords(workbook.pages[index] ?? page);
		return withWords(page, JSON.parse(JSON.stringify(words)) as typeof words);
	});
	return { ...unpacked, pages };
}

/** The graph without what is not packed: the places of parts and of names, and the cell, which is by itself. */
function graphOf({ graph: { nodes, order, rank } }: Workbook): unknown {
	const bare = (_: string, value: unknown): unknown =>
		value && typeof value === 'object' && 'at' in value ? { ...value, at: undefined } : value;
	return JSON.parse(
		JSON.stringify(
			{ order, rank, nodes: nodes.map((node) => ({ ...node, cell: node.cell.name, input: 0 })) },
			bare,
		),
	);
}

/** A cell without places inside it and the text of its formulas. */
function cellsBare({ pages }: Workbook): unknown {
	return pages.map(({ sections }) =>
		sections.map((section) => ({
			...section,
			parts: section.parts.map((part) => {
				if (part.part === 'prose') return 'prose';
				const { gives, asks, mentions, ...cell } = part.cell;
				return {
					...cell,
					gives: gives.map(({ name, label, type }) => ({ name, label, type })),
					asks: asks.map(({ id, expects }) => ({ id, expects })),
					mentions: mentions.map(({ name, must, like }) => ({ name, must, like })),
				};
			}),
		})),
	);
}

describe.each([
	['the shipped workbook', shipped],
	[
		'a workbook with every sort of mistake',
		smallWorkbook(
			{
				one: [
					'Above.\n\n## What\n',
					inputCell('given', 'length', 'default: 1 in'),
					inputCell('given', 'length'),
					fence('derive', 'twice = given + given  # Twice', 'wrong = given + 1 deg  # Wrong'),
					fence('derive', 'nobody = not_there + given  # Nobody', 'broken = (  # Broken'),
					fence('derive', 'ring = round_and  # Ring', 'round_and = ring  # Ring'),
					fence('derive', 'after = wrong * 2  # After', 'shown = 2.50 * given to mm  # Shown'),
					fence('drawing', 'name: nothing'),
				].join('\n'),
			},
			{ pages: ['one', 'missing'] },
		),
	],
])('%s', (_, workbook) => {
	const unpacked = sent(workbook);

	test('has the same graph', () => {
		expect(graphOf(unpacked)).toEqual(graphOf(workbook));
		for (const { slot, id, cell, input } of unpacked.graph.nodes) {
			expect(input, id).toBe(workbook.graph.nodes[slot]?.input ? cell : undefined);
		}
	});

	test('packs as before with its pages in full', () => {
		expect(JSON.stringify(pack(unpacked))).toBe(JSON.stringify(pack(workbook)));
	});

	test('has the same pages and cells', () => {
		expect(cellsBare(unpacked)).toEqual(cellsBare(workbook));
		const { pages, graph, quantities, ...rest } = workbook;
		expect(unpacked).toMatchObject(rest);
		expect([...unpacked.quantities]).toEqual([...quantities]);
		expect(unpacked.graph.byId.size).toBe(graph.byId.size);
		expect(unpacked.pages.map(({ id, title }) => [id, title])).toEqual(
			pages.map(({ id, title }) => [id, title]),
		);
	});
});

/** What is read on a page, as text. */
function textOf(tokens: unknown): string {
	if (Array.isArray(tokens)) return tokens.map(textOf).join('');
	if (!tokens || typeof tokens !== 'object') return '';
	const { tokens: inside, items, header, rows, text, type } = tokens as Record<string, unknown>;
	if (type === 'space' || type === 'html') return '';
	const held = [inside, items, header, rows].filter((part) => part !== undefined);
	return held.length > 0 ? held.map(textOf).join('') : typeof text === 'string' ? text : '';
}

test('no word of a page or a story is lost, in whatever mark it stands', () => {
	const unpacked = sent(shipped);
	shipped.pages.forEach((page, index) => {
		const other = unpacked.pages[index];
		const prose = page.parts.map((part) => (part.part === 'prose' ? textOf(part.tokens) : ''));
		const kept = other?.parts.map((part) => (part.part === 'prose' ? textOf(part.tokens) : ''));
		expect(prose.join('').length).toBeGreaterThan(200);
		expect(kept).toEqual(prose);
		for (const { id } of shipped.scenarios) {
			expect(textOf(page.stories[id]).length).toBeGreaterThan(100);
			expect(textOf(other?.stories[id])).toBe(textOf(page.stories[id]));
		}
	});
});

/** Every package that a file needs at run time, near and far. */
function packagesBehind(file: string, seen = new Set<string>()): string[] {
	if (seen.has(file)) return [];
	seen.add(file);
	const text = readFileSync(file, 'utf8');
	const found = text.matchAll(/^(?:import|export) (?!type )(?:[^'";]* from )?'([^']+)';/gm);
	return [...found].flatMap(([, path = '']) => {
		if (!path.startsWith('.')) return [path];
		const next = resolve(dirname(file), path);
		expect(existsSync(next), next).toBe(true);
		return packagesBehind(next, seen);
	});
}

test('unpacking and running need no parser', () => {
	const at = (path: string): string =>
		fileURLToPath(new URL(`../../src/lib/${path}`, import.meta.url));
	for (const file of [
		...['language/packed.ts', 'engine/run.ts', 'engine/plus-minus.ts', 'engine/checks.ts'],
		...['engine/worker/handle.ts', 'trade/lowering.ts', 'units/entry.ts', 'answers/figures.ts'],
	]) {
		expect(packagesBehind(at(file)), file).toEqual([]);
	}
	expect(packagesBehind(at('language/read-workbook.ts'))).toContain('mathjs');
});
