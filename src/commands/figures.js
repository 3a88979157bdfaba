/** Starts figures.ts, which is TypeScript and is read through Vite. */
import { fileURLToPath } from 'node:url';
import { setUp } from './set-up.js';

setUp();
const { runnerImport } = await import('vite');
const { module } = await runnerImport(fileURLToPath(new URL('./figures.ts', import.meta.url)), {
	configFile: false,
	logLevel: 'error',
});
/** @type {typeof import('./figures.ts')} */ (module).main(process.argv.slice(2));
