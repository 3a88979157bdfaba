/** Builds the workbook and serves it, and prints its address. */
import { setUp, projectFolder } from './set-up.js';

setUp();
const { build, preview } = await import('vite');
process.chdir(projectFolder);
console.log('Building the workbook …');
await build({ logLevel: 'warn' });
const port = Number(process.env['PORT'] ?? 4600);
const server = await preview({ preview: { port, host: process.env['HOST'] ?? 'localhost' } });
const address = server.resolvedUrls?.local[0] ?? `http://localhost:${port}/`;
console.log(`The Ride Height Workbook is at ${address}`);
console.log('Ctrl+C ends it.');
