/** workbook.yaml: what a workbook is called, what it is made of, and how its quantities are shown. */
import { z } from 'zod';
import { dimensionNamed, dimensionNames, sameDimension } from '../units/dimension.ts';
import { readEntry } from '../units/entry.ts';
import type { unitSystems } from '../units/quantities.ts';
import { type Quantities, type Quantity, type Shown } from '../units/quantities.ts';
import { unitOf } from '../units/units.ts';
import { amountShape, nameShape } from './kinds/reader.ts';
import { readYaml, type YamlFound } from './yaml.ts';

const shownShape = z.strictObject({
	unit: z.string(),
	step: amountShape,
	decimals: z.number().int().min(0).max(9),
	divisions: z.number().int().min(0).max(64).optional(),
});

const workbookShape = z.strictObject({
	title: z.string().min(1),
	summary: z.string().min(1),
	/** File names of the pages without ending, in reading order. */
	pages: z.array(z.string()).min(1),
	/** File names of the scenarios without ending; the first is shown first. */
	scenarios: z.array(z.string()),
	/** Figures that stay in sight on every page, and what they are called there. */
	standing: z.record(nameShape, z.string().min(1)),
	/** File names of the pages whose sheets are handed over together. */
	packet: z.array(z.string()).optional(),
	/** Stand on every page. */
	cautions: z.array(z.string().min(1)),
	/** What a person may come for: what each asks, one after the other, and what it answers. */
	errands: z
		.array(
			z.strictObject({
				id: z.string().regex(/^[a-z][a-z0-9-]*$/),
				title: z.string().min(1),
				/** What it takes, in a few words. */
				about: z.string().min(1),
				ask: z.array(nameShape),
				answer: z.array(nameShape),
				/** Names of check cells that say what the answer means. */
				checks: z.array(nameShape).optional(),
				/** The page that goes on from there. */
				then: z.string(),
			}),
		)
		.optional(),
	/** What drawings are made from: names by section and key, as the trade has them. */
	drawing: z
		.record(
			z.string(),
			z.record(
				z.string(),
				z.union([nameShape.transform((name) => [name]), z.array(nameShape).min(1)]),
			),
		)
		.optional(),
	quantities: z.record(
		z.string(),
		z.strictObject({
			dimension: z.string(),
			'inch-pound': shownShape,
			metric: shownShape,
		}),
	),
});

export type WorkbookHead = z.infer<typeof workbookShape>;

/**
 * Reads workbook.yaml.
 * @throws Error when it is missing or cannot be read; without it there is no workbook
 */
export function readHead(text: string): { head: WorkbookHead; place: YamlFound<unknown>['place'] } {
	const found = readYaml(workbookShape, { text, line: 1, column: 1 }, 'workbook.yaml', '');
	if (found.value) return { head: found.value, place: found.place };
	throw new Error(
		`workbook.yaml cannot be used: ${found.problems.map(({ line, message }) => `line ${line.toString()}: ${message}`).join(' ')}`,
	);
}

/**
 * The quantities of a workbook.
 * @throws Error when one of them cannot be used
 */
export function readQuantities(written: WorkbookHead['quantities']): Quantities {
	const quantities = new Map<string, Quantity>();
	for (const [name, { dimension, ...systems }] of Object.entries(written)) {
		const known = dimensionNamed(dimension);
		if (!known) {
			throw new Error(
				`workbook.yaml: quantity “${name}” has dimension “${dimension}”, which is none of ${dimensionNames.join(', ')}.`,
			);
		}
		const shown = (system: (typeof unitSystems)[number]): Shown => {
			const { unit: unitName, step, decimals, divisions } = systems[system];
			const unit = unitName === '' ? { name: '', size: 1, dimension: known } : unitOf(unitName);
			if (!unit || !sameDimension(unit.dimension, known)) {
				throw new Error(
					`workbook.yaml: quantity “${name}” is a ${dimension}, and “${unitName}” is not a unit of that.`,
				);
			}
			const stepRead = readEntry(step, unit);
			if ('problem' in stepRead || !(stepRead.value > 0)) {
				throw new Error(
					`workbook.yaml: quantity “${name}” steps by “${step}”, which is not an amount above nothing.`,
				);
			}
			return { unit, step: stepRead.value, decimals, divisions: divisions ?? 0 };
		};
		quantities.set(name, {
			name,
			dimension: known,
			shown: { 'inch-pound': shown('inch-pound'), metric: shown('metric') },
		});
	}
	return quantities;
}
