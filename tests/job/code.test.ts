/** A link as a code: what is drawn is read again by another program. */
import {
	BinaryBitmap,
	DecodeHintType,
	HybridBinarizer,
	QRCodeReader,
	RGBLuminanceSource,
} from '@zxing/library';
import { expect, test } from 'vitest';
import { codeOf, codePath, mostLetters } from '../../src/lib/job/code.ts';
import { jobFromScenario } from '../../src/lib/job/job.ts';
import { jobAsLink } from '../../src/lib/job/link.ts';
import { shipped } from '../language/shipped.ts';

/** Reads what a path draws, some points a square, as a camera does that stands right before it. */
function read(path: string, squares: number): string {
	const points = 4;
	const side = squares * points;
	const light = new Uint8ClampedArray(side * side).fill(255);
	for (const [, x = '', y = ''] of path.matchAll(/M(\d+) (\d+)h1v1h-1z/g)) {
		for (let row = 0; row < points; row++) {
			const from = (Number(y) * points + row) * side + Number(x) * points;
			light.fill(0, from, from + points);
		}
	}
	const image = new BinaryBitmap(new HybridBinarizer(new RGBLuminanceSource(light, side, side)));
	return new QRCodeReader().decode(image, new Map([[DecodeHintType.PURE_BARCODE, true]])).getText();
}

const address = 'http://localhost:4173/#';

test('what is drawn of the link of a job is that link', async () => {
	for (const scenario of shipped.scenarios) {
		const job = jobFromScenario(shipped, scenario, new Date('2026-11-25'));
		const link = address + (await jobAsLink(job, shipped));
		const code = codeOf(link);
		expect(code && read(codePath(code), code.length)).toBe(link);
	}
});

test('of any length up to the largest, and none beyond', () => {
	for (const length of [30, 500, 1500, mostLetters]) {
		const link = address + 'aZ0-_'.repeat(mostLetters).slice(0, length - address.length);
		const code = codeOf(link);
		expect(code && read(codePath(code), code.length)).toBe(link);
	}
	expect(codeOf('a'.repeat(mostLetters))).toHaveLength(177 + 2 * 4);
	expect(codeOf('a'.repeat(mostLetters + 1))).toBeUndefined();
});
