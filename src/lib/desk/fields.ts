/** The fields of the sheet in front, by the name of the entry each is for. */
export class Fields {
	readonly #of = new Map<string, HTMLElement>();
	/** Names of the entries in the order they stand on the sheet. */
	order: readonly string[] = [];

	/**
	 * A field is there.
	 * @returns ends it
	 */
	own(name: string, field: HTMLElement): () => void {
		this.#of.set(name, field);
		return () => {
			if (this.#of.get(name) === field) this.#of.delete(name);
		};
	}

	/** The field of an entry; undefined where it has none on this sheet. */
	of(name: string): HTMLElement | undefined {
		return this.#of.get(name);
	}

	/** Takes the field of an entry in hand, where it has one. */
	take(name: string): void {
		takeInHand(this.#of.get(name));
	}

	/**
	 * Takes the first entry of a sheet in hand that is not folded away: its first field, or what is moved or typed
	 * into in its drawings and tables.
	 * @returns whether there is one
	 */
	takeFirst(sheet: ParentNode): boolean {
		const own = this.order.map((each) => this.#of.get(each));
		const seen = sheet.querySelectorAll<HTMLElement>('.views :is(input, textarea, [role=slider])');
		const first = [...own, ...seen].find((field) => field?.checkVisibility());
		takeInHand(first);
		return first !== undefined;
	}

	/** Goes on to the next field of the sheet that is not folded away, as the key on a phone says. */
	takeNext(name: string): void {
		const after = this.order.slice(this.order.indexOf(name) + 1);
		takeInHand(after.map((each) => this.#of.get(each)).find((field) => field?.checkVisibility()));
	}
}

/** Puts a field in hand, with what stands in it ready to be typed over. */
export function takeInHand(field: HTMLElement | undefined): void {
	field?.focus();
	if (field instanceof HTMLInputElement) field.select();
}
