/** Builds the workbook, and knows whether what stands in build/ is what the sources would make. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { endingWithThis } from './ending-with-this.js';
import { isAlive } from './serving.js';
import { projectFolder } from './set-up.js';
import { hashOf, sources } from './source-hash.js';

export const buildFolder = join(projectFolder, 'build');

/** In the folder itself, so that it goes when the folder goes or somebody builds by another way. */
const stampName = '.sources';

export function isBuilt() {
	try {
		return readFileSync(join(buildFolder, stampName), 'utf8') === hashOf(sources);
	} catch {
		return false;
	}
}

/** Who builds in this folder, by process. */
const builder = join(projectFolder, '.svelte-kit/builder');

/**
 * Says only what is wrong. What is built is put into build/ when it is whole: never is half of it there to be
 * served.
 * @returns {Promise<boolean>} whether it was built
 */
export async function build() {
	const waited = await becomeBuilder();
	try {
		return (waited && isBuilt()) || (await builtAside());
	} finally {
		rmSync(builder, { force: true });
	}
}

/**
 * One builds at a time, for what is between the sources and build/ lies in one place.
 * @returns {Promise<boolean>} whether another had to end first
 */
async function becomeBuilder() {
	mkdirSync(dirname(builder), { recursive: true });
	for (let waited = false; ; waited = true) {
		try {
			writeFileSync(builder, process.pid.toString(), { flag: 'wx' });
			return waited;
		} catch (cause) {
			if (/** @type {NodeJS.ErrnoException} */ (cause).code !== 'EEXIST') throw cause;
		}
		if (isAlive(builderNow())) await setTimeout(100);
		else rmSync(builder, { force: true });
	}
}

function builderNow() {
	try {
		return Number(readFileSync(builder, 'utf8'));
	} catch {
		return 0;
	}
}

/** @returns {Promise<boolean>} */
async function builtAside() {
	// Taken first: what changes while it is being built is not in it.
	const hash = hashOf(sources);
	const aside = join(projectFolder, '.svelte-kit/aside');
	const vite = join(projectFolder, 'node_modules/vite/bin/vite.js');
	const building = spawn(process.execPath, [vite, 'build', '--logLevel', 'warn'], {
		cwd: projectFolder,
		stdio: ['ignore', 'ignore', 'inherit'],
		env: { ...endingWithThis(), BUILD_INTO: join(aside, 'build') },
	});
	await once(building, 'close');
	if (building.exitCode !== 0) return false;
	writeFileSync(join(aside, 'build', stampName), hash);
	if (existsSync(buildFolder)) renameSync(buildFolder, join(aside, 'before'));
	renameSync(join(aside, 'build'), buildFolder);
	rmSync(aside, { recursive: true });
	return true;
}
