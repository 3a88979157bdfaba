/** The pose in which a spring carries a load, holds its axle at a height, or has an arch. SI. */
import { greatestBend } from './leaf-spring.ts';
import { lastPose, poseAt, type Bearing } from './spring-pose.ts';
import { bracketedRoot } from './root.ts';

/** Which number of a pose is looked for. */
export type Wanted = 'load' | 'axleZ' | 'arch';

/** How near a load must come, as a share of rate times length, and a height or an arch, of the length. */
const nearEnough = 1e-10;
/** How near the start must be to be the answer already: nothing changed but rounding. */
const nothing = 1e-12;
/** Near a lock the load is so steep that rounding leaves so many times more. */
const roughlyEnough = 1e3;
/** Most steps of the quick way, and the longest of them, as a bend of the whole leaf, radians. */
const mostSteps = 16;
const longestStep = 0.5;
/** A step of the long way, as a bend of the whole leaf: an eighth of an inch of arch or so. */
const searchBend = greatestBend / 100;

/** True where the pose last looked at stands and carries. */
export function carriesAt(bearing: Bearing, curvature: number, start: number): boolean {
	return poseAt(bearing, curvature, start) && lastPose.work < 0;
}

/** What the pose last looked at has too much of. All three are made to fall with more curvature. */
function excess(wanted: Wanted, target: number): number {
	if (wanted === 'load') return lastPose.load - target;
	if (wanted === 'axleZ') return lastPose.axleZ - target;
	return target - lastPose.arch;
}

/** What a little more curvature changes the number by, nearly. */
function slopeGuess(bearing: Bearing, wanted: Wanted): number {
	const { leaf } = bearing;
	if (wanted === 'load') return (leaf.stiffness * leaf.length) / (2 * lastPose.work);
	return wanted === 'axleZ' ? lastPose.work : (-leaf.front * leaf.rear) / 2;
}

/**
 * The pose nearest a start in which the wanted number is the target, on a stretch where more curvature
 * gives less load, a lower axle, more arch; left in `lastPose`.
 * @param curvature where to begin; kept to the last bit where it is the answer already
 * @param difference of a pose there
 * @param low least curvature that may be looked at, and `high` the greatest
 * @returns false where there is none in reach
 */
export function settle(
	bearing: Bearing,
	wanted: Wanted,
	target: number,
	curvature: number,
	difference: number,
	low: number,
	high: number,
): boolean {
	return (
		settleQuickly(bearing, wanted, target, curvature, difference, low, high) ||
		settleBySearch(bearing, wanted, target, curvature, difference, low, high)
	);
}

/**
 * The quick way of `settle`, by secant: true only where every pose on the way stood, and each had less of
 * what the one before had too much of. A step that leads to no pose is taken back by half.
 */
export function settleQuickly(
	bearing: Bearing,
	wanted: Wanted,
	target: number,
	start: number,
	startDifference: number,
	low: number,
	high: number,
): boolean {
	const { leaf } = bearing;
	const size = leaf.length * (wanted === 'load' ? leaf.rate : 1);
	const longest = longestStep / leaf.length;
	let curvature = start;
	let difference = startDifference;
	let differenceHere = NaN;
	let before = NaN;
	let left = NaN;
	for (let count = 0; count < mostSteps; count++) {
		if (!carriesAt(bearing, curvature, difference)) {
			if (count === 0) return false;
			curvature = (before + curvature) / 2;
			difference = differenceHere;
			continue;
		}
		const differenceBefore = differenceHere;
		differenceHere = lastPose.difference;
		const leftBefore = left;
		left = excess(wanted, target);
		if (Math.abs(left) <= size * (count === 0 ? nothing : nearEnough)) return true;
		const slope =
			count === 0 ? slopeGuess(bearing, wanted) : (left - leftBefore) / (curvature - before);
		if (!(slope < 0)) return false;
		const next = curvature + Math.max(-longest, Math.min(longest, -left / slope));
		if (next === curvature) return true;
		if (!(next >= low && next <= high)) return false;
		// The difference there as the last two poses have it.
		difference = differenceHere;
		if (count > 0) {
			difference +=
				((differenceHere - differenceBefore) * (next - curvature)) / (curvature - before);
		}
		before = curvature;
		curvature = next;
	}
	return false;
}

/** By small steps to both sides of the start, whichever comes first, and then in the bracket found. */
function settleBySearch(
	bearing: Bearing,
	wanted: Wanted,
	target: number,
	start: number,
	startDifference: number,
	low: number,
	high: number,
): boolean {
	const { leaf } = bearing;
	const left = (curvature: number, difference: number): number =>
		carriesAt(bearing, curvature, difference) ? excess(wanted, target) : NaN;
	const step = searchBend / leaf.length;
	const enough = nearEnough * leaf.length * (wanted === 'load' ? leaf.rate : 1);
	const first = left(start, startDifference);
	const difference = Number.isNaN(first) ? startDifference : lastPose.difference;
	const sides = [-1, 1].map((direction) => ({
		step: direction * step,
		near: start,
		left: first,
		difference,
	}));
	while (sides.some((side) => side.step !== 0)) {
		for (const side of sides) {
			const { near, left: leftNear, difference: differenceNear } = side;
			const curvature = near + side.step;
			if (!(curvature >= low && curvature <= high)) side.step = 0;
			if (side.step === 0) continue;
			const here = left(curvature, differenceNear);
			// Up to the edge of where the parts meet, in smaller steps; beyond it lies a rest the spring could
			// never move to. Where it does not stand at all yet, on to where it does.
			if (Number.isNaN(here) && !Number.isNaN(leftNear)) {
				side.step = Math.abs(side.step) > step / 1000 ? side.step / 2 : 0;
				continue;
			}
			side.near = curvature;
			side.left = here;
			if (!Number.isNaN(here)) side.difference = lastPose.difference;
			// Where it begins to stand within the step it may come to rest before its end: back toward there.
			const begins = Number.isNaN(leftNear) && side.step * here < 0;
			const leftAt = (x: number): number => left(x, side.difference);
			const [from, leftFrom] = begins
				? whereItStands(leftAt, near, curvature, here, step / 1000)
				: [near, leftNear];
			const [lower, upper] = side.step > 0 ? [leftFrom, here] : [here, leftFrom];
			// The other way round the spring would snap away from there.
			if (!(lower >= 0 && upper <= 0)) continue;
			const differenceFrom = Number.isNaN(leftNear) ? side.difference : differenceNear;
			const found = bracketedRoot((x) => left(x, differenceFrom), from, curvature, 1e-15);
			// Where no pose stood on the way the search in the bracket went astray.
			return Math.abs(left(found, differenceFrom)) <= roughlyEnough * enough;
		}
	}
	return false;
}

/**
 * Between where a spring does not stand and where it does, back to where what is left has changed its sign
 * or the spring begins to stand.
 * @param left what is left at a curvature; NaN where it does not stand
 * @param from where it does not stand
 * @param to where it stands, with `here` left
 * @param least so near is near enough
 * @returns the curvature, and what is left there
 */
function whereItStands(
	left: (curvature: number) => number,
	from: number,
	to: number,
	here: number,
	least: number,
): readonly [curvature: number, left: number] {
	while (Math.abs(to - from) > least) {
		const between = (from + to) / 2;
		const leftBetween = left(between);
		if (Number.isNaN(leftBetween)) from = between;
		else if (leftBetween * here <= 0) return [between, leftBetween];
		else to = between;
	}
	return [from, NaN];
}
