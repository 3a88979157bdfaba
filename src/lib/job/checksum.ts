/** What a byte comes to by itself. The polynomial is that of ISO 3309 and ITU-T V.42, bit-reversed. */
const ofByte = Uint32Array.from({ length: 256 }, (_, byte) => {
	let rest = byte;
	for (let bit = 0; bit < 8; bit++) rest = (rest >>> 1) ^ (rest & 1 ? 0xedb88320 : 0);
	return rest;
});

/**
 * A cyclic redundancy check of a text in UTF-8: it tells whether a file is as it was written, not who wrote it.
 * @returns eight hexadecimal digits
 */
export function checksum(text: string): string {
	let rest = 0xffffffff;
	for (const byte of new TextEncoder().encode(text)) {
		rest = (rest >>> 8) ^ (ofByte[(rest ^ byte) & 0xff] ?? 0);
	}
	return (~rest >>> 0).toString(16).padStart(8, '0');
}
