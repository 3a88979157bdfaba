/** Builds the workbook, and knows whether what stands in build/ is what the sources would make. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { projectFolder } from './set-up.js';
import { hashOf } from './source-hash.js';

export const buildFolder = join(projectFolder, 'build');

/** All that a build reads. */
const sources = [
	'src',
	'static',
	'workbooks',
	'package-lock.json',
	'svelte.config.js',
	'tsconfig.json',
	'vite.config.ts',
];

/** In the folder itself, so that it goes when the folder goes or somebody builds by another way. */
const stamp = join(buildFolder, '.sources');

export function isBuilt() {
	try {
		return readFileSync(stamp, 'utf8') === hashOf(sources);
	} catch {
		return false;
	}
}

/**
 * Says only what is wrong.
 * @returns {Promise<boolean>} whether it was built
 */
export async function build() {
	// Taken first: what changes while it is being built is not in it.
	const hash = hashOf(sources);
	rmSync(stamp, { force: true });
	const vite = join(projectFolder, 'node_modules/vite/bin/vite.js');
	const building = spawn(process.execPath, [vite, 'build', '--logLevel', 'warn'], {
		cwd: projectFolder,
		stdio: ['ignore', 'ignore', 'inherit'],
	});
	await once(building, 'close');
	if (building.exitCode !== 0) return false;
	writeFileSync(stamp, hash);
	return true;
}
