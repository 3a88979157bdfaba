/** What is drawn to choose by: the first page's job, the wedge both ways round, the kits, and what each part does. */
import {
	expect,
	fieldOf,
	scenarios,
	standing,
	startBlank,
	startScenario,
	test,
	toSheet,
} from './person.ts';

test('the first page moves a finished job from before to after, and stands still where less motion is wanted', async ({
	page,
}) => {
	await page.emulateMedia({ reducedMotion: 'reduce' });
	await page.goto('/');
	const hero = page.locator('.hero');
	const slider = hero.getByRole('slider', { name: 'From before to after' });
	await expect(slider).toHaveAttribute(
		'aria-valuetext',
		/^100 per cent of the way: Rear drop 2\.4/,
	);
	const leaf = (): Promise<string | null> =>
		hero.locator('path[stroke-width="2.6"]').first().getAttribute('d');
	await slider.focus();
	await page.keyboard.press('End');
	const after = await leaf();
	await page.keyboard.press('Home');
	await expect(slider).toHaveAttribute('aria-valuetext', /^0 per cent of the way: Rear drop 0\.0/);
	await expect.poll(leaf).not.toBe(after);
	await page.keyboard.press('End');
	await expect.poll(leaf).toBe(after);
	// What is alike in all finished jobs is said once.
	await expect(page.getByText('An invented truck and an invented owner')).toHaveCount(1);
	await expect(page.locator('.finished svg')).toHaveCount(scenarios.length);
});

test('where motion is welcome the first page plays once by itself and ends at after', async ({
	page,
}) => {
	await page.emulateMedia({ reducedMotion: 'no-preference' });
	await page.goto('/');
	const slider = page.locator('.hero').getByRole('slider');
	await expect(slider).toBeVisible();
	const seen = await slider.evaluate(async (input: HTMLInputElement) => {
		const values: number[] = [];
		for (let frame = 0; frame < 400 && values.at(-1) !== 1; frame++) {
			values.push(input.valueAsNumber);
			await new Promise(requestAnimationFrame);
		}
		return values;
	});
	expect(seen.at(-1)).toBe(1);
	expect([...seen].sort((a, b) => a - b)).toEqual(seen);
});

test('a wedge is planned from its drawing, which then says that it is', async ({ page }) => {
	await startScenario(page);
	await toSheet(page, 'wedge');
	const ways = page.locator('#wedge_ways');
	await expect(ways.locator('li')).toHaveCount(3);
	await expect(ways.locator('li svg')).toHaveCount(3);
	const forward = ways.locator('li', { hasText: 'Thick end forward' });
	await expect(forward).toContainText('as planned');
	await expect(forward).toContainText(/Fit this: 3\.5°, thick end forward/);
	// Two of them have a thick end to point at.
	await expect(ways.locator('svg text', { hasText: 'thick end' })).toHaveCount(2);
	const rear = await standing(page, 'rear_joint').textContent();
	await ways.getByRole('button', { name: /Plan this.*Thick end to the rear/ }).click();
	await expect(fieldOf(page, 'wedge_angle')).toHaveValue('3.5');
	await expect(standing(page, 'rear_joint')).not.toHaveText(rear ?? '');
	await page.getByRole('button', { name: 'Undo' }).click();
	await expect(fieldOf(page, 'wedge_angle')).toHaveValue('−3.5');
	await expect(standing(page, 'rear_joint')).toHaveText(rear ?? '');
});

test('a kit is told by its drawing, its claim and its miss, and is put into the plan from there', async ({
	page,
}) => {
	await startScenario(page);
	await toSheet(page, 'kits');
	const rows = page.locator('.kits-rows > li');
	await expect(rows).toHaveCount(5);
	await expect(rows.locator('svg')).toHaveCount(5);
	const hanger = rows.filter({ hasText: 'Hanger alone' });
	await expect(hanger).toContainText('seller: 3 1/2 in');
	await expect(hanger).toContainText(/0\.\d\d in short/);
	await expect(rows.filter({ hasText: 'Hanger and shackle' })).toContainText('as planned');
	// On the drawing each has its number.
	const over = page.locator('#kits_side_by_side .over svg').first();
	for (const number of ['1', '2', '3', '4', '5']) {
		await expect(over.locator('text', { hasText: new RegExp(`^${number}$`) })).toHaveCount(1);
	}
	await hanger.getByRole('button', { name: /^Make it the plan/ }).click();
	await expect(hanger).toContainText('as planned');
	await expect(standing(page, 'rear_drop')).toHaveText(/^1\.7/);
});

test('on a blank job the plank plays every part, by buttons and by its handles, and enters nothing', async ({
	page,
}) => {
	await page.emulateMedia({ reducedMotion: 'reduce' });
	await startBlank(page);
	await toSheet(page, 'why');
	const plank = page.locator('#why_ways');
	const nose = plank.locator('svg text', { hasText: /^nose / });
	await expect(plank.getByRole('button')).toHaveCount(6);
	await expect(nose).toHaveText(/^nose up \d/);
	await plank.getByRole('button', { name: 'Shackle pivot higher' }).click();
	await expect(nose).toHaveText(/^nose down \d/);
	await expect(plank.getByRole('status')).toHaveText(
		/^Shackle pivot higher: axle up \+.+, nose up −/,
	);
	await plank.getByRole('button', { name: 'Front hanger: eye higher' }).click();
	const turned = await nose.textContent();
	await plank.getByRole('slider', { name: 'Front eye up' }).focus();
	await page.keyboard.press('Shift+ArrowUp');
	await expect(nose).not.toHaveText(turned ?? '');
	await expect(plank.locator('[aria-pressed=true]')).toHaveCount(0);
	// The job is as blank as it was.
	await expect(page.getByRole('button', { name: 'Undo' })).toHaveAttribute(
		'title',
		'Undo: opening of another job',
	);
	await toSheet(page, 'spring');
	await expect(fieldOf(page, 'eye_raise')).toHaveValue('0');
});

test('the axle travels on the sheet of the angles, and at ride the truck is drawn over what it was', async ({
	page,
}) => {
	await startScenario(page);
	await toSheet(page, 'angles');
	const drawing = page.locator('.cell.drawing').first();
	const title = drawing.getByRole('img').first();
	await expect(title).toHaveAttribute('aria-label', /over the truck as it stands/);
	const travel = drawing.getByRole('slider', { name: 'Place in the travel' });
	await travel.focus();
	await page.keyboard.press('End');
	await expect(title).toHaveAttribute(
		'aria-label',
		/with its axle moved, over the truck as planned/,
	);
	await page.getByRole('button', { name: 'Undo' }).click();
	await expect(title).toHaveAttribute('aria-label', /over the truck as it stands/);
});
