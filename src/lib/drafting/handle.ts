/**
 * Handles on a drawing. Each is one entry: a movement on the paper becomes a value of it, to the hole or the
 * step, and never beyond its limits; a value becomes a place again. Values in SI.
 */
import type { Place } from './shapes.ts';

/** Ring and target, px across. */
export const ring = 24;
export const target = 44;

/** What an entry may become. */
export interface Movable {
	/** As it is entered now, SI. */
	readonly value: number;
	/** From one value to the next, SI: a sixteenth, a millimetre, half a degree. */
	readonly step: number;
	/** The only values there are, ascending, where parts have holes; the step is then not used. */
	readonly stops?: readonly number[];
	readonly least: number;
	readonly most: number;
}

/** The entry that a handle moves. */
export interface HandleEntry<Name extends string = string> extends Movable {
	/** Which of the drawing's handles. */
	readonly name: Name;
	/** What it is called, and its value with the unit, for those who hear the drawing. */
	readonly label: string;
	readonly valueText: string;
}

export interface Handle<Name extends string = string> extends HandleEntry<Name> {
	/** Middle of the ring, px. */
	readonly place: Place;
	/** Which way the ring goes on the paper when the value grows; a unit vector. */
	readonly direction: Place;
	/** px for one unit of the value. */
	readonly perUnit: number;
}

/** The nearest value the entry may have. */
export function snapped(entry: Movable, value: number): number {
	const { step, stops, least, most } = entry;
	if (stops && stops.length > 0) {
		const allowed = stops.filter((stop) => stop >= least && stop <= most);
		return allowed.reduce(
			(best, stop) => (Math.abs(stop - value) < Math.abs(best - value) ? stop : best),
			allowed[0] ?? entry.value,
		);
	}
	const within = Math.max(least, Math.min(most, value));
	const near = Math.round(within / step) * step;
	if (near > most) return Math.floor(most / step + 1e-9) * step;
	if (near < least) return Math.ceil(least / step - 1e-9) * step;
	// No minus before a nought.
	return near + 0;
}

/**
 * The value after the ring was dragged from where it was taken hold of. Only the way along its line counts.
 * @param right px to the right
 * @param down px down
 */
export function dragged(handle: Handle, right: number, down: number): number {
	const along = right * handle.direction.x + down * handle.direction.y;
	return snapped(handle, handle.value + along / handle.perUnit);
}

/** Where the ring would stand on its line at another value, px. */
export function placeAt(handle: Handle, value: number): Place {
	const along = (value - handle.value) * handle.perUnit;
	return {
		x: handle.place.x + along * handle.direction.x,
		y: handle.place.y + along * handle.direction.y,
	};
}

/** Steps that a key asks for: arrows one, with Shift four, page keys four; the ends are Home and End. */
const keySteps: Readonly<Record<string, number>> = {
	ArrowUp: 1,
	ArrowRight: 1,
	ArrowDown: -1,
	ArrowLeft: -1,
	PageUp: 4,
	PageDown: -4,
};

/** The value after a key; undefined where the key does not move a handle. */
export function keyed(entry: Movable, key: string, shift: boolean): number | undefined {
	if (key === 'Home') return snapped(entry, entry.least);
	if (key === 'End') return snapped(entry, entry.most);
	const steps = keySteps[key];
	if (steps === undefined) return undefined;
	const count = shift && key.startsWith('Arrow') ? steps * 4 : steps;
	const { stops, least, most } = entry;
	if (!stops || stops.length === 0) {
		const next = snapped(entry, entry.value + count * entry.step);
		// An odd value typed by hand goes to the next step in the direction asked for, never back.
		return Math.sign(next - entry.value) === -Math.sign(count) ? entry.value : next;
	}
	const allowed = stops.filter((stop) => stop >= least && stop <= most);
	const beyond = allowed.filter((stop) => (count > 0 ? stop > entry.value : stop < entry.value));
	if (beyond.length === 0) return entry.value;
	const ahead = count > 0 ? beyond : [...beyond].reverse();
	return ahead[Math.min(ahead.length, Math.abs(count)) - 1] ?? entry.value;
}
