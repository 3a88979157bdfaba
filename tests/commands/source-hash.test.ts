/** What counts as a change of the sources. */
import { mkdirSync, mkdtempSync, renameSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { expect, test } from 'vitest';
import { projectFolder } from '../../src/commands/set-up.js';
import { hashOf } from '../../src/commands/source-hash.js';

test('a file changed, added, renamed or gone is a change; one that was touched is none', () => {
	const folder = mkdtempSync(join(tmpdir(), 'workbook-'));
	const at = (name: string): string => join(folder, name);
	const hash = (): string => hashOf([relative(projectFolder, folder)]);
	mkdirSync(at('below'));
	writeFileSync(at('one'), 'one');
	writeFileSync(at('below/two'), 'two');
	const hashes = [hash()];

	utimesSync(at('one'), 0, 0);
	expect(hash()).toBe(hashes[0]);

	writeFileSync(at('below/two'), 'TWO');
	hashes.push(hash());
	writeFileSync(at('below/three'), '');
	hashes.push(hash());
	renameSync(at('below/three'), at('below/four'));
	hashes.push(hash());
	rmSync(at('one'));
	hashes.push(hash());
	expect(new Set(hashes).size).toBe(5);
	rmSync(folder, { recursive: true });
});
