/**
 * What is written can be read on what it is written on, light and dark, as paper.css has it. Contrast is that
 * of the Web Content Accessibility Guidelines 2.2: 4.5 for letters, 3 for lines that carry a meaning.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';

const paper = readFileSync(new URL('../../src/lib/sheet/paper.css', import.meta.url), 'utf8');

/** The tokens that are written as a colour in one rule of paper.css. */
function coloursIn(css: string): Map<string, string> {
	const found = css.matchAll(/--([a-z-]+): (#[0-9a-f]{6});/g);
	return new Map([...found].map(([, name = '', colour = '']) => [name, colour]));
}
const darkFrom = paper.indexOf('@media (prefers-color-scheme: dark)');
const forcedFrom = paper.indexOf('@media (forced-colors: active)');
const schemes = {
	light: coloursIn(paper.slice(0, darkFrom)),
	dark: coloursIn(paper.slice(darkFrom, forcedFrom)),
};

/** Relative luminance of a colour #rrggbb, 0 to 1. */
function luminance(colour: string): number {
	const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((at) => {
		const part = parseInt(colour.slice(at, at + 2), 16) / 255;
		return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
	});
	return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}
/** Contrast of two colours, 1 to 21. */
function contrast(one: string, other: string): number {
	const [a, b] = [luminance(one), luminance(other)];
	return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
}

test('contrast is that of the guidelines', () => {
	expect(contrast('#000000', '#ffffff')).toBeCloseTo(21);
	expect(contrast('#777777', '#ffffff')).toBeCloseTo(4.48, 2);
});

test('light and dark have the same tokens', () => {
	expect([...schemes.dark.keys()]).toEqual([...schemes.light.keys()]);
	expect(schemes.light.size).toBeGreaterThan(10);
});

const letters: Readonly<Record<string, readonly string[]>> = {
	line: ['paper', 'board', 'field', 'tint', 'band'],
	soft: ['paper', 'board', 'field', 'tint'],
	sepia: ['paper', 'board'],
	// What may be moved is on the sheet, never on the board.
	pencil: ['paper', 'field'],
	'band-text': ['band', 'paper'],
	// Reversed: the flag of a stop, the sheet that is open.
	paper: ['line'],
};
const lines: Readonly<Record<string, readonly string[]>> = {
	line: ['band'],
	soft: ['band'],
	sepia: ['band'],
	pencil: ['band', 'tint'],
	'band-text': ['band'],
};

describe.each(['light', 'dark'] as const)('%s', (scheme) => {
	const colour = (name: string): string => {
		const found = schemes[scheme].get(name);
		if (found === undefined) throw new Error(`paper.css has no colour --${name}, ${scheme}.`);
		return found;
	};
	const pairs = (table: typeof letters) =>
		Object.entries(table).flatMap(([over, unders]) => unders.map((under) => ({ over, under })));

	test.each(pairs(letters))('letters in $over can be read on $under', ({ over, under }) => {
		expect(contrast(colour(over), colour(under))).toBeGreaterThanOrEqual(4.5);
	});
	test.each(pairs(lines))('a line in $over can be seen on $under', ({ over, under }) => {
		expect(contrast(colour(over), colour(under))).toBeGreaterThanOrEqual(3);
	});
});
