/** The picture of a job that is shown to other people: what it says beside the drawing, and that it is full of it. */
import { describe, expect, test } from 'vitest';
import { OpenJob } from '../../src/lib/desk/open-job.svelte.ts';
import { jobFromScenario, type Job } from '../../src/lib/job/job.ts';
import { pictureText } from '../../src/lib/sheet/picture.ts';
import { sideElevation } from '../../src/lib/trade/drawing/elevation.ts';
import { memoryStore } from '../desk/memory-store.ts';
import { shipped } from '../language/shipped.ts';

const [scenario] = shipped.scenarios;
if (!scenario) throw new Error('the workbook has no scenario');
const invented = jobFromScenario(shipped, scenario, new Date('2026-11-25'));

async function opened(job: Job): Promise<OpenJob> {
	const text = () => Promise.reject(new Error('no page is read here'));
	const drawing = () => Promise.resolve(sideElevation);
	const desk = new OpenJob({ workbook: shipped, hash: 'h', text, drawing }, memoryStore(), job);
	await desk.loadDrawing();
	return desk;
}

/** The words that stand on it. */
const words = (svg: string): string[] =>
	[...svg.matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map(([, text = '']) => text);

describe('a picture to show', () => {
	test('says of an invented truck that it is one, and of nobody else’s', async () => {
		const { scenario: _scenario, ...own } = invented;
		for (const shape of ['wide', 'square'] as const) {
			const said = words(pictureText(await opened(invented), shape, false)).join(' · ');
			expect(said).toContain('An invented truck, no record.');
			expect(said).not.toContain(invented.block.title);
			const desk = await opened({ ...own, block: { ...own.block, title: 'My <truck>' } });
			const ofOwn = words(pictureText(desk, shape, true)).join(' · ');
			expect(ofOwn).not.toContain('nvented');
			expect(ofOwn).toContain('My &lt;truck>');
		}
	});

	test('has a ± at each figure, in each state of the truck', async () => {
		const desk = await opened(invented);
		for (const state of ['plan', 'fitted', 'found'] as const) {
			desk.state = state;
			for (const shape of ['wide', 'square'] as const) {
				const said = words(pictureText(desk, shape, false));
				const from = said.indexOf('Rear drop');
				const figures = said.slice(from);
				expect(figures).toHaveLength(3 * shipped.standing.length);
				for (let at = 0; at < figures.length; at += 3) {
					expect(figures[at + 1], figures[at]).toMatch(/\d/);
					expect(figures[at + 2], figures[at]).toMatch(/^± \d/);
				}
			}
		}
	});

	test('is filled by its drawings, one under the other, each cut at its own edge', async () => {
		const desk = await opened(invented);
		for (const [shape, height, count] of [
			['wide', 630, 1],
			['square', 1080, 2],
		] as const) {
			const svg = pictureText(desk, shape, false);
			const drawings = [...svg.matchAll(/<svg x="\d+" y="(\d+)"[^>]* height="(\d+)"/g)];
			expect(drawings).toHaveLength(count);
			let below = 0;
			for (const [, y, tall] of drawings) {
				expect(Number(y)).toBeGreaterThanOrEqual(below);
				below = Number(y) + Number(tall);
			}
			const drawn = drawings.reduce((sum, [, , tall]) => sum + Number(tall), 0);
			expect(drawn / height).toBeGreaterThan(0.58);
			const ids = [...svg.matchAll(/<clipPath id="([^"]+)"/g)].map(([, id]) => id);
			expect(new Set(ids).size).toBe(count);
		}
	});
});
