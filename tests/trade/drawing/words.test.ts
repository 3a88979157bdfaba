/** What a drawing says, in the person's units. */
import { expect, test } from 'vitest';
import type { DrawnFigure } from '../../../src/lib/language/trade.ts';
import {
	caption,
	dimensionText,
	jointDetail,
	jointNote,
	movedSentence,
} from '../../../src/lib/trade/drawing/words.ts';
import { shipped } from '../../language/shipped.ts';
import { degree, inch } from './trucks.ts';

const shownIn = (name: string, system: 'inch-pound' | 'metric' = 'inch-pound') =>
	shipped.quantities.get(name)?.shown[system];
const angle = (degrees: number, plusMinus = 0): DrawnFigure => ({
	label: 'Joint',
	value: degrees * degree,
	plusMinus: plusMinus * degree,
	shown: shownIn('angle'),
});
const length = (inches: number, more: Partial<DrawnFigure> = {}): DrawnFigure => ({
	label: 'Front eye up',
	value: inches * inch,
	shown: shownIn('length'),
	...more,
});
const entered = { input: { entered: true, least: 0, most: 1 } };

test('a length that was entered reads in fractions, one that was worked out in decimals', () => {
	expect(dimensionText(length(4.125, entered))).toEqual({ main: '4 1/8 in' });
	expect(dimensionText(length(4.125, { plusMinus: 0.11 * inch }), length(3))).toEqual({
		main: '4.13 in',
		plusMinus: '± 0.11 in',
		note: '(was 3.00 in)',
	});
	expect(dimensionText(length(2, { shown: shownIn('length', 'metric') }))).toEqual({
		main: '50.8 mm',
	});
});

test('what has no value is not dimensioned, and what did not change has no “was”', () => {
	expect(dimensionText({ label: 'Drop', shown: shownIn('length') })).toBeUndefined();
	expect(dimensionText(length(3), length(3))).toEqual({ main: '3.00 in' });
});

test('a joint says which way it is bent, and only then “now” when it changed sides', () => {
	expect(jointNote('front', angle(-0.4, 0.1), angle(0.7))).toBe(
		'was 0.70°; now the shaft lies flatter than the transmission',
	);
	expect(jointNote('rear', angle(2, 0.1), angle(0.7))).toBe(
		'was 0.70°; the shaft lies steeper than the pinion',
	);
	expect(jointNote('rear', angle(2, 0.1))).toBe('the shaft lies steeper than the pinion');
	// Of a shaft in two pieces the front one is ahead of the joint.
	expect(jointNote('front', angle(2, 0.1), undefined, 2)).toBe(
		'the shaft lies steeper than the front piece',
	);
});

test('within its ± a joint cannot be told from straight', () => {
	expect(jointNote('front', angle(0.3, 0.72), angle(0.7))).toBe(
		'was 0.70°; cannot be told from straight with this gauge',
	);
	const detail = jointDetail('front', angle(0.3, 0.72), undefined, 0);
	expect(detail).toMatchObject({
		letter: 'A',
		name: 'front joint, angle drawn ×10',
		figure: '0.30°',
		plusMinusText: '± 0.72°',
		certain: false,
	});
});

test('captions say what is held still', () => {
	expect(caption('floor', { before: true, found: false }, false)).toBe(
		'Side elevation from the left. Floor held still; before thin and dashed.',
	);
	expect(caption('frame', { before: false, found: false }, false)).toBe(
		'Side elevation from the left. Frame held still.',
	);
	expect(caption('frame', { before: true, found: false }, true)).toBe(
		'Frame held still; before dashed.',
	);
	expect(caption('frame', { before: true, found: true }, true)).toBe(
		'Frame held still; before dashed, plan chained, found heavy.',
	);
});

test('one sentence for what a handle did; what has no value is left out of it', () => {
	const drop = length(2.5, { label: 'Rear drop' });
	const none: DrawnFigure = { label: 'Rear joint', shown: shownIn('angle') };
	expect(movedSentence(length(4.125, entered), [drop, none])).toBe(
		'Front eye up 4 1/8 in: rear drop 2.50 in.',
	);
});
