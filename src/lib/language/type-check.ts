/**
 * Units are checked here, once, when a formula is read, before any number exists.
 * Every expression gets a type; what does not fit is a FormulaError that names both sides.
 */
import {
	angle,
	dimensionToPower,
	isPlainNumber,
	plainNumber,
	sameDimension,
	timesDimension,
	type Dimension,
} from '../units/dimension.ts';
import { FormulaError } from './places.ts';
import { treeInWords, type Tree } from './tree.ts';
import type { FunctionTable } from './functions.ts';
import { nearest } from '../units/nearest-word.ts';
import { withArticle } from '../units/shown.ts';
import { typeFits, typeInWords } from './type-words.ts';
import type { Type } from './types.ts';

/** What a name is, or undefined while that is not known because its own cell has a mistake. */
export type TypeOfName = (name: string) => Type | undefined;

/** The type hangs on a name whose own cell has a mistake; nothing can be said of this formula. */
export class TypeNotKnown extends Error {
	override name = 'TypeNotKnown';
}

const number: Type = { kind: 'quantity', dimension: plainNumber };
const flag: Type = { kind: 'flag' };

/**
 * The type of an expression.
 * @throws FormulaError where it does not fit together; TypeNotKnown where a name it needs is itself broken
 */
export function typeOf(tree: Tree, typeOfName: TypeOfName, functions: FunctionTable): Type {
	const of = (part: Tree): Type => typeOf(part, typeOfName, functions);
	switch (tree.op) {
		case 'number':
			return number;
		case 'unit':
			return { kind: 'quantity', dimension: tree.unit.dimension };
		case 'choice':
			return { kind: 'choice', options: [tree.value] };
		case 'flag':
			return flag;
		case 'name': {
			const type = typeOfName(tree.name);
			if (!type) throw new TypeNotKnown();
			return type;
		}
		case 'field': {
			const type = of(tree.of);
			const field = type.kind === 'record' && Object.hasOwn(type.fields, tree.field);
			if (type.kind !== 'record') {
				throw new FormulaError(
					`${treeInWords(tree.of)} is ${withArticle(typeInWords(type))} and has no fields; “.${tree.field}” can only follow a record.`,
					tree.at,
				);
			}
			const found = field ? type.fields[tree.field] : undefined;
			if (!found) {
				throw new FormulaError(
					`${upperFirst(withArticle(type.name))} has no field “${tree.field}”. Its fields are ${Object.keys(type.fields).join(', ')}.`,
					tree.at,
				);
			}
			return found.type;
		}
		case 'negative':
			return quantity(tree.of, of(tree.of), 'A minus sign');
		case 'not':
			mustBeFlag(tree.of, of(tree.of), 'not');
			return flag;
		case 'both':
		case 'either': {
			const wordFor = tree.op === 'both' ? 'and' : 'or';
			mustBeFlag(tree.left, of(tree.left), wordFor);
			mustBeFlag(tree.right, of(tree.right), wordFor);
			return flag;
		}
		case 'if': {
			mustBeFlag(tree.condition, of(tree.condition), '? :');
			const then = of(tree.then);
			const otherwise = of(tree.otherwise);
			if (then.kind === 'choice' && otherwise.kind === 'choice') {
				return { kind: 'choice', options: [...new Set([...then.options, ...otherwise.options])] };
			}
			if (!typeFits(then, otherwise))
				throw mismatch(':', tree.then, then, tree.otherwise, otherwise);
			return then;
		}
		case 'comparison': {
			const left = of(tree.left);
			const right = of(tree.right);
			if (left.kind === 'choice' && right.kind === 'choice') {
				if (tree.sign !== '==' && tree.sign !== '!=') {
					throw new FormulaError(
						`Choices can be the same or not (== or !=); “${tree.sign}” has no meaning between them.`,
						tree.at,
					);
				}
				for (const [one, other, part] of [
					[left, right, tree.left],
					[right, left, tree.right],
				] as const) {
					const stranger = one.options.find((option) => !other.options.includes(option));
					if (one.options.length === 1 && stranger !== undefined) {
						throw new FormulaError(
							`“${stranger}” is not one of the choices ${other.options.join(', ')}.`,
							part.at,
						);
					}
				}
				return flag;
			}
			const equality = tree.sign === '==' || tree.sign === '!=';
			if (equality && left.kind === 'flag' && right.kind === 'flag') return flag;
			if (equality && left.kind === right.kind && (left.kind === 'text' || left.kind === 'date')) {
				return flag;
			}
			if (left.kind !== 'quantity' || right.kind !== 'quantity' || !typeFits(left, right)) {
				throw mismatch(tree.sign, tree.left, left, tree.right, right);
			}
			return flag;
		}
		case 'arithmetic': {
			const left = quantity(tree.left, of(tree.left), `“${tree.sign}”`);
			const right = quantity(tree.right, of(tree.right), `“${tree.sign}”`);
			switch (tree.sign) {
				case '+':
				case '-':
					if (!sameDimension(left.dimension, right.dimension)) {
						throw mismatch(tree.sign, tree.left, left, tree.right, right);
					}
					return left;
				case '*':
					return asQuantity(timesDimension(left.dimension, right.dimension));
				case '/':
					return asQuantity(timesDimension(left.dimension, right.dimension, -1));
				default: {
					if (!isPlainNumber(right.dimension)) {
						throw new FormulaError(
							`A power has to be a number; ${treeInWords(tree.right)} is ${withArticle(typeInWords(right))}.`,
							tree.right.at,
						);
					}
					if (isPlainNumber(left.dimension)) return left;
					const power = constantOf(tree.right);
					if (power === undefined) {
						throw new FormulaError(
							`${treeInWords(tree.left)} is ${withArticle(typeInWords(left))}, so its power has to be a written number, or its unit would not be known before it is worked out.`,
							tree.right.at,
						);
					}
					return asQuantity(dimensionToPower(left.dimension, power));
				}
			}
		}
		case 'call': {
			const called = functions.get(tree.name);
			if (!called) {
				throw new FormulaError(
					`There is no function “${tree.name}”.${nearest(tree.name, [...functions.keys()])} The reference page lists them all.`,
					tree.at,
				);
			}
			const args = tree.args.map(of);
			const listed = called.parameters.map((parameter) => parameter.name).join(', ');
			if (!called.takes(args.length)) {
				throw new FormulaError(
					`${tree.name}(${listed}) takes ${called.takesInWords}; ${args.length} ${args.length === 1 ? 'was' : 'were'} given.`,
					tree.at,
				);
			}
			return called.resultOf(args, (index, wanted) => {
				const part = tree.args[index];
				const found = args[index];
				const parameter = called.parameters[Math.min(index, called.parameters.length - 1)];
				return new FormulaError(
					`${tree.name}: ${parameter?.name ?? 'this value'} has to be ${withArticle(wanted)}; ${part ? treeInWords(part) : 'it'} is ${found ? withArticle(typeInWords(found)) : 'unknown'}.`,
					part?.at ?? tree.at,
				);
			});
		}
	}
}

type Quantity = Extract<Type, { kind: 'quantity' }>;

function asQuantity(dimension: Dimension): Quantity {
	return { kind: 'quantity', dimension };
}

function quantity(tree: Tree, type: Type, sign: string): Quantity {
	if (type.kind === 'quantity') return type;
	throw new FormulaError(
		`${sign} works on quantities; ${treeInWords(tree)} is ${withArticle(typeInWords(type))}.`,
		tree.at,
	);
}

function mustBeFlag(tree: Tree, type: Type, sign: string): void {
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

/** The value of a power written as a number, a fraction of numbers, or the negative of one. */
function constantOf(tree: Tree): number | undefined {
	if (tree.op === 'number') return tree.value;
	if (tree.op === 'negative') {
		const value = constantOf(tree.of);
		return value === undefined ? undefined : -value;
	}
	if (tree.op === 'arithmetic' && tree.sign === '/') {
		const left = constantOf(tree.left);
		const right = constantOf(tree.right);
		return left === undefined || !right ? undefined : left / right;
	}
	return undefined;
}
