/**
 * Sees to it that what package-lock.json names is installed, so that every command works on a fresh clone.
 * Plain JavaScript and nothing but Node: it runs before anything is installed.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, statSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const at = (/** @type {string} */ path) => fileURLToPath(new URL(`../../${path}`, import.meta.url));

export const projectFolder = at('');

/**
 * Installs when nothing is installed, or the lock file is newer than what is; and lets SvelteKit write the
 * TypeScript settings that ours begin from, without which no TypeScript here can be read.
 */
export function setUp() {
	const installed = at('node_modules/.package-lock.json');
	const lock = at('package-lock.json');
	if (!existsSync(installed) || statSync(installed).mtimeMs < statSync(lock).mtimeMs) {
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
