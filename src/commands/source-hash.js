/** Tells whether something made from the sources is still what the sources would make. */
import { createHash } from 'node:crypto';
import { readFileSync, readdirSync, statSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { projectFolder } from './set-up.js';

/** All that a build reads. */
export const sources = [
	'src',
	'static',
	'workbooks',
	'package-lock.json',
	'svelte.config.js',
	'tsconfig.json',
	'vite.config.ts',
];

/**
 * A hash over names and contents of files, so that a changed, added, renamed or deleted file shows, and one
 * that was only touched does not.
 * @param {readonly string[]} paths files, and folders with all that is in them, below the project's folder
 */
export function hashOf(paths) {
	const hash = createHash('sha256');
	for (const file of paths.flatMap(filesAt).sort()) {
		const content = readFileSync(join(projectFolder, file));
		hash.update(`${file}\n${content.length.toString()}\n`).update(content);
	}
	return hash.digest('hex');
}

/**
 * @param {string} path
 * @returns {string[]}
 */
function filesAt(path) {
	const whole = join(projectFolder, path);
	if (!statSync(whole).isDirectory()) return [path];
	return readdirSync(whole, { recursive: true, withFileTypes: true })
		.filter((entry) => entry.isFile())
		.map((entry) => relative(projectFolder, join(entry.parentPath, entry.name)))
		.map((file) => file.split(sep).join('/'));
}
