/** What the terminal answers to a scenario with some entries set, as numbers and levels. */
import { expect } from 'vitest';
import { figures } from '../../src/commands/figures-command.ts';

interface Answer {
	readonly figures: Readonly<Record<string, { value: number | null; plus_minus: number | null }>>;
	readonly checks: readonly { name: string; level: string; text: string }[];
}

/** @param sets `name=value`, as after `--set` */
export function answerTo(scenario: string, ...sets: readonly string[]) {
	const { out, status } = figures([scenario, '--json', ...sets.flatMap((set) => ['--set', set])]);
	expect(status).toBe(0);
	const answer = JSON.parse(out) as Answer;
	return {
		figure: (name: string): number => answer.figures[name]?.value ?? NaN,
		plusMinus: (name: string): number => answer.figures[name]?.plus_minus ?? NaN,
		level: (name: string) => answer.checks.find((check) => check.name === name)?.level,
		text: (name: string) => answer.checks.find((check) => check.name === name)?.text,
	};
}
