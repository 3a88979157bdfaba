/** The Measure sheet: its drawing is the form, a phone asks one reading after the other, paper has a blank sheet. */
import { expect, fieldOf, startBlank, startScenario, test, toSheet } from './person.ts';

test('readings are typed on the drawing in the order of going round, and say what is known now', async ({
	page,
}) => {
	await startBlank(page);
	await toSheet(page, 'measure');
	const fields = page.locator('.callout input');
	await expect(fields).toHaveCount(7);
	await expect(page.locator('.readings .input')).toHaveCount(0);
	const rows = page.locator('#known_now li');
	await expect(rows.first()).toContainText(/needs 1\sTransmission slope, 2\sDriveshaft/);
	// The first answer still waits for the first reading.
	await expect(page.locator('.measure-next')).toContainText(/Transmission slope\. .* waits for it/);
	await fields.first().focus();
	for (const typed of ['5', '7', '4.5', '58']) {
		await page.keyboard.type(typed);
		await page.keyboard.press('Enter');
	}
	await expect(fieldOf(page, 'rear_height')).toBeFocused();
	await expect(page.locator('.in-hand h2')).toHaveText('5 Rear lip height');
	await expect(rows.first()).toContainText('2.00°');
	// Then what would make them surest, and it is taken in hand there.
	await expect(page.locator('.measure-next p')).toHaveText(
		/^Driveshaft slope, again, both ways round\. Front joint, before: ±\s0\.71° becomes ±\s0\.56°\.$/,
	);
	await expect(page.locator('#pinion_slope')).toHaveClass(/measured/);
	await page.locator('.measure-next p a').click();
	await expect(fieldOf(page, 'shaft_slope')).toBeFocused();
	await fieldOf(page, 'rear_height').focus();
	await page.keyboard.type('33 kg');
	await expect(page.locator('#rear_height')).toHaveClass(/unreadable/);
	await expect(page.locator('.in-hand .problem')).toContainText('33 kg');
	// The same entries as a list, and each has one field.
	await page.getByRole('button', { name: 'As a list' }).click();
	await expect(page.locator('.callout input')).toHaveCount(0);
	await expect(page.locator('.readings .input')).toHaveCount(7);
	await expect(fieldOf(page, 'shaft_slope')).toHaveValue('7');
});

test('boxes stay where they are while readings are typed', async ({ page }) => {
	await startScenario(page);
	await toSheet(page, 'measure');
	const boxes = page.locator('.elevation .entry');
	await expect(page.locator('.callout input')).toHaveCount(7);
	// The answers under it have come, and the drawing has its height.
	await expect(page.locator('#known_now li')).toHaveCount(6);
	await page.waitForTimeout(500);
	const places = () =>
		boxes.evaluateAll((all) =>
			all.map((each) => {
				const { x, y } = each.getBoundingClientRect();
				return `${x.toFixed(1)} ${y.toFixed(1)}`;
			}),
		);
	const before = await places();
	await fieldOf(page, 'shaft_slope').fill('6.4');
	await page.keyboard.press('Enter');
	await fieldOf(page, 'rear_height').fill('36 1/2');
	await page.keyboard.press('Enter');
	await page.waitForTimeout(500);
	expect(await places()).toEqual(before);
});

test('the gauge both ways round makes a slope that is taken over', async ({ page }) => {
	await startBlank(page);
	await toSheet(page, 'measure');
	await page.locator('.callout #field-pinion_slope').focus();
	const way = (row: string, at: number) =>
		page.getByLabel(`Pinion slope, ${row}, ${String(at)}`, { exact: true });
	await way('this way', 1).fill('5 1/2');
	await page.keyboard.press('Enter');
	await expect(way('this way', 2)).toBeFocused();
	await page.keyboard.type('5.3');
	await way('turned round', 1).fill('4.6');
	await way('turned round', 2).fill('4.6');
	await expect(page.locator('.entries tr', { hasText: 'Pinion' })).toHaveText(
		/5\.40°\s*4\.60°\s*0\.40°/,
	);
	await page.getByRole('button', { name: /^Take 5\.00°/ }).click();
	await expect(fieldOf(page, 'pinion_slope')).toHaveValue('5');
	// How the gauge reads is answered once, by keys too, and holds at every slope; what was typed keeps its meaning.
	await page.getByRole('radio', { name: 'I type slopes' }).focus();
	await page.keyboard.press('ArrowLeft');
	await expect(page.getByRole('radio', { name: '90°' })).toBeChecked();
	await page.locator('.callout #field-shaft_slope').fill('7');
	await expect(page.locator('.dial')).toContainText('the dial shows');
	await page.locator('.callout #field-trans_slope').focus();
	await expect(page.getByRole('radio', { name: '90°' })).toBeChecked();
	await expect(fieldOf(page, 'pinion_slope')).toHaveValue('5');
});

test('a phone asks one reading after the other, with the keys that a number pad lacks', async ({
	page,
}) => {
	await page.setViewportSize({ width: 360, height: 740 });
	await startBlank(page);
	await toSheet(page, 'measure');
	const field = page.locator('.one input[id^="field-"]').first();
	await expect(page.locator('.in-hand h2')).toHaveText('1 Transmission slope');
	await field.fill('5');
	await page.keyboard.press('Enter');
	await expect(page.locator('.in-hand h2')).toHaveText('2 Driveshaft slope');
	await page.getByRole('button', { name: 'Back' }).click();
	await expect(field).toHaveValue('5');
	// A circle on the drawing takes its reading in hand.
	await page.getByRole('button', { name: '4 Driveshaft, joint to joint: to its field' }).click();
	await expect(field).toHaveAttribute('id', 'field-shaft_length');
	await expect(field).toHaveAttribute('inputmode', 'decimal');
	await field.fill('56');
	const key = (name: string) =>
		page.getByRole('toolbar').getByRole('button', { name, exact: true });
	await key('1/4').click();
	await key('1/8').click();
	await expect(field).toHaveValue('56 3/8');
	await expect(field).toBeFocused();
});

test('a blank sheet prints on one page of A4 and of Letter, a row a reading', async ({ page }) => {
	await startScenario(page);
	await toSheet(page, 'measure');
	await page.evaluate(() => (window.print = () => undefined));
	const make = async () => {
		await page.getByRole('button', { name: 'Blank sheet' }).click();
		await expect(page.locator('.blank-sheet tbody tr')).toHaveCount(13);
	};
	for (const format of ['A4', 'Letter']) {
		// Printing ends it: it is made anew for each.
		await make();
		const pdf = (await page.pdf({ format })).toString('latin1');
		expect(pdf.match(/\/Type\s*\/Page\b/g), format).toHaveLength(1);
	}
	await make();
	await page.emulateMedia({ media: 'print' });
	await expect(page.locator('.board')).toBeHidden();
	const circles = await page.locator('.blank-sheet svg .callout').count();
	expect(circles).toBe(13);
	// None of what was read is on it.
	expect(await page.locator('.blank-sheet').innerText()).not.toMatch(/56 1\/4|35 3\/4/);
	await page.evaluate(() => dispatchEvent(new Event('afterprint')));
	await expect(page.locator('.blank-sheet')).toHaveCount(0);
});
