/**
 * The speed at which a driveshaft's tube whirls: the first bending mode of a uniform tube on pinned
 * ends. Joints, yokes, balance weights and the give of what carries the ends are left out, and all of
 * them lower it. SI: m, Pa, kg/m³, rad/s.
 */
import { OutOfRange, plain, within } from './out-of-range.ts';

/** What a tube is made of. */
export interface TubeMaterial {
	/** Young's modulus along the tube, Pa. */
	modulus: number;
	/** kg/m³ */
	density: number;
}

/**
 * Typical properties (from memory). Metals vary by a few hundredths; a carbon tube by half or double
 * with how its fibres lie, so its maker's figures come first.
 */
export const tubeMaterials = {
	steel: { modulus: 205e9, density: 7850 },
	aluminium: { modulus: 69e9, density: 2700 },
	carbon: { modulus: 100e9, density: 1600 },
} as const satisfies Record<string, TubeMaterial>;

/** Top shaft speed goes to no more than this share of the whirling speed. Common practice, no source. */
export const whirlingShare = 0.75;

/**
 * Typical properties of a tube by its material.
 * @param name steel, aluminium or carbon
 * @throws OutOfRange for another
 */
export function tubeMaterial(name: string): TubeMaterial {
	for (const [known, material] of Object.entries(tubeMaterials)) {
		if (known === name) return { ...material };
	}
	throw new OutOfRange(
		`The tube material is "${name}"; known are ${Object.keys(tubeMaterials).join(', ')}. Choose one of these, or enter modulus and density.`,
	);
}

/** √(EI / ρA) = √(E/ρ · (D² + d²)/16), m²/s. */
function stiffnessToMass(
	outside: number,
	inside: number,
	modulus: number,
	density: number,
): number {
	within('The outside diameter of the tube', outside, 0.005, 1, 'm');
	within('The inside diameter of the tube', inside, 0, 1, 'm');
	if (inside >= outside) {
		throw new OutOfRange(
			`The inside diameter of the tube is ${plain(inside * 1000)} mm and the outside ${plain(outside * 1000)} mm, which leaves no wall. Measure the tube again.`,
		);
	}
	within('The modulus of the tube', modulus / 1e9, 0.1, 2000, 'GPa');
	within('The density of the tube', density, 100, 30_000, 'kg/m³');
	return Math.sqrt(((modulus / density) * (outside * outside + inside * inside)) / 16);
}

/**
 * First whirling speed of a tube on pinned ends, rad/s: (π/L)² √(EI/ρA), which in revolutions is
 * n = (π/2) √(E/ρ · (D² + d²)/16) / L². Coefficient π²: Roark's Formulas for Stress and Strain; Blevins,
 * Formulas for Natural Frequency and Mode Shape.
 * @param length joint centre to joint centre, or to the centre bearing, m
 * @param outside diameter D, m
 * @param inside diameter d, m; 0 for a bar
 * @param modulus E, Pa
 * @param density ρ, kg/m³
 * @throws OutOfRange for a tube with no wall or figures no tube has
 */
export function whirlingSpeed(
	length: number,
	outside: number,
	inside: number,
	modulus: number,
	density: number,
): number {
	within('The tube length', length, 0.05, 20, 'm');
	return (Math.PI / length) ** 2 * stiffnessToMass(outside, inside, modulus, density);
}

/**
 * Longest tube that whirls no sooner than at a wanted speed, m. Other arguments as whirlingSpeed.
 * @param whirling wanted whirling speed, rad/s: top shaft speed over whirlingShare
 */
export function longestTube(
	whirling: number,
	outside: number,
	inside: number,
	modulus: number,
	density: number,
): number {
	within('The wanted whirling speed', (whirling * 30) / Math.PI, 1, 1_000_000, 'rev/min');
	return Math.PI * Math.sqrt(stiffnessToMass(outside, inside, modulus, density) / whirling);
}

/**
 * Margin of the whirling speed over the top shaft speed, as a share of the top speed: 0.33 when it lies
 * a third above; negative when the shaft whirls before it gets there.
 * @param whirling rad/s
 * @param topSpeed of the shaft, rad/s
 * @throws OutOfRange when the top speed is below 1 rev/min
 */
export function whirlingMargin(whirling: number, topSpeed: number): number {
	within('The whirling speed', whirling, 0, 1e7, 'rad/s');
	within('The top shaft speed', (topSpeed * 30) / Math.PI, 1, 100_000, 'rev/min');
	return whirling / topSpeed - 1;
}
