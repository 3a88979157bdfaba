import { describe, expect, it } from 'vitest';
import {
	archOfCurvature,
	curvatureOfArch,
	leafSpring,
	springMount,
	springMountMoved,
	windUpStiffness,
} from '../../src/lib/mechanics/leaf-spring.ts';
import { inch, pound } from './accuracy/layouts.ts';
import { sentenceOf } from './refused.ts';

describe('an arc', () => {
	it('has the same arch with the other sign for the other curvature', () => {
		for (const arch of [1e-3, 1e-4, 1e-5, 1e-6, 0.1, 0.3]) {
			const curvature = curvatureOfArch(arch, 1.4);
			expect(curvatureOfArch(-arch, 1.4)).toBeCloseTo(-curvature, 13);
			expect(archOfCurvature(-curvature, 1.4)).toBe(-archOfCurvature(curvature, 1.4));
			expect(archOfCurvature(curvature, 1.4)).toBeCloseTo(arch, 14);
		}
	});
});

describe('wind-up', () => {
	it('is k L² / 4 for even halves', () => {
		// SAE HS-788 (from memory).
		const leaf = leafSpring(0.66, 0.66, 28000);
		expect(windUpStiffness(leaf)).toBeCloseTo((28000 * 1.32 * 1.32) / 4, 8);
	});

	it('is what two clamped cantilevers give on the seat', () => {
		// A turn φ of the seat with its height free: eye forces R and −R, so M = R·L. Each half bends by
		// R l³ / (2 EI) as a uniform-strength cantilever, and both together make φ·L.
		const leaf = leafSpring(0.58, 0.79, 30000);
		const force = 100;
		const bent = (half: number): number => (force * half ** 3) / (2 * leaf.stiffness);
		const turn = (bent(leaf.front) + bent(leaf.rear)) / leaf.length;
		expect((force * leaf.length) / turn / windUpStiffness(leaf)).toBeCloseTo(1, 12);
	});
});

it('names a part and its number for what cannot be measured so', () => {
	const stock = springMount(53.6 * inch, 4.6 * inch, 5 * inch, false);
	expect(sentenceOf(() => leafSpring(-0.6, 0.7, 3e4))).toContain(
		'front half of the leaf is -600 mm (-23.62 in)',
	);
	expect(sentenceOf(() => leafSpring(0.6, 0, 3e4))).toContain('rear half of the leaf is 0 mm');
	expect(sentenceOf(() => leafSpring(0.6, 0.7, -pound / inch))).toContain(
		'leaf rate is -0.1751 N/mm (-1 lbf/in)',
	);
	expect(sentenceOf(() => springMount(1.3, 0.1, 0, false))).toContain('shackle length is 0 mm');
	expect(sentenceOf(() => springMountMoved(stock, 0, 0, 0, 0, -6 * inch))).toContain(
		'shackle length after the change is -25.4 mm (-1 in)',
	);
	expect(sentenceOf(() => curvatureOfArch(0.5, 1.4))).toContain('arch is 500 mm');
});
