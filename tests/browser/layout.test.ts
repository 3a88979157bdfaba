/**
 * A sheet is one screen at a desk and three on a phone before anything is opened, at every width in either
 * system of units; nothing runs off the side or is cut off, and nothing shifts while figures change.
 */
import {
	expect,
	fieldOf,
	scenarios,
	sheets,
	startScenario,
	test,
	toSheet,
	toUnits,
} from './person.ts';
import type { Page } from '@playwright/test';

const sizes: readonly (readonly [width: number, height: number])[] = [
	[320, 640],
	[360, 740],
	// Half a desk, which is what 200 per cent leaves of it.
	[640, 400],
	[768, 1024],
	[1280, 800],
	[1440, 900],
	[1920, 1080],
];

/** Open words a sheet: prose, sentences of verdicts, what stands under a drawing. */
const words = 120;
/** Screens of 360 × 740 a sheet. */
const screens = 3;
interface Measured {
	readonly beyond: number;
	readonly height: number;
	readonly words: number;
	readonly cut: readonly string[];
	/** Lettering of a drawing that lies over other lettering of it. */
	readonly over: readonly string[];
	/** Whether the drawing begins in the upper half of the window. */
	readonly inSight: boolean;
	/** Whether a chart that goes with it begins on the first screen. */
	readonly chartInSight: boolean;
}

/** How a sheet stands in the window, measured by boxes. */
function measure(page: Page): Promise<Measured> {
	return page.evaluate(async () => {
		// Drawings and charts take the size of their boxes a frame after a window has changed.
		for (let frame = 0; frame < 3; frame++) await new Promise(requestAnimationFrame);
		const seen = (selector: string): HTMLElement[] =>
			[...document.querySelectorAll<HTMLElement>(selector)].filter((each) =>
				each.checkVisibility(),
			);
		const text = seen('.entries :is(p, li), .verdicts .check p, .view .about, .how[open] p')
			.filter((each) => !each.querySelector('p, li') && !each.closest('.mistakes, .said'))
			.map((each) => {
				const chosen = [...each.querySelectorAll('select')].map(({ value }) => value);
				// Of a list that is shut, what is chosen is open.
				const [all, listed] = [each.innerText, each.querySelectorAll('option')];
				return [...listed]
					.filter(({ value }) => !chosen.includes(value))
					.reduce((text, { text: option }) => text.replace(option, ''), all);
			});
		const cut = seen('.cell, .figure, dd, dt, h1, h2, label, summary, button')
			.filter((each) => !each.closest('.scroll, .unseen'))
			.filter((each) => each.scrollWidth > each.clientWidth + 1 && each.clientWidth > 0)
			.filter((each) => getComputedStyle(each).display !== 'inline');
		const view = document.querySelector('.view');
		const chart = document.querySelector('.view[data-kind="chart"]');
		const over = seen('.view svg, .entries svg').flatMap((drawing) => {
			// Turned lettering has no box of its own.
			const texts = [...drawing.querySelectorAll<SVGGraphicsElement>('text:not([transform])')]
				.map((text) => ({ said: text.textContent, box: text.getBoundingClientRect() }))
				.filter(({ box }) => box.width > 0);
			return texts.flatMap(({ said, box }, index) =>
				texts
					.slice(index + 1)
					.filter(
						(other) =>
							Math.min(box.right, other.box.right) - Math.max(box.left, other.box.left) > 1 &&
							// A line of letters is higher than they are.
							Math.min(box.bottom, other.box.bottom) - Math.max(box.top, other.box.top) >
								0.4 * box.height,
					)
					.map((other) => `${said} / ${other.said}`),
			);
		});
		return {
			beyond: document.documentElement.scrollWidth - innerWidth,
			// A page with mistakes in its text says so at length; that is held elsewhere.
			height:
				document.documentElement.scrollHeight -
				(document.querySelector<HTMLElement>('.mistakes')?.offsetHeight ?? 0),
			words: text.join(' ').split(/\s+/).filter(Boolean).length,
			cut: cut.map((each) => `${each.tagName} ${each.id} ${each.className}: ${each.innerText}`),
			over,
			inSight: !view || view.getBoundingClientRect().top < innerHeight / 2,
			chartInSight: !chart || chart.getBoundingClientRect().top < innerHeight,
		};
	});
}

/** One scenario in either system in `npm test`; with EVERY=1 all of them. */
const tried = process.env['EVERY'] ? scenarios : scenarios.slice(0, 1);

for (const [scenario, units] of tried.flatMap((each) => [
	[each, 'inch-pound'] as const,
	[each, 'metric'] as const,
])) {
	test(`a sheet is one screen at a desk and three on a phone: “${scenario}” in ${units} units`, async ({
		page,
	}) => {
		test.slow();
		await startScenario(page, scenario);
		await toUnits(page, units);
		for (const sheet of sheets) {
			await page.setViewportSize({ width: 1280, height: 800 });
			await toSheet(page, sheet);
			await expect(page.locator('.sheet h1')).toBeVisible();
			await expect(page.locator('[data-waits]')).toHaveCount(0);
			for (const [width, height] of sizes) {
				await page.setViewportSize({ width, height });
				const found = await measure(page);
				const where = `${sheet} at ${width}`;
				expect.soft(found.beyond, `${where}: runs off the side`).toBeLessThanOrEqual(0);
				expect.soft(found.cut, `${where}: cut off`).toEqual([]);
				expect.soft(found.over, `${where}: lettering over lettering`).toEqual([]);
				expect.soft(found.inSight, `${where}: the drawing is in sight`).toBe(true);
				if (width >= 768)
					expect.soft(found.chartInSight, `${where}: the chart is in sight`).toBe(true);
				if (width >= 1280)
					expect.soft(found.height, `${where}: height`).toBeLessThanOrEqual(height);
				if (width === 360)
					expect.soft(found.height / height, `${where}: screens`).toBeLessThanOrEqual(screens);
				if (width === 1280)
					expect.soft(found.words, `${where}: open words`).toBeLessThanOrEqual(words);
			}
		}
	});
}

/** Where what is looked at and what is asked stands, of what is in sight. */
function places(page: Page): Promise<readonly string[]> {
	return page
		.locator('.title-bar, .actions, .view, .entries > *, .strip, .strip dl > div')
		.evaluateAll((all) =>
			all
				.filter((each) => each.checkVisibility())
				.flatMap((each) => {
					const { x, y, width, height } = each.getBoundingClientRect();
					if (y > innerHeight || y + height < 0) return [];
					return [[each.id || each.className, x, y, width, height].join(' ')];
				}),
		);
}

/** To the first entry, as the first stop of a sheet leads there. One who has only just opened it may be taken back to its top. */
async function skipToEntry(page: Page): Promise<void> {
	const entry = page.locator(':is(.entries, .views) :is(input, textarea, [role=slider]):focus');
	await expect(async () => {
		await page.locator('.skip').press('Enter');
		await page.waitForTimeout(100);
		await expect(entry).toHaveCount(1, { timeout: 100 });
	}).toPass();
}

/** Sheets whose entries are folded away, or that have none. */
const notHeld = ['kits', 'order'];

for (const [width, height] of [
	[360, 740],
	[1280, 800],
] as const) {
	test(`nothing in sight shifts while figures change, ${width} px wide`, async ({ page }) => {
		await startScenario(page, scenarios[0]);
		await page.setViewportSize({ width, height });
		const figures = (): Promise<string> => page.locator('.sheet').innerText();
		for (const sheet of sheets.filter((id) => !notHeld.includes(id))) {
			await toSheet(page, sheet);
			await expect(page.locator('.sheet [data-waits]')).toHaveCount(0);
			// Its first entry, or the one that its drawings are about.
			if (sheet === 'wedge') await fieldOf(page, 'wedge_angle').focus();
			else await skipToEntry(page);
			await page.keyboard.press('ArrowUp');
			// The ± comes when the finger rests, and behind it what takes longest to work out.
			await page.waitForTimeout(400);
			await expect(page.locator('.sheet [aria-busy=true]')).toHaveCount(0);
			const [before, was] = [await places(page), await figures()];
			expect(before.length).toBeGreaterThan(5);
			for (let step = 0; step < 4; step++) await page.keyboard.press('ArrowUp');
			await expect.poll(figures, sheet).not.toBe(was);
			expect.soft(await places(page), `${sheet} at once`).toEqual(before);
			await page.waitForTimeout(400);
			expect.soft(await places(page), `${sheet} at rest`).toEqual(before);
		}
	});
}

test('the strip shows plan, fitted and found, and a figure within its ± is set lighter', async ({
	page,
}) => {
	await startScenario(page, scenarios[0]);
	await toSheet(page, 'angles');
	const front = page.locator('.strip .in-sight').nth(1).locator('b');
	const planned = await front.textContent();
	await page.getByRole('radio', { name: 'Found' }).check({ force: true });
	await expect(page.locator('.strip .figure[data-name="front_joint_found"]')).toBeVisible();
	await expect(front).not.toHaveText(planned ?? '');
	await page.getByRole('radio', { name: 'Plan' }).check({ force: true });
	await expect(front).toHaveText(planned ?? '');
	await expect(page.locator('.strip .figure[data-name="rear_joint"] b')).toHaveCSS(
		'font-weight',
		'400',
	);
	await expect(front).toHaveCSS('font-weight', '700');
});

test('on a phone chips put in what a number pad lacks, where the caret stands', async ({
	page,
}) => {
	await page.setViewportSize({ width: 360, height: 740 });
	await startScenario(page, scenarios[0]);
	await toSheet(page, 'spring');
	const cell = page.locator('#eye_raise');
	const field = cell.locator('input');
	await expect(cell.getByRole('toolbar')).toBeHidden();
	await field.fill('3');
	await cell.getByRole('button', { name: '1/4', exact: true }).click();
	await expect(field).toHaveValue('3 1/4');
	await expect(field).toBeFocused();
	await cell.getByRole('button', { name: 'plus or minus' }).click();
	await field.pressSequentially('1/8');
	await expect(field).toHaveValue('3 1/4 ± 1/8');
	await expect(cell.locator('.problem')).toHaveCount(0);
	await page.keyboard.press('Enter');
	await expect(field).not.toBeFocused();
	await expect(page.locator('.entries .field input:focus')).toHaveCount(1);
});

test('undo names what it takes back, and the list of drawings opens by key on a phone', async ({
	page,
}) => {
	await page.setViewportSize({ width: 360, height: 740 });
	await startScenario(page, scenarios[0]);
	await toSheet(page, 'spring');
	await page.locator('#eye_raise input').fill('3');
	await expect(page.getByRole('button', { name: 'Undo' })).toHaveAttribute(
		'title',
		'Undo: front eye up 4 → 3',
	);
	await page.getByRole('button', { name: 'Drawings' }).focus();
	await page.keyboard.press('Enter');
	await expect(page.locator('.rail a[aria-current]')).toBeVisible();
	await page.keyboard.press('Escape');
	await expect(page.locator('.rail a[aria-current]')).toBeHidden();
});
