/**
 * The plain part of YAML in which nearly all pages are written, read in one go: groups and lists by their
 * indentation or in brackets, texts on one line or in a block with > or |. Reading every cell by the library
 * is most of what a page costs. Whatever is less plain, or looks like a mistake, is left to the library: this
 * reader then says nothing, so it never has to know what is wrong.
 */

/** What was read, with where each part begins. */
export interface PlainYaml {
	readonly value: unknown;
	/** Offset of its first character: past the quote of a text, and past the line that opens a block. */
	readonly at: number;
	/** As written, for a text or a number. */
	readonly text?: string;
	/** Parts of a group by name, or of a list. */
	readonly parts?: ReadonlyMap<PropertyKey, PlainYaml>;
}

/** Not plain. */
const notPlain = new Error('plain-yaml: not plain');

/** Reads plain YAML; undefined where it is not plain. */
export function readPlainYaml(text: string): PlainYaml | undefined {
	if (/[\t\r]/.test(text)) return undefined;
	try {
		return new PlainReader(text).whole();
	} catch (cause) {
		if (cause !== notPlain) throw cause;
		return undefined;
	}
}

/** A name with its colon. */
const name = /([A-Za-z][\w-]*):(?: +|(?=\n)|$)/y;
/** The same where it has a line to itself: it may be several words, such as a heading, or in quotes. */
const words = /(?:([A-Za-z][\w'-]*(?:,? [\w'-]+)*)|"([^"\\\n]+)"):(?: +|(?=\n)|$)/y;
const reserved = /^(?:true|false|null)$/i;
/** What an unquoted text may begin with; a hyphen only before something. */
const textBegins = /(?:[^\s\-?:,[\]{}#&*!|>'"%@`]|-[^\s,[\]{}])/y;
const number = /^[-+]?(?:\.\d+|\d+(?:\.\d*)?)(?:[eE][-+]?\d+)?$/;
/** Words and numbers that mean something else, in whatever letters. */
const special = /^(?:~|null|true|false|[-+]?\.inf|\.nan|0[xo].*)$/i;

class PlainReader {
	private readonly text: string;
	private at = 0;

	constructor(text: string) {
		this.text = text;
	}

	whole(): PlainYaml {
		const indent = this.nextLine();
		if (indent !== 0) throw notPlain;
		const read = this.block(0);
		if (this.nextLine() >= 0) throw notPlain;
		return read;
	}

	/** Goes to the next line with something on it; its indentation, or -1 at the end. */
	private nextLine(): number {
		for (;;) {
			const line = this.at;
			while (this.text.charAt(this.at) === ' ') this.at++;
			const found = this.text.charAt(this.at);
			if (found === '') return -1;
			if (found !== '\n' && found !== '#') return this.at - line;
			const end = this.text.indexOf('\n', this.at);
			this.at = end < 0 ? this.text.length : end + 1;
		}
	}

	/** Whether another part with this indentation follows, and goes to it; else to the beginning of its line. */
	private goesOn(indent: number, isList: boolean): boolean {
		const next = this.nextLine();
		if (next > indent) throw notPlain;
		if (next === indent && (!isList || this.isItem())) return true;
		this.at -= Math.max(next, 0);
		return false;
	}

	/** A group or a list whose first part stands here. */
	private block(indent: number): PlainYaml {
		return this.isItem() ? this.list(indent) : this.group(indent);
	}

	private isItem(): boolean {
		return this.text.startsWith('- ', this.at);
	}

	private group(indent: number): PlainYaml {
		const { at } = this;
		const value: Record<string, unknown> = {};
		const parts = new Map<PropertyKey, PlainYaml>();
		do {
			words.lastIndex = this.at;
			const [, bare, quoted] = words.exec(this.text) ?? [];
			const key = bare ?? quoted;
			if (key === undefined || reserved.test(key) || parts.has(key)) throw notPlain;
			this.at = words.lastIndex;
			const part = this.ofName(indent);
			parts.set(key, part);
			value[key] = part.value;
		} while (this.goesOn(indent, false));
		return { value, at, parts };
	}

	/** What stands after a name: on its line, or below it. */
	private ofName(indent: number): PlainYaml {
		if (this.text.charAt(this.at) !== '\n') return this.value(indent);
		const below = this.nextLine();
		if (below < indent || (below === indent && !this.isItem())) throw notPlain;
		return this.block(below);
	}

	private list(indent: number): PlainYaml {
		const { at } = this;
		const value: unknown[] = [];
		const parts = new Map<PropertyKey, PlainYaml>();
		do {
			this.at += 2;
			words.lastIndex = this.at;
			const part = words.test(this.text) ? this.group(indent + 2) : this.value(indent);
			parts.set(value.length, part);
			value.push(part.value);
		} while (this.goesOn(indent, true));
		return { value, at, parts };
	}

	/** What stands on the rest of a line, and the block it may open. */
	private value(indent: number): PlainYaml {
		const first = this.text.charAt(this.at);
		if (first === '|' || first === '>') return this.blockText(indent);
		const read = first === '{' || first === '[' ? this.inBrackets() : this.onLine(false);
		const rest = this.text.indexOf('\n', this.at);
		const end = rest < 0 ? this.text.length : rest;
		if (this.text.slice(this.at, end).trim() !== '') throw notPlain;
		this.at = end;
		return read;
	}

	/** A text in quotes, or one without; inside brackets it ends where they or a comma do. */
	private onLine(inBrackets: boolean): PlainYaml {
		const quote = this.text.charAt(this.at);
		if (quote === '"' || quote === "'") {
			const at = ++this.at;
			const end = this.text.indexOf(quote, at);
			const value = this.text.slice(at, end);
			if (end < 0 || /[\\\n]/.test(value) || this.text.charAt(end + 1) === quote) throw notPlain;
			this.at = end + 1;
			return { value, at, text: value };
		}
		textBegins.lastIndex = this.at;
		if (!textBegins.test(this.text)) throw notPlain;
		const { at } = this;
		const ends = inBrackets ? /[\n,[\]{}]/g : /\n/g;
		ends.lastIndex = at;
		this.at = ends.exec(this.text)?.index ?? this.text.length;
		const text = this.text.slice(at, this.at).trimEnd();
		if (/: |:$| #/.test(text)) throw notPlain;
		if (number.test(text)) return { value: Number(text), at, text };
		if (text === 'true' || text === 'false') return { value: text === 'true', at, text };
		if (special.test(text)) throw notPlain;
		return { value: text, at, text };
	}

	/** A group { a: b } or a list [a, b] on one line. */
	private inBrackets(): PlainYaml {
		const { at } = this;
		const isGroup = this.text.charAt(this.at++) === '{';
		const value: Record<string, unknown> = {};
		const parts = new Map<PropertyKey, PlainYaml>();
		for (let first = true; ; first = false) {
			this.spaces();
			if (this.closes(isGroup)) break;
			if (!first) {
				if (this.text.charAt(this.at++) !== ',') throw notPlain;
				this.spaces();
			}
			const key = isGroup ? this.nameInBrackets() : parts.size;
			if (parts.has(key)) throw notPlain;
			const opens = /[[{]/.test(this.text.charAt(this.at));
			const part = opens ? this.inBrackets() : this.onLine(true);
			parts.set(key, part);
			if (isGroup) value[key] = part.value;
		}
		return {
			value: isGroup ? value : [...parts.values()].map((part) => part.value),
			at,
			parts,
		};
	}

	private nameInBrackets(): string {
		name.lastIndex = this.at;
		const key = name.exec(this.text)?.[1];
		if (key === undefined || reserved.test(key)) throw notPlain;
		this.at = name.lastIndex;
		return key;
	}

	private closes(isGroup: boolean): boolean {
		if (this.text.charAt(this.at) !== (isGroup ? '}' : ']')) return false;
		this.at++;
		return true;
	}

	private spaces(): void {
		while (this.text.charAt(this.at) === ' ') this.at++;
	}

	/** The lines below > or |, as far as they are indented. */
	private blockText(indent: number): PlainYaml {
		const opening = /([|>])(-?) *\n( +)(?=[^ \n])/y;
		opening.lastIndex = this.at;
		const match = opening.exec(this.text);
		const [, sign, strip, inner = ''] = match ?? [];
		if (!match || inner.length <= indent) throw notPlain;
		const at = opening.lastIndex;
		const lines: string[] = [];
		this.at = at - inner.length;
		while (this.at < this.text.length) {
			const rest = this.text.indexOf('\n', this.at);
			const end = rest < 0 ? this.text.length : rest;
			const line = this.text.slice(this.at, end);
			if (line.trim() !== '' && !line.startsWith(inner)) break;
			lines.push(line.slice(inner.length));
			this.at = Math.min(end + 1, this.text.length);
		}
		while (lines.at(-1)?.trim() === '') lines.pop();
		const text = sign === '|' ? lines.join('\n') : folded(lines);
		const value = strip ? text : `${text}\n`;
		return { value, at, text: value };
	}
}

/** Lines of a block joined to one; an empty line breaks it. */
function folded(lines: readonly string[]): string {
	let text = '';
	let breaks = 0;
	lines.forEach((line, index) => {
		if (line.startsWith(' ') || (line.endsWith(' ') && index < lines.length - 1)) throw notPlain;
		if (line === '') breaks++;
		else {
			text += index === 0 ? line : `${breaks > 0 ? '\n'.repeat(breaks) : ' '}${line}`;
			breaks = 0;
		}
	});
	return text;
}
