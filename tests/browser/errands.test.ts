/**
 * Every errand from an empty browser, on a phone: what it asks, how far one scrolls, how many words stand on the
 * way to its answer. The table of README.md says so, and is held to what is found here.
 */
import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { expect, test } from './person.ts';
import type { Page } from '@playwright/test';

const phone = { width: 360, height: 740 };
/** What is typed, by errand: a usual truck, in inches and degrees; a part as it comes is left as it is. */
const typed: Readonly<Record<string, readonly string[]>> = {
	joints: ['5', '6.2', '4.5'],
	part: ['5', '6.2', '4.5', '56 1/4', '4', '-1 1/2', '', ''],
	job: ['35 3/4', '5', '6.2', '4.5', '56 1/4', '33 1/2', '5', '4.1', '3', '55 7/8'],
	wedge: ['5', '4.5', '2'],
	shaft: ['55 7/8', ''],
	why: [],
};

interface Errand {
	readonly id: string;
	readonly title: string;
	readonly ask: readonly string[];
	readonly answer: readonly string[];
}
const { errands } = parse(
	readFileSync(new URL('../../workbooks/lowering/workbook.yaml', import.meta.url), 'utf8'),
) as { errands: readonly Errand[] };

/** The rows of README.md: title, entries, screens, words. */
const rows = new Map(
	readFileSync(new URL('../../README.md', import.meta.url), 'utf8')
		.split('\n')
		.flatMap((line) => {
			const [, title = '', ...numbers] = line.split('|').map((cell) => cell.trim());
			return errands.some((errand) => errand.title === title)
				? [[title, numbers.slice(0, 3).map(Number)] as const]
				: [];
		}),
);

/**
 * Words one reads on the way down to the foot of something: running text and labels, each place once. Numbers,
 * and the lettering of a drawing, are no words.
 */
function wordsDownTo(page: Page, foot: string): Promise<readonly string[]> {
	return page.evaluate((foot) => {
		const last = document.querySelector(foot)?.getBoundingClientRect().bottom ?? Infinity;
		const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
		const found: string[] = [];
		for (let node = walker.nextNode(); node; node = walker.nextNode()) {
			const within = node.parentElement;
			if (
				!within ||
				within.closest('svg, .unseen, .skip, #svelte-announcer') ||
				!within.checkVisibility()
			)
				continue;
			const range = document.createRange();
			range.selectNodeContents(node);
			const { top, width } = range.getBoundingClientRect();
			if (width === 0 || top >= last) continue;
			const words = (node.textContent ?? '').split(/\s+/).filter((word) => /\p{L}/u.test(word));
			if (words.length > 0) found.push(words.join(' '));
		}
		return found;
	}, foot);
}

/** Screens from the top of the page to the foot of something. */
function screensDownTo(page: Page, foot: string): Promise<number> {
	return page.evaluate((foot) => {
		const last = document.querySelector(foot)?.getBoundingClientRect().bottom ?? Infinity;
		return Math.ceil((last + scrollY) / innerHeight);
	}, foot);
}

for (const { id, title, ask, answer } of errands) {
	test(`“${title}” is answered within what the README says`, async ({ page }) => {
		await page.setViewportSize(phone);
		await page.emulateMedia({ reducedMotion: 'reduce' });
		await page.goto('/');
		await expect(page.locator('.hero svg')).toBeVisible();
		const door = `.errands li:nth-child(${String(errands.findIndex((each) => each.id === id) + 1)})`;
		// What is passed is counted once for each step of the way: what stands still is not read again.
		const read = new Set(await wordsDownTo(page, door));
		let screens = await screensDownTo(page, door);
		await page.locator(`${door} button`).click();
		const entries = typed[id] ?? [];
		expect(entries, 'something is typed for each').toHaveLength(ask.length);
		const field = page.locator('.errand .entry :is(input, select)').first();
		// Nothing is claimed before anything is entered.
		await expect(page.locator('.answer .figure')).toHaveCount(0);
		for (const [index, name] of ask.entries()) {
			await expect(page.locator(`.entry #${name}`)).toBeVisible();
			await expect(field).toBeFocused();
			await expect(page.locator('.errand .picture svg').first()).toBeVisible();
			for (const words of await wordsDownTo(page, '.answer dl')) read.add(words);
			screens = Math.max(screens, await screensDownTo(page, '.answer dl'));
			const text = entries[index] ?? '';
			if (text) await field.fill(text);
			if (index + 1 < ask.length) await page.keyboard.press('Enter');
		}
		if (ask.length === 0) {
			await expect(page.locator('.view svg').first()).toBeVisible();
			for (const words of await wordsDownTo(page, '.view svg')) read.add(words);
		}
		// With the last entry the answer is there, without a further step.
		for (const name of answer) {
			await expect(page.locator(`.answer .figure[data-name="${name}"]:not(.none)`)).toBeVisible();
		}
		const words = [...read].join(' ').split(' ').filter(Boolean).length;
		expect([ask.length, screens, words], [...read].join(' · ')).toEqual(rows.get(title));
	});
}

test('joints as they stand are three entries, two screens and sixty words away', () => {
	const [entries = NaN, screens = NaN, words = NaN] = rows.get('My joints as they stand') ?? [];
	expect(entries).toBe(3);
	expect(screens).toBeLessThanOrEqual(2);
	expect(words).toBeLessThanOrEqual(60);
});

test('at a desk all entries of an errand stand beside its drawing, on one screen', async ({
	page,
}) => {
	await page.setViewportSize({ width: 1280, height: 800 });
	for (const { id, ask } of errands.filter(({ ask }) => ask.length > 0)) {
		await page.goto(`/do/${id}/`);
		await expect(page.locator('.entry .input')).toHaveCount(ask.length);
		await expect(page.locator('.picture svg').first()).toBeVisible();
		await expect(page.locator('.entry :is(input, select)').first()).toBeFocused();
		await expect(page.locator('.how-taken p').last()).not.toBeEmpty();
		const beyond = await page.evaluate(() => document.documentElement.scrollHeight - innerHeight);
		expect.soft(beyond, id).toBeLessThanOrEqual(0);
		await page.keyboard.press('Enter');
		await expect(page.locator('.entry :is(input, select)').nth(1)).toBeFocused();
	}
});
