/** Every measurement of how long something takes, as tables of ratios: computers differ, ratios much less. */
import { keystrokeTable } from './keystroke.ts';
import { searchTable } from './search.ts';
import { springTable } from './spring.ts';

export function benchTables(): string {
	return [springTable(), keystrokeTable(), searchTable()].join('\n\n');
}
