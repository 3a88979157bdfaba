/** What goes to paper: one page where one is promised, with its title block, its drawing and its lists. */
import type { Page } from '@playwright/test';
import { expect, scenarios, sheets, startScenario, test, toSheet } from './person.ts';

const sizes = ['A4', 'Letter'] as const;

/** Pages of a PDF, counted in its own objects. */
function pagesOf(pdf: Buffer): number {
	return pdf.toString('latin1').match(/\/Type \/Page\b(?!s)/g)?.length ?? 0;
}

/** Waits until what comes later than a sheet has come, and its charts are drawn. */
async function settled(page: Page): Promise<void> {
	await expect(page.locator(':is(.view, .entries) [data-waits]')).toHaveCount(0);
	for (const canvas of await page.locator('.view canvas').all()) {
		await expect(canvas).toHaveAttribute('width', /^(?!300$)/);
	}
}

/** Says to the page that it goes to paper, as a browser does, in a window as wide as A4 within its margins. */
async function onPaper(page: Page): Promise<void> {
	await page.setViewportSize({ width: 680, height: 1010 });
	await page.evaluate(() => dispatchEvent(new Event('beforeprint')));
	await page.emulateMedia({ media: 'print' });
}

test('each sheet by itself is one page, A4 and Letter, with its fonts and no picture of lines', async ({
	page,
}) => {
	await startScenario(page);
	for (const sheet of sheets) {
		await toSheet(page, sheet);
		await settled(page);
		for (const format of sizes) {
			const pdf = await page.pdf({ format });
			expect(pagesOf(pdf), `${sheet} on ${format}`).toBe(1);
			const inside = pdf.toString('latin1');
			const count = (what: RegExp): number => inside.match(what)?.length ?? 0;
			// A font is a file in the PDF, or its letters are drawn one by one; a name alone is no font.
			expect(count(/\/FontFile2 /g)).toBeGreaterThan(0);
			expect(count(/\/Subtype \/Type0\b/g)).toBe(count(/\/FontFile2 /g));
			expect(count(/\/Subtype \/(?:Type1|TrueType)\b/g)).toBe(0);
			expect(inside).toContain('B612');
			// Drawings are lines, and so are charts: sharp however large they are looked at.
			expect(count(/\/Subtype \/Image\b/g), `${sheet}: pictures`).toBe(0);
		}
	}
});

test('a drawer that is open is printed, each page with the title block, and no reading is left out', async ({
	page,
}) => {
	await startScenario(page);
	await toSheet(page, 'measure');
	await page.locator('details.drawer').first().locator('summary').first().click();
	expect(pagesOf(await page.pdf({ format: 'A4' }))).toBeGreaterThan(1);
	await onPaper(page);
	// What a browser repeats on every page is the head of a table.
	await expect(page.locator('.sheet')).toHaveCSS('display', 'table');
	await expect(page.locator('.sheet > .head')).toHaveCSS('display', 'table-header-group');
	await expect(page.locator('.readings .input:visible')).toHaveCount(13);
	await expect(page.locator('.verdicts > details > summary')).toContainText('clear');
});

test('a browser that prints a chart as a picture gets 600 dots to the inch', async ({ page }) => {
	await startScenario(page);
	await toSheet(page, 'spring');
	await settled(page);
	await onPaper(page);
	const density = await page
		.locator('.view canvas')
		.evaluate((canvas: HTMLCanvasElement) => canvas.width / canvas.getBoundingClientRect().width);
	expect(density * 96).toBeGreaterThan(599);
});

test('the order says of what nobody measured that it is there, or that there is none', async ({
	page,
}) => {
	await startScenario(page);
	await toSheet(page, 'order');
	await settled(page);
	await onPaper(page);
	// At once: a print does not wait.
	expect(await page.locator('#order_rests_on').innerText()).toContain('Of the invented truck:');
});

for (const title of scenarios) {
	test(`${title}: order and record, and the fullest sheets, are one page each`, async ({
		page,
	}) => {
		await startScenario(page, title);
		for (const sheet of process.env['EVERY'] ? sheets : ['order', 'bench', 'stance', 'angles']) {
			await toSheet(page, sheet);
			await settled(page);
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
	await onPaper(page);
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
