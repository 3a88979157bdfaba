/** A sheet that no build knows: it comes in with a job, has its own address, and is there after a reload. */
import { readFile } from 'node:fs/promises';
import {
	expect,
	fieldOf,
	openJobMenu,
	saved,
	standing,
	startScenario,
	test,
	toSheet,
	type,
	unfold,
} from './person.ts';

const ownPage = (times: number): string =>
	[
		'---',
		'title: The hitch',
		'summary: How high the ball stands',
		'document: Own sheet',
		'---',
		'The ball comes down to {ball_after}.',
		'',
		'```input',
		'name: ball_before',
		'label: Ball above the floor',
		'quantity: length',
		'```',
		'',
		'```derive',
		`ball_after = ball_before - ${times} * rear_drop  # Ball afterwards`,
		'```',
		'',
	].join('\n');

test('a sheet of a job’s own is opened at its address, stays over a reload, and is read again when it changes', async ({
	page,
}) => {
	await startScenario(page);
	const file = JSON.parse(await readFile((await saved(page)).path, 'utf8')) as {
		job: Record<string, unknown>;
	};
	const openWith = (text: string): Promise<void> =>
		page.locator('input[type=file]').setInputFiles({
			name: 'with-a-page.json',
			mimeType: 'application/json',
			buffer: Buffer.from(
				JSON.stringify({
					...file,
					version: 3,
					// It is changed by hand here.
					checksum: undefined,
					job: { ...file.job, pages: [{ id: 'my-hitch', text }] },
				}),
			),
		});

	await openWith(ownPage(1));
	await toSheet(page, 'my-hitch');
	await expect(page.getByRole('heading', { level: 1 })).toContainText('The hitch');
	await expect(page.locator('#ball_after')).toContainText('Still to be entered');
	await unfold(page);
	await type(page, 'ball_before', '20');
	const drop = Number.parseFloat((await standing(page, 'rear_drop').textContent()) ?? '');
	const ball = page.locator('#ball_after .figure b');
	const said = async (): Promise<number> => Number.parseFloat((await ball.textContent()) ?? '');
	expect(await said()).toBeCloseTo(20 - drop, 1);

	await expect(page.locator('.kept').filter({ visible: true })).toHaveAttribute(
		'data-coming',
		'false',
	);
	await page.reload();
	await expect(page.getByRole('heading', { level: 1 })).toContainText('The hitch');
	await expect(fieldOf(page, 'ball_before')).toHaveValue('20');
	expect(await said()).toBeCloseTo(20 - drop, 1);

	// Another text of the same sheet: what is in front follows, and its entry is another job's now.
	await openWith(ownPage(2));
	await expect(page.locator('#ball_after')).toContainText('Still to be entered');
	await type(page, 'ball_before', '20');
	await expect.poll(said).toBeCloseTo(20 - 2 * drop, 1);

	// The job without it: the address says so, and leads back.
	await openJobMenu(page);
	await page.getByRole('button', { name: 'Start blank' }).click();
	// A reload opens what is kept as open, so it has to be kept first.
	await expect(page.locator('.kept').filter({ visible: true })).toHaveAttribute(
		'data-coming',
		'false',
	);
	await page.goto('/my-hitch/');
	await expect(page.getByRole('heading', { level: 1 })).toHaveText('No such sheet');
	await page.getByRole('link', { name: 'Go to the jobs' }).click();
	await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
});
