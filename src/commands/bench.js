/**
 * Prints what edits, questions, a keystroke and a search cost, as ratios: all tables, or those that are named.
 * With `--browser` what a person waits for in a browser.
 */
import { parseArgs } from 'node:util';
import { readTypeScript } from './typescript.js';

const { values, positionals } = parseArgs({
	options: { browser: { type: 'boolean', default: false } },
	allowPositionals: true,
});
if (values.browser) {
	const { browserBench } = await import('../../tests/bench/browser.js');
	await browserBench();
} else {
	const tables = await readTypeScript('tests/bench/tables.ts');
	/** @typedef {{ benchTables(wanted: readonly string[]): string }} Tables */
	console.log(/** @type {Tables} */ (tables).benchTables(positionals));
}
