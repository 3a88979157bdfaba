import { describe, expect, it } from 'vitest';
import { axleFit } from '../../src/lib/mechanics/axle-fit.ts';
import { leafSpring, springMount } from '../../src/lib/mechanics/leaf-spring.ts';
import { shackleAngle } from '../../src/lib/mechanics/shackle.ts';
import { springAtBaseline } from '../../src/lib/mechanics/spring-at-rest.ts';
import { inch } from './accuracy/layouts.ts';
import { drawnTrucks } from './accuracy/spring.ts';
import { shackleRows } from './accuracy/standing.ts';

describe('shackle angle', () => {
	it.each(shackleRows())('$figure: $against', ({ error, held }) => {
		expect(error).toBeLessThanOrEqual(held);
	});

	it('is upright, a quarter turn from level, with the rear eye straight under the pivot', () => {
		const leaf = leafSpring(24 * inch, 30 * inch, 28_000);
		const mount = springMount(54 * inch, 5 * inch, 5 * inch, false);
		const flat = springAtBaseline(leaf, mount, axleFit(true, 0, 0, 0, 0, 0), 0, 0);
		const angle = shackleAngle(mount, flat);
		expect(angle.lean).toBeCloseTo(0, 12);
		expect(angle.fromLevel).toBeCloseTo(Math.PI / 2, 12);
		expect(angle.toChord).toBeCloseTo(Math.PI / 2, 12);
	});

	it('is what a gauge would read between the two eyes', () => {
		for (const { mount, base } of drawnTrucks(8, 3)) {
			const back = mount.pivotX - base.rearEyeX;
			const up = Math.abs(mount.pivotZ - base.rearEyeZ);
			expect(shackleAngle(mount, base).lean).toBeCloseTo(Math.atan(back / up), 12);
			expect(shackleAngle(mount, base).fromLevel).toBeCloseTo(Math.atan2(up, Math.abs(back)), 12);
		}
	});
});
