/** Makes the packet of a job, or a leaf of it, and prints it or writes it into a file. */
import { mount, unmount } from 'svelte';
import type { OpenJob } from '$lib/desk/open-job.svelte.ts';
import { shippedWords } from '$lib/desk/shipped.ts';
import { namesIn } from '$lib/answers/figures.ts';
import type { Cell } from '$lib/language/kinds/index.ts';
import { leavesOf, type Leaf, type PaperParts } from './packet.ts';
import Packet from './Packet.svelte';
import { printApart } from './print-apart.ts';

/** Milliseconds without a change after which it is taken to be whole, and most that is waited for that. */
const quiet = 250;
const patience = 20_000;

interface Made {
	/** What holds the leaves. */
	readonly root: HTMLElement;
	/** Takes it out again. */
	readonly end: () => void;
}

/** @param which leaves of the packet */
async function makePacket(
	job: OpenJob,
	parts: PaperParts,
	which: (leaf: Leaf) => boolean,
): Promise<Made> {
	await Promise.all([
		job.loadDrawing(),
		job.loadShared(),
		...job.workbook.packet.map(async (id) => {
			job.tell(id, await shippedWords(id));
		}),
	]);
	const leaves = leavesOf(job.workbook, parts.layOut).filter(which);
	const before = job.alsoInSight;
	// The figures of these sheets are in sight now, each with its ±.
	job.alsoInSight = leaves.flatMap(({ layout }) =>
		[...layout.views, ...layout.checks, ...cellsIn(layout.asked), ...cellsIn(layout.paper)].flatMap(
			(cell) => [cell.name, ...namesIn(cell)],
		),
	);
	const packet = mount(Packet, { target: document.body, props: { job, leaves, parts } });
	const end = (): void => {
		job.alsoInSight = before;
		void unmount(packet);
	};
	const root = document.querySelector<HTMLElement>('body > .packet');
	if (!root) throw new Error('The packet could not be made.');
	await document.fonts.ready;
	await whole(root);
	return { root, end };
}

function cellsIn(parts: Leaf['layout']['asked']): Cell[] {
	return parts.flatMap((part) => (part.part === 'cell' ? [part.cell] : []));
}

/** What comes later has come, and figures have taken their turn. */
async function whole(root: HTMLElement): Promise<void> {
	const begun = performance.now();
	let changed = begun;
	const watch = new MutationObserver(() => (changed = performance.now()));
	watch.observe(root, { subtree: true, childList: true, characterData: true, attributes: true });
	const waits = (): boolean =>
		root.querySelector('[data-waits], [aria-busy="true"]') !== null ||
		performance.now() - changed < quiet;
	while (waits() && performance.now() - begun < patience) {
		await new Promise((resolve) => setTimeout(resolve, 50));
	}
	watch.disconnect();
}

/** Prints order, record, card and measurements, numbered through. */
export async function printPacket(job: OpenJob, parts: PaperParts): Promise<void> {
	const { end } = await makePacket(job, parts, () => true);
	printApart(end);
}

/** Prints the card for the wall alone. */
export async function printCard(job: OpenJob, parts: PaperParts): Promise<void> {
	const { end } = await makePacket(job, parts, ({ kind }) => kind === 'card');
	printApart(end);
}

/** The packet as one page of HTML that needs nothing else and runs nothing, with the job in it. */
export async function recordAsPage(
	job: OpenJob,
	parts: PaperParts,
): Promise<{ name: string; text: string }> {
	const [{ pageOf }, file] = await Promise.all([import('./record-page.ts'), job.file()]);
	const { root, end } = await makePacket(job, parts, () => true);
	try {
		// As it goes to paper.
		dispatchEvent(new Event('beforeprint'));
		await whole(root);
		const text = await pageOf(root, job.job.block.title, file.text);
		return { name: file.name.replace(/json$/, 'html'), text };
	} finally {
		dispatchEvent(new Event('afterprint'));
		end();
	}
}
