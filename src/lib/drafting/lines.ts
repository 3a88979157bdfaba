/** The lines of a drawing: one table for the screen, for a saved file and for keeping lettering clear. */

export type LineKind =
	'planned' | 'outline' | 'before' | 'edge' | 'axis' | 'unmeasured' | 'movable' | 'bare';

/** The inks, named as the colours of the sheet are. */
export type Ink = 'line' | 'soft' | 'pencil' | 'sepia' | 'band' | 'band-text' | 'rule' | 'paper';

export interface LineLook {
	/** px, whatever the scale. */
	readonly width: number;
	/** Dash and gap, px; none is a full line. */
	readonly dash?: readonly number[];
	readonly ink: Ink;
}

/** Line types after ISO 128-2; the widths are LOOK's. */
export const lineLooks: Readonly<Record<LineKind, LineLook>> = {
	planned: { width: 2.6, ink: 'line' },
	outline: { width: 1.6, ink: 'line' },
	before: { width: 1, dash: [6, 3], ink: 'soft' },
	edge: { width: 0.8, ink: 'line' },
	axis: { width: 0.75, dash: [14, 3, 2, 3], ink: 'soft' },
	unmeasured: { width: 0.8, dash: [14, 3, 2, 3, 2, 3], ink: 'soft' },
	movable: { width: 2, ink: 'pencil' },
	/** No line at all: the edge of a filled field. */
	bare: { width: 0, ink: 'line' },
};

/** Lines that no lettering may cross. */
export function isHeavy(kind: LineKind): boolean {
	return lineLooks[kind].width >= 1.6;
}
