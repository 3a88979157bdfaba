/** Every mistake a page can have: the sentence, its place, and that all around it goes on working. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { canRun } from '../../src/lib/engine/program.ts';
import { readFormula } from '../../src/lib/language/formula.ts';
import { FormulaError } from '../../src/lib/language/places.ts';
import { problemInWords } from '../../src/lib/language/problem.ts';
import type { Workbook } from '../../src/lib/language/workbook.ts';
import { fence, inputCell, numberIn, placeOf, runOf, smallWorkbook } from './small-workbook.ts';

const inch = 0.0254;

/** Sound cells before and after whatever is tried. */
const before = [
	inputCell('span', 'length', 'default: 2 in'),
	inputCell('tilt', 'angle', 'default: 5 deg'),
	fence('input', 'name: way', 'label: Way', 'choices:', '  left: L', '  right: R', 'default: left'),
].join('\n');
const after = [
	inputCell('late', 'length', 'default: 7 in'),
	fence('derive', 'sound = span + late  # Sound'),
	fence(
		'check',
		'name: sound_check',
		'label: Sound',
		'when:',
		'  - level: stop',
		'    if: sound > 20 in',
		'    because: It is {sound}.',
		'    do: Nothing.',
		'clear: It is {sound}.',
		'source: common practice, no source',
	),
].join('\n');

const derive = (...lines: string[]): string => fence('derive', ...lines);
const pageOf = (tried: string): string => `${before}\n${tried}\n${after}`;

/** The front matter of a small workbook's page has five lines. */
const linesBefore = 5;

/** Line and column of what is found in a page's body, counted by hand. */
function find(body: string, needle: string, nth = 1): string {
	let at = -1;
	for (let count = 0; count < nth; count++) at = body.indexOf(needle, at + 1);
	if (at < 0) throw new Error(`“${needle}” does not stand in the page`);
	const lines = body.slice(0, at).split('\n');
	return `${linesBefore + lines.length}:${(lines.at(-1) ?? '').length + 1}`;
}

function otherCellsWork(workbook: Workbook): void {
	const run = runOf(workbook);
	expect(numberIn(workbook, run, 'sound')).toBeCloseTo(9 * inch, 12);
	const check = workbook.graph.byId.get('sound_check/0');
	expect(check && run.value(check.slot)).toBe(false);
}

interface Tried {
	readonly what: string;
	readonly cell: string;
	/** The cell a problem names; its fifth block when its name is not known. */
	readonly named: string;
	/** Where: what stands there, and which occurrence of it in the page. */
	readonly at: readonly [needle: string, nth?: number];
	readonly says: readonly string[];
}

const formulaHolds = 'is not part of a formula. A formula holds numbers with units, names';

/** A formula given to `tried`; the place is that of a part of the line. */
const formula = (
	what: string,
	text: string,
	part: string,
	says: readonly string[] | string,
	nth = 1,
): Tried => ({
	what,
	cell: derive(`tried = ${text}  # Tried`),
	named: 'derive tried',
	at: [part, nth],
	says: typeof says === 'string' ? [says] : says,
});

const oneProblem: readonly Tried[] = [
	// Names
	formula('an unknown name', 'spann + 1 in', 'spann', [
		'No cell gives “spann”. Did you mean “span”?',
	]),
	formula('an unknown name far from any', 'elephant', 'elephant', ['No cell gives “elephant”.']),
	formula('a function without its brackets', 'min', 'min', [
		'“min” is a function; call it with its values in brackets.',
	]),
	formula('a name of the machinery', 'constructor', 'constructor', [
		'No cell gives “constructor”.',
	]),
	formula('another name of the machinery', '__proto__', '__proto__', [
		'No cell gives “__proto__”.',
	]),
	formula('a constant of the grammar', '2 * pi', 'pi', ['No cell gives “pi”.']),
	formula('a name that is its own', 'tried + 1 in', 'tried + 1', [
		'These names go in a circle, so none can be worked out: tried → tried.',
	]),
	{
		what: 'a name given twice',
		cell: derive('twin = span  # First') + derive('other = span  # Other', 'twin = late  # Second'),
		named: 'derive other',
		at: ['twin = late'],
		says: [
			`“twin” is given twice: first by page one, line ${find(pageOf(derive('twin = span')), 'twin').split(':')[0] ?? ''}, then here. Give one of them another name.`,
		],
	},
	{
		what: 'a name given by an input and a line',
		cell: derive('span = 3 in  # Again'),
		named: 'derive span',
		at: ['span = 3'],
		says: ['“span” is given twice: first by page one, line 7, then here.'],
	},
	{
		what: 'a unit as a name',
		cell: derive('mm = 3  # Unit'),
		named: 'derive 4',
		at: ['mm = 3'],
		says: ['“mm” is a unit, so nothing else can have that name. Choose another.'],
	},
	{
		what: 'a word of the language as a name',
		cell: derive('not = 3  # Word'),
		named: 'derive 4',
		at: ['not = 3'],
		says: ['“not” is a word of the formula language', 'Choose another.'],
	},
	{
		what: 'a name in capitals',
		cell: derive('Span = 3  # Capital'),
		named: 'derive 4',
		at: ['Span = 3'],
		says: ['“Span” is not a name: use small letters, figures and underscores.'],
	},
	// Units
	formula('two dimensions added', 'span + tilt', 'span + tilt', [
		'length + angle: span + tilt. Both sides have to be of one kind.',
	]),
	formula('two dimensions taken away, in a bracket', '2 * (span - tilt)', 'span - tilt', [
		'length - angle: span - tilt.',
	]),
	formula('two dimensions compared', 'span > 3 deg', 'span > 3', ['length > angle: span > 3 deg.']),
	formula('two results of a condition', 'span > 1 in ? span : tilt', 'span : tilt', [
		'length : angle: span : tilt.',
	]),
	formula('a nought without its unit', 'span + 0', 'span + 0', [
		'length + number: span + 0.',
		'Give the nought its unit.',
	]),
	formula('an angle taken as a number', 'tilt + 1', 'tilt + 1', [
		'angle + number: tilt + 1.',
		'Divide an angle by 1 rad to make it a number.',
	]),
	formula('a mismatch on a second line', 'span\n  + tilt', 'span\n  + tilt', [
		'length + angle: span + tilt.',
	]),
	formula('a length as a power', '2 ^ span', 'span  #', [
		'A power has to be a number; span is a length.',
	]),
	formula('a power that is worked out', 'span ^ (late / span)', 'late / span)', [
		'span is a length, so its power has to be a written number',
	]),
	formula('shown in another dimension', 'span to deg', 'to deg', [
		'The formula is a length and cannot be shown in deg.',
	]),
	formula('an unknown unit after to', 'span to furlong', 'furlong', [
		'“furlong” is not a unit this workbook knows; write one such as in, mm, deg',
	]),
	formula('a scale after to', 'span to 2 mm', '2 mm', ['“2 mm” is not a unit']),
	formula('two conversions', 'span to mm to in', 'mm to in', ['“mm to in” is not a unit']),
	formula('a conversion inside', '(span to mm) + 2 in', 'mm) +', [
		'“to UNIT” can only stand at the end of the whole formula.',
	]),
	formula('no value before to', 'to mm', 'to mm', ['“to” needs a value before it.']),
	formula('a sum taken as a condition', 'not span', 'span  # Tried', [
		'“not” works on conditions, such as rear_drop > 2 in; span is a length.',
	]),
	formula('a choice that is none', 'way == "up"', '"up"', [
		'“up” is not one of the choices left, right.',
	]),
	formula('choices put in order', 'way < "left"', 'way < ', [
		'Choices can be the same or not (== or !=); “<” has no meaning between them.',
	]),
	formula('a choice added', 'way + 1', 'way + 1', [
		'“+” works on quantities; way is a choice of left, right.',
	]),
	// What the language leaves out
	formula('square brackets', '[1, 2]', '[1', ['“[”', formulaHolds]),
	formula('picking by number', 'span[1]', '[1', ['“[”', formulaHolds]),
	formula('braces', '{a: 1}', '{a', ['“{”', formulaHolds]),
	formula('assignment', 'x = 2', '= 2', ['“=” inside a formula gives a second name']),
	formula('a function of one’s own', 'f(x) = 2', '= 2', [
		'“=” inside a formula gives a second name',
	]),
	formula('a semicolon', 'span; late', '; late', ['“;”', formulaHolds]),
	formula('factorial', '3!', '!', ['“!” alone is not part of a formula; write not']),
	formula('per cent', '5%', '%', ['“%”', formulaHolds]),
	formula('a remainder', '5 mod 2', 'mod 2', ['“mod”', formulaHolds]),
	formula('exclusive or', '(1 > 2) xor (2 > 1)', 'xor', ['“xor”', formulaHolds]),
	formula('bits', '1 << 2', '<<', ['“<<”', formulaHolds]),
	formula('a range with a colon', '1:3', '1:3', ['A range with a colon is not part of a formula']),
	formula('an apostrophe', "span'", "'", ["“'”", formulaHolds]),
	formula('a dotted sign', 'span .* 2', '.*', ['“.*”', formulaHolds]),
	formula('a second way to a field', 'span?.x', 'x  #', ['Only a field with a plain name']),
	formula('a stand-in for nothing', 'span ?? 2 in', '??', ['“??”', formulaHolds]),
	formula('null', 'null', 'null', ['“null” is not a value a formula can hold.']),
	formula('NaN', 'NaN', 'NaN', ['“NaN” is not a value a formula can hold.']),
	formula('infinity', '1 + Infinity', 'Infinity', [
		'“Infinity” is not a value a formula can hold.',
	]),
	formula('a number beyond counting', '1e400', '1e400', [
		'“1e400” is not a value a formula can hold.',
	]),
	formula('a number in sixteens', '0x10', '0x10', ['“0x10” is not a value a formula can hold.']),
	formula('two values side by side', 'span late', 'late  # Tried', [
		'Two values stand side by side; write * between them.',
	]),
	formula('a field of a length', 'span.length', 'length  # Tried', [
		'span is a length and has no fields; “.length” can only follow a record.',
	]),
	formula('the machinery behind a value', 'span.constructor', 'constructor', [
		'span is a length and has no fields; “.constructor” can only follow a record.',
	]),
	formula('its prototype', 'span.__proto__', '__proto__', [
		'span is a length and has no fields; “.__proto__” can only follow a record.',
	]),
	formula(
		'the machinery behind a record',
		'leaf_spring(span, late, 9 N/mm).constructor',
		'constructor',
		['A leaf spring has no field “constructor”. Its fields are length, rate.'],
	),
	formula('a call of a field', 'span.x(2)', 'span.x(2)', [
		'Only a function of the list can be called, by its plain name.',
	]),
	formula('a formula that breaks off', 'span +', '  # Tried', ['The formula breaks off']),
	formula('a bracket not closed', '(span', '  # Tried', ['The formula breaks off']),
	formula('a bracket too many', 'span)', ')', ['The formula breaks off']),
	formula('brackets beyond counting', `${'('.repeat(900)}span${')'.repeat(900)}`, '(((', [
		'The brackets of this formula go too deep. Give parts of it names of their own.',
	]),
	formula('a formula without end', `${'span + '.repeat(400)}span`, 'span + span', [
		'This formula is 2804 letters long; 2000 is the most. Give parts of it names of their own.',
	]),
	// Functions
	formula('an unknown function', 'sinn(tilt)', 'sinn', [
		'There is no function “sinn”. Did you mean “sign”?',
	]),
	formula('a function of the machinery', 'hasOwnProperty(1)', 'hasOwnProperty', [
		'There is no function “hasOwnProperty”.',
	]),
	formula('too many arguments', 'sin(tilt, tilt)', 'sin(', [
		'sin(angle) takes 1 value; 2 were given.',
	]),
	formula('no arguments', 'min()', 'min()', ['min(value) takes 1 or more values; 0 were given.']),
	formula('an argument of another kind', 'sin(span)', 'span)', [
		'sin: angle has to be an angle; span is a length.',
	]),
	formula('arguments of two kinds', 'max(span, late, tilt)', 'tilt)', [
		'max: value has to be a quantity like the first one; tilt is an angle.',
	]),
	formula('a choice a function does not take', 'spring_mount(span, span, span, "up")', '"up"', [
		'spring_mount: shackle_stands has to be a choice of hanging, standing; "up" is a choice of up.',
	]),
	// Lines of a derivation
	{
		what: 'a line that gives no name',
		cell: derive('span + late  # Sum'),
		named: 'derive 4',
		at: ['span + late  # Sum'],
		says: ['This line gives no name. Write “name = formula # label”.'],
	},
	{
		what: 'no label',
		cell: derive('tried = span + late'),
		named: 'derive 4',
		at: ['\n```\n\n```input\nname: late'],
		says: ['“tried” has no label. End its line with # and the words people know it by.'],
	},
	{
		what: 'a label before the end of its formula',
		cell: derive('tried = span  # Tried', '  + late'),
		named: 'derive 4',
		at: ['# Tried'],
		says: ['The label of “tried” runs on into another line.'],
	},
	{
		what: 'nothing derived',
		cell: derive('# only a remark'),
		named: 'derive 4',
		at: ['# only'],
		says: ['This cell derives nothing.'],
	},
	// Cells
	{
		what: 'an unknown kind of cell',
		cell: fence('inptu', 'name: tried'),
		named: 'inptu 4',
		at: ['```inptu'],
		says: ['“inptu” is not a kind of cell. Did you mean “input”?', 'The kinds are input, derive,'],
	},
	{
		what: 'YAML with a colon in a text',
		cell: fence('input', 'name: tried', 'label: Hub: left', 'quantity: length'),
		named: 'input 4',
		at: ['Hub: left'],
		says: ['This is not readable YAML:', 'put a text that holds “: ” or “#” in quotes.'],
	},
	{
		what: 'YAML set in with a tab',
		cell: fence('input', 'name: tried', '\tlabel: Hub'),
		named: 'input 4',
		at: ['\tlabel'],
		says: ['This is not readable YAML: Tabs are not allowed as indentation.'],
	},
	{
		what: 'a text that begins with a star',
		cell: fence('input', 'name: tried', 'label: *hub', 'quantity: length'),
		named: 'input 4',
		at: ['*hub'],
		says: ['“*hub” would stand for something else. Put a text that begins with * in quotes.'],
	},
	{
		what: 'a field twice',
		cell: fence('input', 'name: tried', 'label: Hub', 'label: Rim', 'quantity: length'),
		named: 'input 4',
		at: ['label: Rim'],
		says: ['This is not readable YAML: Map keys must be unique'],
	},
	{
		what: 'no fields at all',
		cell: fence('input', 'a hub'),
		named: 'input 4',
		at: ['a hub'],
		says: ['What stands here has to be a group of “name: value” lines.'],
	},
	{
		what: 'an unknown field',
		cell: inputCell('tried', 'length', 'colour: red'),
		named: 'input 4',
		at: ['colour'],
		says: ['“colour” is not a field that can stand here.'],
	},
	{
		what: 'an unknown field inside another',
		cell: fence(
			'chart',
			'name: tried',
			'title: Tried',
			'sweep:',
			'  - { input: span, from: 1 in, to: 2 in, by: 3 in }',
			'draw: [sound]',
		),
		named: 'chart 4',
		at: ['by: 3'],
		says: ['“by” is not a field that can stand here.'],
	},
	{
		what: 'a missing field',
		cell: fence('input', 'name: tried', 'quantity: length'),
		named: 'input 4',
		at: ['name: tried'],
		says: ['“label” is missing; give it a text.'],
	},
	{
		what: 'a missing field inside another',
		cell: fence(
			'chart',
			'name: tried',
			'title: Tried',
			'sweep:',
			'  - { input: span, from: 1 in }',
			'draw: [sound]',
		),
		named: 'chart 4',
		at: ['{ input: span'],
		says: ['“sweep.0.to” is missing; add it.'],
	},
	{
		what: 'a field of another kind',
		cell: fence('input', 'name: tried', 'label: [a, b]', 'quantity: length'),
		named: 'input 4',
		at: ['[a, b]'],
		says: ['“label” has to be a text.'],
	},
	{
		what: 'a level that is none',
		cell: fence(
			'check',
			'name: tried',
			'label: Tried',
			'when:',
			'  - level: red',
			'    if: span > 1 in',
			'    because: b',
			'    do: d',
			'clear: c',
			'source: s',
		),
		named: 'check 4',
		at: ['red'],
		says: ['“when.0.level” has to be one of caution, stop.'],
	},
	{
		what: 'a name with a space',
		cell: fence('input', 'name: tried it', 'label: Tried', 'quantity: length'),
		named: 'input 4',
		at: ['tried it'],
		says: ['“name” cannot be read: a name is small letters, figures and underscores'],
	},
	{
		what: 'an input that asks for two things',
		cell: inputCell('tried', 'length', 'text: true'),
		named: 'input 4',
		at: ['name: tried'],
		says: ['An input asks for one thing'],
	},
	{
		what: 'an unknown quantity',
		cell: inputCell('tried', 'lenght'),
		named: 'input tried',
		at: ['quantity: lenght'],
		says: ['“lenght” is not a quantity of this workbook. workbook.yaml has number, length, angle,'],
	},
	{
		what: 'a default that is no choice',
		cell: fence('input', 'name: tried', 'label: Tried', 'choices: { a: A, b: B }', 'default: c'),
		named: 'input tried',
		at: ['default: c'],
		says: ['“default: c” is not one of the choices a, b.'],
	},
	{
		what: 'a default that is no date',
		cell: fence('input', 'name: tried', 'label: Tried', 'date: true', 'default: soon'),
		named: 'input tried',
		at: ['default: soon'],
		says: ['“default: soon” is not a date; write it as year-month-day.'],
	},
	// Ranges and amounts
	{
		what: 'a range that runs backwards',
		cell: inputCell('tried', 'length', 'sensible: 5 in to 1 in'),
		named: 'input tried',
		at: ['sensible'],
		says: ['“sensible: 5 in to 1 in” runs backwards'],
	},
	{
		what: 'a range without units',
		cell: inputCell('tried', 'length', 'limits: 1 to 5'),
		named: 'input tried',
		at: ['limits'],
		says: ['“limits: 1” has no unit; a page is read in either system, so write one, such as 1 in.'],
	},
	{
		what: 'a range with one unit',
		cell: inputCell('tried', 'length', 'limits: 1 to 5 in'),
		named: 'input tried',
		at: ['limits'],
		says: ['“limits: 1” has no unit'],
	},
	{
		what: 'a range of one end',
		cell: inputCell('tried', 'length', 'limits: 5 in'),
		named: 'input tried',
		at: ['limits'],
		says: ['“limits: 5 in” is not a range; write it as “low to high”, such as 1 in to 5 in.'],
	},
	{
		what: 'a range of another dimension',
		cell: inputCell('tried', 'length', 'limits: 1 deg to 5 deg'),
		named: 'input tried',
		at: ['limits'],
		says: ['“1 deg” is an angle; a length is wanted here.'],
	},
	{
		what: 'a sensible range beyond the limits',
		cell: inputCell('tried', 'length', 'limits: 1 in to 5 in', 'sensible: 0 in to 4 in'),
		named: 'input tried',
		at: ['sensible'],
		says: ['The sensible range reaches beyond the limits'],
	},
	{
		what: 'a default outside the limits',
		cell: inputCell('tried', 'length', 'limits: 1 in to 5 in', 'default: 6 in'),
		named: 'input tried',
		at: ['default: 6'],
		says: ['The default lies outside the limits.'],
	},
	{
		what: 'a default without its unit',
		cell: inputCell('tried', 'length', 'default: 2*3'),
		named: 'input tried',
		at: ['default: 2*3'],
		says: ['“default: 2*3” has no unit'],
	},
	{
		what: 'a default half without its unit',
		cell: inputCell('tried', 'length', 'default: 2 mm + 3'),
		named: 'input tried',
		at: ['default: 2 mm'],
		says: ['“default: 2 mm + 3” has no unit'],
	},
	{
		what: 'a ± below nothing',
		cell: inputCell('tried', 'length', 'plus_minus: -1/8 in'),
		named: 'input tried',
		at: ['plus_minus'],
		says: ['“plus_minus” is a size; write it without a sign.'],
	},
	// Charts, checks, prose
	{
		what: 'a chart that sweeps a derived figure',
		cell: fence(
			'chart',
			'name: tried',
			'title: Tried',
			'sweep: [{ input: sound, from: 1 in, to: 2 in }]',
			'draw: [sound]',
		),
		named: 'chart tried',
		at: ['sound, from'],
		says: ['“sound” is worked out, not asked for; only an input can be swept.'],
	},
	{
		what: 'a chart that draws a choice',
		cell: fence(
			'chart',
			'name: tried',
			'title: Tried',
			'sweep: [{ input: span, from: 1 in, to: 2 in }]',
			'draw: [sound, way]',
		),
		named: 'chart tried',
		at: ['way]'],
		says: ['“way” is a choice of left, right; only a quantity can stand here.'],
	},
	{
		what: 'a sweep in another dimension',
		cell: fence(
			'chart',
			'name: tried',
			'title: Tried',
			'sweep: [{ input: span, from: 1 deg, to: 2 in }]',
			'draw: [sound]',
		),
		named: 'chart tried',
		at: ['1 deg'],
		says: ['This is an angle, but span is a length.'],
	},
	{
		what: 'a check whose condition is none',
		cell: fence(
			'check',
			'name: tried',
			'label: Tried',
			'when:',
			'  - level: stop',
			'    if: "span"',
			'    because: b',
			'    do: d',
			'clear: c',
			'source: s',
		),
		named: 'check tried',
		at: ['span"'],
		says: ['A condition is wanted here, such as rear_drop > 2 in; this is a length.'],
	},
	{
		what: 'a condition on a line of its own',
		cell: fence(
			'check',
			'name: tried',
			'label: Tried',
			'when:',
			'  - level: stop',
			'    if: >-',
			'      span >',
			'      3 deg',
			'    because: b',
			'    do: d',
			'clear: c',
			'source: s',
		),
		named: 'check tried',
		at: ['span >\n'],
		says: ['length > angle: span > 3 deg.'],
	},
	{
		what: 'a check that quotes an unknown name',
		cell: fence(
			'check',
			'name: tried',
			'label: Tried',
			'when:',
			'  - level: stop',
			'    if: span > 3 in',
			'    because: It is {spam}.',
			'    do: d',
			'clear: c',
			'source: s',
		),
		named: 'check tried',
		at: ['It is {spam}'],
		says: ['No cell gives “spam”. Did you mean “span”?'],
	},
	{
		what: 'prose that quotes an unknown name',
		cell: 'A sentence over\ntwo lines, `{code}` and {spam}.',
		named: 'prose',
		at: ['spam'],
		says: ['No cell gives “spam”. Did you mean “span”?'],
	},
];

describe('one mistake is told once, where it is, and the rest works', () => {
	test.each(oneProblem)('$what', ({ cell, named, at, says }) => {
		const body = pageOf(cell);
		const workbook = smallWorkbook({ one: body });
		expect(workbook.problems.map(problemInWords)).toHaveLength(1);
		const [problem] = workbook.problems;
		if (!problem) return;
		for (const part of says) expect(problem.message).toContain(part);
		expect(placeOf(problem)).toBe(`one | ${named} | ${find(body, ...at)}`);
		otherCellsWork(workbook);
	});
});

test('the place of a word is right after any other words of a formula', () => {
	const piece = fc.constantFrom(
		'span',
		'12.5 in',
		'1e-3 m',
		'"in"',
		'(late / 2 mm)',
		'min(tilt, 3 deg)',
		'leaf.rate',
		'true',
		'160 lbf in / deg',
		'not (span > 2in)',
	);
	fc.assert(
		fc.property(
			fc.array(piece, { maxLength: 6 }),
			fc.constantFrom(' ', '\n\t', '  '),
			(list, gap) => {
				const source = [...list, 'elsewhere'].join(`${gap}+${gap}`);
				const { tree } = readFormula({ text: source, line: 1, column: 1 });
				const last = tree.op === 'arithmetic' ? tree.right : tree;
				expect(last).toMatchObject({ op: 'name', name: 'elsewhere' });
				expect(last.at).toBe(source.lastIndexOf('elsewhere'));
			},
		),
	);
});

test('whatever stands in a formula, it is read or refused with a place inside it', () => {
	const words = [
		'span',
		'in',
		' to ',
		'2',
		'.',
		'"',
		'(',
		')',
		'?',
		':',
		'=',
		'<',
		'!',
		'mod',
		' ',
		'\n',
	];
	const text = fc.oneof(
		fc.string({ maxLength: 30 }),
		fc
			.array(fc.constantFrom(...words, '+', '*', '^', ',', '[', '{', 'not ', 'e', '1e5', '_'), {
				maxLength: 12,
			})
			.map((list) => list.join('')),
	);
	fc.assert(
		fc.property(text, (written) => {
			try {
				readFormula({ text: written, line: 1, column: 1 });
			} catch (cause) {
				expect(cause).toBeInstanceOf(FormulaError);
				if (!(cause instanceof FormulaError)) return;
				expect(cause.message).toMatch(/[.]$/);
				expect(cause.at).toBeGreaterThanOrEqual(0);
				expect(cause.at).toBeLessThanOrEqual(written.length);
			}
		}),
		{ numRuns: 2000 },
	);
});

test('whatever stands in a cell, the workbook is read and the other cells work', () => {
	const kind = fc.constantFrom('input', 'derive', 'chart', 'check', 'elephant');
	const line = fc.constantFrom(
		...['name: tried', 'name: tried', 'label: A', 'label: "A', 'quantity: length', 'text: true'],
		...['default: 1 in', 'default: {}', 'choices:', '  a: b', '__proto__: 1', '? [a]', ': - b'],
		...['tried = span # T', 'tried = = # T', 'x = "a # b" # c', '  + 2 in', '- a', '&a b', '*a'],
		...['sweep:', '  - { input: span, from: 1, to: 2 }', 'draw: [span]', 'when: 3', '!!x y', '%'],
	);
	const body = fc.oneof(
		fc.array(line, { maxLength: 8 }).map((lines) => lines.join('\n')),
		fc.string({ maxLength: 60 }).map((text) => text.replace(/[`~]/g, '')),
	);
	fc.assert(
		fc.property(kind, body, (word, text) => {
			const workbook = smallWorkbook({ one: pageOf(fence(word, text)) });
			otherCellsWork(workbook);
			for (const problem of workbook.problems) {
				expect(problem.page).toBe('one');
				expect(problem.message).toMatch(/[.?]$/);
				expect(problem.line).toBeGreaterThan(linesBefore);
				expect(problem.column).toBeGreaterThan(0);
			}
		}),
		{ numRuns: 200 },
	);
});

describe('mistakes that reach further than one cell', () => {
	test('a circle through three cells on two pages names the whole ring', () => {
		const one = pageOf(derive('first = second + 1 in  # First'));
		const two = `${derive('second = third  # Second')}\n${derive('third = 2 * first  # Third')}\n${derive('waits = third + span  # Waits', 'free = span  # Free')}`;
		const workbook = smallWorkbook({ one, two });
		expect(workbook.problems).toHaveLength(1);
		const [problem] = workbook.problems;
		if (!problem) return;
		const line = (body: string, needle: string): string => find(body, needle).split(':')[0] ?? '';
		expect(problem.message).toBe(
			'These names go in a circle, so none can be worked out: first → second → third → first. ' +
				`They stand at: first on page one, line ${line(one, 'first =')}; second on page two, line ${line(two, 'second =')}; third on page two, line ${line(two, 'third =')}. ` +
				'Break the circle at one of them.',
		);
		expect(placeOf(problem)).toBe(`one | derive first | ${find(one, 'second + 1')}`);
		otherCellsWork(workbook);
		const run = runOf(workbook);
		expect(numberIn(workbook, run, 'free')).toBeCloseTo(2 * inch, 12);
		for (const name of ['first', 'second', 'third', 'waits']) {
			const node = workbook.graph.byId.get(name);
			expect(node && canRun(workbook.graph, node.slot)).toBe(false);
			expect(node && run.failure(node.slot)?.why).toBe('mistake on the page');
		}
		expect(workbook.graph.byId.get('waits')?.broken).toBe(
			'It needs “third”, which has a mistake of its own.',
		);
	});

	test('an input that cannot be read is the one mistake; what needs it waits for it', () => {
		const body = pageOf(
			`${inputCell('tried', 'length', 'sensible: 5 in to 1 in')}\n${derive('uses = tried + span  # Uses')}\n${fence('chart', 'name: c', 'title: C', 'sweep: [{ input: tried, from: 1 in, to: 2 in }]', 'draw: [uses]')}\nIt is {tried}.`,
		);
		const workbook = smallWorkbook(
			{ one: body },
			{
				scenarios: ['s'],
				files: {
					'scenarios/s.yaml':
						'title: S\nsummary: S\nunits: metric\nvalues: { tried: 3 in }\nstory: {}\n',
				},
			},
		);
		expect(workbook.problems.map(problemInWords)).toHaveLength(1);
		expect(workbook.problems[0]?.message).toContain('runs backwards');
		expect(workbook.graph.byId.get('uses')?.broken).toBe(
			'It needs “tried”, which has a mistake of its own.',
		);
		otherCellsWork(workbook);
	});

	test('a line without its label still gives its figure', () => {
		const workbook = smallWorkbook({ one: pageOf(derive('tried = span', 'uses = tried  # Uses')) });
		expect(workbook.problems).toHaveLength(1);
		expect(numberIn(workbook, runOf(workbook), 'uses')).toBeCloseTo(2 * inch, 12);
	});

	test('two mistakes in one cell are two problems in reading order', () => {
		const body = pageOf(derive('a = spam  # A', 'b = span + tilt  # B', 'c = late  # C'));
		const workbook = smallWorkbook({ one: body });
		expect(workbook.problems.map(placeOf)).toEqual([
			`one | derive a | ${find(body, 'spam')}`,
			`one | derive a | ${find(body, 'span + tilt')}`,
		]);
		expect(numberIn(workbook, runOf(workbook), 'c')).toBeCloseTo(7 * inch, 12);
		otherCellsWork(workbook);
	});

	test('a figure quoted twice in one paragraph has two places', () => {
		const body = pageOf('First {spam},\nthen {span}, then {spam}.\n\n- item {spam}');
		const workbook = smallWorkbook({ one: body });
		expect(workbook.problems.map(placeOf)).toEqual([
			`one | prose | ${find(body, 'spam')}`,
			`one | prose | ${find(body, 'spam', 2)}`,
			`one | prose | ${find(body, 'spam', 3)}`,
		]);
		otherCellsWork(workbook);
	});

	test('two cells of one name', () => {
		const chart = fence(
			'chart',
			'name: twin',
			'title: Twin',
			'sweep: [{ input: span, from: 1 in, to: 2 in }]',
			'draw: [sound]',
		);
		const body = pageOf(`${chart}\n${chart}`);
		const workbook = smallWorkbook({ one: body });
		const line = find(body, '```chart').split(':')[0] ?? '';
		expect(workbook.problems.map(({ message }) => message)).toEqual([
			`Two cells are named “twin”: the other stands on page one, line ${line}. Give one of them another name.`,
		]);
		expect(workbook.problems.map(placeOf)).toEqual([
			`one | chart twin | ${find(body, '```chart', 2)}`,
		]);
		otherCellsWork(workbook);
	});

	test('a cell that is never closed', () => {
		const body = `${before}\n${after}\n\`\`\`derive\ntried = span  # Tried\n`;
		const workbook = smallWorkbook({ one: body });
		expect(workbook.problems.map(({ message }) => message)).toEqual([
			'This cell is opened and never closed, so the rest of the page went into it. Close it with a line ```.',
		]);
		expect(workbook.problems.map(placeOf)).toEqual([
			`one | derive 7 | ${find(body, '```derive', 2)}`,
		]);
		otherCellsWork(workbook);
	});
});

describe('mistakes of the workbook around its pages', () => {
	/** In the workbook.yaml of a small workbook. */
	const pagesLine = 3;
	const scenariosLine = 4;

	test('a missing page file', () => {
		const workbook = smallWorkbook({ one: pageOf('') }, { pages: ['one', 'two'] });
		expect(workbook.problems.map(({ message }) => message)).toEqual([
			'There is no page two.md; add the file or take it out of “pages”.',
		]);
		expect(workbook.problems.map(placeOf)).toEqual([
			`workbook.yaml |  | ${pagesLine}:${'pages: [one, '.length + 1}`,
		]);
		otherCellsWork(workbook);
	});

	test('a missing scenario file', () => {
		const workbook = smallWorkbook({ one: pageOf('') }, { scenarios: ['nowhere'] });
		expect(workbook.problems.map(({ message }) => message)).toEqual([
			'There is no scenarios/nowhere.yaml; add the file or take it out of “scenarios”.',
		]);
		expect(workbook.problems.map(placeOf)).toEqual([
			`workbook.yaml |  | ${scenariosLine}:${'scenarios: ['.length + 1}`,
		]);
		otherCellsWork(workbook);
	});

	const scenario = (text: string): Workbook =>
		smallWorkbook(
			{ one: pageOf('') },
			{ scenarios: ['s'], files: { 'scenarios/s.yaml': `title: S\nsummary: S\n${text}` } },
		);

	test('a scenario value for no input', () => {
		const workbook = scenario(
			'units: metric\nvalues:\n  span: 3\n  spam: 4\n  sound: 5\nstory: {}\n',
		);
		expect(workbook.problems.map(({ message }) => message)).toEqual([
			'The scenario gives “spam” a value, but no input has that name. Did you mean “span”?',
			expect.stringContaining('The scenario gives “sound” a value, but no input has that name.'),
		]);
		expect(workbook.problems.map(placeOf)).toEqual([
			'scenarios/s.yaml |  | 6:9',
			'scenarios/s.yaml |  | 7:10',
		]);
		otherCellsWork(workbook);
	});

	test('a story of no page, and one that quotes no figure', () => {
		const workbook = scenario(
			'units: metric\nvalues: {}\nstory:\n  one: The {spam}\n  two: More\n',
		);
		expect(workbook.problems.map(placeOf)).toEqual([
			'scenarios/s.yaml | prose | 6:8',
			'scenarios/s.yaml |  | 7:8',
		]);
		expect(workbook.problems[0]?.message).toBe('No cell gives “spam”. Did you mean “span”?');
		expect(workbook.problems[1]?.message).toBe(
			'The story tells of a page “two” that is not in the workbook.',
		);
		otherCellsWork(workbook);
	});

	test('a scenario in no known units, with a name that can be none', () => {
		const workbook = scenario('units: imperial\nvalues: { Span: 3 }\nstory: {}\n');
		expect(workbook.problems.map(({ message }) => message)).toEqual([
			'“units” has to be one of inch-pound, metric.',
			expect.stringContaining('“Span” cannot stand here as a name: a name is small letters'),
		]);
		expect(workbook.scenarios).toHaveLength(0);
		otherCellsWork(workbook);
	});

	test('a standing figure that nobody gives', () => {
		const workbook = smallWorkbook({ one: pageOf('') }, { standing: ['soundd'] });
		expect(workbook.problems.map(({ message }) => message)).toEqual([
			'No cell gives “soundd”. Did you mean “sound”?',
		]);
		otherCellsWork(workbook);
	});

	test('a page without its front matter, and one whose front matter lacks a field', () => {
		const bare = smallWorkbook({ one: '' }, { files: { 'one.md': pageOf('') } });
		expect(bare.problems.map(placeOf)).toEqual(['one |  | 1:1']);
		expect(bare.problems[0]?.message).toContain('does not begin with its front matter');
		otherCellsWork(bare);
		const short = smallWorkbook(
			{ one: '' },
			{ files: { 'one.md': `---\ntitle: T\nsummary: S\n---\n${pageOf('')}` } },
		);
		expect(short.problems.map(placeOf)).toEqual(['one |  | 2:1']);
		expect(short.problems[0]?.message).toBe('“document” is missing; give it a text.');
		otherCellsWork(short);
	});

	test('line ends and a mark at the beginning of the file make no difference', () => {
		const text = `---  \ntitle: T\nsummary: S\ndocument: D\n---\n${pageOf(derive('tried = spam  # Tried'))}`;
		const plain = smallWorkbook({ one: '' }, { files: { 'one.md': text } });
		const other = smallWorkbook(
			{ one: '' },
			{ files: { 'one.md': `\uFEFF${text.replaceAll('\n', '\r\n')}` } },
		);
		expect(plain.problems).toHaveLength(1);
		expect(other.problems).toEqual(plain.problems);
		otherCellsWork(other);
	});

	test('without a workbook.yaml there is no workbook, and the sentence says so', () => {
		expect(() => smallWorkbook({}, { files: { 'workbook.yaml': '' } })).toThrow(
			/^workbook\.yaml cannot be used: line 1: “title” is missing; give it a text\./,
		);
	});
});

test('places hold on a page with every sort of Markdown around the cells', () => {
	const markdown = fc.constantFrom(
		'A line\n',
		'# Head\n',
		'- a\n- b\n\n  more\n',
		'> quoted\n',
		'| a | b |\n| - | - |\n| 1 | 2 |\n',
		'<div>\nhtml\n</div>\n',
		'[link]: https://example.invalid "t"\n',
		'***\n',
		'    set in\n',
		'text\n===\n',
		'```\nplain\n```\n',
		'\n',
		'1. one\n2. two\n',
		'\ttabbed\n',
		'&nbsp; <!-- note -->\n',
	);
	fc.assert(
		fc.property(
			fc.array(markdown, { maxLength: 6 }),
			fc.constantFrom('\n', '\n\n', '\n\n\n'),
			(parts, gap) => {
				const body = `${parts.join(gap)}\n\n${derive('tried = spam  # Tried')}`;
				const workbook = smallWorkbook({ one: body });
				expect(workbook.problems.map(placeOf)).toEqual([
					`one | derive tried | ${find(body, 'spam')}`,
				]);
			},
		),
		{ numRuns: 120 },
	);
});
