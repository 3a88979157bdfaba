/**
 * From what tape and gauge read to what they measure. SI; slope positive down toward the rear.
 * Source for repeated readings: JCGM 100:2008 (GUM), 4.2 and annex G.
 */
import { OutOfRange, plain, plainLength, within } from './out-of-range.ts';
import { bracketedRoot } from './root.ts';

/** A magnetic dial gauge repeats to within this, radians: ½° at best, 1° at worst. Common practice, no source. */
export const dialGaugeRepeat = { best: Math.PI / 360, worst: Math.PI / 180 } as const;

/** A tape repeats to within this, m: 1/16 in at best, 1/8 in at worst. Common practice, no source. */
export const tapeRepeat = { best: 0.0254 / 16, worst: 0.0254 / 8 } as const;

/** Length or angle, whichever is read: a kilometre and a thousand radians are past both. */
function checkReadings(readings: readonly number[], least: number): void {
	if (readings.length < least) {
		throw new OutOfRange(
			`There ${readings.length === 1 ? 'is 1 reading' : `are ${readings.length.toString()} readings`}; at least ${least.toString()} ${least === 1 ? 'is' : 'are'} needed. Measure again and add what you read.`,
		);
	}
	for (const reading of readings) within('A reading', reading, -1000, 1000, 'm or rad');
}

/**
 * Mean of repeated readings, in their unit.
 * @throws OutOfRange without a reading
 */
export function meanReading(readings: readonly number[]): number {
	checkReadings(readings, 1);
	// Counted from the first reading, so that equal readings have no spread, to the last bit.
	const first = readings[0] ?? 0;
	return first + readings.reduce((sum, reading) => sum + (reading - first), 0) / readings.length;
}

/**
 * Spread of repeated readings: sample standard deviation, with n − 1. GUM 4.2.2.
 * @throws OutOfRange with fewer than two readings
 */
export function readingSpread(readings: readonly number[]): number {
	checkReadings(readings, 2);
	const mean = meanReading(readings);
	const squares = readings.reduce((sum, reading) => sum + (reading - mean) ** 2, 0);
	return Math.sqrt(squares / (readings.length - 1));
}

/** Share of a Student t distribution within ±t. Abramowitz & Stegun 26.7.3 and 26.7.4. */
function studentWithin(t: number, freedom: number): number {
	const angle = Math.atan(t / Math.sqrt(freedom));
	const cosSquared = Math.cos(angle) ** 2;
	const odd = freedom % 2 === 1;
	let term = odd ? Math.cos(angle) : 1;
	let sum = freedom === 1 ? 0 : term;
	for (let k = odd ? 3 : 2; k <= freedom - 2; k += 2) {
		term *= (cosSquared * (k - 1)) / k;
		sum += term;
	}
	return odd ? (2 / Math.PI) * (angle + Math.sin(angle) * sum) : Math.sin(angle) * sum;
}

/**
 * How many standard uncertainties a small sample's ± takes: Student's t, two-sided. GUM table G.2.
 * @param freedom degrees of freedom, one less than the readings, whole
 * @param coverage share of cases the ± holds, 0.95 unless said otherwise
 */
export function coverageFactor(freedom: number, coverage = 0.95): number {
	within('The number of degrees of freedom', freedom, 1, 10_000, 'readings less one');
	within('The coverage', coverage, 0.01, 0.9999, 'of all cases');
	if (!Number.isInteger(freedom)) {
		throw new OutOfRange(
			`The number of degrees of freedom is ${plain(freedom)}; it is a count of readings less one. Check that entry.`,
		);
	}
	// Solved for the angle whose tangent is t/√ν: it stays within a quarter turn.
	const root = Math.sqrt(freedom);
	const angle = bracketedRoot(
		(x) => studentWithin(root * Math.tan(x), freedom) - coverage,
		0,
		Math.PI / 2 - 1e-9,
		1e-15,
	);
	return root * Math.tan(angle);
}

/** What repeated readings tell, in their unit. */
export interface RepeatedReadings {
	count: number;
	mean: number;
	/** Sample standard deviation of one reading. */
	spread: number;
	/** Standard uncertainty of the mean: spread/√count. */
	standardUncertainty: number;
	/** ± of the mean at the coverage asked for. */
	plusMinus: number;
}

/**
 * Mean, spread and ± of repeated readings. GUM 4.2.3 and G.3. Only what differs between readings is in
 * it; a gauge that is wrong every time is not.
 * @param readings two or more, in one unit
 * @param coverage share of cases the ± holds
 * @throws OutOfRange with fewer than two readings
 */
export function repeatedReadings(readings: readonly number[], coverage = 0.95): RepeatedReadings {
	const spread = readingSpread(readings);
	const count = readings.length;
	const standardUncertainty = spread / Math.sqrt(count);
	return {
		count,
		mean: meanReading(readings),
		spread,
		standardUncertainty,
		plusMinus: coverageFactor(count - 1, coverage) * standardUncertainty,
	};
}

function checkAngle(part: string, angle: number): void {
	within(part, angle, -Math.PI, Math.PI, 'rad');
}

/** A gauge read both ways round, radians. */
export interface GaugeBothWays {
	/** The slope without the gauge's own error. */
	slope: number;
	/** What the gauge reads too much the first way round, and too little the other. */
	zeroError: number;
}

/**
 * A gauge read, turned end for end on the same place, and read again. Its zero error adds once and
 * takes away once.
 * @param firstWay as read, signed by the truck (down toward the rear positive), radians
 * @param turnedRound as read the other way round, signed by the truck too, radians
 */
export function gaugeBothWays(firstWay: number, turnedRound: number): GaugeBothWays {
	checkAngle('The first gauge reading', firstWay);
	checkAngle('The gauge reading turned round', turnedRound);
	return { slope: (firstWay + turnedRound) / 2, zeroError: (firstWay - turnedRound) / 2 };
}

/**
 * Slope of the floor, radians, positive down toward the rear.
 * @param lowerAtRear how much lower the floor is at the rear end than at the front, m
 * @param apart between the two, level, m
 */
export function floorSlope(lowerAtRear: number, apart: number): number {
	within('The fall of the floor', lowerAtRear, -10, 10, 'm');
	within('The distance over which the floor falls', apart, 0.01, 100, 'm');
	return Math.atan2(lowerAtRear, apart);
}

/**
 * Slope against the floor, radians, from a slope against level.
 * @param slope against level, radians
 * @param floor slope of the floor against level, radians, positive down toward the rear
 */
export function slopeToFloor(slope: number, floor: number): number {
	checkAngle('The slope', slope);
	checkAngle('The slope of the floor', floor);
	return slope - floor;
}

/**
 * Slope of a shaft to the floor from two heights on it, radians, positive down toward the rear.
 * @param frontHeight above the floor, m
 * @param rearHeight above the floor, m, at the same place across the shaft (both on top, or both middle)
 * @param apart between the two places, m
 * @param alongFloor true when `apart` was taken along the floor, false when along the shaft
 * @throws OutOfRange when the heights differ by more than the shaft is long
 */
export function slopeOfTwoHeights(
	frontHeight: number,
	rearHeight: number,
	apart: number,
	alongFloor: boolean,
): number {
	within('The front height', frontHeight, -100, 100, 'm');
	within('The rear height', rearHeight, -100, 100, 'm');
	within('The distance between the two heights', apart, 0.01, 100, 'm');
	const fall = frontHeight - rearHeight;
	if (alongFloor) return Math.atan2(fall, apart);
	if (Math.abs(fall) > apart) {
		throw new OutOfRange(
			`The two heights differ by ${plainLength(Math.abs(fall))}, and along the shaft they are only ${plainLength(apart)} apart. Measure them again.`,
		);
	}
	return Math.asin(fall / apart);
}
