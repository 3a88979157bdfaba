/** A hint for a name that is not known: the nearest one that is. */

/** " Did you mean x?" for the nearest known name, or nothing when none is near. */
export function nearest(name: string, known: readonly string[]): string {
	let best = '';
	let bestDistance = Math.max(2, Math.floor(name.length / 3)) + 1;
	for (const candidate of known) {
		const distance = editDistance(name, candidate);
		if (distance < bestDistance) {
			best = candidate;
			bestDistance = distance;
		}
	}
	return best ? ` Did you mean “${best}”?` : '';
}

/** Fewest letters put in, taken out or changed. Levenshtein's, one row at a time. */
function editDistance(a: string, b: string): number {
	let row = Array.from({ length: b.length + 1 }, (_, index) => index);
	for (let i = 1; i <= a.length; i++) {
		const next = [i];
		for (let j = 1; j <= b.length; j++) {
			next.push(
				Math.min(
					(row[j] ?? 0) + 1,
					(next[j - 1] ?? 0) + 1,
					(row[j - 1] ?? 0) + (a.charAt(i - 1) === b.charAt(j - 1) ? 0 : 1),
				),
			);
		}
		row = next;
	}
	return row[b.length] ?? 0;
}
