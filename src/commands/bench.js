/**
 * Prints what edits, questions, a keystroke and a search cost, as ratios; with `--browser` what a person waits
 * for in a browser.
 */
import { parseArgs } from 'node:util';
import { readTypeScript } from './typescript.js';

const { values } = parseArgs({ options: { browser: { type: 'boolean', default: false } } });
if (values.browser) {
	const { browserBench } = await import('../../tests/bench/browser.js');
	await browserBench();
} else {
	const tables = await readTypeScript('tests/bench/tables.ts');
	console.log(/** @type {{ benchTables(): string }} */ (tables).benchTables());
}
