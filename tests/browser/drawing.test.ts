/** Dragging a handle, its keys, and typing into the field are three ways to the same entry. */
import { expect, fieldOf, standing, startScenario, test, toSheet } from './person.ts';
import type { Locator, Page } from '@playwright/test';

/** What stands in the field and what comes of it. */
async function stands(page: Page): Promise<(string | null)[]> {
	return [
		await fieldOf(page, 'eye_raise').inputValue(),
		await standing(page, 'rear_drop').textContent(),
		await standing(page, 'rear_joint').textContent(),
	];
}

/**
 * Takes hold of a handle and moves with it, up while it says less than is wanted and down while it says more,
 * as somebody does who sees the drawing come a moment behind his hand. A quarter of a pixel is less than a step
 * of the tape at any size.
 */
async function dragTo(page: Page, handle: Locator, inches: number): Promise<void> {
	await handle.scrollIntoViewIfNeeded();
	const box = await handle.boundingBox();
	if (!box) throw new Error('The handle is not in sight.');
	const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
	const left = async () => inches - Number(await handle.getAttribute('aria-valuenow')) / 0.0254;
	await page.mouse.move(x, y);
	await page.mouse.down();
	let quarters = 0;
	await expect(async () => {
		quarters += Math.sign(await left());
		await page.mouse.move(x, y - quarters / 4);
		await page.evaluate(() => new Promise(requestAnimationFrame));
		expect(await left()).toBeCloseTo(0, 6);
	}).toPass({ intervals: [0] });
	await page.mouse.up();
}

test('dragging, keys and typing give the same entry and figures, and one step takes each back', async ({
	page,
}) => {
	await startScenario(page);
	await toSheet(page, 'spring');
	const handle = page.locator('#spring_drawing').getByRole('slider', { name: 'Front eye up' });
	const back = page.getByRole('button', { name: /^Undo/ });
	const before = await stands(page);
	expect(before[0]).toBe('4');

	await handle.focus();
	await page.keyboard.press('Shift+ArrowUp');
	await expect(handle).toHaveAttribute('aria-valuetext', '4 1/4 in');
	const byKeys = await stands(page);
	await expect(page.locator('#spring_drawing [role=status]')).toHaveText(
		/^Front eye up 4 1\/4 in: rear drop .+ in, .+°\.$/,
	);
	await back.click();
	expect(await stands(page)).toEqual(before);

	await dragTo(page, handle, 4.25);
	expect(await stands(page)).toEqual(byKeys);
	await back.click();
	expect(await stands(page)).toEqual(before);

	await fieldOf(page, 'eye_raise').fill('4 1/4');
	expect(await stands(page)).toEqual(byKeys);
	await back.click();
	expect(await stands(page)).toEqual(before);
	expect(byKeys).not.toEqual(before);
});
