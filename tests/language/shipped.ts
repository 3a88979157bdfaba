/** The shipped workbook, read from its folder, for tests. */
import { readWorkbookFolder } from '../../src/commands/workbook-folder.ts';

export const shipped = readWorkbookFolder('lowering');
