/** Serves what was built, as `npm start` does. */
import { buildFolder } from '../../src/commands/building.js';
import { filesOf, listen, portOf } from '../../src/commands/serving.js';

const { open } = await listen('localhost', portOf(process.env['PORT']));
open(await filesOf(buildFolder));
