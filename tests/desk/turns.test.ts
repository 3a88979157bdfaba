import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { Turns } from '../../src/lib/desk/turns.svelte.ts';

beforeEach(() => {
	vi.useFakeTimers();
	vi.stubGlobal('requestAnimationFrame', (paint: () => void) => setTimeout(paint, 16));
});
afterEach(() => {
	vi.unstubAllGlobals();
	vi.useRealTimers();
});

/** Work that takes some turns, and writes each of them down. */
function work(done: string[], name: string, turns: number): () => boolean {
	return () => {
		done.push(name);
		return --turns > 0;
	};
}

test('what is done before the next key comes behind each', () => {
	const turns = new Turns();
	const done: string[] = [];
	for (const key of ['first', 'second', 'third']) {
		turns.resting = false;
		turns.take(work(done, key, 2), 'in turn');
		vi.advanceTimersByTime(120);
		expect(done.slice(-2)).toEqual([key, key]);
	}
});

test('what a key comes too early for waits for a pause, and then all of it is done', () => {
	const turns = new Turns();
	const done: string[] = [];
	turns.resting = false;
	turns.take(work(done, 'first', 2), 'in turn');
	turns.resting = false;
	turns.take(work(done, 'second', 1), 'in turn');
	turns.take(work(done, 'folded away', 1), 'at rest');
	vi.advanceTimersByTime(1000);
	expect(done).toEqual([]);
	turns.resting = true;
	vi.runAllTimers();
	expect(done).toEqual(['first', 'second', 'first', 'folded away']);
	turns.resting = false;
	turns.take(work(done, 'third', 1), 'in turn');
	vi.runAllTimers();
	expect(done.at(-1)).toBe('third');
});

test('work that waits from before the first key is in nobody’s way', () => {
	const turns = new Turns();
	const done: string[] = [];
	turns.take(work(done, 'before', 1), 'in turn');
	turns.resting = false;
	vi.runAllTimers();
	expect(done).toEqual(['before']);
});
