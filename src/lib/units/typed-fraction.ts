/** Fractions put together key by key, for a number pad has no stroke. */

/** Upper and lower number of a fraction. */
type Parts = readonly [above: number, below: number];

const atEnd = /^(.*?)(?:(\d+) +)?(\d+)\/(\d+)$/s;
const written = /^(\d+)\/(\d+)$/;

function least([above, below]: Parts): Parts {
	const common = (a: number, b: number): number => (b === 0 ? a : common(b, a % b));
	const by = common(above, below);
	return [above / by, below / by];
}

/**
 * A text whose fraction at the end has another added to it: "33 1/4" and "1/8" make "33 3/8".
 * @param text what stands before the caret
 * @param fraction such as "1/8"
 * @returns nothing where the text does not end in a fraction, or no fraction is to be added
 */
export function withFractionAdded(text: string, fraction: string): string | undefined {
	const [end, add] = [atEnd.exec(text), written.exec(fraction)];
	if (!end || !add) return undefined;
	const [, before = '', whole = '0'] = end;
	const [a, b, c, d] = [end[3], end[4], add[1], add[2]].map(Number) as [
		number,
		number,
		number,
		number,
	];
	if (b === 0 || d === 0) return undefined;
	const [above, below] = least([a * d + c * b, b * d]);
	const full = Number(whole) + Math.floor(above / below);
	const left = above % below;
	const part = left === 0 ? '' : `${String(left)}/${String(below)}`;
	return `${before}${[full > 0 || part === '' ? String(full) : '', part].filter(Boolean).join(' ')}`;
}
