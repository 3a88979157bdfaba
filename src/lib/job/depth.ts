/** Levels of lists and fields in one another. No job has more than ten; a hostile one ends in an overflow. */
const mostLevels = 64;

/** Whether what was read from outside lies deeper in itself than anything here does. */
export function isTooDeep(found: unknown): boolean {
	let level = [found];
	for (let n = 0; level.length > 0; n++) {
		if (n > mostLevels) return true;
		level = level.flatMap((each): unknown[] =>
			typeof each === 'object' && each !== null ? Object.values(each) : [],
		);
	}
	return false;
}
