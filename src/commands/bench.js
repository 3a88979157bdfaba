/** Prints what a keystroke and a search cost beside one run of everything. */
import { readTypeScript } from './typescript.js';

const tables = await readTypeScript('tests/bench/tables.ts');
console.log(/** @type {{ benchTables(): string }} */ (tables).benchTables());
