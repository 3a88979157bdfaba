/**
 * Pages, names and files of a stranger who means harm, as data. Every script among them calls `trap()`, every
 * address is on a server that there is not. A case more is a line more.
 */

const page = (title: string, body: string): string =>
	['---', `title: ${JSON.stringify(title)}`, 'summary: S', 'document: D', '---', body, ''].join(
		'\n',
	);
const cell = (kind: string, ...lines: readonly string[]): string =>
	['```' + kind, ...lines, '```'].join('\n');
const away = 'https://away.invalid';

/** What may stand in any text. */
export const hostileTexts: readonly string[] = [
	'<script>trap()</script>',
	`<img src=x onerror=trap()>`,
	`<svg onload=trap()><script href="${away}/s.js"/></svg>`,
	`"><iframe srcdoc="<script>parent.trap()</script>"></iframe>`,
	`javascript:trap()`,
	`</title></style></template><script>trap()</script>`,
	'{{constructor.constructor("trap()")()}}',
	'${trap()}',
	'\u202Etxt.exe \u0000 \uD800',
];

/** Pages of a job's own, by what is tried. */
export const hostilePages: Readonly<Record<string, string>> = {
	'script-in-markdown': page(
		'Script',
		[
			...hostileTexts,
			'<div onmouseover="trap()" style="position:fixed;inset:0">over all</div>',
		].join('\n\n'),
	),
	'links-and-pictures': page(
		'Links',
		[
			'[a](javascript:trap())',
			'[b](JaVaScRiPt&#58;trap())',
			'[c](data:text/html,<script>trap()</script>)',
			`[d](${away}/)`,
			`![e](${away}/pixel.png)`,
			'![f](javascript:trap())',
			`[g]: ${away}/ "x"\n\n[g]`,
			`<${away}/>`,
			`<link rel=stylesheet href="${away}/s.css"><style>@import "${away}/s.css";</style>`,
			`<meta http-equiv=refresh content="0;url=${away}">`,
			`<form action="${away}"><input name=x autofocus onfocus=trap()></form>`,
			`<base href="${away}/">`,
		].join('\n\n'),
	),
	'script-in-yaml': page(
		'<script>trap()</script>',
		[
			cell(
				'input',
				'name: hostile_one',
				'label: "<img src=x onerror=trap()>"',
				'how: "<script>trap()</script>"',
				'text: true',
			),
			cell('input', 'name: __proto__', 'label: L', 'text: true'),
			cell('input', 'name: hostile_two', '__proto__: { polluted: true }', 'label: L', 'text: true'),
			cell(
				'input',
				'name: hostile_three',
				'label: !!js/function "function(){trap()}"',
				'text: true',
			),
			cell(
				'input',
				'name: hostile_four',
				'label: &a [*a]',
				'constructor: { prototype: { polluted: true } }',
			),
		].join('\n\n'),
	),
	'yaml-bomb': page(
		'Bomb',
		cell(
			'input',
			'name: bomb',
			'a: &a [x,x,x,x,x,x,x,x,x]',
			...'bcdefgh'.split('').map(
				(key, at) =>
					`${key}: &${key} [${Array(9)
						.fill(`*${'abcdefgh'[at] ?? 'a'}`)
						.join(',')}]`,
			),
		),
	),
	'yaml-deep': page('Deep', cell('input', 'name: deep', `label: ${'['.repeat(5000)}`)),
	formulas: page(
		'Formulas',
		cell(
			'derive',
			'h_one = constructor.constructor("trap()")()  # One',
			'h_two = __proto__.polluted  # Two',
			'h_three = import("trap")  # Three',
			'h_four = eval("trap()")  # Four',
			'h_five = createUnit("trap")  # Five',
			'h_six = h_six + 1  # Six',
			'h_seven = 9^9^9^9^9  # Seven',
			'h_eight = 1e308 * 1e308 in  # Eight',
			`h_nine = ${'('.repeat(400)}1${')'.repeat(400)}  # Nine`,
			`h_ten = ${'1 + '.repeat(3000)}1  # Ten`,
			'h_eleven = toString()  # Eleven',
			'h_twelve = {"a": 1}.a  # Twelve',
		),
	),
	'markdown-deep': page(
		'Deep',
		`${'> '.repeat(800)}x\n\n${'- '.repeat(400)}x\n\n${'*a '.repeat(2000)}`,
	),
	'many-cells': page(
		'Many',
		Array.from({ length: 400 }, (_, at) =>
			cell('input', `name: many_${String(at)}`, 'label: L', 'text: true'),
		).join('\n\n'),
	),
	search: page(
		'Search',
		[
			...[1, 2, 3, 4, 5].map((at) =>
				cell(
					'input',
					`name: sizes_${String(at)}`,
					'label: L',
					'quantity: length',
					'several: sizes',
					`default: ${Array.from({ length: 40 }, (_, n) => `${String(n)} in`).join('; ')}`,
				),
			),
			cell(
				'search',
				'name: endless',
				'label: Endless',
				'over:',
				...['eye_raise', 'block', 'shackle_longer', 'pivot_raise', 'front_drop'].map(
					(name, at) => `  - { input: ${name}, sizes: sizes_${String(at + 1)} }`,
				),
				'show: [rear_drop]',
				'rank: [{ by: rear_drop, first: low }]',
			),
		].join('\n\n'),
	),
	'no-front-matter': 'Nothing at its head <script>trap()</script>',
	'pattern-bomb': page(
		'Patterns',
		`${'a'.repeat(20_000)}!\n\n${'{'.repeat(5000)}\n\n${'['.repeat(3000)}\n\n${'`'.repeat(3000)}`,
	),
};

/** Files that are no job, or none that should open: each is refused with a sentence, or opens and does nothing. */
export const hostileFiles: Readonly<Record<string, string>> = {
	'deep nesting': `${'['.repeat(200_000)}${']'.repeat(200_000)}`,
	'deep nesting in a job': `{"format":"ride-height-job","version":2,"job":${'{"a":'.repeat(50_000)}1${'}'.repeat(50_000)}}`,
	'a prototype':
		'{"format":"ride-height-job","version":2,"__proto__":{"polluted":true},"job":{"__proto__":{"polluted":true},"constructor":{"prototype":{"polluted":true}}}}',
	'huge numbers': `{"format":"ride-height-job","version":1e999,"job":${'9'.repeat(100_000)}}`,
	'far too large': 'x'.repeat(5_200_000),
	'a page of HTML': `<!doctype html><script>trap()</script><img src=x onerror=trap()><template id="ride-height-job">{"format":"ride-height-job"</template>`,
	bytes: '\u0000\uFFFD\uD800<script>trap()</script>',
};
