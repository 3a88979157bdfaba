/** The red mark of a chart is the entry: keys, a finger and typing come to the same. */
import type { Page } from '@playwright/test';
import { expect, standing, test, toSheet, type } from './person.ts';

const markOf = (page: Page) => page.locator('#angle_against_drop').getByRole('slider');
const says = (page: Page) => markOf(page).getAttribute('aria-valuetext');
const entered = async (page: Page) => (await says(page))?.split(' in:')[0] ?? '';

async function drag(page: Page, by: number): Promise<void> {
	// Clear of what stays at the edges of the window.
	await markOf(page).evaluate((mark) => mark.scrollIntoView({ block: 'center' }));
	const box = await markOf(page).boundingBox();
	if (!box) throw new Error('no mark');
	const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
	await page.mouse.move(x, y);
	await page.mouse.down();
	for (let step = 1; step <= 8; step++) await page.mouse.move(x + (by * step) / 8, y);
	await page.mouse.up();
}

test.beforeEach(async ({ page }) => {
	await page.goto('/angles/');
	await expect(markOf(page)).toHaveAttribute('aria-valuetext', /^4 in: rear drop 2\.45 in, /);
	await markOf(page).evaluate((mark) => mark.scrollIntoView({ block: 'center' }));
});

test('a key, a drag and typing give the same entry and figures, each one step back', async ({
	page,
}) => {
	const back = page.getByRole('button', { name: /^Undo/ });
	const before = await says(page);

	await markOf(page).press('ArrowRight');
	await expect.poll(() => entered(page)).toBe('4 1/16');
	const byKey = await says(page);
	await back.click();
	await expect.poll(() => says(page)).toBe(before);

	await drag(page, -90);
	await expect.poll(() => entered(page)).not.toBe('4');
	const [byDrag, drop] = [await says(page), await standing(page, 'rear_drop').textContent()];
	const typed = await entered(page);
	await back.click();
	await expect.poll(() => says(page)).toBe(before);

	for (const [text, words] of [
		['4 1/16', byKey],
		[typed, byDrag],
	] as const) {
		await toSheet(page, 'spring');
		await type(page, 'eye_raise', text);
		await toSheet(page, 'angles');
		await expect.poll(() => says(page)).toBe(words);
	}
	await expect(standing(page, 'rear_drop')).toHaveText(drop ?? '');
});

test('the chart keeps its place and its size while the mark moves', async ({ page }) => {
	const plot = page.locator('#angle_against_drop .plot');
	const before = await plot.boundingBox();
	await drag(page, -120);
	await markOf(page).press('PageDown');
	await expect.poll(() => entered(page)).not.toBe('4');
	expect(await plot.boundingBox()).toEqual(before);
	expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBe(0);
});
