/** Where the parts of a page go on its sheet: what is seen, what is asked, what it says, and what is folded. */
import { isDrawn, isView } from '$lib/cells/later.ts';
import type { Cell } from '$lib/language/kinds/index.ts';
import type { CheckCell } from '$lib/language/kinds/check.ts';
import type { InputCell } from '$lib/language/kinds/input.ts';
import type { Page, PagePart, Section } from '$lib/language/workbook.ts';

/** A folded section: one line until it is opened. */
export interface Folded {
	/** Its address on the sheet. */
	readonly id: string;
	readonly title: string;
	readonly depth: Section['depth'];
	readonly parts: readonly PagePart[];
}

/** One line for several folded sections of a kind, so that what comes after them stays in reach. */
export interface Bundle {
	readonly id: string;
	readonly title: string;
	readonly of: readonly Folded[];
}

export interface Layout {
	/** What is looked at, the drawing first. */
	readonly views: readonly Cell[];
	/** Entries that a drawing asks for, in the order they are taken: the drawing is their form. */
	readonly readings: readonly InputCell[];
	/** All that a drawing of the page asks for, wherever they stand on it. */
	readonly everyReading: readonly InputCell[];
	/** Words, entries and what is to be found. */
	readonly asked: readonly PagePart[];
	/** Names of the entries that its drawings move, where they stand on other pages. */
	readonly moved: readonly string[];
	readonly checks: readonly CheckCell[];
	readonly folded: readonly Folded[];
	/** The same as they stand on the sheet: one by one, or by their kind where there are many. */
	readonly drawers: readonly (Folded | Bundle)[];
	/** Every figure of the page, worked out. */
	readonly figures: readonly PagePart[];
	/** What stands on its print alone. */
	readonly paper: readonly PagePart[];
	/** What stands on its card for the wall; none where it has no such section. */
	readonly card: { readonly title: string; readonly parts: readonly PagePart[] } | undefined;
	/** Address of the first reason why. */
	readonly why: string | undefined;
}

export function layOut({ sections, parts }: Page): Layout {
	const first = sections.filter(({ depth }) => depth === 'first').flatMap(({ parts }) => parts);
	const cells = first.flatMap((part) => (part.part === 'cell' ? [part.cell] : []));
	const views = cells.filter(isView);
	const folded = foldedOf(sections);
	const own = new Set(parts.flatMap((part) => (part.part === 'cell' ? [part.cell.name] : [])));
	const order = cells.flatMap((cell) => (cell.kind === 'drawing' ? cell.ask : []));
	const everyReading = parts
		.flatMap((part) => (part.part === 'cell' && part.cell.kind === 'input' ? [part.cell] : []))
		.filter(({ name }) => order.includes(name))
		.sort((a, b) => order.indexOf(a.name) - order.indexOf(b.name));
	const readings = everyReading.filter((cell) => cells.includes(cell));
	const why = sections.find(({ depth }) => depth === 'why');
	return {
		views: [...views.filter(isDrawn), ...views.filter((view) => !isDrawn(view))],
		readings,
		everyReading,
		asked: first.filter(
			(part) =>
				part.part === 'prose' ||
				!(
					isView(part.cell) ||
					['check', 'derive'].includes(part.cell.kind) ||
					order.includes(part.cell.name)
				),
		),
		moved: views
			.filter(({ kind }) => kind === 'drawing')
			.flatMap(({ mentions }) =>
				mentions.flatMap(({ name, must }) => (must === 'entry' ? [name] : [])),
			)
			.filter((name, index, all) => all.indexOf(name) === index && !own.has(name)),
		checks: cells.filter((cell) => cell.kind === 'check'),
		folded,
		drawers: drawersOf(folded),
		figures: sections.flatMap(({ depth, parts }) =>
			depth === 'figures' ? parts : parts.filter(isDerive),
		),
		paper: sections.flatMap(({ depth, parts }) => (depth === 'paper' ? parts : [])),
		card: cardOf(sections),
		why: why && folded.find(({ title }) => title === why.title)?.id,
	};
}

/** Names of the entries that have their fields on a sheet, in the order they stand there. */
export function entriesOf({ readings, moved, asked, folded }: Layout): string[] {
	const named = (parts: readonly PagePart[]): string[] =>
		parts.flatMap((part) =>
			part.part === 'cell' && part.cell.kind === 'input' ? [part.cell.name] : [],
		);
	return [
		...readings.map(({ name }) => name),
		...moved,
		...named(asked),
		...folded.flatMap(({ parts }) => named(parts)),
	];
}

function cardOf(sections: readonly Section[]): Layout['card'] {
	const card = sections.find(({ depth }) => depth === 'card');
	return card && { title: card.title ?? '', parts: withoutHeading(card.parts) };
}

/** What holds a cell, by its name or the name of what it gives; undefined for what is not folded. */
export function foldedWith({ folded, figures }: Layout, name: string): string | undefined {
	const holds = (parts: readonly PagePart[]): boolean =>
		parts.some(
			(part) =>
				part.part === 'cell' &&
				(part.cell.name === name || part.cell.gives.some((given) => given.name === name)),
		);
	return holds(figures) ? figuresAddress : folded.find(({ parts }) => holds(parts))?.id;
}

export const figuresAddress = 'all-figures';

function isDerive(part: PagePart): boolean {
	return part.part === 'cell' && part.cell.kind === 'derive';
}

function foldedOf(sections: readonly Section[]): Folded[] {
	const taken = new Map<string, number>();
	return sections
		.filter(({ depth }) => !['first', 'figures', 'paper', 'card'].includes(depth))
		.flatMap(({ title = '', depth, parts }) => {
			const inside = withoutHeading(parts.filter((part) => !isDerive(part)));
			if (inside.length === 0) return [];
			const plain = title
				.toLowerCase()
				.replace(/[^a-z0-9]+/g, '-')
				.replace(/^-|-$/g, '');
			const times = (taken.get(plain) ?? 0) + 1;
			taken.set(plain, times);
			const id = times === 1 ? plain : `${plain}-${times.toString()}`;
			return [{ id, title, depth, parts: inside }];
		});
}

/** More sections of a kind than this stand behind one line. */
const mostOfAKind = 3;
const bundleTitles: Partial<Record<Section['depth'], string>> = {
	why: 'Why',
	tool: 'Further tools',
};

function drawersOf(folded: readonly Folded[]): (Folded | Bundle)[] {
	return folded.flatMap((each): (Folded | Bundle)[] => {
		const title = bundleTitles[each.depth];
		const of = folded.filter(({ depth }) => depth === each.depth);
		if (title === undefined || of.length <= mostOfAKind) return [each];
		return of[0] === each ? [{ id: `all-${each.depth}`, title, of }] : [];
	});
}

/** The heading stands on the drawer, so it is not said again inside. */
function withoutHeading(parts: readonly PagePart[]): readonly PagePart[] {
	const [head, ...rest] = parts;
	if (head?.part !== 'prose' || head.tokens[0]?.type !== 'heading') return parts;
	const tokens = head.tokens.slice(1);
	const more = head.later !== undefined || tokens.some(({ type }) => type !== 'space');
	return more ? [{ ...head, tokens }, ...rest] : rest;
}
