/**
 * Keeps the whole program in the browser, so that it opens and works with the network off. Every file of one
 * build is kept together and used together; a later build is fetched beside it and waits until somebody takes
 * it, or no window of this one is open any more.
 */
/// <reference lib="webworker" />
import { base, build, files, prerendered, version } from '$service-worker';

const worker = self as unknown as ServiceWorkerGlobalScope;
const prefix = 'ride-height ';
const name = `${prefix}${version}`;
/** What is shown for a sheet that no build knows: it looks for it in the job. */
const fallback = `${base}/404.html`;

worker.addEventListener('install', (event) => {
	event.waitUntil(fetchAll([...prerendered, ...build, ...files]));
});

/** One after the other: the person's own visit comes first. What an earlier attempt fetched is there. */
async function fetchAll(paths: readonly string[]): Promise<void> {
	const cache = await caches.open(name);
	for (const path of paths) {
		if (!(await cache.match(path))) await cache.add(path);
	}
	// Some hosts send it as an answer that is none.
	const page = await fetch(fallback).catch(() => undefined);
	if (page) await cache.put(fallback, page);
}

worker.addEventListener('activate', (event) => {
	event.waitUntil(dropOld().then(() => worker.clients.claim()));
});

/** The build before stays: a window of it may be open still, and ask for what it has not used yet. */
async function dropOld(): Promise<void> {
	const others = (await caches.keys()).filter((each) => each.startsWith(prefix) && each !== name);
	await Promise.all(others.slice(0, -1).map((each) => caches.delete(each)));
}

worker.addEventListener('message', ({ data }) => {
	if (data === 'take over') void worker.skipWaiting();
});

worker.addEventListener('fetch', (event) => {
	const { request } = event;
	const { origin, pathname } = new URL(request.url);
	if (request.method !== 'GET' || origin !== worker.location.origin) return;
	event.respondWith(answer(request, pathname));
});

async function answer(request: Request, path: string): Promise<Response> {
	const cache = await caches.open(name);
	const kept = (await cache.match(path)) ?? (await caches.match(path));
	if (kept) return kept;
	try {
		return await fetch(request);
	} catch (cause) {
		if (request.mode !== 'navigate') throw cause;
		if (await cache.match(`${path}/`)) return Response.redirect(`${path}/`);
		const page = await cache.match(fallback);
		if (!page) throw cause;
		return page;
	}
}
