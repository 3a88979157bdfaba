/**
 * From the text of one formula to a tree with places. The grammar is mathjs's and mathjs parses it; this
 * stage lets through numbers with units, names, fields, arithmetic, comparisons, and/or/not, a ? b : c,
 * calls and `to UNIT`, and refuses everything else with its place.
 */
import { unitNamed, unitOf, type Unit } from '../units/units.ts';
import { parseFormula, type MathNode } from './parser.ts';
import { FormulaError } from './places.ts';
import type { Arithmetic, Comparison, Formula, Tree } from './tree.ts';
import type { SourceText } from './types.ts';

/** The words and numbers of a formula. mathjs gives its nodes no place, so these are counted along. */
const word = /"[^"]*"|0[xobXOB]\w*|(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?|[A-Za-z_][A-Za-z0-9_]*/g;
/** Where there may be inches among them. */
const inches = /(?<![A-Za-z_])in(?!\w)/;
const notLeaves = new Set(['and', 'or', 'not', 'to', 'mod', 'xor']);
/** Words the grammar keeps for itself, so that no cell can have them as its name. */
export const keptWords: ReadonlySet<string> = new Set([
	...notLeaves,
	...['true', 'false', 'null', 'undefined'],
]);
/** Longer than any formula a person follows, short enough never to exhaust the parser. */
const longest = 2000;
/** A letter of no formula, a “!” alone, or a “=” alone. */
const refusedLetter = /[^A-Za-z0-9_."+\-*/^(),?:<>=!\s]|!(?!=)|(?<![=!<>])=(?!=)/;
const holds =
	'A formula holds numbers with units, names, + − * / ^, comparisons, and, or, not, a ? b : c, calls and “to UNIT”.';

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
export function readFormula({ text }: SourceText): Formula {
	checkLetters(text);
	const { value, shownIn } = splitConversion(text);
	const reader = new TreeReader(text);
	const tree = reader.read(parsed(value));
	return { tree, names: [...reader.names], ...(shownIn && { shownIn }) };
}

/** Refuses what no formula can hold before the parser sees it. */
function checkLetters(text: string): void {
	if (text.trim() === '') {
		throw new FormulaError('There is no formula here; write one, such as `rear_height - 2 in`.', 0);
	}
	if (text.length > longest) {
		throw new FormulaError(
			`This formula is ${text.length.toString()} letters long; ${longest.toString()} is the most. Give parts of it names of their own.`,
			0,
		);
	}
	const at = text.search(refusedLetter);
	if (at < 0) return;
	const letter = text.charAt(at);
	throw new FormulaError(
		letter === '!'
			? '“!” alone is not part of a formula; write not, or != for “is not”.'
			: letter === '='
				? '“=” inside a formula gives a second name; one line gives one name. To compare, write ==.'
				: `“${letter}” is not part of a formula. ${holds}`,
		at,
	);
}

/** The `to UNIT` at the very end is of the whole formula, whatever the grammar would bind it to. */
function splitConversion(text: string): { value: string; shownIn?: Unit } {
	const conversion = /(?<![\w.])to\s+([^"]*)$/.exec(text);
	const written = conversion?.[1] ?? '';
	if (!conversion || !bracketsClose(written)) return { value: text };
	const value = text.slice(0, conversion.index);
	const shownIn = unitOf(written.trim());
	if (!shownIn) {
		throw new FormulaError(
			`“${written.trim()}” is not a unit this workbook knows; write one such as in, mm, deg, lbf, N/mm.`,
			conversion.index + conversion[0].indexOf(written),
		);
	}
	if (value.trim() === '') throw new FormulaError('“to” needs a value before it.', 0);
	return { value, shownIn };
}

function bracketsClose(text: string): boolean {
	let open = 0;
	for (const character of text) {
		if (character === '(') open++;
		if (character === ')' && --open < 0) return false;
	}
	return true;
}

function parsed(value: string): MathNode {
	// Line breaks end an expression in this grammar; a formula may run over several lines. And `in`
	// is a sign of the grammar, not a unit, so inches go in as a word that is nothing else.
	const forParser = inches.test(value)
		? value.replace(word, (each) => (each === 'in' ? 'IN' : each))
		: value;
	try {
		return parseFormula(forParser.replace(/\s/g, ' '));
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
}

/** A word or number of the text and where it stands. */
interface Word {
	readonly text: string;
	readonly at: number;
}

/** Goes over mathjs's nodes in the order they are written, with the words of the text beside them. */
class TreeReader {
	/** Every name used, in order of appearance. */
	readonly names = new Set<string>();
	private readonly text: string;
	private readonly words: Word[] = [];
	private next = 0;

	constructor(text: string) {
		this.text = text;
		for (const { 0: each, index: at } of text.matchAll(word)) {
			if (!notLeaves.has(each)) this.words.push({ text: each, at });
		}
	}

	private word(): Word {
		return this.words[this.next++] ?? { text: this.words[0]?.text ?? '', at: 0 };
	}

	read(node: MathNode): Tree {
		if (isParenthesis(node)) return this.read(node.content);
		if (isOperator(node)) return this.operator(node);
		if (isSymbol(node)) return this.symbol();
		if (isConstant(node)) return this.constant(node);
		if (isFunction(node)) return this.call(node);
		if (isAccessor(node)) return this.field(node);
		if (isConditional(node)) {
			const condition = this.read(node.condition);
			const then = this.read(node.trueExpr);
			const otherwise = this.read(node.falseExpr);
			return { op: 'if', condition, then, otherwise, at: condition.at };
		}
		if (isRelational(node)) return this.relations(node);
		throw refused(node, this.words[this.next]?.at ?? 0);
	}

	private constant({ value }: ConstantNode): Tree {
		const { text, at } = this.word();
		if (typeof value === 'number') {
			if (Number.isFinite(value) && /^[\d.]+(?:e[+-]?\d+)?$/i.test(text)) {
				return { op: 'number', value, text, at };
			}
		}
		if (typeof value === 'string') return { op: 'choice', value, at };
		if (typeof value === 'boolean') return { op: 'flag', value, at };
		throw new FormulaError(`“${text}” is not a value a formula can hold.`, at);
	}

	private symbol(): Tree {
		const { text: name, at } = this.word();
		const unit = unitNamed(name);
		if (unit) return { op: 'unit', unit, at };
		this.names.add(name);
		return { op: 'name', name, at };
	}

	private field(node: AccessorNode): Tree {
		const of = this.read(node.object);
		const { at } = this.word();
		const field = node.index.dotNotation
			? (node.index.dimensions[0] as { value?: unknown } | undefined)?.value
			: undefined;
		if (typeof field !== 'string' || node.optionalChaining) {
			throw new FormulaError('Only a field with a plain name can follow a dot.', at);
		}
		return { op: 'field', of, field, at };
	}

	private call({ fn, args }: FunctionNode): Tree {
		if (!isSymbol(fn)) {
			throw new FormulaError('Only a function of the list can be called, by its plain name.', 0);
		}
		const { at } = this.word();
		return { op: 'call', name: fn.name, args: args.map((arg) => this.read(arg)), at };
	}

	/** a < b < c, which is a < b and b < c. */
	private relations(node: RelationalNode): Tree {
		const params = node.params.map((param) => this.read(param));
		const pairs = node.conditionals.map((fn, index): Tree => {
			const left = params[index];
			const right = params[index + 1];
			const sign = comparison[fn];
			if (!left || !right || !sign) throw refused(node, params[0]?.at ?? 0);
			return { op: 'comparison', sign, left, right, at: left.at };
		});
		return pairs.reduce((left, right) => ({ op: 'both', left, right, at: left.at }));
	}

	private operator(node: OperatorNode): Tree {
		const [first, second] = node.args;
		if (!first) throw refused(node, 0);
		const left = this.read(first);
		const { at } = left;
		if (!second) {
			if (node.fn === 'unaryMinus') return { op: 'negative', of: left, at };
			if (node.fn === 'unaryPlus') return left;
			if (node.fn === 'not') return { op: 'not', of: left, at };
			throw refused(node, at, this.text);
		}
		const right = this.read(second);
		if (node.implicit && !(holdsUnitsOnly(right) && endsInNumberOrUnit(left))) {
			throw new FormulaError(
				'Two values stand side by side; write * between them. Only a unit may follow its number directly.',
				right.at,
			);
		}
		const sign = arithmetic[node.fn];
		if (sign) return { op: 'arithmetic', sign, left, right, at };
		const compared = comparison[node.fn];
		if (compared) return { op: 'comparison', sign: compared, left, right, at };
		if (node.fn === 'and') return { op: 'both', left, right, at };
		if (node.fn === 'or') return { op: 'either', left, right, at };
		if (node.fn === 'to') {
			throw new FormulaError('“to UNIT” can only stand at the end of the whole formula.', right.at);
		}
		throw refused(node, at, this.text);
	}
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
		`${what[node.type] ?? `“${sign}”`} is not part of a formula. ${holds}`,
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

function lowerFirst(text: string): string {
	return text.charAt(0).toLowerCase() + text.slice(1);
}

// mathjs types its nodes as one base class; these say which is which.
type Shape<Name extends string, Fields> = MathNode & { type: Name } & Fields;
type OperatorNode = Shape<'OperatorNode', { fn: string; args: MathNode[]; implicit: boolean }>;
type ConstantNode = Shape<'ConstantNode', { value: unknown }>;
type FunctionNode = Shape<'FunctionNode', { fn: MathNode; args: MathNode[] }>;
type RelationalNode = Shape<'RelationalNode', { conditionals: string[]; params: MathNode[] }>;
type AccessorNode = Shape<
	'AccessorNode',
	{
		object: MathNode;
		index: { dotNotation: boolean; dimensions: MathNode[] };
		optionalChaining: boolean;
	}
>;
type ConditionalNode = Shape<
	'ConditionalNode',
	{ condition: MathNode; trueExpr: MathNode; falseExpr: MathNode }
>;
const isOperator = (node: MathNode): node is OperatorNode => node.type === 'OperatorNode';
const isParenthesis = (node: MathNode): node is Shape<'ParenthesisNode', { content: MathNode }> =>
	node.type === 'ParenthesisNode';
const isConstant = (node: MathNode): node is ConstantNode => node.type === 'ConstantNode';
const isSymbol = (node: MathNode): node is Shape<'SymbolNode', { name: string }> =>
	node.type === 'SymbolNode';
const isAccessor = (node: MathNode): node is AccessorNode => node.type === 'AccessorNode';
const isFunction = (node: MathNode): node is FunctionNode => node.type === 'FunctionNode';
const isConditional = (node: MathNode): node is ConditionalNode => node.type === 'ConditionalNode';
const isRelational = (node: MathNode): node is RelationalNode => node.type === 'RelationalNode';
