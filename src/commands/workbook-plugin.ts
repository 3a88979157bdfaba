/**
 * Gives the program the shipped workbook already read: `virtual:workbook` is its cells and trees,
 * `virtual:workbook/words` what loads the words of a page, `virtual:workbook/text` its files as they are.
 */
import { fileURLToPath } from 'node:url';
import { runnerImport, type Plugin } from 'vite';
import type { PackedFolder, packWorkbookFolder } from './workbook-folder.ts';

const name = 'virtual:workbook';
const reader = fileURLToPath(new URL('./workbook-folder.ts', import.meta.url));
const folder = fileURLToPath(new URL('../../workbooks/', import.meta.url));

/** The whole is read once, and again after a change. */
async function read(id: string): Promise<{ packed: PackedFolder; from: readonly string[] }> {
	const { module, dependencies } = await runnerImport<{
		packWorkbookFolder: typeof packWorkbookFolder;
	}>(reader, {
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
	return {
		name: 'workbook',
		resolveId: (wanted) => (wanted.startsWith(name) ? `\0${wanted}` : undefined),
		async load(wanted) {
			if (!wanted.startsWith(`\0${name}`)) return undefined;
			const { packed, from } = await (reading ??= read(id));
			for (const file of from) this.addWatchFile(file);
			return moduleOf(wanted.slice(name.length + 1), packed);
		},
		watchChange() {
			reading = undefined;
		},
		hotUpdate() {
			reading = undefined;
		},
	};
}

/** The source of one of the modules, by what follows the name they share. */
function moduleOf(path: string, { packed, words, text, hash }: PackedFolder): string {
	if (path === '') return `export const hash = ${JSON.stringify(hash)};\n${asDefault(packed)}`;
	if (path === '/text') return asDefault(text);
	if (path === '/words') {
		const loaders = Object.keys(words).map(
			(page) => `${JSON.stringify(page)}: () => import(${JSON.stringify(`${name}/words/${page}`)})`,
		);
		return `export default { ${loaders.join(', ')} };`;
	}
	return asDefault(words[path.replace('/words/', '')]);
}

/** Data that a browser reads faster as JSON than as a program. */
function asDefault(data: unknown): string {
	return `export default JSON.parse(${JSON.stringify(JSON.stringify(data))});`;
}
