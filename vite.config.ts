import { sveltekit } from '@sveltejs/kit/vite';
import { defineConfig } from 'vitest/config';
import { fontLicences } from './src/commands/font-licences.ts';
import { laterParts } from './src/commands/later-parts.ts';
import { withoutFunctionWords } from './src/commands/without-function-words.ts';
import { workbookPlugin } from './src/commands/workbook-plugin.ts';

const later = laterParts();

export default defineConfig({
	plugins: [
		workbookPlugin('lowering'),
		withoutFunctionWords(),
		fontLicences(),
		later.plugin,
		sveltekit(),
	],
	build: {
		modulePreload: { resolveDependencies: later.resolveDependencies },
		rolldownOptions: {
			// How long each plug-in of the build took is nobody's business but its makers'.
			checks: { pluginTimings: false },
			// The parser of formulas is as large as all else that reads a page; both come only where one is read.
			output: { codeSplitting: { groups: [{ name: 'parser', test: /node_modules\/mathjs/ }] } },
		},
	},
	test: {
		setupFiles: ['tests/seed.ts'],
		// No test changes anything that another sees, and reading the program once instead of once a file takes
		// a third of the time.
		isolate: false,
		include: [
			'tests/*.test.ts',
			'tests/{mechanics,units,language,engine,trade,job,answers,desk,sheet,commands}/**/*.test.ts',
		],
		// Far beyond what any test takes: it ends one that hangs, and says nothing of how fast the rest are.
		testTimeout: 120_000,
	},
});
