/** Sees to it that nothing that was started stays behind. */

const first = `--import=${new URL('./end-with-parent.js', import.meta.url).href}`;

/**
 * The environment in which every Node process that is started, and those that it starts, ends with the one
 * above it.
 * @returns {Record<string, string | undefined>}
 */
export function endingWithThis() {
	const already = process.env['NODE_OPTIONS'] ?? '';
	return {
		...process.env,
		NODE_OPTIONS: already.includes(first) ? already : `${already} ${first}`.trim(),
	};
}
