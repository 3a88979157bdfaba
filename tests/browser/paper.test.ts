/** What goes to paper: one page where one is promised, with its title block, its drawing and its lists. */
import { expect, scenarios, startScenario, test, toSheet } from './person.ts';

const sizes = ['A4', 'Letter'] as const;

/** Pages of a PDF, counted in its own objects. */
function pagesOf(pdf: Buffer): number {
	return pdf.toString('latin1').match(/\/Type \/Page\b(?!s)/g)?.length ?? 0;
}

for (const title of scenarios) {
	test(`${title}: order and record are one page each, on A4 and on Letter`, async ({ page }) => {
		await startScenario(page, title);
		for (const sheet of ['order', 'bench']) {
			await toSheet(page, sheet);
			for (const format of sizes) {
				const pdf = await page.pdf({ format });
				expect(pagesOf(pdf), `${sheet} on ${format}`).toBe(1);
			}
		}
	});
}

test('what belongs to paper alone is made for it and taken out again', async ({ page }) => {
	await startScenario(page);
	await toSheet(page, 'order');
	const remarks = page.getByText('Remarks of the shop');
	await expect(remarks).toHaveCount(0);
	// As wide as A4 is within its margins.
	await page.setViewportSize({ width: 680, height: 1010 });
	await page.evaluate(() => dispatchEvent(new Event('beforeprint')));
	await page.emulateMedia({ media: 'print' });
	await expect(remarks).toBeVisible();
	await expect(page.locator('.title-block')).toContainText('13 of 13');
	await expect(page.locator('.title-block')).toContainText('An invented truck');
	// The yoke is full size: a unit of the drawing is a CSS px, of which there are 96 to the inch.
	const drawing = page.locator('#order_drawing .box svg');
	await expect(drawing).toContainText('Lay a rule on the paper to check.');
	const shown = await drawing.evaluate(
		(svg: SVGSVGElement) => svg.getBoundingClientRect().width / svg.viewBox.baseVal.width,
	);
	expect(shown).toBeCloseTo(1, 3);
	await expect(page.getByRole('button').first()).toBeHidden();
	await page.emulateMedia({ media: 'screen' });
	await page.evaluate(() => dispatchEvent(new Event('afterprint')));
	await expect(remarks).toHaveCount(0);
});
