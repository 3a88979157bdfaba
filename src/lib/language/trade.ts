/**
 * What makes a workbook one of a trade: the language itself knows none. It is handed to the reader as one
 * value.
 */
import type { Drawing, Paper } from '../drafting/paper.ts';
import type { Shown, UnitSystem } from '../units/quantities.ts';
import type { WorksheetFunction } from './function-row.ts';
import type { Mention, Value } from './types.ts';

export interface Trade {
	/** What its formulas may call beside plain mathematics. */
	readonly functions: readonly WorksheetFunction[];
	/** Its drawing to scale; a trade without one has no cells of the kind `drawing`. */
	readonly drawing?: TradeDrawing;
}

/** What a cell of the kind `drawing` may ask for, and how it is drawn. */
export interface TradeDrawing extends DrawingWords {
	/**
	 * Two crops for a screen too narrow for one, each with its word and whether it is shown first; none for a crop
	 * that is never divided.
	 */
	narrowCrops(
		crop: string,
	): readonly { readonly crop: string; readonly label: string; readonly first: boolean }[];
	/** The crop of all of it, and of what a small drawing has room for. */
	readonly whole: string;
	readonly small: string;
	/** Keys of the dimensions that say at first sight what a job did. */
	readonly foremost: readonly string[];
	/** The crop of a form there, as far as what is asked for lies in it; and of a closer look where a job moves most. */
	readonly narrowForm: string;
	/** How high a crop stands on paper, px of 96 to the inch, 650 wide: what it needs, and the page has other needs. */
	heightOnPaper(crop: string, form: boolean): number;
	/** Lays out what is asked for. */
	draw(asked: DrawingAsked): Drawn;
	/** One sentence that says what a handle did: the entry, and what came of it. */
	says(asked: DrawingAsked, entry: string): string;
}

/** The words a cell and workbook.yaml may use. */
export interface DrawingWords {
	readonly crops: readonly string[];
	/** States that may be shown, each a section of workbook.yaml. */
	readonly states: readonly string[];
	/**
	 * Sections under `drawing` in workbook.yaml: by key, what the names that stand there have to be. The names
	 * under `handles` may be moved by a cell, those under `dimensions` may be dimensioned, and those under
	 * `readings` and `dimensions` may be asked for.
	 */
	readonly sections: Readonly<Record<string, Readonly<Record<string, DrawnName>>>>;
}

export interface DrawnName {
	readonly must: Mention['must'];
	readonly like?: string;
}

/** Names of a workbook that its drawings are made from, by section and key. */
export type DrawnNames = Readonly<Record<string, Readonly<Record<string, readonly string[]>>>>;

/** Which of two is held still while a drawing moves. */
export type HeldStill = 'frame' | 'floor';

/** What a drawing is asked to show. */
export interface DrawingAsked {
	/** Of its box, px. */
	readonly width: number;
	readonly height: number;
	readonly crop: string;
	readonly still: HeldStill;
	readonly system: UnitSystem;
	/** Of the trade's states. */
	readonly show: readonly string[];
	/** Inputs that get handles. */
	readonly move: readonly string[];
	/** Names that are dimensioned, the most important first. */
	readonly dimension: readonly string[];
	readonly detail: boolean;
	/** Inputs that get a box each, in the order they are read; without any there are no boxes. */
	readonly ask?: readonly string[];
	/** Inputs that get a ring round their place. */
	readonly mark?: readonly string[];
	/** Boxes that are only numbered circles, whatever the width. */
	readonly numbered?: boolean;
	/** For paper that is filled in by hand: numbered circles, as if nothing had been read. */
	readonly blank?: boolean;
	/** False for a drawing too small to letter. */
	readonly lettered: boolean;
	/** True for one of several under one heading: what is alike in all of them is not lettered on each. */
	readonly brief?: boolean;
	/** True in print, where a CSS inch is an inch. */
	readonly paper?: boolean;
	readonly names: DrawnNames;
	/** What is known of a name; undefined for a name that there is none of. */
	readonly figure: (name: string) => DrawnFigure | undefined;
	/** Other ways to do the job, laid over what is shown: each with its letter and its own figures. */
	readonly laid?: readonly { readonly letter: string; readonly figure: DrawingAsked['figure'] }[];
	/** What was drawn last, to keep its scale and places while something is moved. */
	readonly keep?: Drawn | undefined;
	/** True where nothing is moved, and places are kept only so that boxes do not jump about. */
	readonly resting?: boolean;
}

/** What is known of one name. */
export interface DrawnFigure {
	readonly label: string;
	/** SI; none where it has failed. */
	readonly value?: Value | undefined;
	readonly why?: 'not entered' | 'out of range' | 'mistake on the page' | undefined;
	readonly plusMinus?: number | undefined;
	/** How its amounts are shown. */
	readonly shown?: Shown | undefined;
	/** How an input stands, and how far it may go, SI; none for a figure. */
	readonly input?: {
		/** False where its value is assumed or missing. */
		readonly entered: boolean;
		/** True where what was typed cannot be read. */
		readonly unreadable?: boolean;
		readonly least: number;
		readonly most: number;
	};
}

export interface Drawn {
	/** Undefined where nothing can be drawn yet. */
	readonly drawing?: Drawing;
	/** What the drawing had no room for, to stand under it. */
	readonly details?: Paper;
	/** A sentence that says what is drawn. */
	readonly title: string;
	/** Names without a value that keep a state from being drawn. */
	readonly waits: readonly string[];
	/** The input of each handle, by the handle's name. */
	readonly entries: Readonly<Record<string, string>>;
	/** An input that is moved along beside the drawing, and how far it goes, SI. */
	readonly slider?: {
		readonly input: string;
		readonly value: number;
		readonly least: number;
		readonly most: number;
		readonly words: {
			readonly name: string;
			readonly value: string;
			readonly droop: string;
			readonly bump: string;
			readonly play: string;
			readonly stop: string;
		};
	};
}
