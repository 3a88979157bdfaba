/** What was written when the program was built: every sheet reads with scripts off. */
import { readWorkbookFolder } from '../../src/commands/workbook-folder.ts';
import { cellsOf } from '../../src/lib/language/workbook.ts';
import { figureInWords } from '../../src/lib/answers/figures.ts';
import { runAll } from '../../src/lib/engine/run.ts';
import { jobFromScenario } from '../../src/lib/job/job.ts';
import { inputsOf, readingsOf } from '../../src/lib/job/reading.ts';
import { expect, test } from './person.ts';

test.use({ javaScriptEnabled: false });

test('with scripts off every sheet shows its heading, its words and the first scenario’s figures', async ({
	page,
}) => {
	const workbook = readWorkbookFolder('lowering');
	const [scenario] = workbook.scenarios;
	if (!scenario) throw new Error('no scenario');
	const { graph, quantities } = workbook;
	const job = jobFromScenario(workbook, scenario, new Date('2026-11-25'));
	const run = runAll(graph, inputsOf(readingsOf(graph, job)));
	const figures = { graph, quantities, system: job.system, run };

	await page.goto('/');
	for (const { id, title, parts } of workbook.pages) {
		await page.locator(`.page-list a[href*="${id}"]`).click();
		await expect(page.getByRole('heading', { level: 1 })).toHaveText(title);
		await expect(page.locator('noscript p').first()).toContainText('invented example');
		await expect(page.locator('.figure.none, .check.open, .waiting')).toHaveCount(0);
		const cells = cellsOf(workbook).filter((cell) => cell.page === id);
		// In one go, for a sheet has dozens: what each figure on it says.
		const shown = await page
			.locator('.sheet .derive .result .figure')
			.evaluateAll((all) =>
				all.map((each): [string, string] => [
					each.getAttribute('data-name') ?? '',
					each.querySelector('b')?.textContent ?? '',
				]),
			);
		const derived = cells.flatMap((cell) =>
			cell.kind === 'derive' ? cell.gives.map(({ name }) => name) : [],
		);
		const expected = derived
			.filter((name) => graph.byId.get(name)?.type?.kind !== 'record')
			.map((name): [string, string] => [name, figureInWords(name, figures)]);
		expect(shown).toEqual(expected);
		await expect(page.locator('.sheet .check')).toHaveCount(
			cells.filter(({ kind }) => kind === 'check').length,
		);
		if (parts.some(({ part }) => part === 'prose')) {
			expect((await page.locator('.sheet .column > p').first().textContent()) ?? '').not.toBe('');
		}
	}
});

test('with scripts off there is nothing to press, a chart has its table, and nothing runs off the side', async ({
	page,
}) => {
	for (const width of [360, 1280]) {
		await page.setViewportSize({ width, height: 800 });
		await page.goto('/operating-angles/');
		await expect(page.locator('.board button:visible')).toHaveCount(0);
		const chart = page.locator('#angle_against_drop');
		await chart.locator('summary').click();
		await expect(chart.locator('tbody tr').nth(10)).toBeVisible();
		const line = page.locator('#rear_joint');
		await line.locator('summary').click();
		await expect(line.locator('math').first()).toBeVisible();
		expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(
			width,
		);
	}
});
