/** Finds a Chromium: in the environment variable CHROMIUM, on the machine, or from Debian as root. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';

const names = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'];

/** @returns {string | undefined} */
function onThisMachine() {
	for (const folder of (process.env['PATH'] ?? '').split(delimiter)) {
		for (const name of names) {
			if (existsSync(join(folder, name))) return join(folder, name);
		}
	}
	const application = '/Applications/Chromium.app/Contents/MacOS/Chromium';
	return existsSync(application) ? application : undefined;
}

/** @returns {Promise<string | undefined>} the path of a Chromium that can be started */
export async function findChromium() {
	const named = process.env['CHROMIUM'];
	if (named) return existsSync(named) ? named : undefined;
	const found = onThisMachine();
	if (found) return found;
	if (process.getuid?.() !== 0 || !existsSync('/usr/bin/apt-get')) return undefined;
	console.error('Installing Chromium from Debian …');
	await aptGet('update');
	await aptGet('install', '-y', '--no-install-recommends', 'chromium');
	return onThisMachine();
}

/** @param {string[]} args */
async function aptGet(...args) {
	const running = spawn('apt-get', args, {
		stdio: ['ignore', 'ignore', 'inherit'],
		env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
	});
	await once(running, 'close');
}
