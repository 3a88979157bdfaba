/**
 * Everything that has to hold: types, lint and formatting, unit tests, the build and its weight, browser
 * tests in a real Chromium. Sets up what it needs. What went well says so in a line; what failed prints all
 * it had to say. Ends with one plain line, “N passed, N failed”, counted from what really ran.
 */
import { spawn } from 'node:child_process';
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { endingWithThis } from '../src/commands/ending-with-this.js';
import { setUp, projectFolder } from '../src/commands/set-up.js';
import { findChromium } from './browser/chromium.js';

/**
 * @typedef {object} Ended
 * @property {boolean} good
 * @property {string} said
 */

/** How many tools run at once: the browser tests, which take both cores of a small machine, run alone. */
const lanes = 2;

let passed = 0;
let failed = 0;

/**
 * Runs a script with Node and keeps what it prints, in plain text.
 * @param {string} script path below the project's folder
 * @param {string[]} [args]
 * @param {Record<string, string>} [more] environment
 * @returns {Promise<Ended>}
 */
function run(script, args = [], more = {}) {
	const { FORCE_COLOR: _, ...environment } = endingWithThis();
	const running = spawn(process.execPath, [script, ...args], {
		cwd: projectFolder,
		stdio: ['ignore', 'pipe', 'pipe'],
		env: { ...environment, NO_COLOR: '1', ...more },
	});
	let said = '';
	for (const stream of [running.stdout, running.stderr]) {
		stream.setEncoding('utf8').on('data', (piece) => (said += piece));
	}
	return new Promise((resolve) => {
		running.on('close', (status) => {
			resolve({ good: status === 0, said: said.trim() });
		});
	});
}

/**
 * A tool that passes or fails as a whole counts as one.
 * @param {string} name
 * @param {Ended} ended
 */
function count(name, { good, said }) {
	if (!good && said) console.log(said);
	console.log(`${name}: ${good ? 'passed' : 'failed'}`);
	if (good) passed++;
	else failed++;
}

/**
 * Counts the tests of a runner from the report it wrote.
 * @param {string} name
 * @param {Ended} ended
 * @param {() => { passed: number, failed: number }} report
 */
function countReport(name, { good, said }, report) {
	let found = { passed: 0, failed: 0 };
	try {
		found = report();
	} catch {
		found.failed = 1;
	}
	// A runner that fell over without a failed test has failed all the same, as has one that ran nothing.
	if ((!good || found.passed === 0) && found.failed === 0) found.failed = 1;
	if (found.failed > 0 && said) console.log(said);
	console.log(`${name}: ${found.passed} passed, ${found.failed} failed`);
	passed += found.passed;
	failed += found.failed;
}

/** @param {string} file */
const readJson = (file) => JSON.parse(readFileSync(join(results, file), 'utf8'));

/** @param {Ended} ended */
function countUnits(ended) {
	countReport('unit tests', ended, () => {
		const { numPassedTests, numFailedTests } = readJson('unit.json');
		return { passed: numPassedTests, failed: numFailedTests };
	});
}

/** @param {Ended} ended */
function countBuild(ended) {
	// A warning of the build is heard although nothing failed.
	if (ended.good && ended.said) console.log(ended.said);
	count('build', ended);
	built = ended.good;
}

async function testInBrowser() {
	const weight = await run('tests/browser/weight.js');
	if (weight.good) console.log(weight.said);
	count('weight', weight);
	const chromium = await finding;
	if (!chromium) {
		const said =
			'No Chromium was found and none could be installed. Install one, or put its path in the environment variable CHROMIUM.';
		count('browser tests', { good: false, said });
		return;
	}
	const ended = await run(
		'node_modules/@playwright/test/cli.js',
		['test', '--config', 'tests/browser/playwright.config.ts', '--reporter=dot,json'],
		{ CHROMIUM: chromium, PLAYWRIGHT_JSON_OUTPUT_NAME: join(results, 'browser.json') },
	);
	countReport('browser tests', ended, () => {
		const { stats } = readJson('browser.json');
		return { passed: stats.expected, failed: stats.unexpected + stats.skipped };
	});
}

// With npm, which may be ended in a way that it cannot pass on.
if (process.env['npm_lifecycle_event']) await import('../src/commands/end-with-parent.js');
setUp();
const results = join(projectFolder, 'test-results');
rmSync(results, { recursive: true, force: true });
mkdirSync(results, { recursive: true });
let built = false;
await run('node_modules/@sveltejs/kit/svelte-kit.js', ['sync']);

// Where it has to be installed, that takes as long as all the rest.
const finding = findChromium();

/** The longest first, so that the lanes end together. */
const waiting = [
	async () => {
		const reports = ['--reporter=default', '--reporter=json'];
		const file = '--outputFile.json=test-results/unit.json';
		countUnits(await run('node_modules/vitest/vitest.mjs', ['run', ...reports, file]));
	},
	async () => {
		countBuild(await run('src/commands/build.js'));
	},
	async () => {
		const args = ['--tsconfig', './tsconfig.json', '--fail-on-warnings'];
		count('types', await run('node_modules/svelte-check/bin/svelte-check', args));
	},
	async () => {
		count('lint', await run('node_modules/eslint/bin/eslint.js', ['.', '--max-warnings', '0']));
	},
	async () => {
		const args = ['--check', '--log-level', 'warn', '.'];
		count('formatting', await run('node_modules/prettier/bin/prettier.cjs', args));
	},
];
await Promise.all(
	Array.from({ length: lanes }, async () => {
		for (let work = waiting.shift(); work; work = waiting.shift()) await work();
	}),
);
if (built) await testInBrowser();
else
	count('browser tests', { good: false, said: 'Nothing was built, so there is nothing to open.' });

console.log(`${passed} passed, ${failed} failed`);
process.exit(failed === 0 ? 0 : 1);
