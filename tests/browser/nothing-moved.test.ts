/**
 * What is typed where no figure hangs on it works nothing out again: no option, sweep, solve or drawing. Every
 * run of the spring or the shaft, and every drawing, takes arcs and lengths, so the page counts these.
 */
import { expect, fieldOf, openJobMenu, startScenario, test, toSheet, unfold } from './person.ts';
import type { Locator, Page } from '@playwright/test';

const counted = ['sin', 'cos', 'atan2', 'hypot', 'sqrt', 'asin', 'acos'] as const;

/** How many arcs and lengths were taken since it was asked last, once no more are for a while. */
async function taken(page: Page): Promise<number> {
	const count = (): Promise<number> =>
		page.evaluate(() => (window as unknown as { taken: number }).taken);
	let [before, now] = [-1, await count()];
	while (now !== before) {
		// The ± begins a while after the last key, and what is folded follows behind it.
		await page.waitForTimeout(1000);
		[before, now] = [now, await count()];
	}
	await page.evaluate(() => Object.assign(window, { taken: 0 }));
	return now;
}

const textOf = (page: Page, name: string): Locator => page.locator(`#${name} textarea`);

/** On a sheet: a field that moves figures, and one that moves none. */
const typing: Readonly<
	Record<
		string,
		{
			moves: (page: Page) => Locator;
			idle: (page: Page) => Promise<Locator>;
			/** Share of what the one that moves takes. */
			share?: number;
		}
	>
> = {
	bench: {
		moves: (page) => fieldOf(page, 'eye_raise_fitted'),
		idle: (page) => Promise.resolve(textOf(page, 'record_notes')),
	},
	kits: {
		moves: (page) => page.locator('#kits_side_by_side tbody input').first(),
		// Of what a list of sizes makes, the first is tried, to see whether a search could be begun; no option is.
		idle: (page) => Promise.resolve(fieldOf(page, 'hanger_holes')),
		share: 0.1,
	},
	angles: {
		moves: (page) => fieldOf(page, 'pinion_offset_left'),
		idle: async (page) => {
			await openJobMenu(page);
			return page.getByLabel('Owner');
		},
	},
};

for (const [sheet, { moves, idle, share = 0 }] of Object.entries(typing)) {
	test(`on ${sheet}, what moves no figure runs nothing`, async ({ page }) => {
		await page.addInitScript((names) => {
			const counting = window as unknown as { taken: number };
			counting.taken = 0;
			for (const name of names) {
				const own = Math[name] as (...args: number[]) => number;
				Object.assign(Math, {
					[name]: (...args: number[]) => {
						counting.taken++;
						return own(...args);
					},
				});
			}
		}, counted);
		await startScenario(page);
		await toSheet(page, sheet);
		// What comes later has come.
		await expect(page.locator('.sheet [data-waits]')).toHaveCount(0);
		await unfold(page);
		await page.locator('.views details').evaluateAll((all: HTMLDetailsElement[]) => {
			for (const each of all) each.open = true;
		});
		await taken(page);
		await moves(page).fill('1.25');
		const moved = await taken(page);
		expect(moved).toBeGreaterThan(100);
		const field = await idle(page);
		await field.fill('1; 2');
		expect(await taken(page)).toBeLessThanOrEqual(share * moved);
	});
}
