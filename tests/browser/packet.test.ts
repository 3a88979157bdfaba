/** What is handed over together: the packet on paper, the card for the wall, and the record as one page of HTML. */
import { readFile } from 'node:fs/promises';
import { pathToFileURL } from 'node:url';
import type { Page } from '@playwright/test';
import { hostileTexts } from './hostile-corpus.ts';
import { expect, openJobMenu, startScenario, test, toSheet } from './person.ts';

/** Pages of a PDF, counted in its own objects. */
function pagesOf(pdf: Buffer): number {
	return pdf.toString('latin1').match(/\/Type \/Page\b(?!s)/g)?.length ?? 0;
}

/** Presses what prints, in a browser whose own printing is held back, until all is made. */
async function press(page: Page, name: string): Promise<void> {
	await page.evaluate(() => {
		window.print = () => undefined;
	});
	await page.getByRole('button', { name, exact: true }).press('Enter');
	await expect(page.locator('html.prints-apart .packet')).toBeAttached({ timeout: 30_000 });
}

test('order, record, card and measurements are one packet, numbered through, a page each', async ({
	page,
}) => {
	await startScenario(page);
	await toSheet(page, 'order');
	// In millimetres there are more digits.
	for (const [format, units, wheelbase] of [
		['A4', 'inch-pound', '117 1/2 in'],
		['Letter', 'metric', '2984.5 mm'],
	] as const) {
		await openJobMenu(page);
		await page.getByLabel('Units').selectOption(units);
		await press(page, 'Print the packet');
		const leaves = page.locator('.packet .title-block');
		await expect(leaves).toHaveCount(4);
		for (const [index, title] of ['Order', 'Bench', 'Set-up card', 'Measurements'].entries()) {
			await expect(leaves.nth(index)).toContainText(title);
			await expect(leaves.nth(index)).toContainText(`${String(index + 1)} of 4`);
		}
		// Its figures are those of the sheets: the ± too.
		await expect(page.locator('.packet .against')).toContainText('Real');
		await expect(page.locator('.packet .card')).toContainText(wheelbase);
		const wide = await page
			.locator('.packet .card li b')
			.evaluateAll((figures) =>
				figures
					.filter((figure) => figure.scrollWidth > figure.clientWidth)
					.map((each) => each.textContent),
			);
		expect(wide).toEqual([]);
		const pdf = await page.pdf({ format });
		expect(pagesOf(pdf), format).toBe(4);
		await expect(page.locator('.packet')).toHaveCount(0);
	}
	await openJobMenu(page);
	await press(page, 'Print the set-up card');
	// Read at two metres: five millimetres and more, of which a letter is seven tenths high.
	const size = await page
		.locator('.packet .card li b')
		.first()
		.evaluate((figure) => Number.parseFloat(getComputedStyle(figure).fontSize));
	expect((size / 96) * 25.4 * 0.7).toBeGreaterThanOrEqual(4.9);
	expect(pagesOf(await page.pdf({ format: 'Letter' }))).toBe(1);
});

test('the record as a page opens anywhere with nothing running, says the same, and opens here again', async ({
	page,
	browser,
}) => {
	await startScenario(page);
	await toSheet(page, 'bench');
	await openJobMenu(page);
	await page.getByLabel('Owner').fill(hostileTexts[0] ?? '');
	const drop = await page.locator('.standing .figure[data-name="rear_drop"] b').innerText();
	const difference = '.against [data-column="found less plan"]';
	const differences = await page.locator(`.sheet ${difference}`).allTextContents();
	expect(differences.join(' ')).toMatch(/in ± .*° ± /);
	const coming = page.waitForEvent('download');
	await page.getByRole('button', { name: 'Save the record as a page' }).click();
	const download = await coming;
	expect(download.suggestedFilename()).toBe('hanger-up-front-shackle-up-behind.ride-height.html');
	// A browser tells a page by its name.
	const path = test.info().outputPath('record.html');
	await download.saveAs(path);
	const text = await readFile(path, 'utf8');
	expect(text).not.toMatch(/<(?:script|iframe|link|img|button|input)\b/i);
	expect(text).not.toMatch(/url\((?!(?:"|&quot;)?(?:data:|#))/i);
	expect(text.length).toBeLessThan(1_500_000);

	const other = await browser.newContext({ javaScriptEnabled: false });
	const reader = await other.newPage();
	const asked: string[] = [];
	reader.on('request', (request) => asked.push(request.url()));
	const address = pathToFileURL(path).href;
	await reader.goto(address);
	expect(asked.filter((each) => !each.startsWith('data:'))).toEqual([address]);
	await expect(reader.locator('.leaf')).toHaveCount(4);
	await expect(reader.locator(difference)).toHaveText(differences);
	// What was typed, in the record and on the card.
	await expect(reader.locator('.against')).toContainText('35 3/4');
	await expect(reader.locator('.card')).toContainText('Front 32, rear 35 psi, cold');
	await expect(reader.locator('.title-block').first()).toContainText('<script>');
	await expect(reader.locator('.leaf svg').first()).toBeVisible();
	await expect(reader.locator('[onload], [onerror], [onclick], [href], [src]')).toHaveCount(0);
	expect(pagesOf(await reader.pdf({ format: 'A4' }))).toBe(4);
	await other.close();

	await page
		.locator('input[type=file]')
		.first()
		.setInputFiles({
			name: 'record.html',
			mimeType: 'text/html',
			buffer: Buffer.from(text),
		});
	await openJobMenu(page);
	await expect(page.getByLabel('Owner')).toHaveValue(hostileTexts[0] ?? '');
	await expect(page.locator('.standing .figure[data-name="rear_drop"] b')).toHaveText(drop);
});

test('a picture to show has its size, the truck before and after, and figures below', async ({
	page,
}) => {
	await startScenario(page);
	for (const [shape, width, height] of [
		['wide', 1200, 630],
		['square', 1080, 1080],
	] as const) {
		await openJobMenu(page);
		const coming = page.waitForEvent('download');
		await page.getByRole('button', { name: `Picture to show, ${shape}` }).click();
		const download = await coming;
		expect(download.suggestedFilename()).toBe(`before-and-after-${shape}.png`);
		const path = test.info().outputPath(`${shape}.png`);
		await download.saveAs(path);
		const seen = await page.evaluate(
			async (base64) => {
				const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
				const image = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
				const { width, height } = image;
				const brush = new OffscreenCanvas(width, height).getContext('2d');
				brush?.drawImage(image, 0, 0);
				/** Share of a band of the picture that is ink, its ends in parts of the height. */
				const ink = (from: number, to: number): number => {
					const [top, tall] = [Math.round(from * height), Math.round((to - from) * height)];
					const dots = brush?.getImageData(0, top, width, tall).data ?? new Uint8ClampedArray();
					return dots.filter((level, at) => at % 4 === 0 && level < 160).length / (width * tall);
				};
				return { width, height, drawing: ink(0.15, 0.6), figures: ink(0.75, 0.95) };
			},
			(await readFile(path)).toString('base64'),
		);
		expect(seen).toMatchObject({ width, height });
		expect(seen.drawing).toBeGreaterThan(0.005);
		expect(seen.figures).toBeGreaterThan(0.005);
	}
});
