/** Requests as a sheet would make them, with the words of either unit system. */
import type { AngleDetail } from '../../../src/lib/trade/drawing/detail.ts';
import type { TruckHandleEntry } from '../../../src/lib/trade/drawing/handles.ts';
import type { DrawingRequest } from '../../../src/lib/trade/drawing/layout.ts';
import type { TruckState } from '../../../src/lib/trade/drawing/truck.ts';
import type { UnitSystem } from '../../../src/lib/trade/drawing/view.ts';
import { degree, inch, type Worked } from './trucks.ts';

/** The pane of the drawing on each width of window, px. */
export const panes = [
	[320, 196],
	[320, 300],
	[360, 196],
	[360, 300],
	[736, 300],
	[880, 395],
	[1010, 420],
	[1400, 520],
] as const;

/** A length in the words of a unit system; metric ones are the longer. */
function length(metres: number, units: UnitSystem): string {
	return units === 'metric'
		? `${(metres * 1000).toFixed(1)} mm`
		: `${(metres / inch).toFixed(2)} in`;
}

export function detailsOf({ after, front, rear }: Worked): AngleDetail[] {
	const { transmission, pinion } = after;
	const shaftSlope = Math.atan2(
		transmission.joint.z - pinion.joint.z,
		transmission.joint.x - pinion.joint.x,
	);
	const detail = (letter: string, [before, now]: readonly [number, number]): AngleDetail => ({
		letter,
		shaftSlope,
		angle: now,
		plusMinus: 0.72 * degree,
		smooth: [0.5 * degree, 3 * degree],
		certain: Math.abs(now) > 0.72 * degree,
		name: `${letter === 'A' ? 'front' : 'rear'} joint, angle drawn ×10`,
		brief: '×10',
		figure: `${Math.abs(now / degree).toFixed(2)}°`,
		plusMinusText: '± 0.72',
		note: `was ${Math.abs(before / degree).toFixed(2)}°; now the shaft lies flatter than what it joins`,
	});
	return [detail('A', front), detail('B', rear)];
}

export const handles: readonly TruckHandleEntry[] = [
	{
		name: 'frontEye',
		value: 4 * inch,
		step: inch / 16,
		least: -2 * inch,
		most: 6 * inch,
		label: 'Front eye up',
		valueText: '4 in',
	},
	{
		name: 'shackle',
		value: -1.5 * inch,
		step: inch / 16,
		least: -3 * inch,
		most: 3 * inch,
		label: 'Shackle, against the old one',
		valueText: '−1 1/2 in',
	},
	{
		name: 'wedge',
		value: -3.5 * degree,
		step: 0.5 * degree,
		least: -8 * degree,
		most: 8 * degree,
		label: 'Wedge, nose up',
		valueText: '−3 1/2°',
	},
];

function words(done: Worked, units: UnitSystem): Partial<DrawingRequest> {
	const { drop, shaft } = done;
	const [was, now] = shaft;
	return {
		caption: 'Side elevation from the left. Frame held still; before thin and dashed.',
		jointLetters: ['A', 'B'],
		details: detailsOf(done),
		handles,
		dimensions: [
			{ of: 'drop', text: { main: length(drop, units), plusMinus: `± ${length(0.0028, units)}` } },
			{
				of: 'shaft',
				text: {
					main: length(now, units),
					plusMinus: `± ${length(0.0018, units)}`,
					note: `(was ${length(was, units)})`,
				},
			},
			{ of: 'frontEye', text: { main: length(done.after.frontEye.z, units) } },
			{ of: 'rearLip', text: { main: length(0.846, units), note: `was ${length(0.908, units)}` } },
			{ of: 'stopGap', text: { main: length(0.09, units) } },
		],
		labels: [
			{ at: 'frontEye', text: 'hanger', ink: 'pencil' },
			{ at: 'rearEye', text: `shackle ${length(-0.038, units)}`, ink: 'pencil' },
			{ at: 'wedge', text: 'wedge −3 1/2°, thick end forward', ink: 'pencil' },
			{ at: 'rail', text: 'frame rail, place not measured' },
			{ at: 'rearLip', text: 'rear lip' },
		],
		legend: [
			{ of: 'smooth', text: 'smooth: ½° to 3°' },
			{ of: 'plusMinus', text: '± of the angle' },
			{ of: 'ring', text: 'may be moved' },
		],
	};
}

/** Which states are drawn on one another. */
export const scenarios = ['before', 'plan', 'before and plan', 'all three'] as const;
export type Scenario = (typeof scenarios)[number];

/** What was found: the plan with its front eye a little low, as far as a drawing cares. */
function foundOf(plan: TruckState): TruckState {
	const low = ({ x, z }: { x: number; z: number }): { x: number; z: number } => ({
		x: x + 0.004,
		z: z - 0.014,
	});
	return {
		...plan,
		seat: low(plan.seat),
		axle: low(plan.axle),
		frontEye: low(plan.frontEye),
		rearEye: low(plan.rearEye),
		pinion: { ...plan.pinion, joint: low(plan.pinion.joint) },
		stopGap: 0.09,
	};
}

export function requestOf(
	done: Worked,
	[width, height]: readonly [number, number],
	scenario: Scenario,
	units: UnitSystem,
	more: Partial<DrawingRequest> = {},
): DrawingRequest {
	const { before, after: plan } = done;
	const states = {
		before: { before },
		plan: { plan },
		'before and plan': { before, plan },
		'all three': { before, plan, found: foundOf(plan) },
	}[scenario];
	return {
		width,
		height,
		crop: 'drive',
		still: 'frame',
		units,
		...states,
		...words(done, units),
		...more,
	};
}
