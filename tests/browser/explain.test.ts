/** What would explain the readings, and what to measure next: worked out once a person rests. */
import { expect, fieldOf, scenarios, startScenario, test, toSheet, type } from './person.ts';

test('the bench names the hole, and agrees once it is entered', async ({ page }) => {
	await startScenario(page, scenarios[0]);
	await toSheet(page, 'bench');
	const cell = page.locator('#what_explains');
	await expect(cell.getByRole('status')).toHaveText('Front eye: this alone explains it.');
	await expect(cell.getByRole('rowheader').first()).toContainText('not 4 in');
	await type(page, 'eye_raise_fitted', '3');
	await expect(cell.getByRole('status')).toContainText('agree');
	await expect(cell.getByRole('rowheader', { name: 'Front eye' })).toHaveCount(0);
	await cell.getByText('Plan and readings together').click();
	await expect(cell.getByRole('row', { name: /^Rear joint/ })).toContainText('±');
});

test('an errand names the reading that would make its answer surest', async ({ page }) => {
	await page.goto('/do/joints/');
	for (const [name, slope] of [
		['trans_slope', '5'],
		['shaft_slope', '7'],
		['pinion_slope', '4 ± 2'],
	] as const) {
		await fieldOf(page, name).fill(slope);
		await page.keyboard.press('Enter');
	}
	const next = page.locator('.next-reading');
	await expect(next.locator('summary')).toHaveText(
		/^Measure again, both ways round: Pinion slope\. .*±\s2\.06° becomes ±\s0\.71°\.$/,
	);
	await next.locator('summary').click();
	await expect(next.getByRole('link').first()).toHaveAttribute('href', /measure.*#pinion_slope$/);
});
