/**
 * Takes the pictures of README.md from the program that was built: the angles of the first finished job, as
 * whiteprint and as blueprint, at a desk and on a phone.
 */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { chromium } from '@playwright/test';
import { findChromium } from '../../tests/browser/chromium.js';
import { buildFolder } from './building.js';
import { filesOf, listen, portOf } from './serving.js';

const folder = new URL('../../tests/browser/pictures/', import.meta.url).pathname;
const windows = { desk: { width: 1280, height: 800 }, phone: { width: 360, height: 740 } };
const schemes = /** @type {const} */ ({ whiteprint: 'light', blueprint: 'dark' });

const executablePath = await findChromium();
if (!executablePath) {
	console.error('No Chromium was found. Name one in the environment variable CHROMIUM.');
	process.exit(1);
}
const port = portOf(process.env['PORT'] ?? '4618');
const { server, open } = await listen('localhost', port);
open(await filesOf(buildFolder));
mkdirSync(folder, { recursive: true });
const browser = await chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-gpu'] });
for (const [device, viewport] of Object.entries(windows)) {
	for (const [print, colorScheme] of Object.entries(schemes)) {
		const page = await browser.newPage({ viewport, colorScheme, reducedMotion: 'reduce' });
		await page.goto(`http://localhost:${port.toString()}/`);
		await page.locator('.finished button').first().click();
		await page.locator('.standing').waitFor();
		await page.goto(`http://localhost:${port.toString()}/angles/`);
		await page.locator('.view canvas').waitFor();
		// Nothing says that the ± of a chart has come, which waits until nothing changes: it is given its time.
		await page.waitForTimeout(4000);
		await page.screenshot({ path: join(folder, `${device}-${print}.png`) });
		await page.close();
	}
}
await browser.close();
server.close();
