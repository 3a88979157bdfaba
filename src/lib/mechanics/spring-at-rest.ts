/**
 * The spring at rest: as it was measured, and after a job. The law stands in spring-pose.ts, axes and
 * signs too. SI.
 */
import type { AxleFit, AxlePlace } from './axle-fit.ts';
import {
	archOfCurvature,
	curvatureOfArch,
	greatestBend,
	leafSpring,
	type LeafSpring,
	type SpringMount,
} from './leaf-spring.ts';
import {
	OutOfRange,
	finite,
	plainAngle,
	plainInBoth,
	plainLength,
	positive,
	within,
} from './out-of-range.ts';
import {
	bearingAt,
	bearingOf,
	holds,
	keptPose,
	lastPose,
	poseAt,
	upright,
	type Bearing,
	type Plumb,
	type SpringPlace,
} from './spring-pose.ts';
import { carriesAt, settle } from './spring-search.ts';

/** How the truck stands on the floor after the job. */
export interface Stance {
	/** Axle to axle along the frame, less what was cut out of it, m. */
	wheelbase: number;
	/** Of the frame over the front axle, m, down positive. */
	frontDrop: number;
	/** Of the rear axle over the floor, by a smaller tyre, m, down positive. */
	rearTyreDrop: number;
}

/**
 * How the truck stands on the floor after a job.
 * @param wheelbase axle to axle along the frame, less what was cut out of it, m
 * @param frontDrop of the frame over the front axle, m, down positive
 * @param rearTyreDrop of the rear axle over the floor, by a smaller tyre, m, down positive
 * @throws OutOfRange for what no truck has
 */
export function truckStance(wheelbase: number, frontDrop: number, rearTyreDrop: number): Stance {
	within('The wheelbase', wheelbase, 0.1, 100, 'm');
	within('The front drop', frontDrop, -10, 10, 'm');
	within('The drop of the rear tyre', rearTyreDrop, -10, 10, 'm');
	return { wheelbase, frontDrop, rearTyreDrop };
}

/** The axle on a spring. */
export function axleOf({ axleX, axleZ, axleTurn }: SpringPlace): AxlePlace {
	return { x: axleX, z: axleZ, turn: axleTurn };
}

/** A little more or less bend of the whole leaf, radians: what the load changes by with it. */
const rateBend = 1e-3;

/** Why these parts do not meet, as a sentence; the pose last looked at is the one that failed. */
function cannotBeAssembled(mount: SpringMount): OutOfRange {
	const { chord } = lastPose;
	const { shackleLength } = mount;
	const across = Math.hypot(mount.pivotX - mount.eyeX, mount.pivotZ - mount.eyeZ);
	const parts = `The parts cannot be assembled: from front eye to shackle pivot is ${plainLength(across)}, the leaf reaches ${plainLength(chord)}`;
	if (shackleLength > across + chord) {
		return new OutOfRange(
			`${parts}, together less than a shackle of ${plainLength(shackleLength)}. The shackle is too long by ${plainLength(shackleLength - across - chord)}; check its length.`,
		);
	}
	return new OutOfRange(
		across > chord + shackleLength
			? `${parts} and the shackle ${plainLength(shackleLength)} more. The shackle is too short by ${plainLength(across - chord - shackleLength)}; check the eye-to-pivot distance, the leaf halves and the shackle.`
			: `${parts}, and a shackle of ${plainLength(shackleLength)} cannot make up the difference of ${plainLength(Math.abs(across - chord))}. Check the eye-to-pivot distance, the leaf halves and the shackle.`,
	);
}

/** Why a spring does not stand at this curvature, as a sentence. */
function standsNowhere(
	bearing: Bearing,
	curvature: number,
	difference: number,
): OutOfRange | undefined {
	const { mount } = bearing;
	const found = poseAt(bearing, curvature, difference);
	if (found && lastPose.work < 0) return undefined;
	if (!(lastPose.off >= 0)) return cannotBeAssembled(mount);
	const lean = Math.atan2(
		mount.pivotX - lastPose.rearEyeX,
		mount.stands ? lastPose.rearEyeZ - mount.pivotZ : mount.pivotZ - lastPose.rearEyeZ,
	);
	return new OutOfRange(
		`The shackle leans ${plainAngle(lean)} from upright, in line with the spring seat or past it, so the spring carries no load there. Check the shackle pivot, the shackle length and whether it hangs or stands.`,
	);
}

/**
 * The spring as it was measured before the job: its arch and the load on it give what its curvature would
 * be free. The frame stands level.
 * @param arch of the loaded main leaf at the centre bolt, below the line through the eyes, m
 * @param load of this one spring on its axle, N
 * @throws OutOfRange when the parts do not meet, or the shackle lets the spring carry nothing or give way
 */
export function springAtBaseline(
	leaf: LeafSpring,
	mount: SpringMount,
	fit: AxleFit,
	arch: number,
	load: number,
): SpringPlace {
	checkMeasured(leaf, arch, load);
	return standing(atArch(leaf, mount, fit, arch, load));
}

function checkMeasured(leaf: LeafSpring, arch: number, load: number): void {
	within('The load on the spring', load, 0, 1e6, 'N');
	// An arc of this arch at its middle is found, or refused in words.
	curvatureOfArch(arch, leaf.length);
}

/**
 * The spring bent to its arch under its load; whether it would stay there is another question.
 * @param near one that is nearly the same, to begin at
 */
function atArch(
	leaf: LeafSpring,
	mount: SpringMount,
	fit: AxleFit,
	arch: number,
	load: number,
	near?: SpringPlace,
): SpringPlace {
	const start = near?.curvature ?? (2 * arch) / (leaf.front * leaf.rear);
	const startDifference = near?.difference ?? 0;
	const measured = bearingOf(leaf, mount, fit, 0, upright, load);
	const most = greatestBend / leaf.length;
	if (!settle(measured, 'arch', arch, start, startDifference, -most, most)) {
		throw (
			standsNowhere(measured, start, 0) ??
			new OutOfRange(
				`No leaf on this mount has an arch of ${plainLength(arch)} under ${plainInBoth(load, 'N')}: its shackle does not reach there. Check the arch, the spring load, the leaf rate and the shackle.`,
			)
		);
	}
	const { curvature, work } = lastPose;
	const freeCurvature = curvature - (2 * load * work) / (leaf.stiffness * leaf.length);
	finite('The free curvature of the leaf, from load and rate,', freeCurvature);
	return keptPose(bearingOf(leaf, mount, fit, freeCurvature, upright));
}

/** The same spring by its own load, if it carries that there and does not give way. */
function standing(bent: SpringPlace): SpringPlace {
	// Once more as every later pose is found, so that a change of nothing is nothing to the last bit.
	const bearing = bearingAt(bent);
	const sentence = standsNowhere(bearing, bent.curvature, bent.difference);
	if (sentence) throw sentence;
	const place = keptPose(bearing);
	if (holds(place)) return place;
	throw new OutOfRange(
		`As entered, this spring would give way under its ${plainInBoth(place.load, 'N')} and not carry it; its shackle leans ${plainAngle(place.shackleLean)} from upright. Check the shackle pivot, the shackle length, the arch and the leaf rate.`,
	);
}

/**
 * Rate in place, N/m: load for each metre the axle rises in the frame, on the shackle as it leans there.
 * It is what weights put on and a settling measured show, and up to a tenth off the free beam's.
 * @throws OutOfRange where the spring is on the edge of giving way
 */
export function rateInPlace(place: SpringPlace): number {
	const bearing = bearingAt(place);
	const step = rateBend / place.leaf.length;
	const up = carriesAt(bearing, place.curvature - step, place.difference);
	const loadUp = lastPose.load;
	const heightUp = lastPose.axleZ;
	const down = carriesAt(bearing, place.curvature + step, place.difference);
	const rate = (loadUp - lastPose.load) / (heightUp - lastPose.axleZ);
	if (!up || !down) {
		throw new OutOfRange(
			`The shackle leans ${plainAngle(place.shackleLean)} from upright, at the edge of where this spring carries, so it has no rate there. Check the shackle pivot and the shackle length.`,
		);
	}
	finite('The rate in place, from leaf, shackle and load,', rate);
	return rate;
}

/**
 * The spring as it was measured, its rate found on the truck: weights put on, settling measured. Its leaf is
 * the one for which the rate in place is the rate found.
 * @param front front eye to centre bolt along the leaf, m
 * @param rear centre bolt to rear eye along the leaf, m
 * @param rateFound on the truck, N/m
 * @param arch as in springAtBaseline, and `load`
 * @throws OutOfRange as springAtBaseline, and where no leaf on this mount would show that rate
 */
export function springFromTest(
	front: number,
	rear: number,
	rateFound: number,
	mount: SpringMount,
	fit: AxleFit,
	arch: number,
	load: number,
): SpringPlace {
	positive('The rate found on the truck', rateFound, 'N/m');
	let rate = rateFound;
	let before = NaN;
	let missBefore = NaN;
	let place: SpringPlace | undefined;
	for (let count = 0; count < 30; count++) {
		const leaf = leafSpring(front, rear, rate);
		checkMeasured(leaf, arch, load);
		place = atArch(leaf, mount, fit, arch, load, place);
		const miss = rateInPlace(place) - rateFound;
		if (Math.abs(miss) <= 5e-9 * rateFound) return standing(place);
		// The shackle's part of the rate goes with the load, the rest with the leaf: nearly a straight line.
		const slope = count === 0 ? 1 : (miss - missBefore) / (rate - before);
		before = rate;
		missBefore = miss;
		rate -= miss / slope;
		if (!(rate > rateFound / 10 && rate < rateFound * 10)) break;
	}
	throw new OutOfRange(
		`No leaf on this mount shows a rate of ${plainInBoth(rateFound, 'N/m')} on the truck under ${plainInBoth(load, 'N')}. Check the rate found, the spring load, the arch and the shackle.`,
	);
}

/**
 * The same leaf with a stiffness of so many times its own: a leaf put in or taken out.
 * @param times one for no change
 * @throws OutOfRange when it is no number of times, or the leaf would be stiffer than a number holds
 */
export function leafSpringTimes(leaf: LeafSpring, times: number): LeafSpring {
	within('The leaf rate over what it was', times, 0.01, 100, 'times');
	return leafSpring(leaf.front, leaf.rear, leaf.rate * times);
}

/**
 * The spring after a job: the rest nearest the one before. The frame tips as the axle rises in it and
 * the front goes down, and the weight pushes along the floor's plumb; the turn is found with the pose.
 * @param before the spring as it was measured
 * @param leaf as it is now
 * @param mount as it is now
 * @param fit of the axle now
 * @param freeArchChange of the leaf's sagitta with no load on it, m
 * @param load of this one spring on its axle now, N
 * @param stance how the truck stands on the floor now
 * @returns the pose, and what the axle did. With nothing changed it is `before`, to the last bit.
 * @throws OutOfRange when there is no rest in reach
 */
export function springAfterJob(
	before: SpringPlace,
	leaf: LeafSpring,
	mount: SpringMount,
	fit: AxleFit,
	freeArchChange: number,
	load: number,
	stance: Stance,
): SpringPlace {
	within('The load on the spring', load, 0, 1e6, 'N');
	const freeCurvature = freeCurvatureAfter(before, leaf, freeArchChange);
	const drop = stance.rearTyreDrop - stance.frontDrop - before.axleZ;
	const plumb: Plumb = { drop, follows: 1, base: stance.wheelbase };
	const bearing = bearingOf(leaf, mount, fit, freeCurvature, plumb);
	const { curvature, difference } = before;
	const most = greatestBend / leaf.length;
	if (!settle(bearing, 'load', load, curvature, difference, -most, most)) {
		throw noRest(bearing, before, load);
	}
	const after = keptPose(bearing, before);
	if (!holds(after)) throw noRest(bearing, before, load);
	return after;
}

/** Free curvature of a leaf whose free sagitta was changed, 1/m. */
function freeCurvatureAfter(before: SpringPlace, leaf: LeafSpring, change: number): number {
	finite('The change of the free arch', change);
	if (change === 0) return before.freeCurvature;
	const { freeCurvature } = before;
	return curvatureOfArch(archOfCurvature(freeCurvature, leaf.length) + change, leaf.length);
}

function noRest(bearing: Bearing, before: SpringPlace, load: number): OutOfRange {
	const sentence = standsNowhere(bearing, before.curvature, before.difference);
	if (sentence) return sentence;
	return new OutOfRange(
		`The spring finds no rest under ${plainInBoth(load, 'N')} on this mount: wherever its shackle can reach, it carries ${lastPose.load > load ? 'more' : 'less'} than that. Check the spring load, the leaf rate, the shackle and how far the eyes were moved.`,
	);
}
