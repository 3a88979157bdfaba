/**
 * What makes a workbook one of a trade: the language itself knows none. It is handed to the reader as one
 * value.
 */
import type { WorksheetFunction } from './function-row.ts';
import type { Value } from './types.ts';

export interface Trade {
	/** What its formulas may call beside plain mathematics. */
	readonly functions: readonly WorksheetFunction[];
	/** Its drawing to scale; a trade without one has no cells of the kind `drawing`. */
	readonly drawing?: TradeDrawing;
}

/** What a cell of the kind `drawing` has to name, and how it is drawn. */
export interface TradeDrawing extends DrawingParts {
	/** Shown below it: what it is drawn from, and how it is seen. */
	readonly about: string;
	/** Read in its place: a sentence with names of `write` in braces. */
	readonly inWords: string;
	/**
	 * The lines of both states on one paper.
	 * @param before what was there, and
	 * @param after what will be: a value for each of `parts`, SI
	 * @param rake how far the frame turns on the floor between them, nose-up positive
	 */
	scene(
		before: Readonly<Record<string, Value>>,
		after: Readonly<Record<string, Value>>,
		rake: number,
	): Scene;
}

/** The names a cell of the kind `drawing` gives its figures for. */
export interface DrawingParts {
	/** What is drawn of one state: each part with the kind of record it has to be, '' for a quantity. */
	readonly parts: Readonly<Record<string, string>>;
	/** What is written into it, one quantity each. */
	readonly write: readonly string[];
}

/** A place on the paper, m on the truck, x to the right and y down. */
export interface ScenePlace {
	readonly x: number;
	readonly y: number;
}

/** What is drawn, as shapes that know nothing of what they show. Sizes are those of the real thing, m. */
export interface Scene {
	/** The paper that holds all of it. */
	readonly extent: {
		readonly x: number;
		readonly y: number;
		readonly width: number;
		readonly height: number;
	};
	/** Height of one line of lettering. */
	readonly step: number;
	readonly strokes: readonly SceneStroke[];
	readonly circles: readonly SceneCircle[];
	readonly notes: readonly SceneNote[];
	readonly dimensions: readonly SceneDimension[];
}

/** Of what was there, thin and dashed, or of what will be. */
export type SceneState = 'was' | 'will';
/** An axis is a chain line; a heavy line is what matters most. */
export type SceneWeight = 'axis' | 'thin' | 'outline' | 'heavy';

export interface SceneStroke {
	/** Two places or more. */
	readonly points: readonly ScenePlace[];
	readonly state: SceneState;
	readonly weight: SceneWeight;
	/** Whether its end is joined to its beginning. */
	readonly closed?: boolean;
}

export interface SceneCircle {
	readonly at: ScenePlace;
	readonly radius: number;
	readonly state: SceneState;
	readonly weight: SceneWeight;
	/** Whether it hides what lies below it, as an eye or a bolt does. */
	readonly filled?: boolean;
}

/** A figure written beside what it is of. */
export interface SceneNote {
	readonly at: ScenePlace;
	/** Which of `write`. */
	readonly write: string;
	/** How far it is turned, clockwise on the paper, rad; upright when left out. */
	readonly turn?: number;
}

/** A distance between two places, straight up and down or straight across. */
export interface SceneDimension {
	readonly from: ScenePlace;
	readonly to: ScenePlace;
	/** Whether it is measured across (x) or up and down (y). */
	readonly along: 'x' | 'y';
	/** Where its line stands: the y of one across, the x of one up and down. */
	readonly at: number;
	/** Which of `write`. */
	readonly write: string;
}
