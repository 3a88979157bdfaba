/**
 * From the text of one formula to a tree with places. The grammar is mathjs's and mathjs parses it; this
 * stage lets through numbers with units, names, fields, arithmetic, comparisons, and/or/not, a ? b : c,
 * calls and `to UNIT`, and refuses everything else with its place.
 */
import { parseFormula, type MathNode } from './parser.ts';
import { unitNamed, unitOf, type Unit } from '../units/units.ts';
import type { SourceText } from './types.ts';

/** Offset into the formula's text, from 0. */
interface Placed {
	readonly at: number;
}

export type Arithmetic = '+' | '-' | '*' | '/' | '^';
export type Comparison = '==' | '!=' | '<' | '<=' | '>' | '>=';

export type Tree = Placed &
	(
		| { readonly op: 'number'; readonly value: number; readonly text: string }
		| { readonly op: 'unit'; readonly unit: Unit }
		| { readonly op: 'choice'; readonly value: string }
		| { readonly op: 'flag'; readonly value: boolean }
		| { readonly op: 'name'; readonly name: string }
		| { readonly op: 'field'; readonly of: Tree; readonly field: string }
		| { readonly op: 'call'; readonly name: string; readonly args: readonly Tree[] }
		| { readonly op: 'negative'; readonly of: Tree }
		| { readonly op: 'not'; readonly of: Tree }
		| {
				readonly op: 'arithmetic';
				readonly sign: Arithmetic;
				readonly left: Tree;
				readonly right: Tree;
		  }
		| {
				readonly op: 'comparison';
				readonly sign: Comparison;
				readonly left: Tree;
				readonly right: Tree;
		  }
		| {
				readonly op: 'both' | 'either';
				readonly left: Tree;
				readonly right: Tree;
		  }
		| {
				readonly op: 'if';
				readonly condition: Tree;
				readonly then: Tree;
				readonly otherwise: Tree;
		  }
	);

/** A formula that has been read. */
export interface Formula {
	readonly source: SourceText;
	readonly tree: Tree;
	/** The unit after `to`, in which the result is shown. */
	readonly shownIn?: Unit;
	/** Every name it uses, once each, in order of appearance. */
	readonly names: readonly string[];
}

/** A formula that cannot be read or does not fit together, with its place in the formula's text. */
export class FormulaError extends Error {
	override name = 'FormulaError';
	readonly at: number;
	constructor(message: string, at: number) {
		super(message);
		this.at = at;
	}
}

/** Line and column in the page of an offset into a piece of its text. */
export function placeInPage(source: SourceText, at: number): { line: number; column: number } {
	const before = source.text.slice(0, at).split('\n');
	const last = before[before.length - 1] ?? '';
	return {
		line: source.line + before.length - 1,
		column: before.length === 1 ? source.column + last.length : last.length + 1,
	};
}

/** mathjs gives its nodes no place, so the words and numbers of the text are counted along. */
const word = /"[^"]*"|0[xobXOB]\w*|(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?|[A-Za-z_][A-Za-z0-9_]*/g;
const notLeaves = new Set(['and', 'or', 'not', 'to', 'mod', 'xor']);
/** Words the grammar keeps for itself, so that no cell can have them as its name. */
export const keptWords: ReadonlySet<string> = new Set([
	...notLeaves,
	...['true', 'false', 'null', 'undefined'],
]);
/** Longer than any formula a person follows, short enough never to exhaust the parser. */
const longest = 2000;
const allowed = /^[A-Za-z0-9_."+\-*/^(),?:<>=!\s]$/;

const arithmetic: Readonly<Record<string, Arithmetic>> = {
	add: '+',
	subtract: '-',
	multiply: '*',
	divide: '/',
	pow: '^',
};

const comparison: Readonly<Record<string, Comparison>> = {
	equal: '==',
	unequal: '!=',
	smaller: '<',
	smallerEq: '<=',
	larger: '>',
	largerEq: '>=',
};

/**
 * Reads one formula.
 * @throws FormulaError with a sentence and the place
 */
export function readFormula(source: SourceText): Formula {
	const { text } = source;
	if (text.trim() === '') {
		throw new FormulaError('There is no formula here; write one, such as `rear_height - 2 in`.', 0);
	}
	if (text.length > longest) {
		throw new FormulaError(
			`This formula is ${text.length} letters long; ${longest} is the most. Give parts of it names of their own.`,
			0,
		);
	}
	for (let at = 0; at < text.length; at++) {
		const character = text.charAt(at);
		if (!allowed.test(character)) {
			throw new FormulaError(
				`“${character}” is not part of a formula. A formula holds numbers with units, names, + − * / ^, comparisons, and, or, not, a ? b : c, calls and “to UNIT”.`,
				at,
			);
		}
		if (character === '!' && text.charAt(at + 1) !== '=') {
			throw new FormulaError(
				'“!” alone is not part of a formula; write not, or != for “is not”.',
				at,
			);
		}
		if (
			character === '=' &&
			text.charAt(at + 1) !== '=' &&
			!/[=!<>]/.test(text.charAt(at - 1) || ' ')
		) {
			throw new FormulaError(
				'“=” inside a formula gives a second name; one line gives one name. To compare, write ==.',
				at,
			);
		}
	}
	// The `to UNIT` at the very end is of the whole formula, whatever the grammar would bind it to.
	const conversion = /(?<![\w.])to\s+([^"]*)$/.exec(text);
	const ends = conversion && bracketsClose(conversion[1] ?? '') ? conversion : undefined;
	const value = ends ? text.slice(0, ends.index) : text;
	const shownIn = ends ? unitAfterTo(text, ends.index + ends[0].indexOf(ends[1] ?? '')) : undefined;
	if (value.trim() === '') throw new FormulaError('“to” needs a value before it.', 0);
	let parsed: MathNode;
	try {
		// Line breaks end an expression in this grammar; a formula may run over several lines. And `in`
		// is a sign of the grammar, not a unit, so inches go in as a word that is nothing else.
		const forParser = value.replace(word, (each) => (each === 'in' ? 'IN' : each));
		parsed = parseFormula(forParser.replace(/\s/g, ' '));
	} catch (cause) {
		if (cause instanceof RangeError) {
			throw new FormulaError(
				'The brackets of this formula go too deep. Give parts of it names of their own.',
				0,
			);
		}
		const char = (cause as { char?: number }).char ?? 1;
		const said = (cause as Error).message.replace(/\s*\(char \d+\)/, '');
		throw new FormulaError(
			`The formula breaks off or does not fit together here (${lowerFirst(said)}).`,
			Math.min(char - 1, value.length),
		);
	}

	const places: number[] = [];
	for (const match of text.matchAll(word)) {
		if (!notLeaves.has(match[0])) places.push(match.index);
	}
	let leaf = 0;
	const place = (): number => places[leaf++] ?? 0;

	const names: string[] = [];
	const read = (node: MathNode): Tree => {
		if (isParenthesis(node)) return read(node.content);
		if (isConstant(node)) {
			const at = place();
			if (typeof node.value === 'number') {
				const written = wordAt(text, at);
				if (Number.isFinite(node.value) && /^[\d.]+(?:e[+-]?\d+)?$/i.test(written)) {
					return { op: 'number', value: node.value, text: written, at };
				}
			}
			if (typeof node.value === 'string') return { op: 'choice', value: node.value, at };
			if (typeof node.value === 'boolean') return { op: 'flag', value: node.value, at };
			throw new FormulaError(`“${wordAt(text, at)}” is not a value a formula can hold.`, at);
		}
		if (isSymbol(node)) {
			const at = place();
			const name = wordAt(text, at);
			const unit = unitNamed(name);
			if (unit) return { op: 'unit', unit, at };
			if (!names.includes(name)) names.push(name);
			return { op: 'name', name, at };
		}
		if (isAccessor(node)) {
			const of = read(node.object);
			const at = place();
			const field = node.index.dotNotation
				? (node.index.dimensions[0] as { value?: unknown } | undefined)?.value
				: undefined;
			if (typeof field !== 'string' || node.optionalChaining) {
				throw new FormulaError('Only a field with a plain name can follow a dot.', at);
			}
			return { op: 'field', of, field, at };
		}
		if (isFunction(node)) {
			if (!isSymbol(node.fn)) {
				throw new FormulaError('Only a function of the list can be called, by its plain name.', 0);
			}
			const at = place();
			return { op: 'call', name: node.fn.name, args: node.args.map(read), at };
		}
		if (isConditional(node)) {
			const condition = read(node.condition);
			const then = read(node.trueExpr);
			return { op: 'if', condition, then, otherwise: read(node.falseExpr), at: condition.at };
		}
		if (isRelational(node)) {
			const params = node.params.map(read);
			const pairs = node.conditionals.map((fn, index): Tree => {
				const left = params[index];
				const right = params[index + 1];
				const sign = comparison[fn];
				if (!left || !right || !sign) throw refused(node, params[0]?.at ?? 0);
				return { op: 'comparison', sign, left, right, at: left.at };
			});
			return pairs.reduce((left, right) => ({ op: 'both', left, right, at: left.at }));
		}
		if (isOperator(node)) {
			const [first, second] = node.args;
			if (!first) throw refused(node, 0);
			const left = read(first);
			if (!second) {
				if (node.fn === 'unaryMinus') return { op: 'negative', of: left, at: left.at };
				if (node.fn === 'unaryPlus') return left;
				if (node.fn === 'not') return { op: 'not', of: left, at: left.at };
				throw refused(node, left.at, text);
			}
			const right = read(second);
			if (node.implicit && !(holdsUnitsOnly(right) && endsInNumberOrUnit(left))) {
				throw new FormulaError(
					'Two values stand side by side; write * between them. Only a unit may follow its number directly.',
					right.at,
				);
			}
			const sign = arithmetic[node.fn];
			if (sign) return { op: 'arithmetic', sign, left, right, at: left.at };
			const compared = comparison[node.fn];
			if (compared) return { op: 'comparison', sign: compared, left, right, at: left.at };
			if (node.fn === 'and') return { op: 'both', left, right, at: left.at };
			if (node.fn === 'or') return { op: 'either', left, right, at: left.at };
			if (node.fn === 'to') {
				throw new FormulaError(
					'“to UNIT” can only stand at the end of the whole formula.',
					right.at,
				);
			}
			throw refused(node, left.at, text);
		}
		throw refused(node, places[leaf] ?? 0);
	};
	const tree = read(parsed);
	return { source, tree, names, ...(shownIn && { shownIn }) };
}

function bracketsClose(text: string): boolean {
	let open = 0;
	for (const character of text) {
		if (character === '(') open++;
		if (character === ')' && --open < 0) return false;
	}
	return true;
}

function unitAfterTo(text: string, at: number): Unit {
	const written = text.slice(at).trim();
	// A number here would be a scale of one’s own, not a unit.
	const unit = /^\d(?!\s*\/)/.test(written) ? undefined : unitOf(written);
	if (unit) return unit;
	throw new FormulaError(
		`“${written}” is not a unit this workbook knows; write one such as in, mm, deg, lbf, N/mm.`,
		at,
	);
}

/** @param text where given, the place is that of the sign, at or after `at` */
function refused(node: MathNode, at: number, text?: string): FormulaError {
	const sign = 'op' in node ? String(node.op) : node.type;
	const what: Readonly<Record<string, string>> = {
		ArrayNode: 'A list in square brackets',
		AssignmentNode: 'Giving a second name',
		BlockNode: 'More than one expression',
		FunctionAssignmentNode: 'A function of one’s own',
		IndexNode: 'Picking by number',
		ObjectNode: 'An object in braces',
		RangeNode: 'A range with a colon',
	};
	return new FormulaError(
		`${what[node.type] ?? `“${sign}”`} is not part of a formula. A formula holds numbers with units, names, + − * / ^, comparisons, and, or, not, a ? b : c, calls and “to UNIT”.`,
		text === undefined ? at : Math.max(at, text.indexOf(sign, at)),
	);
}

function holdsUnitsOnly(tree: Tree): boolean {
	if (tree.op === 'unit') return true;
	if (tree.op !== 'arithmetic') return false;
	if (tree.sign === '^') return holdsUnitsOnly(tree.left) && isWrittenNumber(tree.right);
	return holdsUnitsOnly(tree.left) && holdsUnitsOnly(tree.right);
}

function endsInNumberOrUnit(tree: Tree): boolean {
	if (tree.op === 'negative') return endsInNumberOrUnit(tree.of);
	if (tree.op === 'arithmetic') {
		// 1/2 in
		const fraction = tree.sign === '/' && isWrittenNumber(tree.left) && isWrittenNumber(tree.right);
		return fraction || holdsUnitsOnly(tree.right);
	}
	return tree.op === 'number' || tree.op === 'unit';
}

function isWrittenNumber(tree: Tree): boolean {
	return tree.op === 'number' || (tree.op === 'negative' && tree.of.op === 'number');
}

function wordAt(text: string, at: number): string {
	word.lastIndex = at;
	const found = word.exec(text)?.[0] ?? '';
	word.lastIndex = 0;
	return found;
}

function lowerFirst(text: string): string {
	return text.charAt(0).toLowerCase() + text.slice(1);
}

// mathjs types its nodes as one base class; these say which is which.
type Shape<Name extends string, Fields> = MathNode & { type: Name } & Fields;
const isOperator = (
	node: MathNode,
): node is Shape<'OperatorNode', { fn: string; args: MathNode[]; implicit: boolean }> =>
	node.type === 'OperatorNode';
const isParenthesis = (node: MathNode): node is Shape<'ParenthesisNode', { content: MathNode }> =>
	node.type === 'ParenthesisNode';
const isConstant = (node: MathNode): node is Shape<'ConstantNode', { value: unknown }> =>
	node.type === 'ConstantNode';
const isSymbol = (node: MathNode): node is Shape<'SymbolNode', { name: string }> =>
	node.type === 'SymbolNode';
const isAccessor = (
	node: MathNode,
): node is Shape<
	'AccessorNode',
	{
		object: MathNode;
		index: { dotNotation: boolean; dimensions: MathNode[] };
		optionalChaining: boolean;
	}
> => node.type === 'AccessorNode';
const isFunction = (
	node: MathNode,
): node is Shape<'FunctionNode', { fn: MathNode; args: MathNode[] }> =>
	node.type === 'FunctionNode';
const isConditional = (
	node: MathNode,
): node is Shape<
	'ConditionalNode',
	{ condition: MathNode; trueExpr: MathNode; falseExpr: MathNode }
> => node.type === 'ConditionalNode';
const isRelational = (
	node: MathNode,
): node is Shape<'RelationalNode', { conditionals: string[]; params: MathNode[] }> =>
	node.type === 'RelationalNode';
