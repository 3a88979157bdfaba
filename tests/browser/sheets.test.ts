import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { functionTableOf } from '../../src/lib/language/functions.ts';
import { lowering } from '../../src/lib/trade/lowering.ts';
import {
	expect,
	fieldOf,
	openJobMenu,
	scenarios,
	sheets,
	standing,
	startBlank,
	startScenario,
	test,
	toSheet,
	toUnits,
	type,
	unfold,
} from './person.ts';

const functionCount = functionTableOf(lowering.functions).size;

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** What a sheet shows where something has no value, cannot be read, or is a mistake. */
const wanting = '.figure.none, .waiting, .check.open, .said .problem, .mistakes';

for (const scenario of scenarios) {
	for (const units of ['inch-pound', 'metric']) {
		test(`every sheet opens with “${scenario}” in ${units} units, with no error and no empty figure`, async ({
			page,
		}) => {
			await startScenario(page, scenario);
			await toUnits(page, units);
			for (const sheet of sheets) {
				await toSheet(page, sheet);
				await expect(page.locator('.sheet h1')).toBeVisible();
				await expect(page.locator('.story')).toHaveCount(1);
				await expect(page.locator(wanting)).toHaveCount(0);
				await expect(page.locator('.live', { hasText: /^—$/ })).toHaveCount(0);
			}
		});
	}
}

test('an entry says whose it is, a figure how many of its entries nobody measured, and a sheet goes back', async ({
	page,
}) => {
	await startScenario(page);
	await toSheet(page, 'measure');
	await page.getByRole('button', { name: 'As a list' }).click();
	await unfold(page);
	const wheelbase = page.locator('#wheelbase');
	await expect(wheelbase).toContainText('Example');
	const was = await fieldOf(page, 'wheelbase').inputValue();
	const behind = page.locator('#parallel_before .unmeasured');
	await expect(behind).toHaveText(/2 of 2\s*entries behind it\s*not measured/);
	await type(page, 'trans_slope', '5.1');
	await expect(page.locator('#trans_slope')).toContainText('Measured');
	await expect(behind).toHaveText(/1 of 2\s*entries behind it\s*not measured/);
	await page.locator('#trans_slope .how summary').click();
	await page.getByRole('button', { name: 'Only assumed Transmission slope' }).click();
	await expect(page.locator('#trans_slope')).toContainText('Assumed');
	await expect(behind).toHaveText(/2 of 2\s*entries behind it\s*not measured/);
	await page.locator('#pinion_slope .how summary').click();
	await page.getByRole('button', { name: 'I measured this Pinion slope' }).click();
	await expect(behind).toHaveText(/1 of 2\s*entries behind it\s*not measured/);

	await type(page, 'wheelbase', '130');
	const drop = await standing(page, 'rear_drop').textContent();
	await toSheet(page, 'spring');
	await type(page, 'eye_raise', '1');
	await toSheet(page, 'measure');
	await openJobMenu(page);
	await page.getByRole('button', { name: 'Put this sheet back as it was finished' }).click();
	await expect(fieldOf(page, 'wheelbase')).toHaveValue(was);
	await expect(wheelbase).toContainText('Example');
	// The other sheet keeps what was typed there, and one step back brings this one's entries again.
	await expect(standing(page, 'rear_drop')).not.toHaveText(drop ?? '');
	await page.getByRole('button', { name: 'Undo' }).click();
	await expect(fieldOf(page, 'wheelbase')).toHaveValue('130');
});

/** At a desk; and on half of its window, which is what 200 per cent leaves of it. */
const [whole, half] = [
	{ width: 1280, height: 800 },
	{ width: 640, height: 400 },
];
/** With EVERY=1 also the other way about, and where a browser sets its own colours. */
const sights = [
	{ window: whole, colorScheme: 'light', forcedColors: 'none' },
	{ window: half, colorScheme: 'dark', forcedColors: 'none' },
	...(process.env['EVERY']
		? ([
				{ window: half, colorScheme: 'light', forcedColors: 'none' },
				{ window: whole, colorScheme: 'dark', forcedColors: 'none' },
				{ window: half, colorScheme: 'light', forcedColors: 'active' },
				{ window: whole, colorScheme: 'dark', forcedColors: 'active' },
			] as const)
		: []),
] as const;
/** Kits are typed into where they are unfolded, and an order is sent: the top of these leads to no entry. */
const withoutEntry = ['kits', 'order'];

for (const { window, colorScheme, forcedColors } of sights) {
	const forced = forcedColors === 'active' ? ', colours forced' : '';
	test(`every sheet can be used by keys and without seeing it: ${window.width} px wide, ${colorScheme}${forced}`, async ({
		page,
	}) => {
		test.slow();
		await page.emulateMedia({ colorScheme, forcedColors });
		await page.setViewportSize(window);
		await startScenario(page);
		for (const sheet of sheets) {
			await toSheet(page, sheet);
			// What comes a moment later is read too.
			await expect(page.locator('.views [data-waits]')).toHaveCount(0);
			// Through the debugger, for the page itself lets no foreign script in.
			await page.evaluate(axe);
			const found = await page.evaluate(async () => {
				const { axe } = window as unknown as {
					axe: { run(): Promise<{ violations: { id: string; nodes: { target: unknown }[] }[] }> };
				};
				return (await axe.run()).violations.map(
					({ id, nodes }) => `${id}: ${JSON.stringify(nodes[0]?.target)}`,
				);
			});
			expect.soft(found, sheet).toEqual([]);
			const beyond = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
			expect.soft(beyond, sheet).toBeLessThanOrEqual(0);
			const entry = page.locator(':is(.entries, .views) :is(input, textarea, [role=slider]):focus');
			// Straight on its first entry is no more than six stops away, and its first stop leads there at once.
			await page.keyboard.press('Tab');
			await expect(page.locator('.skip')).toBeFocused();
			for (let stops = 1; stops < 6 && (await entry.count()) === 0; stops++) {
				await page.keyboard.press('Tab');
			}
			if (!withoutEntry.includes(sheet)) await expect.soft(entry, sheet).toBeInViewport();
			await page.locator('.skip').focus();
			await page.keyboard.press('Enter');
			if (!withoutEntry.includes(sheet)) await expect(entry, sheet).toBeInViewport();
		}
	});
}

test('the keyboard alone reaches a field, types, and goes on', async ({ page }) => {
	await startBlank(page);
	await toSheet(page, 'measure');
	await unfold(page);
	await page.locator('#wheelbase input').focus();
	await page.keyboard.type('118');
	await page.keyboard.press('Enter');
	const next = page.locator('.input input:focus');
	await expect(next).toBeFocused();
	await expect(next).not.toHaveValue('118');
	await page.keyboard.type('1/2');
	await expect(page.locator('.input:has(input:focus)')).toContainText('Measured');
	// Tab reaches what stands beneath the field too.
	await page.keyboard.press('Tab');
	// Shut, and open again.
	await page.keyboard.press('Enter');
	await page.keyboard.press('Enter');
	await page.keyboard.press('Tab');
	await expect(page.getByRole('button', { name: /^Only assumed/ })).toBeFocused();
});

test('the reference of functions is made from the table itself, and can be looked through', async ({
	page,
}) => {
	await page.setViewportSize({ width: 360, height: 740 });
	await page.goto('/');
	await page.getByRole('link', { name: 'what a formula may call' }).click();
	await expect(page.locator('.function')).toHaveCount(functionCount);
	await page.getByLabel('Words to look for').fill('whirling');
	await expect(page.locator('#whirling_speed')).toContainText('Roark');
	expect(await page.locator('.function').count()).toBeLessThan(functionCount);
	const beyond = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
	expect(beyond).toBeLessThanOrEqual(0);
});

test('an address that names a check leads to it, also when it is the first thing opened', async ({
	page,
}) => {
	await startScenario(page);
	await page.goto('/stance/#headlamps');
	await expect(page.locator('#headlamps')).toBeInViewport();
	// So is one that names a figure or a drawer, which are folded away.
	await page.goto('/angles/#rear_joint');
	await expect(page.locator('#rear_joint')).toBeInViewport();
	await page.goto('/angles/#before-you-crawl-under');
	await expect(page.locator('.cautions')).toBeInViewport();
});

test('an address that is no sheet says so', async ({ page }) => {
	// The address may be one of a job's own sheets, so it is the page that says so, not the server.
	await page.goto('/no-such-sheet/');
	await expect(page.getByRole('heading', { name: 'No such sheet' })).toBeVisible();
});

test('sheets that were left stay in nobody’s memory', async ({ page }) => {
	await page.goto('/kits/');
	const session = await page.context().newCDPSession(page);
	/** Goes round all sheets and back, and counts what is there of a page once all that nobody holds is gone. */
	const afterRounds = async (rounds: number) => {
		for (const id of Array.from({ length: rounds }, () => sheets).flat()) {
			await toSheet(page, id);
			await expect(page.locator(`nav.rail a[href*="${id}"]`)).toHaveAttribute(
				'aria-current',
				'page',
			);
		}
		await toSheet(page, 'kits');
		await expect(page.locator('.sheet [data-waits]')).toHaveCount(0);
		await session.send('HeapProfiler.collectGarbage');
		return session.send('Memory.getDOMCounters');
	};
	const before = await afterRounds(1);
	const after = await afterRounds(1);
	// Twice as many sheets that stayed would be many times as much.
	expect(after.nodes).toBeLessThan(1.2 * before.nodes);
	expect(after.jsEventListeners).toBeLessThan(1.2 * before.jsEventListeners);
});
