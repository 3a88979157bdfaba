/** Parts and steps of a job as a person would call them. */
import type { Entry } from '../job/job.ts';
import { optionWords, wordsOf } from '../job/parts.ts';
import type { Workbook } from '../language/workbook.ts';
import type { Step } from './history.ts';

/** What a part of a job is called. */
export function partInWords(part: string, { graph }: Workbook): string {
	const { kind, rest } = wordsOf(part);
	const label = (name: string): string => {
		const words = graph.byId.get(name)?.label ?? name.replaceAll('_', ' ');
		return words.charAt(0).toLowerCase() + words.slice(1);
	};
	switch (kind) {
		case 'entry':
			return label(rest);
		case 'block':
			return blockWords.get(rest) ?? rest;
		case 'option': {
			const { name } = optionWords(rest);
			return name === '' ? 'option' : `option’s ${label(name)}`;
		}
		case 'options':
			return 'order of options';
		case 'page':
			return `sheet “${rest}”`;
		case 'pages':
			return 'order of sheets';
		case 'clash':
			return 'what two windows typed';
		default:
			return rest === 'system' ? 'units' : rest;
	}
}

const blockWords: ReadonlyMap<string, string> = new Map([
	['title', 'title of the job'],
	['madeBy', 'made by'],
	['checkedBy', 'checked by'],
]);

/** What stands in a part; “nothing” where it is not there. */
export function valueInWords(part: string, value: unknown): string {
	if (value === undefined || value === '') return 'nothing';
	const { typed, from, name, text } = Object(value) as Partial<Entry> & {
		readonly name?: unknown;
		readonly text?: unknown;
	};
	if (typeof typed === 'string') {
		const words = typed === '' ? 'nothing' : typed;
		return from === 'assumed' ? `${words}, assumed` : words;
	}
	if (typeof name === 'string') return `“${name}”`;
	if (typeof text === 'string') return `${text.length.toString()} letters`;
	if (typeof value === 'string') return wordsOf(part).kind === 'block' ? `“${value}”` : value;
	return 'another';
}

/** What a step did, such as “wheelbase 125 → 117 1/2”; nothing where there is no step. */
export function stepInWords(step: Step | undefined, workbook: Workbook): string {
	if (!step) return '';
	if (step.other !== undefined) return 'opening of another job';
	const all = [...step.changes].filter(([part]) => !['options', 'pages'].includes(part));
	const named = step.field.split(' ').at(-1) ?? '';
	const [first] = all.filter(([part]) => wordsOf(part).rest === named);
	const [part, [before, after]] = first ?? all[0] ?? ['', [undefined, undefined]];
	if (wordsOf(part).kind === 'seal') return 'sealing';
	if (part === '') return fieldWords.find(([start]) => step.field.startsWith(start))?.[1] ?? '';
	const change = `${partInWords(part, workbook)} ${valueInWords(part, before)} → ${valueInWords(part, after)}`;
	const others = all.length - 1;
	return others > 0 ? `${change}, and ${others.toString()} more` : change;
}

/** Steps in which nothing is left of what they changed, or only an order. */
const fieldWords: readonly (readonly [start: string, words: string])[] = [
	['move option', 'order of options'],
	['page', 'order of sheets'],
];
