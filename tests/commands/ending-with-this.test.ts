/** Who is started ends with the one who started it. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { setTimeout } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { isAlive } from '../../src/commands/serving.js';

const file = fileURLToPath(new URL('../../src/commands/ending-with-this.js', import.meta.url));

/** Starts one that starts another, and so on; every one prints its process and stays. */
const generation = `
	import { spawn } from 'node:child_process';
	import { endingWithThis } from ${JSON.stringify(file)};
	const left = Number(process.argv[1]);
	console.log(process.pid);
	if (left > 0) {
		const more = ['--input-type=module', '-e', process.env.GENERATION, left - 1];
		spawn(process.execPath, more, { stdio: ['ignore', 'inherit', 'ignore'], env: endingWithThis() });
	}
	setInterval(() => undefined, 1000);
`;

test.skipIf(process.platform === 'win32')(
	'a process that is killed takes along all below it, for it can tell them nothing',
	async () => {
		const first = spawn(process.execPath, ['--input-type=module', '-e', generation, '2'], {
			stdio: ['ignore', 'pipe', 'inherit'],
			env: { ...process.env, GENERATION: generation },
		});
		let said = '';
		for await (const piece of first.stdout.setEncoding('utf8')) {
			said += String(piece);
			if (said.trim().split('\n').length === 3) break;
		}
		const all = said.trim().split('\n').map(Number);
		expect(all.map(isAlive)).toEqual([true, true, true]);

		first.kill('SIGKILL');
		await once(first, 'close');
		for (let tries = 0; all.some(isAlive) && tries < 100; tries++) await setTimeout(100);
		expect(all.map(isAlive)).toEqual([false, false, false]);
	},
);
