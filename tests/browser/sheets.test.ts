import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { expect, startBlank, test, toSheet } from './person.ts';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const sheets = ['measure-before', 'spring-and-hanger', 'operating-angles', 'wedge', 'driveshaft'];

test('every sheet opens with the scenario, in both systems of units, without an empty figure', async ({
	page,
}) => {
	await page.goto('/');
	await page.getByRole('button', { name: /Start from the scenario/ }).click();
	for (const units of ['inch-pound', 'metric']) {
		await page.getByLabel('Units').selectOption(units);
		for (const sheet of sheets) {
			await toSheet(page, sheet);
			await expect(page.locator('.sheet h1')).toBeVisible();
			await expect(page.locator('.figure.none')).toHaveCount(0);
			await expect(page.locator('.waiting')).toHaveCount(0);
			await expect(page.locator('.story')).toBeVisible();
			await expect(page.locator('.mistakes')).toHaveCount(0);
		}
	}
});

test('on a phone 360 px wide nothing runs off the side and the standing figures stay in sight', async ({
	page,
}) => {
	await page.setViewportSize({ width: 360, height: 740 });
	await page.goto('/');
	await page.getByRole('button', { name: /Start from the scenario/ }).click();
	for (const sheet of sheets) {
		await toSheet(page, sheet);
		const beyond = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
		expect(beyond, sheet).toBeLessThanOrEqual(0);
		await page.evaluate(() => scrollTo(0, document.body.scrollHeight / 2));
		await expect(page.locator('.standing')).toBeInViewport();
	}
});

test('every sheet can be used without seeing it', async ({ page }) => {
	await page.goto('/');
	await page.getByRole('button', { name: /Start from the scenario/ }).click();
	for (const dark of [false, true]) {
		await page.emulateMedia({ colorScheme: dark ? 'dark' : 'light' });
		for (const sheet of sheets) {
			await toSheet(page, sheet);
			// Through the debugger, for the page itself lets no foreign script in.
			await page.evaluate(axe);
			const found = await page.evaluate(async () => {
				const { axe } = window as unknown as {
					axe: { run(): Promise<{ violations: { id: string; nodes: { target: unknown }[] }[] }> };
				};
				return (await axe.run()).violations.map(
					({ id, nodes }) => `${id}: ${JSON.stringify(nodes[0]?.target)}`,
				);
			});
			expect(found, sheet).toEqual([]);
		}
	}
});

test('the keyboard alone reaches a field, types, and goes on', async ({ page }) => {
	await startBlank(page);
	await page.locator('#wheelbase input').focus();
	await page.keyboard.type('118');
	await page.keyboard.press('Tab');
	// The put-back button of the field just changed, then the next field.
	await page.keyboard.press('Tab');
	await expect(page.locator('#front_height input')).toBeFocused();
	await page.keyboard.type('33 1/2');
	await expect(page.locator('#front_height')).toContainText('Measured');
});

test('an address that is no sheet says so', async ({ page, baseURL }) => {
	const answer = await page.request.get(`${baseURL}/no-such-sheet/`);
	expect(answer.status()).toBe(404);
});
