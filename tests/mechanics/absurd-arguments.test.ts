/**
 * What every function of the mechanics owes an absurd argument: a finite figure, or an OutOfRange whose
 * sentence has the number in it. Every exported function stands here, which the first test sees to.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as fits from '../../src/lib/mechanics/axle-fit.ts';
import * as clearance from '../../src/lib/mechanics/clearance.ts';
import * as coil from '../../src/lib/mechanics/coil-spring.ts';
import * as driveshaft from '../../src/lib/mechanics/driveshaft.ts';
import * as chains from '../../src/lib/mechanics/joint-chain.ts';
import * as pack from '../../src/lib/mechanics/leaf-pack.ts';
import * as leaves from '../../src/lib/mechanics/leaf-spring.ts';
import * as load from '../../src/lib/mechanics/load.ts';
import * as measuring from '../../src/lib/mechanics/measuring.ts';
import * as payload from '../../src/lib/mechanics/payload.ts';
import * as range from '../../src/lib/mechanics/out-of-range.ts';
import * as shackle from '../../src/lib/mechanics/shackle.ts';
import * as speed from '../../src/lib/mechanics/shaft-speed.ts';
import { shackleRoom } from '../../src/lib/mechanics/shackle-room.ts';
import * as rests from '../../src/lib/mechanics/spring-at-rest.ts';
import * as travel from '../../src/lib/mechanics/spring-travel.ts';
import { springHeld, springWoundUp } from '../../src/lib/mechanics/spring-wind-up.ts';
import * as slip from '../../src/lib/mechanics/slip.ts';
import * as stance from '../../src/lib/mechanics/stance.ts';
import * as joints from '../../src/lib/mechanics/universal-joint.ts';
import * as whirling from '../../src/lib/mechanics/whirling.ts';
import * as windUp from '../../src/lib/mechanics/wind-up.ts';

const absurd = fc.oneof(
	fc.constantFrom(NaN, Infinity, -Infinity, Number.MAX_VALUE, 1e300, -1e300, 1e9, -1e9),
	fc.constantFrom(0, -0, -1, 1e-300, 5e-324),
	fc.double(),
	fc.double({ min: -2, max: 2, noNaN: true }),
	fc.double({ min: 0, max: 1000, noNaN: true }),
);

/** The sane value, one of its own size with either sign, or an absurd one. */
function unlikely(sane: number): fc.Arbitrary<number> {
	const size = sane === 0 ? 1 : Math.abs(sane);
	return fc.oneof(
		{ arbitrary: fc.constant(sane), weight: 3 },
		{ arbitrary: fc.double({ min: -3 * size, max: 3 * size, noNaN: true }), weight: 2 },
		{ arbitrary: absurd, weight: 2 },
	);
}

function expectFinite(value: unknown): void {
	if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true);
	else if (typeof value === 'object' && value !== null) {
		expect(Object.keys(value)).not.toHaveLength(0);
		Object.values(value).forEach(expectFinite);
	} else expect(typeof value).toBe('boolean');
}

/** A call on bare numbers. What is missing is not a number, so that it cannot pass for a sane one. */
type Call = (...numbers: number[]) => unknown;
type Row = readonly [call: Call, ...sane: (readonly number[])[]];

/** A check gives nothing back; what it let through is what it stands for. */
function through(check: (value: number) => void): Call {
	return (value = NaN) => {
		check(value);
		return value;
	};
}

/** A call that also takes a switch, which is on for a first number above zero. */
function switched(call: (on: boolean, ...numbers: number[]) => unknown): Call {
	return (on = NaN, ...numbers) => call(on > 0, ...numbers);
}

/** A spring at its baseline from bare numbers, hanging or standing, over its axle or under. Order as `saneBase`. */
function baseline(stands: boolean, ...numbers: number[]) {
	const [front = NaN, rear = NaN, rate = NaN, toPivot = NaN, up = NaN, ...more] = numbers;
	const [length = NaN, arch = NaN, weight = NaN, over = NaN, height = NaN, pad = NaN] = more;
	const leaf = leaves.leafSpring(front, rear, rate);
	const mount = leaves.springMount(toPivot, stands ? -up : up, length, stands);
	const fit = fits.axleFit(over > 0, height, pad, 0, 0, 0);
	return { leaf, mount, fit, base: rests.springAtBaseline(leaf, mount, fit, arch, weight) };
}
const saneBase = [0.61, 0.76, 28000, 1.36, 0.117, 0.127, 0.09, 3780, 1, 0.08, 0.025] as const;

function chain(...numbers: number[]): chains.JointChain {
	const [first = NaN, second = NaN, third = NaN, secondPlane = NaN, ...more] = numbers;
	const [thirdPlane = NaN, frontPhase = NaN, rearPhase = NaN] = more;
	return { first, second, third, secondPlane, thirdPlane, frontPhase, rearPhase };
}
const saneChain = [0.05, 0.08, 0.06, 0.2, -0.3, 0.4, 0.1] as const;
/** Steep joints, three times as steep as which is near a right angle. */
const steepChain = [0.5, 0.45, 0.3, 0.9, -0.7, 0.6, 0.5] as const;
const [, ...behindFirst] = steepChain;
const saneLine = [0.09, 0, 0.12, 0.02, 0.1, 0.03, 0.08, 0] as const;

const rows: Record<string, Row> = {
	// axle-fit
	axleFit: [
		switched((over, ...numbers) => {
			const [height = NaN, pad = NaN, block = NaN, wedge = NaN, thickness = NaN] = numbers;
			return fits.axleFit(over, height, pad, block, wedge, thickness);
		}),
		[1, 0.08, 0.025, 0.05, 0.05, 0.01],
	],
	wedgeAtBolt: [fits.wedgeAtBolt, [0.1, 0.13, 0.002]],
	// spring-at-rest
	springAtBaseline: [
		switched((stands, ...spring) => baseline(stands, ...spring).base),
		[0, ...saneBase],
		[1, ...saneBase],
	],
	rateInPlace: [
		switched((stands, ...spring) => rests.rateInPlace(baseline(stands, ...spring).base)),
		[1, ...saneBase],
	],
	springFromTest: [
		switched((stands, rate = NaN, arch = NaN, load = NaN, ...spring) => {
			const { leaf, mount, fit } = baseline(stands, ...spring);
			return rests.springFromTest(leaf.front, leaf.rear, rate, mount, fit, arch, load);
		}),
		[1, 27000, 0.08, 3700, ...saneBase],
	],
	leafSpringTimes: [
		(times = NaN, rate = NaN) => rests.leafSpringTimes(leaves.leafSpring(0.61, 0.76, rate), times),
		[1.2, 28000],
	],
	truckStance: [rests.truckStance, [2.9, 0.05, 0.01]],
	axleOf: [
		switched((stands, ...spring) => rests.axleOf(baseline(stands, ...spring).base)),
		[1, ...saneBase],
	],
	springAfterJob: [
		switched((stands, ...numbers) => {
			const [up = NaN, forward = NaN, raise = NaN, back = NaN, longer = NaN, ...rest] = numbers;
			const [times = NaN, arch = NaN, load = NaN, wheelbase = NaN, ...more] = rest;
			const [frontDrop = NaN, rearTyreDrop = NaN, ...spring] = more;
			const { leaf, mount, fit, base } = baseline(stands, ...spring);
			return rests.springAfterJob(
				base,
				rests.leafSpringTimes(leaf, times),
				leaves.springMountMoved(mount, up, forward, raise, back, longer),
				fit,
				arch,
				load,
				{ wheelbase, frontDrop, rearTyreDrop },
			);
		}),
		[1, 0.1, 0.01, 0.03, 0.01, 0.02, 1.1, 0.01, 3900, 3, 0.05, 0.01, ...saneBase],
		[0, 0.1, 0.01, 0.03, 0.01, 0.02, 1.1, 0.01, 3900, 3, 0.05, 0.01, ...saneBase],
	],
	// spring-travel, shackle-room, spring-wind-up
	springAtRise: [
		switched((stands, rise = NaN, ...spring) =>
			travel.springAtRise(baseline(stands, ...spring).base, rise),
		),
		[1, 0.08, ...saneBase],
		[0, -0.05, ...saneBase],
	],
	droopEnd: [
		switched((stands, weight = NaN, ...spring) =>
			travel.droopEnd(baseline(stands, ...spring).base, weight),
		),
		[1, 400, ...saneBase],
		[0, 400, ...saneBase],
	],
	shackleRoom: [
		switched((stands, ...spring) => shackleRoom(baseline(stands, ...spring).base)),
		[1, ...saneBase],
		[0, ...saneBase],
	],
	springWoundUp: [
		switched((stands, torque = NaN, radius = NaN, ...spring) =>
			springWoundUp(baseline(stands, ...spring).base, torque, radius),
		),
		[1, 1500, 0.36, ...saneBase],
	],
	springHeld: [
		switched((stands, ...numbers) => {
			const [torque = NaN, radius = NaN, ahead = NaN, gap = NaN, rate = NaN, ...more] = numbers;
			const [bothWays = NaN, ...spring] = more;
			const { base } = baseline(stands, ...spring);
			return springHeld(base, torque, radius, ahead, gap, rate, bothWays > 0);
		}),
		[1, 1500, 0.36, 0.5, 0.006, 350_000, 0, ...saneBase],
		[0, 1500, 0.36, 1.1, 0, 3e6, 1, ...saneBase],
	],
	// clearance
	roomAboveAxle: [clearance.roomAboveAxle, [0.1, 0.15, 0.05, 0.02, 0.05]],
	placeOnAxle: [
		(x = NaN, z = NaN, turn = NaN, ahead = NaN, above = NaN) =>
			clearance.placeOnAxle({ x, z, turn }, ahead, above),
		[-1.2, -0.3, 0.1, 0.1, 0.05],
	],
	shaftRise: [
		(...numbers) => {
			const [x = NaN, z = NaN, length = NaN, slope = NaN, ...more] = numbers;
			const [toX = NaN, toZ = NaN, toLength = NaN, toSlope = NaN, ahead = NaN] = more;
			const [before, after] = [
				{ length, slope },
				{ length: toLength, slope: toSlope },
			];
			return clearance.shaftRise({ x, z }, before, { x: toX, z: toZ }, after, ahead);
		},
		[-0.4, -0.1, 1.4, 0.12, -0.38, -0.03, 1.38, 0.08, 0.4],
	],
	notchRoom: [clearance.notchRoom, [0.28, 0.01, 0.07, 0.02]],
	mountToMount: [clearance.mountToMount, [0.1, 0.1, 0.4]],
	shockStroke: [clearance.shockStroke, [0.4, 0.35, 0.5, 0.3, 0.55]],
	shockOverTravel: [clearance.shockOverTravel, [0, 0.1, 0.4, 0.08, 0.1, 0.3, 0.55]],
	shockMotionRatio: [clearance.shockMotionRatio, [0, 0.1, 0.4]],
	tyreToFender: [clearance.tyreToFender, [0.8, 0.34, 0.36, 0]],
	hoseSlack: [clearance.hoseSlack, [0.5, 0.1, 0.1, 0.2, 0.1]],
	// coil-spring
	coilRate: [coil.coilRate, [0.016, 0.13, 8, 81.5e9]],
	trimmedCoilRate: [coil.trimmedCoilRate, [60_000, 8, 1]],
	trimmedCoilFreeLength: [coil.trimmedCoilFreeLength, [0.4, 8, 1, 0.016]],
	coilSolidLength: [
		switched((ground, wire = NaN, all = NaN) => coil.coilSolidLength(wire, all, ground)),
		[1, 0.016, 9],
	],
	armMotionRatio: [coil.armMotionRatio, [0.22, 0.38, 0.1]],
	wheelRate: [coil.wheelRate, [60_000, 0.58]],
	coilLengthAtRide: [coil.coilLengthAtRide, [0.4, 60_000, 5000, 0.58]],
	coilDrop: [coil.coilDrop, [0.26, 0.24, 0.58]],
	coilSpacerRise: [coil.coilSpacerRise, [0.02, 0.58]],
	travelToCoilBind: [coil.travelToCoilBind, [0.26, 0.16, 0.58]],
	naturalFrequency: [coil.naturalFrequency, [20_000, 400]],
	coilsThere: [switched((on) => coil.coilsThere(on)), [1]],
	beamCamber: [coil.beamCamber, [0.05, 0.86]],
	// driveshaft
	transmissionShimmed: [
		(x = NaN, z = NaN, slope = NaN, joint = NaN, shim = NaN, engine = NaN) =>
			driveshaft.transmissionShimmed({ x, z }, slope, joint, shim, engine),
		[0.2, -0.1, 0.09, 0.9, 0.01, 0.8],
	],
	pinionJoint: [
		(x = NaN, z = NaN, reach = NaN, rise = NaN, slope = NaN) =>
			driveshaft.pinionJoint({ x, z, turn: 0 }, reach, rise, slope),
		[-0.7, -0.1, 0.3, -0.04, 0.09],
	],
	transmissionJoint: [
		(x = NaN, z = NaN, length = NaN, slope = NaN) =>
			driveshaft.transmissionJoint({ x, z }, length, slope),
		[-0.4, -0.1, 1.5, 0.12],
	],
	jointMoved: [
		(x = NaN, z = NaN, forward = NaN, up = NaN) => driveshaft.jointMoved({ x, z }, forward, up),
		[-0.4, -0.1, 0.05, 0.02],
	],
	driveshaftBetween: [
		(x = NaN, z = NaN, pinionX = NaN, pinionZ = NaN) =>
			driveshaft.driveshaftBetween({ x, z }, { x: pinionX, z: pinionZ }),
		[1, 0.1, -0.4, -0.1],
	],
	// joint-chain
	planarPair: [chains.planarPair, [0.05, -0.08, 0.1]],
	planarThree: [chains.planarThree, [0.05, -0.08, 0.06, 0.1, -0.2]],
	cancellingPinionSlope: [
		switched((intersecting, transmission = NaN, shaft = NaN) =>
			chains.cancellingPinionSlope(transmission, shaft, intersecting),
		),
		[1, 0.09, 0.12],
	],
	shaftPlanFromOffset: [chains.shaftPlanFromOffset, [0.1, 1.4, 0.12]],
	pairInSpace: [
		(a = NaN, b = NaN, c = NaN, d = NaN, e = NaN, f = NaN, phase = NaN) => {
			const pair = chains.pairInSpace(a, b, c, d, e, f, phase);
			return { pair, ripple: chains.chainRipple(pair, 100) };
		},
		[...saneLine.slice(0, 6), 0.3],
	],
	threeInSpace: [
		(...numbers) => {
			const [a = NaN, b = NaN, c = NaN, d = NaN, e = NaN, f = NaN, g = NaN, ...more] = numbers;
			const [h = NaN, front = NaN, rear = NaN] = more;
			const three = chains.threeInSpace(a, b, c, d, e, f, g, h, front, rear);
			return { three, ripple: chains.chainRipple(three, 100) };
		},
		[...saneLine, 0.3, -0.2],
		[0.5, 0.3, -0.5, -0.2, 0.6, 0.2, -0.4, 0.1, 1, -1],
	],
	chainSpeedRatio: [
		(rotation = NaN, ...numbers) => chains.chainSpeedRatio(chain(...numbers), rotation),
		[1, ...saneChain],
		[1, ...steepChain],
	],
	chainAcceleration: [
		(rotation = NaN, turning = NaN, ...numbers) =>
			chains.chainAcceleration(chain(...numbers), rotation, turning),
		[1, 300, ...saneChain],
		[1, 300, ...steepChain],
	],
	chainRipple: [
		(turning = NaN, ...numbers) => chains.chainRipple(chain(...numbers), turning),
		[300, ...saneChain],
		[300, ...steepChain],
	],
	frontShaftAcceleration: [
		(turning = NaN, ...numbers) => chains.frontShaftAcceleration(chain(...numbers), turning),
		[300, ...saneChain],
		[300, ...steepChain],
	],
	rearShaftAcceleration: [
		(turning = NaN, ...numbers) => chains.rearShaftAcceleration(chain(...numbers), turning),
		[300, ...saneChain],
		[300, ...steepChain],
	],
	bestRearPhase: [
		(...numbers) => chains.bestRearPhase(chain(...numbers)),
		saneChain,
		steepChain,
		[0, ...behindFirst],
	],
	bestYokePhases: [
		(...numbers) => chains.bestYokePhases(chain(...numbers)),
		saneChain,
		steepChain,
		[0, ...behindFirst],
	],
	// leaf-pack
	leafPackRate: [pack.leafPackRate, [0.6, 0.75, 0.0635, 0.008, 1, 4, 206e9]],
	leavesTakenOut: [pack.leavesTakenOut, [28_000, 3800, 1, 4, 1]],
	// leaf-spring
	leafSpring: [leaves.leafSpring, [0.6, 0.7, 3e4]],
	windUpStiffness: [
		(a = NaN, b = NaN, k = NaN) => leaves.windUpStiffness(leaves.leafSpring(a, b, k)),
		[0.6, 0.7, 3e4],
	],
	springMount: [
		switched((stands, x = NaN, z = NaN, s = NaN) => leaves.springMount(x, z, s, stands)),
		[1, 1.3, -0.1, 0.1],
	],
	springMountMoved: [
		(x = NaN, z = NaN, s = NaN, ...by) => {
			const [eyeUp = NaN, eyeOn = NaN, pivotUp = NaN, pivotOn = NaN, longer = NaN] = by;
			const mount = leaves.springMount(x, z, s, false);
			return leaves.springMountMoved(mount, eyeUp, eyeOn, pivotUp, pivotOn, longer);
		},
		[1.3, 0.1, 0.1, 0.1, 0, 0.05, 0, 0.02],
	],
	archOfCurvature: [leaves.archOfCurvature, [0.3, 1.4]],
	curvatureOfArch: [leaves.curvatureOfArch, [0.09, 1.4]],
	// load
	axleLoads: [load.axleLoads, [1000, -0.6, 3]],
	springOnTyreRate: [load.springOnTyreRate, [28_000, 210_000]],
	settling: [load.settling, [1000, 0.4, 3, 28_000, 210_000, 30_000, 220_000]],
	shareOfChange: [load.shareOfChange, [0.01, 0.05]],
	// measuring
	meanReading: [(...readings) => measuring.meanReading(readings), [0.1, 0.11, 0.09]],
	readingSpread: [(...readings) => measuring.readingSpread(readings), [0.1, 0.11, 0.09]],
	coverageFactor: [measuring.coverageFactor, [4, 0.95]],
	repeatedReadings: [
		(coverage = NaN, ...readings) => measuring.repeatedReadings(readings, coverage),
		[0.95, 0.1, 0.11, 0.09, 0.1],
	],
	gaugeBothWays: [measuring.gaugeBothWays, [0.1, 0.09]],
	floorSlope: [measuring.floorSlope, [0.03, 3]],
	slopeToFloor: [measuring.slopeToFloor, [0.1, 0.01]],
	slopeOfTwoHeights: [
		switched((alongFloor, front = NaN, rear = NaN, apart = NaN) =>
			measuring.slopeOfTwoHeights(front, rear, apart, alongFloor),
		),
		[1, 0.5, 0.4, 1.4],
	],
	// out-of-range
	within: [through((value) => range.within('The shackle', value, 0.01, 0.5, 'm')), [0.1]],
	positive: [through((value) => range.positive('The shackle', value, 'm')), [0.1]],
	finite: [through((value) => range.finite('The shackle', value)), [0.1]],
	// payload
	tyreLoadOfIndex: [payload.tyreLoadOfIndex, [98]],
	payloadLeft: [payload.payloadLeft, [4500, 3800, 0.2, 2.9]],
	// shackle
	shackleAngle: [
		switched((stands, ...spring) => {
			const { mount, base } = baseline(stands, ...spring);
			return shackle.shackleAngle(mount, base);
		}),
		[1, ...saneBase],
	],
	// shaft-speed
	driveshaftSpeed: [speed.driveshaftSpeed, [27, 0.35, 3.55]],
	roadSpeedOfShaft: [speed.roadSpeedOfShaft, [300, 0.35, 3.55]],
	engineSpeed: [speed.engineSpeed, [300, 0.7]],
	driveshaftSpeedFromEngine: [speed.driveshaftSpeedFromEngine, [300, 0.7]],
	largestAngle: [speed.largestAngle, [300, 1000]],
	ruleOfThumbAngle: [speed.ruleOfThumbAngle, [300]],
	roadSpeedLimit: [speed.roadSpeedLimit, [0.07, 0.35, 3.55, 1000]],
	relativeJointLife: [speed.relativeJointLife, [0.05, 300, 0.07, 330, 1.2]],
	// slip
	slipLeft: [slip.slipLeft, [1.4, 0.1, 0.04, 1.4, 1.41, 1.38]],
	shaftOrder: [slip.shaftOrder, [1.4, 1.41, 1.38, 0.006, 0.025, 0.025]],
	// stance
	frameTurn: [stance.frameTurn, [0.05, 0.1, 3]],
	rearDropForTurn: [stance.rearDropForTurn, [0.02, 0, 3]],
	turnOfHeights: [stance.turnOfHeights, [0.6, 0.55, 3]],
	rearDropToLevel: [stance.rearDropToLevel, [0.6, 0.65, 2, 3]],
	headlampRise: [stance.headlampRise, [0.02, 7.62]],
	wheelbaseAfter: [stance.wheelbaseAfter, [3, 0.01, 0.1]],
	tyreInOpening: [stance.tyreInOpening, [0.1, 0.1, 0.02]],
	tyreDesignDiameter: [stance.tyreDesignDiameter, [0.205, 0.55, 0.4064]],
	axleSquare: [stance.axleSquare, [3, 2.99, 1.45, 1.05]],
	// universal-joint
	operatingAngle: [joints.operatingAngle, [0.1, 0.2, 0, 0], [0.1, 0.2, 0.05, -0.1]],
	shaftDirection: [joints.shaftDirection, [0.1, 0.05]],
	checkDirection: [through(joints.checkDirection), [0.1]],
	checkAngle: [through(joints.checkAngle), [0.1]],
	checkShaftSpeed: [through(joints.checkShaftSpeed), [300]],
	jointSpeedRatio: [joints.jointSpeedRatio, [0.1, 1], [0.8, 1]],
	jointAcceleration: [joints.jointAcceleration, [0.1, 1, 300], [0.8, 1, 300]],
	rotationOfGreatestAcceleration: [joints.rotationOfGreatestAcceleration, [0.1], [0.8]],
	greatestJointAcceleration: [joints.greatestJointAcceleration, [0.1, 300], [0.8, 300]],
	jointRotation: [joints.jointRotation, [0.1, 1], [0.8, 1]],
	pairSpeedRatio: [joints.pairSpeedRatio, [0.1, 0.12, 1, 0], [0.8, 0.7, 1, 1]],
	pairSpeedRange: [joints.pairSpeedRange, [0.1, 0.12, 0], [0.8, 0.7, 1]],
	angleOfFluctuation: [joints.angleOfFluctuation, [0.08]],
	// whirling
	whirlingSpeed: [whirling.whirlingSpeed, [1.5, 0.09, 0.086, 205e9, 7850]],
	longestTube: [whirling.longestTube, [600, 0.09, 0.086, 205e9, 7850]],
	whirlingMargin: [whirling.whirlingMargin, [600, 450]],
	// wind-up
	roadLoadTorque: [windUp.roadLoadTorque, [1800, 30, 0.35, 0.012, 1.2, 1.225, 0.05]],
	axleLoadPulling: [windUp.axleLoadPulling, [7000, 0.9, 0.65, 3]],
	gripTorque: [windUp.gripTorque, [7000, 0.9, 0.35]],
	engineWheelTorque: [windUp.engineWheelTorque, [300, 3, 3.55, 0.9]],
	hardestTorque: [windUp.hardestTorque, [2200, 2900]],
};

/**
 * Left out: the solver of the springs, whose callers answer for it; words and numbers in words; a tube
 * material, which is asked for by name; bracketedRoot, whose caller answers for its bracket: none of these
 * rows may let its RangeError through.
 */
const leftOut = [
	'OutOfRange',
	'bearingAt',
	'bearingOf',
	'bracketedRoot',
	'carriesAt',
	'chordAt',
	'holds',
	'keptPose',
	'plain',
	'plainAngle',
	'plainInBoth',
	'plainLength',
	'poseAt',
	'poseAtChord',
	'settle',
	'settleQuickly',
	'tubeMaterial',
];

it('has a row for every function the mechanics export', () => {
	const files = import.meta.glob<Record<string, unknown>>('../../src/lib/mechanics/*.ts', {
		eager: true,
	});
	const exported = Object.values(files).flatMap((file) =>
		Object.keys(file).filter((name) => typeof file[name] === 'function'),
	);
	expect([...Object.keys(rows), ...leftOut].sort()).toEqual(exported.sort());
});

describe('absurd arguments', () => {
	it.each(Object.entries(rows))('give %s a finite figure or a sentence', (_name, row) => {
		const [call, ...sanes] = row;
		for (const sane of sanes) {
			expectFinite(call(...sane));
			fc.assert(
				fc.property(fc.tuple(...sane.map(unlikely)), (numbers: number[]) => {
					let result: unknown;
					try {
						result = call(...numbers);
					} catch (cause) {
						expect(cause).toBeInstanceOf(range.OutOfRange);
						expect((cause as range.OutOfRange).message).toMatch(
							/^[A-Z].*(\d|NaN|Infinity|not a finite number).*\.$/,
						);
						return;
					}
					expectFinite(result);
				}),
				{ numRuns: 1000 },
			);
		}
	});
});
