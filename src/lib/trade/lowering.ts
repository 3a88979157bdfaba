/** The trade of this workbook: lowering a leaf-sprung, rear-drive pickup. */
import type { Trade } from '../language/trade.ts';
import { sideElevation } from './drawing/elevation.ts';
import { mechanicsFunctions } from './rows/index.ts';

export const lowering: Trade = { functions: mechanicsFunctions, drawing: sideElevation };
