/**
 * The accuracy of the spring on its shackle, and of axle and shaft with it: the largest errors against
 * the reference layouts of the design and against the large-deflection leaf. The tests hold the rows,
 * the table shows them.
 */
import { axleOnSeat, springAtAxleRise } from '../../../src/lib/mechanics/axle.ts';
import {
	driveshaftBetween,
	pinionJoint,
	transmissionJoint,
} from '../../../src/lib/mechanics/driveshaft.ts';
import {
	leafSpring,
	springAtArch,
	springAtLoad,
	springMount,
	springMountMoved,
	windUpStiffness,
	type SpringPose,
} from '../../../src/lib/mechanics/leaf-spring.ts';
import { frameTurn } from '../../../src/lib/mechanics/stance.ts';
import { operatingAngle } from '../../../src/lib/mechanics/universal-joint.ts';
import { taperedLeaf, taperedLeafAtArch, taperedLeafAtLoad } from '../large-deflection-leaf.ts';
import type { AccuracyRow } from './row.ts';

// NIST SP 811.
export const inch = 0.0254;
export const pound = 4.4482216152605;
export const degree = Math.PI / 180;

/** A spring as it is measured before the job: inches, pounds, pounds an inch. */
export interface Layout {
	front: number;
	rear: number;
	rate: number;
	arch: number;
	eyeToPivot: number;
	pivotUp: number;
	shackleLength: number;
	stands: boolean;
	load: number;
}

/** What is done to a spring: inches and pounds. */
export interface Change {
	eyeRaise?: number;
	eyeForward?: number;
	pivotRaise?: number;
	pivotForward?: number;
	shackleLonger?: number;
	loadChange?: number;
}

/** The rest of the truck: inches, degrees. */
export interface Truck {
	layout: Layout;
	seatToAxle: number;
	pinionReach: number;
	pinionRise: number;
	wheelbase: number;
	transSlope: number;
	pinionSlope: number;
	shaftSlope: number;
	shaftLength: number;
}

/** Leaf, mount and rest of a layout, SI. */
export function springOf(layout: Layout) {
	const leaf = leafSpring(layout.front * inch, layout.rear * inch, (layout.rate * pound) / inch);
	const mount = springMount(
		layout.eyeToPivot * inch,
		layout.pivotUp * inch,
		layout.shackleLength * inch,
		layout.stands,
	);
	return { leaf, mount, rest: springAtArch(leaf, mount, layout.arch * inch, layout.load * pound) };
}

/** The same spring after a change. */
export function springAfterJob(layout: Layout, change: Change) {
	const { leaf, mount, rest } = springOf(layout);
	const moved = springMountMoved(
		mount,
		(change.eyeRaise ?? 0) * inch,
		(change.eyeForward ?? 0) * inch,
		(change.pivotRaise ?? 0) * inch,
		(change.pivotForward ?? 0) * inch,
		(change.shackleLonger ?? 0) * inch,
	);
	const load = layout.load + (change.loadChange ?? 0);
	return { leaf, mount: moved, rest: springAtLoad(leaf, moved, rest, load * pound) };
}

/**
 * The figures of a job, as the design composes them, and in bump and droop. Inches and degrees, drops
 * positive down, wedge positive nose-up.
 */
export function figuresOfJob(
	truck: Truck,
	change: Change,
	wedge = 0,
	frontDrop = 0,
	travel: readonly number[] = [],
) {
	const stock = springOf(truck.layout);
	const after = springAfterJob(truck.layout, change);
	const pinionAt = (pose: SpringPose, wedgeNow: number) => {
		const axle = axleOnSeat(pose, truck.seatToAxle * inch, wedgeNow);
		const slope = truck.pinionSlope * degree + axle.turn - stock.rest.seatTurn;
		const joint = pinionJoint(axle, truck.pinionReach * inch, truck.pinionRise * inch, slope);
		return { axle, slope, joint };
	};
	const before = pinionAt(stock.rest, 0);
	const transmission = transmissionJoint(
		before.joint,
		truck.shaftLength * inch,
		truck.shaftSlope * degree,
	);
	const ride = pinionAt(after.rest, wedge * degree);
	const rearDrop = ride.axle.z - before.axle.z;
	const rake = frameTurn(frontDrop * inch, rearDrop, truck.wheelbase * inch);
	const jointsOf = (pinion: typeof ride) => {
		const shaft = driveshaftBetween(transmission, pinion.joint);
		const shaftToFloor = shaft.slope + rake;
		return {
			frontJoint: operatingAngle(truck.transSlope * degree + rake, shaftToFloor) / degree,
			rearJoint: operatingAngle(shaftToFloor, pinion.slope + rake) / degree,
			shaftLength: shaft.length / inch,
		};
	};
	const rideJoints = jointsOf(ride);
	return {
		rearDrop: rearDrop / inch,
		axleForward: (ride.axle.x - before.axle.x) / inch,
		pinionTurn: (ride.slope - before.slope) / degree,
		rakeChange: rake / degree,
		pinionSlope: (ride.slope + rake) / degree,
		transSlope: truck.transSlope + rake / degree,
		...rideJoints,
		arch: after.rest.arch / inch,
		travel: travel.map((rise) => {
			const pose = springAtAxleRise(
				after.leaf,
				after.mount,
				after.rest,
				truck.seatToAxle * inch,
				wedge * degree,
				rise * inch,
			);
			const there = pinionAt(pose, wedge * degree);
			const joints = jointsOf(there);
			return {
				frontJoint: joints.frontJoint,
				rearJoint: joints.rearJoint,
				axleForward: (there.axle.x - ride.axle.x) / inch,
				shaftLonger: joints.shaftLength - rideJoints.shaftLength,
			};
		}),
		windUp: windUpStiffness(after.leaf) / (pound * inch),
	};
}

export const truckA: Truck = {
	layout: {
		front: 24,
		rear: 30,
		rate: 160,
		arch: 3.5,
		eyeToPivot: 53.6,
		pivotUp: 4.6,
		shackleLength: 5,
		stands: false,
		load: 850,
	},
	seatToAxle: -3,
	pinionReach: 12,
	pinionRise: -1.5,
	wheelbase: 118,
	transSlope: 5,
	pinionSlope: 5,
	shaftSlope: 7,
	shaftLength: 58,
};

export const truckB: Truck = {
	layout: {
		front: 22,
		rear: 30,
		rate: 180,
		arch: 4,
		eyeToPivot: 50.2,
		pivotUp: -4,
		shackleLength: 4.5,
		stands: true,
		load: 900,
	},
	seatToAxle: -3.25,
	pinionReach: 11.5,
	pinionRise: -1.25,
	wheelbase: 115,
	transSlope: 4,
	pinionSlope: 3.5,
	shaftSlope: 6,
	shaftLength: 52,
};

/** Each reference layout as computed here, and as the design states it, solved outside the project. */
const references = [
	{
		computed: () => figuresOfJob(truckA, { eyeRaise: 4.5 }, 0, 0, [3, -3]),
		stated: {
			lengths: {
				rearDrop: 2.477345,
				axleForward: 0.660541,
				shaftLength: 57.024197,
				arch: 3.568436,
			},
			angles: {
				pinionTurn: 4.853999,
				rakeChange: 1.202717,
				pinionSlope: 11.056715,
				transSlope: 6.202717,
				frontJoint: 1.413805,
				rearJoint: 6.267804,
			},
			travel: [
				{
					frontJoint: 4.121171,
					rearJoint: 7.476113,
					axleForward: -0.666363,
					shaftLonger: 0.550544,
				},
				{
					frontJoint: 1.449853,
					rearJoint: 4.660432,
					axleForward: 1.180935,
					shaftLonger: -0.921974,
				},
			],
			windUp: 109714.2857,
		},
	},
	{
		computed: () => figuresOfJob(truckB, { pivotRaise: 2, shackleLonger: 1.5 }, 0, 0, [3, -3]),
		stated: {
			lengths: {
				rearDrop: 1.558924,
				axleForward: -0.441611,
				shaftLength: 52.432792,
				arch: 3.946117,
			},
			angles: {
				pinionTurn: -4.010674,
				rakeChange: 0.776646,
				pinionSlope: 0.265972,
				transSlope: 4.776646,
				frontJoint: 1.124595,
				rearJoint: 5.635269,
			},
			travel: [
				{
					frontJoint: 1.749786,
					rearJoint: 4.664542,
					axleForward: -0.259942,
					shaftLonger: 0.142167,
				},
				{
					frontJoint: 4.05209,
					rearJoint: 6.520869,
					axleForward: 0.769994,
					shaftLonger: -0.508557,
				},
			],
			windUp: 108298.3425,
		},
	},
];

/** Largest differences from the reference layouts, by kind. */
function referenceErrors() {
	const errors = { length: 0, angle: 0, windUp: 0 };
	const compare = (kind: keyof typeof errors, found: number | undefined, stated: number): void => {
		// Math.max keeps a NaN, and a NaN is held by nothing.
		errors[kind] = Math.max(errors[kind], Math.abs((found ?? NaN) - stated));
	};
	for (const { computed, stated } of references) {
		const found = computed();
		const { lengths, angles } = stated;
		for (const key of Object.keys(lengths) as (keyof typeof lengths)[]) {
			compare('length', found[key], lengths[key]);
		}
		for (const key of Object.keys(angles) as (keyof typeof angles)[]) {
			compare('angle', found[key], angles[key]);
		}
		stated.travel.forEach((row, index) => {
			const here = found.travel[index];
			compare('angle', here?.frontJoint, row.frontJoint);
			compare('angle', here?.rearJoint, row.rearJoint);
			compare('length', here?.axleForward, row.axleForward);
			compare('length', here?.shaftLonger, row.shaftLonger);
		});
		compare('windUp', found.windUp, stated.windUp);
	}
	return errors;
}

/** Invented layouts beside the two of the design: even halves, a long leaf, a nearly flat one. */
export const layouts: readonly Layout[] = [
	truckA.layout,
	truckB.layout,
	{
		front: 26,
		rear: 26,
		rate: 200,
		arch: 5,
		eyeToPivot: 51.5,
		pivotUp: 3.8,
		shackleLength: 4,
		stands: false,
		load: 1000,
	},
	{
		front: 27,
		rear: 36,
		rate: 130,
		arch: 4.5,
		eyeToPivot: 63.4,
		pivotUp: 5.2,
		shackleLength: 5.5,
		stands: false,
		load: 900,
	},
	{
		front: 22,
		rear: 26,
		rate: 220,
		arch: 1,
		eyeToPivot: 47.2,
		pivotUp: -3.6,
		shackleLength: 4,
		stands: true,
		load: 800,
	},
];

/** Largest differences of arc and large-deflection leaf over all layouts and some changes. */
export function leafErrors(changes: readonly Change[]) {
	const errors = { travelShare: 0, travel: 0, turn: 0 };
	for (const layout of layouts) {
		const tapered = taperedLeaf(
			layout.front * inch,
			layout.rear * inch,
			(layout.rate * pound) / inch,
		);
		const stock = springOf(layout);
		const truth = taperedLeafAtArch(tapered, stock.mount, layout.arch * inch, layout.load * pound);
		for (const change of changes) {
			const after = springAfterJob(layout, change);
			const truthAfter = taperedLeafAtLoad(tapered, truth, after.mount, after.rest.load);
			const travel = truthAfter.seatZ - truth.seatZ;
			const short = Math.abs(after.rest.seatZ - stock.rest.seatZ - travel);
			const turn = truthAfter.seatTurn - truth.seatTurn;
			const turnShort = Math.abs(after.rest.seatTurn - stock.rest.seatTurn - turn);
			errors.travel = Math.max(errors.travel, short / inch);
			errors.travelShare = Math.max(errors.travelShare, (100 * short) / Math.abs(travel));
			errors.turn = Math.max(errors.turn, turnShort / degree);
		}
	}
	return errors;
}

/**
 * The rows of the table. The aims for travel and turn under changes of parts and load are the design's
 * claims ("The spring and its shackle"); where none is made, the aim is what a tape (1/16 in) and a
 * gauge (0.1°) show, common practice, no source. The aims are not all met; what is held is what is found.
 */
export function springRows(): AccuracyRow[] {
	const reference = referenceErrors();
	const hanger = leafErrors([{ eyeRaise: 3 }, { eyeRaise: 4.5 }]);
	const pivot = leafErrors([{ pivotRaise: 2 }]);
	const shackle = leafErrors([{ shackleLonger: 1.5 }, { shackleLonger: -1 }]);
	const both = leafErrors([{ eyeRaise: 4, pivotRaise: 2, shackleLonger: 1 }]);
	const foreAndAft = leafErrors([
		{ eyeForward: 0.5 },
		{ pivotForward: 0.5 },
		{ pivotForward: -0.5 },
	]);
	const load = leafErrors([{ loadChange: 200 }, { loadChange: -200 }]);
	const layoutsStated = 'reference layouts A and B';
	const tapered = 'large-deflection leaf, five layouts';
	const row = (
		figure: string,
		against: string,
		error: number,
		unit: string,
		held: number,
		aimed: number,
	): AccuracyRow => ({ figure, against, error, unit, held, aimed });
	return [
		row('Lengths', layoutsStated, reference.length, 'in', 5e-7, 1e-4),
		row('Angles', layoutsStated, reference.angle, '°', 5e-7, 1e-4),
		row('Wind-up stiffness', layoutsStated, reference.windUp, 'lbf·in/rad', 5e-5, 1e-4),
		row('Seat travel, front eye raised 3 and 4½ in', tapered, hanger.travelShare, '%', 1.4, 1),
		row('Seat turn, the same', tapered, hanger.turn, '°', 0.072, 0.04),
		row('Seat travel, shackle pivot raised 2 in', tapered, pivot.travelShare, '%', 0.91, 1),
		row('Seat turn, the same', tapered, pivot.turn, '°', 0.028, 0.04),
		row(
			'Seat travel, shackle 1½ in longer, 1 in shorter',
			tapered,
			shackle.travelShare,
			'%',
			19,
			1,
		),
		row('Seat travel, the same', tapered, shackle.travel, 'in', 0.065, 0.0625),
		row('Seat turn, the same', tapered, shackle.turn, '°', 0.037, 0.04),
		row('Seat travel, all three at once', tapered, both.travelShare, '%', 0.62, 1),
		row('Seat turn, the same', tapered, both.turn, '°', 0.043, 0.04),
		row(
			'Seat travel, eye or pivot ½ in fore or aft',
			tapered,
			foreAndAft.travel,
			'in',
			0.093,
			0.0625,
		),
		row('Seat turn, the same', tapered, foreAndAft.turn, '°', 0.043, 0.04),
		row('Seat travel, 200 lb on or off', tapered, load.travelShare, '%', 9.1, 5),
		row('Seat turn, the same', tapered, load.turn, '°', 0.073, 0.1),
	];
}
