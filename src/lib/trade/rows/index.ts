/**
 * The trade's functions in the worksheet language: one row each, one file a subject. What a row says is
 * what the reference page shows. The mechanics themselves are in ../../mechanics/.
 *
 * A row has the name of its function in snake_case, its parameters in the same order, all of them
 * given, and a record's fields by their keys.
 */
import type { WorksheetFunction } from '../../language/function-row.ts';
import { clearanceFunctions } from './clearance.ts';
import { driveshaftFunctions } from './driveshaft.ts';
import { jointFunctions } from './joints.ts';
import { loadFunctions } from './load.ts';
import { measuringFunctions } from './measuring.ts';
import { payloadFunctions } from './payload.ts';
import { shaftSpeedFunctions } from './shaft-speed.ts';
import { springFunctions } from './spring.ts';
import { springsMadeFunctions } from './springs-made.ts';
import { stanceFunctions } from './stance.ts';
import { windUpFunctions } from './wind-up.ts';

export const mechanicsFunctions: readonly WorksheetFunction[] = [
	...springFunctions,
	...driveshaftFunctions,
	...jointFunctions,
	...shaftSpeedFunctions,
	...windUpFunctions,
	...stanceFunctions,
	...clearanceFunctions,
	...springsMadeFunctions,
	...loadFunctions,
	...payloadFunctions,
	...measuringFunctions,
];
