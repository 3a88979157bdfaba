/** Prints what edits, questions, a keystroke and a search cost, as ratios. */
import { readTypeScript } from './typescript.js';

const tables = await readTypeScript('tests/bench/tables.ts');
console.log(/** @type {{ benchTables(): string }} */ (tables).benchTables());
