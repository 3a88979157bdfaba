/** What a figure came from and what it feeds, for showing when it is pointed at. */
import type { Graph } from '$lib/worksheet/graph.ts';

function spread(graph: Graph, name: string | undefined, links: 'needs' | 'feeds'): Set<string> {
	const names = new Set<string>();
	const start = name === undefined ? undefined : graph.byId.get(name);
	const left = start ? [...start[links]] : [];
	for (let slot = left.pop(); slot !== undefined; slot = left.pop()) {
		const node = graph.nodes[slot];
		if (!node || names.has(node.id)) continue;
		names.add(node.id);
		left.push(...node[links]);
	}
	return names;
}

/** Names of everything a figure came from, over all pages. */
export function sourcesOf(graph: Graph, name: string | undefined): ReadonlySet<string> {
	return spread(graph, name, 'needs');
}

/** Names of everything a figure feeds, over all pages. */
export function fedBy(graph: Graph, name: string | undefined): ReadonlySet<string> {
	return spread(graph, name, 'feeds');
}
