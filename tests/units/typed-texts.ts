/**
 * What people type, by kind of field, and what it is: data, with every expectation written out or made by
 * plain arithmetic from the parts a text is put together from.
 */

/** A kind of field; `typed-reading.test.ts` says what each asks for. */
export type Field =
	| 'inches' // a length in inches, on a tape in sixteenths
	| 'millimetres'
	| 'slope' // an angle in degrees within ±45
	| 'turn' // an angle in degrees without limits
	| 'number'
	| 'force' // lbf
	| 'rate' // N/mm
	| 'inch list'
	| 'slope list'; // degrees within ±45

/** What is wanted, in the unit of the field. */
export type Wanted =
	| number
	/** With a ±. */
	| readonly [value: number, plusMinus: number]
	| { readonly list: readonly number[] }
	/** Not read; these texts are offered, in this order. */
	| { readonly asked: readonly string[] }
	/** Not read, and nothing is offered. */
	| 'refused';

export type Row = readonly [typed: string, field: Field, wanted: Wanted];

const asked = (...texts: readonly string[]): Wanted => ({ asked: texts });
const list = (...values: readonly number[]): Wanted => ({ list: values });

function of(field: Field, rows: readonly (readonly [string, Wanted])[]): Row[] {
	return rows.map(([typed, wanted]): Row => [typed, field, wanted]);
}

// One mark in an unicode fraction, or a stroke between two numbers.
const tapeFractions = [
	[1, 2, '½'],
	[1, 4, '¼'],
	[3, 4, '¾'],
	[1, 8, '⅛'],
	[5, 8, '⅝'],
	[7, 8, '⅞'],
	[11, 16, ''],
] as const;

/** Whole and fraction, in every way they are joined. */
const wholesAndFractions = [4, 33].flatMap((whole) =>
	tapeFractions.flatMap(([above, below, sign]): Row[] => {
		const value = whole + above / below;
		const fraction = `${above}/${below}`;
		return [
			...[`${whole} ${fraction}`, `${whole}-${fraction}`, `${whole}–${fraction}`].flatMap(
				(text): Row[] => [
					[text, 'inches', value],
					[`${text}"`, 'inches', value],
					[`-${text}`, 'inches', -value],
					[`${text} in`, 'millimetres', value * 25.4],
				],
			),
			[`${whole}"-${fraction}`, 'inches', value],
			...(sign === ''
				? []
				: [`${whole}${sign}`, `${whole} ${sign}`, `${whole}-${sign}`].map((text): Row => [
						text,
						'inches',
						value,
					])),
			[`${whole} - ${fraction}`, 'inches', whole - above / below],
			[`${whole} -${fraction}`, 'inches', asked(`${whole} ${fraction}`, `${whole} - ${fraction}`)],
		];
	}),
);

/** Feet and inches, in every way they are joined. */
const feetAndInches = [
	[4, 2],
	[5, 6],
	[9, 11],
].flatMap(([feet = 0, inches = 0]): Row[] => {
	const value = 12 * feet + inches;
	return [
		...[
			`${feet}' ${inches}"`,
			`${feet}'${inches}"`,
			`${feet}'-${inches}"`,
			`${feet}’ ${inches}”`,
			`${feet}′ ${inches}″`,
			`${feet}' ${inches}''`,
			`${feet}’-${inches}’’`,
			`${feet}´ ${inches}´´`,
			`${feet} ft ${inches} in`,
			`${feet}ft-${inches}in`,
			`${feet} feet ${inches} inches`,
		].flatMap((text): Row[] => [
			[text, 'inches', value],
			[text, 'millimetres', value * 25.4],
		]),
		[`${feet}' ${inches}`, 'inches', value],
		[`${feet}'-${inches}-1/2"`, 'inches', value + 0.5],
		[`${feet}' ${inches}½"`, 'inches', value + 0.5],
		[`${feet}' - ${inches}"`, 'inches', asked(`${feet}' ${inches}"`, `(${feet}') - ${inches}"`)],
		[`(${feet}') - ${inches}"`, 'inches', 12 * feet - inches],
	];
});

/** Numbers with a dash between, in every way spaces stand round it. */
const dashes = [
	[3, 5],
	[5, 13],
	[2, 40],
].flatMap(([low = 0, high = 0]): Row[] =>
	(['turn', 'number', 'force', 'rate', 'millimetres'] as const).flatMap((field): Row[] => [
		...[`${low}-${high}`, `${low} -${high}`, `${low}- ${high}`].map((text): Row => [
			text,
			field,
			asked(`${low} to ${high}`, `${low} - ${high}`),
		]),
		[`${high}-${low}`, field, asked(`${high} - ${low}`)],
		[`${low} - ${high}`, field, low - high],
		[`${low} to ${high}`, field, [(low + high) / 2, (high - low) / 2]],
		[`${high} to ${low}`, field, asked(`${low} to ${high}`)],
	]),
);

/** How sure a reading is, with each sign for it. */
const sure = ['±', '+-', '+/-', '+−'].flatMap((sign): Row[] => [
	[`33 1/2 ${sign} 1/16`, 'inches', [33.5, 1 / 16]],
	[`851 mm ${sign} 3`, 'inches', [851 / 25.4, 3 / 25.4]],
	[`5° 30' ${sign} 10`, 'slope', [5.5, 1 / 6]],
	[`5.2${sign}0.3`, 'slope', [5.2, 0.3]],
	[`5 ft 6 ${sign} 1/2`, 'millimetres', [66 * 25.4, 12.7]],
	[`160 lbf/in ${sign} 10`, 'rate', [(160 * 4.4482216152605) / 25.4, 44.482216152605 / 25.4]],
	[`${sign} 3`, 'number', 'refused'],
	[`3 ${sign}`, 'number', 'refused'],
]);

const written: Row[] = [
	...of('inches', [
		['33', 33],
		['33.5', 33.5],
		['33,5', 33.5],
		['.5', 0.5],
		[',5', 0.5],
		['0,125', 0.125],
		['33,5 in.', 33.5],
		['1,5 - 0,5', 1],
		['½', 0.5],
		['-½', -0.5],
		['11/16', 0.6875],
		['45 / 8', 5.625],
		['45/8', asked('4 5/8', '45 / 8')],
		['3 ft 45/8', asked('3 ft 4 5/8', '3 ft 45 / 8')],
		['1163/8', asked('116 3/8', '1163 / 8')],
		['9/8', asked('9 / 8')],
		['33.1/2', asked('33 1/2', '33.1 / 2')],
		['33,1/2', asked('33 1/2', '33.1 / 2')],
		['33.5/2', 16.75],
		['100/2.5', 40],
		['1/2,1/2', asked('1/2.1 / 2')],
		['8/8', 1],
		['1 250', asked('1250')],
		['3 250 mm', asked('3250 mm')],
		['54"-5/8', 54.625],
		['54"-5/8"', 54.625],
		['54" 5/8', 54.625],
		['5\' 6" 1/2', 66.5],
		['54.5-1/2', asked('54.5 - 1/2')],
		['54.0-1/2', asked('54 1/2', '54.0 - 1/2')],
		['54.5 - 1/2', 54],
		['54.0 1/2', 'refused'],
		['54.5" 1/8', 'refused'],
		["5.5' 6", 'refused'],
		['54"-0.5"', asked('54" - 0.5"')],
		['33½5', 'refused'],
		['33½½', 'refused'],
		['½5', 'refused'],
		['33 1/2 1/4', 'refused'],
		['3/½', 6],
		['33½/2', 16.75],
		['1/2/4', asked('1 2/4', '1/2 / 4')],
		['11/26/26', asked('11/26 / 26')],
		['3-5', asked("3' 5", '3 to 5', '3 - 5')],
		['5-6', asked("5' 6", '5 to 6', '5 - 6')],
		['5-13', asked('5 to 13', '5 - 13')],
		['36-33', asked('36 - 33')],
		['36–33', asked('36 - 33')],
		['36−33', asked('36 - 33')],
		['5-6-1/2', asked("5' 6-1/2", '5 to 6-1/2', '5 - 6-1/2')],
		['3-5-7', 'refused'],
		['33 1/2-1/4', asked('33 1/2 - 1/4')],
		['33-1/2-1/4', asked('33-1/2 - 1/4')],
		['33-3/2', 'refused'],
		['33- 1/2', asked('33 1/2', '33 - 1/2')],
		['33 -½', asked('33 ½', '33 - ½')],
		['-3-5', asked('-3 to 5', '-3 - 5')],
		['-3 - 5', -8],
		['- 3', -3],
		['+3', 3],
		['—3', -3],
		['−0', 0],
		["5'-6'", asked("5' to 6'", "5' - 6'")],
		['5\' - 13"', 47],
		["4' - 2", asked("4' 2", "(4') - 2")],
		["1' + 4' - 2\"", 58],
		['(36 + 37) / 2', 36.5],
		['(36 + 37)-5', asked('(36 + 37) - 5')],
		['2 * 3 1/4', 6.5],
		['6 ÷ 4', 1.5],
		['10 in + 5 mm', 10 + 5 / 25.4],
		['36+1/2', 36.5],
		['--5', asked('-5', '5')],
		['+-5', 'refused'],
		['-+5', asked('-5', '5')],
		['5--3', asked('5 ± 3', '5 - 3', '5 + 3')],
		['5 - -3', asked('5 ± 3', '5 - 3', '5 + 3')],
		['5 + -3', asked('5 ± 3', '5 - 3', '5 + 3')],
		['5 - (-3)', 8],
		['5 ++ 3', asked('5 ± 3', '5 - 3', '5 + 3')],
		['5 ± 1 ± 2', 'refused'],
		['5 ± 1 +- 2 +/- 3', 'refused'],
		['5 ± -1', 'refused'],
		['5 ± 1 + 2', 'refused'],
		['5 ± 1-2', asked("5 ± 1' 2")],
		['5 ± 1-1/2', [5, 1.5]],
		['5 ± 0', [5, 0]],
		['5 ± 1 deg', 'refused'],
		['2 ± 3 mm', asked('2 mm ± 3 mm', '2 in ± 3 mm')],
		['2 in ± 3 mm', [2, 3 / 25.4]],
		['2 ± 1/16"', [2, 1 / 16]],
		['10 in + 5 mm ± 1', asked('10 in + 5 mm ± 1 in')],
		['2 * 30 mm ± 1', [60 / 25.4, 1 / 25.4]],
		['33 1/4 to 33 3/4', [33.5, 0.25]],
		['33-1/4 to 33-3/4', [33.5, 0.25]],
		['3 to 5 mm', [4 / 25.4, 1 / 25.4]],
		['3 mm to 5', [4 / 25.4, 1 / 25.4]],
		['3 mm to 1 in', [14.2 / 25.4, 11.2 / 25.4]],
		['3" to 5"', [4, 1]],
		['3in TO 5in', [4, 1]],
		['3to5', [4, 1]],
		['5\' 6" to 7', asked('5\' 6" to 7 ft')],
		['3 to 5 to 7', 'refused'],
		['3 to', 'refused'],
		['to 5', 'refused'],
		['3 to 3', 'refused'],
		['3 to 5 ± 1', 'refused'],
		['3 to 5-6', 'refused'],
		['1,234', asked('1.234', '1234')],
		['1,234.5', asked('1234.5')],
		['1.234,5', asked('1234.5')],
		['1,234,567', asked('1234567')],
		['1.234.567', asked('1234567')],
		['1.234', 1.234],
		['1234,567', 1234.567],
		['1,2,3', 'refused'],
		['1.2.3', 'refused'],
		['1,5 + 2.5', asked('1.5 + 2.5')],
		['2, 3', 'refused'],
		['2; 3', 'refused'],
		['3 4', 'refused'],
		['', 'refused'],
		['   ', 'refused'],
		['-', 'refused'],
		['±', 'refused'],
		['to', 'refused'],
		['3 -', 'refused'],
		['(3', 'refused'],
		['3)', 'refused'],
		['abc', 'refused'],
		['33 furlongs', 'refused'],
		['5 deg', 'refused'],
		['1e400', 'refused'],
		['1/0', 'refused'],
		['851 mm', 851 / 25.4],
		['85.1 cm', 851 / 25.4],
		['85,1 cm', 851 / 25.4],
	]),
	...of('millimetres', [
		['851', 851],
		['851,5', 851.5],
		['85.1 cm', 851],
		['33½"', 850.9],
		['33 ± 1/16 in', asked('33 in ± 1/16 in', '33 mm ± 1/16 in')],
		['851 ± 3', [851, 3]],
		['85 cm ± 1', [850, 10]],
		['1,250', asked('1.250', '1250')],
		['5 m 20 cm', 5200],
		["4' - 2", 1217.2],
		['2900-3', asked('2900 - 3')],
	]),
	...of('slope', [
		['3.8', 3.8],
		['3,8', 3.8],
		['3.8°', 3.8],
		['-3.8', -3.8],
		['3.8 degrees', 3.8],
		["5° 30'", 5.5],
		["5°-30'", 5.5],
		["5° - 30'", 4.5],
		['5° 30', 5.5],
		['5°-30', asked('5° 30', '5° to 30', '5° - 30')],
		['5°-0.5°', asked('5° - 0.5°')],
		['5° 0.5°', 'refused'],
		["5.5° 30'", 'refused'],
		['5° 30\' 36"', 5.51],
		['5° 30\' 36" ± 18', [5.51, 0.005]],
		['90 - 86.2', 3.8],
		['90° - 86.2', 3.8],
		['90-86.2', asked('90 - 86.2')],
		['90 -86.2', asked('90 - 86.2')],
		['90°-86.2°', asked('90° - 86.2°')],
		['86.2', asked('90 - 86.2')],
		['86,2', asked('90 - 86,2')],
		['86.2°', asked('90° - 86.2°')],
		["86° 12'", asked("90° - 86° 12'")],
		['93.8', asked('90 - 93.8')],
		['-86.2', asked('-90 - (-86.2)')],
		['86.2 ± 0.3', asked('90 - 86.2 ± 0.3')],
		['86 to 87', asked('90 - 87 to 90 - 86')],
		['(86 + 87) / 2', asked('90 - ((86 + 87) / 2)')],
		['46', asked('90 - 46')],
		['45', 45],
		['136', 'refused'],
		['51/2', asked('5 1/2', '51 / 2')],
		['180', 'refused'],
		['900', 'refused'],
		['3-5', asked('3 to 5', '3 - 5')],
		['3-86', asked('3 to 86')],
		['3 to 5', [4, 1]],
		['3° to 5', [4, 1]],
		["3 to 5° 30'", asked("3 deg to 5° 30'", "3 arcmin to 5° 30'")],
		["5.5 ± 30'", asked("5.5 arcmin ± 30'", "5.5 deg ± 30'")],
		['5 ± 45', [5, 45]],
		['5 ± 46', 'refused'],
		['5 ± 300', 'refused'],
		['5 in', 'refused'],
		['0.1 rad', 18 / Math.PI],
	]),
	...of('turn', [
		['86.2', 86.2],
		['-180', -180],
		['86-88', asked('86 to 88', '86 - 88')],
		['86.2 ± 0.3', [86.2, 0.3]],
		["30'", 0.5],
	]),
	...of('number', [
		['1.5', 1.5],
		['1,5', 1.5],
		['1e3', 1000],
		['1 1/2', 1.5],
		['1½', 1.5],
		['45/8', 5.625],
		['3 in', 'refused'],
		['--5', asked('-5', '5')],
	]),
	...of('force', [
		['850', 850],
		['850 lb', 850],
		['850 lbs', 850],
		['850 lb ± 25', [850, 25]],
		['850 ± 25 lb', [850, 25]],
		['3781 N ± 10', [3781 / 4.4482216152605, 10 / 4.4482216152605]],
		['850 ± 10 N', asked('850 N ± 10 N', '850 lbf ± 10 N')],
		['850 kg', 'refused'],
		['180 * 9.81', 1765.8],
		['800 to 900 lb', [850, 50]],
		['1,250', asked('1.250', '1250')],
	]),
	...of('rate', [
		['28', 28],
		['28 N/mm', 28],
		['28 N/mm ± 2', [28, 2]],
		['28 ± 2 N/mm', [28, 2]],
		['27 to 29 N/mm', [28, 1]],
		['160 lb/in', (160 * 4.4482216152605) / 25.4],
		['150 to 170 lb/in', [(160 * 4.4482216152605) / 25.4, (10 * 4.4482216152605) / 25.4]],
		['28 ± 2 lbf/in', asked('28 lbf/in ± 2 lbf/in', '28 N/mm ± 2 lbf/in')],
	]),
	...of('inch list', [
		['1', list(1)],
		['1; 2; 3', list(1, 2, 3)],
		['1;2;3', list(1, 2, 3)],
		['1, 2, 3', list(1, 2, 3)],
		['1\n2\n3', list(1, 2, 3)],
		['1; 2;', list(1, 2)],
		['1, 2,', list(1, 2)],
		['-2; -1 1/2; 0', list(-2, -1.5, 0)],
		['1-1/2; 2-1/2', list(1.5, 2.5)],
		['1-1/2, 2-1/2', list(1.5, 2.5)],
		['1-1/2,2-1/2', asked('1-1/2; 2-1/2')],
		['1½,2½', asked('1½; 2½')],
		['1/2",3/4"', asked('1/2"; 3/4"')],
		['2,3', asked('2.3', '2; 3')],
		['1,5, 2,5', asked('1.5; 2.5', '1; 5; 2; 5')],
		['2,3,4', asked('2; 3; 4')],
		['1,5; 2,5', list(1.5, 2.5)],
		['1,234', asked('1.234', '1; 234')],
		['1,234; 2', asked('1.234; 2', '1234; 2')],
		['5.2 +- 0.3', 'refused'],
		['5.2 ± 0.3; 5.3', 'refused'],
		['5-6', asked("5' 6", '5; 6', '5 - 6')],
		['5-6; 7', asked("5' 6; 7", '5; 6; 7', '5 - 6; 7')],
		['6-5', asked("6' 5", '6; 5', '6 - 5')],
		['3 to 5', asked('3; 5')],
		['1; 3 to 5', asked('1; 3; 5')],
		['1 2 3', asked('1; 2; 3')],
		['1 1/2 2 1/2', 'refused'],
		['1; 2; 3 mm', asked('1 mm; 2 mm; 3 mm', '1 in; 2 in; 3 mm')],
		['1; 2 in', list(1, 2)],
		['25.4 mm; 50.8 mm', list(1, 2)],
		['90 - 86; 2', list(4, 2)],
		['1 - 2', list(-1)],
		['--5; 3', asked('-5; 3', '5; 3')],
		['33½5', 'refused'],
		['', 'refused'],
		[';', 'refused'],
		['1; x', 'refused'],
	]),
	...of('slope list', [
		['3.8; 3.9; 3.8', list(3.8, 3.9, 3.8)],
		['86.2; 86.4', asked('90 - 86.2; 90 - 86.4')],
		['3.8; 86.4', asked('3.8; 90 - 86.4')],
		['86.2, 86.4', asked('90 - 86.2; 90 - 86.4')],
		['86.2; 200', 'refused'],
		['3-5', asked('3; 5', '3 - 5')],
		["5° 30'; 5° 45'", list(5.5, 5.75)],
	]),
];

export const typedTexts: readonly Row[] = [
	...wholesAndFractions,
	...feetAndInches,
	...dashes,
	...sure,
	...written,
];
