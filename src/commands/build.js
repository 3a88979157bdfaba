/** Builds the workbook into build/. */
import { build } from './building.js';
import { setUp } from './set-up.js';

setUp();
process.exitCode = (await build()) ? 0 : 1;
