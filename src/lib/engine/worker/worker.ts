/** The worker itself: one request, its replies. It is ended from the page when it is no longer wanted. */
import { handleSearch } from './handle.ts';
import type { SearchReply, SearchRequest } from './messages.ts';

globalThis.onmessage = ({ data }: MessageEvent<SearchRequest>) => {
	handleSearch(data, (reply: SearchReply) => {
		postMessage(reply, { transfer: 'answer' in reply ? [reply.answer.rows.buffer] : [] });
	});
};
