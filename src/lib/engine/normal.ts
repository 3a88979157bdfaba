/** The normal distribution, in standard deviations from its middle. */

/** Its density. */
export function normalDensity(z: number): number {
	return Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
}

/** The share between the middle and z, which is not negative (Abramowitz and Stegun, 26.2.11). */
function fromMiddle(z: number): number {
	let term = z;
	let sum = z;
	for (let odd = 3; term > 1e-17 * sum; odd += 2) sum += term *= (z * z) / odd;
	return normalDensity(z) * sum;
}

/** The share that lies further off than z on either side; nought where doubles know none. */
export function normalBeyond(z: number): number {
	return Math.abs(z) > 8 ? 0 : 1 - 2 * fromMiddle(Math.abs(z));
}

/**
 * The number below which a normal value lies in this share of all cases, by Newton's way. The curve only
 * flattens as it goes on from the middle, so no step goes too far.
 * @param share more than 0, less than 1
 */
export function normalQuantile(share: number): number {
	if (share < 0.5) return -normalQuantile(1 - share);
	let z = 0;
	for (let round = 0; round < 100; round++) {
		const step = (share - 0.5 - fromMiddle(z)) / normalDensity(z);
		if (!(step > 1e-15 * z)) break;
		z += step;
	}
	return z;
}
