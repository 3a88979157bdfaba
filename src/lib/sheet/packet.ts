/** Which sheets are handed over together. */
import type { Page, Workbook } from '$lib/language/workbook.ts';
import type { Component } from 'svelte';
import type { Layout } from './layout.ts';

/** What a sheet on the screen is made of, lent to those on paper, which come later and load none of it anew. */
export interface PaperParts {
	readonly SheetBody: Component<{ page: Page; layout: Layout; folded?: boolean }>;
	readonly TitleBlock: Component<{
		page: Page;
		number: number;
		of?: number;
		title?: string | undefined;
	}>;
	readonly layOut: (page: Page) => Layout;
}

/** A sheet of the packet. */
export interface Leaf {
	/** A sheet as it prints by itself, the readings of its drawing, or its card for the wall. */
	readonly kind: 'sheet' | 'readings' | 'card';
	readonly page: Page;
	readonly layout: Layout;
	/** What it is called, where that is not the page's own. */
	readonly title?: string | undefined;
}

/** The leaves of a workbook's packet, in order: a page whose drawing asks for readings gives its card and those. */
export function leavesOf(
	{ packet, pages }: Pick<Workbook, 'packet' | 'pages'>,
	layOut: PaperParts['layOut'],
): Leaf[] {
	return packet.flatMap((id): Leaf[] => {
		const page = pages.find((each) => each.id === id);
		if (!page) return [];
		const layout = layOut(page);
		if (layout.everyReading.length === 0) return [{ kind: 'sheet', page, layout }];
		return [
			...(layout.card ? [{ kind: 'card' as const, page, layout, title: layout.card.title }] : []),
			{ kind: 'readings', page, layout, title: 'Measurements' },
		];
	});
}
