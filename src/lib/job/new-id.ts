/**
 * An id that nothing else has: 128 random bits as hexadecimal digits. Not `crypto.randomUUID`, which a browser
 * has only where the address is encrypted or is the computer itself, and a shop's phone may come by another.
 */
export function newId(): string {
	const bytes = crypto.getRandomValues(new Uint8Array(16));
	return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}
