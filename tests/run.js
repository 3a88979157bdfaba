/**
 * Everything that has to hold: types, lint and formatting, unit tests, browser tests in a real Chromium.
 * Sets up what it needs. Ends with one plain line, “N passed, N failed”, counted from what really ran.
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { setUp, projectFolder } from '../src/commands/set-up.js';
import { findChromium } from './browser/chromium.js';

setUp();
const results = join(projectFolder, 'test-results');
rmSync(results, { recursive: true, force: true });
mkdirSync(results, { recursive: true });

let passed = 0;
let failed = 0;

/**
 * Runs a tool that is installed with the project.
 * @param {string} script path below node_modules
 * @param {string[]} args
 * @param {Record<string, string>} [more] environment
 */
function run(script, args, more = {}) {
	const { status } = spawnSync(process.execPath, [join('node_modules', script), ...args], {
		cwd: projectFolder,
		stdio: ['ignore', 'inherit', 'inherit'],
		env: { ...process.env, ...more },
	});
	return status === 0;
}

/**
 * A tool that passes or fails as a whole counts as one.
 * @param {string} name
 * @param {boolean} good
 */
function count(name, good) {
	console.log(`${name}: ${good ? 'passed' : 'failed'}`);
	if (good) passed++;
	else failed++;
}

/**
 * Counts the tests of a runner from the report it wrote.
 * @param {string} name
 * @param {boolean} good whether the runner itself ended well
 * @param {() => { passed: number, failed: number }} report
 */
function countReport(name, good, report) {
	let found = { passed: 0, failed: 0 };
	try {
		found = report();
	} catch {
		found.failed = 1;
	}
	// A runner that fell over without a failed test has failed all the same, as has one that ran nothing.
	if ((!good || found.passed === 0) && found.failed === 0) found.failed = 1;
	console.log(`${name}: ${found.passed} passed, ${found.failed} failed`);
	passed += found.passed;
	failed += found.failed;
}

/** @param {string} file */
const readJson = (file) => JSON.parse(readFileSync(join(results, file), 'utf8'));

run('@sveltejs/kit/svelte-kit.js', ['sync']);
count(
	'types',
	run('svelte-check/bin/svelte-check', ['--tsconfig', './tsconfig.json', '--fail-on-warnings']),
);
count('lint', run('eslint/bin/eslint.js', ['.', '--max-warnings', '0']));
count('formatting', run('prettier/bin/prettier.cjs', ['--check', '--log-level', 'warn', '.']));

const unitsGood = run('vitest/vitest.mjs', [
	'run',
	'--reporter=dot',
	'--reporter=json',
	'--outputFile.json=test-results/unit.json',
]);
countReport('unit tests', unitsGood, () => {
	const { numPassedTests, numFailedTests } = readJson('unit.json');
	return { passed: numPassedTests, failed: numFailedTests };
});

const chromium = findChromium();
if (chromium) {
	const built = run('vite/bin/vite.js', ['build', '--logLevel', 'warn']);
	count('build', built);
	const browserGood =
		built &&
		run(
			'@playwright/test/cli.js',
			['test', '--config', 'tests/browser/playwright.config.ts', '--reporter=line,json'],
			{ CHROMIUM: chromium, PLAYWRIGHT_JSON_OUTPUT_NAME: join(results, 'browser.json') },
		);
	countReport('browser tests', browserGood, () => {
		const { stats } = readJson('browser.json');
		return { passed: stats.expected + stats.flaky, failed: stats.unexpected + stats.skipped };
	});
} else {
	console.error(
		'No Chromium was found and none could be installed. Install one, or put its path in the environment variable CHROMIUM.',
	);
	count('browser tests', false);
}

console.log(`${passed} passed, ${failed} failed`);
process.exit(failed === 0 ? 0 : 1);
