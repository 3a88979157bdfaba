/** Starts figures.ts, which is TypeScript and is read through Vite. */
import { readTypeScript } from './set-up.js';

const figures = await readTypeScript('src/commands/figures.ts');
/** @type {typeof import('./figures.ts')} */ (figures).main(process.argv.slice(2));
