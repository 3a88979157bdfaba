/** A whole job by the keyboard alone. */
import { readFileSync } from 'node:fs';
import { expect, fieldOf, standing, test } from './person.ts';
import type { Locator, Page } from '@playwright/test';

function hasFocus(locator: Locator): Promise<boolean> {
	return locator.evaluateAll((all) => all.some((each) => each === document.activeElement));
}

/** Presses Tab until something is in hand, and says how often. */
async function tabTo(page: Page, locator: Locator, key = 'Tab'): Promise<number> {
	// It may come a moment later than the sheet around it.
	await expect(locator.first()).toBeAttached();
	for (let stops = 1; stops <= 120; stops++) {
		await page.keyboard.press(key);
		if (await hasFocus(locator)) return stops;
	}
	throw new Error(`No ${key} leads to ${locator.toString()}`);
}

/** Follows a link or presses a button, having come to it by Tab. */
async function enter(page: Page, locator: Locator): Promise<void> {
	await tabTo(page, locator);
	await page.keyboard.press('Enter');
}

/** The first stop of a sheet leads to its entries. */
async function toFirstEntry(page: Page, sheet: string): Promise<void> {
	await expect(page.locator(`nav.rail a[aria-current][href*="${sheet}"]`)).toHaveCount(1);
	await expect(page.locator('.views [data-waits]')).toHaveCount(0);
	await enter(page, page.getByRole('link', { name: 'Skip to the entries' }));
}

test('a whole job is done by the keyboard alone', async ({ page }) => {
	await page.goto('/');
	await enter(page, page.getByRole('button', { name: 'Start blank' }));
	await enter(page, page.getByRole('link', { name: 'Next: Measure' }));

	await toFirstEntry(page, 'measure');
	await expect(fieldOf(page, 'trans_slope')).toBeFocused();
	for (const typed of ['5', '7', '5', '58', '35 1/2', '33', '118']) {
		await page.keyboard.type(typed);
		await page.keyboard.press('Enter');
	}
	await expect(fieldOf(page, 'front_height')).toHaveValue('33');
	await expect(page.locator('#known_now li').first()).toContainText('2.00°');

	// A part is chosen: its field, or the handle on the drawing.
	await enter(page, page.getByRole('link', { name: 'Next: Stance' }));
	await enter(page, page.getByRole('link', { name: 'Next: Spring' }));
	await toFirstEntry(page, 'spring');
	await expect(fieldOf(page, 'eye_raise')).toBeFocused();
	await page.keyboard.type('4');
	await expect(standing(page, 'rear_drop')).toHaveText(/^2\.\d\d in$/);
	const drop = await standing(page, 'rear_drop').textContent();
	const handle = page.locator('#spring_drawing').getByRole('slider', { name: 'Front eye up' });
	await tabTo(page, handle, 'Shift+Tab');
	await expect(handle).toHaveAttribute('aria-valuetext', '4 in');
	await page.keyboard.press('Shift+ArrowUp');
	await expect(fieldOf(page, 'eye_raise')).toHaveValue('4 1/4');
	await expect(standing(page, 'rear_drop')).not.toHaveText(drop ?? '');
	await expect(page.locator('#spring_drawing [role=status]')).toHaveText(
		/^Front eye up 4 1\/4 in: /,
	);
	await page.keyboard.press('Control+z');
	await expect(fieldOf(page, 'eye_raise')).toHaveValue('4');

	// A check is read.
	const clear = page.locator('.verdicts > details > summary').last();
	await enter(page, clear);
	await expect(page.locator('.verdicts > details[open] .check').last()).toContainText(/\d/);

	// The sheet for the shop, by the list of drawings.
	await enter(page, page.locator('nav.rail').getByRole('link', { name: 'Order' }));
	await expect(page.locator('.sheet h1')).toContainText('Order');
	await expect(page.locator('.sheet .live', { hasText: /^\d+\.\d\d in$/ }).first()).toBeVisible();
	// What can be done is one stop, and arrow keys go on from there.
	await tabTo(page, page.getByRole('toolbar', { name: 'What can be done' }).locator('a, button'));
	await page.keyboard.press('ArrowRight');
	await expect(page.getByRole('link', { name: 'All figures' })).toBeFocused();
	await page.keyboard.press('End');
	await expect(page.getByRole('button', { name: 'Job', exact: true })).toBeFocused();
	await page.keyboard.press('Enter');
	const coming = page.waitForEvent('download');
	await enter(page, page.getByRole('button', { name: 'Save to a file' }));
	const file = JSON.parse(readFileSync(await (await coming).path(), 'utf8')) as {
		job: { entries: Record<string, { typed: string }> };
	};
	const typed = Object.entries(file.job.entries).map(([name, entry]) => [name, entry.typed]);
	expect(Object.fromEntries(typed)).toEqual({
		trans_slope: '5',
		shaft_slope: '7',
		pinion_slope: '5',
		shaft_length: '58',
		rear_height: '35 1/2',
		front_height: '33',
		wheelbase: '118',
		eye_raise: '4',
	});
});
