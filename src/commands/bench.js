/** Prints what a keystroke and a search cost beside one run of everything. */
import { readTypeScript } from './set-up.js';

const tables = await readTypeScript('tests/bench/tables.ts');
console.log(/** @type {{ benchTables(): string }} */ (tables).benchTables());
