/**
 * The long run of what is tried at random, by a new seed each time: damaged files of a job, links, and windows that type at once. What
 * takes seconds in `npm test` takes many minutes here. With a Chromium and a build beside, `KILLS=200` kills the
 * browser as often; see tests/browser/keeping.test.ts.
 */
import { spawnSync } from 'node:child_process';
import { projectFolder, setUp } from '../src/commands/set-up.js';

setUp();
const { status } = spawnSync(
	process.execPath,
	[
		...['node_modules/vitest/vitest.mjs', 'run', '--testTimeout', '7200000'],
		...['tests/job', 'tests/desk/two-windows.test.ts'],
	],
	{
		cwd: projectFolder,
		stdio: 'inherit',
		env: { RUNS: '100000', ROUNDS: '60', SEED: `${Date.now() % 2 ** 31}`, ...process.env },
	},
);
process.exitCode = status ?? 1;
