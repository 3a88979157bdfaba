/** The shipped workbook, its files bundled with the page. */
import { readWorkbook } from '../language/workbook.ts';
import { lowering } from '../trade/lowering.ts';

const files = import.meta.glob<string>('/workbooks/lowering/**/*.{md,yaml}', {
	query: '?raw',
	import: 'default',
	eager: true,
});

export const shipped = readWorkbook(
	'lowering',
	new Map(
		Object.entries(files).map(([path, text]) => [path.replace('/workbooks/lowering/', ''), text]),
	),
	lowering,
);
