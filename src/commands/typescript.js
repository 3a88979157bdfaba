/** Lets a command be written in TypeScript on a Node that cannot read it. */
import { existsSync, mkdirSync, readdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { projectFolder, setUp } from './set-up.js';
import { hashOf } from './source-hash.js';

/**
 * As deep below the project's folder as the sources of the commands are, so that an address beside
 * `import.meta.url` leads to the same place from the one and the other.
 */
const bundles = join(projectFolder, '.svelte-kit/commands');

/**
 * Reads a TypeScript file of the project. It is put into one file with all it imports, libraries included:
 * mathjs alone is a thousand files, and opening them takes longer than all the rest. The one file is kept
 * until a source changes.
 * @param {string} path below the project's folder
 * @returns {Promise<unknown>} what it exports
 */
export async function readTypeScript(path) {
	setUp();
	const name = `${basename(path, '.ts')}-`;
	const hash = hashOf(['package-lock.json', 'src', 'tests']).slice(0, 16);
	const bundle = join(bundles, `${name}${hash}.js`);
	if (!existsSync(bundle)) {
		mkdirSync(bundles, { recursive: true });
		const code = await bundled(path);
		for (const old of readdirSync(bundles)) {
			if (old.startsWith(name) && !bundle.endsWith(old)) rmSync(join(bundles, old));
		}
		// Written aside and renamed, so that a command started meanwhile never reads half of it.
		const aside = join(bundles, `${process.pid.toString()}.js`);
		writeFileSync(aside, code);
		renameSync(aside, bundle);
	}
	return import(pathToFileURL(bundle).href);
}

/**
 * @param {string} path
 * @returns {Promise<string>}
 */
async function bundled(path) {
	const { build } = await import('vite');
	const made = await build({
		root: projectFolder,
		configFile: false,
		publicDir: false,
		logLevel: 'error',
		ssr: { noExternal: true },
		build: {
			ssr: join(projectFolder, path),
			write: false,
			minify: false,
			rolldownOptions: { output: { codeSplitting: false } },
		},
	});
	const [chunk] = /** @type {import('vite').Rolldown.RolldownOutput} */ (made).output;
	return chunk.code;
}
