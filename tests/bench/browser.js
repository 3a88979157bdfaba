/**
 * What a person waits for in a browser whose processor is slowed four times: a key until the figures are
 * painted, beside a bare page that echoes the key; the first paint of a sheet, and the figures of the job that
 * is kept, beside the same page as plain HTML. Long tasks are counted while typing and while a handle is dragged,
 * by what they take of the processor, which a machine with other work does not stretch. Needs a build.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { brotliCompressSync } from 'node:zlib';
import { chromium } from '@playwright/test';
import { buildFolder } from '../../src/commands/building.js';
import { filesOf, listen, portOf } from '../../src/commands/serving.js';
import { findChromium } from '../browser/chromium.js';

/** Sheets with much to work out, and a field on each that moves figures. */
const heavy = /** @type {const} */ ([
	['spring', 'eye_raise'],
	['angles', 'eye_raise'],
	['wedge', 'wedge_angle'],
	['bench', 'eye_raise_fitted'],
]);
const slowed = 4;
const keys = 100;
const visits = 5;
/** What a task may take before it is long, ms. */
const long = 50;
/** How long a handle is dragged to and fro, s. */
const dragging = 10;
/** What a person does to a job in a long evening. */
const edits = 5000;
const changes = 500;
/** How long a quick typist takes from key to key, ms. */
const betweenKeys = 120;

const bare = `<!doctype html><title>Bare</title><p id="bare"><input></p><p class="figure"><b></b></p>
<script>document.querySelector('input').oninput = ({ target }) => {
	document.querySelector('b').textContent = target.value;
};</script>`;

/** @type {Map<string, Buffer>} */
const madePlain = new Map();

/**
 * A sheet without its scripts, for whoever asks for `?plain`; made once, and compressed as the sheet itself is.
 * @param {string} path
 */
function plain(path) {
	const page =
		madePlain.get(path) ??
		brotliCompressSync(
			readFileSync(join(buildFolder, path, 'index.html'), 'utf8')
				.replace(/<script[^>]*>[^]*?<\/script>/g, '')
				.replace(/<link[^>]*modulepreload[^>]*>/g, ''),
		);
	madePlain.set(path, page);
	return page;
}

/** @param {number} port */
async function serve(port) {
	const { server, open } = await listen('localhost', port);
	const files = await filesOf(buildFolder);
	open((request, response) => {
		const [path = '', query] = (request.url ?? '').split('?');
		const type = { 'Content-Type': 'text/html; charset=utf-8' };
		if (path === '/bare/') response.writeHead(200, type).end(bare);
		else if (query !== 'plain') files(request, response);
		else response.writeHead(200, { ...type, 'Content-Encoding': 'br' }).end(plain(path));
	});
	return server;
}

/** @param {import('@playwright/test').Page} page */
async function slowDown(page) {
	const session = await page.context().newCDPSession(page);
	await session.send('Emulation.setCPUThrottlingRate', { rate: slowed });
	await session.send('Network.enable');
	await session.send('Network.setCacheDisabled', { cacheDisabled: true });
}

/**
 * How many tasks of a page would be long on the slowed processor, while something is done.
 * @param {import('@playwright/test').Page} page not slowed itself
 * @param {() => Promise<void>} act
 */
async function longTasksOf(page, act) {
	/** @typedef {{ name: string, pid: number, tid: number, tdur?: number }} Event */
	const session = await page.context().newCDPSession(page);
	/** @type {Event[]} */
	const events = [];
	session.on('Tracing.dataCollected', ({ value }) => {
		events.push(.../** @type {Event[]} */ (/** @type {unknown} */ (value)));
	});
	const ended = new Promise((resolve) => session.once('Tracing.tracingComplete', resolve));
	await session.send('Tracing.start', {
		traceConfig: {
			includedCategories: ['toplevel', 'devtools.timeline'],
			excludedCategories: ['*'],
		},
	});
	await act();
	await session.send('Tracing.end');
	await ended;
	await session.detach();
	// The thread of the page is the one that hands events to it.
	const { pid, tid } = events.find(({ name }) => name === 'EventDispatch') ?? { pid: 0, tid: 0 };
	return events.filter(
		(event) =>
			event.name === 'ThreadControllerImpl::RunTask' &&
			event.pid === pid &&
			event.tid === tid &&
			((event.tdur ?? 0) / 1000) * slowed > long,
	).length;
}

/**
 * Readies a field for keys. It may stand in a drawer.
 * @param {import('@playwright/test').Page} page
 * @param {string} field selector
 */
async function begin(page, field) {
	await page.locator(field).evaluate((input) => {
		for (let at = input.closest('details'); at; at = at.parentElement?.closest('details') ?? null) {
			at.open = true;
		}
	});
	await page.locator(field).fill('1.1');
	await page.waitForTimeout(1000);
	await page.locator(field).focus();
	await page.keyboard.press('End');
}

/** @param {import('@playwright/test').Page} page */
async function pressKeys(page) {
	for (let key = 0; key < keys; key++) {
		await page.keyboard.press(key % 2 === 0 ? '9' : 'Backspace');
		await page.waitForTimeout(betweenKeys);
	}
	await page.waitForTimeout(1000);
}

/**
 * Drags the first handle of a drawing to and fro.
 * @param {import('@playwright/test').Page} page
 */
async function dragHandle(page) {
	const box = await page.locator('.elevation .handle').first().boundingBox();
	if (!box) throw new Error('There is no handle to drag.');
	const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
	await page.mouse.move(x, y);
	await page.mouse.down();
	const until = performance.now() + dragging * 1000;
	for (let step = 0; performance.now() < until; step++) {
		await page.mouse.move(x, y + 30 * Math.sin(step / 15));
		await page.waitForTimeout(1000 / 60);
	}
	await page.mouse.up();
}

/**
 * Types into a field, and has the page itself note when each figure that changed was painted.
 * @param {import('@playwright/test').Page} page
 * @param {string} field selector
 * @returns {Promise<number[]>} milliseconds a key
 */
async function typeInto(page, field) {
	await begin(page, field);
	await page.evaluate(() => {
		/** @type {{ at: number, moved?: boolean, painted?: number }[]} */
		const seen = [];
		Object.assign(window, { found: seen });
		const channel = new MessageChannel();
		channel.port1.onmessage = () => {
			const key = seen.at(-1);
			if (key) key.painted ??= performance.now() - key.at;
		};
		/** Asks for each frame before the page does, so that what the page does behind a frame is not counted in. */
		const watch = () => {
			const key = seen.at(-1);
			if (!key || key.painted !== undefined) return;
			if (key.moved) channel.port2.postMessage(0);
			else requestAnimationFrame(watch);
		};
		document.addEventListener(
			'keydown',
			({ timeStamp }) => {
				seen.push({ at: timeStamp });
				requestAnimationFrame(watch);
			},
			true,
		);
		new MutationObserver((changes) => {
			const key = seen.at(-1);
			const figure = changes.some(({ target }) => {
				const around = target instanceof Element ? target : target.parentElement;
				return around?.closest('.figure b');
			});
			if (key && figure) key.moved = true;
		}).observe(document.body, { subtree: true, characterData: true, childList: true });
	});
	await pressKeys(page);
	const seen = await page.evaluate(
		() => /** @type {{ found: { painted?: number }[] }} */ (/** @type {unknown} */ (window)).found,
	);
	return seen.flatMap(({ painted }) => painted ?? []);
}

/** @param {readonly number[]} found @param {number} share */
function quantile(found, share) {
	return found.toSorted((a, b) => a - b)[Math.ceil(share * found.length) - 1] ?? NaN;
}

/**
 * @param {import('@playwright/test').BrowserContext} context
 * @param {string} address
 * @param {string} [figure] what the first standing figure reads in the job that is kept
 * @returns {Promise<number>} ms until the first paint, or until that figure stands there
 */
async function firstOf(context, address, figure) {
	const page = await context.newPage();
	await slowDown(page);
	if (figure !== undefined) {
		await page.addInitScript((wanted) => {
			const look = () => {
				const words = document.querySelector('.standing .figure b')?.textContent.trim();
				if (words === wanted) performance.mark('own figure');
				else requestAnimationFrame(look);
			};
			requestAnimationFrame(look);
		}, figure);
	}
	await page.goto(address);
	const name = figure === undefined ? 'first-contentful-paint' : 'own figure';
	const found = await page.waitForFunction(
		(wanted) => performance.getEntriesByName(wanted)[0]?.startTime,
		name,
	);
	const time = await found.jsonValue();
	await page.close();
	return time ?? NaN;
}

/**
 * What the program holds, bytes. What a browser makes of its functions to run them faster is none of it, nor is
 * what it keeps beside the page.
 * @param {import('@playwright/test').CDPSession} session
 */
async function held(session) {
	/** @type {string[]} */
	const chunks = [];
	const take = (/** @type {{ chunk: string }} */ { chunk }) => chunks.push(chunk);
	session.on('HeapProfiler.addHeapSnapshotChunk', take);
	await session.send('HeapProfiler.takeHeapSnapshot', { reportProgress: false });
	session.off('HeapProfiler.addHeapSnapshotChunk', take);
	/** @typedef {{ node_fields: string[], node_types: [string[]] }} Meta */
	const { snapshot, nodes } = /** @type {{ snapshot: { meta: Meta }, nodes: number[] }} */ (
		JSON.parse(chunks.join(''))
	);
	const {
		node_fields: fields,
		node_types: [types],
	} = snapshot.meta;
	const others = ['code', 'native'].map((type) => types.indexOf(type));
	const [type, size] = [fields.indexOf('type'), fields.indexOf('self_size')];
	let sum = 0;
	for (let node = 0; node < nodes.length; node += fields.length) {
		if (!others.includes(nodes[node + type] ?? 0)) sum += nodes[node + size] ?? 0;
	}
	return sum;
}

/**
 * How much the program holds after a long evening, beside its beginning: edits on one sheet, then sheet after
 * sheet, and both times on the same one. One round of both has been before, so that what is kept once is not
 * counted.
 * @param {import('@playwright/test').BrowserContext} context
 * @returns {Promise<number>}
 */
async function heapGrown(context) {
	const page = await context.newPage();
	const session = await page.context().newCDPSession(page);
	const inUse = async () => {
		await edit(1);
		await page.waitForTimeout(2000);
		return held(session);
	};
	/** @param {number} count */
	const edit = async (count) => {
		await page.locator('nav.rail a[href*="spring"]').click();
		await page.locator('#eye_raise input').waitFor();
		await page.evaluate(async (times) => {
			const field = /** @type {HTMLInputElement} */ (document.querySelector('#eye_raise input'));
			for (let each = 0; each < times; each++) {
				field.value = (1 + (each % 30) / 10).toString();
				field.dispatchEvent(new Event('input', { bubbles: true }));
				await new Promise((painted) => requestAnimationFrame(painted));
			}
		}, count);
	};
	/** @param {number} count */
	const change = async (count) => {
		const links = page.locator('nav.rail a');
		const all = await links.count();
		for (let each = 0; each < count; each++) {
			await links.nth(each % all).click();
			await page.locator('.standing').waitFor();
		}
	};
	await page.goto('/spring/');
	await edit(50);
	await change(26);
	const before = await inUse();
	await edit(edits);
	await change(changes);
	const after = await inUse();
	await page.close();
	return after / before;
}

/** Prints the measurement. */
export async function browserBench() {
	const port = portOf(process.env['BROWSER_PORT'] ?? '4617');
	const server = await serve(port);
	const executablePath = await findChromium();
	const browser = await chromium.launch({
		...(executablePath !== undefined && { executablePath }),
		args: ['--no-sandbox', '--disable-gpu'],
	});
	try {
		const context = await browser.newContext({ baseURL: `http://localhost:${port.toString()}` });
		const page = await context.newPage();
		/** @param {string} sheet */
		const open = async (sheet) => {
			await page.goto(`/${sheet}/`);
			await page.locator('.standing').waitFor();
			await page.waitForTimeout(3000);
		};
		await page.goto('/');
		await page.getByRole('button', { name: 'Open the finished job' }).nth(1).click();
		await page.locator('.standing').waitFor();
		for (const [sheet, field] of heavy) {
			await open(sheet);
			await begin(page, `#${field} input`);
			const count = await longTasksOf(page, () => pressKeys(page));
			console.log(
				`${sheet}: ${count.toString()} tasks over ${long.toString()} ms of the processor in ${keys.toString()} keys (none wanted)`,
			);
		}
		await open('angles');
		const count = await longTasksOf(page, () => dragHandle(page));
		console.log(
			`angles: ${count.toString()} tasks over ${long.toString()} ms of the processor while a handle is dragged for ${dragging.toString()} s (none wanted)`,
		);
		await slowDown(page);
		await page.goto('/bare/');
		const echo = quantile(await typeInto(page, '#bare input'), 0.95);
		for (const [sheet, field] of heavy) {
			await open(sheet);
			const painted = await typeInto(page, `#${field} input`);
			const moved = `${painted.length.toString()} of ${keys.toString()} keys moved figures`;
			// What stands in turns alone waits for a pause of the typist.
			const ratio =
				painted.length < keys / 2 ? 'none' : (quantile(painted, 0.95) / echo).toFixed(2);
			console.log(
				`${sheet}: key to painted figures, p95, ${ratio} of a bare page's echo (1.5 wanted); ${moved}`,
			);
		}
		const heap = await heapGrown(context);
		console.log(
			`what the program holds after ${edits.toString()} edits and ${changes.toString()} sheet changes: ${heap.toFixed(2)} of the beginning (1.05 wanted)`,
		);
		const [[sheet]] = heavy;
		await page.goto(`/${sheet}/`);
		await page.waitForTimeout(3000);
		const figure = (await page.locator('.standing .figure b').first().innerText()).trim();
		await page.close();
		// What was installed answers for every address, for the plain page too.
		const visitor = await browser.newContext({
			baseURL: `http://localhost:${port.toString()}`,
			serviceWorkers: 'block',
		});
		/** @type {[plain: number[], first: number[], again: number[], own: number[]]} */
		const found = [[], [], [], []];
		for (let visit = 0; visit < visits; visit++) {
			found[0].push(await firstOf(visitor, `/${sheet}/?plain`));
			found[1].push(await firstOf(visitor, `/${sheet}/`));
			found[2].push(await firstOf(context, `/${sheet}/`));
			found[3].push(await firstOf(context, `/${sheet}/`, figure));
		}
		const [html = NaN, ...others] = found.map((times) => quantile(times, 0.5));
		const [first, again, own] = others.map((time) => (time / html).toFixed(2));
		console.log(
			`${sheet}: first heading and first figure ${first ?? ''} of the same page as plain HTML (1.3 wanted), ${again ?? ''} where it was installed before; figures of the job that is kept ${own ?? ''}`,
		);
	} finally {
		await browser.close();
		server.close();
	}
}
