/** A person at the workbook: what they do on the page, and what must never happen meanwhile. */
import { readFileSync } from 'node:fs';
import { expect, test as base, type Page } from '@playwright/test';
import { parse } from 'yaml';

/** Sheets that no build knows: one that tests make while they run, and one that there never is. */
const ownSheets: readonly string[] = ['my-hitch', 'no-such-sheet'];

/** Every test fails on a console error, a page error, or a request to anywhere but the page's own origin. */
export const test = base.extend<{ quiet: undefined }>({
	quiet: [
		async ({ page, baseURL }, use) => {
			const said: string[] = [];
			page.on('console', (message) => {
				// A sheet of a job's own is no file of the server's: it answers 404, with the page that looks further.
				const { url } = message.location();
				if (message.type() === 'error' && !ownSheets.some((id) => url.endsWith(`/${id}/`))) {
					said.push(message.text());
				}
			});
			page.on('pageerror', (error) => said.push(error.message));
			page.on('request', (request) => {
				const address = request.url();
				if (!address.startsWith(`${baseURL}/`) && !/^(data|blob):/.test(address)) {
					said.push(`a request left for ${address}`);
				}
			});
			await use(undefined);
			expect(said).toEqual([]);
		},
		{ auto: true },
	],
});

export { expect };

/** Case A of the reference layouts, as typed, by page. Inches, pounds, degrees. */
export const caseA: Readonly<Record<string, Readonly<Record<string, string>>>> = {
	measure: {
		wheelbase: '118',
		trans_slope: '5',
		shaft_slope: '7',
		pinion_slope: '5',
		shaft_length: '58',
		leaf_front: '24',
		leaf_rear: "2' 6",
		leaf_arch: '3 1/2',
		leaf_rate: '160',
		spring_load: '850',
		eye_to_pivot: '53.6',
		pivot_up: '4.6',
		shackle_length: '5',
		seat_to_axle: '3',
		pinion_reach: '12',
		pinion_rise: '-1-1/2"',
	},
	spring: { eye_raise: '4 1/2' },
};

export async function startBlank(page: Page): Promise<void> {
	await page.goto('/');
	await page.getByRole('button', { name: 'Start blank' }).click();
	await expect(page.locator('.standing')).toBeVisible();
}

const workbookFolder = new URL('../../workbooks/lowering/', import.meta.url);
const readYaml = (path: string): unknown =>
	parse(readFileSync(new URL(path, workbookFolder), 'utf8')) as unknown;
const workbook = readYaml('workbook.yaml') as { pages: string[]; scenarios: string[] };

/** The sheets, in order. */
export const sheets: readonly string[] = workbook.pages;

/** The titles of the scenarios, in order. */
export const scenarios: readonly string[] = workbook.scenarios.map(
	(id) => (readYaml(`scenarios/${id}.yaml`) as { title: string }).title,
);

/** Starts from a scenario: the first one unless another is named. */
export async function startScenario(page: Page, title = scenarios[0] ?? ''): Promise<void> {
	await page.goto('/');
	await page.getByRole('button', { name: `Open the finished job “${title}”` }).click();
	await expect(page.locator('.standing')).toBeVisible();
}

export async function toSheet(page: Page, id: string): Promise<void> {
	// On a phone the list of drawings opens first.
	const opener = page.getByRole('button', { name: 'Drawings' });
	if (await opener.isVisible()) await opener.click();
	await page.locator(`nav.rail a[href*="${id}"]`).click();
	await expect(page).toHaveURL(new RegExp(`/${id}/$`));
}

/** Types into the field of an input, as a person would: all of the old goes, key by key the new comes. */
export async function type(page: Page, name: string, typed: string): Promise<void> {
	const field = fieldOf(page, name);
	// It may stand in a drawer, which is opened as a person would.
	await field.evaluate((input) => {
		for (let at = input.closest('details'); at; at = at.parentElement?.closest('details') ?? null) {
			at.open = true;
		}
	});
	await field.fill('');
	await field.pressSequentially(typed);
}

/** Opens what concerns the whole job, unless it is open. */
export async function openJobMenu(page: Page): Promise<void> {
	const menu = page.locator('.job-menu');
	if (!(await menu.isVisible()))
		await page.getByRole('button', { name: 'Job', exact: true }).click();
	await expect(menu).toBeVisible();
}

export async function toUnits(page: Page, units: string): Promise<void> {
	await openJobMenu(page);
	await page.getByLabel('Units').selectOption(units);
	await page.keyboard.press('Escape');
}

/** Saves the job to a file and gives its path. */
export async function saved(page: Page): Promise<{ name: string; path: string }> {
	await openJobMenu(page);
	const coming = page.waitForEvent('download');
	await page.getByRole('button', { name: 'Save to a file' }).click();
	const download = await coming;
	await page.keyboard.press('Escape');
	return { name: download.suggestedFilename(), path: await download.path() };
}

/** Opens all that is folded away on the sheet. */
export async function unfold(page: Page): Promise<void> {
	await page.locator('.drawers, .verdicts').evaluateAll((places) => {
		for (const place of places) {
			for (const each of place.querySelectorAll('details')) each.open = true;
		}
	});
}

export function fieldOf(page: Page, name: string) {
	return page.locator(`#field-${name}`);
}

export async function typeCaseA(page: Page): Promise<void> {
	for (const [sheet, entries] of Object.entries(caseA)) {
		await toSheet(page, sheet);
		for (const [name, typed] of Object.entries(entries)) await type(page, name, typed);
	}
}

/** What a standing figure reads, without its ±. */
export function standing(page: Page, name: string) {
	return page.locator(`.standing .figure[data-name="${name}"] b`);
}

export async function expectCaseA(page: Page): Promise<void> {
	// The reference figures of case A, to the decimals the sheet shows.
	await expect(standing(page, 'rear_drop')).toHaveText('2.42 in');
	await expect(standing(page, 'rake_change')).toHaveText('1.17°');
	await expect(standing(page, 'front_joint')).toHaveText('1.38°');
	await expect(standing(page, 'rear_joint')).toHaveText('6.35°');
	await expect(standing(page, 'shaft_length_change')).toHaveText('−1.00 in');
}
