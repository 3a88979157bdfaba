/**
 * What makes a workbook one of a trade: the language itself knows none. It is handed to the reader as one
 * value.
 */
import type { WorksheetFunction } from './function-row.ts';

export interface Trade {
	/** What its formulas may call beside plain mathematics. */
	readonly functions: readonly WorksheetFunction[];
}
