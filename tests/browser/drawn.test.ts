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
	const rows = page.locator('.kits-rows li');
	await expect(rows).toHaveCount(5);
	await expect(rows.locator('svg')).toHaveCount(5);
	const hanger = rows.filter({ hasText: 'Hanger alone' });
	await expect(hanger).toContainText(/seller\s*3 1\/2 in/);
	await expect(hanger).toContainText(/0\.\d\d in short/);
	await expect(rows.filter({ hasText: 'Hanger and shackle' })).toContainText('as planned');
	// On the drawing each has its number.
	const over = page.locator('#kits_side_by_side .over svg').first();
	for (const number of ['1', '2', '3', '4', '5']) {
		await expect(over.locator('text', { hasText: new RegExp(`^${number}$`) })).toHaveCount(1);
	}
	await hanger.getByRole('button', { name: /^Plan this/ }).click();
	await expect(hanger).toContainText('as planned');
	await expect(standing(page, 'rear_drop')).toHaveText(/^1\.7/);
});

test('the drop wanted is one entry: by its field, by the mark on the drawing and on the chart, by pointer and by keys', async ({
	page,
}) => {
	await startScenario(page);
	await toSheet(page, 'kits');
	const field = page.locator('.title-bar').getByLabel('Drop wanted at the rear', { exact: true });
	const back = page.getByRole('button', { name: /^Undo/ });
	const onDrawing = page.locator('.over').getByRole('slider').first();
	const onChart = page.getByRole('slider', { name: /on the chart$/ });
	await expect(onDrawing).toHaveAttribute('aria-valuetext', '2 1/2 in');
	await expect(onChart).toHaveAttribute('aria-valuetext', '2 1/2 in');
	const ways: (() => Promise<void>)[] = [
		() => field.fill('3'),
		() => onDrawing.press('Shift+ArrowUp').then(() => onDrawing.press('Shift+ArrowUp')),
		() => onChart.press('PageUp').then(() => onChart.press('PageUp')),
		async () => {
			for (const mark of [onDrawing, onChart]) {
				const box = await mark.boundingBox();
				if (!box) throw new Error('The mark is not in sight.');
				const [x, y] = [box.x + 22, box.y + 22];
				await page.mouse.move(x, y);
				await page.mouse.down();
				const [right, up] = mark === onDrawing ? [0, 1] : [1, 0];
				for (let px = 1; px < 400 && (await field.inputValue()) !== '3'; px++) {
					await page.mouse.move(x + px * right * 0.5, y - px * up * 0.2);
					await page.evaluate(() => new Promise(requestAnimationFrame));
				}
				await page.mouse.up();
				await expect(field).toHaveValue('3');
				if (mark === onDrawing) await back.click();
				await expect(onDrawing).toHaveAttribute(
					'aria-valuetext',
					mark === onDrawing ? '2 1/2 in' : '3 in',
				);
			}
		},
	];
	for (const way of ways) {
		await way();
		await expect(field).toHaveValue('3');
		await expect(onDrawing).toHaveAttribute('aria-valuetext', '3 in');
		await expect(onChart).toHaveAttribute('aria-valuetext', '3 in');
		await expect(page.locator('.over svg text', { hasText: 'wanted 3 in' })).toHaveCount(1);
		for (let step = 0; step < 2 && (await field.inputValue()) !== '2 1/2'; step++) {
			await field.blur();
			await back.click();
		}
		await expect(field).toHaveValue('2 1/2');
	}
	// What cannot be read stays in the field, and moves nothing.
	await field.fill('three');
	await expect(page.locator('.title-bar').getByRole('status')).toContainText('a number');
	await field.blur();
	await expect(field).toHaveValue('three');
	await expect(onDrawing).toHaveAttribute('aria-valuetext', '2 1/2 in');
});

test('a kit that cannot be put together is drawn open, and says once what it lacks', async ({
	page,
}) => {
	await startScenario(page);
	await toSheet(page, 'kits');
	await page.getByText('The kits as a table').click();
	await page.getByLabel('Front eye forward, Shackle, near hole').fill('12');
	const over = page.locator('.over svg').first();
	await expect(over.locator('text', { hasText: 'does not meet' })).toHaveCount(1);
	await expect(over.locator('text', { hasText: 'short: 2 does not meet' })).toHaveCount(1);
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
	await page.emulateMedia({ reducedMotion: 'no-preference' });
	await toSheet(page, 'angles');
	const drawing = page.locator('.cell.drawing').first();
	const title = drawing.getByRole('img').first();
	// Where motion is welcome it plays once by itself, and enters nothing.
	await expect(title).toHaveAttribute('aria-label', /with its axle moved/);
	await expect(title).toHaveAttribute('aria-label', /over the truck as it stands/);
	await expect(page.getByRole('button', { name: 'Undo' })).toHaveAttribute(
		'title',
		'Undo: opening of another job',
	);
	const travel = drawing.getByRole('slider', { name: 'Place in the travel' });
	await travel.focus();
	await page.keyboard.press('End');
	await expect(title).toHaveAttribute(
		'aria-label',
		/with its axle moved, over the truck as planned/,
	);
	const bump = (await travel.getAttribute('aria-valuetext')) ?? '';
	await page.getByRole('button', { name: 'Undo' }).click();
	await expect(title).toHaveAttribute('aria-label', /over the truck as it stands/);
	const ride = (await travel.getAttribute('aria-valuetext')) ?? '';

	// It plays when it is asked to; where less motion is wanted it is at the next of its ends at once.
	await page.emulateMedia({ reducedMotion: 'reduce' });
	await drawing.getByRole('button', { name: 'Play' }).click();
	await expect(travel).toHaveAttribute('aria-valuetext', bump);
	await page.getByRole('button', { name: 'Undo' }).click();
	await page.emulateMedia({ reducedMotion: 'no-preference' });
	await drawing.getByRole('button', { name: 'Play' }).click();
	const seen = new Set<string | null>();
	await expect(async () => {
		seen.add(await travel.getAttribute('aria-valuetext'));
		expect(seen.size).toBeGreaterThan(4);
	}).toPass({ intervals: [0] });
	await expect(drawing.getByRole('button', { name: 'Play' })).toBeVisible();
	await expect(travel).toHaveAttribute('aria-valuetext', ride);
});
