import js from '@eslint/js';
import svelte from 'eslint-plugin-svelte';
import ts from 'typescript-eslint';
import svelteConfig from './svelte.config.js';

/** Where lint knows the types too: the library code and the commands. */
const typed = ['src/lib/**/*.ts', 'src/commands/**'];

export default ts.config(
	{ ignores: ['.svelte-kit/', 'build/', 'node_modules/', 'test-results/'] },
	js.configs.recommended,
	...ts.configs.strict,
	...svelte.configs.recommended,
	{
		rules: {
			'no-undef': 'off', // TypeScript does this one
			'no-eval': 'error',
			'no-new-func': 'error',
			eqeqeq: 'error',
			// State is plain data that is replaced whole, so the built-in Date and Map serve.
			'svelte/prefer-svelte-reactivity': 'off',
			// What is taken out of an object by name is not used; its name begins with _.
			'@typescript-eslint/no-unused-vars': ['error', { varsIgnorePattern: '^_' }],
			'@typescript-eslint/consistent-type-imports': 'error',
		},
	},
	{
		files: typed,
		extends: [ts.configs.strictTypeCheckedOnly],
		languageOptions: {
			parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname },
		},
	},
	{
		files: ['**/*.svelte', '**/*.svelte.ts'],
		languageOptions: {
			parserOptions: { parser: ts.parser, extraFileExtensions: ['.svelte'], svelteConfig },
		},
	},
);
