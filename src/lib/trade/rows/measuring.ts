/** Rows of what tape and gauge read, and what they measure. */
import {
	coverageFactor,
	floorSlope,
	gaugeBothWays,
	meanReading,
	readingSpread,
	repeatedReadings,
	slopeOfTwoHeights,
	slopeToFloor,
	type GaugeBothWays,
	type RepeatedReadings,
} from '../../mechanics/measuring.ts';
import {
	eitherRow,
	flag,
	list,
	record,
	row,
	type Kind,
	type WorksheetFunction,
} from '../../language/function-row.ts';
import { typeInWords } from '../../language/type-words.ts';
import { angle, geometry, length, number } from './kinds.ts';

const bothWays = record<GaugeBothWays>('gauge reading', {
	slope: ['slope', angle, 'without the gauge’s own error'],
	zero_error: ['zeroError', angle, 'what the gauge reads too much the first way round'],
});

/** Lengths and angles are read several times; a row for each, under one name. */
function ofReadings(written: (reading: Kind<number>) => WorksheetFunction): WorksheetFunction {
	return eitherRow(written(length), written(angle));
}

const readings = 'lengths, or angles, read one after another';
const coverage = ['coverage', number, 'share of cases the ± holds; 0.95 is usual'] as const;
const lowered = 'down toward the rear positive';

export const measuringFunctions: readonly WorksheetFunction[] = [
	ofReadings((reading) =>
		row({
			name: 'mean_reading',
			about: 'Mean of repeated readings.',
			source: 'JCGM 100:2008, 4.2.1',
			example: 'mean_reading(lengths)',
			takes: [['readings', list(reading), readings]],
			gives: reading,
			run: meanReading,
		}),
	),
	ofReadings((reading) =>
		row({
			name: 'reading_spread',
			about: 'Spread of repeated readings: the sample standard deviation.',
			source: 'JCGM 100:2008, 4.2.2',
			example: 'reading_spread(lengths)',
			takes: [['readings', list(reading), `${readings}; two or more`]],
			gives: reading,
			run: readingSpread,
		}),
	),
	ofReadings((reading) =>
		row({
			name: 'repeated_readings',
			about:
				'Mean, spread and ± of repeated readings; an error the gauge makes every time is not in it.',
			source: 'JCGM 100:2008, 4.2.3 and G.3',
			example: 'repeated_readings(lengths, 0.9)',
			takes: [['readings', list(reading), `${readings}; two or more`], coverage],
			gives: record<RepeatedReadings>(`set of readings of ${typeInWords(reading.type)}`, {
				count: ['count', number, 'how many there are'],
				mean: ['mean', reading, 'of all of them'],
				spread: ['spread', reading, 'sample standard deviation of one reading'],
				standard_uncertainty: ['standardUncertainty', reading, 'of the mean'],
				plus_minus: ['plusMinus', reading, 'of the mean at the coverage asked for'],
			}),
			run: repeatedReadings,
		}),
	),
	row({
		name: 'coverage_factor',
		about: 'How many standard uncertainties the ± of a small sample takes.',
		source: 'JCGM 100:2008, table G.2',
		example: 'coverage_factor(3, 0.9)',
		takes: [['freedom', number, 'degrees of freedom: one less than the readings'], coverage],
		gives: number,
		run: coverageFactor,
	}),
	row({
		name: 'gauge_both_ways',
		about: 'Slope and zero error from a gauge read, turned end for end and read again.',
		source: geometry,
		example: 'gauge_both_ways(0.062 rad, 0.058 rad)',
		takes: [
			['first_way', angle, `as read, by the truck ${lowered}`],
			['turned_round', angle, `as read the other way round, by the truck ${lowered} too`],
		],
		gives: bothWays,
		run: gaugeBothWays,
	}),
	row({
		name: 'floor_slope',
		about: 'Slope of the floor, down toward the rear positive.',
		source: geometry,
		example: 'floor_slope(0.012 m, 3.1 m)',
		takes: [
			['lower_at_rear', length, 'how much lower the floor is at the rear than at the front'],
			['apart', length, 'between the two places, level'],
		],
		gives: angle,
		run: floorSlope,
	}),
	row({
		name: 'slope_to_floor',
		about: 'Slope against the floor from a slope against level.',
		source: geometry,
		example: 'slope_to_floor(0.062 rad, 0.004 rad)',
		takes: [
			['slope', angle, `against level, ${lowered}`],
			['floor', angle, `slope of the floor against level, ${lowered}`],
		],
		gives: angle,
		run: slopeToFloor,
	}),
	row({
		name: 'slope_of_two_heights',
		about: 'Slope of a shaft to the floor from two heights on it, down toward the rear positive.',
		source: geometry,
		example: 'slope_of_two_heights(0.41 m, 0.36 m, 1.1 m, false)',
		takes: [
			['front_height', length, 'above the floor'],
			['rear_height', length, 'above the floor, at the same place across the shaft'],
			['apart', length, 'between the two places'],
			['along_floor', flag, 'true when that was taken along the floor, false along the shaft'],
		],
		gives: angle,
		run: slopeOfTwoHeights,
	}),
];
