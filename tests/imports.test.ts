/**
 * Which room of src/lib may use which: only those above it in this list. It is what keeps the mechanics free
 * of the program, the language free of the trade, and everything that reacts in one place.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

const rooms = [
	'mechanics',
	'units',
	'drafting',
	'language',
	'engine',
	'trade',
	'job',
	'answers',
	'desk',
	'cells',
	'sheet',
];
/** What else is asked of a room: the mechanics use nothing at all, and the language knows no trade. */
const never: Readonly<Record<string, readonly string[]>> = {
	mechanics: rooms,
	units: ['mechanics'],
	drafting: ['mechanics', 'units'],
	cells: ['mechanics', 'trade'],
	sheet: ['mechanics'],
};

const library = fileURLToPath(new URL('../src/lib/', import.meta.url));
const files = readdirSync(library, { recursive: true, encoding: 'utf8' })
	.filter((file) => /\.(ts|svelte|css)$/.test(file))
	.map((file) => file.split(sep).join('/'));

/** The room of a file below src/lib; undefined for what lies outside. */
function roomOf(path: string): string {
	return path.split('/')[0] ?? '';
}

/** What a file imports from src/lib, as paths below it. */
function importsOf(file: string): string[] {
	const text = readFileSync(join(library, file), 'utf8');
	const found = text.matchAll(
		/(?:from\s+|import\s*\(?\s*|@import\s+|new URL\(\s*)['"]([^'"]+)['"]/g,
	);
	return [...found].flatMap(([, written = '']) => {
		if (written.startsWith('$lib/')) return [written.slice('$lib/'.length)];
		if (!written.startsWith('.')) return [];
		const path = relative(library, resolve(library, dirname(file), written));
		return [path.split(sep).join('/')];
	});
}

test('every file stands in a room', () => {
	expect(files.length).toBeGreaterThan(100);
	expect(files.filter((file) => !rooms.includes(roomOf(file)))).toEqual([]);
});

test.each(rooms)('%s uses only what stands below it', (room) => {
	const allowed = rooms
		.slice(0, rooms.indexOf(room) + 1)
		.filter((other) => other === room || !never[room]?.includes(other));
	const wrong = files
		.filter((file) => roomOf(file) === room)
		.flatMap((file) =>
			importsOf(file)
				.filter((path) => !allowed.includes(roomOf(path)))
				.map((path) => `${file} imports ${path}`),
		);
	expect(wrong).toEqual([]);
});

/** Packages each of which is used in one place, so that it can be left out of a visit or replaced. */
test.each([
	['mathjs', /^language\/parser\.ts$/],
	['idb', /^desk\//],
	['chart.js', /^cells\//],
])('%s is used only where it belongs', (name, where) => {
	const users = files.filter((file) =>
		new RegExp(`from ['"]${name.replace('.', '\\.')}(?:/[^'"]*)?['"]`).test(
			readFileSync(join(library, file), 'utf8'),
		),
	);
	expect(users.length).toBeGreaterThan(0);
	expect(users.filter((file) => !where.test(file))).toEqual([]);
});
