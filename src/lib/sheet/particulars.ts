/** What a title block says of a job: fields of ISO 7200. */
import type { TitleBlock } from '$lib/job/job.ts';

export const particulars: readonly {
	readonly key: keyof TitleBlock;
	readonly label: string;
	readonly type: 'text' | 'date';
}[] = [
	{ key: 'title', label: 'Job', type: 'text' },
	{ key: 'number', label: 'Number', type: 'text' },
	{ key: 'owner', label: 'Owner', type: 'text' },
	{ key: 'date', label: 'Date', type: 'date' },
	{ key: 'madeBy', label: 'Made by', type: 'text' },
	{ key: 'checkedBy', label: 'Checked by', type: 'text' },
];
