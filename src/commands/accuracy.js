/** Prints how close every figure of the mechanics came to something outside the project. */
import { fileURLToPath } from 'node:url';
import { setUp } from './set-up.js';

setUp();
const { runnerImport } = await import('vite');
const table = fileURLToPath(new URL('../../tests/mechanics/accuracy/table.ts', import.meta.url));
const { module } = await runnerImport(table, { configFile: false, logLevel: 'error' });
console.log(/** @type {{ accuracyTable(): string }} */ (module).accuracyTable());
