/** The quick way of reading YAML gives what the library gives, value and places, or says nothing. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isDeepStrictEqual } from 'node:util';
import { z } from 'zod';
import { workbookText } from '../../src/commands/workbook-folder.ts';
import { readPlainYaml, type PlainYaml } from '../../src/lib/language/plain-yaml.ts';
import { readByLibrary, readYaml } from '../../src/lib/language/yaml.ts';

/** The YAML of the shipped workbook, piece by piece. */
const pieces = [...workbookText('lowering')].flatMap(([path, text]) => {
	if (path.endsWith('.yaml')) return [text];
	const cells = [...text.matchAll(/^```(?!derive)\w+\n([\s\S]*?)\n```$/gm)];
	const [, front = ''] = /^---\n([\s\S]*?)\n---\n/.exec(text) ?? [];
	return [front, ...cells.map(([, body = '']) => body)];
});

function pathsOf({ parts }: PlainYaml, above: PropertyKey[] = []): PropertyKey[][] {
	const below = [...(parts ?? [])].flatMap(([key, part]) => pathsOf(part, [...above, key]));
	return [above, ...below];
}

/** Whether the quick way read it; what it read has to be what the library reads, and to stand there. */
function readAlike(text: string, places: boolean): boolean {
	const plain = readPlainYaml(text);
	if (!plain) return false;
	const source = { text, line: 7, column: 3 };
	const library = readByLibrary(z.unknown(), source, 'page', 'cell');
	if (library.problems.length > 0 || !isDeepStrictEqual(library.value, plain.value)) {
		expect(plain.value, text).toStrictEqual(library.problems[0] ?? library.value);
	}
	if (!places) return true;
	const quick = readYaml(z.unknown(), source, 'page', 'cell');
	for (const path of [...pathsOf(plain), ['not', 'there'], [0, 'name']]) {
		expect(quick.place(path), `${path.map(String).join('.')} in\n${text}`).toEqual(
			library.place(path),
		);
	}
	return true;
}

test('all of the shipped workbook is read the quick way', () => {
	expect(pieces.length).toBeGreaterThan(300);
	for (const piece of pieces) expect(readAlike(piece, true), piece).toBe(true);
});

test('whatever a page holds, it is read alike or left to the library', () => {
	const sample = pieces.filter(({ length }) => length < 700);
	const odd = [...':-#[]{}"\'>|,&*!%@`~?=\\\t 01.eax\n', '\n  ', '\n- ', ': ', ' #', '- - ', '""'];
	const texts = [...odd, 'true', 'null', '0x1F', '-0', '.inf', '1_0', '<<: ', 'é'];
	let read = 0;
	fc.assert(
		fc.property(
			fc.constantFrom(...sample),
			fc.array(fc.tuple(fc.double({ min: 0, max: 1, noNaN: true }), fc.constantFrom(...texts)), {
				minLength: 1,
				maxLength: 3,
			}),
			fc.integer({ min: 0, max: 2 }),
			(piece, changes, out) => {
				let text = piece;
				for (const [share, put] of changes) {
					const at = Math.floor(share * text.length);
					text = text.slice(0, at) + put + text.slice(at + out);
				}
				if (readAlike(text, false)) read++;
			},
		),
		{ numRuns: 1500 },
	);
	// Enough stay plain for the equality to be tried, and not only the silence.
	expect(read).toBeGreaterThan(100);
});

describe('read alike', () => {
	test.each([
		'a: 1\nb: -2.5\nc: 1e3\nd: +4\ne: .5\nf: 2.',
		'a:\n- b\n- c\nd: e',
		'a:\n  - b: 1\n    c: 2\n\n  # a remark\n  - b: 3\n    c: 4\n',
		'a: >-\n  one\n  two\n\n  three\nb: |\n  four\n    five\n\nc: >\n  six\n\n\n  seven\n',
		'a: "in quotes: yes # no"\nb: \'it is\'',
		'a: { b: [1, two, -3 in], c: { d: "e, f" } }\ng: []\nh: {}',
		'a: b:c\nd: e#f\ng: x -y',
		'a: -5 in',
		'Which heights: 1\nThe load, it\'s counted: 2\n"Is any, of it: missing?": 3',
		'- in two words: 1\n  and, more: 2\n- "in quotes": 3',
	])('%j', (text) => {
		expect(readAlike(text, true)).toBe(true);
	});
});

test.each([
	['a: b\n  c', 'a text over two lines'],
	['a: b: c', 'a colon in a text'],
	['a: b # c', 'a remark behind a text'],
	['a: 1\na: 2', 'a name twice'],
	['a: &x 1\nb: *x', 'an anchor'],
	['a: "b\\n"', 'a sign for a line break'],
	['a: null', 'nothing'],
	['a: True', 'another way to write true'],
	['a:\n\tb: 1', 'a tab'],
	['- a\nb: 1', 'a list and a group'],
	['a: [1, 2', 'a bracket not closed'],
	['', 'nothing at all'],
])('%j is left to the library: %s', (text) => {
	expect(readPlainYaml(text)).toBeUndefined();
});
