import { hashOf, sources } from './src/commands/source-hash.js';
import adapter from '@sveltejs/adapter-static';
import { vitePreprocess } from '@sveltejs/vite-plugin-svelte';

/** @type {import('@sveltejs/kit').Config} */
export default {
	preprocess: vitePreprocess(),
	kit: {
		// By default it is the time of day, which every tool that reads this file writes anew between the sources and
		// what is built: pages built while tests began did not know their own scripts.
		version: { name: hashOf(sources).slice(0, 16) },
		adapter: adapter({
			pages: process.env['BUILD_INTO'] ?? 'build',
			fallback: '404.html',
			// A phone in a shop fetches a third of it, from our own command and from any host that looks for such files.
			precompress: true,
		}),
		// Formulas are compiled to closures, never to source text, so no script but our own files
		// (and the one inline start-up script, by its hash) ever needs to run.
		csp: {
			mode: 'hash',
			directives: {
				'default-src': ['self'],
				'script-src': ['self'],
				'style-src': ['self'],
				// A page as it is written has the widths and places of its parts in attributes, there before any script is.
				// No text of a person or a file comes into one, and no <style> that is not ours is taken.
				'style-src-attr': ['unsafe-inline'],
				'img-src': ['self', 'data:', 'blob:'],
				'object-src': ['none'],
				'base-uri': ['none'],
				'form-action': ['none'],
			},
		},
	},
};
