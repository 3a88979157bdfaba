/** The shipped pages and stories as text: whole, plain, linked, and with their cautions. */
import type { Token, Tokens } from 'marked';
import { describe, expect, test } from 'vitest';
import { jobFromScenario } from '../../src/lib/job/job.ts';
import { readingsOf } from '../../src/lib/job/reading.ts';
import type { Page } from '../../src/lib/language/workbook.ts';
import { shipped } from './shipped.ts';

const { graph, pages, scenarios } = shipped;
const ids = pages.map(({ id }) => id);

function tokensOf(page: Page): Token[] {
	return page.parts.flatMap((part) => (part.part === 'prose' ? part.tokens : []));
}

/** Every token below these, near and far. */
function below(tokens: readonly Token[]): Token[] {
	return tokens.flatMap((token) => {
		const parts: Token[] = [];
		if ('tokens' in token && token.tokens) parts.push(...token.tokens);
		if (token.type === 'list') parts.push(...(token as Tokens.List).items);
		if (token.type === 'table') {
			const table = token as Tokens.Table;
			for (const row of [table.header, ...table.rows]) {
				for (const cell of row) parts.push(...cell.tokens);
			}
		}
		return [token, ...below(parts)];
	});
}

/** Running text, without tables, headings and lists of a word or two. */
function sentencesOf(tokens: readonly Token[]): string {
	return tokens
		.flatMap((token) =>
			token.type === 'paragraph' || token.type === 'blockquote' || token.type === 'list'
				? [token.raw]
				: [],
		)
		.join('\n')
		.replace(/\{[a-z_0-9]+\}/g, 'two inches')
		.replace(/\]\([a-z-]+\)/g, '')
		.replace(/[*>[\]`|]/g, ' ');
}

/**
 * LIX of C. H. Björnsson (Läsbarhet, 1968; from memory): words to a sentence, and the share of words
 * of more than six letters in per cent. Under 40 is plain prose; from 50 it reads as officials write.
 */
function lix(text: string): number {
	const words = text.match(/[\p{L}\p{N}’'-]+/gu) ?? [];
	const ends = text.match(/[.!?:](?=\s|$)/g) ?? [];
	const long = words.filter((word) => word.replace(/[^\p{L}]/gu, '').length > 6);
	return words.length / Math.max(1, ends.length) + (100 * long.length) / words.length;
}

test('the workbook has no mistake', () => {
	expect(shipped.problems).toEqual([]);
});

test('all thirteen sheets of a job are there, in the order they are worked through', () => {
	expect(ids).toEqual([
		'bench',
		'measure',
		'stance',
		'spring',
		'why',
		'angles',
		'wedge',
		'shaft',
		'speed',
		'travel',
		'front',
		'kits',
		'order',
	]);
});

describe.each(pages.map((page) => ({ id: page.id, page })))('$id', ({ page }) => {
	const tokens = tokensOf(page);
	const all = below(tokens);

	test('links only to sheets that there are', () => {
		const links = all.flatMap((token) =>
			token.type === 'link' ? [(token as Tokens.Link).href] : [],
		);
		expect(links.filter((href) => !ids.includes(href))).toEqual([]);
	});

	test('reads as plain prose', () => {
		expect(lix(sentencesOf(tokens))).toBeLessThan(40);
	});

	test('has a chart, a table or a list to look at', () => {
		const kinds = page.parts.map((part) => (part.part === 'cell' ? part.cell.kind : ''));
		const looked =
			kinds.some((kind) => ['chart', 'bars', 'compare', 'search', 'overview'].includes(kind)) ||
			tokens.some(({ type }) => type === 'table');
		expect(looked).toBe(true);
	});

	test('is told in a dozen sentences at most in every scenario, and they end in a decision', () => {
		for (const scenario of scenarios) {
			const told = (page.stories[scenario.id] ?? []).filter(({ type }) => type !== 'space');
			expect(told.length).toBeGreaterThan(1);
			expect(told.at(-1)?.raw).toMatch(/^\*\*Decision\.\*\* /);
			expect(lix(sentencesOf(told))).toBeLessThan(40);
			const ends =
				sentencesOf(told)
					.replace('Decision.', '')
					.match(/[.!?](?=\s|$)/g) ?? [];
			expect(ends.length, scenario.id).toBeLessThanOrEqual(12);
		}
	});
});

/** Where a kind of work can hurt someone, what the caution there has to speak of. */
test.each([
	['bench', /brakes/],
	['bench', /U-bolt/],
	['bench', /load comes off before/],
	['measure', /never under the frame/],
	['measure', /Chock the wheels/],
	['spring', /eye bolt/],
	['angles', /shakes/],
	['wedge', /U-bolts/],
	['shaft', /Chock the wheels/],
	['speed', /whirl|balance/i],
	['travel', /weld|hose/i],
	['front', /compress/i],
	['kits', /never put a block on the front axle/],
	['order', /too long/],
])('the caution of %s that speaks of %s stands on its sheet', (id, words) => {
	const page = pages.find((each) => each.id === id);
	const cautions = page
		? tokensOf(page).flatMap(({ type, raw }) => (type === 'blockquote' ? [raw] : []))
		: [];
	expect(cautions.join('\n')).toMatch(/\*\*Caution\.\*\*/);
	expect(cautions.join('\n')).toMatch(words);
});

test('the cautions for every sheet speak of the jack, the spring and the rules of the place', () => {
	const said = shipped.cautions.join('\n');
	for (const words of [/jack/, /leaf spring under load/, /licensed/]) expect(said).toMatch(words);
});

describe.each(scenarios.map((scenario) => ({ id: scenario.id, scenario })))(
	'the scenario $id',
	({ scenario }) => {
		const readings = readingsOf(graph, jobFromScenario(shipped, scenario, new Date('2026-11-25')));

		test('says that it is invented', () => {
			expect(scenario.summary).toMatch(/invented/);
		});

		test('gives every entry but what starts as another, each one readable', () => {
			const bare = [...readings].flatMap(([name, { standing, problem }]) => {
				const follows = graph.byId.get(name)?.input?.startsAs !== undefined;
				return problem || (standing !== 'scenario' && !follows)
					? [`${name}: ${problem ?? standing}`]
					: [];
			});
			expect(bare).toEqual([]);
		});

		test('gives nothing unusual', () => {
			expect([...readings].flatMap(([name, { caution }]) => (caution ? [name] : []))).toEqual([]);
		});
	},
);
