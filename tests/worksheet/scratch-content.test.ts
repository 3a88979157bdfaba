import { expect, it } from 'vitest';
import { shipped } from './shipped.ts';
import { problemInWords } from '../../src/lib/worksheet/problem.ts';
import { readTyped } from '../../src/lib/job/reading.ts';
import { readEntry } from '../../src/lib/worksheet/entry.ts';
import { runAll, whatIf } from '../../src/lib/worksheet/run.ts';
import { sweep } from '../../src/lib/worksheet/sweep.ts';
import { valueInWords, checkAnswer, filledIn } from '../../src/lib/job/figures.ts';
const g = shipped.graph; const sc = shipped.scenarios[0]!;
function runWith(sets: Record<string, string>, noDefault = false) {
	const typed: Record<string, string> = noDefault ? sets : { ...sc.values, ...sets };
	const inputs = new Map<string, any>();
	for (const n of g.nodes) {
		if (!n.input) continue;
		const t = typed[n.id];
		if (t === undefined) { if (!noDefault) console.log('NO VALUE', n.id); if (n.input.default !== undefined) inputs.set(n.id, n.input.default); continue; }
		const r = readTyped(n.input as any, String(t), sc.units);
		if ('problem' in r) console.log('BAD', n.id, r.problem); else { inputs.set(n.id, r.value); if (r.caution && !Object.keys(sets).length) console.log('CAUTION', n.id, r.caution); }
	}
	const run = runAll(g, inputs);
	return { run, fig: (system: any) => ({ graph: g, quantities: shipped.quantities, system, run, plusMinus: [] }) };
}
const checks = shipped.pages.flatMap((p) => p.parts.flatMap((x) => x.part === 'cell' && x.cell.kind === 'check' ? [x.cell] : []));
const drive: Record<string, Record<string, string>> = JSON.parse(process.env.DRIVE ?? '{}');
it('levels', () => {
	for (const p of shipped.problems) console.log(problemInWords(p));
	const reached = new Map<string, Set<string>>();
	for (const [why, sets] of Object.entries({ rest: {}, ...drive })) {
		const { run, fig } = runWith(sets);
		for (const n of g.nodes) if (run.failures[n.slot] ) { console.log(why, 'FAILED', n.id, run.failures[n.slot]?.message); break; }
		for (const c of checks) {
			const a = checkAnswer(c, fig('inch-pound'));
			if ('failure' in a) { console.log(why, c.name, 'fails'); continue; }
			const cases = (reached.get(c.name) ?? new Set()); reached.set(c.name, cases);
			const key = a.level + ' ' + c.cases.findIndex((k) => filledIn(k.because, fig('inch-pound')) === a.text);
			if (!cases.has(key)) { cases.add(key); if (a.level !== 'clear' || why !== 'rest') console.log(`[${why}] ${c.name} ${key}: ${a.text} → ${a.do}`); }
		}
	}
	for (const c of checks) { const want = c.cases.length + 1; if (reached.get(c.name)!.size !== want) console.log('NOT REACHED', c.name, [...reached.get(c.name)!].join(', '), 'of', want); }
	const { run, fig } = runWith({});
	for (const p of shipped.pages) for (const x of p.parts) if (x.part === 'cell' && x.cell.kind === 'chart') for (const s of x.cell.sweeps) {
		const slot = (n: string) => g.byId.get(n)!.slot;
		const f = sweep(g, run, slot(s.input), run.values[slot(s.from)] as number, run.values[slot(s.to)] as number, 21, x.cell.draw.map(slot));
		console.log('CHART', x.cell.name, s.input, x.cell.draw.map((_, i) => f.found[i]!.map((v) => v === undefined ? '-' : (v * (x.cell.name.includes('length') || x.cell.name.includes('drop_per') ? 39.37 : x.cell.name.includes('turn') && x.cell.name.includes('over_a') ? 1 : 57.2958)).toFixed(2)).join(' ')).join(' | '), f.gap?.failure.message ?? '');
	}
	for (const [p, s] of Object.entries(sc.story)) console.log('##', p, '\n' + filledIn(s, fig(process.env.SYS ?? 'metric')));
	// reference
	const deg = Math.PI / 180, inch = 0.0254;
	const A = { leaf_front: '24', leaf_rear: '30', leaf_rate: '160', leaf_arch: '3.5', eye_to_pivot: '53.6', pivot_up: '4.6', shackle_length: '5', spring_load: '850', seat_to_axle: '-3', pinion_reach: '12', pinion_rise: '-1.5', wheelbase: '118', trans_slope: '5', pinion_slope: '5', shaft_slope: '7', shaft_length: '58', eye_raise: '4.5' };
	const B = { leaf_front: '22', leaf_rear: '30', leaf_rate: '180', leaf_arch: '4', eye_to_pivot: '50.2', pivot_up: '-4', shackle_length: '4.5', shackle_stands: 'standing', spring_load: '900', seat_to_axle: '-3.25', pinion_reach: '11.5', pinion_rise: '-1.25', wheelbase: '115', trans_slope: '4', pinion_slope: '3.5', shaft_slope: '6', shaft_length: '52', pivot_raise: '2', shackle_longer: '1.5' };
	for (const c of [A, B]) {
		const { run } = runWith(c as any, true);
		const v = (n: string, u: number) => ((run.values[g.byId.get(n)!.slot] as number) / u).toFixed(6);
		console.log('CASE', ['front_joint', 'rear_joint', 'front_joint_bump', 'rear_joint_bump', 'front_joint_droop', 'rear_joint_droop'].map((n) => v(n, deg)).join(' '), ['shaft_length_bump_change', 'axle_forward_bump_change', 'shaft_length_droop_change', 'axle_forward_droop_change'].map((n) => v(n, inch)).join(' '), v('wind_up', 4.4482216152605 * 0.0254));
	}
	void readEntry; void whatIf;
	expect(shipped.problems.length).toBe(0);
});
