/** The worker itself: one request, its replies. It is ended from the page when it is no longer wanted. */
import { handleSearch } from '../../engine/worker/handle.ts';
import { mechanicsFunctions } from '../../trade/rows/index.ts';
import type { SearchReply, SearchRequest } from '../../engine/worker/messages.ts';

globalThis.onmessage = ({ data }: MessageEvent<SearchRequest>) => {
	handleSearch(data, { functions: mechanicsFunctions }, (reply: SearchReply) => {
		postMessage(reply, { transfer: 'answer' in reply ? [reply.answer.rows.buffer] : [] });
	});
};
