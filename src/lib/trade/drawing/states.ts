/**
 * From the figures of a job to the trucks that are drawn. Places, turns and bends come from the figures;
 * shapes that nobody measured yet are set to usual sizes here and marked as assumed.
 */
import { pinionJoint, transmissionJoint, type JointPlace } from '../../mechanics/driveshaft.ts';
import type { AxleFit } from '../../mechanics/axle-fit.ts';
import type { SpringMount } from '../../mechanics/leaf-spring.ts';
import type { SpringPlace } from '../../mechanics/spring-pose.ts';
import type { DrawingAsked, DrawnFigure } from '../../language/trade.ts';
import { distance, drawnOpen, offset, type Part, type Point, type TruckState } from './truck.ts';

export const stateNames = ['before', 'plan', 'fitted', 'found'] as const;
export type StateName = (typeof stateNames)[number] | 'travel';

/** A state that is drawn, or why it is not. */
export interface StateRead {
	readonly state?: TruckState;
	/** Names without a value that keep it from being drawn. */
	readonly waits: readonly string[];
	/** Where the parts do not go together: how far the ends stand apart, m. */
	readonly gap?: number;
}

/** Slope of pinion, shaft and transmission where none was read, radians: common practice, no source. */
const usualSlope = (3 * Math.PI) / 180;
/** m: common practice, no source. */
const usualSizes = {
	...{ pinionReach: 0.3, pinionRise: -0.04, shaftLength: 1.45, wedgeLength: 0.127 },
	lip: 0.86,
};

/** What is known of a key of a section. */
export function figureAt(
	asked: DrawingAsked,
	section: string,
	key: string,
): DrawnFigure | undefined {
	const name = asked.names[section]?.[key]?.[0];
	return name === undefined ? undefined : asked.figure(name);
}

function numberAt(asked: DrawingAsked, section: string, key: string): number | undefined {
	const value = figureAt(asked, section, key)?.value;
	return typeof value === 'number' ? value : undefined;
}

/** What the records of a state are. The reader of workbook.yaml has made sure that they are of these kinds. */
interface Records {
	readonly spring: SpringPlace;
	readonly mount: SpringMount;
	readonly fit: AxleFit;
	readonly pinion_joint: JointPlace;
	readonly trans_joint: JointPlace;
	readonly drive_joint: JointPlace;
}

function recordAt<Key extends keyof Records>(
	asked: DrawingAsked,
	section: string,
	key: Key,
): Records[Key] | undefined {
	return figureAt(asked, section, key)?.value as Records[Key] | undefined;
}

/** Parts whose readings were not taken. */
function assumedParts({ names, figure }: DrawingAsked): Set<Part> {
	const parts = Object.entries(names['measured_by'] ?? {});
	const assumed = parts.filter(([, inputs]) =>
		inputs.some((name) => figure(name)?.input?.entered === false),
	);
	return new Set(assumed.map(([part]) => part as Part));
}

/** Both halves' curvatures from their mean κ = (a κf + b κr)/L and their difference, 1/m. */
function halvesOf({
	leaf,
	curvature,
	difference,
}: SpringPlace): Pick<TruckState['spring'], 'front' | 'rear'> {
	const { front, rear, length } = leaf;
	return {
		front: { length: front, curvature: curvature + (difference * rear) / length },
		rear: { length: rear, curvature: curvature - (difference * front) / length },
	};
}

/** Spring, hangers, seat and axle. */
function springPart(spring: SpringPlace, wedgeLength: number) {
	const { mount, fit } = spring;
	return {
		frontEye: { x: mount.eyeX, z: mount.eyeZ },
		pivot: { x: mount.pivotX, z: mount.pivotZ },
		rearEye: { x: spring.rearEyeX, z: spring.rearEyeZ },
		seat: { x: spring.seatX, z: spring.seatZ },
		spring: { ...halvesOf(spring), turn: spring.seatTurn, side: sideOf(fit) },
		...seatPart(fit, wedgeLength),
		axle: { x: spring.axleX, z: spring.axleZ },
	};
}

function sideOf({ side }: AxleFit): 'over' | 'under' {
	return side < 0 ? 'over' : 'under';
}

/** The wedge is drawn as thick at the centre bolt as it counts. */
function seatPart({ seatToPad, wedge, wedgeThickness }: AxleFit, length: number) {
	const thinEnd = Math.max(0, wedgeThickness - (length / 2) * Math.tan(Math.abs(wedge)));
	return { seatToPad, ...(wedge === 0 ? {} : { wedge: { angle: wedge, length, thinEnd } }) };
}

type Driveline = Pick<TruckState, 'pinion' | 'transmission' | 'centreJoint'>;

/** A driveline by its figures, or at usual slopes as far as they are missing. */
function driveline(
	asked: DrawingAsked,
	name: StateName,
	axle: Point & { readonly turned: number },
	rake: number,
	assumed: Set<Part>,
): Driveline {
	const at = (key: string): number | undefined => numberAt(asked, name, key);
	const common = (key: string, usual: number): number => numberAt(asked, 'common', key) ?? usual;
	const toFloor = at('pinion_slope_to_floor');
	const read = at('pinion_slope') ?? (toFloor === undefined ? undefined : toFloor - rake);
	const slope = read ?? usualSlope + axle.turned;
	const joint =
		recordAt(asked, name, 'pinion_joint') ??
		pinionJoint(
			{ x: axle.x, z: axle.z, turn: 0 },
			common('pinion_reach', usualSizes.pinionReach),
			common('pinion_rise', usualSizes.pinionRise),
			slope,
		);
	if (read === undefined) assumed.add('pinion');
	const transSlope = at('trans_slope');
	const transJoint = recordAt(asked, name, 'trans_joint');
	const driveJoint = recordAt(asked, name, 'drive_joint');
	// In one piece the shaft begins at the transmission.
	const inTwo = transJoint && driveJoint && distance(transJoint, driveJoint) > 1e-6;
	if (transSlope === undefined) assumed.add('transmission');
	if (!transJoint) assumed.add('shaft');
	return {
		pinion: { joint: { x: joint.x, z: joint.z }, slope },
		transmission: {
			joint: transJoint ?? transmissionAsBefore(asked, common),
			slope: transSlope ?? usualSlope,
		},
		...(inTwo && { centreJoint: { x: driveJoint.x, z: driveJoint.z } }),
	};
}

/** The transmission stands still while the axle moves: where it is assumed, it is from the truck as it was. */
function transmissionAsBefore(
	asked: DrawingAsked,
	common: (key: string, usual: number) => number,
): Point {
	const spring = recordAt(asked, 'before', 'spring');
	const slope = numberAt(asked, 'before', 'pinion_slope') ?? usualSlope;
	const axle = { x: spring?.axleX ?? 0, z: spring?.axleZ ?? 0, turn: 0 };
	const reach = common('pinion_reach', usualSizes.pinionReach);
	const rise = common('pinion_rise', usualSizes.pinionRise);
	const pinion = pinionJoint(axle, reach, rise, slope);
	return transmissionJoint(pinion, common('shaft_length', usualSizes.shaftLength), usualSlope);
}

/** Tyres, floor, lips and what lies over the axle. */
function wheelPart(asked: DrawingAsked, name: StateName, rearTyre: number, assumed: Set<Part>) {
	const at = (key: string): number | undefined => numberAt(asked, name, key);
	// A form shows where a reading is taken before it is taken.
	const form = (asked.ask ?? []).length > 0;
	const or = (key: string, usual: number | undefined, part: Part): number | undefined => {
		const value = at(key);
		if (value === undefined && form) assumed.add(part);
		return value ?? (form ? usual : undefined);
	};
	const frontTyre = or('front_tyre', rearTyre, 'tyres');
	const wheelbase = at('wheelbase');
	const rake = at('rake');
	if (rake === undefined && asked.names[name]?.['rake']) assumed.add('floor');
	// A lip is right above its wheel on the truck as it stands before, and goes with the body from there.
	const axle = recordAt(asked, 'before', 'spring')?.axleX;
	const ahead = numberAt(asked, 'before', 'wheelbase');
	const frontLip = or('front_lip', usualSizes.lip, 'lips');
	const rearLip = or('rear_lip', usualSizes.lip, 'lips');
	const front =
		axle !== undefined && ahead !== undefined && frontLip !== undefined
			? { front: { x: axle + ahead, height: frontLip } }
			: {};
	const rear =
		axle !== undefined && rearLip !== undefined ? { rear: { x: axle, height: rearLip } } : {};
	const stopGap = at('stop_gap');
	const notch = at('notch');
	const block = at('block');
	return {
		tyres: { rear: rearTyre, ...(frontTyre === undefined ? {} : { front: frontTyre }) },
		...(wheelbase === undefined ? {} : { wheelbase }),
		lips: { ...front, ...rear },
		rake: rake ?? 0,
		...(stopGap === undefined ? {} : { stopGap }),
		...(notch === undefined || notch === 0 ? {} : { notch }),
		...(block === undefined || block <= 0 ? {} : { block }),
	};
}

/** How far the axle would have to go up for the drop that is wanted, where the mark of that may be moved. */
function wantedOf(asked: DrawingAsked, name: StateName): number | undefined {
	const moves = asked.names['handles']?.['wanted'] ?? [];
	if (!moves.some((input) => asked.move.includes(input))) return undefined;
	const [drop, wanted] = [numberAt(asked, name, 'drop'), numberAt(asked, name, 'drop_wanted')];
	return drop === undefined || wanted === undefined ? undefined : wanted - drop;
}

/** One state of the truck. */
export function stateOf(asked: DrawingAsked, name: StateName): StateRead {
	const needed = ['spring', 'rear_tyre'];
	const waits = needed.flatMap((key) =>
		figureAt(asked, name, key)?.value === undefined ? (asked.names[name]?.[key] ?? [key]) : [],
	);
	const rearTyre = numberAt(asked, name, 'rear_tyre');
	const spring = recordAt(asked, name, 'spring');
	if (rearTyre === undefined) return { waits };
	const wedgeLength = numberAt(asked, 'common', 'wedge_length') ?? usualSizes.wedgeLength;
	const assumed = assumedParts(asked);
	const wheels = wheelPart(asked, name, rearTyre, assumed);
	const open = spring ? undefined : openState(asked, name, wedgeLength);
	if (!spring && !open) return { waits };
	const axle = spring
		? { x: spring.axleX, z: spring.axleZ, turned: turnedSince(asked, spring) }
		: { ...(open as OpenParts).parts.axle, turned: (open as OpenParts).turned };
	const line = open
		? openDriveline(asked, open, assumed)
		: driveline(asked, name, axle, wheels.rake, assumed);
	const parts = spring ? springPart(spring, wedgeLength) : (open as OpenParts).parts;
	const wanted = wantedOf(asked, name);
	const state: TruckState = {
		...{ ...parts, ...line, ...wheels, assumed },
		...(wanted !== undefined && { wanted }),
	};
	return { state, waits: [], ...(open && { gap: open.gap }) };
}

/** How far the axle turned in the frame since before the job, radians. */
function turnedSince(asked: DrawingAsked, spring: SpringPlace): number {
	const before = recordAt(asked, 'before', 'spring');
	return before ? spring.axleTurn - before.axleTurn : 0;
}

interface OpenParts {
	readonly parts: ReturnType<typeof springPart> & { readonly shackleEnd: Point };
	readonly gap: number;
	/** Of the axle in the frame, radians. */
	readonly turned: number;
}

/**
 * The parts that cannot be assembled, as near to one another as they come: the spring bent as it was before,
 * laid on the line from front eye to pivot.
 */
function openState(asked: DrawingAsked, name: StateName, length: number): OpenParts | undefined {
	if (figureAt(asked, name, 'spring')?.why !== 'out of range') return undefined;
	const before = recordAt(asked, 'before', 'spring');
	const mount = recordAt(asked, name, 'mount');
	const fit = recordAt(asked, name, 'fit');
	if (!before || !mount || !fit) return undefined;
	const was = springPart(before, length);
	const frontEye = { x: mount.eyeX, z: mount.eyeZ };
	const pivot = { x: mount.pivotX, z: mount.pivotZ };
	const { rearEye, shackleEnd, gap } = drawnOpen(
		frontEye,
		pivot,
		distance(was.frontEye, was.rearEye),
		mount.shackleLength,
	);
	const along = (from: Point, to: Point): number => Math.atan2(to.z - from.z, to.x - from.x);
	const turn = along(frontEye, rearEye) - along(was.frontEye, was.rearEye);
	const from = was.frontEye;
	const seat = offset(frontEye, turn, was.seat.x - from.x, was.seat.z - from.z);
	const seatTurn = before.seatTurn + turn;
	const face = offset(seat, seatTurn, 0, fit.side * (fit.seatToPad + fit.wedgeThickness));
	const axle = offset(face, seatTurn + fit.wedge, 0, fit.side * (fit.seatToAxle - fit.seatToPad));
	const spring = { ...halvesOf(before), turn: seatTurn, side: sideOf(fit) };
	return {
		parts: { frontEye, pivot, rearEye, shackleEnd, seat, spring, axle, ...seatPart(fit, length) },
		gap,
		turned: turn + fit.wedge - before.fit.wedge,
	};
}

/** What hangs on a truck that is not there: the driveline as it was, its pinion gone with the axle. */
function openDriveline(
	asked: DrawingAsked,
	{ parts, turned }: OpenParts,
	assumed: Set<Part>,
): Driveline {
	const was = stateOf(asked, 'before').state;
	if (!was) return driveline(asked, 'before', { ...parts.axle, turned }, 0, assumed);
	const { joint, slope } = was.pinion;
	const moved = offset(parts.axle, turned, joint.x - was.axle.x, joint.z - was.axle.z);
	const { transmission, centreJoint } = was;
	return {
		pinion: { joint: moved, slope: slope + turned },
		transmission,
		...(centreJoint && { centreJoint }),
	};
}
