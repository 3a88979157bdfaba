/** mathjs, cut down to its parser. The only file that imports it. */
import { create, parseDependencies, type MathNode } from 'mathjs';

export type { MathNode };

/** Parses by the mathjs grammar. Throws a SyntaxError with `char`, counted from 1. */
export const parseFormula: (text: string) => MathNode = create({ ...parseDependencies }).parse;
