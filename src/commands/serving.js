/** Serves what was built, as any host of static files would. */
import { once } from 'node:events';
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { connect } from 'node:net';
import { dirname, join } from 'node:path';

/** @import { IncomingMessage, ServerResponse } from 'node:http' */
/** @typedef {(request: IncomingMessage, response: ServerResponse) => void} Answer */

/** Something the person at the terminal can put right: one sentence, no trace. */
export class Unusable extends Error {}

/** The rest of the content-security policy is in each page, by hash; this part counts only as a header. */
const headers = new Map([
	['Content-Security-Policy', "frame-ancestors 'none'"],
	['Cross-Origin-Opener-Policy', 'same-origin'],
	['Cross-Origin-Resource-Policy', 'same-origin'],
	['Referrer-Policy', 'no-referrer'],
	['X-Content-Type-Options', 'nosniff'],
]);

const another = 'such as PORT=4700 npm start';

/**
 * @param {string | undefined} typed the environment variable PORT
 * @returns {number} Throws Unusable.
 */
export function portOf(typed) {
	if (typed === undefined) return 4600;
	const port = /^\d+$/.test(typed) ? Number(typed) : 0;
	if (port >= 1 && port <= 65_535) return port;
	const found = typed === '' ? 'is set and empty' : `is “${typed}”`;
	throw new Unusable(
		`PORT ${found}, but has to be a whole number from 1 to 65535, ${another}. Without PORT it is 4600.`,
	);
}

/**
 * @param {string} host
 * @param {number} port
 */
export function addressOf(host, port) {
	const everywhere = host === '0.0.0.0' || host === '::';
	const name = everywhere ? 'localhost' : host.includes(':') ? `[${host}]` : host;
	return `http://${name}:${port.toString()}/`;
}

/**
 * Sees to it that a folder is served once: a second start would build under the first. What is written down
 * counts as long as its process lives and something stands at its address.
 * @param {string} file where it is written down who serves the folder
 * @param {string} host
 * @param {number} port
 * @returns {Promise<void>} Throws Unusable when another serves it.
 */
export async function holdFolder(file, host, port) {
	const holder = holderIn(file);
	if (holder && isAlive(holder.pid) && (await answers(holder.host, holder.port))) {
		throw new Unusable(
			`The workbook is served from this folder already, at ${addressOf(holder.host, holder.port)} Open that, or end it with Ctrl+C where it was started.`,
		);
	}
	mkdirSync(dirname(file), { recursive: true });
	writeFileSync(file, JSON.stringify({ pid: process.pid, host, port }));
	process.on('exit', () => {
		if (holderIn(file)?.pid === process.pid) rmSync(file);
	});
}

/**
 * @param {string} file
 * @returns {{ pid: number, host: string, port: number } | undefined}
 */
function holderIn(file) {
	try {
		/** @type {unknown} */
		const found = JSON.parse(readFileSync(file, 'utf8'));
		return /** @type {{ pid: number, host: string, port: number }} */ (found);
	} catch {
		return undefined;
	}
}

/**
 * Whether a process of this user runs.
 * @param {number} pid
 */
export function isAlive(pid) {
	try {
		return pid > 0 && process.kill(pid, 0);
	} catch {
		return false;
	}
}

/**
 * Takes an address before there is anything to serve, so that nothing is built in vain. Whoever asks early
 * waits.
 * @param {string} host
 * @param {number} port
 * @returns the server, and what takes the answer that it gives from then on. Throws Unusable.
 */
export async function listen(host, port) {
	// Another program may stand at the same name by the other version of the internet protocol, and the
	// system lets both be.
	if (await answers(host, port)) throw taken(port);
	/** @type {(answer: Answer) => void} */
	let open = () => undefined;
	/** @type {Promise<Answer>} */
	const answer = new Promise((resolve) => {
		open = resolve;
	});
	const server = createServer((request, response) => {
		for (const [name, value] of headers) response.setHeader(name, value);
		void answer.then((respond) => {
			respond(request, response);
		});
	});
	server.listen(port, host);
	try {
		await once(server, 'listening');
	} catch (cause) {
		throw unusable(/** @type {NodeJS.ErrnoException} */ (cause), host, port);
	}
	return { server, open };
}

/**
 * @param {NodeJS.ErrnoException} cause
 * @param {string} host
 * @param {number} port
 */
function unusable(cause, host, port) {
	switch (cause.code) {
		case 'EADDRINUSE':
			return taken(port);
		case 'EACCES':
			return new Unusable(
				`Port ${port.toString()} is kept for the system. Choose one above 1023, ${another}.`,
			);
		case 'EADDRNOTAVAIL':
		case 'ENOTFOUND':
		case 'EAI_AGAIN':
			return new Unusable(`HOST is “${host}”, which is no address of this computer.`);
		default:
			return cause;
	}
}

/** @param {number} port */
function taken(port) {
	return new Unusable(
		`Port ${port.toString()} is taken by another program. A job belongs to the address it was typed at, so the workbook does not move to another by itself: end that program, or choose a port and keep to it, ${another}.`,
	);
}

/**
 * Whether something stands at an address.
 * @param {string} host
 * @param {number} port
 * @returns {Promise<boolean>}
 */
function answers(host, port) {
	return new Promise((resolve) => {
		const socket = connect({ host, port });
		const end = (/** @type {boolean} */ found) => {
			socket.destroy();
			resolve(found);
		};
		socket.once('connect', () => {
			end(true);
		});
		socket.once('error', () => {
			end(false);
		});
	});
}

/**
 * @param {string} folder what was built
 * @returns {Promise<Answer>}
 */
export async function filesOf(folder) {
	const { default: sirv } = await import('sirv');
	const files = sirv(folder, {
		// Reads the folder at each request, so that it may be built anew meanwhile.
		dev: true,
		etag: true,
		brotli: true,
		gzip: true,
		setHeaders(response, path) {
			// Its name changes with its content.
			if (path.startsWith('/_app/immutable/')) {
				response.setHeader('Cache-Control', 'public,max-age=31536000,immutable');
			}
		},
	});
	return (request, response) => {
		const [, path = '', query = ''] = /^\/*([^?]*)(\?.*)?$/.exec(request.url ?? '') ?? [];
		if (request.method !== 'GET' && request.method !== 'HEAD') {
			response.writeHead(405, { Allow: 'GET, HEAD' }).end();
		} else if (/(?:^|\/)[^/.]+$/.test(path)) {
			// The address of a sheet ends in a slash, as its links count on.
			response.writeHead(308, { Location: `/${path}/${query}` }).end();
		} else {
			files(request, response, () => {
				notFound(folder, path, request.method === 'HEAD', response);
			});
		}
	};
}

/**
 * A page of a job's own was not known when this was built: what is sent with the 404 looks for it in the browser,
 * as it does at any host of static files.
 * @param {string} folder what was built
 * @param {string} path
 * @param {boolean} headOnly
 * @param {ServerResponse} response
 */
function notFound(folder, path, headOnly, response) {
	const page = join(folder, '404.html');
	const found = (path === '' || path.endsWith('/')) && existsSync(page);
	const body = found ? readFileSync(page) : 'There is no such page.';
	response
		.writeHead(404, {
			'Content-Type': `text/${found ? 'html' : 'plain'};charset=utf-8`,
			'Content-Length': Buffer.byteLength(body),
			'Cache-Control': 'no-cache',
		})
		.end(headOnly ? undefined : body);
}
