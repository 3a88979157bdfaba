/**
 * Sees to it that what package-lock.json names is installed, so that every command works on a fresh clone.
 * Plain JavaScript and nothing but Node: it runs before anything is installed.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const at = (/** @type {string} */ path) => fileURLToPath(new URL(`../../${path}`, import.meta.url));

export const projectFolder = at('');

/**
 * @param {string} path of a lock file
 * @returns {Map<string, { version: string, optional?: boolean }>} packages by their folder
 */
function packagesIn(path) {
	try {
		/** @type {unknown} */
		const read = JSON.parse(readFileSync(path, 'utf8'));
		const { packages } = /** @type {{ packages: Record<string, { version: string }> }} */ (read);
		return new Map(Object.entries(packages).filter(([folder]) => folder !== ''));
	} catch {
		return new Map();
	}
}

/**
 * Whether what is installed is what a lock file names, which a time of day would not tell: a fresh checkout
 * makes every file new. What is optional is installed only where it fits the machine.
 * @param {string} lock the lock file
 * @param {string} installed the one that the installer leaves with what it installed
 */
export function isInstalled(lock, installed) {
	const found = packagesIn(installed);
	const wanted = packagesIn(lock);
	return (
		found.size > 0 &&
		[...wanted].every(([folder, { version, optional }]) => {
			const there = found.get(folder);
			return there ? there.version === version : optional === true;
		}) &&
		[...found.keys()].every((folder) => wanted.has(folder))
	);
}

/**
 * Installs when what is installed is not what the lock file names; and lets SvelteKit write the
 * TypeScript settings that ours begin from, without which no TypeScript here can be read.
 */
export function setUp() {
	if (!isInstalled(at('package-lock.json'), at('node_modules/.package-lock.json'))) {
		console.error('Installing what package-lock.json names …');
		const { status, signal } = spawnSync('npm', ['ci', '--no-audit', '--no-fund'], {
			cwd: projectFolder,
			stdio: ['ignore', 'ignore', 'inherit'],
			shell: process.platform === 'win32',
		});
		if (signal) process.exit(1);
		if (status !== 0) {
			console.error('Installing failed; the lines above say why. Check the network and try again.');
			process.exit(1);
		}
	}
	if (!existsSync(at('.svelte-kit/tsconfig.json'))) {
		spawnSync(process.execPath, [at('node_modules/@sveltejs/kit/svelte-kit.js'), 'sync'], {
			cwd: projectFolder,
			stdio: 'ignore',
		});
	}
}
