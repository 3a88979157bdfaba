/** A sentence of the mechanics has its amounts in both units of the trade; a person reads one of them. */
import { expect, test } from 'vitest';
import { failureInWords } from '../../src/lib/answers/failures.ts';
import { plainInBoth, plainLength } from '../../src/lib/mechanics/out-of-range.ts';

const failure = {
	why: 'out of range' as const,
	message: `The shackle is too short by ${plainLength(0.0127)}, and leans 12.5°; ${plainLength(1e-9)} more would do.`,
	from: ['spring'],
};

test('lengths in the units of the job, all else as it is', () => {
	expect(failureInWords(failure, 'inch-pound')).toBe(
		'The shackle is too short by 0.5 in, and leans 12.5°; 3.937e-8 in more would do.',
	);
	expect(failureInWords(failure, 'metric')).toBe(
		'The shackle is too short by 12.7 mm, and leans 12.5°; 0.000001 mm more would do.',
	);
});

test('loads, rates and torques too', () => {
	const message = `${plainInBoth(2224.11, 'N')} on ${plainInBoth(26_269, 'N/m')}, wound by ${plainInBoth(900, 'N·m')}.`;
	expect(failureInWords({ ...failure, message }, 'inch-pound')).toBe(
		'500 lbf on 150 lbf/in, wound by 663.8 lbf ft.',
	);
	expect(failureInWords({ ...failure, message }, 'metric')).toBe(
		'2224 N on 26.27 N/mm, wound by 900 N·m.',
	);
});
