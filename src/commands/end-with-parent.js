/**
 * Ends this process soon after the one that started it, however that one ended: what is killed can tell its
 * children nothing more, and a build or a server left behind would write and serve beside the next.
 */
import { readFileSync } from 'node:fs';
import { isMainThread } from 'node:worker_threads';

/** The process above, and the one above that: between npm and what it starts stands a shell, which would stay. */
function above() {
	return `${process.ppid.toString()} ${parentOf(process.ppid)}`;
}

/**
 * @param {number} pid
 * @returns {string} empty where the system does not tell
 */
function parentOf(pid) {
	try {
		return (
			/\) \S (\d+) [^)]*$/.exec(readFileSync(`/proc/${pid.toString()}/stat`, 'utf8'))?.[1] ?? ''
		);
	} catch {
		return '';
	}
}

const before = above();
if (isMainThread) {
	setInterval(() => {
		// An orphan belongs to another process from then on.
		if (above() !== before) process.exit(1);
	}, 300).unref();
}
