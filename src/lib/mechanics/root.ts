/**
 * A root of a continuous function in a bracket, by Brent's method.
 * Source: R. P. Brent, Algorithms for Minimization without Derivatives (1973), chapter 4.
 *
 * @param f the function; must have opposite signs (or a zero) at the two ends
 * @param low one end
 * @param high the other end
 * @param tolerance absolute, on the argument
 * @param atLow the function at the low end where it is known already, and `atHigh` at the high end
 * @returns the argument at the root
 */
export function bracketedRoot(
	f: (x: number) => number,
	low: number,
	high: number,
	tolerance: number,
	atLow = f(low),
	atHigh = f(high),
): number {
	let a = low;
	let b = high;
	let fa = atLow;
	let fb = atHigh;
	if (fa === 0) return a;
	if (fb === 0) return b;
	if (fa > 0 === fb > 0) throw new RangeError('bracketedRoot: both ends have the same sign');
	let c = a;
	let fc = fa;
	let step = b - a;
	let previousStep = step;
	for (let round = 0; round < 200; round++) {
		if (Math.abs(fc) < Math.abs(fb)) {
			[a, b, c] = [b, c, b];
			[fa, fb, fc] = [fb, fc, fb];
		}
		const smallest = 2 * Number.EPSILON * Math.abs(b) + tolerance / 2;
		const half = (c - b) / 2;
		if (Math.abs(half) <= smallest || fb === 0) return b;
		if (Math.abs(previousStep) >= smallest && Math.abs(fa) > Math.abs(fb)) {
			const s = fb / fa;
			let p: number;
			let q: number;
			if (a === c) {
				p = 2 * half * s;
				q = 1 - s;
			} else {
				const r = fb / fc;
				const t = fa / fc;
				p = s * (2 * half * t * (t - r) - (b - a) * (r - 1));
				q = (t - 1) * (r - 1) * (s - 1);
			}
			if (p > 0) q = -q;
			p = Math.abs(p);
			if (2 * p < Math.min(3 * half * q - Math.abs(smallest * q), Math.abs(previousStep * q))) {
				previousStep = step;
				step = p / q;
			} else {
				step = half;
				previousStep = half;
			}
		} else {
			step = half;
			previousStep = half;
		}
		a = b;
		fa = fb;
		b += Math.abs(step) > smallest ? step : half > 0 ? smallest : -smallest;
		fb = f(b);
		if (fb > 0 === fc > 0) {
			c = a;
			fc = fa;
			step = b - a;
			previousStep = step;
		}
	}
	return b;
}
