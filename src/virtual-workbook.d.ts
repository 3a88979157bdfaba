/** What src/commands/workbook-plugin.ts gives. */
declare module 'virtual:workbook' {
	import type { Packed } from '$lib/language/packed.ts';
	/** SHA-256 of the workbook's text, in hexadecimal. */
	export const hash: string;
	/** Version of the program. */
	export const version: string;
	const packed: Packed;
	export default packed;
}

declare module 'virtual:workbook/words' {
	import type { PackedWords } from '$lib/language/packed.ts';
	const words: Readonly<Record<string, () => Promise<{ default: PackedWords }>>>;
	export default words;
}

declare module 'virtual:workbook/stories' {
	import type { Page } from '$lib/language/workbook.ts';
	const stories: Readonly<Record<string, () => Promise<{ default: Page['stories'] }>>>;
	export default stories;
}

declare module 'virtual:workbook/folded' {
	import type { PackedWords } from '$lib/language/packed.ts';
	type Folded = NonNullable<PackedWords['folded']>;
	const folded: Readonly<Record<string, () => Promise<{ default: Folded }>>>;
	export default folded;
}

/** By page. */
declare module 'virtual:workbook/shared' {
	import type { PackedShared } from '$lib/language/packed.ts';
	const shared: Readonly<Record<string, PackedShared>>;
	export default shared;
}

declare module 'virtual:workbook/text' {
	const text: Readonly<Record<string, () => Promise<{ readonly default: string }>>>;
	export default text;
}

/** What its formulas may call, in words. */
declare module 'virtual:workbook/functions' {
	import type { FunctionInWords } from '$lib/language/function-row.ts';
	const functions: readonly FunctionInWords[];
	export default functions;
}
