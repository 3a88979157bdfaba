/**
 * Units are checked here, once, when a formula is read, before any number exists.
 * Every expression gets a type; what does not fit is a FormulaError that names both sides.
 */
import { angle, isPlainNumber, sameDimension } from '../units/dimension.ts';
import { nearest } from '../units/nearest-word.ts';
import { withArticle } from '../units/shown.ts';
import type { WorksheetFunction } from './function-row.ts';
import type { FunctionTable } from './functions.ts';
import { FormulaError } from './places.ts';
import { childrenOf, treeInWords, type Tree } from './tree.ts';
import { combinedType, constantOf, type TypeOfName } from './tree-type.ts';
import { typeFits, typeInWords } from './type-words.ts';
import type { Type } from './types.ts';

type Part<Op extends Tree['op']> = Extract<Tree, { op: Op }>;

/**
 * The type of an expression.
 * @throws FormulaError where it does not fit together; TypeNotKnown where a name it needs is itself broken
 */
export function typeOf(tree: Tree, typeOfName: TypeOfName, functions: FunctionTable): Type {
	const called = tree.op === 'call' ? calledBy(tree, functions) : undefined;
	const parts = childrenOf(tree).map((part) => typeOf(part, typeOfName, functions));
	if (called) return typeOfCall(tree as Part<'call'>, parts, called);
	check(tree, parts);
	return combinedType(tree, parts, typeOfName, functions);
}

/** Whether the parts of a tree, of these types, fit together. */
function check(tree: Tree, parts: readonly Type[]): void {
	const [first, second, third] = parts as [Type, Type, Type];
	switch (tree.op) {
		case 'field':
			checkField(tree, first);
			return;
		case 'negative':
			checkQuantity(tree.of, first, 'A minus sign');
			return;
		case 'not':
			checkFlag(tree.of, first, 'not');
			return;
		case 'both':
		case 'either': {
			const sign = tree.op === 'both' ? 'and' : 'or';
			checkFlag(tree.left, first, sign);
			checkFlag(tree.right, second, sign);
			return;
		}
		case 'if':
			checkFlag(tree.condition, first, '? :');
			if (second.kind === 'choice' && third.kind === 'choice') return;
			if (!typeFits(second, third)) throw mismatch(':', tree.then, second, tree.otherwise, third);
			return;
		case 'comparison':
			checkComparison(tree, first, second);
			return;
		case 'arithmetic':
			checkArithmetic(tree, first, second);
	}
}

function checkField({ of, field, at }: Part<'field'>, type: Type): void {
	if (type.kind !== 'record') {
		throw new FormulaError(
			`${treeInWords(of)} is ${withArticle(typeInWords(type))} and has no fields; “.${field}” can only follow a record.`,
			at,
		);
	}
	if (Object.hasOwn(type.fields, field)) return;
	throw new FormulaError(
		`${upperFirst(withArticle(type.name))} has no field “${field}”. Its fields are ${Object.keys(type.fields).join(', ')}.`,
		at,
	);
}

function checkComparison(tree: Part<'comparison'>, left: Type, right: Type): void {
	const equality = tree.sign === '==' || tree.sign === '!=';
	if (left.kind === 'choice' && right.kind === 'choice') {
		if (!equality) {
			throw new FormulaError(
				`Choices can be the same or not (== or !=); “${tree.sign}” has no meaning between them.`,
				tree.at,
			);
		}
		checkChoice(left.options, right.options, tree.left);
		checkChoice(right.options, left.options, tree.right);
		return;
	}
	const kinds = ['flag', 'text', 'date'];
	if (equality && left.kind === right.kind && kinds.includes(left.kind)) return;
	if (left.kind !== 'quantity' || right.kind !== 'quantity' || !typeFits(left, right)) {
		throw mismatch(tree.sign, tree.left, left, tree.right, right);
	}
}

/** Whether a single written option is one of the others. */
function checkChoice(one: readonly string[], others: readonly string[], part: Tree): void {
	const stranger = one.find((option) => !others.includes(option));
	if (one.length !== 1 || stranger === undefined) return;
	throw new FormulaError(`“${stranger}” is not one of the choices ${others.join(', ')}.`, part.at);
}

function checkArithmetic(tree: Part<'arithmetic'>, leftType: Type, rightType: Type): void {
	const left = checkQuantity(tree.left, leftType, `“${tree.sign}”`);
	const right = checkQuantity(tree.right, rightType, `“${tree.sign}”`);
	if (tree.sign === '+' || tree.sign === '-') {
		if (sameDimension(left.dimension, right.dimension)) return;
		throw mismatch(tree.sign, tree.left, left, tree.right, right);
	}
	if (tree.sign !== '^') return;
	if (!isPlainNumber(right.dimension)) {
		throw new FormulaError(
			`A power has to be a number; ${treeInWords(tree.right)} is ${withArticle(typeInWords(right))}.`,
			tree.right.at,
		);
	}
	if (isPlainNumber(left.dimension) || constantOf(tree.right) !== undefined) return;
	throw new FormulaError(
		`${treeInWords(tree.left)} is ${withArticle(typeInWords(left))}, so its power has to be a written number, or its unit would not be known before it is worked out.`,
		tree.right.at,
	);
}

function calledBy({ name, at }: Part<'call'>, functions: FunctionTable): WorksheetFunction {
	const called = functions.get(name);
	if (called) return called;
	throw new FormulaError(
		`There is no function “${name}”.${nearest(name, [...functions.keys()])} The reference page lists them all.`,
		at,
	);
}

function typeOfCall(
	tree: Part<'call'>,
	args: readonly Type[],
	{ parameters, takes, takesInWords, resultOf }: WorksheetFunction,
): Type {
	if (!takes(args.length)) {
		const listed = parameters.map((parameter) => parameter.name).join(', ');
		throw new FormulaError(
			`${tree.name}(${listed}) takes ${takesInWords}; ${args.length.toString()} ${args.length === 1 ? 'was' : 'were'} given.`,
			tree.at,
		);
	}
	return resultOf(args, (index, wanted) => {
		const part = tree.args[index];
		const found = args[index];
		const parameter = parameters[Math.min(index, parameters.length - 1)];
		return new FormulaError(
			`${tree.name}: ${parameter?.name ?? 'this value'} has to be ${withArticle(wanted)}; ${part ? treeInWords(part) : 'it'} is ${found ? withArticle(typeInWords(found)) : 'unknown'}.`,
			part?.at ?? tree.at,
		);
	});
}

type Quantity = Extract<Type, { kind: 'quantity' }>;

function checkQuantity(tree: Tree, type: Type, sign: string): Quantity {
	if (type.kind === 'quantity') return type;
	throw new FormulaError(
		`${sign} works on quantities; ${treeInWords(tree)} is ${withArticle(typeInWords(type))}.`,
		tree.at,
	);
}

function checkFlag(tree: Tree, type: Type, sign: string): void {
	if (type.kind === 'flag') return;
	throw new FormulaError(
		`“${sign}” works on conditions, such as rear_drop > 2 in; ${treeInWords(tree)} is ${withArticle(typeInWords(type))}.`,
		tree.at,
	);
}

function mismatch(
	sign: string,
	left: Tree,
	leftType: Type,
	right: Tree,
	rightType: Type,
): FormulaError {
	const zero = [left, right].some((side) => side.op === 'number' && side.value === 0);
	const hint = zero
		? ' Give the nought its unit.'
		: [leftType, rightType].some(
					(type) => type.kind === 'quantity' && sameDimension(type.dimension, angle),
			  ) &&
			  [leftType, rightType].some(
					(type) => type.kind === 'quantity' && isPlainNumber(type.dimension),
			  )
			? ' Divide an angle by 1 rad to make it a number.'
			: '';
	return new FormulaError(
		`${typeInWords(leftType)} ${sign} ${typeInWords(rightType)}: ${treeInWords(left)} ${sign} ${treeInWords(right)}. Both sides have to be of one kind.${hint}`,
		left.at,
	);
}

function upperFirst(text: string): string {
	return text.charAt(0).toUpperCase() + text.slice(1);
}
