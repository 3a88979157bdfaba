/** Lines, or dots, drawn on a canvas by chart.js. Loaded when the first chart comes into sight. */
import {
	Chart,
	Filler,
	LineController,
	LineElement,
	LinearScale,
	PointElement,
	type ChartDataset,
	type Plugin,
} from 'chart.js';
import {
	isOn,
	markHalf,
	placeOn,
	type ChartInk,
	type ChartSheet,
	type DrawnChart,
} from '../answers/chart-sheet.ts';
import { lineLook } from './line-look.ts';

Chart.register(Filler, LineController, LineElement, LinearScale, PointElement);

type Dataset = ChartDataset<'line', { x: number; y: number }[]>;

/** Dots of the canvas for one of the page: 600 to the inch on paper, where a page has 96. */
const paperDensity = 600 / 96;

/** Of what stands for a figure, px. */
const ringRadius = 5;

/** Draws on a canvas, anew each time it is told. Where things stand is settled before, by the sheet. */
export class LineCanvas {
	readonly #canvas: HTMLCanvasElement;
	readonly #chart: Chart<'line', { x: number; y: number }[]>;
	#drawn: DrawnChart;
	#sheet: ChartSheet;
	#ended = false;
	/** Colours of the sheet, as they were when this was drawn last. */
	readonly #inks = new Map<string, string>();

	constructor(canvas: HTMLCanvasElement, drawn: DrawnChart, sheet: ChartSheet) {
		this.#canvas = canvas;
		this.#drawn = drawn;
		this.#sheet = sheet;
		this.#chart = new Chart(canvas, {
			type: 'line',
			data: { datasets: [] },
			options: {
				animation: false,
				responsive: false,
				maintainAspectRatio: false,
				parsing: false,
				events: [],
			},
			plugins: [this.#lettering()],
		});
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
		if (this.#ended) return;
		this.#drawn = drawn;
		this.#sheet = sheet;
		this.#inks.clear();
		const { width, height, area, low, high } = sheet;
		const chart = this.#chart;
		const density = ground === 'paper' ? paperDensity : devicePixelRatio;
		if (
			width !== chart.width ||
			height !== chart.height ||
			density !== chart.currentDevicePixelRatio
		) {
			chart.options.devicePixelRatio = density;
			chart.resize(width, height);
		}
		chart.data.datasets = this.#datasets();
		chart.options.layout = {
			autoPadding: false,
			padding: {
				left: area.left,
				right: width - area.right,
				top: area.top,
				bottom: height - area.bottom,
			},
		};
		chart.options.scales = {
			x: { type: 'linear', display: false, min: low.x, max: high.x },
			y: { type: 'linear', display: false, min: low.y, max: high.y },
		};
		chart.update('none');
	}

	end(): void {
		this.#ended = true;
		this.#chart.destroy();
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

	/** The ± of each line lies under all lines, the points over them. */
	#datasets(): Dataset[] {
		const { lines, dots = false } = this.#drawn;
		const sure = lines.flatMap(({ points, sure }, index) => {
			if (!sure) return [];
			const edge = (sign: 1 | -1, fill: string | false): Dataset => ({
				data: points.map(({ x, y }, step) => ({ x, y: y + sign * (sure[step] ?? NaN) })),
				borderWidth: 0,
				pointRadius: 0,
				backgroundColor: faint(this.#inkOf(index)),
				fill,
			});
			return [edge(-1, false), edge(1, '-1')];
		});
		const drawn = lines.map(({ points }, index): Dataset => ({
			data: [...points],
			borderColor: this.#inkOf(index),
			borderDash: lineLook(index).dash,
			borderWidth: 2.6,
			showLine: !dots,
			pointRadius: dots ? 3 : 0,
			spanGaps: false,
		}));
		const marked = lines.flatMap(({ now, before, ways, kits }, index) => [
			...(ways ? [this.#points(ways, index, 'circle', 1.2)] : []),
			...(before ? [this.#points([before], index, 'rectRot', 1)] : []),
			...(kits ? [this.#points(kits, index, index === 0 ? 'circle' : 'rectRot', 1.2)] : []),
			...(now ? [this.#points([now], index, 'circle', 2)] : []),
		]);
		// What is first in the list is drawn on top.
		const all = [...marked.reverse(), ...drawn.reverse()];
		return [...sure, ...all.map((each, order) => ({ ...each, order: order - all.length }))];
	}

	#points(
		data: readonly { x: number; y: number }[],
		index: number,
		pointStyle: 'circle' | 'rectRot',
		borderWidth: number,
	): Dataset {
		return {
			data: data.map(({ x, y }) => ({ x, y })),
			showLine: false,
			pointStyle,
			pointRadius: ringRadius,
			pointBackgroundColor: this.#ink('--paper'),
			pointBorderColor: this.#inkOf(index),
			pointBorderWidth: borderWidth,
			clip: 8,
		};
	}

	/** Bands and grid lie under the lines, the mark and all words over them. */
	#lettering(): Plugin<'line'> {
		return {
			id: 'lettering',
			beforeDatasetsDraw: ({ ctx }) => {
				this.#drawGround(ctx);
			},
			beforeDatasetDraw: ({ ctx, data }, { index }) => {
				// The mark goes behind the rings of what stands on it.
				if (index !== firstRing(data.datasets)) return;
				this.#drawMark(ctx);
				this.#drawCrosses(ctx);
			},
			afterDatasetsDraw: ({ ctx, data }) => {
				if (firstRing(data.datasets) === undefined) this.#drawMark(ctx);
				this.#drawMeetings(ctx);
				this.#drawLetters(ctx);
			},
		};
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
		ctx.lineWidth = 0.8;
		ctx.strokeStyle = this.#ink('--line');
		for (const { x } of this.#drawn.ways ?? []) {
			stroke(ctx, { x: place({ x, y: 0 }).x, y: top }, { y: bottom });
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
		// In the reader's own colours bands are paper and the grid may be as dark as the words.
		const clear = this.#ink('--band') === this.#ink('--paper');
		ctx.strokeStyle = this.#ink('--paper');
		ctx.lineWidth = 3;
		ctx.lineJoin = 'round';
		for (const { text, x, y, size, ink, bold } of letters) {
			ctx.font = `${bold ? 'bold ' : ''}${size.toString()}px ${family}`;
			ctx.fillStyle = this.#inkOf(ink);
			if (clear) ctx.strokeText(text, x, y);
			ctx.fillText(text, x, y);
		}
	}
}

/** Index of the data set with rings that is drawn first. */
function firstRing(datasets: readonly ChartDataset<'line', unknown>[]): number | undefined {
	const rings = datasets.flatMap(({ showLine, pointRadius, order = 0 }, index) =>
		showLine === false && pointRadius === ringRadius ? [{ index, order }] : [],
	);
	return rings.sort((a, b) => b.order - a.order)[0]?.index;
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
