/**
 * What a part of the program that comes later needs is fetched together with it, without one waiting for
 * another. To look on the page for all that is there already took a tenth of the time until the figures of the
 * job that is kept; so only what is not there is named.
 */
import type { Plugin } from 'vite';

interface LaterParts {
	readonly plugin: Plugin;
	/** For `build.modulePreload`. */
	readonly resolveDependencies: (
		part: string,
		needs: string[],
		asked: { hostId: string },
	) => string[];
}

export function laterParts(): LaterParts {
	/** By file, what it imports. */
	const imports = new Map<string, readonly string[]>();
	/** What is there before anything else. */
	const entries: string[] = [];

	/** All that has to be there before these can run, and they. */
	function behind(files: readonly string[]): ReadonlySet<string> {
		const found = new Set(files);
		for (const file of found) for (const other of imports.get(file) ?? []) found.add(other);
		return found;
	}
	return {
		plugin: {
			name: 'later-parts',
			apply: 'build',
			generateBundle: {
				// Before the names are written into the files.
				order: 'pre',
				handler(_, bundle) {
					for (const each of Object.values(bundle)) {
						if (each.type !== 'chunk') continue;
						imports.set(each.fileName, each.imports);
						if (each.isEntry) entries.push(each.fileName);
					}
				},
			},
		},
		resolveDependencies(_, needs, { hostId }) {
			const there = behind([hostId, ...entries]);
			const wanted = needs.filter((file) => !there.has(file));
			// Alone, it is fetched by who asks for it.
			return wanted.length > 1 ? wanted : [];
		},
	};
}
