import { readFile } from 'node:fs/promises';
import {
	expect,
	expectCaseA,
	fieldOf,
	openJobMenu,
	saved,
	standing,
	startBlank,
	test,
	toSheet,
	toUnits,
	type,
	typeCaseA,
} from './person.ts';

test('a job typed in is worked out, kept over a reload, saved, and opened again', async ({
	page,
}) => {
	await startBlank(page);
	await typeCaseA(page);
	await expectCaseA(page);

	await page.reload();
	await expectCaseA(page);
	await toSheet(page, 'measure');
	await expect(fieldOf(page, 'leaf_rear')).toHaveValue("2' 6");
	await expect(page.locator('#leaf_rear')).toContainText('30 in');

	const { name, path: file } = await saved(page);
	expect(name).toBe('new-job.ride-height.json');

	await openJobMenu(page);
	await page.getByRole('button', { name: 'Start blank' }).click();
	await expect(standing(page, 'rear_drop')).not.toHaveText('2.42 in');
	await toSheet(page, 'measure');
	await expect(fieldOf(page, 'shaft_length')).toHaveValue('');

	await openJobMenu(page);
	await page.locator('input[type=file]').setInputFiles(file);
	await expectCaseA(page);
	// As typed, but for the minus, which is a true one where nobody is typing.
	await expect(fieldOf(page, 'pinion_rise')).toHaveValue('−1-1/2"');
});

test('the chart is drawn again when a part moves', async ({ page }) => {
	await startBlank(page);
	await typeCaseA(page);
	await toSheet(page, 'angles');
	const chart = page.locator('#angle_against_drop');
	const canvas = chart.locator('canvas');
	await canvas.scrollIntoViewIfNeeded();
	const pixels = () => canvas.evaluate((element: HTMLCanvasElement) => element.toDataURL());
	const before = await pixels();
	const mark = chart.getByRole('slider');
	await expect(mark).toHaveAttribute('aria-valuetext', /rear 6\.35°/);
	await chart.locator('summary').click();
	await expect(chart.locator('tbody tr').nth(10)).toBeVisible();

	await toSheet(page, 'spring');
	await type(page, 'eye_raise', '2');
	await toSheet(page, 'angles');
	await expect(mark).not.toHaveAttribute('aria-valuetext', /6\.35°/);
	await canvas.scrollIntoViewIfNeeded();
	await expect.poll(pixels).not.toBe(before);
});

test('stepping by the tape, stepping back, and changing the units', async ({ page }) => {
	await startBlank(page);
	await typeCaseA(page);
	const field = fieldOf(page, 'eye_raise');
	await page.getByRole('button', { name: 'Front eye up: one step more' }).click();
	await expect(field).toHaveValue('4 9/16');
	await field.press('ArrowDown');
	await field.press('ArrowDown');
	await expect(field).toHaveValue('4 7/16');
	await page.getByRole('button', { name: 'Undo' }).click();
	await expect(field).toHaveValue('4 1/2');
	await expectCaseA(page);

	await toUnits(page, 'metric');
	await expect(field).toHaveValue('114.3');
	await expect(standing(page, 'rear_drop')).toHaveText('61.5 mm');
	await toUnits(page, 'inch-pound');
	await expect(field).toHaveValue('4 1/2');
	await expectCaseA(page);
});

test('a slope is typed as the dial of a gauge shows it, once it is said how that reads', async ({
	page,
}) => {
	await startBlank(page);
	await toSheet(page, 'measure');
	// The drawing is the form: what is in hand is explained beside it.
	const cell = page.locator('.in-hand', { hasText: 'Pinion slope' });
	await page.locator('.callout #field-pinion_slope').focus();
	await cell.getByRole('radio', { name: '90°' }).check({ force: true });
	await type(page, 'pinion_slope', '86.5');
	await expect(cell.locator('.stands')).toContainText('Measured 3.5°');
	await expect(cell.locator('.dial')).toContainText('86.5°');
	await page.reload();
	await expect(fieldOf(page, 'pinion_slope')).toHaveValue('86.5');
	await page.locator('.callout #field-pinion_slope').focus();
	await expect(cell.locator('.stands')).toContainText('Measured 3.5°');
});

test('what cannot be read is explained, stays in the field, and takes nothing away', async ({
	page,
}) => {
	await startBlank(page);
	await typeCaseA(page);
	const field = fieldOf(page, 'eye_raise');
	const cell = page.locator('#eye_raise');
	for (const [typed, sentence] of [
		['four and a half', 'stands where a number was expected'],
		['5 deg', 'a length is wanted here'],
		['9e99', 'cannot be right here'],
		['4 1/2 furlongs', 'is not a unit known here'],
		['', 'Nothing is entered'],
	] as const) {
		await field.fill(typed);
		await expect(cell.locator('.problem')).toContainText(sentence);
		await expect(cell.locator('.problem')).toContainText('4 1/2 in stays in force');
		await expect(field).toHaveValue(typed);
		await expectCaseA(page);
	}
	await page.reload();
	await expectCaseA(page);

	await toSheet(page, 'measure');
	await type(page, 'eye_to_pivot', '70');
	await expect(page.locator('#spring_before')).toContainText('The shackle is too short by');
	await expect(page.locator('#spring_before')).toContainText(/check the eye-to-pivot distance/i);
	await type(page, 'eye_to_pivot', '53.6');
	await expectCaseA(page);
});

test('files that are no job are refused with a sentence and change nothing', async ({ page }) => {
	await startBlank(page);
	await typeCaseA(page);
	const text = await readFile((await saved(page)).path, 'utf8');
	for (const [content, sentence] of [
		[text.slice(0, text.length / 2), 'breaks off or was damaged'],
		['{"some": "other program"}', 'is not a job of this workbook'],
		['\u0000\u0001binary', 'is not a job of this workbook'],
		[text.replace('"version": 2', '"version": 99'), 'saved by a later version'],
		[text.replace('"entries"', '"other"'), 'a part of it is missing'],
	] as const) {
		await openJobMenu(page);
		await page.locator('input[type=file]').setInputFiles({
			name: 'x.json',
			mimeType: 'application/json',
			buffer: Buffer.from(content),
		});
		const alarm = page.getByRole('alert');
		await expect(alarm).toContainText(sentence);
		await expect(alarm).toContainText('Nothing was changed');
		await page.getByRole('button', { name: 'Understood' }).click();
		await expectCaseA(page);
	}
});

test('a job is sealed as the record of a day; what changed since is said, on paper too, and a broken seal', async ({
	page,
}) => {
	await startBlank(page);
	await toSheet(page, 'spring');
	await type(page, 'eye_raise', '3');
	await openJobMenu(page);
	await page.getByRole('button', { name: 'Seal as the record of today' }).click();
	const line = page.locator('.seals .line');
	await expect(line).toContainText(/Sealed \d+ [A-Z][a-z]{2} \d{4}, unchanged/);
	await expect(line).toContainText(/[0-9a-f]{4}( [0-9a-f]{4}){3}/);
	await expect(page.locator('.seals')).toContainText('proves neither who sealed it nor when');
	const { path } = await saved(page);
	await openJobMenu(page);
	const table = page.waitForEvent('download');
	await page.getByRole('button', { name: 'Figures as CSV' }).click();
	expect((await table).suggestedFilename()).toBe('new-job-figures.csv');
	expect(await readFile(await (await table).path(), 'utf8')).toMatch(
		/"entry","spring","eye_raise",.*,"3","measured or chosen",/,
	);
	await page.keyboard.press('Escape');

	await type(page, 'eye_raise', '4');
	await expect(page.locator('.strip')).toContainText('changed since: 1 entry');
	await page.reload();
	await expect(page.locator('.strip')).toContainText('changed since: 1 entry');
	// On a phone too, beside what is kept, and the head of the sheet is no higher for it.
	await page.setViewportSize({ width: 360, height: 740 });
	const sealed = page.locator('.how-sealed');
	await expect(sealed).toHaveText(/^sealed \d+ [A-Z][a-z]{2} \d{4}, changed since$/);
	await expect(sealed).toBeInViewport({ ratio: 1 });
	expect((await page.locator('.title-bar').boundingBox())?.height).toBeLessThan(46);
	await page.setViewportSize({ width: 1280, height: 720 });
	await page.emulateMedia({ media: 'print' });
	await expect(page.locator('.title-block')).toContainText(/changed since: 1 entry · [0-9a-f]{4} /);
	await page.emulateMedia({ media: 'screen' });
	await openJobMenu(page);
	await page.getByText('What was sealed').click();
	await expect(page.locator('.seals tbody tr').first()).toHaveText(/front eye up\s*3\s*4/);
	await page.getByRole('button', { name: 'Seal as the record of today' }).click();
	await expect(line).toContainText('unchanged');
	await expect(page.locator('.seals ol li')).toHaveCount(2);
	await page.getByRole('button', { name: 'Open it as it was' }).last().click();
	await toSheet(page, 'spring');
	await expect(fieldOf(page, 'eye_raise')).toHaveValue('3');
	await expect(page.locator('.strip')).toContainText('unchanged');

	// A person who changes what was sealed, and takes the checksum out.
	const text = (await readFile(path, 'utf8')).replace(/^\t"checksum".*\n/m, '');
	const forged = text.replace(/("seals": [^]*?"typed": ")3"/, '$15"');
	expect(forged).not.toBe(text);
	await openJobMenu(page);
	await page.locator('input[type=file]').setInputFiles({
		...{ name: 'x.json', mimeType: 'application/json', buffer: Buffer.from(forged) },
	});
	await expect(page.locator('.broken-seal')).toContainText('Seal 1 of this job does not fit');
	await expect(page.locator('.strip')).toContainText('the seal is broken');
});
