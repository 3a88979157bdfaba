/** The words of function rows: all of them as data, none in what comes with every sheet. */
import { parseAst } from 'vite';
import { expect, test } from 'vitest';
import { functionsInWords } from '../../src/commands/function-words.ts';
import { emptied } from '../../src/commands/without-function-words.ts';

test('only the words of a row go: its names, kinds and choices stay', () => {
	const code = [
		"const shackle = record('shackle angle', { lean: ['lean', angle, 'from plumb'] });",
		"const stands = choice('hanging', 'standing');",
		"const three = ['one', 'two', 'three'];",
		"const rows = [row({ name: 'turned', about: 'It turns.', source: geometry, example: 'turned(1)',",
		"	takes: [['by', angle, 'how far'], ['which', stands, 'which way']], gives: shackle, run: turned })];",
	].join('\n');
	expect(emptied(code, parseAst(code))).toBe(
		[
			"const shackle = record('shackle angle', { lean: ['lean', angle, ''] });",
			"const stands = choice('hanging', 'standing');",
			"const three = ['one', 'two', 'three'];",
			"const rows = [row({ name: 'turned', about: '', source: '', example: '',",
			"	takes: [['by', angle, ''], ['which', stands, '']], gives: shackle, run: turned })];",
		].join('\n'),
	);
});

test('every function says what it is, where it comes from, and how it is called', () => {
	const functions = functionsInWords();
	expect(functions.length).toBeGreaterThan(80);
	for (const { name, about, source, example } of functions) {
		expect(about, name).toMatch(/\.$/);
		expect(source, name).not.toBe('');
		expect(example.startsWith(`${name}(`), name).toBe(true);
	}
	expect(functions.find(({ name }) => name === 'shackle_angle')).toMatchObject({
		parameters: [{ name: 'mount', type: expect.stringMatching(/mount/) }, { name: 'place' }],
		fields: expect.arrayContaining([expect.objectContaining({ name: 'lean', type: 'angle' })]),
	});
});
