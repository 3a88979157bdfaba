/** What is shipped beside the sheets. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { buildFolder } from '../../src/commands/building.js';
import { expect, test } from './person';

test('every font has its licence beside it', () => {
	const folder = join(buildFolder, '_app/immutable/assets');
	const files = readdirSync(folder);
	const families = files.flatMap((name) => /^(\w+)-.*\.woff2$/.exec(name)?.[1] ?? []);
	expect(new Set(families)).toEqual(new Set(['b612', 'literata']));
	for (const family of families) {
		const licence = readFileSync(join(folder, `${family}-licence.txt`), 'utf8');
		expect(licence).toContain('SIL Open Font License, Version 1.1');
	}
});

test('every page takes scripts and styles of its own address only; what it refuses is an error that fails any test', () => {
	const pages = readdirSync(buildFolder, { recursive: true, encoding: 'utf8' }).filter((name) =>
		name.endsWith('index.html'),
	);
	expect(pages.length).toBeGreaterThan(15);
	for (const name of pages) {
		const text = readFileSync(join(buildFolder, name), 'utf8');
		const [, policy = ''] =
			/http-equiv="content-security-policy" content="([^"]*)"/.exec(text) ?? [];
		expect(policy, name).toMatch(/(^|; )style-src 'self'(;|$)/);
		expect(policy, name).toMatch(/(^|; )script-src 'self' 'sha256-[^' ]*'(;|$)/);
		expect(policy, name).not.toContain('unsafe-eval');
		expect(text, name).not.toContain('<style');
	}
});
