/**
 * JSON with one text for one value, after RFC 8785: names in the order of their UTF-16 code units, nothing
 * between, numbers and texts as ECMAScript writes them. Fields that are undefined are none, and a number that is
 * none is null: the RFC has no text for it.
 */
export function canonicalJson(value: unknown): string {
	if (typeof value !== 'object' || value === null) return JSON.stringify(value ?? null);
	if (Array.isArray(value)) return `[${value.map(canonicalJson).join(',')}]`;
	const fields = Object.entries(value)
		.filter(([, each]) => each !== undefined)
		.sort(([a], [b]) => (a < b ? -1 : 1));
	return `{${fields.map(([name, each]) => `${JSON.stringify(name)}:${canonicalJson(each)}`).join(',')}}`;
}

/** Whether two values would be the same JSON, whatever the order of their fields. */
export function isSame(one: unknown, other: unknown): boolean {
	if (one === other) return true;
	if (typeof one !== 'object' || typeof other !== 'object' || !one || !other) return false;
	return canonicalJson(one) === canonicalJson(other);
}
