/** Every measurement of how long something takes, as tables of ratios: computers differ, ratios much less. */
import { keystrokeTable } from './keystroke.ts';
import { lineRows } from './lines.ts';
import { machineInWords, tableOf } from './row.ts';
import { readingTable } from './reading.ts';
import { searchTable } from './search.ts';
import { shapeRows } from './shapes.ts';
import { sightRows } from './sight.ts';
import { springTable } from './spring.ts';

const tables: Readonly<Record<string, () => string>> = {
	lines: () => tableOf(lineRows()),
	sight: () => tableOf(sightRows()),
	shapes: () => tableOf(shapeRows()),
	spring: springTable,
	keystroke: keystrokeTable,
	reading: readingTable,
	search: searchTable,
};

/**
 * @param wanted names of tables; all of them when there are none
 * @throws RangeError for one that there is not
 */
export function benchTables(wanted: readonly string[] = []): string {
	const names = wanted.length > 0 ? wanted : Object.keys(tables);
	const made = names.map((name) => {
		const table = tables[name];
		if (table) return table();
		const known = Object.keys(tables).join(', ');
		throw new RangeError(`There is no table “${name}”. There are ${known}.`);
	});
	return [machineInWords(), ...made].join('\n\n');
}
