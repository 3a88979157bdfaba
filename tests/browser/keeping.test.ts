/** What is typed stays: in the browser's own database, over kills, failures, clearing and two windows. */
import type { BrowserContext, Page } from '@playwright/test';
import { chromium } from '@playwright/test';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, fieldOf, openJobMenu, startBlank, test, toSheet, type } from './person.ts';

/** Another window of the same browser. */
async function another(context: BrowserContext, address: string): Promise<Page> {
	const page = await context.newPage();
	await page.goto(address);
	await expect(page.locator('.standing')).toBeVisible();
	return page;
}

/** The sheet says since when the job is kept, and nothing of it is still on its way. */
async function expectKept(page: Page): Promise<void> {
	const kept = page.locator('.kept').filter({ visible: true });
	await expect(kept).toHaveText(/^kept \d/);
	await expect(kept).toHaveAttribute('data-coming', 'false');
}

/** Deletes the database from within a page, as somebody does who clears what a browser keeps. */
function clearStore(page: Page): Promise<void> {
	return page.evaluate(
		() =>
			new Promise<void>((resolve, reject) => {
				const gone = indexedDB.deleteDatabase('ride-height');
				gone.onsuccess = () => {
					resolve();
				};
				gone.onerror = reject;
			}),
	);
}

/** Makes the database refuse whatever is written, as a full disk does; or lets it again. */
function full(page: Page, isFull: boolean): Promise<void> {
	return page.evaluate((refuses) => {
		const store = IDBObjectStore.prototype as unknown as Record<string, unknown>;
		store['realPut'] ??= store['put'];
		store['put'] = refuses
			? () => {
					throw new DOMException('', 'QuotaExceededError');
				}
			: store['realPut'];
	}, isFull);
}

test('every sheet says that the job is kept; not kept stays in sight, holds the door, and heals', async ({
	page,
}) => {
	await startBlank(page);
	await toSheet(page, 'spring');
	for (const width of [1280, 360]) {
		await page.setViewportSize({ width, height: 740 });
		await expectKept(page);
	}
	await full(page, true);
	await type(page, 'eye_raise', '3');
	const alarm = page.locator('.not-kept');
	await expect(alarm).toContainText('is full');
	await expect(page.locator('.kept').filter({ visible: true })).toHaveText('not kept');
	await page.evaluate(() => scrollTo(0, document.documentElement.scrollHeight));
	await expect(alarm).toBeInViewport({ ratio: 1 });
	expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);

	// Whoever leaves is asked.
	let asked = 0;
	page.on('dialog', (dialog) => {
		asked++;
		void dialog.dismiss();
	});
	await page.evaluate(() => (location.href = '/functions/')).catch(() => undefined);
	await expect.poll(() => asked).toBe(1);
	await expect(fieldOf(page, 'eye_raise')).toHaveValue('3');

	const coming = page.waitForEvent('download');
	await alarm.getByRole('button', { name: 'Save to a file' }).click();
	await coming;
	await full(page, false);
	await expect(alarm).toHaveCount(0, { timeout: 40_000 });
	await page.reload();
	await expect(fieldOf(page, 'eye_raise')).toHaveValue('3');
	expect(asked).toBe(1);
});

test('a database that was closed or deleted underneath is opened again', async ({ page }) => {
	await startBlank(page);
	await toSheet(page, 'spring');
	await type(page, 'eye_raise', '3');
	await clearStore(page);
	await type(page, 'eye_raise', '4');
	await expect(page.locator('.not-kept')).toHaveCount(0);
	await page.reload();
	await expect(fieldOf(page, 'eye_raise')).toHaveValue('4');
});

test('a job that was cleared away is missed, no other is shown for it, and a file brings it back', async ({
	page,
}) => {
	await startBlank(page);
	await toSheet(page, 'spring');
	await type(page, 'eye_raise', '3');
	await expectKept(page);
	// From a page beside the program, for a window that still has the job open would write it again.
	const sheet = page.url();
	await page.route('**/beside', (route) =>
		route.fulfill({ contentType: 'text/html', body: '<p>' }),
	);
	await page.goto('/beside');
	await clearStore(page);
	await page.goto(sheet);
	await expect(page.getByRole('heading', { level: 1 })).toHaveText('Your job is not here');
	await expect(page.locator('main')).toContainText('“New job” was kept in this browser');
	await expect(page.locator('.sheet, .strip')).toHaveCount(0);
	await page.getByRole('button', { name: 'Begin another job instead' }).click();
	await expect(page.getByRole('button', { name: 'Start blank' })).toBeVisible();
	await page.reload();
	await expect(page.getByRole('button', { name: 'Start blank' })).toBeVisible();
});

test('a job that is damaged in the store is said to be so, and a database that never answers is no blank page', async ({
	page,
}) => {
	await startBlank(page);
	await toSheet(page, 'spring');
	await expectKept(page);
	await page.evaluate(
		() =>
			new Promise<void>((resolve) => {
				indexedDB.open('ride-height').onsuccess = ({ target }) => {
					const database = (target as IDBOpenDBRequest).result;
					const change = database.transaction('jobs', 'readwrite');
					const jobs = change.objectStore('jobs');
					jobs.getAll().onsuccess = (found) => {
						const [job] = (found.target as IDBRequest<{ block: unknown }[]>).result;
						if (job) jobs.put({ ...job, block: 7 });
					};
					change.oncomplete = () => {
						database.close();
						resolve();
					};
				};
			}),
	);
	await page.reload();
	await expect(page.locator('main')).toContainText('a part of it is damaged');
	const coming = page.waitForEvent('download');
	await page.getByRole('button', { name: 'Save what is left of it' }).click();
	expect((await coming).suggestedFilename()).toBe('damaged-job.json');

	await page.addInitScript(() => {
		const real = indexedDB.open.bind(indexedDB);
		indexedDB.open = (name) => {
			// A request of which nobody hears again.
			const request = real(`another ${name}`);
			request.addEventListener = () => undefined;
			return request;
		};
	});
	await page.reload();
	await expect(page.locator('main')).toContainText('the browser does not answer', {
		timeout: 30_000,
	});
	await expect(page.locator('.not-kept')).toContainText('its database does not answer');
});

test('two windows on one job see each other, and neither takes away what the other typed', async ({
	page,
	context,
}) => {
	await startBlank(page);
	await toSheet(page, 'spring');
	await type(page, 'eye_raise', '3');
	await expectKept(page);
	const other = await another(context, page.url());
	await expect(fieldOf(other, 'eye_raise')).toHaveValue('3');
	await type(other, 'shackle_longer', '1');
	await expect(fieldOf(page, 'shackle_longer')).toHaveValue('1');
	await page.getByRole('button', { name: 'Undo' }).click();
	await expect(fieldOf(page, 'eye_raise')).not.toHaveValue('3');
	await expect(fieldOf(page, 'shackle_longer')).toHaveValue('1');
	await expect(fieldOf(other, 'eye_raise')).not.toHaveValue('3');
	// Each has its own open job.
	await other.goto('/');
	await other.getByRole('button', { name: 'Start blank' }).click();
	await page.reload();
	await expect(fieldOf(page, 'shackle_longer')).toHaveValue('1');
});

test('a step back is there after a reload and says what it takes back', async ({ page }) => {
	await startBlank(page);
	await toSheet(page, 'spring');
	await type(page, 'eye_raise', '3');
	await fieldOf(page, 'eye_raise').blur();
	await type(page, 'eye_raise', '3 1/2');
	await expectKept(page);
	await page.reload();
	const undo = page.getByRole('button', { name: 'Undo' });
	await expect(undo).toHaveAttribute('title', 'Undo: front eye up 3 → 3 1/2');
	await undo.click();
	await expect(fieldOf(page, 'eye_raise')).toHaveValue('3');
	await expect(page.locator('.kept').filter({ visible: true })).toHaveText(
		'Undone: front eye up 3 → 3 1/2',
	);
});

test('a link brings a job to another browser, which asks first and keeps the job that is there', async ({
	page,
	context,
	browser,
	baseURL,
}) => {
	await context.grantPermissions(['clipboard-read', 'clipboard-write']);
	await startBlank(page);
	await toSheet(page, 'spring');
	await type(page, 'eye_raise', '3 1/2');
	await openJobMenu(page);
	await page.getByLabel('Job', { exact: true }).fill('From elsewhere');
	await page.getByRole('button', { name: 'Show a code' }).click();
	await expect(page.getByRole('img', { name: 'Code of the job’s link' })).toBeVisible();
	await expect(page.locator('.code')).toContainText('Point a phone’s camera at it.');
	await page.getByRole('button', { name: 'Copy a link' }).click();
	await expect(page.locator('.job-menu .said')).toContainText('Copied');
	const address = await page.evaluate(() => navigator.clipboard.readText());

	const elsewhere = await browser.newContext({ serviceWorkers: 'block' });
	const there = await elsewhere.newPage();
	await there.goto(`${baseURL}/`);
	await there.getByRole('button', { name: 'Start blank' }).click();
	await expect(there.locator('.standing')).toBeVisible();
	await there.goto(address);
	const asked = there.getByRole('alert');
	await expect(asked).toContainText('“From elsewhere”');
	await expect(asked).toContainText('“New job” stays as it is');
	await asked.getByRole('button', { name: 'Open it' }).click();
	await toSheet(there, 'spring');
	await expect(fieldOf(there, 'eye_raise')).toHaveValue('3 1/2');
	await there.reload();
	await expect(fieldOf(there, 'eye_raise')).toHaveValue('3 1/2');
	await there.goto(`${baseURL}/`);
	await expect(there.getByRole('button', { name: 'New job', exact: true })).toBeVisible();
	await elsewhere.close();
});

/** How many times the browser is killed: a few here, two hundred in the long run. */
const kills = Number(process.env['KILLS'] ?? 3);

test('whatever was finished is there after the browser is killed while somebody types', async ({
	baseURL,
}) => {
	test.setTimeout(60_000 + kills * 20_000);
	const folder = mkdtempSync(join(tmpdir(), 'profile-'));
	const open = () =>
		chromium.launchPersistentContext(folder, {
			...(process.env['CHROMIUM'] && { executablePath: process.env['CHROMIUM'] }),
			args: ['--no-sandbox', '--disable-gpu'],
			serviceWorkers: 'block',
		});
	let finished = '';
	for (let kill = 0; kill <= kills; kill++) {
		const browser = await open();
		const page = browser.pages()[0] ?? (await browser.newPage());
		if (finished === '') {
			await page.goto(`${baseURL}/`);
			await page.getByRole('button', { name: 'Start blank' }).click();
			await page.locator('nav.rail a[href*="spring"]').click();
		} else await page.goto(`${baseURL}/spring/`);
		const field = fieldOf(page, 'eye_raise');
		if (finished !== '') {
			await expect(field).toHaveValue(new RegExp(`^${finished}$|^${Number(finished) + 1}`));
		}
		if (kill === kills) {
			await browser.close();
			break;
		}
		const others = await browser.browser()?.newBrowserCDPSession();
		for (let entry = 0; entry < 5; entry++) {
			const next = `${Number(finished) + 1}`;
			await field.fill(next);
			await field.press('Enter');
			finished = next;
		}
		// In the middle of the next entry, all of its processes at once.
		await page.waitForTimeout(Math.random() * 30);
		void field.fill(`${Number(finished) + 1}`).catch(() => undefined);
		await others?.send('Browser.crash').catch(() => undefined);
		await browser.close().catch(() => undefined);
	}
	rmSync(folder, { recursive: true, force: true });
});

test('a job on the shelf is found, copied, thrown away, and put back after a reload with its steps', async ({
	page,
}) => {
	const name = async (title: string): Promise<void> => {
		await openJobMenu(page);
		await page.getByLabel('Job', { exact: true }).fill(title);
		await page.keyboard.press('Escape');
	};
	await startBlank(page);
	await name('Old farm truck');
	await toSheet(page, 'spring');
	await type(page, 'eye_raise', '3');
	await startBlank(page);
	await name('Other');
	await page.goto('/');
	const shelf = page.locator('.own .shelf').first().locator('li');
	for (let copies = 1; copies < 6; copies++) {
		await page.getByRole('button', { name: 'Copy “Other”' }).click();
		await expect(shelf).toHaveCount(2 + copies);
	}
	await expect(shelf.first().locator('svg')).toBeVisible();
	await page.getByLabel('Look for').fill('farm');
	await expect(shelf).toHaveCount(1);
	await page.getByRole('button', { name: 'Throw away “Old farm truck”' }).click();
	await expect(page.locator('.own .done')).toContainText('“Old farm truck” is thrown away.');
	await page.reload();
	await page.setViewportSize({ width: 360, height: 740 });
	await page.getByText('Thrown away (1)').click();
	expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
	await page.getByRole('button', { name: 'Put “Old farm truck” back' }).click();
	await page.getByRole('button', { name: 'Old farm truck', exact: true }).click();
	await page.setViewportSize({ width: 1280, height: 740 });
	await toSheet(page, 'spring');
	await expect(fieldOf(page, 'eye_raise')).toHaveValue('3');
	await page.getByRole('button', { name: 'Undo' }).click();
	await expect(fieldOf(page, 'eye_raise')).not.toHaveValue('3');
});

test('what is kept is said on the pages that are no sheets too, and not kept is in sight and holds the door there', async ({
	page,
}) => {
	await startBlank(page);
	await toSheet(page, 'spring');
	await type(page, 'eye_raise', '3');
	await expectKept(page);
	let asked = 0;
	page.on('dialog', (dialog) => {
		asked++;
		void dialog.dismiss();
	});
	const ways = [
		async () => {
			await openJobMenu(page);
			await page.getByRole('link', { name: 'All jobs' }).click();
		},
		() => page.getByRole('link', { name: 'what a formula may call' }).click(),
		async () => {
			await page.goBack();
			await page.getByRole('button', { name: 'My joints as they stand' }).click();
		},
	];
	const expectOnEach = async (said: RegExp, isKept: boolean): Promise<void> => {
		await page.goto('/spring/');
		await expect(fieldOf(page, 'eye_raise')).toHaveValue('3');
		if (!isKept) {
			await full(page, true);
			await type(page, 'eye_raise', '4');
		}
		for (const way of ways) {
			await way();
			for (const width of [1280, 360]) {
				await page.setViewportSize({ width, height: 740 });
				await page.evaluate(() => scrollTo(0, 0));
				await expect(page.locator('.keeping')).toHaveText(said);
				await expect(page.locator('.keeping')).toBeInViewport({ ratio: 1 });
				expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(
					width,
				);
				await page.evaluate(() => scrollTo(0, document.documentElement.scrollHeight));
				await expect(page.locator('.not-kept')).toHaveCount(isKept ? 0 : 1);
				if (!isKept) await expect(page.locator('.not-kept')).toBeInViewport({ ratio: 1 });
			}
			await page.setViewportSize({ width: 1280, height: 740 });
			if (isKept) continue;
			const before = asked;
			await page.evaluate(() => (location.href = '/wedge/')).catch(() => undefined);
			await expect.poll(() => asked).toBe(before + 1);
		}
	};
	await expectOnEach(/^\s*kept \d[^·]*( · New job\s*)?$/, true);
	await expectOnEach(/^\s*not kept[^·]*( · New job\s*)?$/, false);
	await full(page, false);
	await expect(page.locator('.not-kept')).toHaveCount(0, { timeout: 40_000 });
});

/** What the database has of an entry of the only job. */
function inDatabase(page: Page, name: string): Promise<string | undefined> {
	return page.evaluate(
		(entry) =>
			new Promise((resolve) => {
				indexedDB.open('ride-height').onsuccess = ({ target }) => {
					const database = (target as IDBOpenDBRequest).result;
					database.transaction('jobs').objectStore('jobs').getAll().onsuccess = (found) => {
						const [job] = (
							found.target as IDBRequest<{ entries: Record<string, { typed: string }> }[]>
						).result;
						database.close();
						resolve(job?.entries[entry]?.typed);
					};
				};
			}),
		name,
	);
}

/** Fills what the browser gives this address, by ever smaller pieces, in a database of its own. */
function filled(page: Page): Promise<string> {
	return page.evaluate(async () => {
		const database = await new Promise<IDBDatabase>((resolve) => {
			const opening = indexedDB.open('of somebody else');
			opening.onupgradeneeded = () => opening.result.createObjectStore('all');
			opening.onsuccess = () => {
				resolve(opening.result);
			};
		});
		let refused = '';
		for (let size = 250_000, n = 0; size > 10; n++) {
			const noise = Array.from({ length: size }, () => String.fromCharCode(Math.random() * 65_535));
			const change = database.transaction('all', 'readwrite');
			change.objectStore('all').put(noise.join(''), n);
			const said = await new Promise<string>((resolve) => {
				change.oncomplete = () => {
					resolve('');
				};
				change.onabort = () => {
					resolve(change.error?.name ?? '');
				};
			});
			if (said) size /= 4;
			refused ||= said;
		}
		database.close();
		return refused;
	});
}

/** The browser takes half a minute to see that there is room again: in the long run only. */
if (process.env['KILLS']) {
	test('a storage quota that is used up loses nothing kept before, is said, and heals; the browser was asked to keep', async ({
		page,
		context,
		baseURL,
	}) => {
		await page.addInitScript(() => {
			const counting = window as unknown as { asked: number };
			counting.asked = 0;
			const real = navigator.storage.persist.bind(navigator.storage);
			navigator.storage.persist = () => {
				counting.asked++;
				return real();
			};
		});
		await startBlank(page);
		await toSheet(page, 'spring');
		await type(page, 'eye_raise', '3');
		await expect.poll(() => inDatabase(page, 'eye_raise')).toBe('3');
		expect(await page.evaluate(() => (window as unknown as { asked: number }).asked)).toBe(1);

		const protocol = await context.newCDPSession(page);
		const origin = baseURL ?? '';
		await protocol.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: 1_000_000 });
		expect(await filled(page)).toBe('QuotaExceededError');
		await type(page, 'eye_raise', '4 1/2');
		await expect(page.locator('.not-kept')).toContainText('is full');
		await expect(page.locator('.not-kept')).toBeInViewport({ ratio: 1 });
		await expect(fieldOf(page, 'eye_raise')).toHaveValue('4 1/2');
		expect(await inDatabase(page, 'eye_raise')).toBe('3');

		await protocol.send('Storage.overrideQuotaForOrigin', { origin });
		// It tries again by itself too, by and by.
		await page.getByRole('button', { name: 'Try again' }).click();
		await expect(page.locator('.not-kept')).toHaveCount(0, { timeout: 40_000 });
		await page.reload();
		await expect(fieldOf(page, 'eye_raise')).toHaveValue('4 1/2');
	});
}
