/** After one visit everything works with the network off; a later build is offered and waits. */
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { buildFolder } from '../../src/commands/building.js';
import { filesOf, listen } from '../../src/commands/serving.js';
import {
	expect,
	fieldOf,
	saved,
	sheets,
	startBlank,
	startScenario,
	test as base,
	toSheet,
	type,
} from './person.ts';

/** A server of its own for each test, with a copy of what was built, so that it may be ended and built anew. */
const test = base.extend<{ site: { folder: string; address: string; end: () => Promise<void> } }>({
	serviceWorkers: 'allow',
	site: async ({ browserName }, use) => {
		const folder = mkdtempSync(join(tmpdir(), `built-for-${browserName}-`));
		cpSync(buildFolder, folder, { recursive: true });
		const { server, open } = await listen('127.0.0.1', 0);
		open(await filesOf(folder));
		const { port } = server.address() as AddressInfo;
		const end = (): Promise<void> =>
			new Promise((resolve) => {
				server.closeAllConnections();
				server.close(() => resolve());
			});
		await use({ folder, address: `http://127.0.0.1:${port}`, end });
		await end();
		rmSync(folder, { recursive: true });
	},
	baseURL: async ({ site }, use) => {
		await use(site.address);
	},
});

/** The program is in the browser, whole. */
async function installed(page: Page): Promise<void> {
	await page.evaluate(async () => {
		await navigator.serviceWorker.ready;
		while (!navigator.serviceWorker.controller) await new Promise((next) => setTimeout(next, 20));
	});
}

test('with the server gone it starts cold, and every sheet opens, is typed into, undone and saved', async ({
	page,
	context,
	site,
}) => {
	test.slow();
	// A job of which a chart can be drawn: what stands in the page before it is opened is no sign of one.
	await startScenario(page);
	await toSheet(page, 'spring');
	await type(page, 'eye_raise', '3');
	await installed(page);
	await site.end();
	await page.close();

	const cold = await context.newPage();
	await cold.goto(`${site.address}/spring/`);
	await expect(fieldOf(cold, 'eye_raise')).toHaveValue('3');
	await type(cold, 'eye_raise', '4');
	for (const sheet of sheets) {
		await toSheet(cold, sheet);
		await expect(cold.locator('.sheet h1')).toBeVisible();
	}
	await cold.goto(`${site.address}/angles/`);
	await expect(cold.locator('.view[data-kind="drawing"] svg').first()).toBeVisible();
	await expect(cold.locator('#angle_against_drop canvas')).toBeVisible();
	await cold.goto(`${site.address}/spring/`);
	await expect(fieldOf(cold, 'eye_raise')).toHaveValue('4');
	await cold.getByRole('button', { name: 'Undo' }).click();
	await expect(fieldOf(cold, 'eye_raise')).toHaveValue('3');
	const { path } = await saved(cold);
	expect(JSON.parse(readFileSync(path, 'utf8'))).toMatchObject({
		job: { entries: { eye_raise: { typed: '3' } } },
	});
	// A sheet that no build knows: the page that looks for it in the job is there.
	await cold.goto(`${site.address}/my-hitch/`);
	await expect(cold.getByRole('heading', { level: 1 })).toHaveText('No such sheet');
});

test('a later build is offered, waits, and is taken when somebody says so', async ({
	page,
	site,
}) => {
	await startBlank(page);
	await installed(page);
	// Built anew: another page, another list of files.
	const built = (path: string): string => join(site.folder, path);
	const build = (path: string, text: string): void => {
		writeFileSync(built(path), text);
		// What was compressed of it is of the build before.
		for (const packed of ['.br', '.gz']) rmSync(built(path + packed));
	};
	const front = readFileSync(built('index.html'), 'utf8');
	build('index.html', front.replace('</head>', '<meta name="built" content="anew"></head>'));
	const worker = readFileSync(built('service-worker.js'), 'utf8');
	const version = JSON.parse(readFileSync(built('_app/version.json'), 'utf8')) as {
		version: string;
	};
	expect(worker).toContain(version.version);
	build('service-worker.js', worker.replaceAll(version.version, 'later'));

	await page.goto('/');
	const offer = page.getByRole('button', { name: 'Take it now' });
	await expect(offer).toBeVisible({ timeout: 30_000 });
	await expect(page.locator('meta[name="built"]')).toHaveCount(0);
	await page.reload();
	await expect(page.locator('meta[name="built"]')).toHaveCount(0);
	await offer.click();
	await expect(page.locator('meta[name="built"]')).toHaveCount(1, { timeout: 30_000 });
	await expect(offer).toHaveCount(0);
});

test('a program that can be installed says so where it is, also below a path', async ({ page }) => {
	await page.goto('/spring/');
	const link = page.locator('link[rel="manifest"]');
	const href = (await link.getAttribute('href')) ?? '';
	expect(href.startsWith('/') || href.includes('://')).toBe(false);
	const answer = await page.request.get(new URL(href, page.url()).href);
	expect(answer.headers()['content-type']).toContain('application/manifest+json');
	const manifest = (await answer.json()) as { icons: { src: string }[]; start_url: string };
	expect(manifest.start_url).toBe('./');
	for (const { src } of manifest.icons) {
		expect((await page.request.get(`/${src}`)).status()).toBe(200);
	}
});
