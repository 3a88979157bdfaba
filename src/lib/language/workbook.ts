/**
 * A workbook that has been read: its pages, its scenarios and its graph. Plain data, which says nothing of
 * how it came about.
 */
import type { Token } from 'marked';
import type { Quantities, UnitSystem } from '../units/quantities.ts';
import type { Graph } from './graph.ts';
import type { Cell } from './kinds/index.ts';
import type { DrawnNames } from './trade.ts';
import type { Problem } from './types.ts';

/**
 * How deep a section lies: on the first screen, or folded away as the reason why, a further tool, figures in
 * full, or a story; on its print alone; or on a card for the wall.
 */
export const depths = ['first', 'why', 'tool', 'figures', 'story', 'paper', 'card'] as const;
export type Depth = (typeof depths)[number];

export type PagePart =
	| {
			readonly part: 'prose';
			readonly tokens: readonly Token[];
			/** Where the rest of it stands among the words of the page that come later. */
			readonly later?: number;
	  }
	| { readonly part: 'cell'; readonly cell: Cell };

/** What stands from one heading to the next. */
export interface Section {
	/** Its heading as written, which is the first token of its first part; none above the first heading. */
	readonly title?: string;
	readonly depth: Depth;
	readonly parts: readonly PagePart[];
}

export interface Page {
	/** From its file name. */
	readonly id: string;
	readonly title: string;
	/** What it is called where there is little room. */
	readonly short: string;
	readonly summary: string;
	readonly document: string;
	readonly sections: readonly Section[];
	/** The parts of all sections. */
	readonly parts: readonly PagePart[];
	/** What is told of it in each scenario, by the scenario's id. */
	readonly stories: Readonly<Record<string, readonly Token[]>>;
}

export interface Scenario {
	readonly id: string;
	readonly title: string;
	readonly summary: string;
	readonly units: UnitSystem;
	/** What is typed for each input. */
	readonly values: Readonly<Record<string, string>>;
	/** Kits of parts its owner compared: what each sets, all else stock. */
	readonly options?:
		| readonly {
				readonly name: string;
				readonly values: Readonly<Record<string, string>>;
		  }[]
		| undefined;
}

/** What a person may come for. */
export interface Errand {
	readonly id: string;
	readonly title: string;
	/** What it takes, in a few words. */
	readonly about: string;
	/** Names of the inputs it asks for, in order. */
	readonly ask: readonly string[];
	/** Names of the figures that answer it. */
	readonly answer: readonly string[];
	/** Names of the checks that say what the answer means. */
	readonly checks: readonly string[];
	/** Id of the page that goes on from there. */
	readonly then: string;
}

/** A figure that stays in sight, and what it is called there. */
export interface Standing {
	readonly name: string;
	readonly caption: string;
}

export interface Workbook {
	/** Name of its folder. */
	readonly id: string;
	readonly title: string;
	readonly summary: string;
	/** Figures that stay in sight on every page. */
	readonly standing: readonly Standing[];
	/** Stand on every page. */
	readonly cautions: readonly string[];
	/** Ids of the pages whose sheets are handed over together, in order. */
	readonly packet: readonly string[];
	/** What a person may come for, in the order it is offered. */
	readonly errands: readonly Errand[];
	readonly quantities: Quantities;
	/** What its drawings are made from; none where nothing is drawn. */
	readonly drawing?: DrawnNames | undefined;
	readonly pages: readonly Page[];
	/** The first is shown first. */
	readonly scenarios: readonly Scenario[];
	readonly graph: Graph;
	/** Every mistake on its pages, in reading order. */
	readonly problems: readonly Problem[];
}

/** Every cell of a workbook, in reading order. */
export function cellsOf({ pages }: Pick<Workbook, 'pages'>): Cell[] {
	return pages.flatMap(({ parts }) =>
		parts.flatMap((part) => (part.part === 'cell' ? [part.cell] : [])),
	);
}
