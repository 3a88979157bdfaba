/** An entry as the components that ask for it see it: what stands in its field, and what is said of it. */
import { inputPlusMinus } from '$lib/answers/figures.ts';
import { getOpenJob, getSight } from '$lib/desk/open-job.svelte.ts';
import { fieldText, isMeasured, shownFor } from '$lib/job/reading.ts';
import type { InputCell } from '$lib/language/kinds/input.ts';
import {
	readingNumber,
	showFigure,
	showPlusMinus,
	showReading,
	typedNumber,
	withTrueMinus,
} from '$lib/units/shown.ts';

/** Id of the field of an input. */
export function fieldId({ name }: Pick<InputCell, 'name'>): string {
	return `field-${name}`;
}

/** How the field of any entry is typed into: no word of it is put right or written for one. */
export const plainTyping = {
	autocomplete: 'off',
	autocapitalize: 'off',
	spellcheck: false,
	enterkeyhint: 'next',
	maxlength: 200,
} as const;

export class EntryInSight {
	readonly #cell: () => InputCell;
	readonly #job = getOpenJob();
	readonly #sight = getSight();
	/** While it is typed into, its text stays as the keys left it. */
	#typing = $state(false);

	/** Called while a component is made. */
	constructor(cell: () => InputCell) {
		this.#cell = cell;
	}

	get cell(): InputCell {
		return this.#cell();
	}

	readonly id = $derived.by(() => fieldId(this.cell));
	readonly reading = $derived.by(() => this.#job.reading(this.cell.name));
	readonly shown = $derived.by(() => shownFor(this.cell, this.#job.system));
	readonly node = $derived.by(() => this.#job.workbook.graph.byId.get(this.cell.name));
	/** A length or angle is measured; a part, a word or a choice is settled by the person. */
	readonly measurable = $derived.by(() => isMeasured(this.cell));
	/** Whether it has the value of another name until it is entered. */
	readonly follows = $derived(
		this.cell.startsAs !== undefined && this.reading.standing === 'missing',
	);
	readonly inForce = $derived.by(() =>
		this.follows && this.node ? this.#sight.figures.run.value(this.node.slot) : this.reading.value,
	);

	readonly inField = $derived.by(() => {
		const { cell } = this;
		const text = fieldText(cell, this.#job.entry(cell.name), this.reading, this.#job.system);
		return this.#typing || !this.shown ? text : withTrueMinus(text);
	});
	readonly placeholder = $derived.by(() => {
		if (typeof this.inForce === 'number' && this.shown && this.follows) {
			return readingNumber(this.inForce, this.shown);
		}
		return this.measurable && !this.follows ? 'not read yet' : '';
	});

	/** What was typed as it was understood; else what is assumed. */
	readonly inWords = $derived.by(() => {
		const { understood, value } = this.reading;
		return (
			understood ?? (typeof value === 'number' && this.shown ? showReading(value, this.shown) : '')
		);
	});
	readonly inOtherUnits = $derived.by(() => {
		const unit = shownFor(this.cell, this.#job.system === 'metric' ? 'inch-pound' : 'metric');
		const { value } = this.reading;
		const same = !unit || unit.unit.name === this.shown?.unit.name;
		return typeof value !== 'number' || same ? '' : showFigure(value, unit);
	});
	/** Its ± with the unit; one that was typed stands in the words already. */
	readonly plusMinus = $derived.by(() => {
		const { node, reading, shown } = this;
		const size = node && reading.plusMinus === undefined ? inputPlusMinus(node, reading) : 0;
		return size > 0 && shown ? showPlusMinus(size, shown) : '';
	});
	/** Whose it is, or that nobody read it. */
	readonly standing = $derived.by(() => {
		const { measurable, follows } = this;
		return {
			entered: measurable ? 'Measured' : '',
			scenario: 'Example',
			assumed: measurable ? 'Assumed' : 'As it comes',
			missing: follows ? 'As planned' : measurable ? 'Not read yet' : 'Not entered',
		}[this.reading.standing];
	});
	/** What is typed is not the slope, so the slope stands in sight. */
	readonly onDial = $derived.by(() => ('dial' in this.cell ? this.#job.gauge : undefined));
	readonly lit = $derived.by(
		() => this.node !== undefined && this.#job.sources.has(this.node.slot),
	);

	/** The figure that may be taken over, in the words to enter and to read. */
	readonly offer = $derived.by(() => {
		const { offer } = this.cell;
		const offered = offer === undefined ? undefined : this.#job.workbook.graph.byId.get(offer);
		const value = offered && this.#sight.figures.run.value(offered.slot);
		const { shown, reading } = this;
		if (!offered || typeof value !== 'number' || !shown) return undefined;
		const words = showFigure(value, shown);
		return typeof reading.value === 'number' && showFigure(reading.value, shown) === words
			? undefined
			: { typed: readingNumber(value, shown), label: offered.label, words };
	});

	/** The field says that it is the entry's; attached to it. */
	readonly own = (field: HTMLElement): (() => void) => this.#job.fields.own(this.cell.name, field);

	readonly type = (event: { currentTarget: { value: string } }): void => {
		this.#typing = true;
		this.#job.type(this.cell.name, event.currentTarget.value);
	};

	readonly leave = (): void => {
		this.#typing = false;
		this.#job.leave();
	};

	/** To the next division of the rule, not a step away from between two. */
	stepBy(count: number): void {
		const { shown, inForce, cell } = this;
		if (!shown || cell.asks_for !== 'quantity') return;
		const steps = (typeof inForce === 'number' ? inForce : 0) / shown.step;
		const near = Math.round(steps);
		const onRule = Math.abs(steps - near) < 1e-6;
		const to = onRule ? near + count : count > 0 ? Math.ceil(steps) : Math.floor(steps);
		this.#job.type(cell.name, typedNumber(to * shown.step, shown), 'stepped');
	}

	/**
	 * Keys of a field: Enter goes on, arrows step.
	 * @param onward where Enter goes: by itself to the next field of the sheet
	 */
	press(
		event: KeyboardEvent,
		onward = (): void => {
			this.#job.fields.takeNext(this.cell.name);
		},
	): void {
		if (event.key === 'Enter') {
			event.preventDefault();
			onward();
		}
		// A step of the slope is none of the dial, which may count the other way.
		if (this.cell.asks_for !== 'quantity' || this.onDial) return;
		const count = event.key === 'ArrowUp' ? 1 : event.key === 'ArrowDown' ? -1 : 0;
		if (count === 0 || event.altKey || event.ctrlKey || event.metaKey) return;
		event.preventDefault();
		this.stepBy(event.shiftKey ? 10 * count : count);
	}
}
