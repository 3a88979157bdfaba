/** Starts a search beside the page, so that the page goes on answering. */
import type { Inputs } from '../../engine/run.ts';
import { pack } from '../../language/packed.ts';
import type { Workbook } from '../../language/workbook.ts';
import type { SearchReply, SearchRequest } from '../../engine/worker/messages.ts';

/**
 * @param cell name of the search cell
 * @param without ids of its conditions that need not hold
 * @param hear takes each reply; the last one is an answer or a problem
 * @returns ends it; nothing is heard after that
 */
export function startSearch(
	workbook: Workbook,
	inputs: Inputs,
	cell: string,
	without: readonly string[],
	hear: (reply: SearchReply) => void,
): () => void {
	const worker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' });
	const stop = (): void => {
		worker.terminate();
	};
	worker.onmessage = ({ data }: MessageEvent<SearchReply>) => {
		if (!('done' in data)) stop();
		hear(data);
	};
	worker.onerror = ({ message }) => {
		stop();
		hear({
			problem: `This browser could not go through the combinations${message ? ` (${message})` : ''}. Load the page again and try once more.`,
		});
	};
	const request: SearchRequest = {
		workbook: pack(workbook),
		inputs: [...inputs],
		cell,
		without,
	};
	worker.postMessage(request);
	return stop;
}
