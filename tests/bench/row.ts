/** The summary of what has been measured: ratios, and what they are to reach. */
import { cpus } from 'node:os';

export interface Row {
	readonly what: string;
	readonly against: string;
	readonly ratio: number;
	readonly reach?: number;
	/** Whether more is better; else less is. */
	readonly more?: boolean;
}

/** The machine in words: a ratio differs little from one to the next, but it does. */
export function machineInWords(): string {
	const [first] = cpus();
	return `${first?.model ?? 'a processor'}, ${cpus().length} at once, node ${process.version}`;
}

export function tableOf(rows: readonly Row[]): string {
	const wide = (of: (row: Row) => string): number => Math.max(...rows.map((row) => of(row).length));
	const [what, against] = [wide((row) => row.what), wide((row) => row.against)];
	const head = `${'what'.padEnd(what)}  ${'against'.padEnd(against)}  ratio  to reach`;
	return [
		head,
		...rows.map((row) => {
			const { ratio, reach, more } = row;
			const met = reach === undefined || (more ? ratio >= reach : ratio <= reach);
			const wanted = reach === undefined ? '' : `${more ? '≥' : '≤'} ${reach}`;
			return `${row.what.padEnd(what)}  ${row.against.padEnd(against)}  ${ratio
				.toFixed(ratio < 10 ? 2 : 0)
				.padStart(5)}  ${wanted.padStart(8)}${met ? '' : '  not met'}`.trimEnd();
		}),
	].join('\n');
}
