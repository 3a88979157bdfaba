/** Puts the licence of every font that is shipped beside its file, as the licence asks. */
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Plugin } from 'vite';

export function fontLicences(): Plugin {
	return {
		name: 'font-licences',
		apply: 'build',
		generateBundle(_options, bundle) {
			for (const file of Object.values(bundle)) {
				if (file.type !== 'asset' || !file.fileName.endsWith('.woff2')) continue;
				for (const from of file.originalFileNames) {
					// A package of a font has its files in a folder of their own, and the licence above it.
					const above = dirname(dirname(from));
					this.emitFile({
						type: 'asset',
						fileName: `${dirname(file.fileName)}/${above.split('/').at(-1) ?? ''}-licence.txt`,
						source: readFileSync(join(this.environment.config.root, above, 'LICENSE'), 'utf8'),
					});
				}
			}
		},
	};
}
