/**
 * The trade's functions as the language has them: none is forgotten, each gives to the last bit what the
 * mechanics give, and each refuses what it does not take while the page is read.
 */
import { canRun } from '../../src/lib/engine/program.ts';
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import * as fits from '../../src/lib/mechanics/axle-fit.ts';
import * as clearance from '../../src/lib/mechanics/clearance.ts';
import * as coil from '../../src/lib/mechanics/coil-spring.ts';
import * as shafts from '../../src/lib/mechanics/driveshaft.ts';
import * as chains from '../../src/lib/mechanics/joint-chain.ts';
import * as pack from '../../src/lib/mechanics/leaf-pack.ts';
import * as springs from '../../src/lib/mechanics/leaf-spring.ts';
import * as loads from '../../src/lib/mechanics/load.ts';
import * as measuring from '../../src/lib/mechanics/measuring.ts';
import * as payload from '../../src/lib/mechanics/payload.ts';
import { shackleRoom } from '../../src/lib/mechanics/shackle-room.ts';
import * as shackles from '../../src/lib/mechanics/shackle.ts';
import * as shaftSpeed from '../../src/lib/mechanics/shaft-speed.ts';
import * as slip from '../../src/lib/mechanics/slip.ts';
import * as rests from '../../src/lib/mechanics/spring-at-rest.ts';
import * as travel from '../../src/lib/mechanics/spring-travel.ts';
import { springHeld, springWoundUp } from '../../src/lib/mechanics/spring-wind-up.ts';
import * as stance from '../../src/lib/mechanics/stance.ts';
import * as joints from '../../src/lib/mechanics/universal-joint.ts';
import * as whirling from '../../src/lib/mechanics/whirling.ts';
import * as windUp from '../../src/lib/mechanics/wind-up.ts';
import { exampleLines, exampleReadings } from '../../src/lib/trade/rows/examples.ts';
import { mechanicsFunctions } from '../../src/lib/trade/rows/index.ts';
import type { Value } from '../../src/lib/language/types.ts';
import { fence, inputCell, runOf, smallWorkbook, valueIn } from '../language/small-workbook.ts';

const snakeCase = (name: string): string =>
	name.replace(/[A-Z]/g, (capital) => `_${capital.toLowerCase()}`);
const rowNames = mechanicsFunctions.map(({ name }) => name);

describe('every function of the mechanics', () => {
	/** Those without a row, and why. */
	const withoutRow: Readonly<Record<string, string>> = {
		OutOfRange: 'the error they all throw',
		within: 'refuses a value',
		positive: 'refuses a value',
		finite: 'refuses a value',
		plain: 'a number for a sentence',
		plainLength: 'a length for a sentence',
		plainInBoth: 'an amount for a sentence',
		plainAngle: 'an angle for a sentence',
		bracketedRoot: 'takes a function, which no formula can write',
		checkAngle: 'refuses a value',
		checkDirection: 'refuses a value',
		checkShaftSpeed: 'refuses a value',
		bearingAt: 'what the solver of the spring works on',
		bearingOf: 'what the solver of the spring works on',
		poseAt: 'a step of the solver of the spring',
		poseAtChord: 'a step of the solver of the spring',
		chordAt: 'a step of the solver of the spring',
		keptPose: 'a step of the solver of the spring',
		holds: 'a step of the solver of the spring',
		carriesAt: 'a step of the solver of the spring',
		settle: 'a step of the solver of the spring',
		settleQuickly: 'a step of the solver of the spring',
		shaftDirection: 'a vector, which the language does not have; operating_angle_in_space uses it',
	};
	/** Those whose rows have other names: one function for two kinds of argument, or an older name. */
	const otherRows: Readonly<Record<string, readonly string[]>> = {
		springMountMoved: ['mount_moved'],
		operatingAngle: ['operating_angle', 'operating_angle_in_space'],
	};

	const folder = join(import.meta.dirname, '../../src/lib/mechanics');
	const exported = async (): Promise<string[]> => {
		const found: string[] = [];
		for (const file of readdirSync(folder)) {
			const module = (await import(join(folder, file))) as Record<string, unknown>;
			for (const [name, value] of Object.entries(module)) {
				if (typeof value === 'function') found.push(name);
			}
		}
		return found;
	};

	test('has its row, and every row has its function', async () => {
		const names = await exported();
		const withRow = names.filter((name) => !Object.hasOwn(withoutRow, name));
		const wanted = withRow.flatMap((name) => otherRows[name] ?? [snakeCase(name)]);
		expect([...rowNames].sort()).toEqual(wanted.sort());
	});

	test('that is said to have none is there', async () => {
		const names = await exported();
		for (const name of [...Object.keys(withoutRow), ...Object.keys(otherRows)]) {
			expect(names).toContain(name);
		}
	});
});

describe('what a row says', () => {
	const snake = /^[a-z][a-z0-9]*(_[a-z0-9]+)*$/;
	/** Keys of frame axes, which a page calls by their direction. */
	const directions: Readonly<Record<string, string>> = {
		x: 'forward',
		z: 'up',
		seatX: 'seat_forward',
		seatZ: 'seat_up',
		rearEyeX: 'rear_eye_forward',
		rearEyeZ: 'rear_eye_up',
	};

	test.each(mechanicsFunctions.map((row) => [row.name, row] as const))('%s', (_, row) => {
		expect(row.name).toMatch(snake);
		expect(row.about).toMatch(/^\p{Lu}.+\.$/su);
		expect(row.source.trim()).not.toBe('');
		expect(row.parameters.length).toBeGreaterThan(0);
		for (const parameter of row.parameters) {
			expect(parameter.name).toMatch(snake);
			expect(parameter.about.trim(), parameter.name).not.toBe('');
		}
		expect(new Set(row.parameters.map(({ name }) => name)).size).toBe(row.parameters.length);
		const fields = row.result?.kind === 'record' ? Object.entries(row.result.fields) : [];
		for (const [name, { key, about }] of fields) {
			expect(name).toBe(directions[key] ?? snakeCase(key));
			expect(about.trim(), name).not.toBe('');
		}
	});
});

// The layout of the examples as the mechanics take it.
const leaf = springs.leafSpring(0.62, 0.72, 28000);
const mount = springs.springMount(1.25, 0.06, 0.12, false);
const fit = fits.axleFit(true, 0.07, 0.025, 0, 0.03, 0.005);
const rest = rests.springAtBaseline(leaf, mount, fit, 0.125, 3800);
const bump = travel.springAtRise(rest, 0.05);
const axle = rests.axleOf(rest);
const pinion = shafts.pinionJoint(axle, 0.24, 0.02, 0.07);
const transmission = shafts.transmissionJoint(pinion, 1.4, 0.06);
const raised = shafts.jointMoved(pinion, 0.01, 0.05);
const chain = chains.planarThree(0.05, 0.03, 0.09, 0.1, 0.2);
const { lengths, angles } = exampleReadings;

/** What the mechanics give, called with the values of each row's example. */
const given: Readonly<Record<string, unknown>> = {
	leaf_spring: leaf,
	spring_mount: springs.springMount(1.25, 0.06, 0.12, true),
	mount_moved: springs.springMountMoved(mount, 0.02, 0.01, -0.015, 0.005, 0.025),
	arch_of_curvature: springs.archOfCurvature(0.5, 1.34),
	curvature_of_arch: springs.curvatureOfArch(0.125, 1.34),
	axle_fit: fits.axleFit(false, 0.08, 0.03, -0.02, 0.03, 0.004),
	wedge_at_bolt: fits.wedgeAtBolt(-0.06, 0.127, 0.002),
	spring_at_baseline: rests.springAtBaseline(leaf, mount, fit, 0.11, 4100),
	spring_from_test: rests.springFromTest(0.62, 0.72, 27000, mount, fit, 0.125, 3800),
	leaf_spring_times: rests.leafSpringTimes(leaf, 0.8),
	rate_in_place: rests.rateInPlace(rest),
	truck_stance: rests.truckStance(2.9, 0.05, 0.01),
	spring_after_job: rests.springAfterJob(
		rest,
		leaf,
		springs.springMountMoved(mount, 0.05, 0, 0.02, 0, -0.01),
		fit,
		-0.01,
		3600,
		rests.truckStance(2.9, 0.05, 0),
	),
	spring_at_rise: travel.springAtRise(rest, -0.06),
	droop_end: travel.droopEnd(rest, 800),
	spring_wound_up: springWoundUp(rest, 900, 0.34),
	spring_held: springHeld(rest, 900, 0.34, 0.5, 0.006, 350_000, false),
	axle_of: rests.axleOf(bump),
	shackle_angle: shackles.shackleAngle(mount, rest),
	shackle_room: shackleRoom(rest),
	wind_up_stiffness: springs.windUpStiffness(leaf),
	pinion_joint: shafts.pinionJoint(axle, 0.24, 0.03, 0.05),
	transmission_joint: shafts.transmissionJoint(pinion, 1.35, 0.08),
	joint_moved: shafts.jointMoved(pinion, 0.01, -0.02),
	transmission_shimmed: shafts.transmissionShimmed(transmission, 0.08, 1.3, 0.012, 0.8),
	driveshaft_between: shafts.driveshaftBetween(transmission, pinion),
	slip_left: slip.slipLeft(1.4, 0.08, 0.03, 1.39, 1.385, 1.412),
	shaft_order: slip.shaftOrder(1.39, 1.385, 1.412, 0.012, 0.02, 0.03),
	operating_angle: joints.operatingAngle(0.02, 0.09),
	operating_angle_in_space: joints.operatingAngle(0.02, 0.09, 0.01, 0.04),
	joint_speed_ratio: joints.jointSpeedRatio(0.12, 0.7),
	joint_acceleration: joints.jointAcceleration(0.12, 0.7, 300),
	rotation_of_greatest_acceleration: joints.rotationOfGreatestAcceleration(0.12),
	greatest_joint_acceleration: joints.greatestJointAcceleration(0.12, 300),
	joint_rotation: joints.jointRotation(0.12, 0.7),
	angle_of_fluctuation: joints.angleOfFluctuation(0.01),
	pair_speed_ratio: joints.pairSpeedRatio(0.12, 0.1, 0.7, 0.05),
	pair_speed_range: joints.pairSpeedRange(0.12, 0.1, 0.05),
	planar_pair: chains.planarPair(0.05, -0.06, 0.1),
	planar_three: chains.planarThree(0.05, -0.03, 0.08, 0.1, 0.2),
	pair_in_space: chains.pairInSpace(0.05, 0.01, 0.09, 0.03, 0.04, -0.02, 0.1),
	three_in_space: chains.threeInSpace(0.05, 0.01, 0.07, 0.02, 0.12, 0.03, 0.04, -0.02, 0.1, 0.2),
	shaft_plan_from_offset: chains.shaftPlanFromOffset(0.04, 1.4, 0.07),
	cancelling_pinion_slope: chains.cancellingPinionSlope(0.05, 0.09, true),
	chain_speed_ratio: chains.chainSpeedRatio(chain, 0.7),
	chain_acceleration: chains.chainAcceleration(chain, 0.7, 300),
	chain_ripple: chains.chainRipple(chain, 300),
	front_shaft_acceleration: chains.frontShaftAcceleration(chain, 300),
	rear_shaft_acceleration: chains.rearShaftAcceleration(chain, 300),
	best_rear_phase: chains.bestRearPhase(chain),
	best_yoke_phases: chains.bestYokePhases(chain),
	driveshaft_speed: shaftSpeed.driveshaftSpeed(29, 0.34, 3.55),
	road_speed_of_shaft: shaftSpeed.roadSpeedOfShaft(300, 0.34, 3.55),
	engine_speed: shaftSpeed.engineSpeed(300, 1.48),
	driveshaft_speed_from_engine: shaftSpeed.driveshaftSpeedFromEngine(300, 1.48),
	largest_angle: shaftSpeed.largestAngle(300, 900),
	rule_of_thumb_angle: shaftSpeed.ruleOfThumbAngle(300),
	road_speed_limit: shaftSpeed.roadSpeedLimit(0.08, 0.34, 3.55, 900),
	relative_joint_life: shaftSpeed.relativeJointLife(0.05, 300, 0.08, 310, 1.1),
	tube_material: whirling.tubeMaterial('aluminium'),
	whirling_speed: whirling.whirlingSpeed(1.4, 0.0889, 0.0847, 205e9, 7850),
	longest_tube: whirling.longestTube(600, 0.0889, 0.0847, 205e9, 7850),
	whirling_margin: whirling.whirlingMargin(700, 500),
	road_load_torque: windUp.roadLoadTorque(1900, 29, 0.34, 0.012, 1.2, 1.225, 0.02),
	axle_load_pulling: windUp.axleLoadPulling(7600, 0.8, 0.6, 2.9),
	grip_torque: windUp.gripTorque(7600, 0.8, 0.34),
	engine_wheel_torque: windUp.engineWheelTorque(380, 3.06, 3.55, 0.85),
	hardest_torque: windUp.hardestTorque(2400, 3500),
	frame_turn: stance.frameTurn(0.05, 0.1, 2.9),
	rear_drop_for_turn: stance.rearDropForTurn(0.02, 0.05, 2.9),
	turn_of_heights: stance.turnOfHeights(0.42, 0.47, 2.1),
	rear_drop_to_level: stance.rearDropToLevel(0.42, 0.47, 2.1, 2.9),
	headlamp_rise: stance.headlampRise(0.015, 7.62),
	wheelbase_after: stance.wheelbaseAfter(2.9, 0.012, 0.3),
	tyre_in_opening: stance.tyreInOpening(0.08, 0.06, 0.012),
	tyre_design_diameter: stance.tyreDesignDiameter(0.205, 0.55, 0.4064),
	axle_square: stance.axleSquare(2.9, 2.894, 1.45, 1.05),
	room_above_axle: clearance.roomAboveAxle(0.1, 0.16, 0.09, 0.03, 0.05),
	place_on_axle: clearance.placeOnAxle(axle, -0.08, 0.05),
	shaft_rise: clearance.shaftRise(
		pinion,
		shafts.driveshaftBetween(transmission, pinion),
		raised,
		shafts.driveshaftBetween(transmission, raised),
		0.4,
	),
	notch_room: clearance.notchRoom(0.28, 0.01, 0.07, 0.02),
	mount_to_mount: clearance.mountToMount(0.1, 0.15, 0.4),
	shock_stroke: clearance.shockStroke(0.45, 0.38, 0.52, 0.35, 0.56),
	shock_over_travel: clearance.shockOverTravel(0.1, 0.15, 0.4, 0.08, 0.09, 0.35, 0.56),
	shock_motion_ratio: clearance.shockMotionRatio(0.1, 0.15, 0.4),
	tyre_to_fender: clearance.tyreToFender(0.78, 0.33, 0.345, 0.06),
	hose_slack: clearance.hoseSlack(0.45, 0.1, 0.05, 0.25, 0.09),
	leaf_pack_rate: pack.leafPackRate(0.57, 0.67, 0.064, 0.007, 2, 5, 200e9),
	leaves_taken_out: pack.leavesTakenOut(28000, 3800, 2, 5, 1),
	coil_rate: coil.coilRate(0.016, 0.12, 7.5, 80e9),
	trimmed_coil_rate: coil.trimmedCoilRate(60000, 7.5, 0.75),
	trimmed_coil_free_length: coil.trimmedCoilFreeLength(0.4, 7.5, 0.75, 0.016),
	coil_solid_length: coil.coilSolidLength(0.016, 9, false),
	arm_motion_ratio: coil.armMotionRatio(0.2, 0.36, 0.15),
	wheel_rate: coil.wheelRate(60000, 0.55),
	coil_length_at_ride: coil.coilLengthAtRide(0.4, 60000, 4000, 0.55),
	coil_drop: coil.coilDrop(0.28, 0.25, 0.55),
	coil_spacer_rise: coil.coilSpacerRise(0.012, 0.55),
	travel_to_coil_bind: coil.travelToCoilBind(0.28, 0.17, 0.55),
	natural_frequency: coil.naturalFrequency(28000, 380),
	coils_there: coil.coilsThere(true),
	beam_camber: coil.beamCamber(0.05, 0.86),
	tyre_load_of_index: payload.tyreLoadOfIndex(98),
	payload_left: payload.payloadLeft(4500, 3800, 0.2, 2.9),
	axle_loads: loads.axleLoads(2500, 0.4, 2.9),
	spring_on_tyre_rate: loads.springOnTyreRate(28000, 210000),
	settling: loads.settling(2500, 0.4, 2.9, 31000, 205000, 28000, 210000),
	share_of_change: loads.shareOfChange(0.03, 0.04),
	mean_reading: measuring.meanReading(lengths),
	reading_spread: measuring.readingSpread(lengths),
	repeated_readings: measuring.repeatedReadings(lengths, 0.9),
	coverage_factor: measuring.coverageFactor(3, 0.9),
	gauge_both_ways: measuring.gaugeBothWays(0.062, 0.058),
	floor_slope: measuring.floorSlope(0.012, 3.1),
	slope_to_floor: measuring.slopeToFloor(0.062, 0.004),
	slope_of_two_heights: measuring.slopeOfTwoHeights(0.41, 0.36, 1.1, false),
};

const readingsInputs = [
	inputCell('lengths', 'length', 'several: readings'),
	inputCell('angles', 'angle', 'several: readings'),
	inputCell('forces', 'force', 'several: readings'),
].join('\n');
const entries: Readonly<Record<string, Value>> = { lengths, angles };

/** The arguments of a call, a call within it kept whole. */
function argumentsIn(text: string): string[] {
	return text.match(/(?:[^,()]|\([^()]*\))+/g)?.map((argument) => argument.trim()) ?? [];
}

/** A workbook in which each of these formulas has a name, above them the layout. */
function pageWith(formulas: Readonly<Record<string, string>>): ReturnType<typeof smallWorkbook> {
	const lines = Object.entries(formulas).map(([name, text]) => `${name} = ${text}  # ${name}`);
	return smallWorkbook({
		one: [readingsInputs, fence('derive', ...exampleLines), fence('derive', ...lines)].join('\n'),
	});
}

test('every row has its example', () => {
	expect(Object.keys(given).sort()).toEqual([...rowNames].sort());
});

describe.each(mechanicsFunctions.map((row) => [row.name, row] as const))('%s', (name, row) => {
	const args = argumentsIn(row.example.slice(name.length + 1, -1));
	const call = (written: readonly string[]): string => `${name}(${written.join(', ')})`;

	test('gives in a formula what the mechanics give, to the last bit', () => {
		const fields = row.result?.kind === 'record' ? Object.entries(row.result.fields) : [];
		const workbook = pageWith({
			whole: row.example,
			...Object.fromEntries(fields.map(([field]) => [`of_${field}`, `whole.${field}`])),
		});
		expect(workbook.problems).toEqual([]);
		const run = runOf(workbook, entries);
		expect(valueIn(workbook, run, 'whole')).toStrictEqual(given[name]);
		for (const [field, { key, type }] of fields) {
			const value = valueIn(workbook, run, `of_${field}`);
			expect(value).toStrictEqual((given[name] as Record<string, unknown>)[key]);
			const kinds: Partial<Record<typeof type.kind, string>> = {
				flag: 'boolean',
				record: 'object',
			};
			expect(typeof value).toBe(kinds[type.kind] ?? 'number');
		}
	});

	test('refuses another dimension, another kind and a value left out while the page is read', () => {
		const isForce = (text: string): boolean => / N$/.test(text);
		const spoilt = args.map((arg, index) =>
			call(
				args.with(
					index,
					isForce(arg) ? '2 m' : index === 0 && arg === 'lengths' ? 'forces' : '2 N',
				),
			),
		);
		const short = call(args.slice(0, -1));
		const { graph, problems } = pageWith(
			Object.fromEntries([...spoilt, short].map((text, index) => [`wrong_${index}`, text])),
		);
		expect(problems).toHaveLength(spoilt.length + 1);
		problems.forEach(({ message }, index) => {
			const parameter = row.parameters[index];
			if (parameter) expect(message).toContain(`${name}: ${parameter.name} has to be a`);
			else expect(message).toContain(`takes ${args.length} value`);
			expect(canRun(graph, graph.byId.get(`wrong_${index}`)?.slot ?? -1)).toBe(false);
		});
	});
});

describe('repeated readings', () => {
	test('of angles are angles, as those of lengths are lengths', () => {
		const workbook = pageWith({
			mean: 'mean_reading(angles) + 0 rad',
			spread: 'reading_spread(angles) + 0 rad',
			all: 'repeated_readings(angles, 0.95)',
			mean_of_all: 'all.mean + 0 rad',
			spread_of_all: 'all.spread + 0 rad',
			uncertainty: 'all.standard_uncertainty + 0 rad',
			plus_minus: 'all.plus_minus + 0 rad',
			count: 'all.count + 0',
			length_too: 'mean_reading(lengths) + repeated_readings(lengths, 0.95).plus_minus + 0 m',
		});
		expect(workbook.problems).toEqual([]);
		const run = runOf(workbook, entries);
		const all = measuring.repeatedReadings(angles, 0.95);
		expect(valueIn(workbook, run, 'all')).toStrictEqual(all);
		expect(valueIn(workbook, run, 'mean')).toBe(measuring.meanReading(angles));
		expect(valueIn(workbook, run, 'spread')).toBe(measuring.readingSpread(angles));
		expect(valueIn(workbook, run, 'plus_minus')).toBe(all.plusMinus);
		expect(valueIn(workbook, run, 'uncertainty')).toBe(all.standardUncertainty);
		expect(valueIn(workbook, run, 'count')).toBe(angles.length);
		expect(valueIn(workbook, run, 'length_too')).toBe(
			measuring.meanReading(lengths) + measuring.repeatedReadings(lengths, 0.95).plusMinus,
		);
	});

	test.each([
		['mean_reading(angles) + 0 m', 'angle + length: mean_reading(angles) + 0 m.'],
		['repeated_readings(angles, 0.95).mean + 0 m', 'angle + length: '],
		[
			'1 > 0 ? repeated_readings(angles, 0.95) : repeated_readings(lengths, 0.95)',
			'set of readings of angle : set of readings of length: ',
		],
		[
			'mean_reading(forces)',
			'mean_reading: readings has to be a list of length or list of angle; forces is a list of force.',
		],
		['repeated_readings(lengths, 0.95 m)', 'repeated_readings: coverage has to be a number'],
	])('%s is refused', (text, message) => {
		expect(pageWith({ wrong: text }).problems.map((problem) => problem.message)).toEqual([
			expect.stringContaining(message),
		]);
	});
});

describe('a choice of the trade', () => {
	test('goes the way it says', () => {
		const workbook = pageWith({
			parallel: 'cancelling_pinion_slope(0.05 rad, 0.09 rad, "parallel")',
			ground: 'coil_solid_length(0.016 m, 9, "ground")',
			hanging: 'spring_mount(1.25 m, 0.06 m, 0.12 m, "hanging")',
			steel: 'tube_material("steel").density',
			carbon: 'tube_material("carbon").modulus',
		});
		expect(workbook.problems).toEqual([]);
		const run = runOf(workbook, entries);
		const value = (name: string): Value | undefined => valueIn(workbook, run, name);
		expect(value('parallel')).toBe(0.05);
		expect(value('ground')).toBe(0.016 * 9);
		expect(value('hanging')).toStrictEqual(mount);
		expect(value('steel')).toBe(whirling.tubeMaterials.steel.density);
		expect(value('carbon')).toBe(whirling.tubeMaterials.carbon.modulus);
	});

	test('that is none of them is refused', () => {
		expect(pageWith({ wrong: 'tube_material("brass")' }).problems[0]?.message).toContain(
			'material has to be a choice of steel, aluminium, carbon',
		);
	});
});
