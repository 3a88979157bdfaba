/** Boxes and thick lines on paper, and whether two of them touch. Paper: px, x to the right, y down. */

export interface Place {
	readonly x: number;
	readonly y: number;
}

/** A box, turned or not, with the upright box around it for a quick first look. */
export interface Shape {
	readonly corners: readonly [Place, Place, Place, Place];
	/** Which way its first side runs: a unit vector. */
	readonly along: Place;
	readonly left: number;
	readonly right: number;
	readonly top: number;
	readonly bottom: number;
}

/** A box by its middle; `turn` in radians clockwise. */
export function boxShape(middle: Place, width: number, height: number, turn = 0): Shape {
	return boxAlong(middle, width, height, { x: Math.cos(turn), y: Math.sin(turn) });
}

/** A box by its middle and the unit vector along which its width lies. */
function boxAlong(middle: Place, width: number, height: number, along: Place): Shape {
	const corner = (right: number, down: number): Place => ({
		x: middle.x + right * along.x - down * along.y,
		y: middle.y + right * along.y + down * along.x,
	});
	const [w, h] = [width / 2, height / 2];
	const reachX = w * Math.abs(along.x) + h * Math.abs(along.y);
	const reachY = w * Math.abs(along.y) + h * Math.abs(along.x);
	return {
		corners: [corner(-w, -h), corner(w, -h), corner(w, h), corner(-w, h)],
		along,
		left: middle.x - reachX,
		right: middle.x + reachX,
		top: middle.y - reachY,
		bottom: middle.y + reachY,
	};
}

/** A line of a width, with so much more at its sides and ends. */
export function lineShape(from: Place, to: Place, width: number, more = 0): Shape {
	const [x, y] = [to.x - from.x, to.y - from.y];
	const length = Math.hypot(x, y);
	const along = length === 0 ? { x: 1, y: 0 } : { x: x / length, y: y / length };
	const middle = { x: from.x + x / 2, y: from.y + y / 2 };
	return boxAlong(middle, length + 2 * more, width + 2 * more, along);
}

/** The same box with so much more all round. */
export function widened(shape: Shape, by: number): Shape {
	const [a, b, c, d] = shape.corners;
	const width = Math.hypot(b.x - a.x, b.y - a.y);
	const height = Math.hypot(d.x - a.x, d.y - a.y);
	const middle = { x: (a.x + c.x) / 2, y: (a.y + c.y) / 2 };
	return boxAlong(middle, width + 2 * by, height + 2 * by, shape.along);
}

/** True where there is room between the two along one way. */
function partedAlong(a: Shape, b: Shape, x: number, y: number): boolean {
	let lowA = Infinity;
	let highA = -Infinity;
	let lowB = Infinity;
	let highB = -Infinity;
	for (let index = 0; index < 4; index++) {
		const [p, q] = [a.corners[index] as Place, b.corners[index] as Place];
		const [onA, onB] = [p.x * x + p.y * y, q.x * x + q.y * y];
		if (onA < lowA) lowA = onA;
		if (onA > highA) highA = onA;
		if (onB < lowB) lowB = onB;
		if (onB > highB) highB = onB;
	}
	return highA <= lowB || highB <= lowA;
}

/** Whether two boxes have paper in common. */
export function overlap(a: Shape, b: Shape): boolean {
	if (a.right <= b.left || b.right <= a.left || a.bottom <= b.top || b.bottom <= a.top)
		return false;
	const [p, q] = [a.along, b.along];
	// Two convex boxes are apart just where a side of one of them has the other wholly beyond it.
	return !(
		partedAlong(a, b, p.x, p.y) ||
		partedAlong(a, b, -p.y, p.x) ||
		partedAlong(a, b, q.x, q.y) ||
		partedAlong(a, b, -q.y, q.x)
	);
}

/** Whether a box lies wholly inside an upright one. */
export function inside(shape: Shape, within: Area): boolean {
	return (
		shape.left >= within.left &&
		shape.right <= within.right &&
		shape.top >= within.top &&
		shape.bottom <= within.bottom
	);
}

/** An upright part of the paper. */
export interface Area {
	readonly left: number;
	readonly right: number;
	readonly top: number;
	readonly bottom: number;
}

/** Shapes by where they lie, so that a look at one place does not have to go through all of them. */
export class ShapeIndex {
	readonly #all: Shape[] = [];
	/** Numbers of those that lie in each cell. */
	readonly #cells = new Map<number, number[]>();
	/** By number: the last look that found it, for one that lies in several cells is found several times. */
	readonly #found: number[] = [];
	#looks = 0;

	#later: (() => readonly Shape[])[] = [];
	#indexed = 0;

	add(...shapes: readonly Shape[]): void {
		this.#all.push(...shapes);
	}

	/** Shapes that are made only when somebody looks. */
	addLater(make: () => readonly Shape[]): void {
		this.#later.push(make);
	}

	/** Puts away what came since the last look: what nobody looks at costs nothing. */
	#upToDate(): void {
		for (const make of this.#later.splice(0)) this.#all.push(...make());
		for (; this.#indexed < this.#all.length; this.#indexed++) {
			const number = this.#indexed;
			inCells(this.#all[number] as Shape, (key) => {
				const cell = this.#cells.get(key);
				if (cell) cell.push(number);
				else this.#cells.set(key, [number]);
				return false;
			});
		}
	}

	/** @param told of each that lies over a shape, once; true ends the look */
	#look(shape: Shape, told: () => boolean): void {
		this.#upToDate();
		const look = ++this.#looks;
		inCells(shape, (key) => {
			for (const number of this.#cells.get(key) ?? []) {
				if (this.#found[number] === look) continue;
				this.#found[number] = look;
				if (overlap(shape, this.#all[number] as Shape) && told()) return true;
			}
			return false;
		});
	}

	touches(shape: Shape): boolean {
		let touched = false;
		this.#look(shape, () => (touched = true));
		return touched;
	}

	/** How many lie over a shape. */
	count(shape: Shape): number {
		let count = 0;
		this.#look(shape, () => {
			count++;
			return false;
		});
		return count;
	}
}

/** Side of a cell, px. */
const cellSide = 48;

/** @param told the number of each cell that a shape lies in; true ends it */
function inCells({ left, right, top, bottom }: Shape, told: (key: number) => boolean): void {
	const [from, to] = [Math.floor(left / cellSide), Math.floor(right / cellSide)];
	const [first, last] = [Math.floor(top / cellSide), Math.floor(bottom / cellSide)];
	for (let column = from; column <= to; column++) {
		for (let row = first; row <= last; row++) if (told(column * 4096 + row)) return;
	}
}
