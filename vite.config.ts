import { sveltekit } from '@sveltejs/kit/vite';
import { defineConfig } from 'vitest/config';
import { workbookPlugin } from './src/commands/workbook-plugin.ts';

export default defineConfig({
	plugins: [workbookPlugin('lowering'), sveltekit()],
	test: {
		include: [
			'tests/*.test.ts',
			'tests/{mechanics,units,language,engine,trade,job,answers,desk}/**/*.test.ts',
		],
		// Far beyond what any test takes: it ends one that hangs, and says nothing of how fast the rest are.
		testTimeout: 120_000,
	},
});
