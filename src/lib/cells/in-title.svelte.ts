/** What a cell has in the head of its sheet: an entry that all of the sheet is about. */
import { getContext, setContext, type Snippet } from 'svelte';

class InTitle {
	entry: Snippet | undefined = $state.raw();
}

const key = Symbol('in title');

/** Made by a sheet, before its head and its cells. */
export function makeInTitle(): InTitle {
	return setContext(key, new InTitle());
}

/** Undefined where there is no head, such as in a packet. */
export function getInTitle(): InTitle | undefined {
	return getContext<InTitle | undefined>(key);
}
