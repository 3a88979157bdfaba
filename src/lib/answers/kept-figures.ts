/** The figures of a job as they go into its file, and which of them a later program works out otherwise. */
import type { KeptFigures } from '../job/job-file.ts';
import type { Node } from '../language/graph.ts';
import { failureInWords } from './failures.ts';
import { valueInWords, type Figures } from './figures.ts';

/** Whether a node is a figure that is one value, and neither an entry nor a part of something else. */
function isFigure({ input, id, type }: Node): boolean {
	return !input && !id.includes('/') && type?.kind !== 'record';
}

/** All figures that are one value, SI. */
export function figuresToKeep({ graph, run }: Figures): KeptFigures {
	const kept: Record<string, KeptFigures[string]> = {};
	for (const node of graph.nodes) {
		const value = isFigure(node) ? run.value(node.slot) : undefined;
		if (value !== undefined && typeof value !== 'object') kept[node.id] = value;
	}
	return kept;
}

export interface Otherwise {
	readonly name: string;
	readonly label: string;
	/** In words, as this program writes it. */
	readonly before: string;
	readonly now: string;
}

/** The figures of a file that this program gives otherwise, as far as what is shown of them can tell. */
export function figuresOtherwise(kept: KeptFigures, figures: Figures): Otherwise[] {
	return Object.entries(kept).flatMap(([name, was]) => {
		const node = figures.graph.byId.get(name);
		if (!node || !isFigure(node))
			return [{ name, label: nameInWords(name), before: String(was), now: 'not asked any more' }];
		const value = figures.run.value(node.slot);
		const failure = figures.run.failure(node.slot);
		const before = valueInWords(node, was, figures);
		const now =
			value === undefined
				? failure
					? failureInWords(failure, figures.system)
					: 'no value'
				: valueInWords(node, value, figures);
		return now === before ? [] : [{ name, label: node.label, before, now }];
	});
}

const nameInWords = (name: string): string => name.replaceAll('_', ' ');
