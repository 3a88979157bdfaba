/**
 * A record as one page of HTML: what it looks like on paper, with its style, its letters and its drawings in it.
 * It opens anywhere, runs nothing and fetches nothing, and says so in a policy of its own. The job is in it as
 * data, so that the workbook can open it again.
 */
import { inPage } from '$lib/job/record-in-page.ts';

/** Width of a page of A4, rem: what a browser that prints takes a query of the width for. */
const paperWidth = 49.6;

/**
 * @param root what the page shows
 * @param title of the job
 * @param job its file
 */
export async function pageOf(root: HTMLElement, title: string, job: string): Promise<string> {
	const page = document.implementation.createHTMLDocument(title);
	page.documentElement.lang = 'en';
	page.body.append(plainCopy(root));
	page.head.prepend(
		meta(page, { charset: 'utf-8' }),
		meta(page, {
			'http-equiv': 'Content-Security-Policy',
			content: "default-src 'none'; style-src 'unsafe-inline'; font-src data:; img-src data:",
		}),
		// A phone shows the whole width, to be looked at closer.
		meta(page, { name: 'viewport', content: 'width=760' }),
	);
	// As text, and not as elements: the policy of the page we are on lets no style be made in it.
	const [head, ...body] = page.documentElement.outerHTML.split('</head>');
	const rest = body.join('</head>');
	const end = rest.lastIndexOf('</body>');
	return `<!doctype html>\n${head ?? ''}<style>${await styleOf(page)}</style></head>${rest.slice(0, end)}${inPage(job)}\n${rest.slice(end)}\n`;
}

function meta(page: Document, attributes: Readonly<Record<string, string>>): HTMLMetaElement {
	const element = page.createElement('meta');
	for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
	return element;
}

/** Without what can be pressed or typed in, or leads somewhere: words and drawings. */
function plainCopy(root: HTMLElement): HTMLElement {
	const copy = root.cloneNode(true) as HTMLElement;
	copy.removeAttribute('inert');
	const fields = 'input, select, textarea';
	const typed = [...root.querySelectorAll<HTMLInputElement>(fields)].map((field) =>
		field.type === 'range' ? '' : field.value,
	);
	// What stands in a field is no part of its element.
	copy.querySelectorAll(fields).forEach((field, at) => {
		field.replaceWith(typed[at] ?? '');
	});
	const gone = 'button, script, style, link, iframe, object, [role="slider"], .unseen';
	for (const each of copy.querySelectorAll(gone)) each.remove();
	for (const each of copy.querySelectorAll('details:not([open])')) {
		// How many checks are clear is said; what they say is folded away, and has no place here.
		if (each.parentElement?.classList.contains('verdicts')) {
			for (const inside of [...each.children].slice(1)) inside.remove();
		} else each.remove();
	}
	for (const link of copy.querySelectorAll('a')) link.removeAttribute('href');
	return copy;
}

/** The rules of this page that reach something of the other, as they are on paper. */
async function styleOf(page: Document): Promise<string> {
	const rules: string[] = [];
	for (const sheet of document.styleSheets) {
		await gather(sheet.cssRules, sheet.href ?? location.href, page, rules);
	}
	rules.push(
		'body { max-width: 703px; margin: 1rem auto; background: #fff; }',
		'.packet { position: static; width: auto; }',
		'.leaf { margin-bottom: 2rem; }',
		'@media print { body { margin: 0; max-width: none; } .leaf { margin: 0; } }',
	);
	return rules.join('\n');
}

async function gather(
	found: CSSRuleList,
	base: string,
	page: Document,
	rules: string[],
): Promise<void> {
	for (const rule of found) {
		if (rule instanceof CSSMediaRule) {
			if (isOfPaper(rule.conditionText)) await gather(rule.cssRules, base, page, rules);
		} else if (rule instanceof CSSFontFaceRule) {
			rules.push(await withFile(rule.cssText, base));
		} else if (rule instanceof CSSStyleRule) {
			if (reaches(rule.selectorText, page)) rules.push(rule.cssText);
		} else if (!(rule instanceof CSSImportRule)) {
			rules.push(rule.cssText);
		}
	}
}

/** Whether a media query holds on paper, in daylight. */
function isOfPaper(query: string): boolean {
	if (/screen|dark|forced-colors|reduced-motion|hover|pointer/.test(query)) return false;
	const least = /min-width:\s*([\d.]+)rem|width\s*>=\s*([\d.]+)rem/.exec(query);
	const most = /max-width:\s*([\d.]+)rem|width\s*<=\s*([\d.]+)rem/.exec(query);
	return (
		(!least || paperWidth >= Number(least[1] ?? least[2])) &&
		(!most || paperWidth <= Number(most[1] ?? most[2]))
	);
}

function reaches(selector: string, page: Document): boolean {
	const plain = selector.replace(/::[\w-]+(?:\([^)]*\))?/g, '');
	try {
		return page.querySelector(plain || '*') !== null;
	} catch {
		return true;
	}
}

/** A font with its file in it. */
async function withFile(face: string, base: string): Promise<string> {
	const address = /url\("?([^")]+)"?\)/.exec(face);
	if (!address?.[1] || address[1].startsWith('data:')) return face;
	const answer = await fetch(new URL(address[1], base));
	const bytes = new Uint8Array(await answer.arrayBuffer());
	let binary = '';
	for (const byte of bytes) binary += String.fromCharCode(byte);
	return face.replace(address[0], `url("data:font/woff2;base64,${btoa(binary)}")`);
}
