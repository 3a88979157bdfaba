import {
	expect,
	fieldOf,
	scenarios,
	standing,
	startBlank,
	startScenario,
	test,
	toSheet,
	toUnits,
	type,
	typeCaseA,
	unfold,
} from './person.ts';
import type { Page } from '@playwright/test';
import { readWorkbookFolder } from '../../src/commands/workbook-folder.ts';
import { jobFromScenario } from '../../src/lib/job/job.ts';
import { inputsOf, readingsOf } from '../../src/lib/job/reading.ts';
import { runAll } from '../../src/lib/engine/run.ts';
import { planSearch, searchAll } from '../../src/lib/engine/search.ts';
import { cellsOf } from '../../src/lib/language/workbook.ts';

const comparison = (page: Page) => page.locator('#kits_side_by_side');

/** The cell of a row of the comparison, by the row's words and the column's place: 0 stock, 1 the plan. */
const drop = 'Rear drop, as the lip shows it';

function inComparison(page: Page, row: string, column: number) {
	return comparison(page)
		.locator('tr', { has: page.getByRole('rowheader', { name: row, exact: true }) })
		.locator('td')
		.nth(column);
}

test('three kits are built, one becomes the plan, one step takes it back, and the comparison prints', async ({
	page,
}) => {
	await startBlank(page);
	await typeCaseA(page);
	const planned = await standing(page, 'rear_drop').textContent();
	await toSheet(page, 'kits');
	await unfold(page);
	const kits = [
		['Hanger alone', { 'Front eye up': '3' }],
		['Hanger and shackle', { 'Front eye up': '3', 'Shackle longer': '-1' }],
		['Block', { 'Block at the axle': '2' }],
	] as const;
	for (const [name, parts] of kits) {
		await page.getByRole('button', { name: 'Add a kit' }).click();
		await page.getByLabel('Name of kit Kit').fill(name);
		for (const [part, typed] of Object.entries(parts)) {
			await comparison(page).getByLabel(`${part}, ${name}`).fill(typed);
		}
	}
	await expect(comparison(page).locator('.option-name')).toHaveCount(3);
	// A block under a spring that lies over its axle lifts the truck by its height, less what the seat leans.
	await expect(inComparison(page, drop, 4)).toContainText('−1.98 in');
	await expect(inComparison(page, drop, 4)).toContainText('−1.98 in');
	await expect(inComparison(page, 'Pinion turned in the frame, nose-up positive', 4)).toContainText(
		'−0.01°',
	);
	await expect(inComparison(page, drop, 0)).toContainText('0.00 in');
	await expect(inComparison(page, drop, 1)).toContainText(planned ?? '');
	const together = await inComparison(page, drop, 3).locator('b').textContent();

	await page.getByRole('button', { name: /^Plan this ?: Hanger and shackle$/ }).click();
	await expect(standing(page, 'rear_drop')).toHaveText(together ?? '');
	await page.getByRole('button', { name: 'Undo' }).click();
	await expect(standing(page, 'rear_drop')).toHaveText(planned ?? '');
	await expect(comparison(page).locator('.option-name')).toHaveCount(3);

	await page.getByRole('button', { name: 'Copy Block' }).click();
	await expect(comparison(page).locator('.option-name')).toHaveCount(4);
	await page.getByRole('button', { name: 'Remove Block, copy' }).click();
	await page.getByRole('button', { name: 'Move left Block' }).click();
	await expect(comparison(page).locator('.option-name').nth(1)).toHaveValue('Block');
	await page.reload();
	await expect(comparison(page).locator('.option-name').nth(1)).toHaveValue('Block');

	await comparison(page).getByText('The kits as a table').click();
	await page.emulateMedia({ media: 'print' });
	await expect(comparison(page).locator('.option-name').first()).toBeHidden();
	await expect(comparison(page).locator('.on-paper').first()).toBeVisible();
	await expect(comparison(page).getByRole('button').first()).toBeHidden();
	expect((await page.pdf()).length).toBeGreaterThan(10_000);
});

test('what cannot be read in a kit is said there, and the stock value stays', async ({ page }) => {
	await startBlank(page);
	await typeCaseA(page);
	await toSheet(page, 'kits');
	await unfold(page);
	await page.getByRole('button', { name: 'Add a kit' }).click();
	const field = comparison(page).getByLabel('Front eye up, Kit');
	await field.fill('three');
	const problem = inComparison(page, 'Front eye up', 2).locator('.problem');
	await expect(problem).toContainText('where a number was expected');
	await expect(field).toHaveValue('three');
	await expect(inComparison(page, drop, 2)).toContainText('0.00 in');
	await field.fill('3');
	// Against no drop the difference is the drop itself, and stands once.
	await expect(inComparison(page, drop, 2)).toHaveText(/^\s*1\.\d\d in\s*$/);
	await toUnits(page, 'metric');
	await expect(field).toHaveValue('76.2');
	// Emptied it is stock again.
	await field.fill('');
	await expect(problem).toHaveCount(0);
	await expect(inComparison(page, drop, 2)).toContainText('0.0 mm');

	const chart = comparison(page).locator('details', { hasText: 'The chart as a table' });
	await chart.locator('summary').click();
	// The plan and the option, each where it stands on the chart.
	await expect(chart.getByRole('rowheader')).toHaveText(['The plan', '1 Kit']);
});

test('an entry is solved for, entered, and does what was asked', async ({ page }) => {
	await startScenario(page);
	await toSheet(page, 'kits');
	await unfold(page);
	const solved = page.locator('#wedge_for_allowance');
	await solved.getByRole('button', { name: /Enter it/ }).click();
	await toSheet(page, 'wedge');
	await unfold(page);
	const wanted = await page.locator('#wind_up_allowance input').inputValue();
	await expect(page.locator('#pinion_below_parallel .figure b')).toHaveText(
		`${Number(wanted).toFixed(2)}°`,
	);
	await page.getByRole('button', { name: 'Undo' }).click();
	await expect(fieldOf(page, 'wedge_angle')).toHaveValue('−3.5');
});

test('every combination is tried off the page, ranked, and a row becomes a kit', async ({
	page,
}) => {
	await startScenario(page, scenarios[0]);
	await toSheet(page, 'kits');
	await unfold(page);
	// The kits come a moment later than the sheet around them.
	await expect(page.locator('.views [data-waits]')).toHaveCount(0);
	const before = await comparison(page).locator('.option-name').count();
	// Some fifty thousand combinations: the page has to go on being drawn meanwhile.
	const steps = (from: number, to: number, by: number): string =>
		Array.from({ length: Math.round((to - from) / by) + 1 }, (_, index) =>
			String(from + index * by),
		).join('; ');
	await type(page, 'hanger_holes', steps(0, 6, 0.5));
	await type(page, 'shackle_holes', steps(-2, 2, 0.25));
	await type(page, 'block_sizes', steps(0, 3, 0.25));
	await type(page, 'wedges_to_try', steps(-4, 4, 0.5));
	const search = page.locator('#every_combination');
	await expect(search).toContainText(/48[ ,.  ]?841/);
	await page.evaluate(() => {
		const counted = window as unknown as { frames: number };
		counted.frames = 0;
		const count = (): void => {
			counted.frames++;
			requestAnimationFrame(count);
		};
		requestAnimationFrame(count);
	});
	await search.getByRole('button', { name: 'Try all combinations' }).click();
	await expect(search.locator('progress')).toBeVisible();
	await expect(search.locator('tbody tr').first()).toBeVisible({ timeout: 60_000 });
	const frames = await page.evaluate(() => (window as unknown as { frames: number }).frames);
	expect(frames).toBeGreaterThan(10);
	await search
		.getByRole('button', { name: /Make it a kit/ })
		.first()
		.click();
	await expect(comparison(page).locator('.option-name')).toHaveCount(before + 1);

	// A search that is stopped leaves the page as it was.
	await search.getByRole('button', { name: 'Try all combinations' }).click();
	await search.getByRole('button', { name: 'Leave off' }).click();
	await expect(search.locator('progress')).toHaveCount(0);

	// So does one whose sheet is left; it can be begun anew.
	await search.getByRole('button', { name: 'Try all combinations' }).click();
	await expect(search.locator('progress')).toBeVisible();
	await toSheet(page, 'wedge');
	await toSheet(page, 'kits');
	await unfold(page);
	await expect(search.locator('progress')).toHaveCount(0);
	await expect(search.getByRole('button', { name: 'Try all combinations' })).toBeEnabled();
});

test('what comes from the worker is what the plain engine finds', async ({ page }) => {
	// Listens to every worker of the page for the rows it hands over.
	await page.addInitScript(() => {
		const kept = window as unknown as { rows: number[] };
		const Plain = window.Worker;
		window.Worker = class extends Plain {
			constructor(...args: ConstructorParameters<typeof Plain>) {
				super(...args);
				this.addEventListener('message', ({ data }: MessageEvent) => {
					const { answer } = data as { answer?: { rows: Float64Array } };
					if (answer) kept.rows = [...answer.rows];
				});
			}
		};
	});
	await startScenario(page, scenarios[0]);
	await toSheet(page, 'kits');
	await unfold(page);
	const search = page.locator('#every_combination');
	await search.getByRole('button', { name: 'Try all combinations' }).click();
	await expect(search.locator('tbody tr').first()).toBeVisible({ timeout: 60_000 });
	const rows = await page.evaluate(() => (window as unknown as { rows: number[] }).rows);

	const workbook = readWorkbookFolder('lowering');
	const [scenario] = workbook.scenarios;
	const cell = cellsOf(workbook).find((each) => each.kind === 'search');
	if (!scenario || cell?.kind !== 'search') throw new Error('no scenario, or no search');
	const { graph } = workbook;
	const job = jobFromScenario(workbook, scenario, new Date('2026-11-25'));
	const base = runAll(graph, inputsOf(readingsOf(graph, job)));
	const plan = planSearch(graph, base, cell);
	if ('why' in plan) throw new Error(plan.message);
	const plain = [...searchAll(graph, base, plan).rows];
	expect(rows.length).toBe(plain.length);
	expect(rows.length).toBeGreaterThan(0);
	// The engine of the browser may be another version than the one the tests run in, so its sines may
	// differ in the last bit; on one engine the rows are equal to the bit (tests/engine/search.test.ts).
	const apart = rows.map((value, index) => Math.abs(value - (plain[index] ?? NaN)));
	expect(Math.max(...apart)).toBeLessThan(1e-12);
});

test('the ± of a figure is tried by scattering, and the entry to measure again first is named', async ({
	page,
}) => {
	await startScenario(page);
	await toSheet(page, 'angles');
	await unfold(page);
	const line = page.locator('#rear_joint');
	await expect(line).toContainText('Measure this again first');
	await line.getByRole('button', { name: /Try the ± by scattering/ }).click();
	await expect(line.locator('.sampled')).toContainText('95 in 100 lie between');
});
