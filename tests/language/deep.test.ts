/** A page that goes deeper into itself than anybody reads: said with its place, the rest of it read. */
import { expect, test } from 'vitest';
import { readPage } from '../../src/lib/language/page.ts';

const head = '---\ntitle: T\nsummary: S\ndocument: D\n---\n';

test.each([
	['quotes', '> '.repeat(300)],
	['lists', '- '.repeat(120)],
	['far more than a reader can follow', '> '.repeat(20_000)],
])('%s in themselves are left out with a sentence', (_, deep) => {
	const { problems, sections } = readPage('own', `${head}Before.\n\n${deep}x\n`);
	expect(problems.map(({ message }) => message)).toContainEqual(
		expect.stringMatching(/more than 20 deep, and it is left out\. Write it flatter\.$/),
	);
	expect(JSON.stringify(sections).length).toBeLessThan(2000);
});

test('what people write is not deep', () => {
	const nested = Array.from({ length: 6 }, (_, at) => `${'  '.repeat(at)}- item *and **bold***`);
	expect(readPage('own', `${head}> > quote\n\n${nested.join('\n')}\n`).problems).toEqual([]);
});
