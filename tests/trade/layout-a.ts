/** A truck to run the shipped workbook on: reference layout A, front hanger only. */
import { inputPlusMinus } from '../../src/lib/answers/figures.ts';
import type { Node } from '../../src/lib/language/graph.ts';
import { readEntry } from '../../src/lib/units/entry.ts';
import type { Value } from '../../src/lib/language/types.ts';
import { shipped } from '../language/shipped.ts';

/** As typed in inches, pounds and degrees. */
export const layoutATyped: Readonly<Record<string, string>> = {
	// Nothing of the reference hangs on these.
	front_height: '33 1/2',
	rear_height: '36 1/4',
	leaf_front: '24',
	leaf_rear: '30',
	leaf_rate: '160',
	leaf_rate_from: 'leaves',
	leaf_arch: '3 1/2',
	eye_to_pivot: '53.6',
	pivot_up: '4.6',
	shackle_length: '5',
	spring_load: '850',
	spring_side: 'over',
	seat_to_axle: '3',
	// Nor on this, with no wedge to turn the axle about its pad; within its ± it stays a distance.
	seat_to_pad: '1',
	pinion_reach: '12',
	pinion_rise: '-1 1/2',
	wheelbase: '118',
	trans_slope: '5',
	pinion_slope: '5',
	shaft_slope: '7',
	shaft_length: '58',
	eye_raise: '4 1/2',
};

/** The entries of the layout in SI; defaults stand for what it does not say. */
export function layoutA(): Map<string, Value> {
	const inputs = new Map<string, Value>();
	for (const { input, id } of shipped.graph.nodes) {
		if (!input) continue;
		const text = layoutATyped[id];
		if (text === undefined) {
			if (input.default !== undefined) inputs.set(id, input.default);
		} else if (input.asks_for === 'quantity') {
			const read = readEntry(text, input.quantity.shown['inch-pound'].unit);
			if ('problem' in read) throw new Error(`${id}: ${read.problem}`);
			inputs.set(id, read.value);
		} else inputs.set(id, text);
	}
	return inputs;
}

const entered = layoutA();

/** ± of an entry of the layout, SI: a part that is not fitted has none, nor what follows another entry. */
export function plusMinusOfA(node: Node): number {
	const value = entered.get(node.id);
	return inputPlusMinus(node, value === undefined ? undefined : { value, standing: 'entered' });
}
