/** A link as a code for a phone's camera. Loaded only when one is asked for. */
import encodeQR from 'qr';

/** Letters that the largest code takes, in bytes and with the least correction: ISO/IEC 18004, table 7, version 40. */
export const mostLetters = 2953;

/** Squares that have to stay light around a code; the same standard. */
const quietZone = 4;

/**
 * The squares of a code, row by row, dark ones true, with the quiet zone around; undefined where it does not
 * fit into one. With the least correction, for it is read off a screen, which has no stains.
 * @param text of letters that are a byte each, as an address is
 */
export function codeOf(text: string): readonly (readonly boolean[])[] | undefined {
	return text.length > mostLetters
		? undefined
		: encodeQR(text, 'raw', { ecc: 'low', encoding: 'byte', border: quietZone });
}

/** What is drawn of a code: one path of its dark squares, a unit each. */
export function codePath(code: readonly (readonly boolean[])[]): string {
	return code
		.flatMap((row, y) =>
			row.map((dark, x) => (dark ? `M${x.toString()} ${y.toString()}h1v1h-1z` : '')),
		)
		.join('');
}
