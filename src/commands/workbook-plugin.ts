/**
 * Gives the program the shipped workbook already read: `virtual:workbook` is its names and trees,
 * `virtual:workbook/words` what loads what a page alone shows, `virtual:workbook/stories` what loads what each
 * scenario tells of it, `virtual:workbook/folded` what loads the prose that is folded away on it,
 * `virtual:workbook/shared` the cells that one page
 * shows of another, `virtual:workbook/text` what loads each of its files as it is,
 * `virtual:workbook/functions` what its formulas may call, in words.
 */
import { programVersion } from './program-version.ts';
import { fileURLToPath } from 'node:url';
import { runnerImport, type Plugin } from 'vite';
import type * as workbookFolder from './workbook-folder.ts';

const name = 'virtual:workbook';
const reader = fileURLToPath(new URL('./workbook-folder.ts', import.meta.url));
const folder = fileURLToPath(new URL('../../workbooks/', import.meta.url));

/** The whole is read once, and again after a change. */
async function read(
	id: string,
): Promise<{ packed: workbookFolder.PackedFolder; from: readonly string[] }> {
	const { module, dependencies } = await runnerImport<typeof workbookFolder>(reader, {
		configFile: false,
		logLevel: 'error',
	});
	const packed = module.packWorkbookFolder(id);
	const files = Object.keys(packed.text).map((path) => `${folder}${id}/${path}`);
	return { packed, from: [...files, ...dependencies] };
}

/** @param id name of a folder under workbooks/ */
export function workbookPlugin(id: string): Plugin {
	let reading: ReturnType<typeof read> | undefined;
	/** The files it was read from, and those that read it. */
	let from: readonly string[] = [];
	return {
		name: 'workbook',
		resolveId: (wanted) => (wanted.startsWith(name) ? `\0${wanted}` : undefined),
		async load(wanted) {
			if (!wanted.startsWith(`\0${name}`)) return undefined;
			const found = await (reading ??= read(id));
			from = found.from;
			return moduleOf(wanted.slice(name.length + 1), found.packed);
		},
		/** In `vite dev`: a page edited, or what reads it, makes all of these modules new. */
		hotUpdate({ file, modules }) {
			if (!file.startsWith(folder) && !from.some((each) => file.endsWith(each))) return undefined;
			reading = undefined;
			const made = [...this.environment.moduleGraph.idToModuleMap]
				.filter(([each]) => each.startsWith(`\0${name}`))
				.map(([, module]) => module);
			return [...modules, ...made];
		},
	};
}

/** The source of one of the modules, by what follows the name they share. */
function moduleOf(
	path: string,
	{ packed, words, shared, text, functions, hash }: workbookFolder.PackedFolder,
): string {
	if (path === '') {
		const consts = `export const hash = ${JSON.stringify(hash)}, version = ${JSON.stringify(programVersion())};`;
		return `${consts}\n${asDefault(packed)}`;
	}
	if (path === '/shared') return asDefault(shared);
	if (path.startsWith(textPath)) return asDefault(text[path.slice(textPath.length)]);
	if (path === '/text') return loadersOf(path, Object.keys(text));
	if (path === '/functions') return asDefault(functions);
	const [, kind = '', page = ''] = path.split('/');
	if (page === '') return loadersOf(path, Object.keys(words));
	const { stories, folded, ...others } = words[page] ?? {};
	if (kind === 'stories') return asDefault(stories);
	return asDefault(kind === 'folded' ? folded : others);
}

const textPath = '/text/';

/** What loads each of some modules under a path, by key. */
function loadersOf(path: string, keys: readonly string[]): string {
	const loaders = keys.map(
		(key) => `${JSON.stringify(key)}: () => import(${JSON.stringify(`${name}${path}/${key}`)})`,
	);
	return `export default { ${loaders.join(', ')} };`;
}

/** Data that a browser reads faster as JSON than as a program. */
function asDefault(data: unknown): string {
	return `export default JSON.parse(${JSON.stringify(JSON.stringify(data))});`;
}
