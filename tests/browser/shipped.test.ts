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
