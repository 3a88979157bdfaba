/**
 * What script a browser fetches, compressed as it is sent (Brotli), until it can work out the first figure of a sheet: what stands
 * in the page, what the page names, all that those import, and the words of the sheet. What is asked for later,
 * as a chart's, does not count. Ends with an exit code of 1 when a sheet is heavier than it may be.
 */
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { brotliCompressSync } from 'node:zlib';
import { buildFolder } from '../../src/commands/building.js';

/** In thousands of bytes. What is aimed at is 150. */
const limit = 154;

const inPage = /<script[^>]*>([^]*?)<\/script>/g;
const namedByPage = /<(?:link[^>]* href="([^"]+\.js)"[^>]*|script[^>]* src="([^"]+)"[^>]*)>/g;
const imported = /(?:\bfrom|\bimport)\s*["'`]([^"'`]+\.js)["'`]/g;

/**
 * What a program loads of a sheet by its name, with the file it is in: its words, and what comes later.
 * @param {string} sheet
 */
const loadedOf = (sheet) =>
	new RegExp(`["'\`]?\\b${sheet}["'\`]?:\\(\\)=>[^,]{0,40}\\bimport\\(["'\`]([^"'\`]+)`, 'g');

/** @param {string | Buffer} content */
const weigh = (content) => brotliCompressSync(content).length / 1000;

/**
 * @param {string} script
 * @param {Set<string>} found gets this one and all that has to be there before it can run
 */
function follow(script, found) {
	if (found.has(script)) return;
	found.add(script);
	for (const [, other = ''] of readFileSync(script, 'utf8').matchAll(imported)) {
		follow(join(dirname(script), other), found);
	}
}

/** @param {string} sheet */
function weightOf(sheet) {
	const page = readFileSync(join(buildFolder, sheet, 'index.html'), 'utf8');
	/** @type {Set<string>} */
	const scripts = new Set();
	for (const [, link, source] of page.matchAll(namedByPage)) {
		follow(join(buildFolder, sheet, link ?? source ?? ''), scripts);
	}
	if (scripts.size === 0) throw new Error(`The page of ${sheet} names no script.`);
	for (const script of [...scripts]) {
		for (const [, loaded = ''] of readFileSync(script, 'utf8').matchAll(loadedOf(sheet))) {
			const file = join(dirname(script), loaded);
			// Its words begin with their prose; its stories and its text wait.
			if (readFileSync(file, 'utf8').includes('{"prose":')) follow(file, scripts);
		}
	}
	const parts = [
		...[...scripts].map((script) => readFileSync(script)),
		...[...page.matchAll(inPage)].map(([, script = '']) => script),
	];
	return parts.reduce((sum, part) => sum + weigh(part), 0);
}

const sheets = readdirSync(buildFolder)
	.filter((name) => existsSync(join(buildFolder, name, 'index.html')))
	.map((sheet) => ({ sheet, kilobytes: weightOf(sheet) }))
	.sort((a, b) => b.kilobytes - a.kilobytes);

const [heaviest] = sheets;
if (!heaviest) throw new Error('Nothing is built.');
console.log(
	`${heaviest.kilobytes.toFixed(0)} kB of script, compressed, until the first figure of ${heaviest.sheet}; it may be ${limit.toString()}`,
);
process.exitCode = heaviest.kilobytes <= limit ? 0 : 1;
