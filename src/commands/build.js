/** Builds the workbook into build/. */
import { build } from './building.js';
import { setUp } from './set-up.js';

// With npm, which may be ended in a way that it cannot pass on.
if (process.env['npm_lifecycle_event']) await import('./end-with-parent.js');
setUp();
process.exitCode = (await build()) ? 0 : 1;
