/** Round numbers along an axis. */

/** Smallest of 1, 2, 5 and ten times those that leaves so much room between two. */
export function tickStep(span: number, room: number, least: number): number {
	const raw = (span * least) / Math.max(room, 1);
	const ten = 10 ** Math.floor(Math.log10(raw));
	return ([1, 2, 5].find((each) => each * ten >= raw * (1 - 1e-9)) ?? 10) * ten;
}

/** All multiples of a step from one value to another. */
export function ticks(low: number, high: number, step: number): number[] {
	const found: number[] = [];
	for (let index = Math.ceil(low / step - 1e-6); index * step <= high + step * 1e-6; index++) {
		found.push(index * step);
	}
	return found;
}

/** With as many decimals as its step has, and a true minus. */
export function tickWords(value: number, step: number): string {
	const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
	const words = Math.abs(value).toFixed(decimals);
	return value < 0 && Number(words) !== 0 ? `−${words}` : words;
}
