/**
 * How sure a figure is, by trying: the entries are scattered within their ± and every figure is worked out
 * again for each. It shows what the first-order ± cannot, where a figure bends within the ± of an entry.
 * After JCGM 101:2008 (propagation of distributions), with a Latin hypercube in place of plain chance:
 * M. D. McKay, R. J. Beckman, W. J. Conover, Technometrics 21 (1979) 239.
 */
import type { Graph, Node } from '../language/graph.ts';
import { normalDensity, normalQuantile } from './normal.ts';
import { partsOf, sourceOf, type PlusMinus } from './plus-minus.ts';
import { linked } from './reach.ts';
import { whatIf, type Run } from './run.ts';

/** What a figure came to over all samples. All SI. */
export interface Sampled {
	readonly mean: number;
	readonly standardDeviation: number;
	/** Ends of the interval that holds 95.45 per cent, with as many beyond it on either side. */
	readonly low: number;
	readonly high: number;
	/** Half that interval. */
	readonly plusMinus: number;
	/** How many samples gave a value. */
	readonly count: number;
	/** Part of the samples that gave none. */
	readonly failed: number;
}

/** Part of a normal distribution within two standard deviations, which is what every ± here covers. */
const covered = 0.9545;

/**
 * Scatters the entries. Each is taken as normal about its value with a standard deviation of half its ±,
 * for all ± are stated at the coverage factor k = 2 (JCGM 100:2008, 4.3 and 6.2), and as independent but
 * for the face and the gauge that two readings share. What follows another name until it is entered
 * scatters about what that comes to.
 * @param plusMinusOf ± of an input by its node, SI; 0 for none
 * @param wanted slots of quantities
 * @param seed a whole number above nought; the same one gives the same samples
 * @returns for each wanted slot; undefined where no sample gave a value
 */
export function sampledPlusMinus(
	graph: Graph,
	run: Run,
	plusMinusOf: (input: Node) => number,
	wanted: readonly number[],
	count = 1000,
	seed = 1,
): (Sampled | undefined)[] {
	const even = evenly(seed);
	const bySource = new Map<string, number[]>();
	const normals = (source: string): number[] => {
		const known = bySource.get(source);
		if (known) return known;
		const made = latin(count, even).map(normalQuantile);
		bySource.set(source, made);
		return made;
	};
	const entered: Scattered[] = [];
	const following: Scattered[] = [];
	const leading = linked(graph, wanted, 'needs');
	for (const node of graph.nodes) {
		if (!node.input || node.type?.kind !== 'quantity' || !leading.has(node.slot)) continue;
		const value = run.number(node.slot);
		const size = plusMinusOf(node);
		if (value === undefined || !(size > 0)) continue;
		const parts = partsOf(node, size, size).map((part) => ({
			deviation: part.brings / 2,
			list: normals(sourceOf(part)),
		}));
		const off = Array.from({ length: count }, (_, sample) =>
			parts.reduce((sum, { deviation, list }) => sum + deviation * (list[sample] as number), 0),
		);
		if (run.follows(node.slot)) following.push({ slot: node.slot, values: off });
		else entered.push({ slot: node.slot, values: off.map((each) => value + each) });
	}
	// In the order of the graph, so that what follows one that follows has its value.
	const rank = (slot: number): number => graph.rank[slot] ?? 0;
	following.sort((a, b) => rank(a.slot) - rank(b.slot));
	for (const { slot, values } of following) {
		const followed = asker(graph, run, entered, [slot]);
		const about = values.map((off, sample) => (followed(sample).number(slot) ?? NaN) + off);
		entered.push({ slot, values: about });
	}
	const ask = asker(graph, run, entered, wanted);
	const found = wanted.map((): number[] => []);
	for (let sample = 0; sample < count; sample++) {
		const moved = ask(sample);
		wanted.forEach((slot, index) => {
			const value = moved.number(slot);
			if (value !== undefined) found[index]?.push(value);
		});
	}
	return found.map((values) => summary(values, count));
}

/** An input and what it is in each sample, SI. */
interface Scattered {
	readonly slot: number;
	readonly values: readonly number[];
}

/** Asks what the wanted slots come to in a sample. */
function asker(
	graph: Graph,
	run: Run,
	scattered: readonly Scattered[],
	wanted: readonly number[],
): (sample: number) => Run {
	const list = [...scattered];
	const ask = whatIf(
		graph,
		run,
		list.map(({ slot }) => slot),
		wanted,
	);
	return (sample) => ask(list.map(({ values }) => values[sample] as number));
}

function summary(values: readonly number[], count: number): Sampled | undefined {
	const valid = values.length;
	const [first] = values;
	if (first === undefined) return undefined;
	// From the first value on, so that what does not scatter has a scatter of exactly nought.
	const mean = first + values.reduce((sum, value) => sum + (value - first), 0) / valid;
	const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
	// JCGM 101:2008, 7.7.2 (from memory): by rank, as many below as above.
	const sorted = [...values].sort((a, b) => a - b);
	const within = Math.min(valid - 1, Math.floor(covered * valid + 0.5));
	const rank = Math.floor((valid - within + 1) / 2);
	const low = sorted[rank - 1] as number;
	const high = sorted[rank - 1 + within] as number;
	return {
		mean,
		standardDeviation: valid > 1 ? Math.sqrt(squares / (valid - 1)) : 0,
		low,
		high,
		plusMinus: (high - low) / 2,
		count: valid,
		failed: (count - valid) / count,
	};
}

/**
 * Whether a figure bends so much within the ± of its entries that its first-order ± misleads.
 * @param value of the figure with the entries as they are, SI
 * @param least a difference too small to be seen in the figure, SI
 * @returns bends: the two ± differ, or the middle of the samples lies off the value, by more than a tenth
 * of the ± and what chance leaves between two lots of samples
 */
export function bends(
	value: number,
	firstOrder: PlusMinus,
	sampled: Sampled,
	least = 0,
): 'agree' | 'bends' {
	const size = Math.max(firstOrder.size, sampled.plusMinus);
	// Two standard deviations of half the interval and of the mean, for plain chance on a normal figure;
	// a Latin hypercube does no worse. That of a quantile is √(p(1 − p)/n) over the density there.
	const chance = 1 / Math.sqrt(sampled.count);
	const tail = (1 - covered) / 2;
	const ofInterval = (Math.sqrt(2 * tail * (1 - tail)) / (2 * normalDensity(2))) * chance;
	const differ = (a: number, b: number, part: number): boolean =>
		Math.abs(a - b) > Math.max(part * size, least);
	return differ(firstOrder.size, sampled.plusMinus, 0.1 + ofInterval) ||
		differ(value, sampled.mean, 0.1 + chance)
		? 'bends'
		: 'agree';
}

/** One share from each of so many even parts of 0 to 1, in a chance order. */
function latin(count: number, even: () => number): number[] {
	const shares = Array.from({ length: count }, (_, part) => (part + even()) / count);
	for (let last = count - 1; last > 0; last--) {
		const other = Math.floor(even() * (last + 1));
		[shares[last], shares[other]] = [shares[other] as number, shares[last] as number];
	}
	return shares;
}

/**
 * Numbers between 0 and 1, never either, in an order that looks like chance.
 * S. K. Park, K. W. Miller, Communications of the ACM 31 (1988) 1192, with the multiplier of 1993.
 */
function evenly(seed: number): () => number {
	const modulus = 2 ** 31 - 1;
	let state = seed % modulus || 1;
	const next = (): number => (state = (48271 * state) % modulus) / modulus;
	// A small seed begins with small numbers.
	for (let round = 0; round < 8; round++) next();
	return next;
}
