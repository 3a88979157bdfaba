/** Builds the workbook if its sources changed, serves it, and prints its address. */
import { join } from 'node:path';
import { build, buildFolder, isBuilt } from './building.js';
import { projectFolder, setUp } from './set-up.js';
import { addressOf, filesOf, holdFolder, listen, portOf, Unusable } from './serving.js';

// With npm, which may be ended in a way that it cannot pass on.
if (process.env['npm_lifecycle_event']) await import('./end-with-parent.js');
for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.on(signal, () => process.exit(0));

async function start() {
	const port = portOf(process.env['PORT']);
	const host = process.env['HOST'] || 'localhost';
	const address = addressOf(host, port);
	await holdFolder(join(projectFolder, '.svelte-kit/served.json'), host, port);
	const { open } = await listen(host, port);
	setUp();
	if (!isBuilt()) {
		console.log('Building the workbook …');
		if (!(await build())) {
			throw new Unusable('The workbook could not be built; the lines above say why.');
		}
	}
	open(await filesOf(buildFolder));
	console.log(`The Ride Height Workbook is at ${address}`);
	console.log('Ctrl+C ends it.');
}

try {
	await start();
} catch (cause) {
	if (!(cause instanceof Unusable)) throw cause;
	console.error(cause.message);
	process.exit(1);
}
