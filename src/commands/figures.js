/** Starts figures-command.ts, which is TypeScript. */
import { readTypeScript } from './typescript.js';

const command = await readTypeScript('src/commands/figures-command.ts');
const { figures } = /** @type {typeof import('./figures-command.ts')} */ (command);
// Whoever reads may have seen enough, as `head` has: that is no mistake.
process.stdout.on('error', (/** @type {NodeJS.ErrnoException} */ error) => {
	if (error.code !== 'EPIPE') throw error;
});
const { out, said, status } = figures(process.argv.slice(2));
process.stdout.write(out);
process.stderr.write(said);
process.exitCode = status;
