/** Every measurement of how long something takes, as tables of ratios: computers differ, ratios much less. */
import { keystrokeTable } from './keystroke.ts';
import { lineRows } from './lines.ts';
import { machineInWords, tableOf } from './row.ts';
import { readingTable } from './reading.ts';
import { searchTable } from './search.ts';
import { shapeRows } from './shapes.ts';
import { sightRows } from './sight.ts';
import { springTable } from './spring.ts';

export function benchTables(): string {
	const rows = [...lineRows(), ...sightRows(), ...shapeRows()];
	return [
		machineInWords(),
		tableOf(rows),
		springTable(),
		keystrokeTable(),
		readingTable(),
		searchTable(),
	].join('\n\n');
}
