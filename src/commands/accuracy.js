/** Prints how close every figure of the mechanics came to something outside the project. */
import { readTypeScript } from './typescript.js';

const table = await readTypeScript('tests/mechanics/accuracy/table.ts');
console.log(/** @type {{ accuracyTable(): string }} */ (table).accuracyTable());
