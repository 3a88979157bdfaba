/**
 * What is remembered of the open job beside the browser's database, so that a job that is gone from there is
 * missed and no other is shown in its place: for each window, and for the next one that is opened.
 */
import { newId } from '../job/new-id.ts';

export interface Mark {
	readonly id: string;
	readonly title: string;
	/** When it was last kept, ISO 8601 to the minute; empty while it was not. */
	readonly kept: string;
}

export interface Marks {
	/** The job of this window; else the one that was open last in any. */
	read(): Mark | undefined;
	write(mark: Mark): void;
	/** That job was thrown away, or is not looked for any more. */
	clear(id: string): void;
	/** Leaves over what this window has not kept, in place of what it left before; an empty text for nothing. */
	leave(text: string): void;
	/** What windows left over. */
	left(): readonly { readonly key: string; readonly text: string }[];
	/** What was left over is kept now. */
	dropLeft(key: string): void;
}

export const noMarks: Marks = {
	read: () => undefined,
	write: () => undefined,
	clear: () => undefined,
	leave: () => undefined,
	left: () => [],
	dropLeft: () => undefined,
};

const name = 'ride-height';
/** Before the name of what a window left over. */
const leftOver = 'ride-height-left ';

/** In the window's own storage and the browser's. Either may be switched off: then it remembers nothing. */
export function browserMarks(): Marks {
	const own = leftOver + newId();
	let isLeft = false;
	const inStorage = <T>(storage: () => Storage, work: (storage: Storage) => T): T | undefined => {
		try {
			return work(storage());
		} catch {
			// Switched off or full: the database is what counts.
			return undefined;
		}
	};
	const ofWindow = (): Storage => sessionStorage;
	const ofBrowser = (): Storage => localStorage;
	const each = (work: (storage: Storage) => void): void => {
		for (const storage of [ofWindow, ofBrowser]) inStorage(storage, work);
	};
	return {
		read() {
			let found: Mark | undefined;
			each((storage) => (found ??= markFrom(storage.getItem(name))));
			return found;
		},
		write(mark) {
			const text = JSON.stringify(mark);
			each((storage) => {
				if (storage.getItem(name) !== text) storage.setItem(name, text);
			});
		},
		clear(id) {
			each((storage) => {
				if (markFrom(storage.getItem(name))?.id === id) storage.removeItem(name);
			});
		},
		leave(text) {
			if (text === '' && !isLeft) return;
			isLeft = text !== '';
			inStorage(ofBrowser, (storage) => {
				if (isLeft) storage.setItem(own, text);
				else storage.removeItem(own);
			});
		},
		left() {
			const found = inStorage(ofBrowser, (storage) =>
				Object.keys(storage)
					.filter((key) => key.startsWith(leftOver))
					.map((key) => ({ key, text: storage.getItem(key) ?? '' })),
			);
			return found ?? [];
		},
		dropLeft(key) {
			inStorage(ofBrowser, (storage) => {
				storage.removeItem(key);
			});
		},
	};
}

function markFrom(text: string | null): Mark | undefined {
	let found: unknown;
	try {
		found = JSON.parse(text ?? '');
	} catch {
		return undefined;
	}
	const { id, title, kept } = Object(found) as Partial<Record<keyof Mark, unknown>>;
	return typeof id === 'string' && typeof title === 'string' && typeof kept === 'string'
		? { id, title, kept }
		: undefined;
}
