/**
 * What a stranger may send, opened in a browser with a trap: no script of it runs, nothing is asked of another
 * address, no prototype changes, and the page goes on answering.
 */
import { deflateRawSync } from 'node:zlib';
import type { Page } from '@playwright/test';
import { readWorkbookFolder } from '../../src/commands/workbook-folder.ts';
import { writeJobFile } from '../../src/lib/job/job-file.ts';
import { jobFromScenario, type Job } from '../../src/lib/job/job.ts';
import { hostileFiles, hostilePages, hostileTexts } from './hostile-corpus.ts';
import { expect, openJobMenu, startScenario, test, toSheet, unfold } from './person.ts';

/** Milliseconds within which a page answers again. On a busy machine, too. */
const patience = 30_000;

/** What is sprung when anything of it runs. */
async function setTrap(page: Page): Promise<() => Promise<void>> {
	const sprung: string[] = [];
	await page.exposeFunction('trap', () => sprung.push('a script ran'));
	page.on('dialog', (dialog) => {
		sprung.push(`a dialog: ${dialog.message()}`);
		void dialog.dismiss();
	});
	page.on('popup', () => sprung.push('a window opened'));
	return async () => {
		const found = await page.evaluate(() => ({
			polluted: 'polluted' in {},
			elements: document.querySelectorAll(
				'iframe, object, embed, form, base, meta[http-equiv="refresh"], [onerror], [onload], [onmouseover], [onfocus], a[href^="javascript" i], a[href^="data:"], img, [src*="away.invalid"], [href*="away.invalid"]',
			).length,
		}));
		expect(found).toEqual({ polluted: false, elements: 0 });
		expect(sprung).toEqual([]);
	};
}

function hostileJob(): Job {
	const workbook = readWorkbookFolder('lowering');
	const [scenario] = workbook.scenarios;
	if (!scenario) throw new Error('no scenario');
	const job = jobFromScenario(workbook, scenario, new Date('2026-11-28'));
	const all = hostileTexts.join(' ');
	const text = (typed: string) => ({ typed, system: job.system, from: 'person' as const });
	const entries = Object.fromEntries(
		Object.entries(job.entries).map(([name, entry], at) => [
			name,
			text(at % 3 === 0 ? (hostileTexts[at % hostileTexts.length] ?? '') : entry.typed),
		]),
	);
	return {
		...job,
		block: { ...job.block, title: hostileTexts[5] ?? '', owner: all.slice(0, 120), date: '<b>' },
		entries: { ...entries, ['<img src=x onerror=trap()>']: text(all) },
		options: [
			{ id: '<script>', name: hostileTexts[1] ?? '', entries: { block: text('9'.repeat(400)) } },
		],
		pages: Object.entries(hostilePages).map(([id, page]) => ({ id, text: page })),
	};
}

async function choose(page: Page, name: string, text: string): Promise<void> {
	await page
		.locator('input[type=file]')
		.first()
		.setInputFiles({
			name,
			mimeType: 'application/json',
			buffer: Buffer.from(text),
		});
}

test('pages, names and entries of a stranger run nothing, fetch nothing and hang nothing', async ({
	page,
}) => {
	const nothingSprung = await setTrap(page);
	page.setDefaultTimeout(patience);
	await startScenario(page);
	await choose(page, '<img src=x onerror=trap()>.json', writeJobFile(hostileJob()));
	await expect(page).toHaveTitle(/script/);
	for (const sheet of [...Object.keys(hostilePages), 'bench', 'order', 'kits']) {
		await toSheet(page, sheet);
		await unfold(page);
		await expect(page.locator('h1')).toBeVisible();
		await nothingSprung();
	}
});

test('files and links that are none are refused with a sentence', async ({ page }) => {
	const nothingSprung = await setTrap(page);
	await startScenario(page);
	await openJobMenu(page);
	for (const [name, text] of Object.entries(hostileFiles)) {
		await choose(page, `${name}.json`, text);
		const alarm = page.getByRole('alert').filter({ hasText: name });
		await expect(alarm, name).toContainText(/\.$|Understood/);
		await expect(alarm).not.toContainText('Error');
		await alarm.getByRole('button', { name: 'Understood' }).click();
		await nothingSprung();
	}
	// Sixty-four million letters in sixty thousand.
	const bomb = deflateRawSync(Buffer.alloc(64_000_000, 'a')).toString('base64url');
	for (const packed of [
		bomb,
		'AAAA',
		'%00',
		deflateRawSync('{"job":{"__proto__":1}}').toString('base64url'),
	]) {
		await page.goto(`/#job=1.${packed}`);
		await page.reload();
		await expect(page.getByText(/This link/).first()).toBeVisible();
		await nothingSprung();
	}
});
