/** Dragging a handle, its keys, and typing into the field are three ways to the same entry. */
import { expect, fieldOf, standing, startScenario, test, toSheet } from './person.ts';
import type { Locator, Page } from '@playwright/test';

/** What stands in the field and what comes of it. */
async function stands(page: Page, input: string): Promise<(string | null)[]> {
	return [
		await fieldOf(page, input).inputValue(),
		...(await Promise.all(
			['rear_drop', 'front_joint', 'rear_joint'].map((name) => standing(page, name).textContent()),
		)),
	];
}

/**
 * Takes hold of a handle and moves with it along its way, on while it says less than is wanted and back while it
 * says more, as somebody does who sees the drawing come a moment behind his hand. A quarter of a pixel is less
 * than a step of the tape at any size.
 * @param way which way on the screen makes it more
 */
async function dragTo(page: Page, handle: Locator, wanted: number, way: 1 | -1): Promise<void> {
	await handle.scrollIntoViewIfNeeded();
	const box = await handle.boundingBox();
	if (!box) throw new Error('The handle is not in sight.');
	const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
	const left = async () => wanted - Number(await handle.getAttribute('aria-valuenow'));
	await page.mouse.move(x, y);
	await page.mouse.down();
	let quarters = 0;
	await expect(async () => {
		quarters += Math.sign(await left());
		await page.mouse.move(x, y + (way * quarters) / 4);
		await page.evaluate(() => new Promise(requestAnimationFrame));
		expect(await left()).toBeCloseTo(0, 6);
	}).toPass({ intervals: [0] });
	await page.mouse.up();
}

const up = -1;
const down = 1;
/** Every handle there is, by the sheet it is on: the entry, what the handle is called, and what Shift and an arrow make of it. */
const handles = {
	spring: [
		['eye_raise', 'Front eye up', '4 1/4', up],
		['pivot_raise', 'Shackle pivot up', '1/4', up],
		['shackle_longer', 'Shackle longer', '−1 1/4', down],
		['block', 'Block at the axle', '1/4', up],
	],
	speed: [
		['wedge_angle', 'Wedge, nose up', '−3.1', up],
		['mount_shim', 'Shim under the transmission mount', '1/4', up],
	],
} as const;

test('every handle: dragging, keys and typing give the same entry and figures, and one step takes each back', async ({
	page,
}) => {
	test.slow();
	await startScenario(page);
	const back = page.getByRole('button', { name: /^Undo/ });
	for (const [sheet, all] of Object.entries(handles)) {
		await toSheet(page, sheet);
		for (const [input, label, becomes, way] of all) {
			const handle = page.locator('.view.foremost').getByRole('slider', { name: label });
			const before = await stands(page, input);

			await handle.focus();
			await page.keyboard.press('Shift+ArrowUp');
			await expect(fieldOf(page, input)).toHaveValue(becomes);
			const wanted = Number(await handle.getAttribute('aria-valuenow'));
			const byKeys = await stands(page, input);
			expect(byKeys, `${label}: something comes of it`).not.toEqual([becomes, ...before.slice(1)]);
			await expect(page.locator('.view.foremost [role=status]')).toHaveText(
				new RegExp(`^${label.split(',')[0] ?? ''} .+: rear drop .+, .+°\\.$`),
			);
			await back.click();
			expect(await stands(page, input), `${label}: keys taken back`).toEqual(before);

			await dragTo(page, handle, wanted, way);
			expect(await stands(page, input), `${label}: dragged`).toEqual(byKeys);
			await back.click();
			expect(await stands(page, input), `${label}: dragging taken back`).toEqual(before);

			await fieldOf(page, input).fill(becomes);
			expect(await stands(page, input), `${label}: typed`).toEqual(byKeys);
			await back.click();
			expect(await stands(page, input), `${label}: typing taken back`).toEqual(before);
		}
	}
});
