/**
 * The rate of a leaf spring from its leaves. SI.
 *
 * Source: Khurmi & Gupta, Machine Design, leaf springs (from memory). Leaves of one width and
 * thickness, some of them full length and the others graduated, no nip: an eye loaded with F goes
 * δ = 12 F l³ / (E b t³ (2 n_g + 3 n_f)). Exact for graduated leaves only (the triangle) and for full
 * leaves only (the plain beam); between them it takes both to carry their share side by side.
 * Left out: friction between leaves and whatever the clamp does beyond shortening the free span.
 */
import { OutOfRange, within } from './out-of-range.ts';

/** Young's modulus of spring steel, Pa: 206 GPa, EN 13906-1 (from memory). */
export const springSteelModulus = 206e9;

function leaves(part: string, count: number, least: number): void {
	within(part, count, least, 100, 'leaves');
	if (!Number.isInteger(count)) {
		throw new OutOfRange(
			`${part} is ${count.toString()}; leaves are counted whole. Check that entry.`,
		);
	}
}

/** Σ of the leaves as the formula weighs them: 2 for a graduated one, 3 for a full-length one. */
function leafSum(fullLength: number, graduated: number): number {
	leaves('The number of full-length leaves', fullLength, 0);
	leaves('The number of graduated leaves', graduated, 0);
	leaves('The number of all leaves', fullLength + graduated, 1);
	return 2 * graduated + 3 * fullLength;
}

/** Metres an eye goes for each newton on it and each cubic metre of span³. */
function eyeGive(
	width: number,
	thickness: number,
	fullLength: number,
	graduated: number,
	modulus: number,
): number {
	within('The width of the leaves', width, 0.005, 1, 'm');
	within('The thickness of the leaves', thickness, 0.0005, 0.1, 'm');
	within("Young's modulus of the leaves", modulus, 1e9, 1e12, 'Pa');
	return 12 / (modulus * width * Math.pow(thickness, 3) * leafSum(fullLength, graduated));
}

/**
 * Rate of one spring at its seat, N/m. Each eye carries its share of the load and goes by the formula
 * at the head of this file; the seat goes by the two eyes weighed by their distances, which gives
 * k = (a + b) / (c a² b²) with c the give of an eye. For a = b = l that is 2 F / δ.
 * @param front front eye to the edge of the clamp, m
 * @param rear rear eye to the edge of the clamp, m
 * @param width of a leaf, m
 * @param thickness of a leaf, m
 * @param fullLength number of full-length leaves, the main leaf among them
 * @param graduated number of shorter leaves
 * @param modulus Young's modulus, Pa
 */
export function leafPackRate(
	front: number,
	rear: number,
	width: number,
	thickness: number,
	fullLength: number,
	graduated: number,
	modulus: number = springSteelModulus,
): number {
	within('The front half of the span', front, 0.01, 10, 'm');
	within('The rear half of the span', rear, 0.01, 10, 'm');
	const give = eyeGive(width, thickness, fullLength, graduated, modulus);
	return (front + rear) / (give * front * front * rear * rear);
}

/** A spring with leaves taken out. */
export interface LeavesTakenOut {
	/** Rate that is left, N/m. */
	rate: number;
	/** What is left of the rate, as a share of it. */
	share: number;
	/** How much lower the truck stands on it, m. */
	drop: number;
}

/**
 * What taking graduated leaves out does. The arch of the leaves left is taken to stay what it was free;
 * a pack that is drawn together by its clamp (nip) settles otherwise, so it is measured again.
 * @param rate of the whole spring at its seat, N/m
 * @param load on the seat of one spring, N
 * @param fullLength number of full-length leaves
 * @param graduated number of shorter leaves before
 * @param takenOut how many of the shorter leaves go
 * @throws OutOfRange when more are taken out than there are, or none is left
 */
export function leavesTakenOut(
	rate: number,
	load: number,
	fullLength: number,
	graduated: number,
	takenOut: number,
): LeavesTakenOut {
	within('The leaf rate', rate, 1, 1e8, 'N/m');
	within('The load on the spring', load, 0, 1e6, 'N');
	const before = leafSum(fullLength, graduated);
	leaves('The number of leaves taken out', takenOut, 0);
	within('The number of leaves taken out', takenOut, 0, graduated, 'leaves');
	const share = leafSum(fullLength, graduated - takenOut) / before;
	return { rate: rate * share, share, drop: load / (rate * share) - load / rate };
}
