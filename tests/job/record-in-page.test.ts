/** The file of a job within a page of HTML: it comes out as it went in, and no text of it ends the page around it. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { fileIn, inPage } from '../../src/lib/job/record-in-page.ts';
import '../seed.ts';

const around = (inside: string): string => `<!doctype html>\n<body>${inside}</body>`;

test('a file comes out of a page as it went in, whatever stands in it', () => {
	fc.assert(
		fc.property(fc.jsonValue(), fc.string(), (value, text) => {
			const file = JSON.stringify({ value, text, sharp: `</template><script>${text}` });
			const page = around(inPage(file));
			expect(page.match(/<\/template>/g)).toHaveLength(1);
			expect(page).not.toContain('<script');
			expect(JSON.parse(fileIn(page))).toEqual(JSON.parse(file));
		}),
	);
});

test('what is no such page is left as it is, and one that breaks off gives what is left', () => {
	expect(fileIn('{"a":"<template id=\\"ride-height-job\\">"}')).toBe(
		'{"a":"<template id=\\"ride-height-job\\">"}',
	);
	expect(fileIn(around('no job'))).toBe(around('no job'));
	expect(fileIn(around(inPage('{"a":1}')).slice(0, 57))).toBe('{"a"');
});
