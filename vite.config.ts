import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { sveltekit } from '@sveltejs/kit/vite';
import type { Plugin } from 'vite';
import { defineConfig } from 'vitest/config';
import { workbookPlugin } from './src/commands/workbook-plugin.ts';

/**
 * A page of a job's own was not known when this was built. `vite preview` answers for it as a host of static
 * files does: with the fallback page, which looks for it in the browser.
 */
const fallback: Plugin = {
	name: 'fallback',
	configurePreviewServer({ middlewares }) {
		middlewares.use((request, response, next) => {
			const { pathname } = new URL(request.url ?? '/', 'http://localhost');
			if (!/^\/[a-z0-9-]+\/$/.test(pathname) || existsSync(join('build', pathname))) {
				next();
				return;
			}
			response.statusCode = 404;
			response.setHeader('Content-Type', 'text/html');
			response.end(readFileSync('build/404.html'));
		});
	},
};

export default defineConfig({
	plugins: [workbookPlugin('lowering'), sveltekit(), fallback],
	test: {
		include: [
			'tests/*.test.ts',
			'tests/{mechanics,units,language,engine,trade,job,answers,desk,sheet}/**/*.test.ts',
		],
		// Far beyond what any test takes: it ends one that hangs, and says nothing of how fast the rest are.
		testTimeout: 120_000,
	},
});
