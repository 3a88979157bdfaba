/**
 * The standing half of the mechanics against truths from outside: published figures, brute-force
 * geometry, numerical derivatives and integrals. The tests and the accuracy table share these rows.
 */
import { glMatrix, vec3 } from 'gl-matrix';
import {
	hoseSlack,
	mountToMount,
	placeOnAxle,
	shockMotionRatio,
	shockOverTravel,
} from '../../../src/lib/mechanics/clearance.ts';
import {
	armMotionRatio,
	coilDrop,
	coilLengthAtRide,
	coilRate,
	naturalFrequency,
	trimmedCoilFreeLength,
	trimmedCoilRate,
} from '../../../src/lib/mechanics/coil-spring.ts';
import { leafPackRate, leavesTakenOut } from '../../../src/lib/mechanics/leaf-pack.ts';
import { settling } from '../../../src/lib/mechanics/load.ts';
import {
	coverageFactor,
	repeatedReadings,
	slopeOfTwoHeights,
} from '../../../src/lib/mechanics/measuring.ts';
import { shackleAngle } from '../../../src/lib/mechanics/shackle.ts';
import { slipLeft } from '../../../src/lib/mechanics/slip.ts';
import {
	headlampRise,
	rearDropForTurn,
	tyreDesignDiameter,
	wheelbaseAfter,
} from '../../../src/lib/mechanics/stance.ts';
import type { AccuracyRow } from './row.ts';
import { drawnTrucks, references } from './spring.ts';

// Plain arrays hold doubles; the library's own default is single precision.
glMatrix.setMatrixArrayType(Array);

/** NIST SP 811: an inch is 25.4 mm, a pound-force 4.4482216152605 N, a pound 0.45359237 kg. */
export const inch = 0.0254;
export const poundForce = 4.4482216152605;
export const pound = 0.45359237;
export const degree = Math.PI / 180;

/** The largest of some errors; NaN stays NaN, so that it fails. */
function largest(errors: readonly number[]): number {
	return errors.reduce((most, error) => (error <= most ? most : error), 0);
}

/** Slip: what the reference layouts say of the shaft, with 4 in of spline and 1.5 in of room measured before. */
export function slipRows(): AccuracyRow[] {
	const errors = references.flatMap(({ truck, computed, stated }) => {
		const found = computed();
		const before = truck.shaftLength;
		const inTravel = (each: typeof found | typeof stated): number[] =>
			each.travel.map(({ shaftLonger }) => each.shaftLength + shaftLonger);
		const [bump = NaN, droop = NaN] = inTravel(found).map((length) => length * inch);
		const left = slipLeft(
			before * inch,
			4 * inch,
			1.5 * inch,
			found.shaftLength * inch,
			bump,
			droop,
		);
		const [bumpStated = NaN, droopStated = NaN] = inTravel(stated);
		return [
			left.engagementAtRide / inch - (4 - (stated.shaftLength - before)),
			left.engagementAtBump / inch - (4 - (bumpStated - before)),
			left.engagementAtDroop / inch - (4 - (droopStated - before)),
			left.roomAtRide / inch - (1.5 + (stated.shaftLength - before)),
			left.roomAtBump / inch - (1.5 + (bumpStated - before)),
			left.roomAtDroop / inch - (1.5 + (droopStated - before)),
		].map(Math.abs);
	});
	return [
		{
			figure: 'Spline and room left at ride, bump and droop',
			against: 'reference layouts A and B, solved independently',
			error: largest(errors),
			unit: 'in',
			held: 2e-6,
			aimed: 1e-4,
		},
	];
}

/** Clearance: a numerical derivative for the motion ratio, rotation by complex numbers for a place. */
export function clearanceRows(): AccuracyRow[] {
	const ratioErrors: number[] = [];
	for (let forward = -0.4; forward <= 0.4; forward += 0.1) {
		for (let sideways = -0.3; sideways <= 0.3; sideways += 0.1) {
			for (const up of [-0.3, 0.05, 0.2, 0.35, 0.6]) {
				const step = 1e-5;
				const shortens =
					(mountToMount(forward, sideways, up + step) -
						mountToMount(forward, sideways, up - step)) /
					(2 * step);
				ratioErrors.push(Math.abs(shockMotionRatio(forward, sideways, up) - shortens));
			}
		}
	}
	// A point of the axle turned in ten thousand small steps, each the plain x −= z·dθ, z += x·dθ halves.
	const placeErrors = [-20, -5, 0.5, 5, 20].map((turn) => {
		let x = 0.12;
		let z = -0.09;
		const count = 10_000;
		const half = (turn * degree) / count / 2;
		for (let step = 0; step < count; step++) {
			// The implicit midpoint step, solved: it neither grows nor shrinks the radius.
			const scale = 1 / (1 + half * half);
			[x, z] = [
				scale * ((1 - half * half) * x - 2 * half * z),
				scale * (2 * half * x + (1 - half * half) * z),
			];
		}
		const place = placeOnAxle({ x: -1.2, z: -0.3, turn: turn * degree }, 0.12, -0.09);
		return Math.hypot(place.x - (x - 1.2), place.z - (z - 0.3)) * 1000;
	});
	const lengths = [
		[0.05, 0.2, 0.35, 0.08, 0.1],
		[-0.3, 0.1, 0.2, 0.15, 0.05],
		[0, 0, 0.4, 0, 0.2],
	].flatMap(([forward = NaN, sideways = NaN, up = NaN, bump = NaN, droop = NaN]) => {
		const frame: vec3 = [forward, sideways, up];
		const at = (rise: number): number => vec3.distance([0, 0, rise], frame);
		const stroke = shockOverTravel(forward, sideways, up, bump, droop, 0.1, 0.9);
		return [
			stroke.ride - at(0),
			stroke.bump - at(bump),
			stroke.droop - at(-droop),
			stroke.leftClosing - (Math.min(at(0), at(bump), at(-droop)) - 0.1),
			stroke.leftOpening - (0.9 - Math.max(at(0), at(bump), at(-droop))),
			hoseSlack(0.7, forward, sideways, up, droop) - (0.7 - at(-droop)),
		].map((error) => Math.abs(error) * 1000);
	});
	return [
		{
			figure: 'Shock and brake hose over the travel',
			against: 'distance of two points in space (gl-matrix)',
			error: largest(lengths),
			unit: 'mm',
			held: 1e-10,
			aimed: 1e-3,
		},
		{
			figure: 'Motion ratio of a leaning shock',
			against: 'central difference of its length',
			error: largest(ratioErrors),
			unit: '1',
			held: 5e-9,
			aimed: 1e-6,
		},
		{
			figure: 'Place of a mount on a turned axle',
			against: 'the turn made in ten thousand small steps',
			error: largest(placeErrors),
			unit: 'mm',
			held: 1e-7,
			aimed: 1e-3,
		},
	];
}

/** Shackle: its angle to the chord, of springs drawn at random. */
export function shackleRows(): AccuracyRow[] {
	const angles = drawnTrucks(28, 1).map(({ mount, base }) => {
		const across = Math.hypot(mount.pivotX - mount.eyeX, mount.pivotZ - mount.eyeZ);
		const { chord } = base;
		const { shackleLength } = mount;
		const cos = (chord ** 2 + shackleLength ** 2 - across ** 2) / (2 * chord * shackleLength);
		return Math.abs(shackleAngle(mount, base).toChord - Math.acos(cos)) / degree;
	});
	return [
		{
			figure: 'Angle between shackle and spring',
			against: 'law of cosines in the triangle of eyes and pivot',
			error: largest(angles),
			unit: '°',
			held: 1e-10,
			aimed: 1e-4,
		},
	];
}

/** Stance: published sizes and the reference layouts. */
export function stanceRows(): AccuracyRow[] {
	const tyres = [
		Math.abs(tyreDesignDiameter(0.205, 0.55, 16 * inch) * 1000 - 631.9),
		Math.abs(tyreDesignDiameter(0.235, 0.75, 15 * inch) * 1000 - 733.5),
	];
	const drops = references.map(({ truck, stated }) =>
		Math.abs(
			rearDropForTurn(stated.rakeChange * degree, 0, truck.wheelbase * inch) / inch -
				stated.rearDrop,
		),
	);
	const wheelbases = references.map(({ truck, computed, stated }) =>
		Math.abs(
			wheelbaseAfter(truck.wheelbase * inch, computed().axleForward * inch, 0) / inch -
				(truck.wheelbase - stated.axleForward),
		),
	);
	// A beam as a ray: from the lamp, marched in steps along a line that was turned once.
	const beams = [-3, -1, -0.2, 0.2, 1, 3].map((turn) => {
		let along = 0;
		let up = 0;
		while (along < 300) {
			const step = Math.min(0.01, (300 - along) / Math.cos(turn * degree));
			along += step * Math.cos(turn * degree);
			up += step * Math.sin(turn * degree);
			if (300 - along < 1e-12) break;
		}
		return Math.abs(headlampRise(turn * degree) / inch - up);
	});
	return [
		{
			figure: 'Design diameter of a tyre',
			against: 'ISO 4000-1 size formula: 205/55 R16 631.9 mm, 235/75 R15 733.5 mm',
			error: largest(tyres),
			unit: 'mm',
			held: 1e-9,
			aimed: 0.05,
		},
		{
			figure: 'Rear drop that gives a rake',
			against: 'reference layouts A and B, solved independently',
			error: largest(drops),
			unit: 'in',
			held: 1e-6,
			aimed: 1e-4,
		},
		{
			figure: 'Wheelbase after the job',
			against: 'reference layouts A and B, solved independently',
			error: largest(wheelbases),
			unit: 'in',
			held: 1e-6,
			aimed: 1e-4,
		},
		{
			figure: 'Headlamp beam at 25 ft (SAE J599, from memory)',
			against: 'a ray marched 300 in to the wall',
			error: largest(beams),
			unit: 'in',
			held: 1e-9,
			aimed: 0.01,
		},
	];
}

/**
 * Tip deflection of a cantilever whose width narrows in proportion to the tip, by the moment-area rule
 * summed over thin slices. `tip` and `root` are the widths.
 */
function cantileverBySlices(
	load: number,
	length: number,
	tip: number,
	root: number,
	thickness: number,
	modulus: number,
): number {
	const slices = 20_000;
	let sum = 0;
	for (let slice = 0; slice < slices; slice++) {
		const fromTip = ((slice + 0.5) / slices) * length;
		const width = tip + ((root - tip) * fromTip) / length;
		const stiffness = (modulus * width * thickness ** 3) / 12;
		sum += ((load * fromTip) / stiffness) * fromTip * (length / slices);
	}
	return sum;
}

/** How far the eyes of a spring with halves alike go, m, each under its half of the load: δ of the textbook. */
function eyeDown(eyeLoad: number, half: number, ...pack: PackSizes): number {
	return (2 * eyeLoad) / leafPackRate(half, half, ...pack);
}
type PackSizes =
	Parameters<typeof leafPackRate> extends [number, number, ...infer Rest] ? Rest : never;

/** Leaf pack: the textbook's spring, and beams summed slice by slice. */
export function leafPackRows(): AccuracyRow[] {
	const width = 0.0635;
	const thickness = 0.008;
	const modulus = 206e9;
	const ends = [
		{ full: 0, graduated: 6, tip: 0, root: 6 * width },
		{ full: 5, graduated: 0, tip: 5 * width, root: 5 * width },
	];
	const deflections = ends.map(({ full, graduated, tip, root }) => {
		const summed = cantileverBySlices(2000, 0.6, tip, root, thickness, modulus);
		return Math.abs(eyeDown(2000, 0.6, width, thickness, full, graduated, modulus) / summed - 1);
	});
	const rates = ends.flatMap(({ full, graduated, tip, root }) =>
		[
			[0.6, 0.6],
			[0.55, 0.75],
			[0.5, 0.9],
		].map(([front = 0, rear = 0]) => {
			// Eyes carry a newton between them by the lever; the seat goes by the eyes, by the lever again.
			const length = front + rear;
			const down = (load: number, half: number): number =>
				cantileverBySlices(load, half, tip, root, thickness, modulus);
			const seat =
				(down(rear / length, front) * rear + down(front / length, rear) * front) / length;
			return Math.abs(
				leafPackRate(front, rear, width, thickness, full, graduated, modulus) * seat - 1,
			);
		}),
	);
	// Graduated leaves alone, for which the law is exact: what is left bends as a pack of its own.
	const whole = leafPackRate(0.6, 0.6, width, thickness, 0, 6, modulus);
	const down = (count: number): number =>
		cantileverBySlices(1900, 0.6, 0, count * width, thickness, modulus);
	const drops = [1, 2, 5].map((out) => {
		const { drop } = leavesTakenOut(whole, 3800, 0, 6, out);
		return Math.abs(drop - (down(6 - out) - down(6))) * 1000;
	});
	return [
		{
			figure: 'Drop when leaves are taken out',
			against: 'the beam summed over 20 000 slices, before and after',
			error: largest(drops),
			unit: 'mm',
			held: 1e-6,
			aimed: 0.1,
		},
		{
			figure: 'Deflection of a leaf spring',
			against: 'Khurmi & Gupta, Machine Design, leaf spring worked example (from memory): 16.7 mm',
			error: Math.abs(eyeDown(2700, (1.05 - 0.085) / 2, 0.04, 0.01, 2, 10, 210e9) * 1000 - 16.7),
			unit: 'mm',
			held: 0.05,
			aimed: 0.05,
		},
		{
			figure: 'Deflection of graduated leaves alone and of full leaves alone',
			against: 'the beam summed over 20 000 slices',
			error: largest(deflections) * 100,
			unit: '%',
			held: 1e-6,
			aimed: 0.1,
		},
		{
			figure: 'Leaf rate with unlike halves',
			against: 'two beams summed over slices, and the levers between the eyes',
			error: largest(rates) * 100,
			unit: '%',
			held: 1e-6,
			aimed: 0.1,
		},
	];
}

/** Coil: the textbook's spring, twist along the wire, an oscillation stepped through, an arm swung. */
export function coilRows(): AccuracyRow[] {
	const turn = 412.7 / coilRate(0.006, 0.075 - 0.006, 1, 84e9);
	// Twist of the wire by its polar moment, itself summed over rings, adds up along the turns.
	const rates = [
		[0.006, 0.069, 1],
		[0.0159, 0.13, 7.5],
		[0.018, 0.14, 9.25],
	].map(([wire = 0, mean = 0, coils = 0]) => {
		const rings = 20_000;
		let polar = 0;
		for (let ring = 0; ring < rings; ring++) {
			const radius = ((ring + 0.5) / rings) * (wire / 2);
			polar += 2 * Math.PI * radius ** 3 * (wire / 2 / rings);
		}
		const wireLength = Math.PI * mean * coils;
		const give = ((mean / 2) * (mean / 2) * wireLength) / (81.5e9 * polar);
		return Math.abs(coilRate(wire, mean, coils, 81.5e9) * give - 1);
	});
	const frequencies = [
		[20_000, 400],
		[45_000, 350],
	].map(([rate = 0, mass = 0]) => {
		// Let go at one end; a quarter of a swing ends where it passes the middle. Leapfrog steps.
		const step = 1e-6;
		let place = 1;
		let speed = (-rate / mass) * (step / 2);
		let time = 0;
		let before = place;
		while (place > 0) {
			before = place;
			place += speed * step;
			speed -= (rate / mass) * place * step;
			time += step;
		}
		const quarter = time - step * (place / (place - before));
		return Math.abs(naturalFrequency(rate, mass) - 1 / (4 * quarter));
	});
	// A spring from a point up in the frame to a point on an arm that swings about the origin.
	const ratios = [0, 8, 15].map((lean) => {
		const onArm = 0.22;
		const wheel = 0.38;
		const upX = onArm + 0.3 * Math.sin(lean * degree);
		const upZ = 0.3 * Math.cos(lean * degree);
		const length = (swing: number): number =>
			Math.hypot(onArm * Math.cos(swing) - upX, onArm * Math.sin(swing) - upZ);
		const step = 1e-5;
		const shortens = (length(-step) - length(step)) / (2 * step * wheel);
		return Math.abs(armMotionRatio(onArm, wheel, lean * degree) - shortens);
	});
	// A coil spring as its coils: each gives by itself, and an arm at the wheel levers them together.
	const sinks = [
		[0.4, 60_000, 5000, 0.58, 1],
		[0.33, 95_000, 6200, 0.9, 0.5],
		[0.45, 40_000, 3000, 0.5, 2],
	].map(([free = NaN, rate = NaN, wheelLoad = NaN, motion = NaN, off = NaN]) => {
		const active = 8;
		const wire = 0.016;
		const pitch = (free - wire) / active;
		const oneCoil = rate * active;
		const height = (coils: number): number => {
			let [low, high] = [0, 1];
			// The wheel rises until the coils push it back as hard as the load pushes it up.
			for (let round = 0; round < 60; round++) {
				const wheel = (low + high) / 2;
				const eachCoil = (motion * wheel) / coils;
				if (eachCoil * oneCoil * motion < wheelLoad) low = wheel;
				else high = wheel;
			}
			return (wire + coils * pitch) / motion - low;
		};
		const before = coilLengthAtRide(free, rate, wheelLoad, motion);
		const after = coilLengthAtRide(
			trimmedCoilFreeLength(free, active, off, wire),
			trimmedCoilRate(rate, active, off),
			wheelLoad,
			motion,
		);
		const drop = coilDrop(before, after, motion);
		return Math.abs(drop - (height(active) - height(active - off))) * 1000;
	});
	return [
		{
			figure: 'Drop at the wheel when a coil is trimmed',
			against: 'coils that each give by themselves, levered until forces balance',
			error: largest(sinks),
			unit: 'mm',
			held: 1e-9,
			aimed: 0.01,
		},
		{
			figure: 'Deflection of one coil',
			against: 'Khurmi & Gupta, Machine Design, coil spring worked example (from memory): 9.96 mm',
			error: Math.abs(turn * 1000 - 9.96),
			unit: 'mm',
			held: 0.005,
			aimed: 0.005,
		},
		{
			figure: 'Coil rate (EN 13906-1)',
			against: 'twist summed along the wire, polar moment summed over rings',
			error: largest(rates) * 100,
			unit: '%',
			held: 1e-6,
			aimed: 0.1,
		},
		{
			figure: 'Natural frequency',
			against: 'the swing stepped through in microseconds',
			error: largest(frequencies),
			unit: 'Hz',
			held: 1e-9,
			aimed: 0.01,
		},
		{
			figure: 'Motion ratio of a coil on an arm',
			against: 'central difference of the coil length as the arm swings',
			error: largest(ratios),
			unit: '1',
			held: 1e-9,
			aimed: 1e-4,
		},
	];
}

/** Load: a rigid frame that sinks, a step at a time, until its springs and tyres hold it. */
export function loadRows(): AccuracyRow[] {
	const wheelbase = 2.95;
	const rates = { frontSpring: 28_000, frontTyre: 210_000, rearSpring: 30_000, rearTyre: 220_000 };
	const errors = [
		[1300, 0.1],
		[-1100, -0.6],
		[2000, 1.4],
		[900, 3.4],
	].flatMap(([weight = 0, ahead = 0]) => {
		// Four places: frame and axle at each end. Gauss-Seidel on the balance of forces.
		let rear = 0;
		let nose = 0;
		for (let round = 0; round < 4000; round++) {
			const frontFrame = rear + nose * wheelbase;
			const frontAxle = (rates.frontSpring * frontFrame) / (rates.frontSpring + rates.frontTyre);
			const rearAxle = (rates.rearSpring * rear) / (rates.rearSpring + rates.rearTyre);
			// Forces up and down, then moments about the rear axle.
			rear =
				(weight -
					2 * rates.frontSpring * (nose * wheelbase - frontAxle) +
					2 * rates.rearSpring * rearAxle) /
				(2 * rates.frontSpring + 2 * rates.rearSpring);
			nose =
				((weight * ahead) / (2 * rates.frontSpring * wheelbase) - rear + frontAxle) / wheelbase;
		}
		const settled = settling(
			weight,
			ahead,
			wheelbase,
			rates.frontSpring,
			rates.frontTyre,
			rates.rearSpring,
			rates.rearTyre,
		);
		return [settled.rear - rear, settled.front - (rear + nose * wheelbase)].map(
			(error) => Math.abs(error) * 1000,
		);
	});
	return [
		{
			figure: 'Settling under a load',
			against: 'a rigid frame on springs and tyres, relaxed until forces and moments balance',
			error: largest(errors),
			unit: 'mm',
			held: 1e-9,
			aimed: 0.01,
		},
	];
}

/** GUM table G.2, the column for 95 %: degrees of freedom and t (from memory). */
const studentTable: readonly (readonly [number, number])[] = [
	[1, 12.71],
	[2, 4.3],
	[3, 3.18],
	[4, 2.78],
	[5, 2.57],
	[6, 2.45],
	[7, 2.36],
	[8, 2.31],
	[9, 2.26],
	[10, 2.23],
	[11, 2.2],
	[12, 2.18],
	[13, 2.16],
	[14, 2.14],
	[15, 2.13],
	[16, 2.12],
	[17, 2.11],
	[18, 2.1],
	[19, 2.09],
	[20, 2.09],
	[25, 2.06],
	[30, 2.04],
	[35, 2.03],
	[40, 2.02],
	[45, 2.01],
	[50, 2.01],
];

/** GUM table 1: twenty temperatures, °C (from memory; mean and spread come out as printed there). */
export const gumTemperatures = [
	96.9, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07, 100.33, 100.42, 100.68,
	100.95, 101.11, 101.2, 101.57, 101.84, 102.36, 102.72,
] as const;

/** Numbers from a seed, evenly spread over 0…1: a 32-bit xorshift. */
function seeded(seed: number): () => number {
	let state = seed;
	return () => {
		state ^= state << 13;
		state ^= state >>> 17;
		state ^= state << 5;
		return ((state >>> 0) + 0.5) / 4_294_967_296;
	};
}

/** Measuring: the GUM's table and its example, coverage by drawing readings, a shaft laid out in points. */
export function measuringRows(): AccuracyRow[] {
	const factors = studentTable.map(([freedom, t]) => Math.abs(coverageFactor(freedom) - t));
	const twenty = repeatedReadings(gumTemperatures);
	const twentyErrors = [
		Math.abs(twenty.mean - 100.145),
		Math.abs(twenty.spread - 1.489),
		Math.abs(twenty.standardUncertainty - 0.333),
	];
	const random = seeded(20_240_611);
	const normal = (): number =>
		Math.sqrt(-2 * Math.log(random())) * Math.cos(2 * Math.PI * random());
	const coverage = [2, 3, 5].map((count) => {
		const cases = 20_000;
		let held = 0;
		for (let trial = 0; trial < cases; trial++) {
			const taken = repeatedReadings(Array.from({ length: count }, () => 5 + 0.3 * normal()));
			if (Math.abs(taken.mean - 5) <= taken.plusMinus) held++;
		}
		return Math.abs((100 * held) / cases - 95);
	});
	// A shaft of points laid out at a slope; tape along it or along the floor.
	const slopes = [-12, -3, 0.5, 7, 18].flatMap((slope) => {
		const along = 1.4;
		const frontHeight = 0.5;
		const rearHeight = frontHeight - along * Math.sin(slope * degree);
		return [
			slopeOfTwoHeights(frontHeight, rearHeight, along, false),
			slopeOfTwoHeights(frontHeight, rearHeight, along * Math.cos(slope * degree), true),
		].map((found) => Math.abs(found / degree - slope));
	});
	return [
		{
			figure: 'Coverage factor of a small sample',
			against: 'JCGM 100:2008 (GUM), table G.2, 95 % (from memory)',
			error: largest(factors),
			unit: '1',
			held: 0.005,
			aimed: 0.005,
		},
		{
			figure: 'Mean, spread and standard uncertainty of twenty readings',
			against: 'JCGM 100:2008 (GUM), 4.4.3: 100.145, 1.489, 0.333 °C (from memory)',
			error: largest(twentyErrors),
			unit: '°C',
			held: 5e-4,
			aimed: 5e-4,
		},
		{
			figure: 'Cases in which the ± of 2, 3 and 5 readings holds',
			against: '20 000 drawn samples each: 95 %',
			error: largest(coverage),
			unit: '%',
			held: 0.5,
			aimed: 0.5,
		},
		{
			figure: 'Slope of a shaft from two heights',
			against: 'points laid out along a line of known slope',
			error: largest(slopes),
			unit: '°',
			held: 1e-12,
			aimed: 0.01,
		},
	];
}

/** Every row of the standing half. */
export function standingRows(): AccuracyRow[] {
	return [
		...slipRows(),
		...clearanceRows(),
		...shackleRows(),
		...stanceRows(),
		...leafPackRows(),
		...coilRows(),
		...loadRows(),
		...measuringRows(),
	];
}
