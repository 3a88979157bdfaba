/** Every measurement of how long something takes, as tables of ratios: computers differ, ratios much less. */
import { keystrokeTable } from './keystroke.ts';
import { readingTable } from './reading.ts';
import { searchTable } from './search.ts';

export function benchTables(): string {
	return [keystrokeTable(), readingTable(), searchTable()].join('\n\n');
}
