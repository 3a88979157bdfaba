/** Types in words, and whether one fits where another is wanted. */
import { dimensionInWords, sameDimension } from '../units/dimension.ts';
import type { Type } from './types.ts';

/** A type in words, as it stands in messages. */
export function typeInWords(type: Type): string {
	switch (type.kind) {
		case 'quantity':
			return dimensionInWords(type.dimension);
		case 'choice':
			return `choice of ${type.options.join(', ')}`;
		case 'flag':
			return 'yes or no';
		case 'list':
			return `list of ${typeInWords(type.of)}`;
		case 'record':
			return type.name;
		default:
			return type.kind;
	}
}

/** Whether a value of one type can stand where the other is wanted. */
export function typeFits(found: Type, wanted: Type): boolean {
	if (found.kind === 'quantity' && wanted.kind === 'quantity') {
		return sameDimension(found.dimension, wanted.dimension);
	}
	if (found.kind === 'choice' && wanted.kind === 'choice') {
		return found.options.every((option) => wanted.options.includes(option));
	}
	if (found.kind === 'list' && wanted.kind === 'list') return typeFits(found.of, wanted.of);
	if (found.kind === 'record' && wanted.kind === 'record') return found.name === wanted.name;
	return found.kind === wanted.kind;
}
