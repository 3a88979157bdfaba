/** How the lines of a chart are told apart: by ink and by dash, so that either will do. */
const dashes: readonly (readonly number[])[] = [[], [7, 4], [2, 3], [9, 3, 2, 3]];

/** The look of a chart's line: a colour of paper.css, and a dash of ISO 128. Sixteen of them differ. */
export function lineLook(index: number): { readonly ink: string; readonly dash: number[] } {
	const count = dashes.length;
	const round = Math.floor(index / count);
	return {
		ink: `--line-${(index % count).toString()}`,
		dash: [...(dashes[(index + round) % count] ?? [])],
	};
}
