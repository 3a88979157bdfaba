/** Lines, or dots, drawn on a canvas. Loaded when the first chart comes into sight. */
import {
	isOn,
	markHalf,
	placeOn,
	type ChartInk,
	type ChartSheet,
	type DrawnChart,
	type DrawnLine,
} from '../answers/chart-sheet.ts';
import type { Point } from '../answers/charts.ts';
import { lineLook } from './line-look.ts';

/** Dots of the canvas for one of the page: 600 to the inch on paper, where a page has 96. */
const paperDensity = 600 / 96;

/** Of a line, px. */
const lineWidth = 2.6;
/** Of what stands for a figure, and of a dot that stands for itself, px. */
const ringRadius = 5;
const dotRadius = 3;

/** Draws on a canvas, anew each time it is told. Where things stand is settled before, by the sheet. */
export class LineCanvas {
	readonly #canvas: HTMLCanvasElement;
	#drawn: DrawnChart;
	#sheet: ChartSheet;
	#ended = false;
	/** Colours of the sheet, as they were when this was drawn last. */
	#inks = new Map<string, string>();

	constructor(canvas: HTMLCanvasElement, drawn: DrawnChart, sheet: ChartSheet) {
		this.#canvas = canvas;
		this.#drawn = drawn;
		this.#sheet = sheet;
		this.draw(drawn, sheet);
		// A canvas does not draw itself again when its letters have come.
		const family = this.#ink('--figures');
		void Promise.all(
			['', 'bold '].map((weight) => document.fonts.load(`${weight}12px ${family}`)),
		).then(() => {
			this.draw(this.#drawn, this.#sheet);
		});
	}

	/** Draws something else, or the same in other colours. */
	draw(drawn: DrawnChart, sheet: ChartSheet, ground: 'screen' | 'paper' = 'screen'): void {
		const ctx = this.#canvas.getContext('2d');
		if (this.#ended || !ctx) return;
		this.#drawn = drawn;
		this.#sheet = sheet;
		this.#inks.clear();
		this.#clear(ctx, ground === 'paper' ? paperDensity : devicePixelRatio);
		this.#drawGround(ctx);
		this.#drawSure(ctx);
		this.#drawLines(ctx);
		this.#drawMark(ctx);
		// The mark goes behind the rings of what stands on it.
		this.#drawCrosses(ctx);
		this.#drawRings(ctx);
		this.#drawMeetings(ctx);
		this.#drawLetters(ctx);
	}

	end(): void {
		this.#ended = true;
	}

	/** As large as the sheet, with so many dots for one of the page, and empty. */
	#clear(ctx: CanvasRenderingContext2D, density: number): void {
		const { width, height } = this.#sheet;
		const canvas = this.#canvas;
		const [across, down] = [Math.floor(width * density), Math.floor(height * density)];
		// A canvas is made anew when its size is set, though it be the same.
		if (canvas.width !== across || canvas.height !== down) {
			[canvas.width, canvas.height] = [across, down];
		}
		canvas.style.width = `${width.toString()}px`;
		canvas.style.height = `${height.toString()}px`;
		ctx.setTransform(density, 0, 0, density, 0, 0);
		ctx.clearRect(0, 0, width, height);
	}

	/** A colour of the sheet, as it is in the light or the dark. */
	#ink(name: string): string {
		const known = this.#inks.get(name);
		if (known !== undefined) return known;
		const ink = getComputedStyle(this.#canvas).getPropertyValue(name).trim();
		this.#inks.set(name, ink);
		return ink;
	}

	#inkOf(ink: ChartInk): string {
		return this.#ink(typeof ink === 'number' ? lineLook(ink).ink : `--${ink}`);
	}

	/** Keeps what is drawn within the axes, and so much beyond them. */
	#within(ctx: CanvasRenderingContext2D, beyond: number, draw: () => void): void {
		const { left, right, top, bottom } = this.#sheet.area;
		ctx.save();
		ctx.beginPath();
		ctx.rect(left - beyond, top - beyond, right - left + 2 * beyond, bottom - top + 2 * beyond);
		ctx.clip();
		draw();
		ctx.restore();
	}

	/** The ± of each line, under all lines. */
	#drawSure(ctx: CanvasRenderingContext2D): void {
		const place = placeOn(this.#sheet);
		this.#within(ctx, 0, () => {
			this.#drawn.lines.forEach(({ points, sure }, index) => {
				if (!sure) return;
				ctx.fillStyle = faint(this.#inkOf(index));
				const edge = (sign: 1 | -1) =>
					points.map(({ x, y }, step) => ({ x, y: y + sign * (sure[step] ?? NaN) }));
				const [under, over] = [edge(-1), edge(1)];
				for (const [from, to] of unbroken(over)) {
					ctx.beginPath();
					const around = [...under.slice(from, to), ...over.slice(from, to).reverse()];
					for (const { x, y } of around.map(place)) ctx.lineTo(x, y);
					ctx.fill();
				}
			});
		});
	}

	#drawLines(ctx: CanvasRenderingContext2D): void {
		const { lines, dots = false } = this.#drawn;
		this.#within(ctx, dots ? dotRadius : lineWidth / 2, () => {
			lines.forEach(({ points }, index) => {
				const ink = this.#inkOf(index);
				ctx.strokeStyle = ink;
				if (dots) this.#drawDots(ctx, points, faint(ink));
				else this.#drawLine(ctx, points, lineLook(index).dash);
			});
		});
	}

	#drawLine(ctx: CanvasRenderingContext2D, points: readonly Point[], dash: number[]): void {
		const place = placeOn(this.#sheet);
		ctx.lineWidth = lineWidth;
		ctx.setLineDash(dash);
		ctx.beginPath();
		for (const [from, to] of unbroken(points)) {
			points.slice(from, to).forEach((point, step) => {
				const { x, y } = place(point);
				if (step === 0) ctx.moveTo(x, y);
				else ctx.lineTo(x, y);
			});
		}
		ctx.stroke();
		ctx.setLineDash([]);
	}

	#drawDots(ctx: CanvasRenderingContext2D, points: readonly Point[], fill: string): void {
		const place = placeOn(this.#sheet);
		ctx.lineWidth = 1;
		ctx.fillStyle = fill;
		for (const point of points) {
			const { x, y } = place(point);
			ctx.beginPath();
			ctx.arc(x, y, dotRadius, 0, 2 * Math.PI);
			ctx.fill();
			ctx.stroke();
		}
	}

	/** What stands for a figure: as it was before, by each kit, and now. */
	#drawRings(ctx: CanvasRenderingContext2D): void {
		this.#within(ctx, 8, () => {
			ctx.fillStyle = this.#ink('--paper');
			this.#drawn.lines.forEach((line, index) => {
				ctx.strokeStyle = this.#inkOf(index);
				for (const { point, shape, width } of ringsOf(line, index)) {
					ctx.lineWidth = width;
					this.#drawRing(ctx, point, shape);
				}
			});
		});
	}

	#drawRing(ctx: CanvasRenderingContext2D, point: Point, shape: Ring['shape']): void {
		const { x, y } = placeOn(this.#sheet)(point);
		ctx.beginPath();
		if (shape === 'circle') ctx.arc(x, y, ringRadius, 0, 2 * Math.PI);
		else {
			ctx.moveTo(x - ringRadius, y);
			ctx.lineTo(x, y - ringRadius);
			ctx.lineTo(x + ringRadius, y);
			ctx.lineTo(x, y + ringRadius);
			ctx.closePath();
		}
		ctx.fill();
		ctx.stroke();
	}

	#drawGround(ctx: CanvasRenderingContext2D): void {
		const { area, across, up, low, high } = this.#sheet;
		const { left, right, top, bottom } = area;
		const place = placeOn(this.#sheet);
		for (const { from, to } of this.#drawn.bands) {
			const [over, under] = [Math.min(to, high.y), Math.max(from, low.y)];
			if (over <= under) continue;
			const y = place({ x: 0, y: over }).y;
			ctx.fillStyle = this.#ink('--band');
			ctx.fillRect(left, y, right - left, place({ x: 0, y: under }).y - y);
		}
		ctx.lineWidth = 1;
		ctx.strokeStyle = this.#ink('--rule');
		for (const x of across) stroke(ctx, { x: place({ x, y: 0 }).x, y: top }, { y: bottom });
		for (const y of up) stroke(ctx, { x: left, y: place({ x: 0, y }).y }, { x: right });
		stroke(ctx, { x: left, y: bottom }, { x: right });
		const { wanted } = this.#drawn;
		if (wanted) {
			ctx.strokeStyle = this.#ink('--pencil');
			ctx.lineWidth = 1.2;
			stroke(ctx, { x: place({ x: wanted.x, y: 0 }).x, y: top }, { y: bottom });
		}
		if (this.#drawn.nought === undefined) return;
		ctx.lineWidth = 1.2;
		ctx.strokeStyle = this.#ink('--soft');
		stroke(ctx, { x: left, y: place({ x: 0, y: 0 }).y }, { x: right });
	}

	#drawMark(ctx: CanvasRenderingContext2D): void {
		const { mark, area } = this.#sheet;
		if (!mark) return;
		ctx.strokeStyle = this.#ink('--pencil');
		ctx.lineWidth = 1.2;
		stroke(ctx, { x: mark.x, y: area.top }, { y: mark.y });
		ctx.lineWidth = 2;
		ctx.fillStyle = this.#ink('--paper');
		ctx.fillRect(mark.x - markHalf, mark.y - markHalf, 2 * markHalf, 2 * markHalf);
		ctx.strokeRect(mark.x - markHalf, mark.y - markHalf, 2 * markHalf, 2 * markHalf);
	}

	/** The ± of each kit, both ways. */
	#drawCrosses(ctx: CanvasRenderingContext2D): void {
		const place = placeOn(this.#sheet);
		ctx.lineWidth = 1;
		this.#drawn.lines.forEach(({ kits = [] }, index) => {
			ctx.strokeStyle = this.#inkOf(index);
			for (const { x, y, sure } of kits) {
				stroke(ctx, place({ x: x - sure.x, y }), place({ x: x + sure.x, y }));
				stroke(ctx, place({ x, y: y - sure.y }), place({ x, y: y + sure.y }));
			}
		});
	}

	#drawMeetings(ctx: CanvasRenderingContext2D): void {
		const place = placeOn(this.#sheet);
		const { area } = this.#sheet;
		ctx.strokeStyle = this.#ink('--line');
		ctx.lineWidth = 0.8;
		for (const { at } of this.#drawn.meetings ?? []) {
			const places = at.map(place);
			if (!places.every((each) => isOn(area, each))) continue;
			for (const { x, y } of places) {
				ctx.beginPath();
				ctx.arc(x, y, 7, 0, 2 * Math.PI);
				ctx.stroke();
			}
			const [upper, lower] = places;
			if (!upper || !lower) continue;
			ctx.setLineDash([2, 3]);
			stroke(ctx, upper, lower);
			ctx.setLineDash([]);
		}
	}

	#drawLetters(ctx: CanvasRenderingContext2D): void {
		const { letters, leaders } = this.#sheet;
		ctx.strokeStyle = this.#ink('--line');
		ctx.lineWidth = 0.8;
		for (const [from, to] of leaders) stroke(ctx, from, to);
		ctx.textAlign = 'left';
		ctx.textBaseline = 'alphabetic';
		const family = this.#ink('--figures');
		for (const { text, x, y, size, ink, bold } of letters) {
			ctx.font = `${bold ? 'bold ' : ''}${size.toString()}px ${family}`;
			ctx.fillStyle = this.#inkOf(ink);
			ctx.fillText(text, x, y);
		}
	}
}

interface Ring {
	readonly point: Point;
	readonly shape: 'circle' | 'diamond';
	readonly width: number;
}

function ringsOf({ before, kits = [], now }: DrawnLine, index: number): Ring[] {
	const shape = index === 0 ? 'circle' : 'diamond';
	return [
		...(before ? [{ point: before, shape: 'diamond', width: 1 } as const] : []),
		...kits.map((point) => ({ point, shape, width: 1.2 }) as const),
		...(now ? [{ point: now, shape: 'circle', width: 2 } as const] : []),
	];
}

/** Where points follow one another without one that is not known: the first of each run, and the one behind it. */
function* unbroken(points: readonly Point[]): Generator<readonly [from: number, to: number]> {
	let from = 0;
	for (let at = 0; at <= points.length; at++) {
		if (Number.isFinite(points[at]?.y) && Number.isFinite(points[at]?.x)) continue;
		if (at > from) yield [from, at];
		from = at + 1;
	}
}

function stroke(
	ctx: CanvasRenderingContext2D,
	{ x, y }: { x: number; y: number },
	to: { x?: number; y?: number },
): void {
	ctx.beginPath();
	ctx.moveTo(x, y);
	ctx.lineTo(to.x ?? x, to.y ?? y);
	ctx.stroke();
}

/** An ink thinned down. The reader's own colours have names, and are not thinned: there a ± stays in words. */
function faint(ink: string): string {
	// A stylesheet writes #000000 as #000.
	const full = ink.replace(/^#([0-9a-f])([0-9a-f])([0-9a-f])$/i, '#$1$1$2$2$3$3');
	return /^#[0-9a-f]{6}$/i.test(full) ? `${full}2e` : 'transparent';
}
