/**
 * `ways`: one truck in several ways to do a thing, each drawn and with its figures. With handles they are
 * played on one drawing, else each has a drawing of its own.
 */
import { z } from 'zod';
import { figuresInText } from '../prose.ts';
import type { DrawingWords } from '../trade.ts';
import type { Asked, CellBase, Mention } from '../types.ts';
import type { YamlFound } from '../yaml.ts';
import { askIn, mentionIn, nameShape, type KindReader, keptShape, readDrawn } from './reader.ts';

const shapeOf = keptShape(({ crops }: DrawingWords) =>
	z.strictObject({
		name: nameShape,
		title: z.string().min(1),
		crop: z.enum([...crops]),
		/** Entries that are as on the stock truck in every way, but for what a way sets. */
		stock: z.array(nameShape).default([]),
		ways: z
			.array(
				z.strictObject({
					label: z.string().min(1),
					/** What it sets, by input: a formula, worked out for the truck as it is. */
					set: z.record(nameShape, z.string().min(1)),
					/** It is there only where this holds. */
					if: z.string().min(1).optional(),
					/** It is marked where this holds: that is how the truck stands. */
					now: z.string().min(1).optional(),
				}),
			)
			.min(2),
		/** Figures of each way, with a word for each. */
		figures: z.array(z.strictObject({ name: nameShape, label: z.string().min(1) })).min(1),
		/** Names of checks; the worst answer marks a way. */
		checks: z.array(nameShape).default([]),
		/** The first of these that holds in a way is said of it. */
		say: z
			.array(z.strictObject({ if: z.string().min(1).optional(), say: z.string().min(1) }))
			.default([]),
		/** The input that a way is taken over into the plan by. */
		plan: nameShape.optional(),
		move: z.array(nameShape).default([]),
		dimension: z.array(nameShape).default([]),
		about: z.string().default(''),
	}),
);

type Written = z.infer<ReturnType<typeof shapeOf>>;

export interface WayCell {
	readonly label: string;
	/** Inputs, each with the id of the formula for its value. */
	readonly set: readonly { readonly input: string; readonly value: string }[];
	/** Ids of conditions. */
	readonly shown?: string;
	readonly now?: string;
}

export interface WaysCell extends CellBase {
	readonly kind: 'ways';
	readonly title: string;
	readonly crop: string;
	readonly stock: readonly string[];
	readonly ways: readonly WayCell[];
	readonly figures: readonly { readonly name: string; readonly label: string }[];
	readonly checks: readonly string[];
	readonly say: readonly { readonly condition?: string; readonly say: string }[];
	readonly plan?: string;
	readonly move: readonly string[];
	readonly dimension: readonly string[];
	readonly about: string;
}

/** Conditions of a cell, asked for one after another. */
function conditionIn(found: YamlFound<unknown>, cell: string, asks: Asked[]) {
	return (path: readonly PropertyKey[], text: string): string => {
		const id = `${cell}/${asks.length.toString()}`;
		asks.push({ id, formula: { ...found.place(path), text }, expects: 'flag' });
		return id;
	};
}

function askedIn(found: YamlFound<Written>, written: Written) {
	const asks: Asked[] = [];
	const value = askIn(found, written.name, asks);
	const condition = conditionIn(found, written.name, asks);
	const ways = written.ways.map((way, index): WayCell => {
		const at = ['ways', index];
		return {
			label: way.label,
			set: Object.entries(way.set).map(([input, text]) => ({
				input,
				value: value([...at, 'set', input], text, input),
			})),
			...(way.if !== undefined && { shown: condition([...at, 'if'], way.if) }),
			...(way.now !== undefined && { now: condition([...at, 'now'], way.now) }),
		};
	});
	const say = written.say.map((each, index) => ({
		...(each.if !== undefined && { condition: condition(['say', index, 'if'], each.if) }),
		say: each.say,
	}));
	return { asks, ways, say };
}

function mentionsOf(found: YamlFound<Written>, written: Written): Mention[] {
	const mention = mentionIn(found);
	const all = (field: string, names: readonly string[], must: Mention['must']): Mention[] =>
		names.map((name, index) => mention([field, index], name, must));
	const { stock, ways, figures, checks, say, plan, move, dimension } = written;
	return [
		...all('stock', stock, 'entry'),
		...ways.flatMap(({ set }, index) =>
			Object.keys(set).map((name) => mention(['ways', index, 'set', name], name, 'entry')),
		),
		...figures.map(({ name }, index) => mention(['figures', index, 'name'], name, 'quantity')),
		...all('checks', checks, 'check'),
		...say.flatMap((each, index) =>
			figuresInText(each.say).map((name) => mention(['say', index, 'say'], name, 'any')),
		),
		...(plan === undefined ? [] : [mention(['plan'], plan, 'entry')]),
		...all('move', move, 'entry'),
		...all('dimension', dimension, 'any'),
	];
}

export const readWays: KindReader<WaysCell> = (block, { drawing }) => {
	const found = readDrawn(shapeOf, block, drawing);
	if (!found.value) return { problems: found.problems };
	const written = found.value;
	const { name, title, crop, stock, figures, checks, plan, move, dimension, about } = written;
	return {
		cell: {
			kind: 'ways',
			...{ name, title, crop, stock, figures, checks, move, dimension, about },
			...(plan !== undefined && { plan }),
			page: block.page,
			line: block.body.line - 1,
			gives: [],
			mentions: mentionsOf(found, written),
			...askedIn(found, written),
		},
		problems: [],
	};
};
