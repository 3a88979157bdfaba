/** When something has to be installed. */
import { mkdtempSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { isInstalled } from '../../src/commands/set-up.js';

test('what is installed is held against the lock file by its versions, not by its time', () => {
	const folder = mkdtempSync(join(tmpdir(), 'workbook-'));
	const [lock, installed] = [join(folder, 'lock.json'), join(folder, 'installed.json')];
	const write = (path: string, packages: Record<string, object>): void => {
		writeFileSync(path, JSON.stringify({ lockfileVersion: 3, packages }));
	};
	const one = { 'node_modules/one': { version: '1.0.0' } };
	const elsewhere = { 'node_modules/elsewhere': { version: '1.0.0', optional: true } };

	write(lock, { '': { name: 'workbook' }, ...one, ...elsewhere });
	expect(isInstalled(lock, installed)).toBe(false);

	write(installed, one);
	utimesSync(installed, 0, 0);
	expect(isInstalled(lock, installed)).toBe(true);

	write(installed, { 'node_modules/one': { version: '1.0.1' } });
	expect(isInstalled(lock, installed)).toBe(false);
	write(installed, elsewhere);
	expect(isInstalled(lock, installed)).toBe(false);
	write(installed, { ...one, 'node_modules/left': { version: '1.0.0' } });
	expect(isInstalled(lock, installed)).toBe(false);
	writeFileSync(installed, '{ half');
	expect(isInstalled(lock, installed)).toBe(false);
	rmSync(folder, { recursive: true });
});
