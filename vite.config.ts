import { sveltekit } from '@sveltejs/kit/vite';
import { defineConfig } from 'vitest/config';

export default defineConfig({
	plugins: [sveltekit()],
	test: {
		include: [
			'tests/*.test.ts',
			'tests/{mechanics,units,language,engine,trade,job,answers,desk,sheet}/**/*.test.ts',
		],
		// Far beyond what any test takes: it ends one that hangs, and says nothing of how fast the rest are.
		testTimeout: 120_000,
	},
});
