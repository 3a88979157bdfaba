/** Serving, and what is said before anything is built when it cannot be done. */
import { spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, type AddressInfo, type Server } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { brotliCompressSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { addressOf, filesOf, holdFolder, listen, portOf } from '../../src/commands/serving.js';

const folder = mkdtempSync(join(tmpdir(), 'workbook-'));
const write = (path: string, text: string): void => {
	mkdirSync(join(folder, path, '..'), { recursive: true });
	writeFileSync(join(folder, path), text);
};

async function openPort(): Promise<{ server: Server; port: number }> {
	const server = createServer().listen(0, 'localhost');
	await once(server, 'listening');
	return { server, port: (server.address() as AddressInfo).port };
}

async function freePort(): Promise<number> {
	const { server, port } = await openPort();
	server.close();
	await once(server, 'close');
	return port;
}

afterAll(() => {
	rmSync(folder, { recursive: true });
});

describe('the port', () => {
	test('is 4600 unless another is named', () => {
		expect(portOf(undefined)).toBe(4600);
		expect(portOf('4700')).toBe(4700);
	});

	test.each(['', 'abc', '0', '65536', '-1', '4600.5', ' '])('“%s” is none', (typed) => {
		expect(() => portOf(typed)).toThrow(/^PORT .* has to be a whole number from 1 to 65535/);
	});

	test('that is taken is not left for another, but named', async () => {
		const { server, port } = await openPort();
		await expect(listen('localhost', port)).rejects.toThrow(
			`Port ${port} is taken by another program. A job belongs to the address it was typed at`,
		);
		server.close();
	});

	test('is judged before anything is built: one sentence and a non-zero exit', () => {
		const start = fileURLToPath(new URL('../../src/commands/start.js', import.meta.url));
		const { status, stdout, stderr } = spawnSync(process.execPath, [start], {
			encoding: 'utf8',
			env: { ...process.env, PORT: 'abc' },
		});
		expect(status).toBe(1);
		expect(stdout).toBe('');
		expect(stderr).toMatch(/^PORT is “abc”.*\n$/);
	});
});

test('an address that is none of this computer is said to be so', async () => {
	await expect(listen('no-such-host.invalid', await freePort())).rejects.toThrow(
		'HOST is “no-such-host.invalid”, which is no address of this computer.',
	);
});

describe('a folder', () => {
	const file = join(folder, 'kept/served.json');

	test('that is served is not served again, and it is said where', async () => {
		const { server, port } = await openPort();
		write('kept/served.json', JSON.stringify({ pid: process.pid, host: 'localhost', port }));
		await expect(holdFolder(file, 'localhost', 4600)).rejects.toThrow(
			`The workbook is served from this folder already, at ${addressOf('localhost', port)}`,
		);
		server.close();
	});

	test.each([
		['nobody stands at the address', async () => ({ pid: process.pid, port: await freePort() })],
		['the process is gone', () => ({ pid: 2 ** 30, port: 80 })],
		['what is written is damaged', () => 'damaged'],
	])('is free when %s', async (_why, written) => {
		const found = await written();
		const said =
			typeof found === 'string' ? found : JSON.stringify({ host: 'localhost', ...found });
		write('kept/served.json', said);
		await holdFolder(file, 'localhost', 4600);
		expect(JSON.parse(readFileSync(file, 'utf8'))).toEqual({
			pid: process.pid,
			host: 'localhost',
			port: 4600,
		});
	});
});

describe('what is served', () => {
	let address = '';
	const ask = (path: string, more?: RequestInit): Promise<Response> =>
		fetch(address + path, { redirect: 'manual', ...more });

	beforeAll(async () => {
		write('site/index.html', 'the list');
		write('site/wedge/index.html', 'the wedge');
		write('site/404.html', 'the fallback');
		write('site/_app/immutable/some.js', 'export {};');
		const port = await freePort();
		const { open, server } = await listen('localhost', port);
		open(await filesOf(join(folder, 'site')));
		address = addressOf('localhost', port);
		return () => {
			server.close();
		};
	});

	test.each([
		['', 200, 'the list'],
		['wedge/', 200, 'the wedge'],
		['wedge/?from=here', 200, 'the wedge'],
		['a-page-of-ones-own/', 404, 'the fallback'],
		['a-page-of-ones-own/?from=here', 404, 'the fallback'],
	])('/%s', async (path, status, text) => {
		const response = await ask(path);
		expect(response.status).toBe(status);
		expect(response.headers.get('Content-Type')).toBe('text/html;charset=utf-8');
		expect(await response.text()).toBe(text);
	});

	test.each([
		['wedge', '/wedge/'],
		['wedge?from=here', '/wedge/?from=here'],
		['/elsewhere.example/wedge', '/elsewhere.example/wedge/'],
	])('/%s moves to the address with the slash, on the same host', async (path, to) => {
		const response = await ask(path);
		expect(response.status).toBe(308);
		expect(response.headers.get('Location')).toBe(to);
	});

	test('a file that is not there is no page', async () => {
		const response = await ask('_app/immutable/other.js');
		expect(response.status).toBe(404);
		expect(await response.text()).toBe('There is no such page.');
	});

	test('the head of an address nobody knows is that of the page that looks further', async () => {
		const response = await ask('a-page-of-ones-own/', { method: 'HEAD' });
		expect(response.status).toBe(404);
		expect(response.headers.get('Content-Length')).toBe(String('the fallback'.length));
		expect(await response.text()).toBe('');
	});

	test.each(['..%2fkept%2fserved.json', '%2e%2e%2fkept/served.json', '..%5ckept%5cserved.json'])(
		'/%s leads to nothing beside the folder',
		async (path) => {
			write('kept/served.json', 'not to be seen');
			expect(await (await ask(path)).text()).not.toContain('not to be seen');
		},
	);

	test('what was compressed when it was built is sent so to who takes it, and whole to who does not', async () => {
		const whole = 'export const some = 1;\n';
		write('site/_app/immutable/packed.js', whole);
		writeFileSync(join(folder, 'site/_app/immutable/packed.js.br'), brotliCompressSync(whole));
		for (const [taken, sent] of [
			['br', 'br'],
			['identity', null],
		] as const) {
			const response = await ask('_app/immutable/packed.js', {
				headers: { 'Accept-Encoding': taken },
			});
			expect(response.headers.get('Content-Encoding')).toBe(sent);
			expect(response.headers.get('Content-Type')).toBe('text/javascript');
			expect(await response.text()).toBe(whole);
		}
	});

	test('nothing is taken in', async () => {
		expect((await ask('', { method: 'POST' })).status).toBe(405);
	});

	test('a file whose name changes with its content is kept by the browser, a page is asked for again', async () => {
		const kept = (await ask('_app/immutable/some.js')).headers.get('Cache-Control');
		expect(kept).toContain('immutable');
		expect((await ask('wedge/')).headers.get('Cache-Control')).toBe('no-cache');
	});

	test.each(['', 'wedge', 'a-page-of-ones-own/', 'no-such-file.js'])(
		'/%s carries the headers of a static site that takes care',
		async (path) => {
			const { headers } = await ask(path);
			expect(headers.get('X-Content-Type-Options')).toBe('nosniff');
			expect(headers.get('Referrer-Policy')).toBe('no-referrer');
			expect(headers.get('Cross-Origin-Opener-Policy')).toBe('same-origin');
			expect(headers.get('Content-Security-Policy')).toBe("frame-ancestors 'none'");
			expect(headers.get('Access-Control-Allow-Origin')).toBeNull();
		},
	);
});
