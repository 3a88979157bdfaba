/** Lines, or dots, drawn on a canvas by chart.js. Loaded when the first chart comes into sight. */
import {
	Chart,
	LineController,
	LineElement,
	LinearScale,
	PointElement,
	Tooltip,
	type Plugin,
} from 'chart.js';
import type { Band, Line } from '../answers/charts.ts';
import { lineLook } from './line-look.ts';

Chart.register(LineController, LineElement, LinearScale, PointElement, Tooltip);

export interface LinesDrawn {
	/** Titles of the axes. */
	readonly bottom: string;
	readonly side: string;
	readonly lines: readonly Pick<Line, 'label' | 'points' | 'now'>[];
	readonly bands: readonly Band[];
	/** Where along the bottom the present state stands. */
	readonly now: number | undefined;
	/** Whether the points stand each for itself. */
	readonly dots: boolean;
}

/** Draws on a canvas, anew each time it is told, and makes room for itself. */
export class LineCanvas {
	readonly #canvas: HTMLCanvasElement;
	readonly #chart: Chart<'line', { x: number; y: number }[]>;
	#drawn: LinesDrawn;
	#ended = false;

	constructor(canvas: HTMLCanvasElement, drawn: LinesDrawn) {
		this.#canvas = canvas;
		this.#drawn = drawn;
		this.#chart = new Chart(canvas, {
			type: 'line',
			data: { datasets: this.#datasets() },
			options: {
				animation: false,
				responsive: true,
				maintainAspectRatio: false,
				parsing: false,
				scales: this.#scales(),
				interaction: { mode: 'nearest', axis: drawn.dots ? 'xy' : 'x', intersect: false },
			},
			plugins: [this.#marks()],
		});
		// A canvas does not draw itself again when its letters have come.
		void document.fonts.load(`12px ${this.#ink('--figures')}`).then(() => {
			this.draw(this.#drawn);
		});
	}

	/** Draws something else, or the same in other colours. */
	draw(drawn: LinesDrawn): void {
		if (this.#ended) return;
		this.#drawn = drawn;
		this.#chart.data.datasets = this.#datasets();
		this.#chart.options.scales = this.#scales();
		this.#chart.update('none');
	}

	/** Takes the room it has now, as on paper. */
	fit(): void {
		this.#chart.resize();
	}

	end(): void {
		this.#ended = true;
		this.#chart.destroy();
	}

	/** A colour of the sheet, as it is in the light or the dark. */
	#ink(name: string): string {
		return getComputedStyle(this.#canvas).getPropertyValue(name).trim();
	}

	#datasets() {
		const { lines, dots } = this.#drawn;
		return lines.map(({ label, points }, index) => ({
			label,
			data: [...points],
			borderColor: this.#ink(lineLook(index).ink),
			borderDash: lineLook(index).dash,
			borderWidth: 2.6,
			showLine: !dots,
			pointRadius: dots ? 3 : 0,
			pointHitRadius: 8,
			spanGaps: false,
		}));
	}

	#scales() {
		return { x: this.#axis(this.#drawn.bottom), y: this.#axis(this.#drawn.side) };
	}

	#axis(text: string) {
		const font = { family: this.#ink('--figures') };
		return {
			type: 'linear' as const,
			title: { display: true, text, color: this.#ink('--line'), font },
			ticks: { color: this.#ink('--line'), font },
			grid: { color: this.#ink('--rule') },
			border: { color: this.#ink('--line') },
		};
	}

	/** Bands lie under the lines, the mark of the present state over them. */
	#marks(): Plugin<'line'> {
		return {
			id: 'marks',
			beforeDatasetsDraw: (chart) => {
				for (const band of this.#drawn.bands) this.#drawBand(chart, band);
			},
			afterDatasetsDraw: (chart) => {
				chart.ctx.strokeStyle = this.#ink('--line');
				this.#drawNow(chart);
				for (const { now } of this.#drawn.lines) if (now) this.#drawRing(chart, now);
			},
		};
	}

	#drawBand({ ctx, chartArea, scales }: Chart<'line'>, band: Band): void {
		const y = scales['y'];
		if (!y) return;
		const top = Math.max(chartArea.top, y.getPixelForValue(band.to));
		const low = Math.min(chartArea.bottom, y.getPixelForValue(band.from));
		if (low <= top) return;
		ctx.fillStyle = this.#ink('--band');
		ctx.fillRect(chartArea.left, top, chartArea.width, low - top);
		ctx.strokeStyle = this.#ink('--soft');
		ctx.lineWidth = 0.5;
		ctx.setLineDash([8, 3, 1, 3]);
		ctx.strokeRect(chartArea.left, top, chartArea.width, low - top);
		ctx.setLineDash([]);
	}

	#drawNow({ ctx, chartArea, scales }: Chart<'line'>): void {
		const { now } = this.#drawn;
		const at = now === undefined ? NaN : (scales['x']?.getPixelForValue(now) ?? NaN);
		if (!(at >= chartArea.left - 1 && at <= chartArea.right + 1)) return;
		ctx.lineWidth = 1;
		ctx.setLineDash([4, 3]);
		ctx.beginPath();
		ctx.moveTo(at, chartArea.top);
		ctx.lineTo(at, chartArea.bottom);
		ctx.stroke();
		ctx.setLineDash([]);
		ctx.fillStyle = this.#ink('--line');
		ctx.font = `12px ${this.#ink('--figures')}`;
		const right = at > chartArea.right - 40;
		ctx.textAlign = right ? 'right' : 'left';
		ctx.fillText('now', at + (right ? -5 : 5), chartArea.top + 12);
	}

	#drawRing({ ctx, chartArea, scales }: Chart<'line'>, { x, y }: { x: number; y: number }): void {
		const across = scales['x']?.getPixelForValue(x) ?? NaN;
		const up = scales['y']?.getPixelForValue(y) ?? NaN;
		if (!(across >= chartArea.left - 1 && across <= chartArea.right + 1)) return;
		ctx.beginPath();
		ctx.arc(across, up, 5, 0, 2 * Math.PI);
		ctx.fillStyle = this.#ink('--paper');
		ctx.fill();
		ctx.lineWidth = 2;
		ctx.stroke();
	}
}
