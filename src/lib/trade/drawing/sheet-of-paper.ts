/**
 * The paper while it is lettered: what is on it already, and whether one thing more can be put there.
 * Lettering keeps clear of lettering and of heavy lines; a dimension line keeps clear of both.
 */
import { lettered, type Lettering, type Letters } from '../../drafting/lettering.ts';
import {
	ShapeIndex,
	inside,
	lineShape,
	overlap,
	widened,
	type Area,
	type Place,
	type Shape,
} from '../../drafting/shapes.ts';
import type { PaperStroke } from '../../drafting/paper.ts';

/** Something to put on the paper. */
export interface Proposal {
	readonly lettering: readonly Letters[];
	readonly strokes: readonly PaperStroke[];
	/** Dimension lines: clear of lettering and of heavy lines. */
	readonly firm?: readonly Shape[];
	/** Extension lines and leaders: clear of lettering; they may cross a line, at a cost. */
	readonly loose?: readonly Shape[];
	/** Boxes that are kept clear like lettering. */
	readonly boxes?: readonly Shape[];
}

/** One way to put something on the paper, made only when it is looked at. */
export interface Way<Made extends Proposal = Proposal> {
	/** How far from best it is; the least that fits is taken. */
	readonly cost: number;
	readonly make: () => Made;
}

/** Ways that are alike, made only when the best of them may still be the best of all. */
export interface Group<Made extends Proposal = Proposal> {
	/** None of its ways costs less. */
	readonly cost: number;
	readonly ways: () => readonly Way<Made>[];
}

/** A choice is kept as one number: its group and its place in there. */
const groupSize = 4096;

/** Clear space round lettering, px. */
const clear = 2.5;
/** What it costs lettering to lie over a thin line, and a leader to cross one or a heavy one. */
const overThin = 75;
const overRuled = 100;
/** From this width on it is a word that is struck through; a letter has less to lose, px. */
const aWord = 64;
const acrossThin = 1.5;
const acrossHeavy = 20;
const acrossLeader = 30;

export class SheetOfPaper {
	readonly heavy = new ShapeIndex();
	readonly thin = new ShapeIndex();
	/** Of the thin lines those that strike a whole word through, as the frame's do: long, straight and level. */
	readonly ruled = new ShapeIndex();
	/** Rings of handles, with clear space round them; only extension lines and leaders may cross one. */
	readonly rings = new ShapeIndex();
	/** Lettering and boxes that stand, with clear space round them. */
	readonly taken = new ShapeIndex();
	/** Dimension lines that stand, with clear space round them. */
	readonly firm = new ShapeIndex();
	/** Extension lines and leaders that stand. */
	readonly loose = new ShapeIndex();
	readonly strokes: PaperStroke[] = [];
	readonly lettering: Lettering[] = [];
	/** What may be lettered. */
	area: Area;

	constructor(area: Area) {
		this.area = area;
	}

	/** Whether nothing would lie over anything it must not. */
	#fits(proposal: Proposal): boolean {
		return this.#linesFit(proposal) && this.#wordsFit(proposal);
	}

	#linesFit({ firm = [], loose = [] }: Proposal): boolean {
		for (const shape of firm) {
			if (!inside(shape, this.area)) return false;
			if (this.heavy.touches(shape) || this.taken.touches(shape)) return false;
			if (this.firm.touches(shape) || this.rings.touches(shape)) return false;
		}
		return loose.every((shape) => inside(shape, this.area) && !this.taken.touches(shape));
	}

	#wordsFit({ lettering, boxes = [], firm = [], loose = [] }: Proposal): boolean {
		const own = [...firm, ...loose];
		for (const { shape } of lettering) {
			if (own.some((line) => overlap(shape, line))) return false;
		}
		for (const shape of solidOf(lettering, boxes)) {
			if (!inside(shape, this.area)) return false;
			if (this.taken.touches(shape) || this.heavy.touches(shape)) return false;
			if (this.rings.touches(shape)) return false;
			if (this.firm.touches(shape) || this.loose.touches(widened(shape, clear))) return false;
		}
		return true;
	}

	/** What its lines would cross, at its cost. */
	#linesCost({ firm = [], loose = [] }: Proposal): number {
		let sum = 0;
		for (const shape of firm) {
			sum += acrossThin * this.thin.count(shape) + acrossLeader * this.loose.count(shape);
		}
		for (const shape of loose) {
			const heavy = Math.min(2, this.heavy.count(shape));
			sum += acrossThin * this.thin.count(shape) + acrossHeavy * heavy;
			sum += acrossLeader * (this.loose.count(shape) + this.firm.count(shape));
			sum += acrossHeavy * this.rings.count(shape);
		}
		return sum;
	}

	/** What its words would lie over, or graze, at its cost. */
	#wordsCost({ lettering, boxes = [] }: Proposal): number {
		let sum = 0;
		for (const shape of solidOf(lettering, boxes)) {
			const share = Math.min(1, Math.max(0.3, (shape.right - shape.left) / aWord));
			const round = widened(shape, clear);
			sum += share * (overThin * this.thin.count(round) + overRuled * this.ruled.count(round));
		}
		return sum;
	}

	/** Keeps a ring free of lettering. */
	putRing(shape: Shape): void {
		this.rings.add(widened(shape, clear));
	}

	put({ strokes, lettering, boxes = [], firm = [], loose = [] }: Proposal): void {
		this.strokes.push(...strokes);
		this.lettering.push(...lettering.map(lettered));
		const solid = solidOf(lettering, boxes);
		this.taken.add(...solid.map((shape) => widened(shape, clear)));
		this.firm.add(...firm.map((shape) => widened(shape, clear)));
		this.loose.add(...loose);
	}

	/**
	 * Puts the best way that fits.
	 * @param most what it may cost: a worse one is as good as none
	 * @param kept the one taken the last time: it stays while it fits, so that lettering does not jump
	 * @returns which one, and what was put; undefined where none fits
	 */
	putBest<Made extends Proposal>(
		groups: readonly Group<Made>[],
		most: number,
		kept?: number,
	): { index: number; made: Made } | undefined {
		if (kept !== undefined) {
			const group = groups[Math.floor(kept / groupSize)];
			const stays = group?.ways()[kept % groupSize]?.make();
			if (stays && this.#fits(stays)) {
				this.put(stays);
				return { index: kept, made: stays };
			}
		}
		let best: { index: number; made: Made } | undefined;
		let least = most;
		/** What lines cost that several ways have in common, such as those of a dimension in one lane. */
		const known = new Map<readonly Shape[] | undefined, number>();
		const linesCost = (made: Made): number => {
			const found =
				known.get(made.firm) ?? (this.#linesFit(made) ? this.#linesCost(made) : Infinity);
			if (made.firm) known.set(made.firm, found);
			return found;
		};
		for (const [group, groupCost, ways] of byCost(groups, ({ ways }) => ways)) {
			// All that follow cost more to begin with.
			if (groupCost >= least) break;
			for (const [index, cost, make] of byCost(ways(), ({ make }) => make)) {
				if (cost >= least) break;
				const made = make();
				const withLines = cost + linesCost(made);
				if (withLines >= least || !this.#wordsFit(made)) continue;
				const full = withLines + this.#wordsCost(made);
				if (full < least) [best, least] = [{ index: group * groupSize + index, made }, full];
			}
		}
		if (best) this.put(best.made);
		return best;
	}
}

/** What keeps clear of everything. */
function solidOf(lettering: readonly Letters[], boxes: readonly Shape[]): Shape[] {
	return [...lettering.map(({ shape }) => shape), ...boxes];
}

/** The cheapest first, each with its place in the list. */
function byCost<Item extends { readonly cost: number }, Of>(
	items: readonly Item[],
	of: (item: Item) => Of,
): [number, number, Of][] {
	return items
		.map((item, index): [number, number, Of] => [index, item.cost, of(item)])
		.sort((a, b) => a[1] - b[1]);
}

/** A hairline from place to place. */
export function hairline(from: Place, to: Place): Shape {
	return lineShape(from, to, 1);
}
